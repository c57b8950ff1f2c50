"""The hours of a job against exact convolution, and against draws, of the same model.

The convolution is of scipy's beta distribution on a fine grid and shares no code with ours.
"""

from __future__ import annotations

import math

import numpy as np
import pytest
from scipy import stats

from evenhung.plan.price import total
from evenhung.plan.price.pace import Normal, OwnPace, Pace, Seen, learnt_from
from evenhung.plan.price.three_point import ThreePoint, masses_on_grid
from evenhung.plan.price.total import Tasks, total_hours

STEADY = Pace(Normal(0.0, 1e-12), {}, OwnPace(0.0, 0.0, 1e-12, 0))
"""A job whose pace is known for certain: only the tasks themselves vary."""

JOB = {
    "strip a sash": Tasks(ThreePoint(0.6, 1.0, 2.5), (1.0,) * 6),
    "splice": Tasks(ThreePoint(1.0, 2.0, 4.0), (1.0, 1.0)),
    "renew a bead": Tasks(ThreePoint(0.1, 0.15, 0.3), (4.0, 5.5, 4.0)),
    "protect a room": Tasks(ThreePoint(0.5, 0.5, 0.5), (1.0,) * 3),
}


def beta(hours):
    """The PERT beta as scipy has it; None where all three hours are one."""
    width = hours.most - hours.least
    if width == 0.0:
        return None
    peak = (hours.likely - hours.least) / width
    return stats.beta(1 + 4 * peak, 1 + 4 * (1 - peak), loc=hours.least, scale=width)


def convolved(job, step):
    """Chances of the sum of all tasks on a grid, by plain convolution of each task's own."""
    masses, shift = np.array([1.0]), 0.0
    for tasks in job.values():
        law = beta(tasks.hours)
        for quantity in tasks.quantities:
            if law is None:
                shift += tasks.hours.likely * quantity
                continue
            edges = np.arange(0.0, tasks.hours.most * quantity + 2 * step, step) - step / 2
            masses = np.convolve(masses, np.diff(law.cdf(edges / quantity)))
    return shift + step * np.arange(len(masses)), np.cumsum(masses)


def test_a_sum_of_tasks_is_what_exact_convolution_gives():
    hours, chance = convolved(JOB, 0.002)
    ours = total_hours(JOB, STEADY)
    for pct in (5, 10, 25, 50, 75, 80, 90, 95, 99):
        exact = np.interp(pct / 100, chance, hours)
        assert ours.at(pct / 100) == pytest.approx(exact, rel=1e-3), pct


def test_an_error_in_the_sum_would_be_noticed(planted):
    wrong = planted(total, "** count", "** (count - 1)")
    hours, chance = convolved(JOB, 0.002)
    exact = np.interp(0.8, chance, hours)
    assert wrong.total_hours(JOB, STEADY).at(0.8) != pytest.approx(exact, rel=1e-3)


@pytest.mark.parametrize("hours", [tasks.hours for tasks in JOB.values()], ids=list(JOB))
def test_mean_and_variance_are_the_beta_distribution_s(hours):
    law = beta(hours)
    mean, variance = (hours.likely, 0.0) if law is None else (law.mean(), law.var())
    assert hours.mean == pytest.approx(mean)
    assert hours.variance == pytest.approx(variance, abs=1e-12)
    grid = masses_on_grid(hours, 3.0, 0.01)
    places = 0.01 * np.arange(len(grid))
    assert grid.sum() == pytest.approx(1.0)
    assert grid @ places == pytest.approx(3.0 * mean, rel=1e-6)
    found = grid @ places**2 - (3.0 * mean) ** 2
    assert found == pytest.approx(9.0 * variance, rel=2e-3, abs=3e-5)


SEEN = [Seen("strip a sash", 1.7, 1.2, 0.3), Seen("strip a sash", 1.4, 1.2, 0.3)]
SEEN += [Seen("re-cord a side", 0.3, 0.18, 0.35)]


@pytest.mark.parametrize("seen", [[], SEEN], ids=["nothing booked", "some booked"])
def test_with_paces_it_is_what_two_hundred_thousand_draws_give(seen):
    pace = learnt_from(seen, whole_sd=0.2, own_sd=0.2)
    random, count = np.random.default_rng(20260309), 200_000
    whole = random.normal(pace.whole.mean, math.sqrt(pace.whole.variance), count)
    drawn = np.zeros(count)
    for operation, tasks in JOB.items():
        own = pace.of(operation)
        log = whole + own.at_zero - own.slope * whole
        log += random.normal(0.0, math.sqrt(own.variance), count)
        law = beta(tasks.hours)
        for quantity in tasks.quantities:
            one = tasks.hours.likely if law is None else law.rvs(count, random_state=random)
            drawn += np.exp(log) * quantity * one
    ours = total_hours(JOB, pace)
    assert ours.mean == pytest.approx(drawn.mean(), rel=4 * drawn.std() / drawn.mean() / 447)
    assert ours.deviation == pytest.approx(drawn.std(), rel=0.01)
    for pct in (5, 10, 50, 80, 90, 95):
        assert ours.chance_of(np.quantile(drawn, pct / 100)) == pytest.approx(pct / 100, abs=0.004)


def test_what_is_learnt_is_what_the_joint_normal_gives():
    """The posterior by one matrix for all paces at once, without the house being singled out."""
    pace = learnt_from(SEEN, whole_sd=0.2, own_sd=0.25)
    names = ["strip a sash", "re-cord a side", "splice"]
    prior = np.diag([0.2**2, *[0.25**2] * 3])
    mean = np.array([-(0.2**2) / 2, *[-(0.25**2) / 2] * 3])
    rows = np.array([[1.0, *(float(one.operation == name) for name in names)] for one in SEEN])
    noise = np.diag([one.log_sd**2 for one in SEEN])
    found = np.array([math.log(one.hours / one.expected) + one.log_sd**2 / 2 for one in SEEN])
    gain = prior @ rows.T @ np.linalg.inv(rows @ prior @ rows.T + noise)
    after, spread = mean + gain @ (found - rows @ mean), prior - gain @ rows @ prior
    for place, name in enumerate(names, 1):
        both = np.zeros(4)
        both[[0, place]] = 1.0
        assert pace.log_of(name).mean == pytest.approx(both @ after)
        assert pace.log_of(name).variance == pytest.approx(both @ spread @ both)
