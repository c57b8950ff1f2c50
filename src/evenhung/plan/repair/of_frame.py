"""The pieces of a box frame: sizes as surveyed, else as the reference has them.

Pulley stiles, linings and beads are counted between head and sill; head and sill run through over
the boxes. A pocket is part of its pulley stile and counted apart.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from evenhung.physics import fabric
from evenhung.plan.assumed import assumed
from evenhung.plan.repair.piece import Piece

if TYPE_CHECKING:
    from collections.abc import Iterator

    from evenhung.survey.members import Kind
    from evenhung.survey.window import Window


class _Side(NamedTuple):
    """One box, across."""

    wall_mm: float
    whole_mm: float
    """From the face of the pulley stile to the back of the back lining."""
    pocket_high_mm: float
    pocket_wide_mm: float


class _Frame(NamedTuple):
    high_mm: float
    wide_mm: float
    over_boxes_mm: float
    stile_mm: float
    """Width of a pulley stile."""
    kg_m3: float


def pieces_of_frame(window: Window, *, sash_mm: float, kg_m3: float) -> Iterator[Piece]:
    """Give the pieces of a frame.

    Parameters
    ----------
    window
        The window.
    sash_mm
        Thickness of its sashes, by which the usual width of a pulley stile goes [mm].
    kg_m3
        Density of its timber [kg/m3].
    """
    sides = {side: _side(window, side) for side in ("left", "right")}
    frame = _Frame(
        high_mm=window.box.clear_height.mm,
        wide_mm=window.box.clear_width.mm,
        over_boxes_mm=window.box.clear_width.mm + sum(one.whole_mm for one in sides.values()),
        stile_mm=_stile_width_mm(sash_mm),
        kg_m3=kg_m3,
    )
    yield from _level(frame, sides)
    for name, side in sides.items():
        yield from _upright(frame, name, side)


def _side(window: Window, side: str) -> _Side:
    own, box = getattr(window.box, side), window.box

    def stated(field: str, usual: float) -> float:
        size = getattr(own, field) or getattr(box, field)
        return float(size.mm) if size is not None else usual

    wall = stated("stile_thickness", assumed("joinery/pulley stile/thickness").value)
    back = assumed("joinery/back lining/thickness").value
    inner = assumed("joinery/lining/inner_width").value
    depth = stated("compartment_depth", inner - wall - back)
    return _Side(
        wall,
        wall + depth + back,
        stated("pocket_height", assumed("joinery/pocket/length_most").value),
        stated("pocket_width", assumed("joinery/pocket/width").value),
    )


def _stile_width_mm(sash_mm: float) -> float:
    """Take the pulley stile of the reference's sash that is nearest in thickness."""
    sorts = ("34 mm sash", "44 mm sash")
    nearest = min(sorts, key=lambda sort: abs(assumed(f"joinery/{sort}/thickness").value - sash_mm))
    return assumed(f"joinery/{nearest}/pulley_stile_width").value


def _level(frame: _Frame, sides: dict[str, _Side]) -> Iterator[Piece]:
    wall = max(side.wall_mm for side in sides.values())
    yield _prism(frame, "head", "head", frame.over_boxes_mm, frame.stile_mm, wall)
    yield _sill(frame)
    thick = assumed("joinery/lining/thickness").value
    for lining in ("inner", "outer"):
        face = assumed(f"joinery/lining/{lining}_width").value
        name = f"head {lining} lining"
        yield _prism(frame, name, "lining", frame.over_boxes_mm, face, thick)
    for name in ("head parting bead", "head staff bead", "sill staff bead"):
        sort = name.partition(" ")[2]
        yield _bead(frame, name, sort, frame.wide_mm)


def _sill(frame: _Frame) -> Piece:
    width, thick = (assumed(f"joinery/sill/{size}").value for size in ("width", "thickness"))
    section = fabric.weathered_section_mm2(
        width_mm=width,
        thickness_mm=thick,
        weathering_mm=assumed("joinery/sill/weathering").value,
        fall=assumed("joinery/sill/fall").value,
    )
    piece = _prism(frame, "sill", "sill", frame.over_boxes_mm, width, thick)
    return piece._replace(volume_mm3=float(section) * frame.over_boxes_mm)


def _upright(frame: _Frame, name: str, side: _Side) -> Iterator[Piece]:
    stile = _prism(
        frame, f"{name} pulley stile", "pulley stile", frame.high_mm, frame.stile_mm, side.wall_mm
    )
    pocket = _prism(
        frame, f"{name} pocket", "pocket", side.pocket_high_mm, side.pocket_wide_mm, side.wall_mm
    )
    yield stile._replace(volume_mm3=max(0.0, stile.volume_mm3 - pocket.volume_mm3))
    yield pocket
    thick = assumed("joinery/lining/thickness").value
    lap = assumed("joinery/lining/outer_width").value - assumed("joinery/lining/inner_width").value
    for lining, face in (("inner", side.whole_mm), ("outer", side.whole_mm + lap)):
        yield _prism(frame, f"{name} {lining} lining", "lining", frame.high_mm, face, thick)
    back = (assumed(f"joinery/back lining/{size}").value for size in ("width", "thickness"))
    yield _prism(frame, f"{name} back lining", "lining", frame.high_mm, *back)
    for sort in ("parting bead", "staff bead"):
        yield _bead(frame, f"{name} {sort}", sort, frame.high_mm)
    slip = (assumed(f"joinery/parting slip/{size}").value for size in ("width", "thickness"))
    yield _prism(frame, f"{name} parting slip", "slip", frame.high_mm, *slip)


def _bead(frame: _Frame, name: str, sort: str, length_mm: float) -> Piece:
    sizes = (assumed(f"joinery/{sort}/{size}").value for size in ("width", "thickness"))
    return _prism(frame, name, "bead", length_mm, *sizes)


def _prism(
    frame: _Frame, name: str, kind: Kind, length_mm: float, face_mm: float, thick_mm: float
) -> Piece:
    volume = length_mm * face_mm * thick_mm
    hidden = (
        (frame.over_boxes_mm - frame.wide_mm) / 2.0 if length_mm == frame.over_boxes_mm else 0.0
    )
    return Piece(name, kind, "", length_mm, face_mm, thick_mm, volume, frame.kg_m3, hidden)
