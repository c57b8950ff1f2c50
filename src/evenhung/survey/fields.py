"""How a record of the survey is declared: its fields, what each may hold, what its absence means.

A record is a frozen object that holds only what was typed; what was not falls back on the class.
The checking is pydantic's engine, `pydantic_core`, given the schema that the fields spell out:
pydantic's own classes take longer to build than a whole house to plan (decision 0004).
"""

from __future__ import annotations

import re
from functools import cache
from typing import TYPE_CHECKING, Any, ClassVar, NamedTuple, NoReturn, TypeAlias

from pydantic_core import PydanticCustomError, core_schema

from evenhung.errors import InvalidQuantity
from evenhung.quantities import Force, Length, LinearDensity, Mass
from evenhung.survey.nearest import one_of

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Mapping

    from pydantic_core import CoreSchema

    from evenhung.quantities import Quantity


Refusal: TypeAlias = tuple[str, str, str]
"""Where inside a record, what was found there, what is allowed."""


class Entry(NamedTuple):
    """One field as it is declared."""

    schema: CoreSchema
    says: str
    """What the field holds, in the words of the form."""
    absent: str
    """What its absence means; empty where it must be stated."""
    row: str
    """Reference row ``subject/key/property`` that stands for it; empty where none does."""
    default: Any
    part: type[Record] | None
    """The record it holds, if it holds one or a list of them."""
    leaves_out: bool = False
    """Whether its absence leaves something out of the plan."""

    @property
    def is_required(self) -> bool:
        """True where a survey must state it."""
        return not self.absent


class Record:
    """One part of a survey: frozen, closed to keys it does not know, converting nothing."""

    entries: ClassVar[Mapping[str, Entry]] = {}
    """The fields by name, in the order of the form."""

    def __init_subclass__(cls) -> None:
        """Gather the fields a class declares, and leave their defaults where they stood."""
        own = {name: value for name, value in vars(cls).items() if isinstance(value, Entry)}
        for name, entry in own.items():
            setattr(cls, name, entry.default)
        cls.entries = {**cls.entries, **own}

    def __init__(self, **stated: Any) -> None:
        """Hold what was stated; it has been checked."""
        self.__dict__.update(stated)

    def __setattr__(self, name: str, value: Any) -> NoReturn:
        """Refuse: what was found is never overwritten."""
        raise AttributeError(f"{type(self).__name__}.{name} is frozen")

    def __eq__(self, other: object) -> bool:
        """Tell whether two records state the same, as typed."""
        return type(other) is type(self) and other.__dict__ == self.__dict__

    def __hash__(self) -> int:
        """Hash by the fields stated and the kind of record."""
        return hash((type(self), *self.__dict__))

    def __repr__(self) -> str:
        """Name the record and what it states."""
        return f"{type(self).__name__}({', '.join(f'{k}={v!r}' for k, v in self.__dict__.items())})"

    def contradictions(self) -> Iterable[Refusal]:
        """Give what in this record contradicts itself: where, what was found, what is allowed."""
        return ()

    def wants(self, field: str) -> bool:
        """Tell whether an absent field would change anything, as the rest of the record stands."""
        return field in self.entries

    def as_typed(self) -> dict[str, Any]:
        """Give the record as plain data: every value as it was typed, and nothing that was not."""
        return {name: _as_typed(value) for name, value in self.__dict__.items()}


def _as_typed(value: Any) -> Any:
    if isinstance(value, Record):
        return value.as_typed()
    if isinstance(value, tuple):
        return [_as_typed(one) for one in value]
    return getattr(value, "text", value)


def record(kind: type[Record]) -> CoreSchema:
    """Accept a table of the fields that a record declares."""
    fields = {
        name: core_schema.typed_dict_field(entry.schema, required=entry.is_required)
        for name, entry in kind.entries.items()
    }
    table = core_schema.typed_dict_schema(fields, extra_behavior="forbid", strict=True)

    def make(stated: dict[str, Any]) -> Record:
        made = kind(**stated)
        refusals = list(made.contradictions())
        if refusals:
            raise PydanticCustomError("contradiction", "{refusals}", {"refusals": refusals})
        return made

    return core_schema.no_info_after_validator_function(make, table)


# what a field may hold


def a_length(least: str, most: str) -> CoreSchema:
    """Accept a length, both ends of the range included."""
    return _quantity(Length, least, most)


def a_mass(least: str, most: str) -> CoreSchema:
    """Accept a mass, both ends of the range included."""
    return _quantity(Mass, least, most)


def a_force(least: str, most: str) -> CoreSchema:
    """Accept a force, both ends of the range included."""
    return _quantity(Force, least, most)


def a_linear_density(least: str, most: str) -> CoreSchema:
    """Accept a mass per length, both ends of the range included."""
    return _quantity(LinearDensity, least, most)


@cache
def _quantity(kind: type[Quantity], least: str, most: str) -> CoreSchema:
    low, high = kind.parse(least).exact, kind.parse(most).exact

    def read(given: Any) -> Quantity:
        try:
            quantity = kind.parse(given)
        except InvalidQuantity as refusal:
            raise _refused(refusal.allowed) from None
        if not low <= quantity.exact <= high:
            raise _refused(f"a {kind.kind} from {least} to {most}")
        return quantity

    facts = {"kind": kind.kind, "least": least, "most": most, "examples": list(kind.examples)}
    return core_schema.no_info_plain_validator_function(read, metadata=facts)


def a_number(least: float, most: float) -> CoreSchema:
    """Accept a plain number, both ends of the range included; a whole one stays whole."""

    def read(given: Any, check: Callable[[Any], float]) -> Any:
        check(given)
        return given

    number = core_schema.float_schema(ge=least, le=most, allow_inf_nan=False, strict=True)
    return core_schema.no_info_wrap_validator_function(read, number)


def a_count(least: int, most: int) -> CoreSchema:
    """Accept a whole number, both ends of the range included."""
    return core_schema.int_schema(ge=least, le=most, strict=True)


def a_choice(*words: str) -> CoreSchema:
    """Accept one of some words."""
    return core_schema.literal_schema(list(words))


_UNSEEN = r"\u007F-\u009F\u2028-\u202E\u2066-\u2069"
"""Characters that no one means to type: they move the cursor or turn the reading round."""


@cache
def a_text() -> CoreSchema:
    """Accept a text of one line with something to see in it."""
    unseen = rf"\u0000-\u001F{_UNSEEN}"
    pattern = rf"^[^{unseen}]*[^\s{unseen}][^{unseen}]*$"
    return _text(pattern, "a text of one line, without control characters")


@cache
def a_note() -> CoreSchema:
    """Accept a text of one line or several."""
    pattern = rf"^[^\u0000-\u0008\u000B\u000C\u000E-\u001F{_UNSEEN}]*$"
    return _text(pattern, "a text without control characters")


def _text(pattern: str, allowed: str) -> CoreSchema:
    fits = re.compile(pattern).fullmatch

    def read(given: str) -> str:
        if not (given.isprintable() and given.strip()) and not fits(given):
            raise _refused(allowed)
        return given

    text = core_schema.str_schema(min_length=1, max_length=2000, strict=True)
    facts = {"pattern": pattern}
    return core_schema.no_info_after_validator_function(read, text, metadata=facts)


def a_name(known: Callable[[], Iterable[str]], what: str) -> CoreSchema:
    """Accept one of some names that are looked up only when they are needed."""

    def read(given: str) -> str:
        names = sorted(known())
        if given not in names:
            raise _refused(f"{what}: {one_of(given, names)}")
        return given

    text = core_schema.str_schema(strict=True)
    return core_schema.no_info_after_validator_function(read, text)


def several(item: CoreSchema, *, most: int | None = None, least: int = 0) -> CoreSchema:
    """Accept a list."""
    items = core_schema.list_schema(item, min_length=least, max_length=most, strict=True)
    return core_schema.no_info_after_validator_function(tuple, items)


def either(table: type[Record], single: CoreSchema) -> CoreSchema:
    """Accept a record, or a single value in its stead."""
    return core_schema.tagged_union_schema(
        {"<table>": record(table), "<single>": single},
        lambda given: "<table>" if isinstance(given, dict) else "<single>",
    )


def _refused(allowed: str) -> PydanticCustomError:
    return PydanticCustomError("refused", "{allowed}", {"allowed": allowed})


# what its absence means


def required(schema: CoreSchema, says: str, part: type[Record] | None = None) -> Any:
    """Declare a field that a survey must state."""
    return Entry(schema, says, "", "", None, part)


def assumed(schema: CoreSchema, says: str, row: str, part: type[Record] | None = None) -> Any:
    """Declare a field that the reference row ``subject/key/property`` stands for."""
    return Entry(schema, says, "assumed", row, None, part)


def left_out(schema: CoreSchema, says: str, without: str) -> Any:
    """Declare a field without which something is not computed: `without` says what."""
    return Entry(schema, says, without, "", None, None, leaves_out=True)


def plain(schema: CoreSchema, says: str, absent: str) -> Any:
    """Declare a field whose absence has a plain meaning of its own: `absent` says which."""
    return Entry(schema, says, absent, "", None, None)


def part(kind: type[Record], says: str) -> Any:
    """Declare a part of which every field can be absent, and so the whole."""
    return Entry(record(kind), says, "as if every field of it were absent", "", kind(), kind)


def optional_part(kind: type[Record], says: str, absent: str) -> Any:
    """Declare a part that may not be there at all."""
    return Entry(record(kind), says, absent, "", None, kind)


def required_part(kind: type[Record], says: str) -> Any:
    """Declare a part that a survey must state."""
    return Entry(record(kind), says, "", "", None, kind)


def parts(kind: type[Record], says: str, absent: str) -> Any:
    """Declare a list of parts."""
    return Entry(several(record(kind)), says, absent, "", (), kind)
