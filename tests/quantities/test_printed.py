"""What is printed, and that it reads back to the step printed."""

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from evenhung.errors import InvalidQuantity
from evenhung.quantities import (
    Force,
    Length,
    LinearDensity,
    Mass,
    print_force,
    print_length,
    print_linear_density,
    print_mass,
)

INCH = Fraction("25.4")
POUND = Fraction("0.45359237")
OUNCE = POUND / 16
GRAVITY = Fraction("9.80665")
SYSTEMS = ("imperial", "metric")

PRINTED = [
    (print_length, 850.9, "2 ft 9 1/2 in", "851 mm"),
    (print_length, 0, "0 in", "0 mm"),
    (print_length, 241.3, "9 1/2 in", "241 mm"),
    (print_length, 25.4, "1 in", "25 mm"),
    (print_length, 1.5875, "1/16 in", "2 mm"),
    (print_length, 0.5, "0 in", "1 mm"),
    (print_length, 608.0, "23 15/16 in", "608 mm"),
    (print_length, 609.3, "2 ft", "609 mm"),
    (print_length, 609.6, "2 ft", "610 mm"),
    (print_length, 611.2, "2 ft 1/16 in", "611 mm"),
    (print_length, 914.4, "3 ft", "914 mm"),
    (print_length, -850.9, "-2 ft 9 1/2 in", "-851 mm"),
    (print_length, -0.2, "0 in", "0 mm"),
    (print_length, Fraction("850.9"), "2 ft 9 1/2 in", "851 mm"),
    (print_mass, 5.1029, "11 lb 4 oz", "5.10 kg"),
    (print_mass, 0.12, "4 1/4 oz", "0.12 kg"),
    (print_mass, 4.98951607, "11 lb", "4.99 kg"),
    (print_mass, 6.4, "14 lb 1 3/4 oz", "6.40 kg"),
    (print_mass, 50.80234544, "112 lb", "50.80 kg"),
    (print_mass, 0.0, "0 lb", "0.00 kg"),
    (print_mass, -0.0, "0 lb", "0.00 kg"),
    (print_mass, -0.003, "0 lb", "0.00 kg"),
    (print_mass, -0.567, "-1 lb 4 oz", "-0.57 kg"),
    (print_mass, 0.125, "4 1/2 oz", "0.13 kg"),
    (print_force, 42.3, "9.5 lbf", "42 N"),
    (print_force, 0.04, "0.0 lbf", "0 N"),
    (print_force, -8.9, "-2.0 lbf", "-9 N"),
    (print_linear_density, 0.025, "0.27 oz/ft", "25 g/m"),
    (print_linear_density, 0.372, "4.00 oz/ft", "372 g/m"),
]
PRINTERS = [
    # printer, class, step printed in each system [base unit], most in trade use [base unit]
    (print_length, Length, {"imperial": INCH / 16, "metric": Fraction(1)}, 10_000),
    (print_mass, Mass, {"imperial": OUNCE / 4, "metric": Fraction(1, 100)}, 500),
    (print_force, Force, {"imperial": POUND * GRAVITY / 10, "metric": Fraction(1)}, 5_000),
    (
        print_linear_density,
        LinearDensity,
        {"imperial": OUNCE / Fraction("0.3048") / 100, "metric": Fraction(1, 1000)},
        5,
    ),
]


@pytest.mark.parametrize(("printer", "value", "imperial", "metric"), PRINTED)
def test_printed_in_either_system_and_in_both(printer, value, imperial, metric):
    assert printer(value, "imperial") == imperial
    assert printer(value, "metric") == metric
    assert printer(value, "imperial", both=True) == f"{imperial} ({metric})"
    assert printer(value, "metric", both=True) == f"{metric} ({imperial})"


@pytest.mark.parametrize("value", [float("nan"), float("inf"), float("-inf")])
def test_only_finite_numbers_are_printed(value):
    with pytest.raises(InvalidQuantity, match="only a finite number can be printed"):
        print_mass(value, "metric")


def test_an_unknown_system_is_refused():
    with pytest.raises(InvalidQuantity, match='\'troy\': the system is "imperial" or "metric"'):
        print_mass(1.0, "troy")


@pytest.mark.parametrize(("printer", "kind", "steps", "most"), PRINTERS)
@pytest.mark.parametrize("system", SYSTEMS)
def test_print_then_parse_is_exact_to_the_printed_step(printer, kind, steps, most, system):
    step = steps[system]

    @settings(deadline=None)
    @given(st.floats(0, most) | st.integers(0, int(most / step)).map(lambda count: count * step))
    def holds(value):
        read = kind.parse(printer(value, system)).exact
        assert (read / step).denominator == 1
        assert abs(read - Fraction(value)) <= step / 2
        assert printer(read, system) == printer(value, system)
        negative = printer(-value, system)
        assert negative == (f"-{printer(value, system)}" if read else printer(0.0, system))

    holds()


@settings(deadline=None)
@given(st.sampled_from(PRINTERS), st.floats(0, 1))
def test_both_systems_say_the_same_to_their_steps(printer_row, share):
    printer, kind, steps, most = printer_row
    read = [kind.parse(printer(share * most, system)).exact for system in SYSTEMS]
    assert abs(read[0] - read[1]) <= sum(steps.values()) / 2
