"""Units the trade writes, each with its exact factor to the base unit and the source of it.

Base units are mm, kg, N and kg/m. A factor is an exact fraction; nothing is rounded here.

Sources
-------
WMA1985 : Weights and Measures Act 1985 (UK), section 1(1): the yard is 0.9144 metre and the
    pound 0.453 592 37 kilogram, exactly, as the international agreement of 1959 has them;
    schedule 1 as enacted: the ounce is 1/16 pound. The foot and inch (part I), the stone,
    quarter and hundredweight (part VI) from memory; the last three as stated in the Weights
    and Measures Ordinance (Hong Kong, cap. 68, 1987), first schedule: 14, 28 and 112 pounds.
CGPM1901 : 3rd General Conference on Weights and Measures (1901): standard gravity is
    9.806 65 m/s2, exactly.
SP811 : NIST Special Publication 811 (2008), appendix B.8: the short hundredweight is 100 lb;
    kilogram-force, pound-force and ounce-force are a mass at standard gravity.
"""

from fractions import Fraction
from typing import NamedTuple

YARD_MM = Fraction("914.4")  # WMA1985
FOOT_MM = YARD_MM / 3  # WMA1985
INCH_MM = FOOT_MM / 12  # WMA1985
POUND_KG = Fraction("0.45359237")  # WMA1985
OUNCE_KG = POUND_KG / 16  # WMA1985
STONE_KG = 14 * POUND_KG  # WMA1985
QUARTER_KG = 28 * POUND_KG  # WMA1985
LONG_HUNDREDWEIGHT_KG = 112 * POUND_KG  # WMA1985
SHORT_HUNDREDWEIGHT_KG = 100 * POUND_KG  # SP811
KILOGRAM_FORCE_N = Fraction("9.80665")  # CGPM1901, SP811
POUND_FORCE_N = POUND_KG * KILOGRAM_FORCE_N  # SP811
OUNCE_FORCE_N = OUNCE_KG * KILOGRAM_FORCE_N  # SP811


class Unit(NamedTuple):
    """One unit: how it is written back, its factor to the base unit, its family."""

    symbol: str
    factor: Fraction
    family: str

    def holds(self, smaller: "Unit") -> int:
        """Return how many of a smaller unit of its family make this one exactly, else 0.

        Examples
        --------
        >>> MASSES["lb"].holds(MASSES["oz"]), MASSES["oz"].holds(MASSES["lb"])
        (16, 0)
        """
        if self.family != smaller.family:
            return 0
        count, rest = divmod(
            self.factor.numerator * smaller.factor.denominator,
            self.factor.denominator * smaller.factor.numerator,
        )
        return 0 if rest else count


class Kind(NamedTuple):
    """One kind of quantity: its name, base unit, units by name, and how it may be written."""

    name: str
    base_unit: str
    units: dict[str, Unit]
    common_units: tuple[str, str]
    examples: tuple[str, ...]


def _by_name(*rows: tuple[str, Fraction, str, str]) -> dict[str, Unit]:
    """Return units by every name they go by, in lower case, from symbol, factor, family, names."""
    return {
        name: unit
        for symbol, factor, family, names in rows
        for unit in [Unit(symbol, factor, family)]
        for name in [symbol.lower(), *names.split(", ")]
    }


_GRAM = "gm, gms, gram, grams, gramme, grammes"
_KILOGRAM = "kgs, kilo, kilos, kilogram, kilograms, kilogramme, kilogrammes"
_OUNCE = "ozs, ounce, ounces"
_POUND = "lbs, pound, pounds"

LENGTHS = _by_name(
    ("mm", Fraction(1), "metre", "millimetre, millimetres, millimeter, millimeters"),
    ("cm", Fraction(10), "metre", "centimetre, centimetres, centimeter, centimeters"),
    ("m", Fraction(1000), "metre", "metre, metres, meter, meters"),
    ("in", INCH_MM, "yard", "\", '', ins, inch, inches"),
    ("ft", FOOT_MM, "yard", "', foot, feet"),
    ("yd", YARD_MM, "yard", "yds, yard, yards"),
)
MASSES = _by_name(
    ("g", Fraction(1, 1000), "kilogram", _GRAM),
    ("kg", Fraction(1), "kilogram", _KILOGRAM),
    ("oz", OUNCE_KG, "pound", _OUNCE),
    ("lb", POUND_KG, "pound", _POUND),
    ("st", STONE_KG, "pound", "stone, stones"),
    ("qr", QUARTER_KG, "pound", "qrs, qtr, qtrs, quarter, quarters"),
    ("cwt", LONG_HUNDREDWEIGHT_KG, "pound", "cwts, hundredweight, hundredweights"),
    ("long cwt", LONG_HUNDREDWEIGHT_KG, "pound", "long hundredweight, long hundredweights"),
    ("short cwt", SHORT_HUNDREDWEIGHT_KG, "pound", "short hundredweight, short hundredweights"),
)
# A spring balance reads in g, kg, oz and lb what it feels in newtons, at standard gravity.
FORCES = _by_name(
    ("N", Fraction(1), "newton", "newton, newtons"),
    ("kN", Fraction(1000), "newton", "kilonewton, kilonewtons"),
    ("kgf", KILOGRAM_FORCE_N, "kilogram-force", "kilogram force, kilograms force"),
    ("ozf", OUNCE_FORCE_N, "pound-force", "ounce force, ounces force"),
    ("lbf", POUND_FORCE_N, "pound-force", "pound force, pounds force"),
    ("g", KILOGRAM_FORCE_N / 1000, "kilogram", _GRAM),
    ("kg", KILOGRAM_FORCE_N, "kilogram", _KILOGRAM),
    ("oz", OUNCE_FORCE_N, "pound", _OUNCE),
    ("lb", POUND_FORCE_N, "pound", _POUND),
)
# Rope is often sold by its mass per 100 ft or 100 m (common practice, no source).
PER_LENGTH = {
    symbol: Unit(symbol, factor, symbol)
    for symbol, factor in {
        "g/m": Fraction(1, 1000),
        "kg/m": Fraction(1),
        "kg/100 m": Fraction(1, 100),
        "oz/ft": 1000 * OUNCE_KG / FOOT_MM,
        "oz/yd": 1000 * OUNCE_KG / YARD_MM,
        "lb/ft": 1000 * POUND_KG / FOOT_MM,
        "lb/yd": 1000 * POUND_KG / YARD_MM,
        "lb/100 ft": 1000 * POUND_KG / (100 * FOOT_MM),
    }.items()
}

LENGTH = Kind(
    name="length",
    base_unit="mm",
    units=LENGTHS,
    common_units=("mm", "in"),
    examples=("838 mm", "2 ft 9 1/2 in", '33½"', "2'-9 1/2\"", "83.8 cm", "0,838 m"),
)
MASS = Kind(
    name="mass",
    base_unit="kg",
    units=MASSES,
    common_units=("kg", "lb"),
    examples=("5.1 kg", "11 lb 4 oz", "11 1/4 lb", "340 g", "1 st 2 lb", "1 cwt 2 qr 3 lb"),
)
FORCE = Kind(
    name="force",
    base_unit="N",
    units=FORCES,
    common_units=("N", "lbf"),
    examples=("42 N", "9 1/2 lbf", "2 lb 4 oz", "4.3 kg", "4,3 kgf", "0.2 kN"),
)
MASS_PER_LENGTH = Kind(
    name="mass per length",
    base_unit="kg/m",
    units=PER_LENGTH,
    common_units=("g/m", "oz/ft"),
    examples=("25 g/m", "0.27 oz/ft", "0,025 kg/m", "3/4 oz per yd", "1.7 lb/100 ft"),
)
KINDS = {kind.name: kind for kind in (LENGTH, MASS, FORCE, MASS_PER_LENGTH)}


def unit_named(phrase: str, kind: Kind) -> Unit | None:
    """Return the unit of a kind that goes by a name, or None.

    Parameters
    ----------
    phrase : str
        The name in lower case; ``per`` is written as a slash.
    kind : Kind
        The kind wanted.

    Returns
    -------
    Unit or None
        None if no unit of the kind has that name.

    Examples
    --------
    >>> unit_named("feet", LENGTH).symbol, unit_named("ounces/foot", MASS_PER_LENGTH).symbol
    ('ft', 'oz/ft')
    """
    top, slash, bottom = phrase.partition("/")
    if slash:
        hundred = "100 " if bottom.startswith("100 ") else ""
        mass, length = MASSES.get(top), LENGTHS.get(bottom.removeprefix(hundred))
        if mass is None or length is None:
            return None
        phrase = f"{mass.symbol}/{hundred}{length.symbol}"
    return kind.units.get(phrase)
