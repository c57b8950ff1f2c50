"""What is refused, and with which words."""

import unicodedata

import pytest

from evenhung.errors import InvalidQuantity
from evenhung.quantities import Force, Length, LinearDensity, Mass

LONGEST_TEXT = 40

REFUSED = [
    # bare numbers
    (Length, "838", "add a unit: 838 mm or 838 in"),
    (Length, "33½", "add a unit: 33 ½ mm or 33 ½ in"),
    (Mass, "5,1", "add a unit: 5,1 kg or 5,1 lb"),
    (Force, "42", "add a unit: 42 N or 42 lbf"),
    (LinearDensity, "25", "add a unit: 25 g/m or 25 oz/ft"),
    (Length, "2' 9", "add a unit: 9 in"),
    (Mass, "1 cwt 2", "add a unit: 2 qr or 2 st or 2 lb or 2 oz"),
    (Length, '9" 1/2', "write 1/2 before in, not after it"),
    (LinearDensity, "25 g/m 3", "write 3 before g/m, not after it"),
    # unknown and misplaced units
    (Length, "838 mn", "unknown unit mn, the nearest is mm: write a length with its unit, such as"),
    (Length, "2 foots", "unknown unit foots, the nearest is ft: write a length"),
    (Mass, "12 poudns", "unknown unit poudns, the nearest is lb: write a mass"),
    (Mass, "12 kgg", "unknown unit kgg, the nearest is kg: write a mass"),
    (Length, "12 furlongs", "unknown unit furlongs: write a length with its unit, such as 838 mm"),
    (Length, "838 mm mm", "unknown unit mm mm: write a length"),
    (LinearDensity, "25 g/mm", "unknown unit g/mm, the nearest is kg/m: write a mass per length"),
    (LinearDensity, "25 g/ft", "unknown unit g/ft, the nearest is oz/ft: write a mass per length"),
    (LinearDensity, "25 g/", "unknown unit g/, the nearest is g/m: write a mass per length"),
    (LinearDensity, "25 g/5 m", "unknown unit g/, the nearest is g/m: write a mass per length"),
    (LinearDensity, "25 m/m", "unknown unit m/m, the nearest is g/m: write a mass per length"),
    (Length, "5 kg", "kg is a mass: write a length with its unit, such as 838 mm"),
    (Length, "42 N", "N is a force: write a length"),
    (Mass, "838 mm", "mm is a length: write a mass with its unit, such as 5.1 kg, 11 lb 4 oz"),
    (Mass, "9 lbf", "lbf is a force: write a mass"),
    (Mass, "25 g/m", "g/m is a mass per length: write a mass"),
    (Force, "1 st", "st is a mass: write a force with its unit, such as 42 N"),
    (LinearDensity, "25 g", "g is a mass: write a mass per length with its unit, such as 25 g/m"),
    (Length, "mm", "start each part with its number, such as 5 or 9 1/2, without a sign"),
    (Length, "NaN mm", "start each part with its number"),
    (Mass, "inf kg", "start each part with its number"),
    (Length, "'", "start each part with its number"),
    (Length, "2''' ", "start each part with its number"),
    (Length, "/2 in", "start each part with its number"),
    # thousands and decimals
    (Length, "1,234 mm", "1,234 could be 1234 or 1.234: write one of them"),
    (Length, "12,345 mm", "12,345 could be 12345 or 12.345: write one of them"),
    (Mass, "1.234,5 kg", "write 1.234,5 with one decimal point or comma and nothing between"),
    (Mass, "1,234.5 kg", "write 1,234.5 with one decimal point or comma and nothing between"),
    (Length, "1,234,567 mm", "write 1,234,567 with one decimal point or comma"),
    (Length, "1 545 mm", "two numbers in a row: write 1545 without the space"),
    (Length, "1\u00a0545 mm", "two numbers in a row: write 1545 without the space"),
    (Length, "1'545 mm", "ft and mm do not go together: use one of them"),
    (Length, "1.5 5 mm", "put a unit straight after 1.5: write a length"),
    (Length, "2 ft.9 in", "put a space before 9, or write 0.9"),
    (Length, "2 ft,9 in", "put a space before 9, or write 0.9"),
    (Length, "5. mm", "leave out '.'"),
    # signs and size
    (Length, "-5 mm", "no - before it: a length is zero or more, such as 838 mm"),
    (Length, "−5 mm", "no − before it: a length is zero or more"),
    (Length, "+5 mm", "no + before it: a length is zero or more"),
    (Length, "--5 mm", "no - before it: a length is zero or more"),
    (Mass, "11 lb -4 oz", "leave out the - before 4, or put a space on both sides of it"),
    (Mass, "11 lb +4 oz", "start each part with its number"),
    (Length, "33 - 1/2 in", "put a unit straight after 33"),
    (Length, "33 -1/2 in", "put a unit straight after 33"),
    (Length, "33−1/2 in", "put a unit straight after 33"),
    (Length, "33- mm", "put a unit straight after 33"),
    (Length, "2-9 in", "put a unit straight after 2"),
    (Length, "1e3 mm", "write 1e3 out in full, without an exponent"),
    (Length, "1E-3 m", "write 1E-3 out in full, without an exponent"),
    (Length, "1234567890 mm", "write at most 9 figures before the decimal point"),
    (Length, "1/1234567890 in", "write the fraction with at most 9 figures each side"),
    # fractions
    (Length, "1/0 in", "1/0 divides by nought: write a fraction like 1/2"),
    (Length, "9 1/0 in", "1/0 divides by nought"),
    (Length, "1.5/2 in", "write the fraction 1.5/2 with whole numbers, like 1/2"),
    (Length, "1/2.5 in", "write the fraction 1/2.5 with whole numbers, like 1/2"),
    (Length, "1/in", "write the fraction 1/in with whole numbers, like 1/2"),
    (Length, "1/", "write the fraction 1/ with whole numbers, like 1/2"),
    (Length, "9.5 1/2 in", "write 9.5 with decimals or with a fraction, not both"),
    (Length, "9.5½ in", "write 9.5 with decimals or with a fraction, not both"),
    (Length, "9 3/2 in", "3/2 is not below one: write 10 1/2"),
    (Length, "9 4/2 in", "4/2 is not below one: write 11"),
    (Length, "2/2 in", "2/2 is not below one: write 1"),
    (Length, "3/2 in", "3/2 is not below one: write 1 1/2"),
    (Length, "91/2 in", "91/2 is not below one: write 45 1/2, or put a space between a whole"),
    (Length, unicodedata.normalize("NFKC", "9½ in"), "91/2 is not below one: write 45 1/2, or"),
    (Length, "½½ in", "put a unit straight after ½"),
    (Length, "1/2/3 in", "put a unit straight after 1/2"),
    (Length, "9 1/2 1/4 in", "put a unit straight after 9 1/2"),
    # compounds
    (Mass, "11 lb 20 oz", "oz must be under 16 after lb"),
    (Mass, "11 lb 16 oz", "oz must be under 16 after lb"),
    (Length, "2' 14\"", "in must be under 12 after ft"),
    (Length, "1 yd 3 ft", "ft must be under 3 after yd"),
    (Mass, "1 cwt 8 st", "st must be under 8 after cwt"),
    (Mass, "5 kg 1000 g", "g must be under 1000 after kg"),
    (Length, "2.5 ft 3 in", "ft must be whole before in, but 2.5 is not"),
    (Length, "2½ ft 3 in", "ft must be whole before in, but 2 ½ is not"),
    (Length, "2.0 ft 3 in", "ft must be whole before in, but 2.0 is not"),
    (Length, "3 in 2 ft", "write the larger unit first, and each unit once"),
    (Length, "2 ft 3 ft", "write the larger unit first, and each unit once"),
    (Mass, "1 cwt 1 long cwt", "write the larger unit first, and each unit once"),
    (Length, "2 ft 3 mm", "ft and mm do not go together: use one of them"),
    (Mass, "1 kg 4 oz", "kg and oz do not go together: use one of them"),
    (Force, "2 lbf 4 oz", "lbf and oz do not go together: use one of them"),
    (Mass, "1 short cwt 1 st", "short cwt and st do not go together: use one of them"),
    (LinearDensity, "1 lb/ft 1 oz/ft", "lb/ft and oz/ft do not go together: use one of them"),
    (Mass, "11 lb, ", "leave out the , at the end"),
    (Mass, "11 lb-", "leave out the - at the end"),
    (Mass, "11 lb,, 4 oz", "start each part with its number"),
    # text that is no text
    (Length, "", 'write a length with its unit, such as 838 mm, 2 ft 9 1/2 in, 33½"'),
    (Mass, " \u00a0 ", "write a mass with its unit, such as 5.1 kg, 11 lb 4 oz, 11 1/4 lb"),
    (Length, "8" * 41, "write it in at most 40 characters"),
    (Length, " " * 41, "write it in at most 40 characters"),
    (Length, "٣ mm", "write ٣ as one of the figures 0 to 9"),
    (Length, "५ mm", "write ५ as one of the figures 0 to 9"),
    (Length, "\U0001d7d3 mm", "write \U0001d7d3 as one of the figures 0 to 9"),
    (Length, "5\tmm", "leave out the control character '\\t'"),
    (Length, "5 mm\n", "leave out the control character '\\n'"),
    (Length, "5\u200bmm", "leave out the control character '\\u200b'"),
    (Length, "5\ud800mm", "leave out the control character '\\ud800'"),
    (Length, "5\x00", "leave out the control character '\\x00'"),
    (Length, "9² mm", "leave out '²': use figures, one unit or more, and fractions like 1/2 or ½"),
    (Length, "5 \u212am", "leave out '\u212a'"),
    (Length, "about 5 mm", "start each part with its number"),
    (Length, "5 mm (approx)", "leave out '('"),
]

NOT_TEXT = [
    (Length, 838, "838", 'write it as text with its unit, e.g. "838 mm"'),
    (Length, 83.8, "83.8", 'write it as text with its unit, e.g. "83.8 mm"'),
    (Mass, 5, "5", 'write it as text with its unit, e.g. "5 kg"'),
    (LinearDensity, 25, "25", 'write it as text with its unit, e.g. "25 g/m"'),
    (Length, -838, "-838", 'write it as text with its unit, e.g. "838 mm"'),
    (Length, float("nan"), "nan", 'write it as text with its unit, e.g. "838 mm"'),
    (Length, float("inf"), "inf", 'write it as text with its unit, e.g. "838 mm"'),
    (Length, 1e-7, "1e-07", 'write it as text with its unit, e.g. "838 mm"'),
    (Length, 10**15, "int", 'write it as text with its unit, e.g. "838 mm"'),
    (Length, True, "True", 'write it as text with its unit, e.g. "838 mm"'),
    (Length, None, "NoneType", 'write it as text with its unit, e.g. "838 mm"'),
    (Mass, ["5 kg"], "list", 'write it as text with its unit, e.g. "5.1 kg"'),
    (Mass, b"5 kg", "bytes", 'write it as text with its unit, e.g. "5.1 kg"'),
]


@pytest.mark.parametrize(("kind", "text", "allowed"), REFUSED)
def test_refused_text_is_told_what_would_do(kind, text, allowed):
    with pytest.raises(InvalidQuantity) as caught:
        kind.parse(text)
    assert caught.value.allowed.startswith(allowed)
    assert caught.value.value == (text if len(text) <= LONGEST_TEXT else text[:LONGEST_TEXT] + "…")
    assert str(caught.value) == f"{caught.value.value!r}: {caught.value.allowed}"


@pytest.mark.parametrize(("kind", "found", "shown", "allowed"), NOT_TEXT)
def test_what_is_not_text_is_refused(kind, found, shown, allowed):
    with pytest.raises(InvalidQuantity) as caught:
        kind.parse(found)
    assert (caught.value.value, caught.value.allowed) == (shown, allowed)


def test_a_number_too_long_for_python_to_print_is_refused():
    with pytest.raises(InvalidQuantity, match="'int': write it as text with its unit"):
        Length.parse(10**6000)


def test_a_very_long_text_is_refused_without_being_read():
    with pytest.raises(InvalidQuantity, match="at most 40 characters") as caught:
        Length.parse("1/" * 10_000_000)
    assert len(str(caught.value)) < 100
