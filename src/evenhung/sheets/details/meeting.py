"""The meeting rails cut upright, the sashes shut: outside on the left, the room on the right."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from evenhung.sheets.details.figures import ROW, Measure, foot_groups, in_rows, quantities_of
from evenhung.sheets.details.frame import HATCH_MM
from evenhung.sheets.details.planes import planes_of
from evenhung.sheets.scene import Drawing, Group, Polygon, Rect, Words
from evenhung.sheets.scene.strokes import hatching_within
from evenhung.sheets.sizes import Size, Sizes

if TYPE_CHECKING:
    from collections.abc import Iterator

    from evenhung.plan import WindowPlan
    from evenhung.sheets.details.planes import Planes, SashPlane

TEXT_OF_WIDTH = 0.058
"""Size of the words over the thickness of both sashes and what is between them."""

GLASS_SHOWN_MM = 55.0
"""How much of each pane is shown beyond its rail: ours."""


class Rails(NamedTuple):
    """The two rails as they meet: heights above the sill [mm]."""

    planes: Planes
    upper: SashPlane
    lower: SashPlane
    upper_foot: float
    upper_top: float
    lower_foot: float
    lower_top: float

    @property
    def overlap(self) -> float:
        """How much of their heights they share; negative where they do not meet."""
        return min(self.upper_top, self.lower_top) - max(self.upper_foot, self.lower_foot)


def meeting_of(window: WindowPlan, *, text_mm: float | None = None) -> Drawing | None:
    """Draw the section of the meeting rails of a window, its sashes shut.

    Parameters
    ----------
    window
        A window of the plan of its house.
    text_mm
        Size of the words, in mm of the window; None leaves it to what is drawn [mm].

    Returns
    -------
    Drawing or None
        None where a sash is not recorded: then no rails meet.
    """
    planes = planes_of(window, "right", Sizes())
    if len(planes.sashes) < _BOTH:
        return None
    rails = _rails(window, planes)
    thick = rails.upper.span.outer - rails.lower.span.inner
    text = text_mm or TEXT_OF_WIDTH * thick
    groups = (
        *_sash(rails, rails.upper),
        *_sash(rails, rails.lower),
        *_figures(window, rails, text),
        *_named(rails, text),
    )
    return Drawing(
        name="meeting",
        title=f"{window.window.tag}: section of the meeting rails, to scale",
        description=_description(window, rails),
        groups=groups,
        margin_mm=0.5 * text,
        assumed=_assumed(rails),
    )


_BOTH = 2


def _assumed(rails: Rails) -> tuple[str, ...]:
    """Name what stands in as usual, each once."""
    upper, lower = rails.upper, rails.lower
    named = [
        (upper.sizes.bottom_rail, "meeting rails"),
        (lower.sizes.top_rail, "meeting rails"),
        *((sash.thickness, "thickness of the sashes") for sash in (upper, lower)),
        *((sash.glazing.lap, "glazing rebates") for sash in (upper, lower)),
        *((sash.glazing.deep, "glazing rebates") for sash in (upper, lower)),
        *((sash.glazing.sheet, "glass") for sash in (upper, lower)),
        (rails.planes.bead, "parting beads"),
    ]
    usual = [name for size, name in named if size.is_assumed]
    return (*dict.fromkeys(usual), "joint of the meeting rails")


def _rails(window: WindowPlan, planes: Planes) -> Rails:
    upper, lower = planes.sashes["upper"], planes.sashes["lower"]
    foot = window.window.box.clear_height.mm - upper.sizes.height
    top = lower.sizes.height
    return Rails(
        planes,
        upper,
        lower,
        foot,
        foot + upper.sizes.bottom_rail.mm,
        top - lower.sizes.top_rail.mm,
        top,
    )


def _sash(rails: Rails, sash: SashPlane) -> Iterator[Group]:
    """Give the glass and the rail of one sash; outwards is to the left."""
    place = sash.plan.place
    is_upper = place == "upper"
    rail = sash.sizes.bottom_rail if is_upper else sash.sizes.top_rail
    yield _glass(rails, sash)
    outline = _upper_rail(rails) if is_upper else _lower_rail(rails)
    yield Group(
        "sash",
        (
            Polygon(outline),
            Group("hatch", tuple(hatching_within(outline, HATCH_MM, is_falling=not is_upper))),
        ),
        f"{place}.{'bottom_rail' if is_upper else 'top_rail'}",
        f"{place} sash, meeting rail",
        is_assumed=rail.is_assumed or sash.thickness.is_assumed,
    )
    if is_upper:
        yield from _putty(rails)
    else:
        yield _groove(rails)


def _splay(rails: Rails) -> tuple[float, float, float, float]:
    """Give the joint: its x and height above, its x and height below.

    The lower rail draws in like a wedge: the joint leans from the outer plane above to the inner
    one below, over as much of the rails as meets.
    """
    high = min(rails.upper_top, rails.lower_top)
    low = max(rails.upper_foot, rails.lower_foot)
    return -rails.upper.span.inner, high, -rails.lower.span.outer, low


def _upper_rail(rails: Rails) -> tuple[tuple[float, float], ...]:
    """Give the rail of the upper sash: rebated outside for the glass, splayed inside."""
    out, inn = -rails.upper.span.outer, -rails.upper.span.inner
    foot, top = rails.upper_foot, rails.upper_top
    stop, lap = -rails.upper.glass.inner, top - rails.upper.glazing.lap.mm
    rebate = ((out, lap), (stop, lap), (stop, top))
    if rails.overlap <= 0.0:
        return ((out, foot), *rebate, (inn, top), (inn, foot))
    x_high, high, x_low, low = _splay(rails)
    inner = ((inn, top), (x_high, high), (x_low, low))
    under = ((x_low, foot),) if low > foot else ()
    return ((out, foot), *rebate, *inner, *under)


def _lower_rail(rails: Rails) -> tuple[tuple[float, float], ...]:
    """Give the rail of the lower sash: splayed outside."""
    out, inn = -rails.lower.span.outer, -rails.lower.span.inner
    foot, top = rails.lower_foot, rails.lower_top
    if rails.overlap <= 0.0:
        return ((out, foot), (out, top), (inn, top), (inn, foot))
    x_high, high, x_low, low = _splay(rails)
    over = ((x_high, top),) if top > high else ()
    return ((out, foot), (x_low, low), (x_high, high), *over, (inn, top), (inn, foot))


def _glass(rails: Rails, sash: SashPlane) -> Group:
    """Give the glass: from the upper rail up, from the lower one down."""
    glazing, left = sash.glazing, -sash.glass.outer
    if sash.plan.place == "upper":
        low, high = rails.upper_top - glazing.lap.mm, rails.upper_top + GLASS_SHOWN_MM
    else:
        low, high = rails.lower_foot - GLASS_SHOWN_MM, rails.lower_foot
    step = glazing.sheet.mm + glazing.space
    sheets = tuple(
        Rect(left + number * step, low, glazing.sheet.mm, high - low)
        for number in range(glazing.sheets)
    )
    place = sash.plan.place
    title = f"{place} sash, glass"
    return Group("glass", sheets, f"{place}.glass", title, is_assumed=glazing.sheet.is_assumed)


def _groove(rails: Rails) -> Group:
    """The glass of the lower sash goes up into a groove: there is no putty under this rail."""
    sash = rails.lower
    lap, glass = sash.glazing.lap, sash.glass
    piece = Rect(-glass.outer, rails.lower_foot, glass.wide, lap.mm)
    return Group("glass", (piece,), "lower.glass", "groove for the glass", is_assumed=True)


def _putty(rails: Rails) -> Iterator[Group]:
    sash = rails.upper
    out, glass = -sash.span.outer, -sash.glass.outer
    low, sight = rails.upper_top - sash.glazing.lap.mm, rails.upper_top
    if glass > out:
        fillet = Polygon(((out, low), (glass, low), (glass, sight)))
        yield Group("putty", (fillet,), "upper.glass", "putty", is_assumed=True)


def _figures(window: WindowPlan, rails: Rails, text: float) -> Iterator[Group]:
    """Dimension rails, thicknesses and what the sashes share."""
    words = quantities_of(window)
    upper, lower = rails.upper, rails.lower
    out, inn = -upper.span.outer, -lower.span.inner
    high = rails.upper_top + GLASS_SHOWN_MM
    low = rails.lower_foot - GLASS_SHOWN_MM
    right = [Measure(lower.sizes.top_rail, (rails.lower_foot, rails.lower_top))]
    stated = upper.plan.sash.meeting_overlap or lower.plan.sash.meeting_overlap
    if stated is not None and rails.overlap > 0.0:
        foot = max(rails.upper_foot, rails.lower_foot)
        right.append(Measure(Size(stated.mm), (foot, foot + stated.mm)))
    left = Measure(upper.sizes.bottom_rail, (rails.upper_foot, rails.upper_top))
    for measures, beside, away, reach in (
        ([left], out - 1.7 * text, -1.0, out),
        (right, inn + 1.7 * text, 1.0, inn),
    ):
        yield from in_rows(
            measures, words, beside=beside, away=away, reach=reach, text=text, is_upright=True
        )
    for sash, beside, away, reach in (
        (upper, high + 1.7 * text, 1.0, high),
        (lower, low - 1.7 * text, -1.0, low),
    ):
        measure = Measure(sash.thickness, (-sash.span.outer, -sash.span.inner))
        yield from in_rows(
            [measure], words, beside=beside, away=away, reach=reach, text=text, is_upright=False
        )
    yield from foot_groups(out, low - (ROW + 2.2) * text, text)


def _named(rails: Rails, text: float) -> Iterator[Group]:
    """Name the sashes, each on the free side of its glass."""
    high = rails.upper_top + GLASS_SHOWN_MM / 2.0
    low = rails.lower_foot - GLASS_SHOWN_MM / 2.0
    yield Group(
        "label",
        (
            Words((-rails.upper.glass.inner + 0.6 * text, high), "upper sash", text),
            Words((-rails.upper.glass.inner + 0.6 * text, high - 1.3 * text), "inside", text),
            Words((-rails.lower.glass.outer - 0.6 * text, low), "lower sash", text, "end"),
            Words(
                (-rails.lower.glass.outer - 0.6 * text, low - 1.3 * text), "outside", text, "end"
            ),
        ),
    )


def _description(window: WindowPlan, rails: Rails) -> str:
    """Say what is drawn, and where the rails do not meet."""
    length = quantities_of(window).length
    said = (
        "Sashes shut, outside on the left. The joint is drawn as usual: splayed, so that it closes."
    )
    if rails.overlap <= 0.0:
        gap = length(-rails.overlap)
        return (
            f"Sashes shut, outside on the left. As surveyed the rails do not meet: {gap} is open."
        )
    return f"{said} The rails share {length(rails.overlap)} of their heights."
