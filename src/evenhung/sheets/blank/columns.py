"""The survey form laid flat: its records as tables with a column for every field."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING, Any, Literal, NamedTuple, TypeAlias

from evenhung.reference import keys, look_up
from evenhung.survey.schema import json_schema

if TYPE_CHECKING:
    from collections.abc import Iterator

Holds: TypeAlias = Literal["text", "quantity", "count", "number", "list"]
"""What a cell may hold; a quantity is a text with its unit, a list is several with semicolons."""

TableName: TypeAlias = Literal[
    "House",
    "Windows",
    "Sashes",
    "Findings",
    "Symptoms",
    "Loose weights",
    "Make-weights",
    "Bars",
    "Ready-made weights",
    "Decisions",
    "Price",
    "Crew",
    "Options",
    "Own hours",
    "Material prices",
    "Booked hours",
    "Programme",
    "Rooms needed",
]


class Column(NamedTuple):
    """One field of the form."""

    path: str
    """Inside its record, with points: ``box.clear_width``."""
    holds: Holds
    allowed: str
    """What it may hold, in words."""
    says: str
    """What it is, and what its absence means."""
    is_required: bool
    choices: tuple[str, ...] = ()
    """The words it must be one of; empty where it may be anything of its kind."""


class Form(NamedTuple):
    """One table of the workbook."""

    name: TableName
    columns: tuple[Column, ...]
    is_needed: bool = False
    """Whether a workbook without it is refused."""
    upright_path: str = ""
    """Where it stands in the survey, if there is only one of its kind: ``house``."""
    list_path: str = ""
    """Where its rows stand in the survey, as they are, one below the other: ``weight``."""
    in_window: str = ""
    """Where its rows stand in the window that each of them names: ``finding``."""

    @property
    def is_upright(self) -> bool:
        """Whether its fields run down the sheet."""
        return bool(self.upright_path)

    def column(self, path: str) -> Column | None:
        """Give a column by its path."""
        return next((one for one in self.columns if one.path == path), None)


PLACE = Column(
    "place", "text", "upper or lower", "which sash of the window", True, ("upper", "lower")
)
WINDOW = Column(
    "window", "text", "text", "tag of the window it is in, as on the sheet Windows", True
)


OWN_SHEET = ("price", "programme")
"""Tables of the house that have sheets of their own: they are filled in at a desk."""


@cache
def forms() -> tuple[Form, ...]:
    """Give all tables of the workbook."""
    return (
        Form("House", tuple(_of("House", without=OWN_SHEET)), is_needed=True, upright_path="house"),
        Form(
            "Windows",
            _in_order(_of("Window", without=("upper", "lower"))),
            is_needed=True,
            list_path="window",
        ),
        Form("Sashes", (WINDOW, PLACE, *_in_order(_of("Sash"))), is_needed=True),
        _of_window("Findings", "Finding", "finding"),
        _of_window("Symptoms", "Symptom", "symptom"),
        _listed("Loose weights", "LooseWeight", "weight"),
        _listed("Make-weights", "MakeWeight", "house.stock.make_weight"),
        _listed("Bars", "Bar", "house.stock.bar"),
        _listed("Ready-made weights", "ReadyMade", "house.stock.ready_made"),
        _listed("Decisions", "Decision", "decision"),
        Form("Price", tuple(_of("Price")), upright_path="house.price"),
        _listed("Crew", "Hand", "house.price.crew"),
        _listed("Options", "Option", "house.price.option"),
        _listed("Own hours", "Rate", "house.rate"),
        _listed("Material prices", "Material", "house.material"),
        _listed("Booked hours", "Booked", "booked"),
        Form("Programme", tuple(_of("Programme")), upright_path="house.programme"),
        _of_window("Rooms needed", "Needed", "needed"),
    )


def _listed(name: TableName, record: str, path: str) -> Form:
    return Form(name, _in_order(_of(record)), list_path=path)


def _of_window(name: TableName, record: str, field: str) -> Form:
    return Form(name, (WINDOW, *_of(record)), in_window=field)


def form_of(name: TableName) -> Form:
    """Give a table by its name."""
    return next(form for form in forms() if form.name == name)


def _in_order(columns: Iterator[Column]) -> tuple[Column, ...]:
    """Put a tag first, and last what is seldom typed: one side's, one sash's, the app's own."""

    def place(one: Column) -> tuple[bool, bool, bool]:
        return one.path != "tag", is_seldom(one), is_given(one)

    return tuple(sorted(columns, key=place))


def is_seldom(column: Column) -> bool:
    """Tell whether a field is only for what differs at one side of a box, or for one sash."""
    return "as the window's" in column.says


def is_given(column: Column) -> bool:
    """Tell whether a field is given by the app and never typed."""
    return column.path.rpartition(".")[2] == "id"


@cache
def _schema() -> dict[str, Any]:
    return json_schema()


def _of(record: str, *, without: tuple[str, ...] = ()) -> Iterator[Column]:
    yield from _columns(_schema()["$defs"][record], "", required=True, without=without)


def _columns(
    record: dict[str, Any], prefix: str, *, required: bool, without: tuple[str, ...] = ()
) -> Iterator[Column]:
    """Give the fields of a record; those of records within it follow their own path."""
    for name, held in record["properties"].items():
        if name in without or _is_list_of_records(held):
            continue
        shapes = held.get("anyOf", [held])
        is_required = required and name in record["required"] and len(shapes) == 1
        for shape in shapes:
            says = _meaning(held["description"], is_required=is_required)
            if "$ref" in shape:
                part = _schema()["$defs"][shape["$ref"].rsplit("/", 1)[-1]]
                yield from _columns(part, f"{prefix}{name}.", required=is_required)
            else:
                yield _column(f"{prefix}{name}", shape, says, is_required=is_required)


def _meaning(says: str, *, is_required: bool) -> str:
    """Say what a field means, and of one that is assumed as what it is taken."""
    if says.endswith("; required") and not is_required:  # of what need not be there at all
        return f"{says}, where anything is stated beside it"
    what, _, place = says.partition("; if absent: assumed, ")
    row = place.split("/")
    if len(row) != len(("subject", "key", "property")):
        return says
    found = look_up(*row)
    unit = {"1": "", "pct": "%"}.get(found.unit, found.unit)
    return f"{what}; if absent: taken as {found.value} {unit}".strip()


def _is_list_of_records(held: dict[str, Any]) -> bool:
    """Tell whether a field is a list of tables: it has a sheet of its own."""
    return held.get("type") == "array" and "$ref" in held["items"]


def _column(path: str, shape: dict[str, Any], says: str, *, is_required: bool) -> Column:
    last = path.rpartition(".")[2]
    if last in OF_THE_REFERENCE:
        subject, allowed = OF_THE_REFERENCE[last]
        return Column(path, "text", allowed, says, is_required, tuple(keys(subject)))
    if "enum" in shape:
        return Column(path, "text", _words(shape), says, is_required, tuple(shape["enum"]))
    if shape["type"] == "array":
        several = f"{_words(shape['items'])}; several with ; between, or one to a line"
        return Column(path, "list", several, says, is_required)
    if "$comment" in shape:
        return Column(path, "quantity", f"{_words(shape)}, with its unit", says, is_required)
    if "maximum" in shape:
        holds: Holds = "count" if shape["type"] == "integer" else "number"
        what = "whole number" if holds == "count" else "number"
        least, most = shape["minimum"], shape["maximum"]
        return Column(path, holds, f"{what}, {least:g} to {most:g}", says, is_required)
    return Column(path, "text", _words(shape), says, is_required)


OF_THE_REFERENCE = {
    "timber": ("timber", "a timber of the list"),
    "operation": ("labour", "an operation of the list"),
}
"""By field: the subject of the reference whose names it is one of."""

_PATTERNED = {
    r"^\d{4}-\d{2}-\d{2}$": "a day, year first, such as 2026-03-09",
    "^[0-9]{1,6}([.,][0-9]{1,2})?$": "an amount in figures, such as 2.40",
    "^[A-Z]{3}$": "three capitals, such as GBP",
}
"""By the pattern of a text: what it is, in words."""


def _words(shape: dict[str, Any]) -> str:
    """Say what one value may be."""
    if "enum" in shape:
        return " or ".join(shape["enum"])
    return str(shape.get("$comment") or _PATTERNED.get(shape.get("pattern", ""), "text"))
