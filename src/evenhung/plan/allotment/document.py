"""An allotment as plain data: what ``evenhung allot --json`` prints."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from evenhung.plan.allotment.applied import on_what_is_allotted
from evenhung.plan.allotment.sentences import bought_name, move_sentence, side_sentence
from evenhung.plan.document import document_of, hung_document, number, pair_document
from evenhung.survey.stock import Bar, MakeWeight, ReadyMade

if TYPE_CHECKING:
    from decimal import Decimal

    from evenhung.plan.allotment.buying import Basket, Bought
    from evenhung.plan.allotment.house import HouseAllotment
    from evenhung.plan.allotment.outcome import Hanging, Served


KINDS = {MakeWeight: "make-weight", Bar: "bar", ReadyMade: "ready-made"}


def allotment_document(found: HouseAllotment) -> dict[str, Any]:
    """Give an allotment as plain data; every key is always there."""
    house, words = found.plan.survey.house, found.plan.words
    return {
        "form": 1,
        "house": {"name": house.name, "shown_in": words.system, "currency": house.currency},
        "status": found.status,
        "cost": number(found.cost),
        "bound": number(found.bound),
        "seconds": round(found.seconds, 3),
        "sashes": [_served(one) for one in found.served],
        "sides": [_side(one, found) for one in found.hangings],
        "unserved": [
            {
                "window": one.sash.window.tag,
                "sash": one.sash.place,
                "reason": one.reason,
                "asked": one.is_asked,
            }
            for one in found.unserved
        ],
        "moves": [
            {
                "what": move.what,
                "weight": move.name or None,
                "to": move.hanging.place.name if move.hanging else None,
                "says": move_sentence(move, words),
            }
            for move in found.moves
        ],
        "buy": [_bought(line) for line in found.basket.lines],
        "totals": _totals(found.basket),
        "left_over": [
            {"weight": one.name, "mass_kg": number(float(one.kg)), "stays": one.home is not None}
            for one in found.left_over
        ],
        "left_out": [one._asdict() for one in found.left_out],
        "notes": [note._asdict() for note in found.notes],
    }


def allotted_plan_document(found: HouseAllotment) -> dict[str, Any]:
    """Give a house's plan with the allotment in it: what is hung is what is allotted."""
    document = document_of(found.plan, now=on_what_is_allotted(found.plan, found))
    windows = {window["tag"]: window for window in document["windows"]}
    for unserved in found.unserved:
        if unserved.is_asked:
            windows[unserved.sash.window.tag][unserved.sash.place]["hung"] = None
    done = [one.hung for one in found.unserved if one.hung is not None]
    for served in (*found.served, *done):
        plan = served.asked.plan
        windows[plan.window.tag][plan.place]["hung"] = hung_document(served.proposal)
    return {**document, "allotment": allotment_document(found)}


def _served(one: Served) -> dict[str, Any]:
    return {
        "window": one.asked.plan.window.tag,
        "sash": one.asked.plan.place,
        "mass_kg": number(one.asked.plan.mass.kg),
        "mass_sd_kg": number(one.asked.plan.mass.deviation_kg),
        "mass_from": one.asked.plan.mass.found,
        "pair_kg": pair_document(one.asked.found.hang),
        "excess_kg": number(one.proposal.hang.excess_kg),
        "hung": hung_document(one.proposal),
    }


def _side(one: Hanging, found: HouseAllotment) -> dict[str, Any]:
    return {
        "window": one.place.sash.window.tag,
        "sash": one.place.sash.place,
        "side": one.place.side,
        "origin": one.origin,
        "weight": one.source,
        "add": [{"mass_kg": number(piece.mass.kg), "count": count} for piece, count in one.pieces],
        "add_kg": number(one.added_kg),
        "off_kg": number(one.off_kg),
        "mass_kg": number(one.kg),
        "length_mm": number(one.length_mm),
        "longest_mm": number(one.place.longest_mm),
        "says": side_sentence(one, found.plan.words),
    }


def _bought(line: Bought) -> dict[str, Any]:
    return {
        "kind": KINDS[type(line.what)],
        "name": bought_name(line.what),
        "count": line.number,
        "price": _money(line.price),
        "making": _money(line.making),
        "bars": [
            {"lengths_mm": list(bar.lengths_mm), "leftover_mm": bar.leftover_mm}
            for bar in line.bars
        ],
        "is_fewest": line.is_fewest,
    }


def _totals(basket: Basket) -> dict[str, Any]:
    return {"price": _money(basket.total), "is_whole": basket.is_whole}


def _money(amount: Decimal | None) -> str | None:
    return None if amount is None else f"{amount:.2f}"
