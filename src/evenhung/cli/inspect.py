"""``evenhung inspect``: what a survey leaves open, and what each gap costs."""

from __future__ import annotations

from evenhung.cli.files import survey_in
from evenhung.cli.options import AsJson, SurveyFile
from evenhung.survey.gaps import gaps_in

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
    """
    found = survey_in(survey)
    gaps = list(gaps_in(found))
    if as_json:
        import json  # loaded only where it is asked for

        answer = {
            "form": found.form,
            "house": found.house.name,
            "gaps": [gap._asdict() for gap in gaps],
        }
        print(json.dumps(answer, ensure_ascii=False))
        return
    print(f"{found.house.name}: a sound survey of {len(found.window)} windows, {len(gaps)} gaps")
    for gap in gaps:
        print(f"{gap.path}: {gap.meaning}")
