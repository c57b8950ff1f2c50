"""Which test tells most about what is wrong: shares of causes, and what an answer is worth.

Causes have shares that add up to one. A test answers yes or no, as the true cause would have it or,
now and then, not. What it tells is how much less uncertain the cause is after its answer, on
average: the mutual information of cause and answer, in bits.

Sources: C. E. Shannon, A Mathematical Theory of Communication, 1948; from memory.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence


def shares_of(weights: Mapping[str, float]) -> dict[str, float]:
    """Give the share of each cause from its weight.

    Examples
    --------
    >>> shares_of({"a cord has gone": 3.0, "the pair is too light": 1.0})
    {'a cord has gone': 0.75, 'the pair is too light': 0.25}
    """
    whole = sum(weights.values())
    return {cause: weight / whole for cause, weight in weights.items()}


def bits_told(shares: Mapping[str, float], says_yes: Sequence[str], *, reliable: float) -> float:
    """Give what a test tells of which cause it is [bits].

    Parameters
    ----------
    shares
        Share of each cause.
    says_yes
        The causes for which the test answers yes; for the others it answers no.
    reliable
        How often it answers as it should.

    Examples
    --------
    >>> bits_told({"one": 0.5, "other": 0.5}, ["one"], reliable=1.0)
    1.0
    """
    yes = {
        cause: share * (reliable if cause in says_yes else 1.0 - reliable)
        for cause, share in shares.items()
    }
    no = {cause: share - yes[cause] for cause, share in shares.items()}
    after = sum(sum(answer.values()) * _uncertainty(answer) for answer in (yes, no))
    return max(0.0, _uncertainty(dict(shares)) - after)


def _uncertainty(weights: Mapping[str, float]) -> float:
    """Entropy of shares in proportion to some weights [bits]."""
    whole = sum(weights.values())
    parts = [weight / whole for weight in weights.values() if weight > 0.0] if whole > 0.0 else []
    return -sum(part * math.log2(part) for part in parts)
