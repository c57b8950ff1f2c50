"""Cut a typed quantity into numbers, unit words and marks, whatever keyboard it came from.

One regular expression without nested repetition walks the text once, and the text is at
most 40 characters long, so no input can make it slow.
"""

import re
from typing import NamedTuple, NoReturn

from evenhung.errors import InvalidQuantity

LONGEST_TEXT = 40

_LOOKALIKES = {
    " ": "\u00a0\u1680\u2000\u2001\u2002\u2003\u2004\u2005\u2006\u2007\u2008\u2009\u200a"
    "\u202f\u205f\u3000",
    "'": "\u2018\u2019\u201b\u2032\u02b9\u00b4`",
    '"': "\u201c\u201d\u201f\u2033\u02ba",
    "-": "\u2010\u2011\u2012\u2013",
    "/": "\u2044\u2215",
}
# Each lookalike becomes one plain character, so places in the text stay where they were.
_PLAIN = {ord(mark): plain for plain, marks in _LOOKALIKES.items() for mark in marks}
_PLAIN |= {code: chr(code - 0xFEE0) for code in range(0xFF01, 0xFF5F)}  # full-width forms

VULGAR = {
    "½": (1, 2), "⅓": (1, 3), "⅔": (2, 3), "¼": (1, 4), "¾": (3, 4),
    "⅕": (1, 5), "⅖": (2, 5), "⅗": (3, 5), "⅘": (4, 5), "⅙": (1, 6), "⅚": (5, 6),
    "⅐": (1, 7), "⅛": (1, 8), "⅜": (3, 8), "⅝": (5, 8), "⅞": (7, 8),
    "⅑": (1, 9), "⅒": (1, 10), "↉": (0, 3),
}  # fmt: skip

_TOKEN = re.compile(
    r" *(?:(?P<number>[0-9.,]*[0-9](?:[eE][+-]?[0-9]+)?)"
    r"|(?P<raised>(?:[⁰¹²³⁴-⁹]+/|⅟)[₀-₉0-9]+)"
    r"|(?P<word>[A-Za-z]+(?:-[A-Za-z]+)*(?:\.(?![0-9]))?)"
    r"|(?P<other>''|.))",
    re.DOTALL,
)
_SORTS = {"/": "slash", ",": "comma", "-": "hyphen"}
_SORTS |= dict.fromkeys(("'", '"', "''"), "mark")
_SORTS |= dict.fromkeys(("+", "\u00b1", "\u2212"), "sign")
_SORTS |= dict.fromkeys(VULGAR, "vulgar")


class Token(NamedTuple):
    """One piece of the text: what sort of piece, the piece in plain characters, its place."""

    sort: str
    text: str
    start: int
    end: int


END = Token("end", "", -1, -1)
# Nothing looks further past the first or the last token than this, so no look needs a check.
_MARGIN = [END] * 4


class Reader:
    """The tokens of one text, read from left to right.

    Parameters
    ----------
    text : str
        The quantity as typed.

    Raises
    ------
    InvalidQuantity
        The text is empty, too long, or holds a character no quantity is written with.
    """

    __slots__ = ("_at", "_tokens", "text")

    def __init__(self, text: str) -> None:
        self.text = text
        self._at = len(_MARGIN)
        self._tokens = [*_MARGIN, *_cut(self), *_MARGIN]

    def refuse(self, allowed: str) -> NoReturn:
        """Raise `InvalidQuantity` for the whole text, saying what would be accepted."""
        shown = self.text if len(self.text) <= LONGEST_TEXT else self.text[:LONGEST_TEXT] + "…"
        raise InvalidQuantity(shown, allowed)

    def peek(self, ahead: int = 0) -> Token:
        """Return the next token, or one so far ahead, not taking it; `END` if there is none."""
        return self._tokens[self._at + ahead]

    def take(self) -> Token:
        """Return the next token and step past it; `END` past the last."""
        self._at += 1
        return self._tokens[self._at - 1]


def _cut(reader: Reader) -> list[Token]:
    """Return the tokens of the reader's text, spaces left out."""
    if len(reader.text) > LONGEST_TEXT:
        reader.refuse(f"write it in at most {LONGEST_TEXT} characters")
    plain = reader.text if reader.text.isascii() else reader.text.translate(_PLAIN)
    tokens = []
    for match in _TOKEN.finditer(plain.rstrip(" ")):
        sort = str(match.lastgroup)
        text, start, end = match.group(sort), match.start(sort), match.end()
        if sort == "other":
            if text not in _SORTS:
                reader.refuse(_unreadable(reader.text[start]))
            sort = _SORTS[text]
        tokens.append(Token(sort, text, start, end))
    return tokens


def _unreadable(character: str) -> str:
    """Return what to say of a character that no quantity is written with."""
    if character.isdecimal():
        return f"write {character} as one of the figures 0 to 9"
    if not character.isprintable():
        return f"leave out the control character {character!r}"
    return f"leave out {character!r}: use figures, one unit or more, and fractions like 1/2 or ½"
