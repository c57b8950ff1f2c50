"""Fabric kept: how much old timber and glass stays, how much is filled, spliced in and renewed."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from evenhung.physics import fabric

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from evenhung.plan.repair.piece import Piece, Sorts
    from evenhung.plan.repair.treatment import Treatment


class Kept(NamedTuple):
    """What becomes of some fabric, by volume [mm3] and mass [kg]."""

    whole_mm3: float
    """Old fabric that was there."""
    kept_mm3: float
    filled_mm3: float
    """Old fabric that filler takes the place of."""
    spliced_mm3: float
    """New timber let into old."""
    renewed_mm3: float
    """New parts, also those that stand for missing ones."""
    whole_kg: float
    kept_kg: float

    @property
    def kept_pct(self) -> float | None:
        """Share of the old that stays [pct]; None where nothing was there."""
        if self.whole_mm3 <= 0.0:
            return None
        return float(fabric.share_pct(kept=self.kept_mm3, whole=self.whole_mm3))


NOTHING = Kept(0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0)


class Fabric(NamedTuple):
    """Fabric of a window or of a house."""

    parts: dict[str, Kept]
    """Each part that is touched, by its name."""
    timber: Kept
    glass: Kept
    not_reckoned: tuple[str, ...]
    """Parts that lose an unknown amount: what is kept is at most what is said."""


def fabric_of(treatments: Sequence[Treatment], sorts: Sorts) -> Fabric:
    """Give what becomes of one window's fabric."""
    renewed_sashes = {one.finding.member.place for one in treatments if one.what == "renew sash"}
    timber = {
        name: _of_piece(
            piece,
            [one for one in treatments if one.finding.part == name],
            is_renewed=piece.place in renewed_sashes,
        )
        for name, piece in sorts.pieces.items()
    }
    glass = {place: _of_glass(treatments, sorts, place) for place in sorts.panes}
    touched = {name: kept for name, kept in timber.items() if kept.kept_mm3 < kept.whole_mm3}
    touched |= {name: kept for name, kept in timber.items() if kept.renewed_mm3 > 0.0}
    touched |= {
        f"{place} glass": kept for place, kept in glass.items() if kept.kept_mm3 < kept.whole_mm3
    }
    unknown = (one.finding.part for one in treatments if one.removes_mm3 is None)
    return Fabric(
        touched,
        together(timber.values()),
        together(glass.values()),
        tuple(dict.fromkeys(unknown)),
    )


def together(kept: Iterable[Kept]) -> Kept:
    """Add up."""
    columns = list(zip(*kept, strict=True))
    return Kept(*(sum(column) for column in columns)) if columns else NOTHING


def of_all(fabrics: Sequence[Fabric]) -> Fabric:
    """Give the fabric of several windows together, without their parts."""
    return Fabric(
        {},
        together(one.timber for one in fabrics),
        together(one.glass for one in fabrics),
        tuple(dict.fromkeys(part for one in fabrics for part in one.not_reckoned)),
    )


def _of_piece(piece: Piece, treatments: Sequence[Treatment], *, is_renewed: bool) -> Kept:
    """Treatments of one piece may overlap: together they take no more than there is."""
    is_missing = any(one.finding.seen == "missing" for one in treatments)
    whole = 0.0 if is_missing else piece.volume_mm3
    taken = {what: _taken(treatments, what, whole) for what in ("consolidate", "splice")}
    if is_renewed or any(one.what == "renew part" for one in treatments):
        return _kept(piece, whole, 0.0, renewed=piece.volume_mm3)
    kept = float(fabric.kept_mm3(whole_mm3=whole, lost_mm3=sum(taken.values())))
    lost = whole - kept
    spliced = min(taken["splice"], lost)
    return _kept(piece, whole, kept, spliced=spliced, filled=lost - spliced)


def _taken(treatments: Sequence[Treatment], what: str, whole_mm3: float) -> float:
    removed = (one.removes_mm3 or 0.0 for one in treatments if one.what == what)
    return min(whole_mm3, sum(removed))


def _kept(
    piece: Piece,
    whole: float,
    kept: float,
    *,
    filled: float = 0.0,
    spliced: float = 0.0,
    renewed: float = 0.0,
) -> Kept:
    kg = piece.kg_m3 * 1e-9
    return Kept(whole, kept, filled, spliced, renewed, whole * kg, kept * kg)


def _of_glass(treatments: Sequence[Treatment], sorts: Sorts, place: str) -> Kept:
    panes = sorts.panes[place]
    of_glass = [one for one in treatments if one.finding.part == f"{place} glass"]
    missing = {
        pane for one in of_glass if one.finding.seen == "missing" for pane in one.extent.panes
    }
    renewed = {pane for one in of_glass if one.what == "renew pane" for pane in one.extent.panes}
    if not panes.number:
        return NOTHING
    whole = (panes.number - len(missing)) * panes.volume_mm3
    kept = (panes.number - len(missing | renewed)) * panes.volume_mm3
    kg = panes.kg_m3 * 1e-9
    new = len(renewed) * panes.volume_mm3
    return Kept(whole, kept, 0.0, 0.0, new, whole * kg, kept * kg)
