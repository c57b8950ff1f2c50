"""Fields of a form, made from what the survey form declares: label, hint, value, fault."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

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
from evenhung.survey.schema import absence, holds
from evenhung.web.records.fields import flat
from evenhung.web.records.typed import entry_at
from evenhung.web.records.wording import field_name, spoken

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Mapping

    from evenhung.quantities import System


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
    choices: tuple[str, ...] = ()
    is_required: bool = False
    is_long: bool = False
    is_number: bool = False

    @property
    def name(self) -> str:
        """Its name among what is sent: begins with ``field.``, so that no other is taken for it."""
        return f"{PREFIX}{self.path}"


PREFIX = "field."


def form_fields(
    kind: str,
    paths: Iterable[str],
    body: Mapping[str, Any] | None,
    *,
    typed: Mapping[str, str] | None = None,
    faults: Mapping[str, str] | None = None,
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

    Raises
    ------
    LookupError
        Where the form has no such field.
    """
    stand = flat(body)
    given = typed or {}
    return [
        _field(
            kind, path, given.get(path, spoken(stand.get(path, ""))), (faults or {}).get(path, "")
        )
        for path in paths
    ]


def _field(kind: str, path: str, value: str, fault: str) -> FormField:
    entry = entry_at(kind, path)
    if entry is None:
        raise LookupError(f"{kind} has no field {path}")
    held = holds(entry)
    quantity = _quantity(held)
    return FormField(
        path=path,
        label=field_name(path),
        says=entry.says,
        absent=absence(entry),
        value=value,
        fault=fault,
        understood="" if fault else understood(quantity, value),
        quantity=quantity,
        choices=tuple(held.get("enum", ())),
        is_required=entry.is_required,
        is_long=path.rpartition(".")[2] == "note",
        is_number=held.get("type") in ("number", "integer"),
    )


def _quantity(held: Mapping[str, Any]) -> str:
    for one in (held, *held.get("anyOf", ())):
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
    """
    if quantity not in _KINDS or not value:
        return ""
    try:
        read = _KINDS[quantity].parse(value).value
    except InvalidQuantity:
        return ""
    printed = _PRINTED[quantity]
    return f"{printed(read, 'imperial')} = {printed(read, 'metric')}"
