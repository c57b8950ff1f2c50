"""From an answer of the solver to decisions of the survey: hang it there, never, or all of it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Literal, NamedTuple

from django.utils.translation import gettext as _

from evenhung.store.parts import Key
from evenhung.survey.names import Loose, Names
from evenhung.web.records.merging import Edit

if TYPE_CHECKING:
    from collections.abc import Mapping

    from evenhung.survey import Survey
    from evenhung.survey.decision import Decision
    from evenhung.survey.names import FoundAt

What = Literal["hang", "never"]


def decision(survey: Survey, what: What, side: Mapping[str, Any], who: str) -> Edit:
    """Give the edit that adds a decision on one side of an answer.

    Parameters
    ----------
    survey
        The survey as it stands.
    what
        ``hang``: this weight shall hang there; ``never``: it shall not hang at this sash.
    side
        A side as ``evenhung allot --json`` gives it.
    who
        The name of whoever decides.

    Raises
    ------
    LookupError
        Where the weight or the sash of the answer is not in the survey: a new weight, or one that
        has been renamed or removed since.
    """
    sash = f"{side['window']} {side['sash']}"
    names = Names(survey.window, survey.weight)
    if sash not in names.sashes or side["weight"] not in names.weights:
        raise LookupError(f"{side['weight']} at {sash} is not in the survey as it stands")
    window = survey.window[names.sashes[sash].window]
    fields = {
        "what": what,
        "sash": f"{window.id or window.tag} {side['sash']}",
        "weight": _lasting_name(survey, names, side["weight"]),
        "by": who,
        **({"side": side["side"]} if what == "hang" else {}),
    }
    return Edit(Key("decision"), 0, fields)


def decisions_for_all(survey: Survey, answer: Mapping[str, Any], who: str) -> list[Edit]:
    """Give the edits that accept an answer: every weight of the house that it hangs somewhere.

    What is decided already stays; new weights need no decision, since there is no choice of them.
    """
    names = Names(survey.window, survey.weight)
    decided = {(one.sash, one.side) for one in survey.decision if one.what != "never"}
    edits = []
    for side in answer["sides"]:
        if side["weight"] not in names.weights:
            continue
        edit = decision(survey, "hang", side, who)
        if (edit.fields["sash"], edit.fields["side"]) not in decided:
            edits.append(edit)
    return edits


def _lasting_name(survey: Survey, names: Names, name: str) -> str:
    """Give the id of a weight, which stays when its window is called something else."""
    found = names.weights[name]
    for ident, other in names.weights.items():
        if other == found and ident in _ids(survey):
            return ident
    return name


def _ids(survey: Survey) -> set[str]:
    found = {weight.id for weight in survey.weight if weight.id}
    for window in survey.window:
        for _place, sash in window.sashes():
            found |= {weight.id for _side, weight in sash.weights() if weight and weight.id}
    return found


class Decided(NamedTuple):
    """A decision as the page tells it."""

    ident: str
    says: str
    who: str


def decided_lines(survey: Survey) -> list[Decided]:
    """Tell what has been decided, by the names that windows and weights have now."""
    names = Names(survey.window, survey.weight)
    return [_told(survey, names, one) for one in survey.decision]


def _told(survey: Survey, names: Names, one: Decision) -> Decided:
    sash = names.sashes[one.sash]
    where = f"{survey.window[sash.window].tag} {sash.place} {one.side or ''}".strip()
    weight = _name_now(survey, names.weights[one.weight]) if one.weight else _("a new weight")
    said = {
        "hang": _("%(weight)s shall hang at %(where)s"),
        "never": _("%(weight)s shall not hang at %(where)s"),
        "hung": _("%(weight)s hangs at %(where)s"),
    }
    return Decided(one.id or "", said[one.what] % {"weight": weight, "where": where}, one.by or "")


def _name_now(survey: Survey, found: FoundAt | Loose) -> str:
    if isinstance(found, Loose):
        return survey.weight[found.position].tag
    return f"{survey.window[found.window].tag} {found.place} {found.side}"
