"""Timber, glass, nails and finishes of the cutting and buying lists, as plain data."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from evenhung.plan.assumed import source_of
from evenhung.plan.takeoff.cutting import sawn_section, timber_cuts
from evenhung.plan.takeoff.glass import glass_orders
from evenhung.plan.takeoff.nails import nails_of
from evenhung.sheets.pack.cords import cords_of
from evenhung.sheets.pack.figures import breakable, length, mass, section, shortened

if TYPE_CHECKING:
    from collections.abc import Iterator

    from evenhung.plan.takeoff.cutting import Cuts
    from evenhung.plan.takeoff.glass import GlassOrder
    from evenhung.plan.takeoff.house import TakeOff
    from evenhung.plan.takeoff.nails import Nails
    from evenhung.sheets.pack.house import PackHouse

NEVER_RECKONED = "Sprigs, glue, filler, screws and draught seals are not reckoned."


def up(amount: float) -> float:
    """Give an amount, up to a tenth, so that it is enough.

    Examples
    --------
    >>> up(1.02), up(1.1)
    (1.1, 1.1)
    """
    return math.ceil(amount * 10.0 - 1e-6) / 10.0


def takeoff_of(house: PackHouse) -> TakeOff | None:
    """Give the take-off of a house; None where nothing was found that asks for one."""
    return house.job.overhaul.takeoff if house.job.overhaul is not None else None


def orders_of(house: PackHouse) -> list[GlassOrder]:
    """Give the panes to order, those alike together."""
    overhaul = house.job.overhaul
    return glass_orders([one.glazing for one in overhaul.windows]) if overhaul else []


def cuts_of(house: PackHouse) -> list[Cuts]:
    """Give how the timber is cut from lengths as they are bought."""
    takeoff = takeoff_of(house)
    return timber_cuts(takeoff.timber) if takeoff is not None else []


def cord_nails_of(house: PackHouse) -> Nails:
    """Give the cord nails, as far as the survey states them."""
    return nails_of(house.plan, cords_of(house))


def not_reckoned(house: PackHouse) -> list[str]:
    """Say what is not on the lists, and why."""
    said = [NEVER_RECKONED]
    overhaul = house.job.overhaul
    if overhaul is None:
        said.insert(0, "No finding is recorded, so no timber, glass, putty or paint is reckoned.")
    else:
        open_ = [
            f"{one.repair.window.tag} {part}"
            for one in overhaul.windows
            for part in one.repair.fabric.not_reckoned
        ]
        if open_:
            said.insert(0, f"Their extent is not recorded, so nothing is cut: {', '.join(open_)}.")
    nails = cord_nails_of(house)
    if nails.left_out:
        names = ", ".join(nails.left_out)
        said.append(f"Cord nails are left out where the survey states none: {names}.")
    return [breakable(one) for one in said]


def materials_data(house: PackHouse) -> dict[str, object]:
    """Give the timber, glass, nails and finishes of a house as plain data."""
    orders, takeoff = orders_of(house), takeoff_of(house)
    return {
        "timber": list(_timber(house)),
        "lengths": [_cuts(house, one) for one in cuts_of(house)],
        "glass": [_order(house, one) for one in orders],
        "measure": source_of("glass/assumed pane/edge_clearance"),
        "nails": list(_nails(house)),
        "finishes": list(_finishes(house, takeoff)) if takeoff is not None else [],
        "not_reckoned": not_reckoned(house),
    }


def _timber(house: PackHouse) -> Iterator[dict[str, object]]:
    words, takeoff = house.words, takeoff_of(house)
    for piece in takeoff.timber if takeoff is not None else ():
        face, thick = sawn_section(piece)
        yield {
            "window": shortened(piece.window, 40),
            "part": piece.part,
            "what": piece.what,
            "long": length(words, piece.length_mm),
            "finished": section(words, piece.face_mm, piece.thick_mm),
            "sawn": section(words, face, thick),
        }


def _cuts(house: PackHouse, one: Cuts) -> dict[str, object]:
    words = house.words
    return {
        "what": one.what.removeprefix("timber "),
        "stock": length(words, one.stock_mm),
        "kerf": length(words, one.kerf_mm),
        "count": one.number,
        "is_fewest": one.is_fewest,
        "lengths": [
            {
                "count": each.number,
                "cuts": [length(words, mm) for mm in each.cuts_mm],
                "left": length(words, each.left_mm),
            }
            for each in one.lengths
        ],
        "too_long": [length(words, mm) for mm in one.too_long_mm],
    }


def _order(house: PackHouse, one: GlassOrder) -> dict[str, object]:
    words, line = house.words, one.line
    return {
        "count": line.number,
        "size": section(words, line.width_mm, line.height_mm),
        "thick": f"{line.sheet_mm:g} mm",
        "sheets": line.sheets,
        "is_historic": line.is_historic,
        "is_safety": line.is_safety,
        "panes": [shortened(pane, 90) for pane in one.panes],
        "said": [
            {
                "rule": said.answer.rule,
                "applies": said.answer.applies,
                "says": breakable(said.answer.says),
                "missing": breakable(said.answer.missing),
                "source": said.answer.source,
                "panes": [shortened(pane, 90) for pane in said.panes]
                if len(said.panes) < len(one.panes)
                else [],
            }
            for said in one.said
        ],
    }


def _nails(house: PackHouse) -> Iterator[dict[str, object]]:
    for one in cord_nails_of(house).lines:
        yield {
            "window": shortened(one.window, 40),
            "place": one.place,
            "count": one.number,
            "is_assumed": one.is_number_assumed,
            "long": length(house.words, one.length_mm),
            "is_optional": one.is_optional,
        }


def _finishes(house: PackHouse, takeoff: TakeOff) -> Iterator[dict[str, object]]:
    words, putty, paint = house.words, takeoff.putty, takeoff.paint
    if putty.mass_kg > 0.0:
        yield {
            "what": "linseed putty",
            "much": mass(words, putty.mass_kg),
            "how": f"{putty.length_mm / 1000.0:.1f} m of bed, edge and fillet",
            "source": source_of("putty/linseed/density"),
        }
    if paint.area_m2 > 0.0:
        yield {
            "what": "paint",
            "much": {"own": f"{paint.least_l:.1f} to {up(paint.most_l):.1f} L", "other": ""},
            "how": f"{paint.area_m2:.1f} m², {paint.coats:g} coats, "
            "by the best and by the worst coverage in print",
            "source": source_of("paint/primer/coverage"),
        }
