"""From a survey to the text of a file, every value as it was typed."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from evenhung.survey.document import Survey
    from evenhung.survey.reading import Notation


def written_survey(survey: Survey, notation: Notation = "toml") -> bytes:
    """Write a survey.

    Parameters
    ----------
    survey
        The survey.
    notation
        How to write it.

    Returns
    -------
    bytes
        What a file should hold, in UTF-8; `read_survey` gives the same survey back.
    """
    document = survey.as_typed()
    if notation == "json":
        import json

        return (json.dumps(document, ensure_ascii=False, indent=2) + "\n").encode()
    import tomli_w

    return tomli_w.dumps(document).encode()
