"""Choices element by element, for a single float or a whole numpy array.

The formulas of this package are plain arithmetic, which floats and arrays share.
What they do not share (the larger of two, a choice, a cosine) is here, so that one house of windows
is planned in floats without loading numpy at all, and an estate is planned in arrays by the same
lines of code. A float that is not known is ``nan``, and stays ``nan`` through every function here,
as numpy has it.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable
    from typing import TypeAlias

    import numpy as np
    from numpy.typing import NDArray

    Real: TypeAlias = float | NDArray[np.float64]
    Truth: TypeAlias = bool | NDArray[np.bool_]

__all__ = ["arccosine", "both", "choose", "cosine", "larger", "sine", "smaller"]


def larger(first: Real, second: Real) -> Real:
    """Give the larger of two values [unit of both].

    Parameters
    ----------
    first, second
        The two values [unit of both].

    Returns
    -------
    Real
        The larger; nan where either is nan [unit of both].

    Examples
    --------
    >>> larger(2.0, 3.0)
    3.0
    """
    if _is_array(first, second):
        import numpy as np  # loaded only where arrays are

        return np.maximum(first, second)
    if math.isnan(first) or math.isnan(second):
        return math.nan
    return first if first >= second else second


def smaller(first: Real, second: Real) -> Real:
    """Give the smaller of two values [unit of both].

    Parameters
    ----------
    first, second
        The two values [unit of both].

    Returns
    -------
    Real
        The smaller; nan where either is nan [unit of both].

    Examples
    --------
    >>> smaller(2.0, 3.0)
    2.0
    """
    if _is_array(first, second):
        import numpy as np  # loaded only where arrays are

        return np.minimum(first, second)
    if math.isnan(first) or math.isnan(second):
        return math.nan
    return first if first <= second else second


def choose(condition: Truth, when_true: Real, when_false: Real) -> Real:
    """Give one value where a condition holds and another where it does not [unit of both].

    Parameters
    ----------
    condition
        What decides; a comparison with nan is false [true or false].
    when_true, when_false
        The two values; both are reckoned, whichever is chosen [unit of both].

    Returns
    -------
    Real
        `when_true` where the condition holds, else `when_false` [unit of both].

    Examples
    --------
    >>> choose(2.0 > 3.0, 10.0, 20.0)
    20.0
    """
    if _is_array(condition, when_true, when_false):
        import numpy as np  # loaded only where arrays are

        return np.where(condition, when_true, when_false)
    return when_true if condition else when_false


def both(first: Truth, second: Truth) -> Truth:
    """Tell where two conditions hold together [true or false].

    Parameters
    ----------
    first, second
        The two conditions [true or false].

    Returns
    -------
    Truth
        True where both are true [true or false].

    Examples
    --------
    >>> both(True, False)
    False
    """
    return first & second


def sine(angle_rad: Real) -> Real:
    """Give the sine of an angle [1].

    Parameters
    ----------
    angle_rad
        The angle [rad].

    Returns
    -------
    Real
        Its sine [1].

    Examples
    --------
    >>> sine(0.0)
    0.0
    """
    return _apply("sin", math.sin, angle_rad)


def cosine(angle_rad: Real) -> Real:
    """Give the cosine of an angle [1].

    Parameters
    ----------
    angle_rad
        The angle [rad].

    Returns
    -------
    Real
        Its cosine [1].

    Examples
    --------
    >>> cosine(0.0)
    1.0
    """
    return _apply("cos", math.cos, angle_rad)


def arccosine(ratio: Real) -> Real:
    """Give the angle that has a given cosine [rad].

    Parameters
    ----------
    ratio
        The cosine, between -1 and 1 [1].

    Returns
    -------
    Real
        The angle, from nought to half a turn [rad].

    Examples
    --------
    >>> arccosine(1.0)
    0.0
    """
    return _apply("arccos", math.acos, ratio)


def _is_array(*values: object) -> bool:
    for value in values:  # noqa: SIM110 - a plain loop: asked thousands of times for one house
        if type(value) is not float and hasattr(value, "__array_ufunc__"):
            return True
    return False


def _apply(ufunc: str, scalar: Callable[[float], float], value: Real) -> Real:
    if _is_array(value):
        import numpy as np  # loaded only where arrays are

        result: NDArray[np.float64] = getattr(np, ufunc)(value)
        return result
    return scalar(float(value))
