"""Tags for all that is taken apart: sashes, weights, beads, pockets; each says where it belongs.

A tag has a code (ISO/IEC 18004) that opens its window in the app, or where there is no app says
in words what the tag says.
"""

from __future__ import annotations

import io
from typing import TYPE_CHECKING, NamedTuple

import segno

from evenhung.sheets.pack.cautions import DEFERENCE
from evenhung.sheets.pack.figures import shortened
from evenhung.sheets.pack.sides import sides_of
from evenhung.sheets.pack.typesetting import typeset

if TYPE_CHECKING:
    from collections.abc import Iterator

    from evenhung.plan import SashPlan, WindowPlan
    from evenhung.sheets.pack.house import PackHouse
    from evenhung.sheets.pack.labels import Labels
    from evenhung.survey.window import Window

LONGEST_IN_CODE = 60
"""Letters of a name that go into a code, so that its squares stay large enough to read."""


class Tag(NamedTuple):
    """One tag."""

    window: str
    what: str
    """The part, in one or two words."""
    where: str
    """Where on the window."""
    more: tuple[str, ...] = ()
    """What else is to be known of it, the whole of it first, then shorter: a label may be small."""


def tags(house: PackHouse, labels: Labels) -> bytes:
    """Give all tags of a house as PDF, on labels of one size."""
    codes = {window.window.tag: _code(house, window.window) for window in house.plan.windows}
    data = {
        "labels": labels._asdict(),
        "tags": [
            {
                **tag._asdict(),
                "window": shortened(tag.window),
                "code": tag.window,
            }
            for window in house.plan.windows
            for tag in tags_of(house, window)
        ],
        "codes": codes,
        "deference": DEFERENCE,
    }
    return typeset("tags", data, house=house.name, edition=house.edition)


def tags_of(house: PackHouse, window: WindowPlan) -> Iterator[Tag]:
    """Give the tags of one window, in the order in which it comes apart."""
    tag = window.window.tag
    sashes = [sash for sash in (window.lower, window.upper) if sash is not None]
    for where in ("left", "right", "top"):
        yield Tag(tag, "Staff bead", where)
    if window.upper is not None:
        for where in ("left", "right", "top"):
            yield Tag(tag, "Parting bead", where)
    for sash in sashes:
        yield Tag(tag, "Sash", sash.place, _mass(house, sash))
    if any(sash.sash.is_running for sash in sashes):
        for where in ("left", "right"):
            yield Tag(tag, "Pocket", where)
    for sash in sashes:
        yield from _weights(house, sash)


def _weights(house: PackHouse, sash: SashPlan) -> Iterator[Tag]:
    """Give the tags of the weights that belong to a sash from now on."""
    if not sash.sash.is_running:
        return
    sides = {side.side: side for side in sides_of(house, sash)}
    for where in ("left", "right"):
        side = sides.get(where)
        more = _ways(house, side.hung.mass_kg) if side else ("not yet weighed",)
        yield Tag(sash.window.tag, "Weight", f"{sash.place} {where}", more)


def _ways(house: PackHouse, kg: float) -> tuple[str, str]:
    """Give a mass in both systems, and in the house's own alone."""
    written = house.words.mass(kg)
    return written, written.partition(" (")[0]


def _mass(house: PackHouse, sash: SashPlan) -> tuple[str, ...]:
    """Give the mass of a sash, and whether it was weighed; nothing where it is not known."""
    if not sash.mass.found:
        return ()
    ways = _ways(house, sash.mass.kg)
    if sash.mass.found != "estimated":
        return ways
    return (*(f"estimated {one}" for one in ways), f"about {ways[-1]}")


def _code(house: PackHouse, window: Window) -> dict[str, str]:
    """Give the code of a window as SVG, and what it says."""
    address_of = house.edition.address_of
    says = (
        address_of(window)
        if address_of
        else f"{house.name[:LONGEST_IN_CODE]}: window {window.tag[:LONGEST_IN_CODE]}"
    )
    drawn = io.BytesIO()
    segno.make(says, error="m", micro=False).save(
        drawn, kind="svg", border=2, xmldecl=False, nl=False
    )
    return {"svg": drawn.getvalue().decode(), "says": says}
