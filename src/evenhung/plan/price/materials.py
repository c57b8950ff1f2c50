"""What the hang and the overhaul of a house use up, and what it costs by the survey's prices."""

from __future__ import annotations

from collections import defaultdict
from decimal import ROUND_HALF_UP, Decimal
from typing import TYPE_CHECKING, NamedTuple

from evenhung.plan.facts import known

if TYPE_CHECKING:
    from collections.abc import Container, Iterable, Iterator

    from evenhung.plan.house import HousePlan, SashPlan
    from evenhung.plan.job import Job
    from evenhung.plan.overhaul import Overhaul, WindowOverhaul
    from evenhung.plan.proposal import Proposal
    from evenhung.plan.work import Work
    from evenhung.survey.house import House

CENT = Decimal("0.01")


class Needed(NamedTuple):
    """Some of a material, for one window."""

    name: str
    """As the survey's prices name it."""
    per: str
    """What it is counted in: each, m, m2, kg, L."""
    quantity: float
    window: str


class UsedUp(NamedTuple):
    """What is used up, sort by sort."""

    hanging: tuple[Needed, ...] = ()
    timber: tuple[Needed, ...] = ()
    glazing: tuple[Needed, ...] = ()
    paint: tuple[Needed, ...] = ()


class MaterialLine(NamedTuple):
    """All of one material."""

    name: str
    per: str
    quantity: Decimal
    windows: tuple[str, ...]
    each: Decimal | None
    """None where the survey has no price for it."""
    amount: Decimal | None
    priced_by: str = ""
    """The entry of the survey that its price is from; empty where it has none."""


def hanging_materials(
    plan: HousePlan, work: Iterable[Work], *, bought_for: Container[tuple[str, str]] = ()
) -> list[Needed]:
    """Give the cord and the metal that some work on the hang uses up.

    Parameters
    ----------
    plan
        The plan of the house.
    work
        What is done.
    bought_for
        Sashes, by window and place, whose metal is bought otherwise: of them only the cord.
    """
    done: set[tuple[str, str, str]] = {(one.window, one.part, one.operation) for one in work}
    return [
        one
        for sash in plan.sashes()
        for one in _of_sash(sash, done)
        if one.per != "kg" or (sash.window.tag, sash.place) not in bought_for
    ]


def _of_sash(sash: SashPlan, done: set[tuple[str, str, str]]) -> Iterator[Needed]:
    proposal, tag = sash.proposal, sash.window.tag
    if proposal is None:
        return
    for side, hung in (("left", proposal.left), ("right", proposal.right)):
        part = f"{sash.place} {side}"
        if (tag, part, "re-cord a side") in done and known(proposal.hang.cut_mm) is not None:
            yield Needed(_cord_name(proposal), "m", proposal.hang.cut_mm / 1000.0, tag)
        if (tag, part, "make a weight") in done and hung.metal is not None:
            yield Needed(hung.metal, "kg", hung.mass_kg, tag)
        elif (tag, part, "change a weight") in done and hung.add_kg > 0.0 and hung.added_metal:
            yield Needed(hung.added_metal, "kg", hung.add_kg, tag)


def _cord_name(proposal: Proposal) -> str:
    return f"cord, {proposal.inputs.cord_mm:g} mm"


def overhaul_materials(overhaul: Overhaul) -> UsedUp:
    """Give the timber, glass, putty and paint that an overhaul uses up.

    Parameters
    ----------
    overhaul
        What is done beside the hang.

    Notes
    -----
    Paint is reckoned by the worst coverage in print, so that it is enough.
    """
    timber = tuple(
        Needed(f"timber, {piece.face_mm:.0f} x {piece.thick_mm:.0f} mm", "m", metres, piece.window)
        for piece in overhaul.takeoff.timber
        if (metres := piece.length_mm / 1000.0)
    )
    glazing = tuple(one for window in overhaul.windows for one in _of_glazing(window))
    paint = tuple(
        Needed("paint", "L", paint.most_l, window)
        for window, paint in overhaul.takeoff.paint_by_window
    )
    return UsedUp((), timber, glazing, paint)


def used_up_in(job: Job, *, bought_for: Container[tuple[str, str]] = ()) -> UsedUp:
    """Give all that a job uses up.

    Parameters
    ----------
    job
        The job on a house, or on one window of it.
    bought_for
        Sashes, by window and place, whose metal is bought otherwise.
    """
    hanging = tuple(hanging_materials(job.plan, job.work, bought_for=bought_for))
    overhaul = overhaul_materials(job.overhaul) if job.overhaul is not None else UsedUp()
    return overhaul._replace(hanging=hanging)


def in_order(used: Iterable[UsedUp]) -> list[Needed]:
    """Give what several windows use up in the order of a price: sort by sort, then by window."""
    sorts = zip(*used, strict=True)
    return [one for sort in sorts for window in sort for one in window]


def _of_glazing(window: WindowOverhaul) -> Iterator[Needed]:
    for pane in window.glazing.panes:
        if pane.what == "renew pane":
            area = pane.width_mm * pane.height_mm * pane.sheets / 1e6
            name = f"glass, {pane.sheet_mm:g} mm{', old' if pane.is_historic else ''}"
            yield Needed(name, "m2", area, pane.window)
        yield Needed("putty", "kg", pane.putty_kg, pane.window)


def prices_by_name(house: House) -> dict[tuple[str, str], tuple[Decimal, str]]:
    """Give what materials cost by their name and what they are counted in, and where it stands."""
    return {
        (one.name, one.per): (one.price.amount, f"house.material[{number}]")
        for number, one in enumerate(house.material)
    }


def material_lines(house: House, needed: Iterable[Needed]) -> tuple[MaterialLine, ...]:
    """Price materials, each by its name and what it is counted in."""
    prices = prices_by_name(house)
    sums: dict[tuple[str, str], float] = defaultdict(float)
    windows: dict[tuple[str, str], dict[str, None]] = defaultdict(dict)
    for one in needed:
        sums[one.name, one.per] += one.quantity
        windows[one.name, one.per][one.window] = None
    lines = []
    for (name, per), total in sums.items():
        quantity = Decimal(total).quantize(CENT, ROUND_HALF_UP)
        each, priced_by = prices.get((name, per), (None, ""))
        amount = None if each is None else (each * quantity).quantize(CENT, ROUND_HALF_UP)
        where = tuple(windows[name, per])
        lines.append(MaterialLine(name, per, quantity, where, each, amount, priced_by))
    return tuple(lines)
