"""The mass of a sash from its members, glass, putty, paint and fittings, and how far to trust it.

A sash is two stiles the height of the sash and rails between them; glazing bars divide what is left
into panes.
Rails and bars are counted from shoulder to shoulder: a tenon fills the mortise it takes out, so
that joints neither add nor remove timber. Face widths run from the edge of a member to the sight
line, rebate included.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from evenhung.physics.elementwise import larger

if TYPE_CHECKING:
    from collections.abc import Mapping

    from evenhung.physics.elementwise import Real

CUBIC_MM_IN_M3 = 1e9


class Sash(NamedTuple):
    """A rectangular sash as its mass is reckoned; lengths in mm, each a float or an array."""

    height_mm: Real
    """Overall height, horns left out."""
    width_mm: Real
    """Overall width."""
    thickness_mm: Real
    """Thickness of stiles, rails and bars."""
    stile_mm: Real
    """Face width of each stile."""
    top_rail_mm: Real
    """Face width of the top rail (the meeting rail of a lower sash)."""
    bottom_rail_mm: Real
    """Face width of the bottom rail (the meeting rail of an upper sash)."""
    bar_mm: Real
    """Face width of a glazing bar."""
    panes_across: Real
    """Number of panes side by side."""
    panes_up: Real
    """Number of panes one above the other."""
    meeting_rail_mm: Real
    """Face width of whichever rail is the meeting rail."""
    meeting_extra_mm: Real
    """Mean thickness of the meeting rail beyond the sash's own."""
    horn_mm: Real
    """Length of each of the two horns below the sash; 0 without."""
    horn_filled: Real
    """Part of a horn's block that its shaping leaves [1]."""
    rebate_width_mm: Real
    """How far the glazing rebate reaches into a face."""
    rebate_depth_mm: Real
    """How deep the glazing rebate is, from the putty side."""
    moulding_area_mm2: Real
    """Section that the moulding takes off each inner edge [mm2]."""
    groove_width_mm: Real
    """Width of the cord groove in each stile."""
    groove_depth_mm: Real
    """Depth of the cord groove in each stile."""
    groove_length_mm: Real
    """Length of the cord groove in each stile."""
    glass_mm: Real
    """Thickness of the glass."""
    edge_clearance_mm: Real
    """Gap between the edge of the glass and the back of the rebate."""
    putty_bed_mm: Real
    """Thickness of the putty behind the glass."""
    paint_mm: Real
    """Thickness of the dry paint over all painted faces."""
    timber_kg_m3: Real
    """Density of the timber, its water included [kg/m3]."""
    glass_kg_m3: Real
    """Density of the glass [kg/m3]."""
    putty_kg_m3: Real
    """Density of set putty [kg/m3]."""
    paint_kg_m3: Real
    """Density of dry paint [kg/m3]."""
    fittings_kg: Real
    """Mass of fastener, lifts and other fittings left on [kg]."""


class Breakdown(NamedTuple):
    """What each part of a sash weighs [kg]."""

    timber: Real
    glass: Real
    putty: Real
    paint: Real
    fittings: Real

    @property
    def whole(self) -> Real:
        """The whole sash [kg]."""
        return self.timber + self.glass + self.putty + self.paint + self.fittings


EXAMPLE = Sash(
    height_mm=800.0,
    width_mm=900.0,
    thickness_mm=44.0,
    stile_mm=50.0,
    top_rail_mm=50.0,
    bottom_rail_mm=80.0,
    bar_mm=20.0,
    panes_across=2.0,
    panes_up=1.0,
    meeting_rail_mm=50.0,
    meeting_extra_mm=0.0,
    horn_mm=0.0,
    horn_filled=0.0,
    rebate_width_mm=8.0,
    rebate_depth_mm=14.0,
    moulding_area_mm2=50.0,
    groove_width_mm=13.0,
    groove_depth_mm=13.0,
    groove_length_mm=250.0,
    glass_mm=3.0,
    edge_clearance_mm=2.0,
    putty_bed_mm=2.0,
    paint_mm=0.2,
    timber_kg_m3=500.0,
    glass_kg_m3=2500.0,
    putty_kg_m3=1900.0,
    paint_kg_m3=1500.0,
    fittings_kg=0.2,
)
"""A two-light sash in round numbers, for the examples of this module and nothing else."""


def pane_sight_mm(sash: Sash) -> tuple[Real, Real]:
    """Give the sight size of one pane, its width and its height [mm].

    Parameters
    ----------
    sash
        The sash, lengths in [mm].

    Returns
    -------
    tuple of Real
        Width and height between the members round it; not positive where they leave no pane [mm].

    Examples
    --------
    >>> pane_sight_mm(EXAMPLE)
    (390.0, 670.0)
    """
    across, up = _daylight_mm(sash)
    width = (across - (sash.panes_across - 1.0) * sash.bar_mm) / sash.panes_across
    height = (up - (sash.panes_up - 1.0) * sash.bar_mm) / sash.panes_up
    return width, height


def timber_volume_mm3(sash: Sash) -> Real:
    """Give the volume of timber in a sash [mm3].

    Parameters
    ----------
    sash
        The sash, lengths in [mm].

    Returns
    -------
    Real
        Stiles, rails, bars and horns, less rebates, mouldings and cord grooves [mm3].

    Notes
    -----
    Where bars cross, the crossing counts once. A rebate is a frame round each pane, its corners
    included.

    Examples
    --------
    >>> round(timber_volume_mm3(EXAMPLE) / 1e6, 3)
    7.907
    """
    across, up = _daylight_mm(sash)
    uprights = sash.panes_across - 1.0
    faces = (
        2.0 * sash.height_mm * sash.stile_mm
        + across * (sash.top_rail_mm + sash.bottom_rail_mm)
        + uprights * up * sash.bar_mm
        + (sash.panes_up - 1.0) * (across - uprights * sash.bar_mm) * sash.bar_mm
    )
    horns = 2.0 * sash.horn_mm * sash.stile_mm * sash.thickness_mm * sash.horn_filled
    meeting = sash.width_mm * sash.meeting_rail_mm * sash.meeting_extra_mm
    rebates = _panes(sash) * _rebate_mm2(sash) * sash.rebate_depth_mm
    mouldings = _sight_perimeter_mm(sash) * sash.moulding_area_mm2
    grooves = 2.0 * sash.groove_width_mm * sash.groove_depth_mm * sash.groove_length_mm
    return faces * sash.thickness_mm + horns + meeting - rebates - mouldings - grooves


def glass_volume_mm3(sash: Sash) -> Real:
    """Give the volume of glass in a sash, what the rebates cover included [mm3].

    Parameters
    ----------
    sash
        The sash, lengths in [mm].

    Returns
    -------
    Real
        All panes [mm3].

    Examples
    --------
    >>> round(glass_volume_mm3(EXAMPLE) / 1e6, 3)
    1.645
    """
    return _panes(sash) * _with_margin_mm2(sash, _glass_cover_mm(sash)) * sash.glass_mm


def putty_volume_mm3(sash: Sash) -> Real:
    """Give the volume of putty in a sash [mm3].

    Parameters
    ----------
    sash
        The sash, lengths in [mm].

    Returns
    -------
    Real
        The bed behind the glass, the gap round its edge, and the sloped fillet before it [mm3].

    Notes
    -----
    The fillet is a triangle from the sight line at the glass to the arris of the rebate.

    Examples
    --------
    >>> round(putty_volume_mm3(EXAMPLE) / 1e6, 3)
    0.25
    """
    whole = _with_margin_mm2(sash, sash.rebate_width_mm)
    gap = whole - _with_margin_mm2(sash, _glass_cover_mm(sash))
    fillet_mm = larger(0.0, sash.rebate_depth_mm - sash.glass_mm - sash.putty_bed_mm)
    section = _rebate_mm2(sash) * (sash.putty_bed_mm + fillet_mm / 2.0) + gap * sash.glass_mm
    return _panes(sash) * section


def painted_area_mm2(sash: Sash) -> Real:
    """Give the painted area of a sash [mm2].

    Parameters
    ----------
    sash
        The sash, lengths in [mm].

    Returns
    -------
    Real
        Both faces and the edges round the panes; the edges that slide are left bare [mm2].

    Examples
    --------
    >>> round(painted_area_mm2(EXAMPLE) / 1e6, 3)
    0.581
    """
    width, height = pane_sight_mm(sash)
    face = sash.height_mm * sash.width_mm - _panes(sash) * width * height
    return 2.0 * face + _sight_perimeter_mm(sash) * sash.thickness_mm


def breakdown(sash: Sash) -> Breakdown:
    """Give what each part of a sash weighs [kg].

    Parameters
    ----------
    sash
        The sash, lengths in [mm], densities in [kg/m3].

    Returns
    -------
    Breakdown
        Timber, glass, putty, paint and fittings; `Breakdown.whole` adds them up [kg].

    Examples
    --------
    >>> [round(part, 2) for part in breakdown(EXAMPLE)], round(breakdown(EXAMPLE).whole, 2)
    ([3.95, 4.11, 0.47, 0.17, 0.2], 8.92)
    """
    return Breakdown(
        timber=timber_volume_mm3(sash) * sash.timber_kg_m3 / CUBIC_MM_IN_M3,
        glass=glass_volume_mm3(sash) * sash.glass_kg_m3 / CUBIC_MM_IN_M3,
        putty=putty_volume_mm3(sash) * sash.putty_kg_m3 / CUBIC_MM_IN_M3,
        paint=painted_area_mm2(sash) * sash.paint_mm * sash.paint_kg_m3 / CUBIC_MM_IN_M3,
        fittings=sash.fittings_kg,
    )


def spread_kg(sash: Sash, deviations: Mapping[str, Real]) -> Real:
    """Give the standard deviation of a sash's estimated mass [kg].

    Parameters
    ----------
    sash
        The sash at its central values, lengths in [mm], densities in [kg/m3].
    deviations
        Standard deviation of each field of `Sash` that is not known for certain, by its name
        [unit of the field].

    Returns
    -------
    Real
        Standard deviation of the whole sash [kg].

    Notes
    -----
    First order, the fields taken as independent: half of what the mass changes from one deviation
    below to one above, squared and summed (JCGM 100:2008, 5.1.2 and the numerical form of 5.1.3
    note 2).

    Sources
    -------
    JCGM 100 : Guide to the expression of uncertainty in measurement, 2008, clause 5.1.

    Examples
    --------
    >>> round(spread_kg(EXAMPLE, {"timber_kg_m3": 50.0, "glass_mm": 0.3}), 2)
    0.57
    """
    variance: Real = 0.0
    for name, deviation in deviations.items():
        centre = getattr(sash, name)
        above = breakdown(sash._replace(**{name: centre + deviation})).whole
        below = breakdown(sash._replace(**{name: centre - deviation})).whole
        variance = variance + ((above - below) / 2.0) ** 2
    return variance**0.5


def _daylight_mm(sash: Sash) -> tuple[Real, Real]:
    """Width and height between stiles and rails."""
    across = sash.width_mm - 2.0 * sash.stile_mm
    return across, sash.height_mm - sash.top_rail_mm - sash.bottom_rail_mm


def _panes(sash: Sash) -> Real:
    return sash.panes_across * sash.panes_up


def _sight_perimeter_mm(sash: Sash) -> Real:
    width, height = pane_sight_mm(sash)
    return _panes(sash) * 2.0 * (width + height)


def _with_margin_mm2(sash: Sash, margin_mm: Real) -> Real:
    """Area of one pane's sight size widened by a margin all round."""
    width, height = pane_sight_mm(sash)
    return (width + 2.0 * margin_mm) * (height + 2.0 * margin_mm)


def _rebate_mm2(sash: Sash) -> Real:
    """Area, seen from the front, of the rebate round one pane."""
    return _with_margin_mm2(sash, sash.rebate_width_mm) - _with_margin_mm2(sash, 0.0)


def _glass_cover_mm(sash: Sash) -> Real:
    """How far the glass reaches behind the sight line."""
    return sash.rebate_width_mm - sash.edge_clearance_mm
