"""Print quantities to what a rule or a scale shows, in the house's own system or in both.

A length is printed to 1/16 in or 1 mm, a mass to 1/4 oz or 0.01 kg, a force to 0.1 lbf or
1 N, a mass per length to 0.01 oz/ft or 1 g/m. Halves round away from nought, as a person
reading a rule does. Nought has no sign and is in the larger unit of a pair: ``0 lb``. A
negative value (an excess) has one hyphen in front of the whole: ``-1 lb 4 oz``.
"""

from collections.abc import Callable
from fractions import Fraction
from functools import partial
from typing import Literal, NamedTuple

from evenhung.errors import InvalidQuantity
from evenhung.quantities.units import INCH_MM, OUNCE_KG, PER_LENGTH, POUND_FORCE_N

System = Literal["imperial", "metric"]
LEAST_FEET = 2


def print_length(mm: float, system: System, *, both: bool = False) -> str:
    """Print a length to 1/16 in or 1 mm.

    Under 2 ft it is in inches alone, as a rule shows it.

    Parameters
    ----------
    mm : float
        The length [mm].
    system : {"imperial", "metric"}
        The system of the house.
    both : bool
        Add the other system in brackets.

    Returns
    -------
    str
        The length with its unit.

    Raises
    ------
    InvalidQuantity
        The length is not a finite number, or there is no such system.

    Examples
    --------
    >>> print_length(850.9, "imperial", both=True)
    '2 ft 9 1/2 in (851 mm)'
    """
    return _printed("length", mm, system, both)


def print_mass(kg: float, system: System, *, both: bool = False) -> str:
    """Print a mass to 1/4 oz or 0.01 kg; pounds are not gathered into stones.

    Parameters
    ----------
    kg : float
        The mass [kg].
    system : {"imperial", "metric"}
        The system of the house.
    both : bool
        Add the other system in brackets.

    Returns
    -------
    str
        The mass with its unit.

    Raises
    ------
    InvalidQuantity
        The mass is not a finite number, or there is no such system.

    Examples
    --------
    >>> print_mass(5.1029, "imperial", both=True)
    '11 lb 4 oz (5.10 kg)'
    >>> print_mass(-0.5670, "imperial")
    '-1 lb 4 oz'
    """
    return _printed("mass", kg, system, both)


def print_force(n: float, system: System, *, both: bool = False) -> str:
    """Print a force to 0.1 lbf or 1 N.

    Parameters
    ----------
    n : float
        The force [N].
    system : {"imperial", "metric"}
        The system of the house.
    both : bool
        Add the other system in brackets.

    Returns
    -------
    str
        The force with its unit.

    Raises
    ------
    InvalidQuantity
        The force is not a finite number, or there is no such system.

    Examples
    --------
    >>> print_force(42.3, "metric", both=True)
    '42 N (9.5 lbf)'
    """
    return _printed("force", n, system, both)


def print_linear_density(kg_per_m: float, system: System, *, both: bool = False) -> str:
    """Print a mass per length to 0.01 oz/ft or 1 g/m, two steps of about the same size.

    Parameters
    ----------
    kg_per_m : float
        The mass per length [kg/m].
    system : {"imperial", "metric"}
        The system of the house.
    both : bool
        Add the other system in brackets.

    Returns
    -------
    str
        The mass per length with its unit.

    Raises
    ------
    InvalidQuantity
        The mass per length is not a finite number, or there is no such system.

    Examples
    --------
    >>> print_linear_density(0.025, "metric", both=True)
    '25 g/m (0.27 oz/ft)'
    """
    return _printed("mass per length", kg_per_m, system, both)


class _Form(NamedTuple):
    """How a kind is printed in one system: the step shown, and so many steps in words."""

    step: Fraction
    words: Callable[[int], str]


def _mixed(steps: int, per_unit: int) -> str:
    """Return steps as whole units and a fraction in its lowest terms: ``9 1/2``."""
    whole, left = divmod(steps, per_unit)
    if not left:
        return f"{whole}"
    fraction = f"{Fraction(left, per_unit)}"
    return f"{whole} {fraction}" if whole else fraction


def _feet_and_inches(sixteenths: int) -> str:
    """Return sixteenths of an inch as a rule shows them."""
    feet, inches = divmod(sixteenths, 12 * 16)
    if feet < LEAST_FEET:
        return f"{_mixed(sixteenths, 16)} in"
    return f"{feet} ft {_mixed(inches, 16)} in" if inches else f"{feet} ft"


def _pounds_and_ounces(quarters: int) -> str:
    """Return quarter ounces as pounds and ounces."""
    pounds, ounces = divmod(quarters, 16 * 4)
    parts = [f"{pounds} lb"] if pounds or not ounces else []
    return " ".join(parts + [f"{_mixed(ounces, 4)} oz"] * (ounces > 0))


def _decimals(steps: int, places: int, symbol: str) -> str:
    """Return steps of the last decimal place as a decimal number with its unit."""
    figures = f"{steps:0{places + 1}d}"
    point = len(figures) - places
    number = f"{figures[:point]}.{figures[point:]}" if places else figures
    return f"{number} {symbol}"


_FORMS = {
    "length": {
        "imperial": _Form(INCH_MM / 16, _feet_and_inches),
        "metric": _Form(Fraction(1), partial(_decimals, places=0, symbol="mm")),
    },
    "mass": {
        "imperial": _Form(OUNCE_KG / 4, _pounds_and_ounces),
        "metric": _Form(Fraction(1, 100), partial(_decimals, places=2, symbol="kg")),
    },
    "force": {
        "imperial": _Form(POUND_FORCE_N / 10, partial(_decimals, places=1, symbol="lbf")),
        "metric": _Form(Fraction(1), partial(_decimals, places=0, symbol="N")),
    },
    "mass per length": {
        "imperial": _Form(
            PER_LENGTH["oz/ft"].factor / 100, partial(_decimals, places=2, symbol="oz/ft")
        ),
        "metric": _Form(Fraction(1, 1000), partial(_decimals, places=0, symbol="g/m")),
    },
}


def _printed(kind_name: str, value: float, system: System, both: bool) -> str:
    """Return a value in the house's system, the other one in brackets if both are wanted."""
    forms = _FORMS[kind_name]
    if system not in forms:
        raise InvalidQuantity(f"{system}", 'the system is "imperial" or "metric"')
    own = _in_form(value, forms[system])
    if not both:
        return own
    return f"{own} ({_in_form(value, forms['metric' if system == 'imperial' else 'imperial'])})"


def _in_form(value: float, form: _Form) -> str:
    """Return a value rounded to the nearest step of a form, halves away from nought."""
    try:
        top, bottom = value.as_integer_ratio()
    except (ValueError, OverflowError):
        raise InvalidQuantity(f"{value}", "only a finite number can be printed") from None
    top, bottom = 2 * abs(top) * form.step.denominator, bottom * form.step.numerator
    steps = (top + bottom) // (2 * bottom)
    sign = "-" if value < 0 and steps else ""
    return sign + form.words(steps)
