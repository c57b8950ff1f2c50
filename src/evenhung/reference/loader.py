"""Read the CSV files beside this module, and look up their rows.

A file is read when first asked for and then kept, so that a run which needs only
metals never reads timber.
"""

import csv
from collections.abc import Iterable
from functools import cache
from pathlib import Path
from typing import Final

from evenhung.errors import UnknownReference
from evenhung.reference.row import KNOWN, TEXT, UNITS, Row, Source

SUBJECTS: Final = (
    "timber",
    "glass",
    "putty",
    "paint",
    "metals",
    "cords",
    "friction",
    "joinery",
    "policy",
    "hazards",
    "labour",
    "repair",
    "safety",
)
"""One CSV file each."""

_COLUMNS: Final = (
    "key",
    "property",
    "value",
    "unit",
    "spread",
    "source",
    "locator",
    "known",
    "chosen",
    "remark",
)


class MalformedReference(RuntimeError):
    """A CSV file of this package breaks a rule: a fault of ours, never the user's."""


def look_up(subject: str, key: str, property: str) -> Row:  # noqa: A002 - the column's own name
    """Return the chosen row for a property of a key.

    Parameters
    ----------
    subject : str
        One of `SUBJECTS`.
    key : str
        What the value belongs to, for example ``scots pine``.
    property : str
        Which value of it, for example ``density_12pct``.

    Returns
    -------
    Row
        The one row that is chosen where sources disagree.

    Raises
    ------
    UnknownReference
        The subject, the key or the property is not there; the nearest name is given.

    Examples
    --------
    >>> look_up("glass", "soda-lime", "density").number
    2500.0
    """
    chosen = _chosen(subject)
    row = chosen.get((key, property))
    if row is not None:
        return row
    if key not in keys(subject):
        raise _unknown(f"{subject}: key", key, keys(subject))
    raise _unknown(f"{subject}, {key}: property", property, [p for k, p in chosen if k == key])


@cache
def keys(subject: str) -> tuple[str, ...]:
    """Return the keys of a subject, in the order of its file.

    Parameters
    ----------
    subject : str
        One of `SUBJECTS`.

    Returns
    -------
    tuple of str
        Each key once.

    Raises
    ------
    UnknownReference
        There is no such subject; the nearest is given.

    Examples
    --------
    >>> keys("putty")
    ('linseed',)
    """
    return tuple(dict.fromkeys(row.key for row in rows(subject)))


@cache
def rows(subject: str) -> tuple[Row, ...]:
    """Return every row of a subject, chosen or not, in the order of its file.

    Parameters
    ----------
    subject : str
        One of `SUBJECTS`.

    Returns
    -------
    tuple of Row
        In the order of the file.

    Raises
    ------
    UnknownReference
        There is no such subject; the nearest is given.
    MalformedReference
        The file breaks a rule; the message names file and line.
    """
    if subject not in SUBJECTS:
        raise _unknown("subject", subject, SUBJECTS)
    return read_rows(Path(__file__).with_name(f"{subject}.csv"), subject)


@cache
def sources() -> dict[str, Source]:
    """Return every source by its key, in the order of ``sources.csv``.

    Returns
    -------
    dict of str to Source
        Shared by all callers: not to be changed.

    Raises
    ------
    MalformedReference
        The file breaks a rule; the message names file and line.
    """
    return read_sources(Path(__file__).with_name("sources.csv"))


def read_rows(path: Path, subject: str) -> tuple[Row, ...]:
    """Read one subject's file and check it.

    Parameters
    ----------
    path : Path
        The CSV file.
    subject : str
        The subject its rows belong to.

    Returns
    -------
    tuple of Row
        In the order of the file.

    Raises
    ------
    MalformedReference
        A row breaks a rule, or not exactly one row of a key and property is chosen.
    """
    found: list[Row] = []
    line_of: dict[tuple[str, str], int] = {}
    line_of_chosen: dict[tuple[str, str], int] = {}
    for line, fields in _read(path, _COLUMNS):
        try:
            row = _row(subject, *fields)
        except (ValueError, ZeroDivisionError) as error:
            raise MalformedReference(f"{path.name}, line {line}: {error}") from error
        place = (row.key, row.property)
        line_of.setdefault(place, line)
        if row.chosen and line_of_chosen.setdefault(place, line) != line:
            raise MalformedReference(
                f"{path.name}, line {line}: {row.key}, {row.property}: "
                f"line {line_of_chosen[place]} is chosen already"
            )
        found.append(row)
    for (key, property_), line in line_of.items():
        if (key, property_) not in line_of_chosen:
            raise MalformedReference(
                f"{path.name}, line {line}: {key}, {property_}: no row of it is chosen"
            )
    return tuple(found)


def read_sources(path: Path) -> dict[str, Source]:
    """Read the file of sources and check it.

    Parameters
    ----------
    path : Path
        The CSV file.

    Returns
    -------
    dict of str to Source
        In the order of the file.

    Raises
    ------
    MalformedReference
        A source has no key or title, or its key is there twice.
    """
    found: dict[str, Source] = {}
    for line, fields in _read(path, Source._fields):
        source = Source(*fields)
        if not source.key or not source.title or source.key in found:
            raise MalformedReference(
                f"{path.name}, line {line}: {source.key!r}: "
                "a source has a title, and a key of its own"
            )
        found[source.key] = source
    return found


@cache
def _chosen(subject: str) -> dict[tuple[str, str], Row]:
    return {(row.key, row.property): row for row in rows(subject) if row.chosen}


def _read(path: Path, columns: tuple[str, ...]) -> list[tuple[int, list[str]]]:
    """Return each record of a CSV file with the number of its line."""
    with path.open(encoding="utf-8", newline="") as file:
        reader = csv.reader(file, strict=True)
        try:
            records = [(reader.line_num, record) for record in reader]
        except csv.Error as error:
            raise MalformedReference(f"{path.name}, line {reader.line_num}: {error}") from error
    for line, record in records[:1] or [(1, [])]:
        if tuple(record) != columns:
            raise MalformedReference(
                f"{path.name}, line {line}: the columns must be {', '.join(columns)}"
            )
    for line, record in records:
        if len(record) != len(columns):
            raise MalformedReference(
                f"{path.name}, line {line}: {len(record)} fields, not {len(columns)}"
            )
    return records[1:]


def _row(
    subject: str,
    key: str,
    property: str,  # noqa: A002 - the column's own name
    value: str,
    unit: str,
    spread: str,
    source: str,
    locator: str,
    known: str,
    chosen: str,
    remark: str,
) -> Row:
    """Return a checked row; a ValueError says which field is wrong."""
    if not key or not property or not value:
        raise ValueError("key, property and value are needed")
    _insist("unit", unit, UNITS)
    _insist("known", known, KNOWN)
    _insist("chosen", chosen, ("yes", "no"))
    _insist("source", source, sources())
    if unit == TEXT and spread:
        raise ValueError("a sentence has no spread")
    return Row(
        subject=subject,
        key=key,
        property=property,
        value=value,
        number=None if unit == TEXT else _number(value),
        unit=unit,
        spread=_number(spread) if spread else None,
        source=source,
        locator=locator,
        known=known,
        chosen=chosen == "yes",
        remark=remark,
    )


def _insist(column: str, found: str, allowed: Iterable[str]) -> None:
    if found not in allowed:
        raise ValueError(f"{column} {found!r} is none of {', '.join(sorted(allowed))}")


def _number(printed: str) -> float:
    """Return a printed number: ``7850``, ``.00212``, ``5/16`` or ``1 1/8``."""
    whole, space, last = printed.rpartition(" ")
    numerator, slash, denominator = last.partition("/")
    if space and not slash:
        raise ValueError(f"{printed!r} is not a number")
    return (_plain(whole) if space else 0.0) + _plain(numerator) / (
        _plain(denominator) if slash else 1.0
    )


def _plain(digits: str) -> float:
    """Return digits with at most one point as a number; no sign, no exponent."""
    if not (digits.isascii() and digits.replace(".", "", 1).isdigit()):
        raise ValueError(f"{digits!r} is not a number")
    return float(digits)


def _unknown(what: str, name: str, names: Iterable[str]) -> UnknownReference:
    """Return the error for an unknown name, with the nearest that is there."""
    from difflib import get_close_matches  # dear, and needed only to refuse

    nearest = get_close_matches(name, list(names), n=1, cutoff=0.0)
    return UnknownReference(f"{what} {name!r} is not there; the nearest is {nearest[0]!r}")
