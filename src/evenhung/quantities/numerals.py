"""Numbers as tradespeople write them: ``11``, ``5,1``, ``9 1/2``, ``33-1/2``, ``9½``, ``¹¹⁄₁₆``.

A number that could mean two things is refused, never guessed: a lost space turns
``9 1/2`` into ``91/2``, and a thousands comma looks like a decimal one.
"""

import re
from typing import NamedTuple

from evenhung.quantities.tokens import VULGAR, Reader, Token

MOST_FIGURES = 9

_LEVEL = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹₀₁₂₃₄₅₆₇₈₉⅟", "012345678901234567891")
_THOUSANDS_OR_DECIMAL = re.compile(r"[1-9][0-9]{0,2},[0-9]{3}")


class Numeral(NamedTuple):
    """A number as read: numerator over denominator, and how it was written."""

    numerator: int
    denominator: int
    text: str

    @property
    def is_whole(self) -> bool:
        """True when it is written without a fraction or decimals."""
        return self.text.isdigit()


def numeral(reader: Reader) -> Numeral:
    """Read one number: whole, decimal, fraction, or whole and fraction.

    Parameters
    ----------
    reader : Reader
        Placed at the number; left just past it.

    Returns
    -------
    Numeral
        The number, zero or more.

    Raises
    ------
    InvalidQuantity
        There is no number here, or it can be read in two ways.
    """
    token = reader.take()
    if _begins_fraction(reader, token):
        return _fraction(reader, token)
    if token.sort != "number":
        reader.refuse("start each part with its number, such as 5 or 9 1/2, without a sign")
    whole = _decimal(reader, token)
    if not _fraction_follows(reader, token):
        return whole
    if not whole.is_whole:
        reader.refuse(f"write {token.text} with decimals or with a fraction, not both")
    if reader.peek().sort == "hyphen":
        reader.take()
    part = _fraction(reader, reader.take(), after=whole)
    return Numeral(
        whole.numerator * part.denominator + part.numerator,
        part.denominator,
        f"{whole.text} {part.text}",
    )


def _begins_fraction(reader: Reader, token: Token) -> bool:
    """True when a token just taken is a fraction sign or the top of a fraction."""
    if token.sort == "number":
        return reader.peek().sort == "slash"
    return token.sort in ("vulgar", "raised")


def _fraction_follows(reader: Reader, token: Token) -> bool:
    """True when a fraction, at most one close hyphen away, comes after the number just taken."""
    following = reader.peek()
    if following.sort == "hyphen":
        top = reader.peek(1)
        if not token.end == following.start == top.start - 1:
            return False
        return top.sort in ("vulgar", "raised") or reader.peek(2).sort == "slash"
    if following.sort == "number":
        return reader.peek(1).sort == "slash"
    return following.sort in ("vulgar", "raised")


def _decimal(reader: Reader, token: Token) -> Numeral:
    """Return a whole number or one with a decimal point or comma, refusing what is ambiguous."""
    text = token.text
    if "e" in text or "E" in text:
        reader.refuse(f"write {text} out in full, without an exponent")
    whole, point, decimals = text.replace(",", ".").partition(".")
    if "." in decimals:
        reader.refuse(f"write {text} with one decimal point or comma and nothing between thousands")
    if _THOUSANDS_OR_DECIMAL.fullmatch(text):
        reader.refuse(f"{text} could be {whole}{decimals} or {whole}.{decimals}: write one of them")
    if point and not whole and reader.peek(-2).end == token.start:
        reader.refuse(f"put a space before {decimals}, or write 0.{decimals}")
    if len(whole) > MOST_FIGURES:
        reader.refuse(f"write at most {MOST_FIGURES} figures before the decimal point")
    return Numeral(int(whole + decimals), 10 ** len(decimals), text)


def _fraction(reader: Reader, token: Token, after: Numeral | None = None) -> Numeral:
    """Return a fraction below one whose first token has just been taken."""
    if token.sort == "vulgar":
        return Numeral(*VULGAR[token.text], token.text)
    if token.sort == "raised":
        top, _, bottom = token.text.replace("⅟", "1/").translate(_LEVEL).partition("/")
    else:
        reader.take()
        top, bottom = token.text, reader.take().text
    text = f"{top}/{bottom}"
    if not (top.isdigit() and bottom.isdigit()):
        reader.refuse(f"write the fraction {text} with whole numbers, like 1/2")
    if max(len(top), len(bottom)) > MOST_FIGURES:
        reader.refuse(f"write the fraction with at most {MOST_FIGURES} figures each side")
    if int(bottom) == 0:
        reader.refuse(f"{text} divides by nought: write a fraction like 1/2")
    if int(top) >= int(bottom):
        reader.refuse(_improper(int(top), int(bottom), after))
    return Numeral(int(top), int(bottom), text)


def _improper(top: int, bottom: int, after: Numeral | None) -> str:
    """Return what to write instead of a fraction that is not below one."""
    given = f"{top}/{bottom}"
    carried, left = divmod(top, bottom)
    total = carried + (after.numerator if after else 0)
    meant = f"{total} {left}/{bottom}" if left else f"{total}"
    advice = f"{given} is not below one: write {meant}"
    if after is None and len(str(top)) > 1:
        advice += ", or put a space between a whole number and its fraction"
    return advice
