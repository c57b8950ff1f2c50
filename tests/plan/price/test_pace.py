"""Booked hours sharpen the next estimate: shown on simulated histories whose truth is known."""

from __future__ import annotations

import math

import numpy as np
import pytest

from evenhung.plan.price.pace import Seen, learnt_from
from evenhung.plan.price.three_point import ThreePoint
from evenhung.plan.price.total import Tasks, total_hours

HOURS = {
    "strip a sash": ThreePoint(0.6, 1.0, 2.5),
    "re-bed a pane": ThreePoint(0.3, 0.5, 1.0),
    "re-cord a side": ThreePoint(0.1, 0.15, 0.4),
    "refit a sash": ThreePoint(0.1, 0.2, 0.5),
    "splice": ThreePoint(1.0, 2.0, 4.0),
}
NEXT = {name: Tasks(hours, (1.0,) * 8) for name, hours in HOURS.items()}


def draw(random, hours, count):
    width = hours.most - hours.least
    peak = (hours.likely - hours.least) / width
    return hours.least + width * random.beta(1 + 4 * peak, 1 + 4 * (1 - peak), count)


def job(random, bookings):
    """One joiner: what was booked so often, and what the next job will really take."""
    whole = random.normal(-0.02, 0.2)
    own = {name: random.normal(-0.02, 0.2) for name in HOURS}
    pace = {name: math.exp(whole + own[name]) for name in HOURS}
    seen = [
        Seen(name, float(pace[name] * took), hours.mean, hours.log_sd)
        for name, hours in HOURS.items()
        for took in draw(random, hours, bookings)
    ]
    real = sum(
        pace[name] * draw(random, tasks.hours, len(tasks.quantities)).sum()
        for name, tasks in NEXT.items()
    )
    return seen, real


@pytest.fixture(scope="module")
def learnt():
    """For each number of bookings: error, width of the middle 80 %, and how often it held."""
    random, found = np.random.default_rng(1861), {}
    for bookings in (0, 2, 12):
        errors, widths, held = [], [], []
        for _ in range(120):
            seen, real = job(random, bookings)
            spread = total_hours(NEXT, learnt_from(seen, whole_sd=0.2, own_sd=0.2))
            low, high = spread.at(0.1), spread.at(0.9)
            errors.append(abs(spread.mean - real) / real)
            widths.append((high - low) / real)
            held.append(low <= real <= high)
        found[bookings] = np.mean(errors), np.mean(widths), np.mean(held)
    return found


@pytest.mark.slow
def test_the_error_shrinks(learnt):
    errors = [learnt[bookings][0] for bookings in (0, 2, 12)]
    assert errors[0] > 1.5 * errors[1] > 2.0 * errors[2] * 0.9


@pytest.mark.slow
def test_the_range_narrows(learnt):
    widths = [learnt[bookings][1] for bookings in (0, 2, 12)]
    assert widths[0] > 1.5 * widths[1]
    assert widths[1] > 1.2 * widths[2]


@pytest.mark.slow
def test_four_jobs_in_five_lie_where_four_in_five_should(learnt):
    """Of 120 jobs 80 % is 96, give or take 4.4: three such either way."""
    for _, _, held in learnt.values():
        assert held == pytest.approx(0.8, abs=3 * 0.0365)


def test_nothing_booked_leaves_the_hours_as_they_are():
    pace = learnt_from([])
    assert pace.factor("splice") == pytest.approx(1.0)
    assert total_hours(NEXT, pace).mean == pytest.approx(
        sum(tasks.mean for tasks in NEXT.values()), rel=1e-3
    )


def test_an_operation_never_booked_learns_from_the_others_but_less():
    pace = learnt_from([Seen("splice", 4.0, 2.0, 0.3)] * 5)
    assert 1.0 < pace.factor("strip a sash") < pace.factor("splice") < 2.0


def test_the_order_of_bookings_is_of_no_account():
    seen = [Seen("splice", 4.0, 2.0, 0.3), Seen("strip a sash", 1.0, 1.2, 0.3)]
    one, other = learnt_from(seen), learnt_from(seen[::-1])
    assert one.whole == pytest.approx(other.whole)


def test_independent_tasks_would_look_far_surer():
    """Why a shared pace: forty tasks apart from each other would nearly cancel out."""
    apart = sum(tasks.hours.variance * len(tasks.quantities) for tasks in NEXT.values()) ** 0.5
    assert total_hours(NEXT, learnt_from([])).deviation > 2.5 * apart
