"""A programme as plain data: what ``evenhung programme --json`` prints."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from datetime import date

    from evenhung.plan.programme.house import Programme
    from evenhung.plan.programme.visits import Visit


def programme_document(programme: Programme) -> dict[str, Any]:
    """Give a programme as plain data; days are year first, what is not known is None."""
    answer = programme.answer
    return {
        "form": 1,
        "house": {"name": programme.plan.survey.house.name},
        "start": programme.settings.start.isoformat(),
        "end": _day(programme.end),
        "soonest": _day(programme.soonest),
        "status": answer.status if answer else "infeasible",
        "nights": answer.nights if answer else None,
        "nights_are_fewest": answer.nights_are_fewest if answer else None,
        "has_waits": programme.has_waits,
        "ends": {
            "least": _day(programme.earliest),
            "likely": _day(programme.end),
            "most": _day(programme.latest),
        },
        "windows": [_visit(one) for one in programme.visits],
        "changes": [
            {
                "window": one.window,
                "step": one.step,
                "was": one.was.isoformat(),
                "was_last": one.was_last.isoformat(),
                "now": one.now.isoformat(),
                "now_last": one.now_last.isoformat(),
            }
            for one in programme.changes
        ],
        "conflict": {
            "because": list(programme.conflict),
            "is_proved": programme.is_proved_conflict,
            "is_minimal": programme.is_whole_reason,
            "without_deadline": _day(programme.without_deadline),
        }
        if programme.conflict
        else None,
        "granted": list(programme.settings.granted),
    }


def _visit(visit: Visit) -> dict[str, Any]:
    return {
        "tag": visit.window.tag,
        "room": visit.window.room,
        "out": visit.first.isoformat(),
        "in": visit.last.isoformat(),
        "sashes": visit.sashes,
        "nights": visit.nights,
        "steps": [
            {
                "name": step.name,
                "first": step.first.isoformat(),
                "last": step.last.isoformat(),
                "hours": step.hours,
                "is_begun": step.is_begun,
            }
            for step in visit.steps
        ],
    }


def _day(day: date | None) -> str | None:
    return None if day is None else day.isoformat()
