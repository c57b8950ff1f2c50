"""Hang: the proposed change against every change in quarter ounces on both sides."""

import numpy as np
import pytest

from evenhung.physics import hang

QUARTER_OZ_KG = 0.45359237 / 64  # the avoirdupois pound, exact by definition
REACH = 200  # quarter ounces added to or taken off one weight, at most


def cases():
    """Weights, band and allowed difference, all whole quarter ounces; the best may lie between."""
    draws = np.random.default_rng(3)
    for _ in range(300):
        least = draws.integers(150, 260)
        most = least + draws.integers(0, 40)
        best = draws.integers(least, most, endpoint=True)
        middle = best / 2 + draws.integers(-50, 50)
        left, right = (int(max(20, middle + draws.integers(-40, 40))) for _ in range(2))
        yield left, right, (int(least), int(best), int(most)), int(draws.integers(0, 20))


def least_taken_off(left, right, band, difference):
    """Least total to take off, by trying every pair of changes."""
    least, _, most = band
    change = np.arange(-REACH, REACH + 1)
    new_left, new_right = (left + change)[:, None], (right + change)[None, :]
    total = new_left + new_right
    works = (total >= least) & (total <= most) & (abs(new_left - new_right) <= difference)
    taken_off = np.maximum(0, left - new_left) + np.maximum(0, right - new_right)
    return taken_off[works].min()


def disagreement(module):
    """Greatest fault of a proposal over all cases, in quarter ounces; nought where there is none.

    A proposal is at fault by as much as it ends outside the band, leaves the weights too unlike,
    takes off where additions would have done, or takes off more than the least by more than the
    larger of the allowed difference and the band's most less its best.
    """
    worst = 0.0
    for left, right, band, difference in cases():
        pair = hang.Band(*(value * QUARTER_OZ_KG for value in band))
        change = module.change_to_true(
            left_kg=left * QUARTER_OZ_KG,
            right_kg=right * QUARTER_OZ_KG,
            pair=pair,
            difference_kg=difference * QUARTER_OZ_KG,
        )
        on_left, on_right = (side / QUARTER_OZ_KG for side in change)
        taken_off = max(0.0, -on_left) + max(0.0, -on_right)
        least = least_taken_off(left, right, band, difference)
        beyond = max(band[2] - band[1], difference) if least > 0 else 0.0
        total, apart = left + on_left + right + on_right, left + on_left - right - on_right
        worst = max(
            worst,
            band[0] - total,
            total - band[2],
            abs(apart) - difference,
            taken_off - least - beyond,
        )
    return worst


def test_a_proposed_change_is_true_and_takes_off_only_where_it_must():
    """To the tenth of a gram that masses are compared in."""
    assert disagreement(hang) < 0.0001 / QUARTER_OZ_KG


@pytest.mark.parametrize(
    ("true_text", "false_text"),
    [
        ("room = pair.most - heavier", "room = pair.best - heavier"),
        (
            "topped_up = both(room >= heavier - difference_kg - slack, room",
            "topped_up = both(True, room",
        ),
        ("choose(pair_of_lighter, lighter, half)", "lighter"),
    ],
    ids=["room only to the best", "as unlike as it comes", "always down to the lighter"],
)
def test_every_change_notices_a_planted_error(planted, true_text, false_text):
    assert disagreement(planted(hang, true_text, false_text)) > 0.5
