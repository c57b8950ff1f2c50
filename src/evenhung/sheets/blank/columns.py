"""The survey form laid flat: its records as tables with a column for every field."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING, Any, Literal, NamedTuple, TypeAlias

from evenhung.reference import keys
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
    is_upright: bool = False
    """Whether its fields run down the sheet: there is only one of its kind."""
    is_needed: bool = False
    """Whether a workbook without it is refused."""
    list_path: str = ""
    """Where its rows stand in the survey, as they are, one below the other: ``weight``."""
    in_window: str = ""
    """Where its rows stand in the window that each of them names: ``finding``."""

    def column(self, path: str) -> Column | None:
        """Give a column by its path."""
        return next((one for one in self.columns if one.path == path), None)


PLACE = Column(
    "place", "text", "upper or lower", "which sash of the window", True, ("upper", "lower")
)
WINDOW = Column(
    "window", "text", "text", "tag of the window it is in, as on the sheet Windows", True
)


NO_COLUMNS = ("price", "programme")
"""Tables of the house that are typed at a desk and not found at a window."""


@cache
def forms() -> tuple[Form, ...]:
    """Give all tables of the workbook."""
    return (
        Form("House", tuple(_of("House", without=NO_COLUMNS)), is_upright=True, is_needed=True),
        Form(
            "Windows",
            _in_order(_of("Window", without=("id", "upper", "lower"))),
            is_needed=True,
        ),
        Form("Sashes", (WINDOW, PLACE, *_in_order(_of("Sash"))), is_needed=True),
        _of_window("Findings", "Finding", "finding"),
        _of_window("Symptoms", "Symptom", "symptom"),
        _listed("Loose weights", "LooseWeight", "weight"),
        _listed("Make-weights", "MakeWeight", "house.stock.make_weight"),
        _listed("Bars", "Bar", "house.stock.bar"),
        _listed("Ready-made weights", "ReadyMade", "house.stock.ready_made"),
        _listed("Decisions", "Decision", "decision"),
    )


def _listed(name: TableName, record: str, path: str) -> Form:
    return Form(name, _in_order(_of(record, without=("id",))), list_path=path)


def _of_window(name: TableName, record: str, field: str) -> Form:
    return Form(name, (WINDOW, *_of(record, without=("id",))), in_window=field)


def form_of(name: TableName) -> Form:
    """Give a table by its name."""
    return next(form for form in forms() if form.name == name)


def _in_order(columns: Iterator[Column]) -> tuple[Column, ...]:
    """Put a tag first, and last what differs at one side or for one sash: it seldom does."""
    return tuple(sorted(columns, key=lambda one: (one.path != "tag", is_seldom(one))))


def is_seldom(column: Column) -> bool:
    """Tell whether a field is only for what differs at one side of a box, or for one sash."""
    return "as the window's" in column.says


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
        if name in without or (prefix and name == "id") or _is_list_of_records(held):
            continue
        is_required = required and name in record["required"]
        for shape in held.get("anyOf", [held]):
            says = held["description"]
            if "$ref" in shape:
                part = _schema()["$defs"][shape["$ref"].rsplit("/", 1)[-1]]
                yield from _columns(part, f"{prefix}{name}.", required=is_required)
            else:
                yield _column(f"{prefix}{name}", shape, says, is_required=is_required)


def _is_list_of_records(held: dict[str, Any]) -> bool:
    """Tell whether a field is a list of tables: it has a sheet of its own."""
    return held.get("type") == "array" and "$ref" in held["items"]


def _column(path: str, shape: dict[str, Any], says: str, *, is_required: bool) -> Column:
    if path.endswith("timber"):
        return Column(
            path, "text", "a timber of the list", says, is_required, tuple(keys("timber"))
        )
    if "enum" in shape:
        words = tuple(shape["enum"])
        return Column(path, "text", " or ".join(words), says, is_required, words)
    if shape["type"] == "array":
        each = shape["items"].get("$comment", "text")
        return Column(path, "list", f"{each}; several with ; between", says, is_required)
    if "$comment" in shape:
        return Column(path, "quantity", f"{shape['$comment']}, with its unit", says, is_required)
    if "maximum" in shape:
        holds: Holds = "count" if shape["type"] == "integer" else "number"
        what = "whole number" if holds == "count" else "number"
        least, most = shape["minimum"], shape["maximum"]
        return Column(path, holds, f"{what}, {least:g} to {most:g}", says, is_required)
    return Column(path, "text", "text", says, is_required)
