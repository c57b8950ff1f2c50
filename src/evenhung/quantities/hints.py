"""What to say when no unit of the kind wanted stands after a number."""

from evenhung.quantities.numerals import Numeral
from evenhung.quantities.tokens import END, Token
from evenhung.quantities.units import KINDS, Kind, Unit, unit_named

# Below this likeness a name is no help: "furlong" is not a misspelt "foot".
LEAST_LIKENESS = 0.35


def wanted(kind: Kind) -> str:
    """Return how a quantity of a kind is written, with three examples."""
    return f"a {kind.name} with its unit, such as {', '.join(kind.examples[:3])}"


def not_a_unit(
    phrase: str, kind: Kind, number: Numeral, above: Unit | None, following: Token
) -> str:
    """Return what is wrong with a phrase that names no unit of a kind, and what would do.

    Parameters
    ----------
    phrase : str
        What stands after the number, in lower case; empty if nothing does.
    kind : Kind
        The kind wanted.
    number : Numeral
        The number before it.
    above : Unit or None
        The unit of the larger part before, if there is one.
    following : Token
        What comes after the phrase.

    Returns
    -------
    str
        One clause or two, fit to stand after the text refused.
    """
    if not phrase:
        return _no_unit(kind, number, above, following)
    for other in KINDS.values():
        unit = unit_named(phrase, other)
        if unit is not None:
            return f"{unit.symbol} is a {other.name}: write {wanted(kind)}"
    near = _nearest(phrase, kind)
    hint = f", the nearest is {near}" if near else ""
    return f"unknown unit {phrase}{hint}: write {wanted(kind)}"


def _no_unit(kind: Kind, number: Numeral, above: Unit | None, following: Token) -> str:
    """Return what to say when a number stands without its unit."""
    if following is END:
        symbols = _below(above, kind) if above else kind.common_units
        if above and not symbols:
            return f"write {number.text} before {above.symbol}, not after it"
        return f"add a unit: {' or '.join(f'{number.text} {symbol}' for symbol in symbols)}"
    joined = f"{number.text}{following.text}"
    if joined.isdigit():
        return f"two numbers in a row: write {joined} without the space, or a fraction like 1/2"
    return f"put a unit straight after {number.text}: write {wanted(kind)}"


def _below(above: Unit, kind: Kind) -> tuple[str, ...]:
    """Return the symbols of the units that may follow a larger one, largest first."""
    below = {unit.symbol: unit.factor for unit in kind.units.values() if above.holds(unit) > 1}
    return tuple(sorted(below, key=below.__getitem__, reverse=True))


def _nearest(phrase: str, kind: Kind) -> str | None:
    """Return the symbol of the unit whose name is most like a phrase, or None."""
    from difflib import SequenceMatcher  # only a refusal pays for it

    def likeness(name: str) -> float:
        shorter, longer = sorted((len(phrase), len(name)))
        return SequenceMatcher(None, phrase, name).ratio() - (1 - shorter / longer) / 2

    best = max(kind.units, key=likeness)
    return kind.units[best].symbol if likeness(best) >= LEAST_LIKENESS else None
