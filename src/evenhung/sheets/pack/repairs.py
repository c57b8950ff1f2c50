"""The repair of a window in words: what was found of it, what is done, with which sizes."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from evenhung.sheets.kept import kept_lines
from evenhung.sheets.pack.figures import breakable, length, section, shortened

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from evenhung.notes import Note
    from evenhung.plan import WindowPlan
    from evenhung.plan.overhaul import WindowOverhaul
    from evenhung.plan.repair.diagnosis import SymptomPlan
    from evenhung.plan.repair.treatment import Treatment
    from evenhung.plan.words import Words
    from evenhung.sheets.pack.figures import Figure
    from evenhung.sheets.pack.house import PackHouse
    from evenhung.survey.finding import Finding


LONGEST_NOTE = 160
"""Letters of the note of a finding that a card has room for."""


class Repair(NamedTuple):
    """What was found of one part, and what is done about it."""

    part: str
    """With the panes that are meant."""
    found: str
    """With all of its note."""
    brief: str
    """The same, for a card: with the beginning and the end of a long note."""
    what: str
    """One of the survey's treatments."""
    how: str
    """Why, and with which sizes."""
    short: str
    """The sizes alone, in the house's own system; of what is not cut or ordered, why."""


def repair_data(house: PackHouse, window: WindowPlan) -> dict[str, object]:
    """Give the repair of a window as plain data; its lists are empty where nothing was found.

    Parameters
    ----------
    house
        The house it is in.
    window
        The window.
    """
    overhaul = house.overhaul_of(window)
    if overhaul is None:
        return {name: [] for name in ("repairs", "cautions_found", "brief", "symptoms", "kept")}
    doubts = [note for note in overhaul.notes if note.severity != "info"]
    is_touched = bool(overhaul.repair.treatments)
    return {
        "repairs": [one._asdict() for one in repairs_of(overhaul, house.words)],
        "cautions_found": [
            {"text": breakable(note.text), "source": note.source} for note in doubts
        ],
        "brief": _in_brief(doubts),
        "symptoms": [_symptom(one) for one in overhaul.repair.symptoms],
        "kept": list(kept_lines(overhaul.repair.fabric)) if is_touched else [],
    }


def repairs_of(overhaul: WindowOverhaul, words: Words) -> list[Repair]:
    """Give what was found of each part of a window and what is done about it."""
    return [
        Repair(
            _part(one),
            _found(one.finding, words, one.finding.note),
            _found(one.finding, words, shortened(one.finding.note or "", LONGEST_NOTE)),
            one.what,
            breakable("; ".join((one.why, *_sizes(overhaul, one, _Both(words))))),
            breakable("; ".join(_short(overhaul, one, _Own(words)))),
        )
        for one in overhaul.repair.treatments
    ]


def became_of(house: PackHouse, window: WindowPlan) -> dict[str, object]:
    """Give what becomes of a window's parts as plain data: kept, mended, spliced, renewed.

    Parameters
    ----------
    house
        The house it is in.
    window
        The window.
    """
    overhaul = house.overhaul_of(window)
    found: dict[str, list[str]] = {fate: [] for fate in dict.fromkeys(_FATES.values())}
    for one in overhaul.repair.treatments if overhaul is not None else ():
        found[_FATES[one.what]].append(_part(one))
    return {"became": {fate: list(dict.fromkeys(parts)) for fate, parts in found.items()}}


_FATES = {
    "leave": "kept as found",
    **dict.fromkeys(("clean and ease", "overhaul", "paint", "strip and paint"), "kept and cleaned"),
    **dict.fromkeys(("consolidate", "re-bed"), "kept and mended"),
    "splice": "spliced",
    **dict.fromkeys(("renew part", "renew sash", "renew pane", "re-cord"), "renewed"),
}
"""What each treatment makes of its part."""


class _Both:
    """Writes sizes in both systems."""

    def __init__(self, words: Words) -> None:
        self.words = words

    def length(self, mm: float) -> str:
        """Write a length given in mm."""
        return _written(length(self.words, mm))

    def section(self, first_mm: float, second_mm: float) -> str:
        """Write a section given in mm."""
        return _written(section(self.words, first_mm, second_mm))


class _Own(_Both):
    """Writes sizes in the house's own system: a bench card is short of room."""

    def length(self, mm: float) -> str:
        """Write a length given in mm."""
        figure = length(self.words, mm)
        return figure["own"] if figure else ""

    def section(self, first_mm: float, second_mm: float) -> str:
        """Write a section given in mm."""
        return section(self.words, first_mm, second_mm)["own"]


def _short(overhaul: WindowOverhaul, one: Treatment, write: _Both) -> Iterator[str]:
    """Give what the bench must know: how it is mended where no size says it, and the sizes."""
    if one.what in ("leave", "consolidate"):
        yield one.proposed.why if not one.is_overridden else one.why
    yield from _sizes(overhaul, one, write)


def _part(one: Treatment) -> str:
    """Name a part; of glass and putty, with the panes where not all of them are meant."""
    finding = one.finding
    place = [f"{finding.column} from the left"] if finding.column else []
    place += [f"{finding.row} from the top"] if finding.row else []
    return f"{finding.part}, {', '.join(place)}" if place else finding.part


def _found(finding: Finding, words: Words, note: str | None) -> str:
    """Say what was seen, how far it goes and how bad it is."""
    said = [finding.seen]
    if finding.length is not None:
        said.append(f"{words.length(finding.length.mm)} long{_whence(finding, words)}")
    if finding.depth is not None:
        said.append(f"{words.length(finding.depth.mm)} deep")
    if finding.moisture_pct is not None:
        said.append(f"{finding.moisture_pct:g} % moisture")
    if finding.grade is not None:
        said.append(finding.grade)
    if finding.historic == "yes":
        said.append("old glass")
    if finding.photo:
        said.append(f"{len(finding.photo)} photo{'s' if len(finding.photo) > 1 else ''} kept")
    if note:
        said.append(note)
    return breakable(", ".join(said))


def _whence(finding: Finding, words: Words) -> str:
    """Say from where along its part it goes; empty where that is not recorded."""
    end = finding.measured_from
    if end is None:
        return ""
    if finding.begins is None:
        return f" from the {end}"
    off = {"bottom": "above", "top": "below"}.get(end, "off")
    return f" from {words.length(finding.begins.mm)} {off} the {end}"


def _sizes(overhaul: WindowOverhaul, one: Treatment, write: _Both) -> Iterator[str]:
    """Give the sizes that a treatment is done by."""
    piece = overhaul.repair.sorts.pieces.get(one.finding.part)
    if one.splice is not None:
        splice = one.splice
        if isinstance(write, _Own) or one.is_overridden:
            beyond, run = write.length(splice.beyond_mm), write.length(splice.scarf_mm)
            yield f"cut {beyond} beyond the decay, then 1 in {splice.slope:g} over {run}"
        size = write.section(splice.section_mm2 / splice.across_mm, splice.across_mm)
        yield f"new piece {write.length(splice.piece_mm)} point to point, {size}"
    elif one.what == "renew part" and piece is not None:
        size = write.section(piece.face_mm, piece.thick_mm)
        yield f"new one {write.length(piece.length_mm)} long, {size}"
    elif one.what == "consolidate" and one.extent.decay is not None and isinstance(write, _Own):
        decay = one.extent.decay
        long, deep = write.length(decay.high_mm - decay.low_mm), write.length(decay.depth_mm)
        yield f"{long} long, {deep} deep"
    elif one.what == "renew pane":
        place = one.finding.member.place
        sizes = {
            (pane.width_mm, pane.height_mm, pane.sheet_mm)
            for pane in overhaul.glazing.panes
            if pane.place == place and (pane.column, pane.row) in one.extent.panes
        }
        for width, height, thick in sorted(sizes):
            yield f"pane {write.section(width, height)}, {thick:g} mm thick"


def _written(figure: Figure | None) -> str:
    if figure is None:
        raise ValueError("a length that is not known")
    return f"{figure['own']} ({figure['other']})" if figure["other"] else figure["own"]


_IN_BRIEF = {
    "decay-wet": "let it dry before it is glued, filled or painted",
    "safety-glass": "safety glass may be asked for: read the buying list before it is ordered",
    "glass-not-checked": "by a bath, a stair or a rail, ask before glass is ordered",
    "may-bear-load": "may bear load: ask before it is cut",
}
"""Cautions of which a card says the gist, and for which parts; the house sheet has them whole."""


def _in_brief(notes: Iterable[Note]) -> list[str]:
    """Say cautions short: one of a kind once, with the parts that it is of."""
    said: dict[str, list[str]] = {}
    for note in notes:
        part, is_named, _ = note.text.partition(": ")
        if note.code in _IN_BRIEF and is_named:
            said.setdefault(_IN_BRIEF[note.code], []).append(part)
        elif note.code != "guarding":
            said.setdefault(note.text, [])
    return [
        breakable(f"{', '.join(dict.fromkeys(parts))}: {text}" if parts else text)
        for text, parts in said.items()
    ]


def _symptom(one: SymptomPlan) -> dict[str, str]:
    """Give a symptom, its likeliest cause and the test to make first."""
    sash, likely, first = one.symptom.sash, one.suspects[0], one.tests[0]
    says = f": {likely.sign.says}" if likely.sign.holds and likely.sign.says else ""
    return {
        "what": f"{sash} sash {one.symptom.what}" if sash else one.symptom.what,
        "when": one.symptom.when or "",
        "likely": breakable(f"{likely.cause} ({100.0 * likely.share:.0f} %{says})"),
        "ask": breakable(first.ask),
        "yes": breakable(" or ".join(first.yes)),
    }
