"""The completion record, signed when the work is done, and the record that the owner keeps."""

from __future__ import annotations

from typing import TYPE_CHECKING

from evenhung.plan.completion.house import completion_of
from evenhung.sheets.kept import kept_lines
from evenhung.sheets.pack.cautions import DEFERENCE, IN_KEEPING, ON_THE_HANG, rules
from evenhung.sheets.pack.cords import cords_of
from evenhung.sheets.pack.figures import breakable, length, shortened
from evenhung.sheets.pack.looks import looks_of
from evenhung.sheets.pack.proved import proof_data, signed_data
from evenhung.sheets.pack.repairs import became_of, repair_data
from evenhung.sheets.pack.sash import sash_data
from evenhung.sheets.pack.typesetting import typeset, written_day

if TYPE_CHECKING:
    from evenhung.plan import WindowPlan
    from evenhung.sheets.pack.house import PackHouse

CARE = (
    "Open and shut every sash now and then, also in winter: a sash that is never moved sticks.",
    "Move a sash with both hands, by its lifts or its meeting rail, never by a bar.",
    "Keep paint off cords, wheels and the faces that slide. A painted cord is a weak cord.",
    "A drop of oil on each axle once a year is enough, and a little candle wax where it slides.",
    "Touch in cracked paint and loose putty before the next winter: water does the damage.",
    "If a cord frays, a sash drops, drifts or jams, leave it shut and have it seen to.",
    "If a pane is changed for heavier or lighter glass, the sash must be weighed and hung again.",
)
"""How to keep windows: common practice, no source."""


def completion_record(house: PackHouse) -> bytes:
    """Give the completion record as PDF: what was planned, what was read, and room for the rest."""
    data = {
        "windows": [_window(house, window) for window in house.plan.windows],
        "rules": rules(ON_THE_HANG),
        "deference": DEFERENCE,
    }
    return typeset("completion", data, house=house.name, edition=house.edition)


def owners_record(house: PackHouse) -> bytes:
    """Give the owner's record as PDF: what hangs where, how to keep it, when to look next."""
    words, cords, overhaul = house.words, cords_of(house), house.job.overhaul
    data = {
        "windows": [_window(house, window) for window in house.plan.windows],
        "cords": [length(words, across) for across in sorted({one.across_mm for one in cords})],
        "looks": [
            {
                "what": look.what,
                "how": look.how,
                "first": written_day(look.first),
                "every": look.every_years,
                "source": look.source,
            }
            for look in looks_of(house)
        ],
        "kept": list(kept_lines(overhaul.repair.fabric)) if overhaul is not None else [],
        "care": list(CARE),
        "note": breakable(house.plan.survey.house.note or ""),
        "rules": rules(IN_KEEPING),
        "deference": DEFERENCE,
    }
    return typeset("owner", data, house=house.name, edition=house.edition)


def _window(house: PackHouse, window: WindowPlan) -> dict[str, object]:
    sashes = [sash for sash in (window.upper, window.lower) if sash is not None]
    completion = completion_of(house.plan)
    return {
        "tag": shortened(window.window.tag, 60),
        "room": shortened(window.window.room or "", 60),
        "sashes": [
            {**sash_data(house, sash), "proof": proof_data(completion, sash, house.words)}
            for sash in sashes
        ],
        "tried": signed_data(completion, window),
        **repair_data(house, window),
        **became_of(house, window),
    }
