"""Full-size marking strips: paper rules for cord marks, nails and pockets, to be cut out."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

from evenhung.plan.facts import known
from evenhung.plan.takeoff.cords import line_of
from evenhung.sheets.pack.cautions import DEFERENCE
from evenhung.sheets.pack.figures import length, shortened
from evenhung.sheets.pack.typesetting import typeset

if TYPE_CHECKING:
    from collections.abc import Iterator

    from evenhung.plan import SashPlan
    from evenhung.plan.words import Words
    from evenhung.sheets.pack.house import PackHouse

PIECE_MM = {"a4": 230, "letter": 210}
"""Length of one piece of a strip; longer strips are joined."""

RULER_MM = {"a4": 270, "letter": 240}
"""Length of the check ruler: along the paper, as every strip lies, and as long as leaves a margin
that printers keep. One of 300 mm would lie at a slant across the strips, and on Letter would show
only three quarters of what a printer is out along the paper (the square of 262 over 300)."""

OUT_MM_IN_300 = 0.5
"""How far the check ruler may be out before the sheet is thrown away, in 300 mm."""


_WORDS_MM = 55.0
"""Room for the words of a mark, along the strip."""


class Mark(NamedTuple):
    """One mark on a strip."""

    mm: float
    says: str


class Strip(NamedTuple):
    """One strip, marked from one end."""

    name: str
    begins: str
    """What its beginning is laid on."""
    marks: tuple[Mark, ...]


def marking_strips(house: PackHouse) -> bytes:
    """Give the marking strips of a house as PDF; sashes marked alike share a sheet."""
    alike: dict[tuple[Strip, ...], list[str]] = {}
    for sash in house.plan.sashes():
        strips = tuple(strips_of(sash))
        if strips:
            name = f"{shortened(sash.window.tag, 30)} {sash.place}"
            alike.setdefault(strips, []).append(name)
    piece, ruler = PIECE_MM[house.edition.paper], RULER_MM[house.edition.paper]
    data = {
        "sheets": [
            {"sashes": names, "strips": [_data(strip, piece, house.words) for strip in strips]}
            for strips, names in alike.items()
        ],
        "piece": piece,
        "ruler": ruler,
        "out": f"{OUT_MM_IN_300 * ruler / 300.0:.2f}".rstrip("0"),
        "deference": DEFERENCE,
    }
    return typeset("strips", data, house=house.name, edition=house.edition)


def strips_of(sash: SashPlan) -> Iterator[Strip]:
    """Give the strips of one sash: for its stiles, for its cords, for its pockets."""
    if sash.proposal is None:
        return
    hang, inputs = sash.proposal.hang, sash.proposal.inputs
    stile = [Mark(sash.sash.cord_end.mm, "cord ends")] if sash.sash.cord_end else []
    if not math.isnan(inputs.top_nail_mm) and sash.sash.anchorage != "knotted":
        stile.append(Mark(inputs.top_nail_mm, "top nail"))
    if stile:
        yield Strip("Stile", "top of the sash", _sorted(stile))
    if known(hang.working_mm) is not None and line_of(sash) == "cord":
        marks = [
            Mark(hang.mark_slack_mm, "slack"),
            Mark(hang.working_mm, "taut"),
            Mark(hang.cut_mm, "cut"),
        ]
        yield Strip("Cord", "cord's end at the sash", _sorted(marks))
    for side, one in (("left", inputs.left), ("right", inputs.right)):
        foot, high = one.pocket_above_sill_mm, one.pocket_height_mm
        if not math.isnan(foot + high):
            marks = [Mark(foot, "pocket begins"), Mark(foot + high, "pocket ends")]
            yield Strip(f"Pocket {side}", "sill", _sorted(marks))


def _sorted(marks: list[Mark]) -> tuple[Mark, ...]:
    return tuple(sorted(Mark(round(mark.mm, 2), mark.says) for mark in marks))


def _data(strip: Strip, piece: int, words: Words) -> dict[str, object]:
    """Give a strip in its pieces, each mark where it lies on its piece."""
    end = strip.marks[-1].mm
    pieces: list[dict[str, object]] = []
    for number in range(max(1, math.ceil(end / piece))):
        start = number * piece
        last = math.ceil(end / piece) - 1
        marks = [
            {"at": mark.mm - start, "says": mark.says, "mm": length(words, mark.mm)}
            for mark in strip.marks
            if start <= mark.mm and (mark.mm < start + piece or number == last)
        ]
        rest = math.ceil((end - start + _WORDS_MM) / 10.0) * 10
        long = piece if number < last else min(piece, rest)
        pieces.append({"start": start, "long": long, "marks": marks})
    return {"name": strip.name, "begins": strip.begins, "pieces": pieces}
