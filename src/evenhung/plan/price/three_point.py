"""How long one operation takes, as least, likely and most hours: the PERT beta distribution.

A beta distribution between least and most whose mean is (least + 4 likely + most) / 6. It has both
bounds that a joiner can name, it peaks at the likely value, and unlike the triangle it does not put
a third of its weight in tails that were only named to be safe.

Sources: D. G. Malcolm, J. H. Roseboom, C. E. Clark, W. Fazar, Operations Research 7 (1959), from
memory; the variance with shape 4 is (mean - least)(most - mean) / 7.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray

SHAPE = 4.0
"""Weight of the likely value in the mean."""

NODES = 400
"""Points on which the density is integrated."""


class ThreePoint(NamedTuple):
    """Hours for one of an operation, or a metre, or a square metre [h]."""

    least: float
    likely: float
    most: float

    @property
    def mean(self) -> float:
        """Hours to be expected [h].

        Examples
        --------
        >>> ThreePoint(1.0, 2.0, 6.0).mean
        2.5
        """
        return (self.least + SHAPE * self.likely + self.most) / (SHAPE + 2.0)

    @property
    def variance(self) -> float:
        """Variance [h2]."""
        return (self.mean - self.least) * (self.most - self.mean) / (SHAPE + 3.0)

    @property
    def log_sd(self) -> float:
        """Spread of the logarithm of a log-normal of the same mean and variance [1]."""
        return float(np.sqrt(np.log1p(self.variance / self.mean**2)))


def masses_on_grid(hours: ThreePoint, quantity: float, step: float) -> NDArray[np.float64]:
    """Probabilities that a task takes each of 0, 1, 2 ... steps [1].

    Parameters
    ----------
    hours
        For one of it.
    quantity
        How many: all in one task take as long as each other.
    step
        Of the grid [h].

    Notes
    -----
    The density is integrated on `NODES` points, and what lies between two steps is shared between
    them so that the mean is kept.
    """
    least, width = hours.least * quantity, (hours.most - hours.least) * quantity
    middle = (np.arange(NODES) + 0.5) / NODES
    if width > 0.0:
        peak = (hours.likely - hours.least) / (hours.most - hours.least)
        density = middle ** (SHAPE * peak) * (1.0 - middle) ** (SHAPE * (1.0 - peak))
    else:
        density = np.ones(NODES)
    places = (least + width * middle) / step
    if width > 0.0:
        places += (hours.mean * quantity - np.average(places, weights=density) * step) / step
    density /= density.sum()
    low = np.floor(places).astype(np.int64)
    over = places - low
    size = int(low.max()) + 2
    found = np.zeros(size)
    np.add.at(found, low, density * (1.0 - over))
    np.add.at(found, low + 1, density * over)
    return found
