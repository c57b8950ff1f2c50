"""Fields of a form, made from what the survey form declares: label, hint, value, fault."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, TypeAlias

from django.utils.translation import gettext as _

from evenhung.errors import InvalidQuantity
from evenhung.quantities import (
    Force,
    Length,
    LinearDensity,
    Mass,
    print_force,
    print_length,
    print_linear_density,
    print_mass,
)
from evenhung.reference import look_up
from evenhung.survey.schema import holds
from evenhung.web.page.alone import ALONE, may_stand_alone
from evenhung.web.records.fields import flat
from evenhung.web.records.typed import DAY, entry_at
from evenhung.web.records.wording import spoken

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Mapping, Sequence

    from evenhung.quantities import System
    from evenhung.survey.fields import Entry

    Choices: TypeAlias = Sequence[tuple[str, str]]
    """Values, each with what stands for it."""


@dataclass(frozen=True, slots=True)
class FormField:
    """One field as a page shows it."""

    path: str
    label: str
    says: str
    absent: str
    value: str
    fault: str = ""
    understood: str = ""
    """What was typed, as it was read: in both systems."""
    quantity: str = ""
    """The kind of quantity it holds, if it holds one."""
    choices: tuple[tuple[str, str], ...] = ()
    """What can be chosen: the value, and what stands for it."""
    narrowed_by: str = ""
    """The name of the field that what can be chosen depends on."""
    allowed: str = ""
    """What can be chosen, by what that field holds, as JSON."""
    unfit: tuple[str, ...] = ()
    """What cannot be chosen as that field stands."""
    is_required: bool = False
    is_long: bool = False
    is_number: bool = False
    is_day: bool = False
    is_tapped: bool = False
    """Whether its few choices stand side by side, each to be tapped at once."""

    @property
    def name(self) -> str:
        """Its name among what is sent: begins with ``field.``, so that no other is taken for it."""
        return f"{PREFIX}{self.path}"


PREFIX = "field."

TAPPED = ("let_go",)
"""Tables whose fields are chosen by a tap: what is in them is taken down with one hand."""


def form_fields(
    kind: str,
    paths: Iterable[str],
    body: Mapping[str, Any] | None,
    *,
    typed: Mapping[str, str] | None = None,
    faults: Mapping[str, str] | None = None,
    choices: Mapping[str, Choices] | None = None,
) -> list[FormField]:
    """Make the fields of a form for some fields of a part.

    Parameters
    ----------
    kind
        The kind of part.
    paths
        The fields, in the order they are to be shown.
    body
        The part as it stands; None for a new one.
    typed
        What was typed into them and could not be saved, to be shown again.
    faults
        What is wrong with it, by path.
    choices
        What can be chosen where the house says so and not the form, by path.

    Raises
    ------
    LookupError
        Where the form has no such field.
    """
    stand = flat(body)
    given = typed or {}
    return [
        _field(
            kind,
            path,
            given.get(path, spoken(stand.get(path, ""))),
            (faults or {}).get(path, ""),
            (choices or {}).get(path, ()),
        )
        for path in paths
    ]


def _field(kind: str, path: str, value: str, fault: str, choices: Choices) -> FormField:
    entry = entry_at(kind, path)
    if entry is None:
        raise LookupError(f"{kind} has no field {path}")
    held = holds(entry)
    quantity = _quantity(held)
    return FormField(
        path=path,
        label=label_of(path),
        says=entry.says + _hint(held),
        absent=_absence(entry),
        value=value,
        fault=fault,
        understood="" if fault else understood(quantity, value),
        quantity=quantity,
        choices=_choices(choices or [(one, one) for one in held.get("enum", ())], value),
        is_required=entry.is_required and _stands_in_what_is_there(kind, path),
        is_long=path.rpartition(".")[2] == "note" or _holds_texts(held),
        is_number=held.get("type") in ("number", "integer"),
        is_day=held.get("pattern") == DAY and bool(re.fullmatch(rf"|{DAY}", value)),
        is_tapped=path.rpartition(".")[0].endswith(TAPPED),
    )


def _hint(held: Mapping[str, Any]) -> str:
    """Say how a list is typed; empty for what is none."""
    if held.get("type") != "array":
        return ""
    known = held["items"].get("enum")
    return (
        _("; of %(known)s") % {"known": ", ".join(known)}
        if known
        else _("; several with ; between")
    )


def _choices(choices: Choices, value: str) -> tuple[tuple[str, str], ...]:
    """Give what can be chosen; what stands there already can always be."""
    if choices and value and value not in [one for one, _text in choices]:
        return (*choices, (value, value))
    return tuple(choices)


def _holds_texts(held: Mapping[str, Any]) -> bool:
    """Tell whether a field is a list of free texts, which take room."""
    return (
        held.get("type") == "array" and not {"enum", "pattern", "$comment"} & held["items"].keys()
    )


_PLACES = {"upper", "lower", "left", "right", "box", "pulley", "cord", "policy"}
_PLACES |= {"lower_excess", "upper_deficit", "worth"}
_PLACES |= {"finding", "symptom", "place"}
_PLACES |= {"stock", "make_weight", "bar", "ready_made"}
_PLACES |= {"completion", "let_go"}
_PLACES |= {"price", "crew", "option", "rate", "material", "programme", "needed"}
"""Tables that the heading above a field names already."""


def label_of(path: str) -> str:
    """Give what stands above a field: its name, after the table it is in.

    Examples
    --------
    >>> label_of("lower.panes.across"), label_of("pulley.cord_bend_pct")
    ('panes across', 'cord bend %')
    """
    *tables, field = path.split(".")
    said = " ".join([*(table for table in tables if table not in _PLACES), field])
    return said.replace("_pct", " %").replace("_", " ")


def _stands_in_what_is_there(kind: str, path: str) -> bool:
    """Tell whether the tables a field is in must be there; the sash a form is for is."""
    tables = path.split(".")[1:-1]
    first = path.partition(".")[0]
    entries = [
        entry_at(kind, ".".join([first, *tables[: number + 1]])) for number in range(len(tables))
    ]
    if entries and entries[-1] is not None and may_stand_alone(entries[-1]):
        return path.rpartition(".")[2] == ALONE
    return all(entry is not None and entry.is_required for entry in entries)


def _absence(entry: Entry) -> str:
    """Say what it means to leave a field empty: with the value that is then assumed."""
    if entry.is_required:
        return ""
    if entry.row:
        row = look_up(*entry.row.split("/"))
        return _("left empty: %(value)s %(unit)s is assumed") % {
            "value": row.value,
            "unit": "" if row.unit == "1" else row.unit.replace("pct", "%"),
        }
    if entry.absent == "nothing":
        return ""
    if entry.absent.startswith("required"):
        return entry.absent
    return _("left empty: %(absent)s") % {"absent": entry.absent}


def _quantity(held: Mapping[str, Any]) -> str:
    for one in (held, *held.get("anyOf", ()), held.get("items", {})):
        said = str(one.get("$comment", ""))
        if said:
            return said.removeprefix("a ").partition(" from ")[0]
    return ""


_PRINTED: dict[str, Callable[[float, System], str]] = {
    Force.kind: print_force,
    Length.kind: print_length,
    LinearDensity.kind: print_linear_density,
    Mass.kind: print_mass,
}
_KINDS = {kind.kind: kind for kind in (Force, Length, LinearDensity, Mass)}


def understood(quantity: str, value: str) -> str:
    """Give a quantity as it was read, in both systems; empty where it is none or cannot be read.

    Examples
    --------
    >>> understood("mass", "5 lb 2")
    ''
    >>> understood("mass", "5 lb 2 oz")
    '5 lb 2 oz = 2.32 kg'
    >>> understood("mass", "5 lb 2 oz; 1 kg")
    '5 lb 2 oz = 2.32 kg; 2 lb 3 1/4 oz = 1.00 kg'
    """
    if quantity not in _KINDS or not value:
        return ""
    given = [one.strip() for one in re.split(r"[;\n]", value) if one.strip()]
    try:
        read = [_KINDS[quantity].parse(one).value for one in given]
    except InvalidQuantity:
        return ""
    printed = _PRINTED[quantity]
    return "; ".join(f"{printed(one, 'imperial')} = {printed(one, 'metric')}" for one in read)
