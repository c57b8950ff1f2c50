"""An allotment in the words of the bench."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from evenhung.survey.stock import Bar, MakeWeight

if TYPE_CHECKING:
    from evenhung.plan.allotment.moves import Move
    from evenhung.plan.allotment.outcome import Hanging
    from evenhung.plan.words import Words
    from evenhung.survey.stock import ReadyMade


def side_sentence(hanging: Hanging, words: Words) -> str:
    """Say what hangs at a side: "keep", or what comes from where and is added."""
    where = "keep" if hanging.origin == "found" else what_comes(hanging, words)
    return ", ".join([where, *_changes(hanging, words)])


def move_sentence(move: Move, words: Words) -> str:
    """Say one step at the bench."""
    if move.what == "prop":
        return f"{move.name} loses a weight and is not hung again: prop it or fix it shut first"
    if move.hanging is None:
        return f"take out the weight that is in the box of {move.name} and lay it aside, tagged"
    changes = "".join(f", {change}" for change in _changes(move.hanging, words))
    at = move.hanging.place.name
    if move.what == "change":
        return f"{at}: keep its weight{changes}"
    return f"{at}: hang {what_comes(move.hanging, words)}{changes}"


def what_comes(hanging: Hanging, words: Words) -> str:
    """Name what is hung: which weight, or what a new one is."""
    if hanging.origin == "moved":
        return f"the weight from {hanging.source}"
    if hanging.weight is not None and hanging.weight.is_displaced:
        return f"the weight that was found at {hanging.source} and lies loose"
    if hanging.origin == "loose":
        return f"loose weight {hanging.source}"
    if isinstance(hanging.new, Bar):
        bar = hanging.new
        return (
            f"a new weight of {words.mass(hanging.kg)}: {bar.metal}, {bar.diameter.text} "
            f"{bar.section or 'round'}, {words.length(hanging.length_mm)} long"
        )
    return f"a ready-made {hanging.source}"


def piece_words(piece: MakeWeight) -> str:
    """Name a size of make-weight."""
    return piece.mass.text


def bought_name(what: MakeWeight | Bar | ReadyMade) -> str:
    """Name what is bought."""
    if isinstance(what, MakeWeight):
        return f"make-weight of {piece_words(what)}"
    if isinstance(what, Bar):
        shape = what.section or "round"
        return f"bar of {what.metal}, {what.diameter.text} {shape}, {what.length.text} long"
    return what.name


def _changes(hanging: Hanging, words: Words) -> list[str]:
    parts = []
    if hanging.pieces:
        sizes = " and ".join(
            f"{count} × {piece_words(piece)}" if count > 1 else piece_words(piece)
            for piece, count in hanging.pieces
        )
        parts.append(f"add {sizes}")
    record = hanging.weight.record if hanging.weight else None
    if hanging.origin == "found" and getattr(record, "state", None) in ("broken", "frayed"):
        parts.append("on new cord")
    if math.isnan(hanging.length_mm):
        parts.append("but measure its length: whether it travels clear is not checked")
    if hanging.off_kg and not math.isclose(hanging.off_kg, 0.0):
        parts.append(f"take {words.mass(hanging.off_kg)} off it")
    return parts
