"""Read a whole quantity: one number and unit, or several in descending units of one system."""

from fractions import Fraction
from functools import lru_cache
from typing import NamedTuple

from evenhung.quantities.hints import not_a_unit, wanted
from evenhung.quantities.numerals import Numeral, numeral
from evenhung.quantities.tokens import END, Reader
from evenhung.quantities.units import KINDS, Kind, Unit, unit_named


class Part(NamedTuple):
    """One number with its unit."""

    number: Numeral
    unit: Unit

    @property
    def amount(self) -> Fraction:
        """The part in the base unit of its kind."""
        number, factor = self.number, self.unit.factor
        return Fraction(
            number.numerator * factor.numerator, number.denominator * factor.denominator
        )


@lru_cache(maxsize=4096)
def exact_value(text: str, kind_name: str) -> Fraction:
    """Return what a text says, exactly, in the base unit of its kind.

    Parameters
    ----------
    text : str
        The quantity as typed.
    kind_name : str
        The name of the kind wanted, a key of `KINDS`.

    Returns
    -------
    Fraction
        The quantity in the base unit (mm, kg, N or kg/m), zero or more.

    Raises
    ------
    InvalidQuantity
        The text cannot be read, or can be read in two ways.

    Examples
    --------
    >>> exact_value("2 ft 9 1/2 in", "length")
    Fraction(8509, 10)
    """
    kind = KINDS[kind_name]
    reader = Reader(text)
    first = reader.peek()
    if first is END:
        reader.refuse(f"write {wanted(kind)}")
    if first.sort in ("hyphen", "sign"):
        reader.refuse(
            f"no {first.text} before it: a {kind.name} is zero or more, such as {kind.examples[0]}"
        )
    part = _part(reader, kind, None)
    total = part.amount
    while reader.peek() is not END:
        _step_over_joint(reader)
        part = _part(reader, kind, part)
        total += part.amount
    return total


def _part(reader: Reader, kind: Kind, larger: Part | None) -> Part:
    """Read one number and its unit, the next below a larger part if there is one."""
    number = numeral(reader)
    phrase = _phrase(reader)
    unit = unit_named(phrase, kind)
    if unit is None:
        above = larger.unit if larger else None
        reader.refuse(not_a_unit(phrase, kind, number, above, reader.peek()))
    part = Part(number, unit)
    if larger is not None:
        _check_descent(reader, larger, part)
    return part


def _phrase(reader: Reader) -> str:
    """Read the words or the mark of a unit, in lower case and with ``per`` as a slash."""
    if reader.peek().sort == "mark":
        return reader.take().text
    words: list[str] = []
    while _continues(words, reader):
        word = reader.take().text.lower().removesuffix(".").replace("-", " ")
        words.append("/" if word == "per" else word)
    return " ".join(words).replace(" /", "/").replace("/ ", "/")


def _continues(words: list[str], reader: Reader) -> bool:
    """True when the next token belongs to the unit whose words so far are given."""
    following = reader.peek()
    if words[-1:] == ["/"] and following.text == "100":  # lb/100 ft
        return True
    return following.sort == "word" or (following.sort == "slash" and bool(words))


def _step_over_joint(reader: Reader) -> None:
    """Step over the comma or hyphen that may join two parts: ``2'-9"``, ``11 lb, 4 oz``."""
    before, joint, after = reader.peek(-1), reader.peek(), reader.peek(1)
    if joint.sort not in ("comma", "hyphen"):
        return
    if after is END:
        reader.refuse(f"leave out the {joint.text} at the end")
    if joint.sort == "hyphen" and (before.end == joint.start) != (joint.end == after.start):
        reader.refuse(f"leave out the - before {after.text}, or put a space on both sides of it")
    reader.take()


def _check_descent(reader: Reader, larger: Part, part: Part) -> None:
    """Refuse a part that does not belong after the larger one written before it."""
    above, below = larger.unit, part.unit
    if below.holds(above):
        reader.refuse("write the larger unit first, and each unit once")
    limit = above.holds(below)
    if not limit:
        reader.refuse(f"{above.symbol} and {below.symbol} do not go together: use one of them")
    if not larger.number.is_whole:
        reader.refuse(
            f"{above.symbol} must be whole before {below.symbol}, but {larger.number.text} is not"
        )
    if part.number.numerator >= limit * part.number.denominator:
        reader.refuse(f"{below.symbol} must be under {limit} after {above.symbol}")
