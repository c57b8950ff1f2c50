"""The numbers a hang is computed from: everything settled, in mm, kg and N; `nan` is not known.

Records are typed in floats; while an estate is planned, columns stand in their fields.
"""

from __future__ import annotations

from typing import NamedTuple


class SideInputs(NamedTuple):
    """One side of a sash: its pulley, its box and its weight."""

    axle_mm: float
    """Height of the pulley's axle above the sill."""
    box_bottom_mm: float
    """Height of the bottom of the box above the sill."""
    radius_mm: float
    """Radius of the cord's centre line about the axle."""
    case_below_axle_mm: float
    """Lowest point of the pulley's case."""
    efficiency: float
    """Pull that leaves the wheel over the pull that comes to it, as found [1]."""
    freed_efficiency: float
    """The same with a wheel that turns, as it will be hung [1]."""
    weight_kg: float
    """Mass of the weight that pulls on the cord; 0 where none does."""
    length_mm: float
    """Overall hanging length of the weight."""
    piece_mm: float
    """Longest single piece of it, that must pass the pocket."""
    across_mm: float
    """Diameter of a round weight, side of a square one."""
    wall_mm: float
    """Thickness of the pulley stile."""
    depth_mm: float
    """From the pulley stile to the back lining."""
    pocket_height_mm: float
    """Height of the pocket."""
    pocket_above_sill_mm: float
    """Bottom of the pocket above the sill of the window."""
    pocket_width_mm: float
    """Width of the pocket."""


class SashInputs(NamedTuple):
    """One sash and what it hangs by."""

    is_upper: bool
    """Whether it closes upwards."""
    mass_kg: float
    """Mass of the sash."""
    excess_least_kg: float
    """Least signed excess that will do."""
    excess_best_kg: float
    """Signed excess to aim at."""
    excess_most_kg: float
    """Most signed excess that will do."""
    difference_kg: float
    """The most that left and right may differ."""
    travel_mm: float
    """How far it runs."""
    cord_end_lowest_mm: float
    """Height of the cord's end above the sill with the sash at its lowest."""
    top_gap_mm: float
    """From the head down to the top of the sash at its highest."""
    top_nail_mm: float
    """Highest cord nail, below the top of the sash."""
    nail_margin_mm: float
    """What that nail shall stay below the axle."""
    head_mm: float
    """Height of the head above the sill."""
    nailed_mm: float
    """Cord that lies nailed in the groove."""
    knot_mm: float
    """Height of the settled knot."""
    tail_mm: float
    """Cord spent on the knot."""
    stretch_pct: float
    """Stretch of the free cord under load [pct]."""
    cord_mm: float
    """Diameter of the cord."""
    cord_kg_m: float
    """Mass of the cord over its length [kg/m]."""
    pulley_clearance_mm: float
    """What the knot shall stay below the pulley case."""
    bottom_clearance_mm: float
    """What the weight shall stay above the bottom of the box."""
    slide_least_n: float
    """Friction in the runs on a good day."""
    slide_likely_n: float
    """Friction in the runs most days."""
    slide_most_n: float
    """Friction in the runs on a bad day."""
    left: SideInputs
    """The left side, seen from inside."""
    right: SideInputs
    """The right side, seen from inside."""
