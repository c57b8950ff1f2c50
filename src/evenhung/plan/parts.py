"""A surveyed sash as its mass is reckoned: each part as measured, else as the reference has it."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING, NamedTuple

from evenhung.errors import UnknownReference
from evenhung.physics import mass, timber
from evenhung.plan.assumed import assumed, source_of, stands_for
from evenhung.plan.catalogue import note
from evenhung.reference import look_up
from evenhung.survey.sash import Sash

if TYPE_CHECKING:
    from evenhung.plan.assumed import Assumed
    from evenhung.plan.ledger import Ledger
    from evenhung.plan.policy import Place
    from evenhung.survey.fields import Record


class Parts(NamedTuple):
    """A sash at its central values, and the standard deviation of each."""

    centre: mass.Sash
    deviations: mass.Sash


UNSEEN = {
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
"""What no survey asks for: assumed without a note, the spread in that of the estimate."""


class _Gathering:
    """Gathers the central values of one sash and their deviations."""

    def __init__(self, ledger: Ledger) -> None:
        self.ledger = ledger
        self.values: dict[str, float] = {}
        self.deviations: dict[str, float] = {}

    def put(self, name: str, value: float, deviation: float = 0.0) -> None:
        """Set one field of `mass.Sash`."""
        self.values[name], self.deviations[name] = value, deviation

    def put_row(self, name: str, row: Assumed) -> None:
        """Set one field from the reference, with its own spread."""
        self.put(name, row.value, row.spread)

    def length(
        self, name: str, record: Record, field: str, called: str = "", row: str = ""
    ) -> None:
        """Set a length as measured, with the spread of a rule, else from the reference."""
        stated = getattr(record, field)
        if stated is not None:
            self.put(name, stated.mm, assumed(_MEASURED.get(name, _BY_RULE)).spread)
        else:
            called = called or field.replace("_", " ")
            self.put_row(
                name, self.ledger.length_for(row or stands_for(type(record), field), called)
            )


_BY_RULE = "joinery/measured/length"
_MEASURED = {
    "thickness_mm": "joinery/measured/thickness",
    "rebate_depth_mm": "joinery/measured/thickness",
    "glass_mm": "joinery/measured/glass",
}
"""How surely a size is measured, where not as a length is by a rule."""


def parts_of(place: Place, sash: Sash, ledger: Ledger) -> Parts:
    """Give the parts of a sash; what is assumed and can be measured is noted."""
    gather = _Gathering(ledger)
    _put_members(gather, place, sash)
    _put_glazing(gather, sash)
    for name, row in UNSEEN.items():
        gather.put_row(name, assumed(row))
    _put_timber(gather, sash)
    if sash.fittings is not None:
        gather.put("fittings_kg", sash.fittings.kg)
    else:
        gather.put_row("fittings_kg", ledger.mass_for(stands_for(Sash, "fittings"), "fittings"))
    return Parts(mass.Sash(**gather.values), mass.Sash(**gather.deviations))


def _put_members(gather: _Gathering, place: Place, sash: Sash) -> None:
    for field in ("height", "width", "thickness", "stile"):
        gather.length(f"{field}_mm", sash, field)
    meeting = "bottom_rail" if place == "upper" else "top_rail"
    for rail in ("top_rail", "bottom_rail"):
        sort = "meeting_rail" if rail == meeting else rail
        gather.length(f"{rail}_mm", sash, rail, row=f"joinery/assumed sash/{sort}")
    gather.put("meeting_rail_mm", gather.values[f"{meeting}_mm"])
    if sash.panes is not None and sash.panes.across * sash.panes.up > 1:
        gather.length("bar_mm", sash, "bar")
    else:
        gather.put("bar_mm", 0.0)
    gather.put("horn_mm", sash.horn.mm if sash.horn else 0.0)
    _put_groove(gather, sash)


def _put_groove(gather: _Gathering, sash: Sash) -> None:
    if sash.cord_end is None:
        for name in ("groove_width_mm", "groove_depth_mm", "groove_length_mm"):
            gather.put(name, 0.0)
        return
    gather.length("groove_width_mm", sash.groove, "width", "cord groove width")
    gather.length("groove_depth_mm", sash.groove, "depth", "cord groove depth")
    gather.put("groove_length_mm", sash.cord_end.mm)


def _put_glazing(gather: _Gathering, sash: Sash) -> None:
    gather.put("panes_across", float(sash.panes.across) if sash.panes else 1.0)
    gather.put("panes_up", float(sash.panes.up) if sash.panes else 1.0)
    gather.length("rebate_width_mm", sash, "rebate_width")
    gather.length("rebate_depth_mm", sash, "rebate_depth")
    gather.length("glass_mm", sash.glass, "thickness", "glass thickness")
    sheets = sash.glass.sheets or 1
    gather.put(
        "glass_mm", sheets * gather.values["glass_mm"], sheets * gather.deviations["glass_mm"]
    )


def _put_timber(gather: _Gathering, sash: Sash) -> None:
    density, deviation = timber_density(sash.timber or "softwood", sash.moisture_pct)
    gather.put("timber_kg_m3", density, deviation)
    if sash.timber is None:
        source = source_of("timber/softwood/density_12pct")
        gather.ledger.assume("timber", f"softwood, {density:.0f} kg/m3", source)
    if sash.moisture_pct is None:
        temperature, humidity = _climate()
        words = {
            "moisture": f"{_usual_moisture_pct():.0f}",
            "temperature": f"{temperature:.0f}",
            "humidity": f"{humidity:.0f}",
        }
        source = source_of("policy/moisture/humidity_pct")
        gather.ledger.notes.append(note("moisture-assumed", source, **words))


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


@cache
def _climate() -> tuple[float, float]:
    """Temperature [C] and humidity [pct] of the air about a sash."""
    temperature, humidity = "policy/moisture/temperature_c", "policy/moisture/humidity_pct"
    return assumed(temperature).value, assumed(humidity).value


@cache
def _usual_moisture_pct() -> float:
    temperature, humidity = _climate()
    return float(timber.equilibrium_moisture_pct(temperature_c=temperature, humidity_pct=humidity))


PRINTED_AT_PCT = 12.0
"""Moisture content at which the reference's ``density_12pct`` rows are taken to hold."""


def _green_gravity(name: str) -> tuple[float, float]:
    """Green specific gravity of a species and its relative spread, by whichever row there is."""
    try:
        row = look_up("timber", name, "specific_gravity_green")
        green = row.si
    except UnknownReference:
        row = look_up("timber", name, "density_12pct")
        printed = timber.green_specific_gravity(density_kg_m3=row.si, moisture_pct=PRINTED_AT_PCT)
        green = float(printed)
    return green, (row.si_spread or 0.0) / row.si
