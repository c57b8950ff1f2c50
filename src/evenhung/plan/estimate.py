"""The mass of each sash: as weighed, else estimated from its parts, with its spread."""

from __future__ import annotations

import math
from functools import cache
from typing import TYPE_CHECKING, Literal, NamedTuple

from evenhung.errors import UnknownReference
from evenhung.physics import mass, timber
from evenhung.physics.elementwise import both, choose
from evenhung.plan.assumed import assumed, source_of, stands_for
from evenhung.plan.catalogue import note
from evenhung.plan.columns import for_each
from evenhung.reference import look_up
from evenhung.survey.sash import Glass, Groove, Sash

if TYPE_CHECKING:
    from collections.abc import Sequence

    from evenhung.notes import Note
    from evenhung.physics.elementwise import Real
    from evenhung.plan.words import Words
    from evenhung.survey.fields import Record

UNIFORM = 1.0 / math.sqrt(12.0)
"""Standard deviation of a value anywhere within one step, over the step (JCGM 100:2008, 4.3.7)."""


class SashMass(NamedTuple):
    """The mass of a sash and how far to trust it; `nan` where it cannot be known."""

    kg: float
    deviation_kg: float
    found: Literal["weighed", "estimated"] | None


class _Estimate(NamedTuple):
    """A sash as its mass is reckoned, with a standard deviation for every size of it."""

    centre: mass.Sash
    deviations: mass.Sash


class _Estimated(NamedTuple):
    kg: Real
    deviation_kg: Real


UNKNOWN = SashMass(math.nan, math.nan, None)


def masses(
    sashes: Sequence[tuple[str, Sash]],
    scale_step_kg: float,
    words: Words,
    notes: Sequence[list[Note]],
) -> list[SashMass]:
    """Give the mass of every sash.

    Parameters
    ----------
    sashes
        Each with its place, ``upper`` or ``lower``.
    scale_step_kg
        Smallest step of the scale they were weighed on [kg].
    words
        How to write quantities in notes.
    notes
        For each sash, the notes to add to.
    """
    answers = [UNKNOWN] * len(sashes)
    to_estimate: dict[int, _Estimate] = {}
    for number, (place, sash) in enumerate(sashes):
        if sash.weighed is not None:
            answers[number] = SashMass(sash.weighed.kg, scale_step_kg * UNIFORM, "weighed")
        elif sash.head in ("segmental", "round"):
            notes[number].append(note("mass-unknown", head=sash.head))
        else:
            to_estimate[number] = _parts(place, sash, words, notes[number])
    found = for_each(list(to_estimate.values()), _reckon) if to_estimate else []
    for number, one in zip(to_estimate, found, strict=True):
        if one.kg == one.kg:
            answers[number] = SashMass(float(one.kg), float(one.deviation_kg), "estimated")
            spoken = {
                "mass": words.mass(float(one.kg)),
                "spread": words.mass(float(one.deviation_kg)),
            }
            notes[number].append(note("estimated", **spoken))
        else:
            notes[number].append(note("no-room-for-glass"))
    return answers


def _reckon(estimate: _Estimate) -> _Estimated:
    deviations = {
        name: deviation
        for name, deviation in zip(mass.Sash._fields, estimate.deviations, strict=True)
        if not _is_nought(deviation)
    }
    width, height = mass.pane_sight_mm(estimate.centre)
    possible = both(width > 0.0, height > 0.0)
    whole = mass.breakdown(estimate.centre).whole
    return _Estimated(
        kg=choose(possible, whole, math.nan),
        deviation_kg=choose(possible, mass.spread_kg(estimate.centre, deviations), math.nan),
    )


def _is_nought(deviation: Real) -> bool:
    return isinstance(deviation, float) and deviation == 0.0


class _Settling:
    """Gathers the values of one sash and their deviations, noting what is assumed."""

    def __init__(self, words: Words, notes: list[Note]) -> None:
        self.words, self.notes = words, notes
        self.values: dict[str, float] = {}
        self.deviations: dict[str, float] = {}

    def put(self, name: str, value: float, deviation: float = 0.0) -> None:
        """Set one field of `mass.Sash`."""
        self.values[name], self.deviations[name] = value, deviation

    def length(
        self, name: str, record: Record, field: str, row: str | None = None, rule: str = "length"
    ) -> None:
        """Set a length from the survey with the spread of a rule, else from the reference."""
        stated = getattr(record, field)
        if stated is not None:
            self.put(name, stated.mm, assumed(f"joinery/measured/{rule}").spread)
        else:
            self.stand_in(
                name,
                row or stands_for(type(record), field),
                _SPOKEN.get((type(record), field), field.replace("_", " ")),
            )

    def stand_in(self, name: str, row: str, what: str | None = None) -> None:
        """Set a field from the reference; `what` names it in a note, None leaves the note out."""
        found = assumed(row)
        self.put(name, found.value, found.spread)
        if what is not None:
            value = (
                self.words.length(found.value)
                if found.printed.endswith((" mm", " in"))
                else found.printed
            )
            self.notes.append(note("assumed", found.source, what=what, value=value))


_SPOKEN = {
    (Groove, "width"): "cord groove width",
    (Groove, "depth"): "cord groove depth",
    (Glass, "thickness"): "glass thickness",
}


def _parts(place: str, sash: Sash, words: Words, notes: list[Note]) -> _Estimate:
    gather = _Settling(words, notes)
    gather.length("height_mm", sash, "height")
    gather.length("width_mm", sash, "width")
    gather.length("thickness_mm", sash, "thickness", rule="thickness")
    gather.length("stile_mm", sash, "stile")
    gather.length("bar_mm", sash, "bar")
    meeting = "bottom_rail" if place == "upper" else "top_rail"
    for rail in ("top_rail", "bottom_rail"):
        gather.length(
            f"{rail}_mm",
            sash,
            rail,
            f"joinery/assumed sash/{'meeting_rail' if rail == meeting else rail}",
        )
    gather.put("meeting_rail_mm", gather.values[f"{meeting}_mm"])
    gather.put("panes_across", float(sash.panes.across) if sash.panes else 1.0)
    gather.put("panes_up", float(sash.panes.up) if sash.panes else 1.0)
    gather.put("horn_mm", sash.horn.mm if sash.horn else 0.0)
    gather.length("rebate_width_mm", sash, "rebate_width")
    gather.length("rebate_depth_mm", sash, "rebate_depth", rule="thickness")
    gather.length("groove_width_mm", sash.groove, "width")
    gather.length("groove_depth_mm", sash.groove, "depth")
    gather.put("groove_length_mm", sash.cord_end.mm if sash.cord_end else 0.0)
    gather.length("glass_mm", sash.glass, "thickness", rule="glass")
    for name, row in _UNSEEN.items():
        gather.stand_in(name, row)
    _put_timber(gather, sash)
    _put_fittings(gather, sash)
    return _Estimate(mass.Sash(**gather.values), mass.Sash(**gather.deviations))


_UNSEEN = {
    "meeting_extra_mm": "joinery/assumed sash/meeting_rail_extra",
    "horn_filled": "joinery/assumed sash/horn_filled",
    "moulding_area_mm2": "joinery/assumed sash/moulding_area",
    "edge_clearance_mm": "glass/assumed pane/edge_clearance",
    "putty_bed_mm": "putty/linseed/bed_thickness",
    "paint_mm": "paint/old film/thickness",
    "glass_kg_m3": "glass/soda-lime/density",
    "putty_kg_m3": "putty/linseed/density",
    "paint_kg_m3": "paint/old film/density",
}
"""What no survey asks for: details whose spread is in the estimate's spread."""


def _put_timber(gather: _Settling, sash: Sash) -> None:
    name = sash.timber or "softwood"
    density, deviation = timber_density(name, sash.moisture_pct)
    gather.put("timber_kg_m3", density, deviation)
    if sash.timber is None:
        source = source_of("timber/softwood/density_12pct")
        gather.notes.append(
            note("assumed", source, what="timber", value=f"softwood, {density:.0f} kg/m3")
        )
    if sash.moisture_pct is None:
        temperature, humidity = _climate()
        words = {
            "moisture": f"{_usual_moisture_pct():.0f}",
            "temperature": f"{temperature:.0f}",
            "humidity": f"{humidity:.0f}",
        }
        gather.notes.append(
            note("moisture-assumed", source_of("policy/moisture/humidity_pct"), **words)
        )


def _put_fittings(gather: _Settling, sash: Sash) -> None:
    if sash.fittings is not None:
        gather.put("fittings_kg", sash.fittings.kg)
        return
    row = assumed(stands_for(Sash, "fittings"))
    gather.put("fittings_kg", row.value, row.spread)
    gather.notes.append(
        note("assumed", row.source, what="fittings", value=gather.words.mass(row.value))
    )


@cache
def _climate() -> tuple[float, float]:
    return assumed("policy/moisture/temperature_c").value, assumed(
        "policy/moisture/humidity_pct"
    ).value


@cache
def _usual_moisture_pct() -> float:
    temperature, humidity = _climate()
    return float(timber.equilibrium_moisture_pct(temperature_c=temperature, humidity_pct=humidity))


@cache
def timber_density(name: str, moisture_pct: float | None) -> tuple[float, float]:
    """Give the density of a timber and its standard deviation [kg/m3].

    Parameters
    ----------
    name
        A species of the reference.
    moisture_pct
        Moisture content read in it; None takes what timber comes to in the reference's air [pct].
    """
    green, relative = _green_gravity(name)
    moisture = _usual_moisture_pct() if moisture_pct is None else moisture_pct
    step = assumed("policy/moisture/spread_pct").value if moisture_pct is None else 0.0
    low, central, high = (
        timber.density_kg_m3(
            specific_gravity=timber.specific_gravity(green=green, moisture_pct=at), moisture_pct=at
        )
        for at in (moisture - step, moisture, moisture + step)
    )
    by_moisture = (high - low) / 2.0
    return float(central), float(((central * relative) ** 2 + by_moisture**2) ** 0.5)


def _green_gravity(name: str) -> tuple[float, float]:
    """Give the green specific gravity of a species and its relative spread."""
    try:
        row = look_up("timber", name, "specific_gravity_green")
        green = row.si
    except UnknownReference:
        row = look_up("timber", name, "density_12pct")
        green = float(timber.green_specific_gravity(density_kg_m3=row.si, moisture_pct=12.0))
    return green, (row.si_spread or 0.0) / row.si
