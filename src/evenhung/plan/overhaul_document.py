"""The overhaul of a house as plain data, for --json: repair, glazing, work, fabric, take-off."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from evenhung.plan.repair.document import fabric_document, repair_document

if TYPE_CHECKING:
    from collections.abc import Sequence

    from evenhung.plan.glazing.safety import Answer
    from evenhung.plan.glazing.window import WindowGlazing
    from evenhung.plan.overhaul import Overhaul, WindowOverhaul
    from evenhung.plan.takeoff.cutting import Cuts
    from evenhung.plan.takeoff.house import TakeOff
    from evenhung.plan.work import Work

PLACES = 6
"""Decimals kept, as in the rest of the plan."""


def window_document(overhaul: Overhaul | None, number: int) -> dict[str, Any] | None:
    """Give one window's overhaul by its position; None where nothing was found of it."""
    if overhaul is None or not overhaul.windows[number].is_asked_for:
        return None
    return _window(overhaul.windows[number])


def house_document(overhaul: Overhaul | None) -> dict[str, Any]:
    """Give the fabric and the take-off of a house; both None where nothing was found."""
    if overhaul is None:
        return {"fabric": None, "takeoff": None}
    return {
        "fabric": fabric_document(overhaul.repair.fabric),
        "takeoff": takeoff_document(overhaul.takeoff),
    }


def _window(window: WindowOverhaul) -> dict[str, Any]:
    return {
        **repair_document(window.repair),
        "glazing": _glazing(window.glazing),
        "work": [_work(one) for one in window.work],
        "notes": [note._asdict() for note in window.notes],
    }


def _work(work: Work) -> dict[str, Any]:
    return {
        "operation": work.operation,
        "part": work.part,
        "quantity": round(work.quantity, PLACES),
        "unit": work.unit,
        "why": work.why,
    }


def _glazing(glazing: WindowGlazing) -> dict[str, Any]:
    return {
        "panes": [_rounded(pane._asdict(), without=("window",)) for pane in glazing.panes],
        "safety": [
            {
                "place": pane.place,
                "column": pane.column,
                "row": pane.row,
                "rules": [_answer(one) for one in answers],
            }
            for pane, answers in glazing.safety
        ],
        "guarding": [_answer(one) for one in glazing.guarding],
    }


def _answer(answer: Answer) -> dict[str, Any]:
    return answer._asdict()


def takeoff_document(takeoff: TakeOff) -> dict[str, Any]:
    """Give what is bought for a house."""
    return {
        "timber": [_rounded(piece._asdict()) for piece in takeoff.timber],
        "glass": [_rounded(line._asdict()) for line in takeoff.glass],
        "putty": _rounded(takeoff.putty._asdict()),
        "paint": _rounded(takeoff.paint._asdict()),
        "cord": [_rounded(line._asdict()) for line in takeoff.cord],
        "weights": [_rounded(line._asdict()) for line in takeoff.weights],
    }


def cuts_document(cuts: Sequence[Cuts]) -> list[dict[str, Any]]:
    """Give how it is cut from lengths as they are bought."""
    return [
        {
            **_rounded(one._asdict(), without=("lengths",)),
            "number": one.number,
            "lengths": [_rounded(length._asdict()) for length in one.lengths],
        }
        for one in cuts
    ]


def _rounded(fields: dict[str, Any], *, without: tuple[str, ...] = ()) -> dict[str, Any]:
    """Round numbers, make lists of tuples; a name that begins with is_ loses that."""
    return {
        name.removeprefix("is_"): _plain(value)
        for name, value in fields.items()
        if name not in without
    }


def _plain(value: Any) -> Any:  # noqa: ANN401 - any field of a record
    if isinstance(value, float):
        return round(value, PLACES) + 0.0
    return list(value) if isinstance(value, tuple) else value
