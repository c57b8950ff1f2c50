"""Names that last: an answer speaks of "W1 upper left", a decision keeps the ids behind it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from evenhung.survey.names import FoundAt

if TYPE_CHECKING:
    from evenhung.survey import Survey
    from evenhung.survey.names import Loose, SashName


def ids_by_name(survey: Survey) -> dict[str, dict[str, str]]:
    """Give the lasting names of a survey's sashes and weights, by the names they have now.

    Parameters
    ----------
    survey
        A survey whose windows and weights have their ids.

    Returns
    -------
    dict
        ``sashes``: the id of the window and the place, by tag and place; ``weights``: the id, by
        where it was found or by the tag of a loose one.
    """
    sashes, weights = {}, {one.tag: one.id or one.tag for one in survey.weight}
    for window in survey.window:
        for place, sash in window.sashes():
            name = f"{window.tag} {place}"
            sashes[name] = f"{window.id or window.tag} {place}"
            for side, weight in sash.weights():
                if weight is not None and not weight.is_missing:
                    weights[f"{name} {side}"] = weight.id or f"{sashes[name]} {side}"
    return {"sashes": sashes, "weights": weights}


def sash_now(survey: Survey, sash: SashName) -> str:
    """Give what a sash is called now."""
    return f"{survey.window[sash.window].tag} {sash.place}"


def weight_now(survey: Survey, weight: FoundAt | Loose) -> str:
    """Give what a weight is called now."""
    if isinstance(weight, FoundAt):
        return f"{survey.window[weight.window].tag} {weight.place} {weight.side}"
    return survey.weight[weight.position].tag
