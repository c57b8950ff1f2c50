"""How far a finding goes: along its piece and into it, or over which panes."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from evenhung.plan.assumed import assumed
from evenhung.plan.repair.splice import Decay

if TYPE_CHECKING:
    from evenhung.plan.repair.piece import Piece
    from evenhung.plan.repair.splice import Splice
    from evenhung.survey.finding import Finding
    from evenhung.survey.sash import Sash


class Extent(NamedTuple):
    """What is known of how far it goes."""

    decay: Decay | None
    """Where along its piece; None where length or depth is not recorded."""
    decay_mm3: float | None
    """Volume of the decay itself."""
    is_slight: bool
    """Short and shallow enough to be filled."""
    is_long: bool
    """Longer than is filled; also where the length is not known."""
    panes: tuple[tuple[int, int], ...] = ()
    """Column and row of each pane, where it is of glass or putty."""

    @staticmethod
    def is_most_of(piece: Piece, splice: Splice) -> bool:
        """Tell whether a splice would take more of a piece than is worth it."""
        most = assumed("repair/splice/most_of_member_pct").value / 100.0
        return splice.replaced_mm3 > most * piece.length_mm * piece.section_mm2


def extent_of(finding: Finding, piece: Piece | None) -> Extent:
    """Give how far a finding goes along a piece; nothing is known where there is none."""
    if piece is None or finding.length is None:
        return Extent(None, None, is_slight=False, is_long=True)
    long = finding.length.mm
    is_short = long <= piece.length_mm * assumed("repair/consolidate/most_length_pct").value / 100.0
    if finding.depth is None:
        return Extent(None, None, is_slight=False, is_long=not is_short)
    deep = min(finding.depth.mm, max(piece.face_mm, piece.thick_mm))
    is_shallow = deep <= piece.thin_mm * assumed("repair/consolidate/most_depth_pct").value / 100.0
    begins = piece.hidden_mm + (finding.begins.mm if finding.begins else 0.0)
    low, high = begins, min(begins + long, piece.length_mm)
    if finding.measured_from in ("top", "right"):
        low, high = max(0.0, piece.length_mm - begins - long), piece.length_mm - begins
    into, along = sorted((piece.face_mm, piece.thick_mm))
    wide = along if deep <= into else into
    return Extent(
        decay=Decay(low, high, deep),
        decay_mm3=min(long * deep * wide, piece.volume_mm3),
        is_slight=is_short and is_shallow,
        is_long=not is_short,
    )


def panes_of(finding: Finding, sash: Sash) -> tuple[tuple[int, int], ...]:
    """Give the panes that a finding is of, from the left and from the top; all where none is named.

    Parameters
    ----------
    finding
        Of glass or of putty.
    sash
        The sash it is in.
    """
    across, up = (sash.panes.across, sash.panes.up) if sash.panes else (1, 1)
    columns = (finding.column,) if finding.column else range(1, across + 1)
    rows = (finding.row,) if finding.row else range(1, up + 1)
    return tuple((column, row) for row in rows for column in columns)
