"""What one row of reference values holds, and the units it may be printed in."""

import builtins
from typing import Final, NamedTuple

from evenhung.errors import UnknownReference

KNOWN: Final = ("confirmed", "from memory", "common practice", "ours")
"""How a value is known: seen in print, recalled, said by the trade, or assumed by us."""

TEXT: Final = "text"
"""Unit of a row whose value is a sentence, not a number."""

PROGRAM_UNITS: Final = frozenset(
    {
        "1",
        "d",
        "degC",
        "g/m",
        "h",
        "kg",
        "kg/m2",
        "kg/m3",
        "m2",
        "m2/L",
        "min",
        "mm",
        "mm2",
        "N",
        "pct",
    }
)
"""Units the program works in; a row printed in one of them needs no conversion."""

_LB_KG: Final = 0.45359237  # international pound, exact (1959 agreement)
_IN_MM: Final = 25.4  # international inch, exact (1959 agreement)
_FT_M: Final = 0.3048  # 12 inches, exact
_GALLON_L: Final = 3.785411784  # gallon of the United States, 231 cubic inches, exact

_FROM_PRINTED: Final = {
    # printed unit: (program unit, factor, zero of the printed scale)
    "in": ("mm", _IN_MM, 0.0),
    "lb": ("kg", _LB_KG, 0.0),
    "ft2": ("m2", _FT_M**2, 0.0),
    "g/cm3": ("kg/m3", 1000.0, 0.0),
    "lb/ft3": ("kg/m3", _LB_KG / _FT_M**3, 0.0),
    "lb/ft/in2": ("kg/m3", _LB_KG / (_FT_M * (_IN_MM / 1000.0) ** 2), 0.0),
    "oz/ft2": ("kg/m2", _LB_KG / 16.0 / _FT_M**2, 0.0),
    "ft2/gal": ("m2/L", _FT_M**2 / _GALLON_L, 0.0),
    "degF": ("degC", 5.0 / 9.0, 32.0),
}

UNITS: Final = PROGRAM_UNITS | frozenset(_FROM_PRINTED) | {TEXT}
"""Every unit a row may be printed in."""


class Source(NamedTuple):
    """A book, standard, page or habit that rows are taken from."""

    key: str
    title: str
    year: str
    publisher: str
    note: str


class Row(NamedTuple):
    """One value as its source prints it; compute with `si`, print `value` and `unit`.

    Attributes
    ----------
    subject, key, property : str
        Where the row is found: ``look_up("metals", "lead", "density")``.
    value : str
        The value as printed, never rounded or converted.
    number : float or None
        The value as a number in `unit`; None for a row of text.
    unit : str
        The unit as printed, one of `UNITS`.
    spread : float or None
        One standard deviation in `unit`; None where none is stated.
    source : str
        Key of the row's `Source`.
    locator : str
        Table, page or clause within the source.
    known : str
        One of `KNOWN`.
    chosen : bool
        True for the one row the program uses, False for a row kept beside it.
    remark : str
        What a reader should know before relying on the row.
    """

    subject: str
    key: str
    property: str
    value: str
    number: float | None
    unit: str
    spread: float | None
    source: str
    locator: str
    known: str
    chosen: bool
    remark: str

    @builtins.property
    def si(self) -> float:
        """The value in the program's own unit, which is `si_unit`.

        Raises
        ------
        UnknownReference
            The row is text and has no number.

        Examples
        --------
        >>> from evenhung.reference import look_up
        >>> look_up("joinery", "running clearance", "each_side").si  # printed as 1/16 in
        1.5875
        """
        if self.number is None:
            raise UnknownReference(
                f"{self.subject}, {self.key}, {self.property}: a sentence, not a number"
            )
        _, factor, zero = _FROM_PRINTED.get(self.unit, (self.unit, 1.0, 0.0))
        return (self.number - zero) * factor

    @builtins.property
    def si_spread(self) -> float | None:
        """One standard deviation in `si_unit`; None where none is stated."""
        _, factor, _ = _FROM_PRINTED.get(self.unit, (self.unit, 1.0, 0.0))
        return None if self.spread is None else self.spread * factor

    @builtins.property
    def si_unit(self) -> str:
        """The program's unit for this row: mm for in, kg for lb, and so on."""
        unit, _, _ = _FROM_PRINTED.get(self.unit, (self.unit, 1.0, 0.0))
        return unit
