"""What is accepted, and exactly what it means.

The factors here are typed from the sources named in tests/published/test_units.py.
"""

import copy
import pickle
import subprocess
import sys
import unicodedata
from fractions import Fraction

import pytest

from evenhung import quantities
from evenhung.quantities import Force, Length, LinearDensity, Mass

INCH = Fraction("25.4")
POUND = Fraction("0.45359237")
OUNCE = POUND / 16
GRAVITY = Fraction("9.80665")
KINDS = (Length, Mass, Force, LinearDensity)

LENGTHS = {
    "838 mm": 838,
    "838mm": 838,
    "83.8 cm": 838,
    "0.838 m": 838,
    "0,838 m": 838,
    "0,125 m": 125,
    "1234,567 mm": Fraction("1234.567"),
    "1.234 m": 1234,
    ".5 m": 500,
    ",5 m": 500,
    "1 m 20 cm 5 mm": 1205,
    "1 m 205 mm": 1205,
    "0 mm": 0,
    "007 mm": 7,
    '33½"': Fraction("33.5") * INCH,
    '33-1/2"': Fraction("33.5") * INCH,
    "33 1/2 in": Fraction("33.5") * INCH,
    "33.5 in": Fraction("33.5") * INCH,
    "33,5 inches": Fraction("33.5") * INCH,
    "2' 9 1/2\"": Fraction("33.5") * INCH,
    "2'-9 1/2\"": Fraction("33.5") * INCH,
    "2' - 9 1/2\"": Fraction("33.5") * INCH,
    "2'9-1/2\"": Fraction("33.5") * INCH,
    "2'9½''": Fraction("33.5") * INCH,
    "2 ft 9½ in": Fraction("33.5") * INCH,
    "2 ft, 9 ½ in": Fraction("33.5") * INCH,
    "2 ft. 9½ in.": Fraction("33.5") * INCH,
    "2 FT 9½ IN": Fraction("33.5") * INCH,
    "2 feet 9 1 / 2 inches": Fraction("33.5") * INCH,
    "2′ 9½″": Fraction("33.5") * INCH,
    "2’ 9½”": Fraction("33.5") * INCH,
    "2\u00b4 9½′′": Fraction("33.5") * INCH,
    "\uff12′\u3000\uff19½″": Fraction("33.5") * INCH,
    "33\u20111/2 in": Fraction("33.5") * INCH,
    "33\u20131/2 in": Fraction("33.5") * INCH,
    "1 foot": 12 * INCH,
    "1/2 in": INCH / 2,
    "½ in": INCH / 2,
    "9¹¹⁄₁₆ in": Fraction(155, 16) * INCH,
    "9-¹¹⁄₁₆ in": Fraction(155, 16) * INCH,
    "¹¹/₁₆ in": Fraction(11, 16) * INCH,
    "9 11⁄16 in": Fraction(155, 16) * INCH,
    "9 11\u221516 in": Fraction(155, 16) * INCH,
    "9 ⅟16 in": Fraction(145, 16) * INCH,
    "⅟₁₆ in": INCH / 16,
    "0/16 in": 0,
    "2 yd": 72 * INCH,
    "2 yds": 72 * INCH,
    "1 yard 2 ft 11 in": 71 * INCH,
    "1 yd 35 in": 71 * INCH,
    "3 ft 0 in": 36 * INCH,
    "1545\u00a0mm": 1545,
    "1545\u2009mm": 1545,
    "1545\u202fmm": 1545,
    "  1545 mm  ": 1545,
    "999999999 mm": 999_999_999,
}
MASSES = {
    "11 lb 4 oz": 180 * OUNCE,
    "11lb4oz": 180 * OUNCE,
    "11 lb, 4 oz": 180 * OUNCE,
    "11 pounds 4 ounces": 180 * OUNCE,
    "11 Lbs. 4 Oz.": 180 * OUNCE,
    "11 1/4 lb": 180 * OUNCE,
    "11¼ lb": 180 * OUNCE,
    "11.25 lb": 180 * OUNCE,
    "11,25 lb": 180 * OUNCE,
    "11 lb 4 1/4 oz": Fraction("180.25") * OUNCE,
    "11lb": 11 * POUND,
    "1 pound": POUND,
    "5.1kg": Fraction("5.1"),
    "5,1 kg": Fraction("5.1"),
    "0,125 kg": Fraction("0.125"),
    "5 kilos": 5,
    "340 g": Fraction("0.34"),
    "5 kg 100 g": Fraction("5.1"),
    "1 st 2 lb": 16 * POUND,
    "1 stone": 14 * POUND,
    "2 stones 13 lb 15 oz": (28 + 13) * POUND + 15 * OUNCE,
    "1 cwt": 112 * POUND,
    "1 cwt 2 qr 3 lb": 171 * POUND,
    "1 cwt 7 st": 210 * POUND,
    "1 hundredweight": 112 * POUND,
    "1 long cwt": 112 * POUND,
    "1 long hundredweight": 112 * POUND,
    "1 short cwt": 100 * POUND,
    "1 short-cwt. 99 lb": 199 * POUND,
    "2 quarters": 56 * POUND,
}
FORCES = {
    "42 N": 42,
    "42 n": 42,
    "42 newtons": 42,
    "0.042 kN": 42,
    "1 kN 42 N": 1042,
    "1 kgf": GRAVITY,
    "1 kilogram-force": GRAVITY,
    "4,3 kg": Fraction("4.3") * GRAVITY,
    "250 g": GRAVITY / 4,
    "1 lbf": POUND * GRAVITY,
    "2 pounds force": 2 * POUND * GRAVITY,
    "8 ozf": POUND * GRAVITY / 2,
    "2 lbf 4 ozf": Fraction("2.25") * POUND * GRAVITY,
    "2 lb 4 oz": Fraction("2.25") * POUND * GRAVITY,
}
PER_LENGTH = {
    "25 g/m": Fraction("0.025"),
    "25g/m": Fraction("0.025"),
    "25 g / m": Fraction("0.025"),
    "25 g per m": Fraction("0.025"),
    "25 Grams per Metre": Fraction("0.025"),
    "0.025 kg/m": Fraction("0.025"),
    "2,5 kg/100 m": Fraction("0.025"),
    "2.5 kg per 100 m": Fraction("0.025"),
    "1/4 oz/ft": OUNCE / 4 / Fraction("0.3048"),
    "½ oz. per ft.": OUNCE / 2 / Fraction("0.3048"),
    "1 oz/yd": OUNCE / Fraction("0.9144"),
    "1 lb/ft": POUND / Fraction("0.3048"),
    "1 lb/yd": POUND / Fraction("0.9144"),
    "1.7 lb/100ft": Fraction("0.017") * POUND / Fraction("0.3048"),
    "1.7 lbs per 100 feet": Fraction("0.017") * POUND / Fraction("0.3048"),
}
# By the character's own properties: U+215F is only the top of a fraction.
VULGAR_FRACTIONS = [
    character
    for character in map(chr, range(0x80, 0x3000))
    if unicodedata.decomposition(character).startswith("<fraction>") and character != "\u215f"
]
ACCEPTED = [
    pytest.param(kind, text, exact, id=f"{kind.__name__}-{text}")
    for kind, table in zip(KINDS, (LENGTHS, MASSES, FORCES, PER_LENGTH), strict=True)
    for text, exact in table.items()
]


@pytest.mark.parametrize(("kind", "text", "exact"), ACCEPTED)
def test_accepted_text_means_exactly(kind, text, exact):
    quantity = kind.parse(text)
    assert quantity.exact == exact
    assert quantity.text == text
    assert quantity.value == float(exact)


@pytest.mark.parametrize("character", VULGAR_FRACTIONS)
def test_every_vulgar_fraction_of_unicode(character):
    assert len(VULGAR_FRACTIONS) == 19
    value = Fraction(unicodedata.numeric(character)).limit_denominator(100)
    assert Length.parse(f"3{character} in").exact == (3 + value) * INCH


def test_base_units_have_their_own_properties():
    assert Length.parse("1 cm").mm == 10.0
    assert Mass.parse("500 g").kg == 0.5
    assert Force.parse("1 kN").n == 1000.0
    assert LinearDensity.parse("25 g/m").kg_per_m == 0.025


@pytest.mark.parametrize("kind", KINDS)
def test_the_examples_of_a_kind_are_accepted(kind):
    assert len(kind.examples) >= 3
    for text in kind.examples:
        assert kind.parse(text).text == text


def test_names_of_kinds_and_base_units():
    assert [(kind.kind, kind.base_unit) for kind in KINDS] == [
        ("length", "mm"),
        ("mass", "kg"),
        ("force", "N"),
        ("mass per length", "kg/m"),
    ]


def test_quantities_are_equal_when_text_and_value_are():
    assert Length.parse("33½ in") == Length.parse("33½ in")
    assert hash(Length.parse("33½ in")) == hash(Length.parse("33½ in"))
    assert Length.parse("33½ in") != Length.parse("33.5 in")
    assert Mass.parse("1 kg") != Force.parse("1 kg")
    assert Length("1 in", Fraction(25)) != Length.parse("1 in")


@pytest.mark.parametrize("field", ["text", "exact", "note"])
def test_quantities_cannot_be_changed(field):
    with pytest.raises((AttributeError, TypeError)):
        setattr(Length.parse("838 mm"), field, "840 mm")


def test_quantities_survive_copying_and_pickling():
    quantity = Length.parse("2 ft 9½ in")
    assert pickle.loads(pickle.dumps(quantity)) == quantity  # noqa: S301 - our own bytes
    assert copy.deepcopy(quantity) == quantity


def test_the_public_door():
    assert sorted(quantities.__all__) == [
        "Force",
        "Length",
        "LinearDensity",
        "Mass",
        "Quantity",
        "System",
        "print_force",
        "print_length",
        "print_linear_density",
        "print_mass",
    ]
    assert all(hasattr(quantities, name) for name in quantities.__all__)


def test_importing_quantities_is_light():
    """The budget of a plan's start leaves no room for unit libraries or numpy here."""
    heavy = {"pint", "numpy", "difflib", "pydantic", "unicodedata", "json"}
    code = f"import sys, evenhung.quantities; print(sorted({heavy!r} & set(sys.modules)))"
    output = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True
    )
    assert output.stdout.strip() == "[]"
