"""How deep decay can go into a part: its stated sizes, and what it usually measures beside them."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from evenhung.reference import look_up

if TYPE_CHECKING:
    from evenhung.quantities import Length
    from evenhung.survey.box import Box
    from evenhung.survey.members import Member
    from evenhung.survey.sash import Sash

_SASH = "assumed sash"
_USUAL: dict[str, tuple[str, ...]] = {
    "sill": ("sill/width", "sill/thickness"),
    "head": ("44 mm sash/pulley_stile_width", "pulley stile/thickness"),
    "lining": ("back lining/width", "lining/outer_width", "lining/thickness"),
    "bead": ("parting bead/width", "staff bead/width"),
    "slip": ("parting slip/width", "parting slip/thickness"),
}
"""Rows of the joinery table, of parts whose sizes the form does not ask for."""


class Size(NamedTuple):
    """One size across a part."""

    stated: Length | None
    usual: str
    """Its row in the joinery table: key and property."""

    @property
    def usual_mm(self) -> float:
        """What it usually measures [mm]."""
        return look_up("joinery", *self.usual.split("/")).si


def sizes_across(part: str, member: Member, box: Box, sash: Sash | None) -> list[Size]:
    """Give the sizes that decay can go into; none of a part that is not of timber.

    Parameters
    ----------
    part
        The part, by its name.
    member
        The same by its kind, place and side.
    box
        The box of its window.
    sash
        The sash it is of; None for a part of the frame.
    """
    if member.kind in _USUAL:
        return [Size(None, row) for row in _USUAL[member.kind]]
    if member.kind in ("pulley stile", "pocket"):
        own = getattr(box, member.side)
        thickness = Size(own.stile_thickness or box.stile_thickness, "pulley stile/thickness")
        if member.kind == "pulley stile":
            return [thickness]
        return [Size(own.pocket_width or box.pocket_width, "pocket/width"), thickness]
    if sash is None or member.kind not in ("stile", "rail", "bars", "sash"):
        return []
    return [*_faces(part, member, sash), _thickness(part, sash)]


def _faces(part: str, member: Member, sash: Sash) -> list[Size]:
    if member.kind == "stile":
        return [Size(sash.stile, f"{_SASH}/stile")]
    if member.kind == "bars":
        return [Size(sash.bar, f"{_SASH}/bar")]
    if member.kind == "sash":
        return []
    if part.endswith("top rail"):
        return [Size(sash.top_rail, f"{_SASH}/top_rail")]
    if part.endswith("bottom rail"):
        return [Size(sash.bottom_rail, f"{_SASH}/bottom_rail")]
    meeting = sash.bottom_rail if member.place == "upper" else sash.top_rail
    return [Size(meeting, f"{_SASH}/meeting_rail")]


def _thickness(part: str, sash: Sash) -> Size:
    """A meeting rail is thicker than its sash, by how much the form does not ask."""
    if part.endswith("meeting rail"):
        return Size(None, "44 mm sash/meeting_rail_depth")
    return Size(sash.thickness, f"{_SASH}/thickness")
