"""Unit factors against the tables that define or print them.

NIST SP 811 : Guide for the Use of the International System of Units, NIST Special Publication
    811 (2008), appendix B.8. It prints seven figures, rounded, or fewer when the factor is exact,
    so the bound is half the last place of a rounded one and nothing at all for an exact one.
    Rows marked "seen" were read in a machine-readable copy of that appendix, rows
    marked "from memory" were not.
WMA1985 : Weights and Measures Act 1985 (UK), section 1(1), and schedule 1 part V as enacted.
Cap. 68 : Weights and Measures Ordinance (Hong Kong, 1987 edition), first schedule, which
    prints the imperial units of mass above the pound as multiples of it.
"""

from fractions import Fraction

import pytest

from evenhung.quantities import Force, Length, LinearDensity, Mass

SP811_ROUNDED = [
    # text, class, factor as printed [SI unit], SI units in one base unit, how known
    ("1 lb", Mass, "4.535924E-01", 1, "seen"),
    ("1 oz", Mass, "2.834952E-02", 1, "seen"),
    ("1 long cwt", Mass, "5.080235E+01", 1, "seen"),
    ("1 short cwt", Mass, "4.535924E+01", 1, "seen"),
    ("1 lbf", Force, "4.448222E+00", 1, "seen"),
    ("1 ozf", Force, "2.780139E-01", 1, "seen"),
    ("1 lb/ft", LinearDensity, "1.488164E+00", 1, "from memory"),
    ("1 lb/yd", LinearDensity, "4.960546E-01", 1, "from memory"),
]
SP811_EXACT = [
    ("1 in", Length, "2.54E-02", Fraction(1, 1000), "seen"),
    ("1 ft", Length, "3.048E-01", Fraction(1, 1000), "seen"),
    ("1 yd", Length, "9.144E-01", Fraction(1, 1000), "from memory"),
    ("1 kgf", Force, "9.80665E+00", 1, "seen"),
]


def half_last_place(printed):
    figures, exponent = printed.split("E")
    places = len(figures.partition(".")[2])
    return Fraction(1, 2) * Fraction(10) ** (int(exponent) - places)


def rows(table):
    """Return the rows of a table as test cases named for the text and how it is known."""
    return [pytest.param(*row, id=f"{row[0]} ({known})") for *row, known in table]


@pytest.mark.parametrize(("text", "kind", "printed", "si_per_base"), rows(SP811_ROUNDED))
def test_sp811_rounded_factor(text, kind, printed, si_per_base):
    factor = kind.parse(text).exact * si_per_base
    assert abs(factor - Fraction(printed)) <= half_last_place(printed)


@pytest.mark.parametrize(("text", "kind", "printed", "si_per_base"), rows(SP811_EXACT))
def test_sp811_exact_factor(text, kind, printed, si_per_base):
    assert kind.parse(text).exact * si_per_base == Fraction(printed)


def test_sp811_footnote_on_pound_force_is_exact():
    """SP 811 appendix B.8, footnote 23: 1 lbf = 4.448 221 615 260 5 N exactly (seen)."""
    assert Force.parse("1 lbf").exact == Fraction("4.4482216152605")


def test_weights_and_measures_act_yard_and_pound():
    """WMA1985 section 1(1): yard 0.9144 metre, pound 0.453 592 37 kilogram, exactly (seen)."""
    assert Length.parse("1 yd").exact == 1000 * Fraction("0.9144")
    assert Mass.parse("1 lb").exact == Fraction("0.45359237")


def test_weights_and_measures_act_ounce():
    """WMA1985 schedule 1 part V as enacted: ounce = 1/16 pound (seen)."""
    assert 16 * Mass.parse("1 oz").exact == Mass.parse("1 lb").exact


@pytest.mark.parametrize(
    ("text", "pounds"), [("1 stone", 14), ("1 quarter", 28), ("1 hundredweight", 112)]
)
def test_imperial_units_above_the_pound(text, pounds):
    """Cap. 68, first schedule: stone 14, quarter 28, hundredweight 112 pounds (seen)."""
    assert Mass.parse(text).exact == pounds * Mass.parse("1 lb").exact


def test_a_weight_is_stated_in_the_same_terms_as_a_mass():
    """WMA1985 section 1(2): weight may be expressed in the same terms as mass (seen).

    So a spring balance's kilogram is the pull of one kilogram; at standard gravity, which
    the 3rd General Conference on Weights and Measures (1901) put at 9.806 65 m/s2.
    """
    for text in ("1 kg", "1 lb", "1 oz", "1 g"):
        assert Force.parse(text).exact == Mass.parse(text).exact * Fraction("9.80665")
