"""The weights of a house as a list: where each is, what is known of it, where it would hang."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from django.utils.translation import gettext as _

from evenhung.web.page.paging import number_in

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from evenhung.survey import Survey
    from evenhung.survey.loose import LooseWeight
    from evenhung.survey.weight import Weight

WHICH = ("all", "not weighed", "loose", "not sound", "would move", "left over")
"""Which weights a list can be of."""


PAGE = 100
"""Weights on one page."""


class ListedWeight(NamedTuple):
    """A weight in the list."""

    ident: str
    """Its own id."""
    name: str
    """Where it was found, or what is chalked on it."""
    room: str
    window: str
    """The id of its window; empty for a loose one."""
    section: str
    """The section of the window's form that it is edited in."""
    kg: float | None
    length_mm: float | None
    across_mm: float | None
    is_square: bool
    metal: str
    marked: str
    state: str
    """Of what it hangs on; empty for a loose one."""
    goes_to: str | None = None
    """Where the allotment hangs it; empty where it stays, None where that is not known."""
    is_left_over: bool = False

    @property
    def is_loose(self) -> bool:
        """Whether it lies loose."""
        return not self.window

    @property
    def stays(self) -> bool:
        """Whether the allotment leaves it where it is."""
        return self.goes_to == ""


class Wanted(NamedTuple):
    """Which weights are asked for, and in which order."""

    text: str
    which: str
    by_mass: bool
    skipped: int = 0
    """How many of them stand on pages before this one."""

    @classmethod
    def from_query(cls, query: Mapping[str, str]) -> Wanted:
        """Read it from the address of a page; what makes no sense there asks for all."""
        which = query.get("which", "")
        return cls(
            query.get("text", "").strip()[:80],
            which if which in WHICH else WHICH[0],
            query.get("order") == "mass",
            number_in(query, "after"),
        )

    def among(self, weights: Sequence[ListedWeight]) -> list[ListedWeight]:
        """Give those that are asked for, in the order that is asked for."""
        found = [one for one in weights if self._is_of_them(one) and self._mentions(one)]
        return by_mass(found) if self.by_mass else found

    def _is_of_them(self, one: ListedWeight) -> bool:
        answers = {
            "not weighed": one.kg is None,
            "loose": one.is_loose,
            "not sound": one.state not in ("", "sound"),
            "would move": bool(one.goes_to),
            "left over": one.is_left_over,
        }
        return answers.get(self.which, True)

    def _mentions(self, one: ListedWeight) -> bool:
        said = " ".join((one.name, one.room, one.metal, one.marked, one.state)).casefold()
        return all(word in said for word in self.text.casefold().split())


def by_mass(weights: Sequence[ListedWeight]) -> list[ListedWeight]:
    """Give weights with the lightest first, those not weighed last."""
    return sorted(weights, key=lambda one: (one.kg is None, one.kg or 0.0))


def weights_of(survey: Survey, places: Mapping[str, str], idle: set[str]) -> list[ListedWeight]:
    """Give every weight of a house, in the order it is walked, the loose ones last.

    Parameters
    ----------
    survey
        The survey as it stands.
    places
        Where the allotment hangs each, by its id; nothing where it stays.
    idle
        The ids of those that the allotment leaves over.
    """
    found = [*_found(survey), *(_listed(one, one.tag, one.room) for one in survey.weight)]
    return [
        one._replace(goes_to=places.get(one.ident), is_left_over=one.ident in idle) for one in found
    ]


def _found(survey: Survey) -> Iterator[ListedWeight]:
    for window in survey.window:
        for place, sash in window.sashes():
            for side, weight in sash.weights():
                if weight is None or weight.is_missing:
                    continue
                yield _listed(weight, f"{window.tag} {place} {side}", window.room)._replace(
                    window=window.id or "",
                    section=f"{place}-{side}",
                    state=weight.state or _("sound"),
                )


def _listed(weight: Weight | LooseWeight, name: str, room: str | None) -> ListedWeight:
    return ListedWeight(
        ident=weight.id or "",
        name=name,
        room=room or "",
        window="",
        section="",
        kg=weight.weighed.kg if weight.weighed else None,
        length_mm=weight.length.mm if weight.length else None,
        across_mm=weight.diameter.mm if weight.diameter else None,
        is_square=weight.section == "square",
        metal=weight.metal or "",
        marked=weight.marked or "",
        state="",
    )
