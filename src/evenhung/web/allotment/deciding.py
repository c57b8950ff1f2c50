"""From an answer to decisions of the survey: it shall hang there, it shall not, it hangs there now.

A side has one decision and a weight has one place: a newer wish takes the place of an older one,
but never of what is hung already.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple, TypeAlias

from django.utils.translation import gettext as _

from evenhung.store.parts import Key
from evenhung.survey.names import Names
from evenhung.web.allotment.names import sash_now, weight_now
from evenhung.web.records.merging import Edit

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from evenhung.survey import Survey
    from evenhung.survey.decision import Decision
    from evenhung.survey.names import FoundAt, Loose, SashName
    from evenhung.web.records.latest import Standing

Spot: TypeAlias = "tuple[SashName, str | None]"
Places: TypeAlias = "dict[FoundAt | Loose, Spot]"
"""Where each weight is wished."""


class CannotDecide(Exception):
    """What is wished goes against what is hung already, or speaks of what is no longer there."""


class Wish(NamedTuple):
    """A weight and a side, by their lasting names."""

    sash: str
    """The id of the window and the place of the sash."""
    side: str
    weight: str


class Made(NamedTuple):
    """A decision that stands, whatever names it was made with."""

    key: Key
    number: int
    """Its revision."""
    record: Decision
    sash: SashName
    weight: FoundAt | Loose | None

    @property
    def what(self) -> str:
        """Which kind of decision it is."""
        return self.record.what

    @property
    def spot(self) -> Spot:
        """The side it is about; no side where it is about both."""
        return self.sash, self.record.side

    def removed(self) -> Edit:
        """Give the edit that takes it back."""
        return Edit(self.key, self.number, removes=True)


class Decisions:
    """The decisions of a survey as it stands, and what comes of a new one."""

    def __init__(self, parts: Iterable[Standing], survey: Survey) -> None:
        self._survey = survey
        self._names = Names(survey.window, survey.weight)
        rows = [part for part in parts if part.key.kind == "decision"]
        self.made: list[Made] = [
            Made(
                row.key,
                row.number,
                record,
                self._names.sashes[record.sash],
                self._names.weights[record.weight] if record.weight else None,
            )
            for row, record in zip(rows, survey.decision, strict=True)
        ]

        self._by_spot = {one.spot: one for one in self.made if one.what != "never"}

    def at(self, sash: str, side: str) -> Made | None:
        """Give the decision that a side has: that a weight shall hang there, or does."""
        place = self._names.sashes.get(sash)
        return self._by_spot.get((place, side)) if place else None

    def held(self, wishes: Sequence[Wish], who: str) -> list[Edit]:
        """Give the edits by which every wished weight shall hang where it is wished.

        Raises
        ------
        CannotDecide
            Where a weight hangs elsewhere already, or is no longer in the survey.
        """
        wanted = {self._spot(wish): (self._weight(wish), wish) for wish in wishes}
        for one in self.made:  # a side that is done stays as it is done
            if one.what == "hung":
                wanted.pop(one.spot, None)
        places = {weight: spot for spot, (weight, _wish) in wanted.items()}
        edits = []
        for one in self.made:
            if one.what == "hung" and one.weight in places:
                raise CannotDecide(_("%(weight)s hangs elsewhere already") % self._said(one))
            if one.what == "hang" and one.spot in wanted:
                weight, wish = wanted.pop(one.spot)
                if weight != one.weight:
                    fields = {"weight": wish.weight, "by": who}
                    edits.append(Edit(one.key, one.number, fields))
            elif self._gives_way(one, places):
                edits.append(one.removed())
        return [*edits, *(_new("hang", wish, who) for _weight, wish in wanted.values())]

    def forbidden(self, wish: Wish, who: str) -> list[Edit]:
        """Give the edits by which a weight shall not hang at a side.

        Raises
        ------
        CannotDecide
            Where it hangs there already, or is no longer in the survey.
        """
        spot, weight = self._spot(wish), self._weight(wish)
        edits = []
        for one in self.made:
            if (
                one.weight != weight
                or one.sash != spot[0]
                or one.record.side not in (None, spot[1])
            ):
                continue
            if one.what == "never":
                return []
            if one.what == "hung":
                raise CannotDecide(_("%(weight)s hangs there already") % self._said(one))
            edits.append(one.removed())
        return [*edits, _new("never", wish, who)]

    def told_in_order(self) -> dict[str, list[tuple[Made, str]]]:
        """Give the decisions by their kind, each with what it says: done, forbidden, held."""
        kinds = ("hung", "never", "hang")
        return {
            kind: [(one, self.told(one)) for one in self.made if one.what == kind] for kind in kinds
        }

    def told(self, one: Made) -> str:
        """Say a decision by the names that windows and weights have now."""
        said = {
            "hang": _("%(weight)s shall hang at %(where)s"),
            "never": _("%(weight)s shall not hang at %(where)s"),
            "hung": _("%(weight)s hangs at %(where)s"),
        }
        return said[one.what] % self._said(one)

    def _said(self, one: Made) -> dict[str, str]:
        where = f"{sash_now(self._survey, one.sash)} {one.record.side or ''}".strip()
        weight = weight_now(self._survey, one.weight) if one.weight else _("a new weight")
        return {"weight": _("its own weight") if weight == where else weight, "where": where}

    def _spot(self, wish: Wish) -> Spot:
        if wish.sash not in self._names.sashes:
            raise CannotDecide(_("its window is no longer in the survey"))
        return self._names.sashes[wish.sash], wish.side

    def _weight(self, wish: Wish) -> FoundAt | Loose:
        if wish.weight not in self._names.weights:
            raise CannotDecide(_("the weight is no longer in the survey"))
        return self._names.weights[wish.weight]

    def _gives_way(self, one: Made, places: Places) -> bool:
        """Tell whether a decision goes against what its weight is wished for now."""
        place = places.get(one.weight) if one.weight else None
        if place is None or one.what == "hung":
            return False
        return one.what == "hang" or (one.sash == place[0] and one.record.side in (None, place[1]))


def _new(what: str, wish: Wish, who: str) -> Edit:
    return Edit(Key("decision"), 0, {"what": what, **wish._asdict(), "by": who})
