"""Bars to lengths: printed optima, looking at everything, and what must always hold."""

from __future__ import annotations

from collections import Counter

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from evenhung.allot.cutting import cut


def test_the_textbook_example_of_cutting_stock():
    """A roll of 100 in: 97 of 45, 610 of 36, 395 of 31, 211 of 14; the relaxation is 452.25.

    V. Chvatal, Linear Programming (1983), chapter 13, from memory: 453 rolls are needed.
    """
    plan = cut({45: 97, 36: 610, 31: 395, 14: 211}, bar=100)
    assert (len(plan.bars), plan.bound, plan.status) == (453, 453, "optimal")


def test_a_triplet_has_no_waste_by_construction():
    """Each bar holds three pieces exactly, each over a quarter and under a half of it.

    The kind of the t sets of E. Falkenauer, Journal of Heuristics 2 (1996) 5, from memory; the
    numbers here are ours.
    """
    triples = [(380, 340, 280), (470, 270, 260), (400, 310, 290), (450, 295, 255), (365, 333, 302)]
    wanted = Counter(length for triple in triples for length in triple)
    plan = cut(wanted, bar=1000)
    assert (len(plan.bars), plan.status) == (5, "optimal")
    assert sum(bar.leftover for bar in plan.bars) == 0


def fewest_bars(pieces, bar, kerf):
    """Fewest bars, by trying each piece, longest first, in each bar begun and in a new one."""
    best = [len(pieces)]
    pieces = sorted(pieces, reverse=True)

    def place(number, left):
        if len(left) >= best[0]:
            return
        if number == len(pieces):
            best[0] = len(left)
            return
        size = pieces[number] + kerf
        for at in {space: at for at, space in enumerate(left) if space >= size}.values():
            place(number + 1, [*left[:at], left[at] - size, *left[at + 1 :]])
        place(number + 1, [*left, bar + kerf - size])

    place(0, [])
    return best[0]


@settings(max_examples=150, deadline=None)
@example(pieces=[12, 12, 13, 18, 20, 25], bar=60, kerf=2)  # in no pattern of the relaxation
@given(
    pieces=st.lists(st.integers(1, 60), max_size=8),
    bar=st.integers(60, 100),
    kerf=st.integers(0, 5),
)
def test_small_plans_are_the_best_there_are(pieces, bar, kerf):
    plan = cut(Counter(pieces), bar=bar, kerf=kerf)
    least = fewest_bars(pieces, bar, kerf)
    assert plan.bound <= least <= len(plan.bars)
    assert len(plan.bars) == least
    assert sorted(length for one in plan.bars for length in one.lengths) == sorted(pieces)
    for one in plan.bars:
        used = sum(one.lengths) + kerf * (len(one.lengths) - 1)
        assert used <= bar
        assert one.leftover == max(0, bar - used - kerf)


def test_the_same_list_in_another_order_is_cut_the_same():
    assert cut({30: 4, 20: 7, 45: 3}, bar=100, kerf=3) == cut(
        {45: 3, 20: 7, 30: 4}, bar=100, kerf=3
    )


def test_nothing_wanted_needs_no_bar():
    assert cut({30: 0}, bar=100).bars == ()


@pytest.mark.parametrize(
    ("wanted", "bar", "kerf", "message"),
    [
        ({101: 1}, 100, 0, "length: 101: from 1 to 100"),
        ({0: 1}, 100, 0, "length: 0: from 1 to 100"),
        ({10: -1}, 100, 0, "number of 10: -1: 0 or more"),
        ({10: 1}, 100, -2, "kerf: -2: 0 or more"),
    ],
)
def test_what_cannot_be_cut_is_refused(wanted, bar, kerf, message):
    with pytest.raises(ValueError, match=message):
        cut(wanted, bar=bar, kerf=kerf)
