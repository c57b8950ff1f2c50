"""Sheets of labels, by the size of a label, and how many of them go on a page."""

from __future__ import annotations

from typing import NamedTuple

from evenhung.errors import DrawingDomainError

INCH_MM = 25.4


class Labels(NamedTuple):
    """A sheet of labels: how large they are and where they lie [mm]."""

    name: str
    paper: str
    width: float
    height: float
    across: int
    down: int
    left: float
    top: float
    gap: float = 0.0
    """Between two beside each other."""
    is_cut: bool = False
    """Whether they are cut out of plain card, along lines."""


ADHESIVE = (
    Labels("70x37", "a4", 70.0, 37.0, 3, 8, 0.0, 0.5),
    Labels("105x57", "a4", 105.0, 57.0, 2, 5, 0.0, 6.0),
    Labels("67x25", "letter", 66.675, 25.4, 3, 10, 4.7625, 12.7, 3.175),
    Labels("102x51", "letter", 101.6, 50.8, 2, 5, 3.96875, 12.7, 4.7625),
)
"""Adhesive sheets, named by the size of a label in whole millimetres; sizes from memory."""

CARD = {
    "a4": Labels("to cut out", "a4", 90.0, 52.0, 2, 5, 15.0, 12.0, is_cut=True),
    "letter": Labels("to cut out", "letter", 90.0, 50.0, 2, 5, 17.95, 12.0, is_cut=True),
}
"""Tags to cut out of card, punch and tie on."""

USUAL = {"a4": "70x37", "letter": "102x51"}


def labels_of(name: str | None, paper: str) -> Labels:
    """Give a sheet of labels by name, or the usual one for a paper.

    Parameters
    ----------
    name
        Size of a label, such as ``70x37``; None takes the usual one.
    paper
        The paper it must be on.

    Raises
    ------
    DrawingDomainError
        If there is none of that size on that paper.

    Examples
    --------
    >>> labels_of(None, "a4").across
    3
    """
    wanted = name or USUAL[paper]
    known = {one.name: one for one in ADHESIVE if one.paper == paper}
    if wanted not in known:
        raise DrawingDomainError(f"labels: {wanted!r}: {sizes_on(paper)}")
    return known[wanted]


def sizes_on(paper: str) -> str:
    """Say which sizes of label there are on a paper.

    Examples
    --------
    >>> sizes_on("a4")
    'on a4 paper one of 70x37, 105x57'
    """
    return (
        f"on {paper} paper one of {', '.join(one.name for one in ADHESIVE if one.paper == paper)}"
    )
