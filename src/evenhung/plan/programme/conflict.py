"""Why work cannot be scheduled, in the words of the survey."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

    from evenhung.allot.schedule import Problem, Rule
    from evenhung.plan.programme.settings import Settings
    from evenhung.survey.window import Window


def because(rule: Rule, problem: Problem, windows: Sequence[Window], settings: Settings) -> str:
    """Say one rule that has part in a conflict.

    Parameters
    ----------
    rule
        The rule.
    problem
        What was asked.
    windows
        The windows whose jobs it has, in their order.
    settings
        The days and the means.
    """
    if rule.job is None:
        return {
            "deadline": f"the work shall end by {settings.deadline}",
            "crew": f"{_count(settings.crew, 'person', 'people')} at work, "
            f"{settings.hours_a_day:g} h a day",
            "benches": f"at most {_count(settings.benches, 'window', 'windows')} at the bench",
            "out": f"at most {_count(settings.sashes_out, 'sash', 'sashes')} out at once",
            "boards": "no opening can be boarded at night"
            if not settings.boards
            else f"at most {_count(settings.boards, 'opening', 'openings')} boarded at night",
        }[rule.kind]
    window = windows[rule.job]
    if rule.kind == "after":
        return f"{window.tag} is begun only when {window.after} is back in"
    if rule.kind == "barred":
        days = [date.fromordinal(day) for day in sorted(problem.jobs[rule.job].barred)]
        until = f" to {days[-1]}" if len(days) > 1 else ""
        return f"{window.tag} is needed whole from {days[0]}{until}"
    return f"what was begun at {window.tag} is not moved"


def _count(number: int, one: str, several: str) -> str:
    return f"{number} {one if number == 1 else several}"
