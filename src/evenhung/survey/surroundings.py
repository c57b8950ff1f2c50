"""Where a window stands: what people can fall against, or out of."""

from __future__ import annotations

from typing import TYPE_CHECKING

from evenhung.survey.fields import Record, a_length, left_out

if TYPE_CHECKING:
    from evenhung.quantities import Length


class Surroundings(Record):
    """What lies about a window, as far as glass and falls are concerned."""

    sill_above_floor: Length | None = left_out(
        a_length("0 mm", "10 m"),
        "inside, from the floor up to the sill, where the clear height begins",
        "whether new panes must be safety glass, or the opening guarded, is not checked",
    )
    sill_above_ground: Length | None = left_out(
        a_length("0 mm", "200 m"),
        "outside, from the ground or whatever lies below up to the sill",
        "whether the opening must be guarded is not checked",
    )
    door_away: Length | None = left_out(
        a_length("0 mm", "50 m"),
        "from the nearest edge of a door to the nearest edge of the glass",
        "whether panes beside a door must be safety glass is not checked",
    )
    walking_away: Length | None = left_out(
        a_length("0 mm", "50 m"),
        "level, from the glass to where anybody walks, inside or out, whichever is nearer",
        "one rule for large panes is not checked",
    )
