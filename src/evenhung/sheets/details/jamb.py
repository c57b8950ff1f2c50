"""The horizontal section: one side of a window cut level, seen from above, the room below.

It is cut above the meeting rails with the lower sash raised, where both sashes, both cords and
the parting slip are cut and the weights stand below.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from evenhung.sheets.details.figures import jamb_figures
from evenhung.sheets.details.frame import frame_groups
from evenhung.sheets.details.planes import planes_of
from evenhung.sheets.details.stiles import stile_groups
from evenhung.sheets.details.weights import standing, unseen, weight_groups
from evenhung.sheets.scene import Drawing
from evenhung.sheets.sizes import Sizes

if TYPE_CHECKING:
    from evenhung.plan import WindowPlan
    from evenhung.plan.frame import Side
    from evenhung.sheets.details.planes import Planes

TEXT_OF_WIDTH = 0.03
"""Size of the words over the room that the drawing takes up across."""

SHOWN_MM = 110.0
"""How much of the sashes is shown beside the pulley stile, up to the break: ours."""


def jamb_of(window: WindowPlan, *, side: Side = "right", text_mm: float | None = None) -> Drawing:
    """Draw the horizontal section through the box on one side of a window.

    Parameters
    ----------
    window
        A window of the plan of its house.
    side
        Which side, seen from inside.
    text_mm
        Size of the words, in mm of the window; None leaves it to what is drawn [mm].

    Returns
    -------
    Drawing
        The room is below, the street above. Weights stand as they will hang, if the plan has
        anything to hang, else as found.
    """
    sizes = Sizes()
    planes = planes_of(window, side, sizes)
    text = text_mm or TEXT_OF_WIDTH * (SHOWN_MM + planes.box.whole)
    groups = (
        *frame_groups(planes, side, text),
        *stile_groups(window, planes, SHOWN_MM, text, sizes),
        *weight_groups(window, planes, side, text, sizes),
        *jamb_figures(window, planes, SHOWN_MM, text),
    )
    drawing = Drawing(
        name="jamb",
        title=f"{window.window.tag}: horizontal section through the box on the {side}, to scale",
        description=_description(window, planes, side),
        groups=groups,
        margin_mm=0.5 * text,
        assumed=sizes.assumed,
    )
    return drawing.mirrored() if side == "left" else drawing


def sides_of(window: WindowPlan) -> tuple[Side, ...]:
    """Give the sides that are worth drawing: both only where box or weights differ."""
    right, left = (_drawn_by(window, side) for side in ("right", "left"))
    return ("right",) if right == left else ("right", "left")


def _drawn_by(window: WindowPlan, side: Side) -> tuple[object, ...]:
    """Give all that a section of a side depends on."""
    planes = planes_of(window, side, Sizes())
    return planes.box, planes.compartments, standing(window, side)


def _description(window: WindowPlan, planes: Planes, side: Side) -> str:
    """Say what is cut, and what is not drawn."""
    there = " and ".join(f"the {place} sash" for place in planes.sashes) or "no sash"
    said = [
        "Cut above the meeting rails with the lower sash raised and seen from above; "
        f"the room is below. Cut are {there}, the pulley stile, the linings and the beads."
    ]
    if planes.slip is None:
        slip = window.window.box.parting_slip
        said.append(
            "The parting slip is missing."
            if slip == "missing"
            else "Whether there is a parting slip is not recorded: none is drawn."
        )
    said += unseen(window, side)
    return " ".join(said)
