"""How fast the work goes here, learnt from hours that were booked.

The logarithm of what a task took over what its hours expect is h + g + e: `h` is the pace of the
whole job, the same for every task of it, for a slow house and a slow joiner are slow at everything;
`g` is the pace of one operation beside that; `e` is what is left to the task itself. All three are
normal, so what is known after any number of bookings is normal again and is written down exactly:
the normal prior is conjugate. An operation that was never booked still learns from the others,
through `h`; one that was booked once is shrunk towards them.

Sources: A. Gelman and others, Bayesian Data Analysis, 3rd edition (2013), chapter 5, normal
hierarchical model, from memory.
"""

from __future__ import annotations

import math
from collections import defaultdict
from dataclasses import dataclass
from typing import TYPE_CHECKING, NamedTuple

from evenhung.plan.assumed import assumed

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from evenhung.plan.work import Operation

LEAST_LOG_SD = 0.05
"""No booking is taken as more exact: clocks and memories are not [1]."""


class Seen(NamedTuple):
    """One booking against what was expected."""

    operation: Operation
    hours: float
    """As booked [h]."""
    expected: float
    """By the hours of the operation and how many were done [h]."""
    log_sd: float
    """Spread of the logarithm of one task [1]."""


class Normal(NamedTuple):
    """A normal distribution."""

    mean: float
    variance: float


class OwnPace(NamedTuple):
    """The logarithm of one operation's own pace, the whole job's pace `h` being given.

    Its mean is ``at_zero - slope * h``.
    """

    at_zero: float
    slope: float
    """0 where it was never booked."""
    variance: float
    bookings: int


@dataclass(frozen=True, slots=True)
class Pace:
    """What is known of the pace."""

    whole: Normal
    """Logarithm of the pace of the whole job."""
    own: Mapping[Operation, OwnPace]
    """Of each operation that was booked."""
    unseen: OwnPace
    """Of any other."""

    def of(self, operation: Operation) -> OwnPace:
        """Give the pace of an operation beside the whole job's."""
        return self.own.get(operation, self.unseen)

    def log_of(self, operation: Operation) -> Normal:
        """Give the logarithm of what an operation takes over what its hours expect."""
        own = self.of(operation)
        mean = self.whole.mean * (1.0 - own.slope) + own.at_zero
        return Normal(mean, (1.0 - own.slope) ** 2 * self.whole.variance + own.variance)

    def factor(self, operation: Operation) -> float:
        """Give what an operation is expected to take over what its hours expect [1]."""
        found = self.log_of(operation)
        return math.exp(found.mean + found.variance / 2.0)


def learnt_from(
    seen: Iterable[Seen], *, whole_sd: float | None = None, own_sd: float | None = None
) -> Pace:
    """Give what is known of the pace after some bookings.

    Parameters
    ----------
    seen
        The bookings, in any order; none leaves the prior.
    whole_sd
        Prior spread of the logarithm of the whole job's pace [1]; None takes the reference's.
    own_sd
        The same of one operation beside it [1].

    Returns
    -------
    Pace
        Before any booking every operation is expected to take what its hours say.

    Examples
    --------
    >>> slow = learnt_from([Seen("splice", 3.0, 2.0, 0.3)] * 8)
    >>> round(slow.factor("splice"), 2), round(slow.factor("strip a sash"), 2)
    (1.48, 1.23)
    """
    prior = Normal(*_centred(whole_sd, "policy/pace/house_sd"))
    own = Normal(*_centred(own_sd, "policy/pace/operation_sd"))
    weights: dict[Operation, float] = defaultdict(float)
    sums: dict[Operation, float] = defaultdict(float)
    counts: dict[Operation, int] = defaultdict(int)
    for one in seen:
        variance = max(one.log_sd, LEAST_LOG_SD) ** 2
        ratio = (
            math.log(one.hours / one.expected) + variance / 2.0
        )  # the mean of e is 1, not of ln e
        weights[one.operation] += 1.0 / variance
        sums[one.operation] += ratio / variance
        counts[one.operation] += 1
    precision, pull = 1.0 / prior.variance, prior.mean / prior.variance
    found = {}
    for operation, weight in weights.items():
        mean = sums[operation] / weight
        known = 1.0 / (own.variance + 1.0 / weight)
        precision += known
        pull += known * (mean - own.mean)
        total = 1.0 / own.variance + weight
        at_zero = (own.mean / own.variance + weight * mean) / total
        found[operation] = OwnPace(at_zero, weight / total, 1.0 / total, counts[operation])
    whole = Normal(pull / precision, 1.0 / precision)
    return Pace(whole, found, OwnPace(own.mean, 0.0, own.variance, 0))


def _centred(stated: float | None, row: str) -> tuple[float, float]:
    """Give mean and variance of a logarithm whose power has the mean 1."""
    sd = assumed(row).value if stated is None else stated
    return -(sd**2) / 2.0, sd**2
