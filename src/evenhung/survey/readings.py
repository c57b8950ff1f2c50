"""What a spring balance read on a sash, and what it cannot have read."""

from __future__ import annotations

from typing import TYPE_CHECKING

from evenhung.survey.fields import Record, a_force, left_out, plain, several

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from evenhung.quantities import Force
    from evenhung.survey.fields import Refusal

PULL = a_force("0 N", "2000 N")
"""What a hand or a balance pulls on a sash."""

PULLS = several(PULL, least=1, most=9)
"""The same at up to nine heights."""

RAISING = "pull to keep it rising, slow and steady, at up to nine heights"
LOWERING = "pull to keep it coming down, slow and steady, at up to nine heights"
HOLDING = "where it comes down by itself: pull up that lets it down slow and steady"
RESTRAINING = "where it rises by itself: pull down that lets it rise slow and steady"
"""What is read, of a standing window and on completion alike."""


class Readings(Record):
    """What a spring balance read on the standing window, before anything was taken apart."""

    raising: tuple[Force, ...] | None = left_out(
        PULLS,
        RAISING,
        "excess and friction are not found from readings",
    )
    lowering: tuple[Force, ...] | None = left_out(
        PULLS,
        LOWERING,
        "excess and friction are not found from readings",
    )
    holding: tuple[Force, ...] | None = plain(
        PULLS,
        HOLDING,
        "it does not come down by itself",
    )
    restraining: tuple[Force, ...] | None = plain(
        PULLS,
        RESTRAINING,
        "it does not rise by itself",
    )
    breakaway_raising: Force | None = plain(
        PULL, "pull that first moved it up; kept apart", "not recorded"
    )
    breakaway_lowering: Force | None = plain(
        PULL, "pull that first moved it down; kept apart", "not recorded"
    )

    def contradictions(self) -> Iterable[Refusal]:
        """Give a sash that both wants a pull and moves by itself."""
        return asked_and_given(self)


def asked_and_given(read: Record) -> Iterator[Refusal]:
    """Give what was read of a sash that both wants a pull one way and goes that way by itself.

    Parameters
    ----------
    read
        A record with ``raising``, ``lowering``, ``holding`` and ``restraining``.
    """
    for asked, given in (("lowering", "holding"), ("raising", "restraining")):
        one, other = getattr(read, asked), getattr(read, given)
        if one and other:
            texts = ", ".join(reading.text for reading in other)
            yield given, texts, f"either {asked} or {given}: it moves by itself or it does not"
