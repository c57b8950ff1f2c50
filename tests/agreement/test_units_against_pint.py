"""Our reading of compound quantities against pint's arithmetic in exact fractions.

pint is told each part as a number and a unit; only its own tables and sums are used.
"""

import random
from fractions import Fraction

import pint
import pytest

from evenhung.quantities import Force, Length, LinearDensity, Mass

SEED = 1854
ROUNDS = 300

# For each family: how we may write the unit, pint's name for it, how many make the one before.
YARD = [(["yd", "yards"], "yard", 40), (["ft", "'", "foot"], "foot", 3), (["in", '"'], "inch", 12)]
METRE = [(["m"], "metre", 40), (["cm"], "centimetre", 100), (["mm"], "millimetre", 10)]
POUND = [
    (["cwt", "hundredweight", "long cwt"], "long_hundredweight", 20),
    (["qr", "quarters"], "quarter", 4),
    (["st", "stone"], "stone", 2),
    (["lb", "lbs.", "pounds"], "pound", 14),
    (["oz", "ounces"], "ounce", 16),
]
KILOGRAM = [(["kg", "kilos"], "kilogram", 200), (["g", "gm"], "gram", 1000)]
POUND_FORCE = [(["lbf"], "force_pound", 100), (["ozf"], "force_ounce", 16)]
NEWTON = [(["kN"], "kilonewton", 3), (["N", "newtons"], "newton", 1000)]
SPRING_BALANCE = [
    (["lb"], "pound * standard_gravity", 100),
    (["oz"], "ounce * standard_gravity", 16),
]
PER_LENGTH = [
    ([f"{mass}/{length}", f"{mass} per {length}"], f"{pint_mass}/{pint_length}", 100)
    for mass, pint_mass in {"g": "gram", "kg": "kilogram", "oz": "ounce", "lb": "pound"}.items()
    for length, pint_length in {"m": "metre", "ft": "foot", "yd": "yard"}.items()
    if (mass in ("g", "kg")) == (length == "m")
]


@pytest.fixture(scope="module")
def units():
    return pint.UnitRegistry(non_int_type=Fraction)


def random_parts(rng, family):
    """Yield (number as written, number, unit as written, pint's unit), larger units first."""
    chosen = sorted(rng.sample(range(len(family)), rng.randint(1, min(3, len(family)))))
    for place in chosen:
        limit = family[place][2]
        if place != chosen[0]:
            # between two units written, every unit left out multiplies the count
            above = chosen[chosen.index(place) - 1]
            for between in range(above + 1, place):
                limit *= family[between][2]
        whole = rng.randrange(limit)
        written, number = f"{whole}", Fraction(whole)
        if place == chosen[-1]:
            written, number = random_end(rng, whole)
        names, pint_unit, _ = family[place]
        yield written, number, rng.choice(names), pint_unit


def random_end(rng, whole):
    """Return the last number of a compound as written and as a fraction."""
    bottom = rng.choice([2, 3, 4, 8, 16, 32])
    top = rng.randrange(1, bottom)
    decimals = rng.randrange(100)
    return rng.choice(
        [
            (f"{whole}", Fraction(whole)),
            (f"{whole} {top}/{bottom}", whole + Fraction(top, bottom)),
            (f"{whole}-{top}/{bottom}", whole + Fraction(top, bottom)),
            (f"{whole}½", whole + Fraction(1, 2)),
            (f"{whole}.{decimals:02d}", whole + Fraction(decimals, 100)),
            (f"{whole},{decimals:02d}", whole + Fraction(decimals, 100)),
        ]
    )


@pytest.mark.parametrize(
    ("kind", "base_unit", "families"),
    [
        (Length, "millimetre", [YARD, METRE]),
        (Mass, "kilogram", [POUND, KILOGRAM]),
        (Force, "newton", [NEWTON, POUND_FORCE, SPRING_BALANCE]),
        (LinearDensity, "kilogram/metre", [[row] for row in PER_LENGTH]),
    ],
    ids=["length", "mass", "force", "mass per length"],
)
def test_compound_quantities_agree_exactly(units, kind, base_unit, families):
    rng = random.Random(SEED)
    for _ in range(ROUNDS):
        parts = list(random_parts(rng, rng.choice(families)))
        gap = rng.choice(["", " ", "\u00a0"])
        text = " ".join(f"{written}{gap}{name}" for written, _, name, _ in parts)
        expected = sum(
            units.Quantity(number, pint_unit).to(base_unit).magnitude
            for _, number, _, pint_unit in parts
        )
        assert kind.parse(text).exact == expected, text


def test_both_hundredweights_agree(units):
    for text, pint_unit in [("short cwt", "short_hundredweight"), ("cwt", "UK_hundredweight")]:
        expected = units.Quantity(Fraction(3), pint_unit).to("kilogram").magnitude
        assert Mass.parse(f"3 {text}").exact == expected
