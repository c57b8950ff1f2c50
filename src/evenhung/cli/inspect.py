"""``evenhung inspect``: what a survey leaves open, and what each gap costs."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from evenhung.cli.files import survey_in
from evenhung.cli.options import AsJson, SurveyFile
from evenhung.survey.gaps import gaps_in

if TYPE_CHECKING:
    from collections.abc import Iterator

    from evenhung.plan.completion.house import HouseCompletion
    from evenhung.survey import Survey
    from evenhung.survey.gaps import Gap

NUMBERED = re.compile(r"(window|weight)\[(\d+)\]\.(?:(upper|lower)\.)?(.+)")
"""The path of a field of a window, of its sash, or of a loose weight."""

EXAMPLES = """\b
Examples:
  evenhung inspect house.toml
  evenhung inspect house.toml --json
"""


def inspect(
    survey: SurveyFile,
    as_json: AsJson = False,
) -> None:
    """Check a survey and list its gaps.

    For each: what is left out of the plan for want of it, or what is assumed in its stead.
    Once a sash has been tried, also which are still to prove.
    """
    found = survey_in(survey)
    gaps = list(gaps_in(found))
    completion = _completion(found)
    if as_json:
        import json  # loaded only where it is asked for

        from evenhung.plan.document import completion_document  # likewise

        answer = {
            "form": found.form,
            "house": found.house.name,
            "gaps": [gap._asdict() for gap in gaps],
            "completion": completion_document(completion) if completion else None,
        }
        print(json.dumps(answer, ensure_ascii=False))
        return
    print("\n".join(_lines(found, gaps)))
    if completion is not None:
        from evenhung.cli.lines import proved  # not needed until the end of a job

        print(proved(completion))


def _completion(survey: Survey) -> HouseCompletion | None:
    """Give what is proved of a house; nothing is planned where no sash was tried."""
    sashes = (sash for window in survey.window for _, sash in window.sashes())
    if not any(sash.completion is not None for sash in sashes):
        return None
    from evenhung.plan import plan_house  # not needed until the end of a job
    from evenhung.plan.completion.house import completion_of

    return completion_of(plan_house(survey))


def _lines(survey: Survey, gaps: list[Gap]) -> Iterator[str]:
    """Give a heading, and each gap once with every place that has it."""
    windows = _count(len(survey.window), "window")
    yield f"{survey.house.name}: a sound survey of {windows}, {_count(len(gaps), 'gap')}"
    places: dict[tuple[str, str], list[str]] = {}
    for gap in gaps:
        place, field = _place_of(survey, gap.path)
        places.setdefault((field, gap.meaning), []).append(place)
    for (field, meaning), found in places.items():
        where = ", ".join(place for place in found if place)
        yield f"{field}: {meaning}{f' [{where}]' if where else ''}"


def _place_of(survey: Survey, path: str) -> tuple[str, str]:
    """Give the place that a path lies in, as people call it, and what is left of the path."""
    if not (named := NUMBERED.fullmatch(path)):
        return "", path
    kind, number, place, field = named.groups()
    tag = getattr(survey, kind)[int(number)].tag
    if kind == "weight":
        return tag, f"weight.{field}"
    return f"{tag} {place}" if place else tag, field


def _count(number: int, what: str) -> str:
    return f"{number} {what}{'' if number == 1 else 's'}"
