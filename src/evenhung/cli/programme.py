"""``evenhung programme``: when each window is taken apart and when it is whole again."""

from __future__ import annotations

import json
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Optional

import typer

from evenhung.cli.allot import planned
from evenhung.cli.options import Allotted, AsJson, SurveyFile
from evenhung.cli.refusal import day_of, refused

if TYPE_CHECKING:
    from collections.abc import Iterator

    from evenhung.plan.programme import Programme
    from evenhung.plan.programme.visits import Change, Visit

EXAMPLES = """\b
Examples:
  evenhung programme house.toml
  evenhung programme house.toml --lost 2026-03-11
  evenhung programme house.json --json --ics programme.ics > programme.json
"""


def programme(
    survey: SurveyFile,
    ics: Annotated[
        Optional[Path],  # noqa: UP045 - typer reads it at run time
        typer.Option(metavar="FILE", help="Write it as a calendar, too."),
    ] = None,
    lost: Annotated[
        Optional[list[str]],  # noqa: UP045 - typer reads it at run time
        typer.Option(
            metavar="DAY",
            help="A day that was lost, year first; may be repeated. What moved is said.",
        ),
    ] = None,
    with_allotment: Allotted = False,
    as_json: AsJson = False,
) -> None:
    """Set the work on a house into days.

    It is proved that the work cannot end sooner, or said how far that is open. People, benches,
    boards for the night, putty, paint, holidays and rooms that are needed are kept to; where they
    cannot be kept together, it says which.
    """
    from evenhung.plan.programme import programme_document, programme_of  # the solver is dear

    plan = planned(survey, None, is_allotted=with_allotment)
    days = [day_of("--lost", text) for text in lost or ()]
    found = programme_of(plan, today=_today(), lost=days)
    if ics is not None:
        _write_calendar(found, ics)
    if as_json:
        print(json.dumps(programme_document(found), ensure_ascii=False, allow_nan=False))
    else:
        print("\n".join(programme_lines(found)))


def _today() -> date:
    return date.today()  # noqa: DTZ011 - the user's own day


def _write_calendar(found: Programme, path: Path) -> None:
    from evenhung.sheets.pack.programme_calendar import programme_calendar

    try:
        path.write_bytes(programme_calendar(found, on=found.settings.start))
    except OSError as error:
        reason = f"a file that can be written: {error.strerror}"
        raise refused("--ics", str(path), reason) from None


def programme_lines(found: Programme) -> Iterator[str]:
    """Give a programme in lines of text."""
    name = found.plan.survey.house.name
    if found.conflict:
        if found.is_proved_conflict:
            yield f"{name}: cannot be scheduled because these cannot all be kept:"
        else:
            yield f"{name}: no programme was found that keeps these, nor proved that none does:"
        yield from (f"because: {one}" for one in found.conflict)
        if not found.is_whole_reason:
            yield "because: that each of them is needed for it is not proved"
        if found.without_deadline:
            yield f"without the deadline the work would end on {_written(found.without_deadline)}"
        return
    if not found.visits or found.end is None or found.soonest is None:
        yield f"{name}: nothing is to be done"
        return
    yield f"{name}: {_written(found.settings.start)} to {_written(found.end)}; {_proof(found)}"
    if found.has_waits:
        yield (
            f"putty and paint: {_if_so(found.earliest)} if they need their least, "
            f"{_if_so(found.latest)} if their most"
        )
    for visit in found.visits:
        yield from _visit_lines(visit)
    yield from map(_change_line, found.changes)
    if found.settings.lost and not found.changes:
        yield "moved: nothing"
    for one in found.settings.granted:
        yield f"taken for granted: {one}"


def _proof(found: Programme) -> str:
    if found.end == found.soonest or found.soonest is None:
        return "proved: no programme ends sooner"
    return f"not proved best: none can end before {_written(found.soonest)}"


def _visit_lines(visit: Visit) -> Iterator[str]:
    room = f", {visit.window.room}" if visit.window.room else ""
    nights = {0: "whole at night", 1: "boarded for one night"}.get(
        visit.nights, f"boarded for {visit.nights} nights"
    )
    yield f"{visit.window.tag}{room}: {nights}"
    for step in visit.steps:
        begun = ", begun" if step.is_begun else ""
        when = _span(step.first, step.last)
        yield f"{visit.window.tag}: {step.name}: {when}, {step.hours:g} h{begun}"


def _change_line(change: Change) -> str:
    was, now = _span(change.was, change.was_last), _span(change.now, change.now_last)
    return f"moved: {change.window}: {change.step}: was {was}, is now {now}"


def _if_so(day: date | None) -> str:
    return "no programme keeps all rules" if day is None else _written(day)


def _span(first: date, last: date) -> str:
    return _written(first) if first == last else f"{_written(first)} to {_written(last)}"


def _written(day: date) -> str:
    return f"{day:%a} {day.isoformat()}"
