"""From a surveyed sash to settled numbers, with a note for everything taken for granted."""

from __future__ import annotations

import math
from functools import cache
from typing import TYPE_CHECKING, Any, Literal, NamedTuple

from evenhung.physics import hang, operation, travel
from evenhung.plan.assumed import assumed, source_of, stands_for
from evenhung.plan.catalogue import note
from evenhung.plan.inputs import SashInputs, SideInputs
from evenhung.survey.box import Pulley
from evenhung.survey.house import Cord, Policy
from evenhung.survey.sash import FrictionRange, Sash

if TYPE_CHECKING:
    from evenhung.notes import Note
    from evenhung.plan.estimate import SashMass
    from evenhung.plan.words import Words
    from evenhung.quantities import Length
    from evenhung.survey.fields import Record
    from evenhung.survey.house import House
    from evenhung.survey.weight import Weight
    from evenhung.survey.window import Window

    Side = Literal["left", "right"]
    Place = Literal["upper", "lower"]


class HouseInputs(NamedTuple):
    """What holds for every sash of a house, settled."""

    cord_mm: float
    cord_kg_m: float
    knot_mm: float
    tail_mm: float
    stretch_pct: float
    difference_kg: float
    stretch_allowance_mm: float
    pulley_clearance_mm: float
    bottom_clearance_mm: float
    nail_margin_mm: float
    scale_step_kg: float


def settle_house(house: House, words: Words, notes: list[Note]) -> HouseInputs:
    """Settle what holds for every sash of a house."""
    policy, cord = house.policy, house.cord
    cord_mm = _mm(cord, "diameter", words, notes)
    return HouseInputs(
        cord_mm=cord_mm,
        cord_kg_m=_cord_kg_m(cord, cord_mm, notes),
        knot_mm=_mm(cord, "knot", words, notes),
        tail_mm=_mm(cord, "tail", words, notes),
        stretch_pct=_number(cord, "stretch_pct", notes),
        difference_kg=_kg(policy, "pair_difference", words, notes),
        stretch_allowance_mm=_mm(policy, "stretch_allowance", words, notes),
        pulley_clearance_mm=_mm(policy, "pulley_clearance", words, notes),
        bottom_clearance_mm=_mm(policy, "bottom_clearance", words, notes),
        nail_margin_mm=_mm(policy, "nail_margin", words, notes),
        scale_step_kg=_kg(house, "scale_step", words, []),
    )


def settle_sash(
    *,
    house: House,
    common: HouseInputs,
    window: Window,
    place: Place,
    sash: Sash,
    mass: SashMass,
    words: Words,
    notes: list[Note],
) -> SashInputs:
    """Settle one running sash of known or unknown mass; everything assumed is noted."""
    head = float(window.box.clear_height.mm)
    height, horn = sash.height.mm, sash.horn.mm if sash.horn else 0.0
    run = sash.travel.mm if sash.travel else max(0.0, head - height - horn)
    cord_end = sash.cord_end.mm if sash.cord_end else math.nan
    is_upper = place == "upper"
    lowest = head - cord_end - run if is_upper else height - cord_end
    least, likely, most = _slide_n(sash, words, notes)
    line = line_of(sash)
    margin = margin_for(house.policy, place, mass.kg)
    if margin.least == margin.most and mass.kg == mass.kg and not _states_band(house.policy, place):
        notes.append(note("band-closed", source_of("policy/heavy sash/difference_most")))
    return SashInputs(
        is_upper=is_upper,
        mass_kg=mass.kg,
        excess_least_kg=float(-margin.most if is_upper else margin.least),
        excess_best_kg=float(-margin.best if is_upper else margin.best),
        excess_most_kg=float(-margin.least if is_upper else margin.most),
        difference_kg=common.difference_kg,
        travel_mm=run,
        cord_end_lowest_mm=lowest,
        top_gap_mm=0.0 if is_upper else head - height - run,
        top_nail_mm=sash.top_nail.mm if sash.top_nail else math.nan,
        nail_margin_mm=common.nail_margin_mm,
        head_mm=head,
        nailed_mm=nailed_mm(sash),
        knot_mm=common.knot_mm,
        tail_mm=common.tail_mm if line == "cord" else 0.0,
        stretch_pct=common.stretch_pct
        if line == "cord"
        else assumed(f"cords/{line}/stretch_pct").value,
        cord_mm=common.cord_mm,
        cord_kg_m=common.cord_kg_m if line == "cord" else _line_kg_m(line, notes),
        pulley_clearance_mm=common.pulley_clearance_mm,
        bottom_clearance_mm=common.stretch_allowance_mm if is_upper else common.bottom_clearance_mm,
        slide_least_n=least,
        slide_likely_n=likely,
        slide_most_n=most,
        left=_settle_side(common, window, sash, "left", words, notes),
        right=_settle_side(common, window, sash, "right", words, notes),
    )


def _settle_side(
    common: HouseInputs, window: Window, sash: Sash, side: Side, words: Words, notes: list[Note]
) -> SideInputs:
    box = {field: box_length_mm(window, sash, side, field) for field in _BOX_FIELDS}
    axle_mm = window.box.clear_height.mm - box["pulley_drop"]
    weight, other = (sash.left, sash.right) if side == "left" else (sash.right, sash.left)
    stand_in = other if weight is not None and weight.is_missing else weight
    wheel_mm = float(_of_pulley(window, sash, side, "wheel").mm)
    return SideInputs(
        axle_mm=axle_mm,
        box_bottom_mm=axle_mm - box["weight_space"],
        radius_mm=float(travel.cord_radius_mm(wheel_mm=wheel_mm, cord_mm=common.cord_mm)),
        case_below_axle_mm=_case_mm(window, sash, side, wheel_mm, words, notes),
        efficiency=_efficiency(common, window, sash, side, wheel_mm, words, notes),
        weight_kg=pulling_kg(weight),
        length_mm=stand_in.length.mm if stand_in and stand_in.length else math.nan,
        piece_mm=stand_in.length.mm if stand_in and stand_in.length else math.nan,
        across_mm=stand_in.diameter.mm if stand_in and stand_in.diameter else math.nan,
        wall_mm=box["stile_thickness"],
        depth_mm=box["compartment_depth"],
        pocket_height_mm=box["pocket_height"],
        pocket_above_sill_mm=box["pocket_above_sill"],
        pocket_width_mm=box["pocket_width"],
    )


_BOX_FIELDS = (
    "weight_space",
    "pulley_drop",
    "stile_thickness",
    "compartment_depth",
    "pocket_height",
    "pocket_above_sill",
    "pocket_width",
)


def box_length_mm(window: Window, sash: Sash, side: Side, field: str) -> float:
    """Give a size of the box on one side of a sash, by the nearest record that states it."""
    for record in (getattr(sash.box, side), sash.box, getattr(window.box, side), window.box):
        length: Length | None = getattr(record, field)
        if length is not None:
            return length.mm
    return math.nan


def is_seized(window: Window, sash: Sash, side: Side) -> bool:
    """Tell whether the wheel on one side of a sash does not turn."""
    return bool(_of_pulley(window, sash, side, "turns") == "seized")


def _of_pulley(window: Window, sash: Sash, side: Side, field: str) -> Any:  # noqa: ANN401 - a field
    for record in (
        getattr(sash.pulley, side),
        sash.pulley,
        getattr(window.pulley, side),
        window.pulley,
    ):
        value = getattr(record, field)
        if value is not None:
            return value
    return None


def _efficiency(
    common: HouseInputs,
    window: Window,
    sash: Sash,
    side: Side,
    wheel_mm: float,
    words: Words,
    notes: list[Note],
) -> float:
    if is_seized(window, sash, side):
        sliding = assumed("friction/cord on wheel/coefficient").value
        return float(operation.seized_efficiency(cord_friction=sliding))
    axle = _of_pulley(window, sash, side, "axle")
    friction = _of_pulley(window, sash, side, "friction")
    bend = _of_pulley(window, sash, side, "cord_bend_pct")
    once = notes if side == "left" else []
    efficiency = operation.pulley_efficiency(
        axle_friction=_stand_in(Pulley, "friction", "axle friction", once)
        if friction is None
        else friction,
        axle_mm=_stand_in(Pulley, "axle", "axle", once, words) if axle is None else axle.mm,
        wheel_mm=wheel_mm,
        cord_mm=common.cord_mm,
        cord_bend_pct=_stand_in(Pulley, "cord_bend_pct", "cord bend", once)
        if bend is None
        else bend,
    )
    return float(efficiency)


def _case_mm(
    window: Window, sash: Sash, side: Side, wheel_mm: float, words: Words, notes: list[Note]
) -> float:
    stated = _of_pulley(window, sash, side, "case_below_axle")
    if stated is not None:
        return float(stated.mm)
    below = assumed("joinery/pulley case/below_wheel")
    case_mm = wheel_mm / 2.0 + below.value
    if side == "left":
        notes.append(
            note(
                "assumed", below.source, what="pulley case below axle", value=words.length(case_mm)
            )
        )
    return case_mm


def pulling_kg(weight: Weight | None) -> float:
    """Give the mass that pulls on the cord: 0 where none does, nan where not known."""
    if weight is None:
        return math.nan
    if not weight.is_attached:
        return 0.0
    return weight.weighed.kg if weight.weighed else math.nan


def nailed_mm(sash: Sash) -> float:
    """Give how much cord lies nailed in the groove."""
    if sash.anchorage == "knotted" or sash.top_nail is None or sash.cord_end is None:
        return 0.0
    return sash.cord_end.mm - sash.top_nail.mm


def line_of(sash: Sash) -> str:
    """Give what a sash hangs on: cord, chain or tape."""
    lines = {
        weight.hung or "cord"
        for weight in (sash.left, sash.right)
        if weight and not weight.is_missing
    }
    return "chain" if "chain" in lines else "tape" if "tape" in lines else "cord"


def _line_kg_m(line: str, notes: list[Note]) -> float:
    row = assumed(f"cords/{line}/mass_per_length")
    notes.append(note("assumed", row.source, what=f"{line}, mass per length", value=row.printed))
    return row.value / 1000.0


def _slide_n(sash: Sash, words: Words, notes: list[Note]) -> tuple[float, float, float]:
    stated = sash.slide_friction
    if isinstance(stated, FrictionRange):
        return stated.least.n, stated.likely.n, stated.most.n
    if stated is not None:
        return stated.n, stated.n, stated.n
    rows = [assumed(f"friction/slide/{which}") for which in ("least", "likely", "most")]
    value = " to ".join(words.force(rows[place].value) for place in (0, 2))
    what = f"friction in the runs, likely {words.force(rows[1].value)},"
    notes.append(note("assumed", rows[1].source, what=what, value=value))
    return rows[0].value, rows[1].value, rows[2].value


def _states_band(policy: Policy, place: Place) -> bool:
    return (policy.upper_deficit if place == "upper" else policy.lower_excess) is not None


def margin_for(policy: Policy, place: Place, mass_kg: float) -> hang.Band:
    """Give how far a pair should differ from its sash: as the house states, else by its mass."""
    stated = policy.upper_deficit if place == "upper" else policy.lower_excess
    if stated is not None:
        return hang.Band(stated.least.kg, stated.best.kg, stated.most.kg)
    light, middle, heavy = _bands(place)
    return hang.usual_margin(
        mass_kg=mass_kg,
        light_below_kg=assumed("policy/bands/light_under").value,
        heavy_above_kg=assumed("policy/bands/heavy_over").value,
        light=light,
        middle=middle,
        heavy_pct=heavy,
        heavy_cap_kg=assumed("policy/heavy sash/difference_most").value,
    )


@cache
def _bands(place: Place) -> tuple[hang.Band, hang.Band, hang.Band]:
    name = "upper_deficit" if place == "upper" else "lower_excess"
    light, middle, heavy = (
        hang.Band(
            *(
                assumed(f"policy/{sort} sash/{name}_{which}").value
                for which in ("least", "best", "most")
            )
        )
        for sort in ("light", "middle", "heavy")
    )
    return light, middle, heavy


def _cord_kg_m(cord: Cord, cord_mm: float, notes: list[Note]) -> float:
    if cord.mass_per_length is not None:
        return cord.mass_per_length.kg_per_m
    row = assumed(stands_for(Cord, "mass_per_length"))
    kg_m = row.value * math.pi / 4.0 * (cord_mm / 1000.0) ** 2
    notes.append(
        note("assumed", row.source, what="cord, mass per length", value=f"{kg_m * 1000:.0f} g/m")
    )
    return kg_m


def _mm(record: Record, field: str, words: Words, notes: list[Note]) -> float:
    stated: Length | None = getattr(record, field)
    return (
        stated.mm
        if stated is not None
        else _stand_in(type(record), field, _spoken(field), notes, words)
    )


def _kg(record: Record, field: str, words: Words, notes: list[Note]) -> float:
    stated = getattr(record, field)
    if stated is not None:
        return float(stated.kg)
    row = assumed(stands_for(type(record), field))
    notes.append(note("assumed", row.source, what=_spoken(field), value=words.mass(row.value)))
    return row.value


def _number(record: Record, field: str, notes: list[Note]) -> float:
    stated = getattr(record, field)
    return (
        float(stated)
        if stated is not None
        else _stand_in(type(record), field, _spoken(field), notes)
    )


def _stand_in(
    record: type[Record], field: str, what: str, notes: list[Note], lengths: Words | None = None
) -> float:
    """Give the reference value of an absent field, noted; `lengths` writes it if it is one."""
    row = assumed(stands_for(record, field))
    value = lengths.length(row.value) if lengths else row.printed
    notes.append(note("assumed", row.source, what=what, value=value))
    return row.value


def _spoken(field: str) -> str:
    return field.removesuffix("_pct").replace("_", " ")
