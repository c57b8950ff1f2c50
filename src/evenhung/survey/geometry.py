"""What cannot be: sizes of a window that contradict each other.

Only the impossible is refused here, and only between sizes that are stated. What is merely odd is a
caution of the plan.
"""

from __future__ import annotations

from operator import attrgetter
from typing import TYPE_CHECKING, Any, TypeAlias

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from evenhung.quantities import Length
    from evenhung.survey.box import Box, Pulley
    from evenhung.survey.fields import Record, Refusal
    from evenhung.survey.sash import Sash

    Records: TypeAlias = list[tuple[str, Record]]
    """The records that may state a size of one side, each after its path, the nearest first."""


def impossible_in(
    box: Box, pulley: Pulley, sashes: Iterable[tuple[str, Sash]]
) -> Iterator[Refusal]:
    """Give every contradiction in a window: where, what was found, what is allowed."""
    refusals = list(_impossible_frame(box, pulley, "", None))
    for place, sash in sashes:
        refusals += _impossible_frame(box, pulley, place, sash)
        for path, value, allowed in _impossible_in_sash(box, sash):
            refusals.append((f"{place}.{path}", value, allowed))
    yield from dict.fromkeys(refusals)  # what holds for the whole window comes up for each sash


def _impossible_frame(box: Box, pulley: Pulley, place: str, sash: Sash | None) -> Iterator[Refusal]:
    """Give what cannot be in the boxes and pulleys of a sash, or in the window's own."""
    for side in ("left", "right"):
        path, drop = _nearest(_records("box", box, side, place, sash), "pulley_drop")
        if drop.exact >= box.clear_height.exact:
            yield path, drop.text, f"less than the clear height, {box.clear_height.text}"
        records = _records("pulley", pulley, side, place, sash)
        path, axle = _nearest(records, "axle")
        _, wheel = _nearest(records, "wheel")
        if axle is not None and axle.exact >= wheel.exact:
            yield path, axle.text, f"less than the wheel, {wheel.text}"


def _records(name: str, whole: Box | Pulley, side: str, place: str, sash: Sash | None) -> Records:
    """Give the records that may state a size of one side; `name` is ``box`` or ``pulley``."""
    records: Records = [(f"{name}.{side}", getattr(whole, side)), (name, whole)]
    if sash is None:
        return records
    own = getattr(sash, name)
    return [(f"{place}.{name}.{side}", getattr(own, side)), (f"{place}.{name}", own), *records]


def _nearest(records: Records, field: str) -> tuple[str, Any]:
    """Give the path and the size that holds; None for the size where no record states it."""
    stated = ((f"{path}.{field}", getattr(record, field)) for path, record in records)
    return next(((path, size) for path, size in stated if size is not None), ("", None))


def _impossible_in_sash(box: Box, sash: Sash) -> Iterator[Refusal]:
    if sash.height.exact > box.clear_height.exact:
        yield "height", sash.height.text, f"at most the clear height, {box.clear_height.text}"
    if sash.width.exact > box.clear_width.exact:
        yield "width", sash.width.text, f"at most the clear width, {box.clear_width.text}"
    yield from _impossible_run(box, sash)
    yield from _impossible_cord(sash)
    yield from _impossible_division(sash)
    yield from _impossible_section(sash)
    yield from _impossible_weights(box, sash)


def _impossible_run(box: Box, sash: Sash) -> Iterator[Refusal]:
    room = box.clear_height.exact - sash.height.exact
    if sash.travel is not None:
        if sash.travel.exact > room:
            yield "travel", sash.travel.text, "at most the clear height less the height of the sash"
    elif sash.is_running and room == 0:
        yield "height", sash.height.text, "less than the clear height, for a sash that runs"
    elif sash.is_running and sash.horn is not None and sash.horn.exact >= room > 0:
        yield "horn", sash.horn.text, "less than the clear height less the height of the sash"


def _impossible_cord(sash: Sash) -> Iterator[Refusal]:
    if sash.cord_end is None:
        return
    if sash.cord_end.exact > sash.height.exact:
        yield "cord_end", sash.cord_end.text, f"at most the height of the sash, {sash.height.text}"
    if sash.top_nail is not None and sash.top_nail.exact > sash.cord_end.exact:
        yield "top_nail", sash.top_nail.text, f"at most the end of the cord, {sash.cord_end.text}"


def _impossible_division(sash: Sash) -> Iterator[Refusal]:
    """Give what leaves no glass across or up."""
    across, up = (sash.panes.across, sash.panes.up) if sash.panes else (1, 1)
    uprights = {"stile": 2, "bar": across - 1}
    levels = {"top_rail": 1, "bottom_rail": 1, "bar": up - 1}
    for counts, size, way in ((uprights, sash.width, "width"), (levels, sash.height, "height")):
        stated = {name: face for name in counts if (face := getattr(sash, name)) is not None}
        if sum(counts[name] * face.exact for name, face in stated.items()) >= size.exact:
            path, face = next(iter(stated.items()))
            allowed = f"{_listed(stated)} that leave glass in the {way}, {size.text}"
            yield path, face.text, allowed


def _listed(stated: dict[str, Length]) -> str:
    return " and ".join(f"{name.replace('_', ' ')}s" for name in stated)


_WITHIN = (
    ("rebate_depth", "thickness"),
    ("groove.width", "thickness"),
    ("groove.depth", "stile"),
    ("rebate_width", "stile"),
    ("rebate_width", "top_rail"),
    ("rebate_width", "bottom_rail"),
)
"""What is cut into or let into what, and is less."""


def _impossible_section(sash: Sash) -> Iterator[Refusal]:
    for inner, outer in _WITHIN:
        cut, whole = attrgetter(inner)(sash), getattr(sash, outer)
        if cut is not None and whole is not None and cut.exact >= whole.exact:
            yield inner, cut.text, f"less than the {outer.replace('_', ' ')}, {whole.text}"
    cut, bar = sash.rebate_width, sash.bar
    if cut is not None and bar is not None and 2 * cut.exact >= bar.exact:
        yield "rebate_width", cut.text, f"less than half a bar, for it has two rebates, {bar.text}"


def _impossible_weights(box: Box, sash: Sash) -> Iterator[Refusal]:
    for side, weight in (("left", sash.left), ("right", sash.right)):
        if weight is None or weight.length is None:
            continue
        _, space = _nearest(_records("box", box, side, "", sash), "weight_space")
        if weight.length.exact > space.exact:
            yield f"{side}.length", weight.length.text, f"at most the weight space, {space.text}"
        if weight.eye_depth is not None and weight.eye_depth.exact >= weight.length.exact:
            yield (
                f"{side}.eye_depth",
                weight.eye_depth.text,
                f"less than the length, {weight.length.text}",
            )
