"""The timber that treatments take: sections and lengths, with what is planed and trimmed off."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from evenhung.plan.assumed import assumed

if TYPE_CHECKING:
    from collections.abc import Iterator

    from evenhung.plan.repair.house import WindowRepair
    from evenhung.plan.repair.piece import Piece
    from evenhung.plan.repair.treatment import Treatment


class TimberPiece(NamedTuple):
    """One piece of new timber."""

    window: str
    part: str
    what: str
    """``splice``, ``renew part`` or ``renew sash``."""
    face_mm: float
    """Finished section, the larger size first."""
    thick_mm: float
    length_mm: float
    """To cut, the allowance for trimming in it."""

    @property
    def sawn_mm(self) -> tuple[float, float]:
        """Section before it is planed [mm]."""
        planed = assumed("repair/timber stock/planing").value
        return self.face_mm + planed, self.thick_mm + planed


def timber_for(repair: WindowRepair) -> list[TimberPiece]:
    """Give the new timber for one window; a part that is renewed is not spliced besides."""
    found = [piece for one in repair.treatments for piece in _for_one(repair, one)]
    renewed = {piece.part for piece in found if piece.what != "splice"}
    once: dict[tuple[str, str], TimberPiece] = {}
    kept: list[TimberPiece] = []
    for piece in found:
        if piece.what == "splice" and piece.part not in renewed:
            kept.append(piece)
        elif piece.what != "splice" and (piece.part, "renewed") not in once:
            once[piece.part, "renewed"] = piece
            kept.append(piece)
    return kept


def _for_one(repair: WindowRepair, one: Treatment) -> Iterator[TimberPiece]:
    piece = repair.sorts.pieces.get(one.finding.part)
    if one.what == "splice" and one.splice is not None and piece is not None:
        width = one.splice.section_mm2 / one.splice.across_mm
        yield _cut(repair, piece, one.what, one.splice.piece_mm, (width, one.splice.across_mm))
    elif one.what == "renew part" and piece is not None:
        yield _cut(repair, piece, one.what, piece.length_mm, (piece.face_mm, piece.thick_mm))
    elif one.what == "renew sash":
        for member in repair.sorts.pieces.values():
            if member.place == one.finding.member.place:
                section = member.face_mm, member.thick_mm
                yield _cut(repair, member, one.what, member.length_mm, section)


def _cut(
    repair: WindowRepair,
    piece: Piece,
    what: str,
    length_mm: float,
    section: tuple[float, float],
) -> TimberPiece:
    thick, face = sorted(section)
    trimmed = assumed("repair/timber stock/end_allowance").value
    tag = repair.window.tag
    return TimberPiece(tag, piece.name, what, face, thick, length_mm + trimmed)
