"""Versions of the survey form, and how an older survey is brought up to date.

Each step turns a document of one version into the next: a survey once entered is never lost.
There is one version so far; `STEPS` is where the step from it to the next will stand.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, TypeAlias

from evenhung.errors import InvalidSurvey, SurveyFault
from evenhung.survey.document import FORM
from evenhung.survey.faults import shown

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    Step: TypeAlias = Callable[[dict[str, Any]], dict[str, Any]]

STEPS: dict[int, Step] = {}
"""By version: the step from it to the next."""


def brought_up_to_date(
    document: dict[str, Any], *, steps: Mapping[int, Step] = STEPS, newest: int = FORM
) -> dict[str, Any]:
    """Give a document in the newest form.

    Parameters
    ----------
    document
        A survey as plain data, in any version of the form.
    steps
        The steps from version to version.
    newest
        The version to arrive at.

    Returns
    -------
    dict
        The document itself where it is of the newest version already, else a new one.

    Raises
    ------
    InvalidSurvey
        Where the version is absent, is not a version, or is newer than this program knows.
    """
    form = document.get("form")
    if type(form) is not int or form < 1:
        value = "(absent)" if "form" not in document else shown(form)
        raise InvalidSurvey(
            (SurveyFault("form", value, f"a version of the form, at most {newest}"),)
        )
    if form > newest:
        allowed = (
            f"at most {newest}; this survey was written by a newer Evenhung, which can read it"
        )
        raise InvalidSurvey((SurveyFault("form", shown(form), allowed),))
    for version in range(form, newest):
        document = steps[version](document)
    return document
