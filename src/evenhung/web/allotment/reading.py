"""An answer as a page reads it out: sash by sash, each side with what is decided about it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

from evenhung.web.allotment.deciding import Wish

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from evenhung.web.allotment.deciding import Decisions, Made
    from evenhung.web.allotment.models import Run

WHERE_IT_WAS = "found"


class SideLine(NamedTuple):
    """One side of a sash in the answer."""

    number: int
    """Its place in the answer, by which a form speaks of it."""
    side: str
    says: str
    kg: float
    length_mm: float | None
    is_new: bool
    """Whether what hangs there is made or bought: there is no weight to decide on."""
    stays: bool
    """Whether nothing is done to it."""
    made: Made | None
    """What is decided or done there."""


class SashLines(NamedTuple):
    """One sash in the answer."""

    name: str
    """Its tag and its place."""
    kg: float
    excess_kg: float
    """How much heavier the sash is than its pair; negative where it is lighter."""
    lighter_kg: float
    """The same the other way round."""
    sides: tuple[SideLine, ...]

    @property
    def stays(self) -> bool:
        """Whether nothing is done to either side."""
        return all(side.stays for side in self.sides)


def sashes_of(run: Run, decisions: Decisions) -> list[SashLines]:
    """Give the sashes that an answer serves, in the order of the house."""
    answer, names = run.answer, run.names
    if answer is None:
        return []
    sides: dict[str, list[SideLine]] = {}
    for number, side in enumerate(answer["sides"]):
        name = f"{side['window']} {side['sash']}"
        made = decisions.at(names["sashes"][name], side["side"])
        sides.setdefault(name, []).append(_side(number, side, names, made))
    return [_sash(one, tuple(sides[f"{one['window']} {one['sash']}"])) for one in answer["sashes"]]


def _sash(one: Mapping[str, Any], sides: tuple[SideLine, ...]) -> SashLines:
    excess = one["excess_kg"]
    return SashLines(f"{one['window']} {one['sash']}", one["mass_kg"], excess, -excess, sides)


def _side(
    number: int, side: Mapping[str, Any], names: Mapping[str, Mapping[str, str]], made: Made | None
) -> SideLine:
    return SideLine(
        number,
        side["side"],
        side["says"],
        side["mass_kg"],
        side["length_mm"],
        is_new=side["weight"] not in names["weights"],
        stays=side["origin"] == WHERE_IT_WAS and not side["add"] and not side["off_kg"],
        made=made,
    )


def side_at(run: Run, number: int) -> dict[str, Any]:
    """Give one side of an answer as plain data.

    Raises
    ------
    LookupError
        Where the answer has no such side.
    """
    sides: list[dict[str, Any]] = run.answer["sides"] if run.answer else []
    if number < 0:
        raise LookupError(f"no side {number}")
    return sides[number]


def wish_of(run: Run, number: int) -> Wish | None:
    """Give one side of an answer by lasting names; None where what hangs there is new.

    Raises
    ------
    LookupError
        Where the answer has no such side.
    """
    side, names = side_at(run, number), run.names
    if side["weight"] not in names["weights"]:
        return None
    sash = names["sashes"][f"{side['window']} {side['sash']}"]
    return Wish(sash, side["side"], names["weights"][side["weight"]])


def wishes_of(run: Run) -> list[Wish]:
    """Give every side of an answer at which a weight of the house shall hang."""
    sides: Sequence[Any] = run.answer["sides"] if run.answer else ()
    found = (wish_of(run, number) for number in range(len(sides)))
    return [wish for wish in found if wish is not None]


def places_of(run: Run | None) -> dict[str, str]:
    """Say by the id of each weight where the answer hangs it; nothing where it has no say."""
    answer = run.answer if run else None
    if run is None or answer is None:
        return {}
    names, said = run.names["weights"], {}
    for side in answer["sides"]:
        if side["weight"] in names:
            place = f"{side['window']} {side['sash']} {side['side']}"
            said[names[side["weight"]]] = "" if side["origin"] == WHERE_IT_WAS else place
    return said


def idle_in(run: Run | None) -> set[str]:
    """Give the ids of the weights that an answer leaves over."""
    answer = run.answer if run else None
    if run is None or answer is None:
        return set()
    names = run.names["weights"]
    return {names[one["weight"]] for one in answer["left_over"] if one["weight"] in names}
