"""What a section is drawn from: one side of a sash, settled, and where its columns stand.

x runs from the face of the pulley stile into the box, y up from the sill. A section of the left
side is drawn like one of the right and mirrored at the end.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from evenhung.sheets.sizes import Sizes, box_sizes, known_or, sash_sizes

if TYPE_CHECKING:
    from evenhung.plan import SashPlan
    from evenhung.plan.frame import Side
    from evenhung.plan.inputs import SashInputs, SideInputs
    from evenhung.plan.positions import Hanging, SashPositions, SidePositions
    from evenhung.plan.proposal import HungWeight
    from evenhung.plan.words import Words
    from evenhung.sheets.sizes import SashSizes, Size

TEXT_OF_HEIGHT = 0.0195
"""Size of the words over the height of the frame: 11 px where a drawing is 690 px high."""

FIGURES_OF_TEXT = 9.6
"""Room for a figure such as 2 ft 10 15/16 in, over the size of the words."""

SASH_SHOWN_MM = 150.0
"""How much of a sash is shown beside the stile, up to the break: ours."""


class Setting(NamedTuple):
    """One side of one sash, as it is drawn."""

    plan: SashPlan
    side: Side
    positions: SashPositions
    hanging: Hanging
    at: SidePositions
    inputs: SashInputs
    hung: HungWeight | None
    """The weight proposed; None where it is drawn as found."""
    sash: SashSizes
    sizes: Sizes
    wall: Size
    depth: Size
    lining: Size
    head: Size
    sill: Size
    text_mm: float | None = None
    """Size of the words; None leaves it to the size of what is drawn."""
    is_brief: bool = False
    """Whether only the hang and its clearances are told: the page says the rest."""

    @property
    def words(self) -> Words:
        """How quantities are written for the house."""
        return self.plan.ledger.words

    @property
    def sash_mm(self) -> float:
        """The edge of the sash; it lies left of the face of the stile."""
        return -(self.plan.window.box.clear_width.mm - self.sash.width) / 2.0

    @property
    def cord_mm(self) -> float:
        """Plumb line of the cord in the groove, flush with the edge of the sash."""
        return self.sash_mm - self.inputs.cord_mm / 2.0

    @property
    def weight_mm(self) -> float:
        """Plumb line of the weight."""
        return self.cord_mm + 2.0 * self.at.radius_mm

    @property
    def back_mm(self) -> float:
        """Inner face of the back lining."""
        return self.wall.mm + self.depth.mm

    @property
    def outer_mm(self) -> float:
        """Outer face of the back lining."""
        return self.back_mm + self.lining.mm

    @property
    def lowest_mm(self) -> float:
        """Underside of the sill, or of the box where that goes deeper."""
        return min(-self.sill.mm, self.at.box_bottom_mm - self.lining.mm)

    @property
    def text(self) -> float:
        """Size of the words."""
        return self.text_mm or TEXT_OF_HEIGHT * (self.inputs.head_mm - self.lowest_mm)

    @property
    def figures_mm(self) -> float:
        """Where the clearances are dimensioned."""
        return self.outer_mm + 0.9 * self.text

    @property
    def names_mm(self) -> float:
        """Where the names of the parts begin."""
        return self.figures_mm + FIGURES_OF_TEXT * self.text

    @property
    def mass_words(self) -> str:
        """What the weight weighs with what is added; empty where that is not known."""
        kg = self.side_inputs.weight_kg
        return self.words.mass(kg) if kg > 0.0 else ""

    @property
    def side_inputs(self) -> SideInputs:
        """The settled numbers of this side."""
        return self.inputs.left if self.side == "left" else self.inputs.right


def setting_of(plan: SashPlan, positions: SashPositions, side: Side, *, as_found: bool) -> Setting:
    """Settle one side of a running sash, as it will hang if the plan has a hang, else as found."""
    if plan.found is None:
        raise LookupError(f"{plan.window.tag} {plan.place}: a fixed sash has no section to draw")
    proposal = None if as_found else plan.proposal
    hanging = positions.hung if proposal and positions.hung else positions.found
    inputs = proposal.inputs if proposal else plan.found.inputs
    own = inputs.left if side == "left" else inputs.right
    sizes = Sizes()
    box = box_sizes(plan.window, side, sizes)
    return Setting(
        plan=plan,
        side=side,
        positions=positions,
        hanging=hanging,
        at=hanging.left if side == "left" else hanging.right,
        inputs=inputs,
        hung=(proposal.left if side == "left" else proposal.right) if proposal else None,
        sash=sash_sizes(plan.place, plan.sash, sizes),
        sizes=sizes,
        wall=known_or(own.wall_mm, box.wall),
        depth=known_or(own.depth_mm, box.depth),
        lining=box.lining,
        head=sizes.usual("joinery/lining/thickness", "head"),
        sill=sizes.usual("joinery/sill/thickness", "sill"),
    )
