"""The splice that a stretch of decay takes: where it is cut, how long, how much joint it has."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from evenhung.physics import scarf
from evenhung.plan.assumed import assumed

if TYPE_CHECKING:
    from evenhung.plan.repair.piece import Piece


class Decay(NamedTuple):
    """A stretch of decay along a piece, from its left or bottom end [mm]."""

    low_mm: float
    high_mm: float
    depth_mm: float


class Splice(NamedTuple):
    """New timber let into a piece."""

    slope: float
    """Run over rise."""
    ends: int
    """Sloped ends: 1 at an end of the piece, 2 in its middle."""
    across_mm: float
    """The size that the slopes cross."""
    section_mm2: float
    """What is cut away, square to the grain."""
    scarf_mm: float
    beyond_mm: float
    """Sound wood cut away beyond the decay at each sloped end."""
    starts_mm: float
    """Where the new piece begins, from the left or bottom end."""
    piece_mm: float
    """Length of the new piece, point to point."""
    glue_mm2: float
    """All of its joint."""
    replaced_mm3: float
    is_let_in: bool
    """Whether it is let into a face and the rest of the section runs through."""

    @property
    def joint_ratio(self) -> float:
        """Area of one sloped joint over the section it crosses [1]."""
        return float(scarf.glue_area_mm2(section_mm2=1.0, slope=self.slope))


def splice_for(piece: Piece, decay: Decay, slope: float | None = None) -> Splice | None:
    """Give the splice for a stretch of decay; None where the piece has no room for its slopes.

    Parameters
    ----------
    piece
        What is spliced.
    decay
        Where and how deep.
    slope
        Run over rise; None takes the reference's.
    """
    across, width, is_let_in = _cut(piece, decay.depth_mm)
    slope = slope if slope is not None else assumed("repair/scarf/slope").value
    beyond = assumed("repair/splice/beyond_decay").value
    run = float(scarf.length_mm(across_mm=across, slope=slope))
    low, high, ends = decay.low_mm, decay.high_mm, 2
    if low < beyond + run:
        low, ends = 0.0, ends - 1
    if piece.length_mm - high < beyond + run:
        high, ends = piece.length_mm, ends - 1
    if ends == 0:
        return None
    section = across * width
    sizes = {"decay_mm": high - low, "beyond_mm": beyond, "scarf_mm": run, "ends": float(ends)}
    replaced = float(scarf.replaced_mm3(section_mm2=section, **sizes))
    floor = width * (high - low + ends * beyond) if is_let_in else 0.0
    glue = ends * float(scarf.glue_area_mm2(section_mm2=section, slope=slope)) + floor
    return Splice(
        slope=slope,
        ends=ends,
        across_mm=across,
        section_mm2=section,
        scarf_mm=run,
        beyond_mm=beyond,
        starts_mm=max(0.0, low - beyond - run) if low > 0.0 else 0.0,
        piece_mm=float(scarf.piece_mm(**sizes)),
        glue_mm2=glue,
        replaced_mm3=replaced,
        is_let_in=is_let_in,
    )


def _cut(piece: Piece, depth_mm: float) -> tuple[float, float, bool]:
    """Give the size the slopes cross, the width of the cut, and whether some section runs through.

    Shallow decay is let into the face that it goes in from; deeper decay takes the whole section,
    and the slopes cross its smaller size.
    """
    into, along = sorted((piece.face_mm, piece.thick_mm))
    if depth_mm > into:
        into, along = along, into
    shallow = depth_mm < into * assumed("repair/splice/let_in_below_pct").value / 100.0
    if shallow:
        return min(into, depth_mm + assumed("repair/splice/beneath_decay").value), along, True
    return piece.thin_mm, max(piece.face_mm, piece.thick_mm), False
