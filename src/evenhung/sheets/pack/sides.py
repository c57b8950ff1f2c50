"""What hangs at each side of a sash, where it comes from and what is done to it, in few words."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

from evenhung.physics.hang import RESOLUTION_KG
from evenhung.plan.allotment.sentences import piece_words, what_comes
from evenhung.plan.frame import SIDES
from evenhung.sheets.pack.figures import breakable, length, mass, shortened

if TYPE_CHECKING:
    from evenhung.plan import SashPlan
    from evenhung.plan.allotment.outcome import Hanging
    from evenhung.plan.frame import Side as Hand
    from evenhung.plan.proposal import HungWeight
    from evenhung.plan.words import Words
    from evenhung.sheets.pack.house import PackHouse
    from evenhung.survey.weight import Weight


LONGEST_MARK = 16
"""Letters of a mark that a sheet shows."""


class Side(NamedTuple):
    """One side of a sash as its sheets have it."""

    side: Hand
    hung: HungWeight
    source: str
    """Where the weight comes from."""
    change: str
    """What is added to it or taken off; empty where it is left as it is."""
    is_kept: bool
    """Whether the weight found there hangs there again, whatever is done to it."""

    @property
    def is_untouched(self) -> bool:
        """Whether the weight found there hangs there again as it is."""
        return self.is_kept and not self.change


def sides_of(house: PackHouse, sash: SashPlan) -> tuple[Side, ...]:
    """Give both sides of a sash, the left one first; none where nothing can be proposed."""
    if sash.proposal is None:
        return ()
    served = house.served.get((sash.window.tag, sash.place))
    pairs = zip(SIDES, (sash.proposal.left, sash.proposal.right), strict=True)
    if served is None:
        return tuple(_planned(side, hung, sash, house.words) for side, hung in pairs)
    hangings = (served.left, served.right)
    return tuple(
        _allotted(side, hung, hanging, house.words)
        for (side, hung), hanging in zip(pairs, hangings, strict=True)
    )


def side_data(side: Side, words: Words) -> dict[str, object]:
    """Give a side as plain data."""
    return {
        "side": side.side,
        "hang": mass(words, side.hung.mass_kg),
        "source": breakable(side.source),
        "change": breakable(side.change),
        "long": length(words, side.hung.length_mm),
        "across": length(words, side.hung.across_mm),
        "metal": side.hung.metal,
        "is_untouched": side.is_untouched,
    }


def _planned(side: Hand, hung: HungWeight, sash: SashPlan, words: Words) -> Side:
    """Give a side on the weight found there, or on a new one."""
    if hung.origin == "new":
        return Side(side, hung, f"a new weight of {hung.metal}", "", is_kept=False)
    weight: Weight | None = getattr(sash.sash, side)
    marked = (
        f", marked {shortened(weight.marked, LONGEST_MARK)}" if weight and weight.marked else ""
    )
    return Side(side, hung, f"its own weight{marked}", _own_change(hung, words), is_kept=True)


def _own_change(hung: HungWeight, words: Words) -> str:
    if hung.add_kg > RESOLUTION_KG:
        long = ""
        if hung.added_metal and not math.isnan(hung.added_mm):
            long = f": {words.length(hung.added_mm)} of {hung.added_metal}, as thick as the weight"
        return f"add {words.mass(hung.add_kg)}{long}"
    if hung.add_kg < -RESOLUTION_KG:
        return f"take {words.mass(-hung.add_kg)} off it"
    return ""


def _allotted(side: Hand, hung: HungWeight, hanging: Hanging, words: Words) -> Side:
    """Give a side on what is allotted to it."""
    is_kept = hanging.origin == "found"
    source = "its own weight" if is_kept else what_comes(hanging, words)
    changes = []
    if hanging.pieces:
        sizes = ", ".join(
            f"{count} × {piece_words(piece)}" if count > 1 else piece_words(piece)
            for piece, count in hanging.pieces
        )
        changes.append(f"add {sizes}, {words.mass(hanging.added_kg)} in all")
    if hanging.off_kg > RESOLUTION_KG:
        changes.append(f"take {words.mass(hanging.off_kg)} off it")
    return Side(side, hung, source, ", ".join(changes), is_kept)
