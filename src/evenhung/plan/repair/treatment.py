"""What is proposed for each finding, what was decided instead, why, and what it takes away."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from evenhung.plan.repair.extent import extent_of, panes_of
from evenhung.plan.repair.splice import Splice, splice_for

if TYPE_CHECKING:
    from evenhung.plan.repair.extent import Extent
    from evenhung.plan.repair.piece import Piece, Sorts
    from evenhung.plan.words import Words
    from evenhung.survey.finding import Finding
    from evenhung.survey.sash import Sash


class Proposal(NamedTuple):
    """What would be done, and why."""

    what: str
    why: str


class Treatment(NamedTuple):
    """What shall be done about one finding."""

    finding: Finding
    what: str
    """One of the survey's treatments."""
    proposed: Proposal
    extent: Extent
    splice: Splice | None
    """Its splice; None where it is not spliced, or cannot be reckoned."""
    removes_mm3: float | None
    """Old timber or glass it takes away; None where that is not known."""

    @property
    def is_overridden(self) -> bool:
        """True where the survey has decided otherwise than proposed."""
        return self.what != self.proposed.what

    @property
    def why(self) -> str:
        """Why it is done."""
        return "as decided in the survey" if self.is_overridden else self.proposed.why


def treatment_of(finding: Finding, sash: Sash | None, sorts: Sorts, words: Words) -> Treatment:
    """Give the treatment of one finding: as the survey has decided, else as proposed.

    Parameters
    ----------
    finding
        What was found.
    sash
        The sash it is in; None for the frame.
    sorts
        All of its window.
    words
        How lengths are written.
    """
    piece = sorts.pieces.get(finding.part)
    extent = extent_of(finding, piece)
    if sash is not None and finding.member.kind in ("glass", "putty"):
        extent = extent._replace(panes=panes_of(finding, sash))
    splice = _splice(finding, piece, extent)
    proposed = _proposed(finding, piece, extent, splice, words)
    what = finding.treatment or proposed.what
    kept_splice = splice if what == "splice" else None
    removes = _removes_mm3(finding, what, sorts, extent, kept_splice)
    return Treatment(finding, what, proposed, extent, kept_splice, removes)


def _splice(finding: Finding, piece: Piece | None, extent: Extent) -> Splice | None:
    if piece is None or extent.decay is None or piece.kind == "bars":
        return None
    return splice_for(piece, extent.decay, finding.slope)


def _proposed(
    finding: Finding, piece: Piece | None, extent: Extent, splice: Splice | None, words: Words
) -> Proposal:
    if finding.seen == "sound" or finding.grade == "sound":
        return Proposal("leave", "it is sound")
    if finding.bears_load == "yes" and finding.seen in ("rot", "split", "broken", "missing"):
        return Proposal("leave", "it bears load: an engineer decides before it is cut")
    kind = finding.member.kind
    if kind in _BY_WHAT_WAS_SEEN:
        return _BY_WHAT_WAS_SEEN[kind][finding.seen]
    if kind == "glass":
        return _of_glass(finding)
    if finding.seen in ("rot", "split", "broken") and piece is not None:
        return _of_decay(finding, piece, extent, splice, words)
    return _OF_TIMBER[finding.seen]


_OF_TIMBER = {
    "rot": Proposal("renew sash", "it is rotten as a whole: look at each member, and enter them"),
    "split": Proposal("clean and ease", "a split: enter it at the member it is in"),
    "open joint": Proposal("consolidate", "clean out the joint, glue it and pin it again"),
    "worn": Proposal("clean and ease", "worn, and sound beneath"),
    "loose": Proposal("consolidate", "fix it again"),
    "broken": Proposal("renew sash", "broken as a whole"),
    "missing": Proposal("renew part", "it is not there"),
    "painted over": Proposal("clean and ease", "free it from its paint"),
}

_RENEWED = Proposal("renew part", "past mending, and small")
_REFIXED = Proposal("clean and ease", "sound: clean it and fix it again")
_GONE = Proposal("renew part", "it is not there")
_OF_SMALL_TIMBER = {
    **dict.fromkeys(("rot", "split", "broken"), _RENEWED),
    **dict.fromkeys(("open joint", "worn", "loose", "painted over"), _REFIXED),
    "missing": _GONE,
}
_BED = Proposal("re-bed", "putty that has let go lets water into the rebate")
_HANG = Proposal("re-cord", "a cord that may part is renewed")
_OIL = Proposal("overhaul", "clean, free and oil it: an old pulley is worth keeping")
_BY_WHAT_WAS_SEEN: dict[str, dict[str, Proposal]] = {
    **dict.fromkeys(("slip", "pocket"), _OF_SMALL_TIMBER),
    "bead": {
        **_OF_SMALL_TIMBER,
        "worn": Proposal("renew part", "worn: it no longer holds the sash in its run"),
    },
    "sash": {
        **_OF_TIMBER,
        "missing": Proposal("renew sash", "it is not there"),
        "open joint": Proposal("clean and ease", "cramp it up square: enter each open joint"),
        "loose": Proposal("clean and ease", "it shakes in its joints: enter each open joint"),
    },
    "putty": dict.fromkeys(("cracked", "loose", "perished", "missing"), _BED),
    "paint": {
        "flaking": Proposal("paint", "bare timber takes up water"),
        "missing": Proposal("paint", "bare timber takes up water"),
        "built up": Proposal("strip and paint", "paint so thick that it binds"),
    },
    "cord": dict.fromkeys(("worn", "broken", "missing", "painted over"), _HANG),
    "pulley": {
        **dict.fromkeys(("worn", "loose", "seized", "rusted", "painted over"), _OIL),
        **dict.fromkeys(("broken", "missing"), Proposal("renew part", "it cannot carry a cord")),
    },
    "fittings": {
        **dict.fromkeys(("worn", "loose", "seized", "rusted", "painted over"), _REFIXED),
        **dict.fromkeys(("broken", "missing"), _GONE),
    },
}
"""Where what was seen decides by itself."""


def _of_glass(finding: Finding) -> Proposal:
    if finding.seen == "loose":
        return Proposal("re-bed", "sound glass in failed putty")
    if finding.seen == "cracked" and finding.historic == "yes":
        return Proposal("leave", "old glass: a crack that is tight and keeps water out can stay")
    if finding.historic == "yes":
        return Proposal("renew pane", "it is broken: keep the pieces to match the new glass by")
    return Proposal("renew pane", _NEW_GLASS[finding.seen])


_NEW_GLASS = {
    "cracked": "a crack lets water in, and grows",
    "broken": "broken glass may fall",
    "missing": "it is not there",
}


def _of_decay(
    finding: Finding, piece: Piece, extent: Extent, splice: Splice | None, words: Words
) -> Proposal:
    if finding.grade == "gone":
        return Proposal("renew part", "nothing of it is left to mend")
    if finding.seen == "split" and (piece.kind == "bars" or not extent.is_long):
        return Proposal("consolidate", "glue and cramp the split")
    if piece.kind == "bars":
        return Proposal("renew part", "a bar is too slender to be spliced")
    if extent.decay is None:
        return Proposal("splice", f"{finding.seen} whose extent is not recorded: measure it")
    if extent.is_slight:
        return Proposal("consolidate", "shallow and short: cut it out to sound wood, and fill")
    return _of_deep_decay(piece, extent, splice, words)


def _of_deep_decay(piece: Piece, extent: Extent, splice: Splice | None, words: Words) -> Proposal:
    if splice is None:
        return Proposal("renew part", "no room beyond the decay for a splice's slope")
    if extent.is_most_of(piece, splice):
        return Proposal("renew part", "a splice would take most of it")
    beyond, run = words.length(splice.beyond_mm), words.length(splice.scarf_mm)
    return Proposal(
        "splice",
        f"cut {beyond} beyond the decay, then a slope of 1 in {splice.slope:g}, {run} long",
    )


def _removes_mm3(
    finding: Finding, what: str, sorts: Sorts, extent: Extent, splice: Splice | None
) -> float | None:
    """Give what a treatment takes away; what is missing cannot be taken away."""
    if finding.seen == "missing":
        return 0.0
    piece, place = sorts.pieces.get(finding.part), finding.member.place
    if what == "splice":
        return splice.replaced_mm3 if splice is not None else None
    if what == "consolidate":
        return extent.decay_mm3 if finding.seen == "rot" else 0.0
    if what == "renew sash":
        return sum(one.volume_mm3 for one in sorts.pieces.values() if one.place == place)
    if what == "renew pane":
        return len(extent.panes) * sorts.panes[place].volume_mm3
    return piece.volume_mm3 if what == "renew part" and piece is not None else 0.0
