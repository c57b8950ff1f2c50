"""``evenhung schema``: the JSON Schema of the survey form."""

from __future__ import annotations

import json

from evenhung.survey.schema import json_schema

EXAMPLES = """\b
Examples:
  evenhung schema > survey-form.schema.json
"""


def schema() -> None:
    """Print the JSON Schema of the survey form.

    For editors that check as you type.
    """
    print(json.dumps(json_schema(), ensure_ascii=False, indent=2))
