"""What cannot be: sizes of a window that contradict each other.

Only the impossible is refused here. What is merely odd is a caution of the plan.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from evenhung.survey.box import Box
    from evenhung.survey.fields import Refusal
    from evenhung.survey.sash import Sash


def impossible_in(box: Box, sashes: Iterable[tuple[str, Sash]]) -> Iterator[Refusal]:
    """Give every contradiction in a window: where, what was found, what is allowed."""
    if box.pulley_drop.exact >= box.clear_height.exact:
        yield (
            "box.pulley_drop",
            box.pulley_drop.text,
            f"less than the clear height, {box.clear_height.text}",
        )
    for place, sash in sashes:
        for path, value, allowed in _impossible_in_sash(box, sash):
            yield f"{place}.{path}", value, allowed


def _impossible_in_sash(box: Box, sash: Sash) -> Iterator[Refusal]:
    if sash.height.exact > box.clear_height.exact:
        yield "height", sash.height.text, f"at most the clear height, {box.clear_height.text}"
    if sash.width.exact > box.clear_width.exact:
        yield "width", sash.width.text, f"at most the clear width, {box.clear_width.text}"
    room = box.clear_height.exact - sash.height.exact
    if sash.travel is not None and sash.travel.exact > room:
        yield "travel", sash.travel.text, "at most the clear height less the height of the sash"
    yield from _impossible_cord(sash)
    yield from _impossible_section(sash)
    yield from _impossible_weights(box, sash)


def _impossible_cord(sash: Sash) -> Iterator[Refusal]:
    if sash.cord_end is None:
        return
    if sash.cord_end.exact > sash.height.exact:
        yield "cord_end", sash.cord_end.text, f"at most the height of the sash, {sash.height.text}"
    if sash.top_nail is not None and sash.top_nail.exact > sash.cord_end.exact:
        yield "top_nail", sash.top_nail.text, f"at most the end of the cord, {sash.cord_end.text}"


def _impossible_section(sash: Sash) -> Iterator[Refusal]:
    panes = sash.panes
    bar = sash.bar.exact if sash.bar else 0
    stiles = 2 * sash.stile.exact if sash.stile else 0
    rails = sum(rail.exact for rail in (sash.top_rail, sash.bottom_rail) if rail)
    if stiles + bar * ((panes.across if panes else 1) - 1) >= sash.width.exact:
        yield (
            "stile",
            sash.stile.text if sash.stile else "(absent)",
            "stiles and bars that leave width for glass",
        )
    if rails + bar * ((panes.up if panes else 1) - 1) >= sash.height.exact:
        given = ", ".join(rail.text for rail in (sash.top_rail, sash.bottom_rail) if rail)
        yield "bottom_rail", given or "(absent)", "rails and bars that leave height for glass"
    glass = sash.glass.thickness
    if glass and sash.thickness and glass.exact >= sash.thickness.exact:
        yield (
            "glass.thickness",
            glass.text,
            f"less than the thickness of the sash, {sash.thickness.text}",
        )


def _impossible_weights(box: Box, sash: Sash) -> Iterator[Refusal]:
    for side, weight in (("left", sash.left), ("right", sash.right)):
        if weight is None or weight.length is None:
            continue
        own = getattr(sash.box, side).weight_space or sash.box.weight_space
        space = own or getattr(box, side).weight_space or box.weight_space
        if weight.length.exact > space.exact:
            yield f"{side}.length", weight.length.text, f"at most the weight space, {space.text}"
