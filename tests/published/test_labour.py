"""Hours of work against what is printed, and the days a window takes against the trade's habit."""

from __future__ import annotations

import pytest

from evenhung.reference import look_up


def hours(operation, which="hours_likely"):
    return look_up("labour", operation, which).si


def test_stripping_is_as_preservation_brief_9_prints_it():
    """National Park Service, Preservation Brief 9: about one hour for each sash."""
    row = look_up("labour", "strip a sash", "hours_likely")
    assert (row.value, row.source, row.known) == ("1", "nps-brief-9", "confirmed")


def test_reglazing_a_window_comes_to_what_preservation_brief_9_prints():
    """The same: both sashes in about one hour; here one pane to a sash."""
    assert hours("re-bed a pane", "published_window_hours") == pytest.approx(
        2 * hours("re-bed a pane"), abs=0.5
    )


def test_hanging_a_window_comes_to_what_preservation_brief_9_prints():
    """The same: weatherstrip, four cords and refitting in about an hour and a half.

    The strip runs round both sashes of a window of 0.9 by 1.65 m: about 5 m.
    """
    found = 4 * hours("re-cord a side") + 2 * hours("refit a sash") + 5.0 * hours("draught-strip")
    assert found == pytest.approx(hours("re-cord a side", "published_window_hours"), abs=0.25)


def test_four_cords_with_all_that_goes_with_them_are_near_the_cost_book():
    """A cost book of 2018, page 153: about two hours for a set of four cords.

    Taking the sashes out and putting them back is part of it.
    """
    found = 4 * hours("re-cord a side") + 2 * sum(
        hours(one) for one in ("free a sash", "take out a sash", "refit a sash", "prove a sash")
    )
    printed = hours("re-cord a side", "published_set_hours")
    assert found == pytest.approx(printed, abs=0.6), "not said what the two hours hold"


WHOLE_OVERHAUL = {
    "protect a room": 1,
    "free a sash": 2,
    "take out a sash": 2,
    "strip a sash": 2,
    "clean and ease a sash": 2,
    "consolidate": 1,
    "splice": 2,
    "re-bed a pane": 4,
    "prime and paint": 3.0,
    "overhaul a pulley": 4,
    "renew a bead": 5.0,
    "re-cord a side": 4,
    "change a weight": 2,
    "refit a sash": 2,
    "prove a sash": 2,
}
"""A window of two sashes and four panes, overhauled whole; areas and lengths ours."""


def test_a_whole_overhaul_takes_the_days_that_the_trade_says():
    """Common practice, no source: two to three days of work for each window."""
    total = sum(count * hours(operation) for operation, count in WHOLE_OVERHAUL.items())
    days = total / look_up("policy", "programme", "hours_a_day").si
    least = look_up("policy", "programme", "days_a_window_least").si
    most = look_up("policy", "programme", "days_a_window_most").si
    assert least <= days <= most
