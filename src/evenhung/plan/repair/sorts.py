"""All pieces and panes of a window, and what of it is painted."""

from __future__ import annotations

from typing import TYPE_CHECKING

from evenhung.physics import mass
from evenhung.plan.assumed import assumed
from evenhung.plan.ledger import Ledger
from evenhung.plan.parts import parts_of, timber_density
from evenhung.plan.repair.of_frame import pieces_of_frame
from evenhung.plan.repair.of_sash import panes_of_sash, pieces_of_sash
from evenhung.plan.repair.piece import Sorts

if TYPE_CHECKING:
    from evenhung.plan.repair.piece import Panes, Piece
    from evenhung.plan.words import Words
    from evenhung.survey.window import Window

FRAME = ""
"""The place of what belongs to no sash."""


def sorts_of(window: Window, words: Words) -> Sorts:
    """Give all of a window: sizes as surveyed, else the usual ones; a curved head as if square."""
    pieces: dict[str, Piece] = {}
    panes: dict[str, Panes] = {}
    painted: dict[str, float] = {}
    thickness, density = [], []
    for place, sash in window.sashes():
        centre = parts_of(place, sash, Ledger(words, [])).centre
        pieces |= {piece.name: piece for piece in pieces_of_sash(place, centre)}
        panes[place] = panes_of_sash(place, centre, sash.glass.sheets or 1)
        painted[place] = max(0.0, float(mass.painted_area_mm2(centre))) * 1e-6
        thickness.append(float(centre.thickness_mm))
        density.append(float(centre.timber_kg_m3))
    frame = pieces_of_frame(
        window,
        sash_mm=max(thickness, default=assumed("joinery/assumed sash/thickness").value),
        kg_m3=density[-1] if density else timber_density("softwood", None)[0],
    )
    own = {piece.name: piece for piece in frame}
    seen = (piece for piece in own.values() if piece.kind not in ("slip", "pocket"))
    hidden = ("left back lining", "right back lining")
    painted[FRAME] = sum(piece.painted_m2 for piece in seen if piece.name not in hidden)
    return Sorts({**pieces, **own}, panes, painted)
