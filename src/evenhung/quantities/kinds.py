"""The four kinds of quantity: what was typed, kept exactly, beside what it means."""

from dataclasses import dataclass
from fractions import Fraction
from typing import ClassVar, Self

from evenhung.errors import InvalidQuantity
from evenhung.quantities.reading import exact_value
from evenhung.quantities.units import FORCE, KINDS, LENGTH, MASS, MASS_PER_LENGTH, Kind

# A longer whole number is not repeated in a message; Python will not even print the longest.
_LARGEST_SHOWN = 10**15


@dataclass(frozen=True, slots=True)
class Quantity:
    """A quantity as typed and its exact value; two are equal only when both are.

    Use `parse` of a subclass.

    Parameters
    ----------
    text : str
        Exactly as typed, spaces included.
    exact : Fraction
        The value in the base unit of its kind.

    Attributes
    ----------
    kind : str
        What it is: length, mass, force, mass per length.
    base_unit : str
        The unit of `exact` and of `value`: mm, kg, N, kg/m.
    examples : tuple of str
        Texts that are accepted, for messages, the schema and the docs.
    """

    text: str
    exact: Fraction
    kind: ClassVar[str]
    base_unit: ClassVar[str]
    examples: ClassVar[tuple[str, ...]]

    def __init_subclass__(cls, kind: Kind) -> None:
        """Give a subclass its name, base unit and examples."""
        cls.kind = kind.name
        cls.base_unit = kind.base_unit
        cls.examples = kind.examples

    @classmethod
    def parse(cls, text: object) -> Self:
        """Read a quantity as a tradesperson types it.

        Parameters
        ----------
        text : object
            The text; whatever is not text is refused, a number too, for it has no unit.

        Returns
        -------
        Quantity
            Of the class it is called on, with the text exactly as given.

        Raises
        ------
        InvalidQuantity
            The text cannot be read, or can be read in two ways; the message says what would do.

        Examples
        --------
        >>> Mass.parse("11 lb 4 oz")
        Mass(text='11 lb 4 oz', exact=Fraction(408233133, 80000000))
        """
        if not isinstance(text, str):
            raise InvalidQuantity(*_not_text(text, KINDS[cls.kind]))
        return cls(text, exact_value(text, cls.kind))

    @property
    def value(self) -> float:
        """The value in the base unit."""
        return float(self.exact)


class Length(Quantity, kind=LENGTH):
    """A length.

    Examples
    --------
    >>> Length.parse("33½ in").mm
    850.9
    """

    __slots__ = ()

    @property
    def mm(self) -> float:
        """The length [mm]."""
        return self.value


class Mass(Quantity, kind=MASS):
    """A mass.

    Examples
    --------
    >>> Mass.parse("11 lb").kg
    4.98951607
    """

    __slots__ = ()

    @property
    def kg(self) -> float:
        """The mass [kg]."""
        return self.value


class Force(Quantity, kind=FORCE):
    """A force; the g, kg, oz and lb of a spring balance are taken at standard gravity.

    Examples
    --------
    >>> Force.parse("1 kg").n
    9.80665
    """

    __slots__ = ()

    @property
    def n(self) -> float:
        """The force [N]."""
        return self.value


class LinearDensity(Quantity, kind=MASS_PER_LENGTH):
    """A mass per length, as of cord or chain.

    Examples
    --------
    >>> LinearDensity.parse("25 g/m").kg_per_m
    0.025
    """

    __slots__ = ()

    @property
    def kg_per_m(self) -> float:
        """The mass per length [kg/m]."""
        return self.value


def _not_text(found: object, kind: Kind) -> tuple[str, str]:
    """Return what to show and what to say of something that is not text."""
    shown, example = type(found).__name__, kind.examples[0]
    if isinstance(found, float) or (isinstance(found, int) and abs(found) < _LARGEST_SHOWN):
        shown = f"{found}"
        example = _example(f"{found} {kind.common_units[0]}", kind)
    return shown, f'write it as text with its unit, e.g. "{example}"'


def _example(text: str, kind: Kind) -> str:
    """Return a text if it would be accepted, else one that is."""
    try:
        exact_value(text, kind.name)
    except InvalidQuantity:
        return kind.examples[0]
    return text
