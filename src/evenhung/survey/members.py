"""The parts of a window that something can be found of, by the names that joiners give them.

Left and right are as seen from inside. A part with a run is measured along it: a stile upwards, a
rail across; a sill and a head between the pulley stiles, a pulley stile from sill to head.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal, NamedTuple, TypeAlias

if TYPE_CHECKING:
    from collections.abc import Iterator

Run: TypeAlias = Literal["up", "across", ""]
"""How a part lies; empty for one along which nothing is measured."""

Kind: TypeAlias = Literal[
    "stile",
    "rail",
    "bars",
    "sash",
    "sill",
    "head",
    "pulley stile",
    "lining",
    "bead",
    "slip",
    "pocket",
    "glass",
    "putty",
    "paint",
    "cord",
    "pulley",
    "fittings",
]
"""Parts that are seen and treated alike."""


class Member(NamedTuple):
    """One part of a window."""

    kind: Kind
    place: str
    """``upper`` or ``lower`` for a part of a sash; empty for a part of the frame."""
    side: str
    """``left`` or ``right``, where there is one on each side; else empty."""
    run: Run

    @property
    def ends(self) -> tuple[str, ...]:
        """Give the two ends that a distance along it can be measured from; none without a run."""
        return {"up": ("bottom", "top"), "across": ("left", "right"), "": ()}[self.run]


def _parts() -> Iterator[tuple[str, Member]]:
    for place in ("upper", "lower"):
        yield from _of_sash(place)
    for name, kind in (("sill", "sill"), ("head", "head"), ("frame paint", "paint")):
        yield name, Member(kind, "", "", "across" if kind != "paint" else "")  # type: ignore[arg-type] # each is a Kind
    for side in ("left", "right"):
        yield f"{side} pulley stile", Member("pulley stile", "", side, "up")
        for lining in ("inner", "outer", "back"):
            yield f"{side} {lining} lining", Member("lining", "", side, "up")
        for bead in ("parting", "staff"):
            yield f"{side} {bead} bead", Member("bead", "", side, "up")
        yield f"{side} parting slip", Member("slip", "", side, "")
        yield f"{side} pocket", Member("pocket", "", side, "")
    for name in ("head inner lining", "head outer lining"):
        yield name, Member("lining", "", "", "across")
    for name in ("head parting bead", "head staff bead", "sill staff bead"):
        yield name, Member("bead", "", "", "across")


def _of_sash(place: str) -> Iterator[tuple[str, Member]]:
    outer = "top" if place == "upper" else "bottom"
    for side in ("left", "right"):
        yield f"{place} {side} stile", Member("stile", place, side, "up")
    yield f"{place} {outer} rail", Member("rail", place, "", "across")
    yield f"{place} meeting rail", Member("rail", place, "", "across")
    for kind in ("bars", "glass", "putty", "paint", "fittings", "sash"):
        yield f"{place} {kind}", Member(kind, place, "", "")
    for side in ("left", "right"):
        for kind in ("cord", "pulley"):
            yield f"{place} {side} {kind}", Member(kind, place, side, "")  # type: ignore[arg-type] # each is a Kind


PARTS: dict[str, Member] = dict(_parts())
"""Every part by its name."""

_WOOD = (
    "sound",
    "rot",
    "split",
    "open joint",
    "worn",
    "loose",
    "broken",
    "missing",
    "painted over",
)
_METAL = ("sound", "worn", "loose", "seized", "rusted", "broken", "missing", "painted over")

WOODEN: frozenset[Kind] = frozenset(
    {
        "stile",
        "rail",
        "bars",
        "sash",
        "sill",
        "head",
        "pulley stile",
        "lining",
        "bead",
        "slip",
        "pocket",
    }
)
"""Parts of timber."""

SEEN: dict[Kind, tuple[str, ...]] = {
    **dict.fromkeys(sorted(WOODEN), _WOOD),
    "glass": ("sound", "cracked", "loose", "broken", "missing"),
    "putty": ("sound", "cracked", "loose", "perished", "missing"),
    "paint": ("sound", "flaking", "built up", "missing"),
    "cord": ("sound", "worn", "broken", "missing", "painted over"),
    "pulley": _METAL,
    "fittings": _METAL,
}
"""What can be seen of each kind of part."""

EVERY_SEEN: tuple[str, ...] = tuple(
    dict.fromkeys(word for words in SEEN.values() for word in words)
)
"""Every word for what can be seen, each once."""

_OF_A_MEMBER = ("leave", "clean and ease", "consolidate", "splice", "renew part")

TREATMENTS: dict[Kind, tuple[str, ...]] = {
    **dict.fromkeys(("stile", "rail", "bars"), (*_OF_A_MEMBER, "renew sash")),
    **dict.fromkeys(("sill", "head", "pulley stile", "lining"), _OF_A_MEMBER),
    "sash": ("leave", "clean and ease", "renew sash"),
    **dict.fromkeys(("bead", "slip", "pocket"), ("leave", "clean and ease", "renew part")),
    "glass": ("leave", "re-bed", "renew pane"),
    "putty": ("leave", "re-bed"),
    "paint": ("leave", "paint", "strip and paint"),
    "cord": ("leave", "re-cord"),
    "pulley": ("leave", "overhaul", "renew part"),
    "fittings": ("leave", "clean and ease", "renew part"),
}
"""What can be done to each kind of part, the least first."""

EVERY_TREATMENT: tuple[str, ...] = tuple(
    dict.fromkeys(word for words in TREATMENTS.values() for word in words)
)
"""Every word for what can be done, each once."""
