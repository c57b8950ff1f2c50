"""One way to edit a part on a page: show it, save it, show it again with what is wrong.

A form sends ``base``, the revision it was made from, and its fields as ``field.<path>``. After a
conflict it also sends ``choice.<path>``: ``theirs`` or ``ours``.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any, NamedTuple
from urllib.parse import urlencode

from django.http import Http404, HttpResponse, HttpResponseBadRequest, HttpResponseRedirect
from django.shortcuts import render
from django.utils.translation import gettext as _

from evenhung.store.parts import Key
from evenhung.web.page.form import PREFIX, form_fields
from evenhung.web.records.latest import standing_parts
from evenhung.web.records.merging import Edit
from evenhung.web.records.saving import Conflict, Refused, Saved, save
from evenhung.web.records.typed import from_form
from evenhung.web.records.wording import field_name, name_of, spoken

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

    from evenhung.web.access.door import Asked
    from evenhung.web.records.fields import Clash
    from evenhung.web.records.models import House
    from evenhung.web.records.saving import Dispute

CHOICE = "choice."
_ITEM = re.compile(r"\[\d+\]$")
"""At the end of a path: which of a list; a form has one field for all of it."""
UNPROCESSABLE, CONFLICT = 422, 409


@dataclass(frozen=True, slots=True)
class Editor:
    """A form on a page that edits some fields of one part.

    Parameters
    ----------
    house
        The house.
    key
        The part; without an id where it is new.
    title
        What the page is called.
    groups
        The fields, by the headings they stand under.
    done
        Gives the address to go on to, once the part is saved under its key.
    back
        The address to go back to without saving.
    alongside
        What a new part has besides what is typed, by path; what is typed over it counts.
    others
        What else of its kind one could begin with: what it is called, and its id.
    choices
        What can be chosen where the house says so and not the form, by path.
    back_name
        What the page to go back to is called; empty for the part itself, or the house.
    """

    house: House
    key: Key
    title: str
    groups: Mapping[str, Sequence[str]]
    done: Callable[[Key], str]
    back: str
    alongside: Mapping[str, Any] = field(default_factory=dict)
    others: Sequence[tuple[str, str]] = ()
    choices: Mapping[str, Sequence[tuple[str, str]]] = field(default_factory=dict)
    back_name: str = ""

    @property
    def paths(self) -> list[str]:
        """All the fields, in the order they are shown."""
        return [path for paths in self.groups.values() for path in paths]

    @property
    def draft(self) -> str:
        """The name under which a browser keeps what is typed until it is saved."""
        return "/".join((self.house.pk, *self.key, self.title))


def edit_part(request: Asked, editor: Editor) -> HttpResponse:
    """Show a form, or save what was typed into it and go on."""
    if request.method != "POST":
        return _shown(request, editor)
    base = request.POST.get("base", "")
    if not base.isdecimal():
        return HttpResponseBadRequest("base")
    typed = {
        path: request.POST[PREFIX + path] for path in editor.paths if PREFIX + path in request.POST
    }
    kept = {
        path: text for path, text in typed.items() if request.POST.get(CHOICE + path) != "theirs"
    }
    fields = {**editor.alongside, **from_form(editor.key.kind, kept)}
    edit = Edit(editor.key, int(base), fields)
    outcome = save(editor.house, [edit], who=request.access.name)
    if isinstance(outcome, Saved):
        told = {
            "saved": editor.draft,
            **({"also": "; ".join(outcome.also)} if outcome.also else {}),
        }
        return HttpResponseRedirect(f"{editor.done(outcome.keys[0])}?{urlencode(told)}")
    if isinstance(outcome, Refused):
        return _refused(request, editor, int(base), typed, outcome)
    return _disputed(request, editor, typed, outcome)


class _Again(NamedTuple):
    """What a form that could not be saved is shown with again."""

    base: int
    typed: Mapping[str, str]
    beside: Mapping[str, str]
    """What is wrong with a field, by its path."""
    general: Sequence[str]
    """What is wrong with no field of this form."""


def _shown(
    request: Asked, editor: Editor, again: _Again | None = None, *, status: int = 200
) -> HttpResponse:
    parts = {part.key: part for part in standing_parts(editor.house, window=editor.key.ident)}
    part = parts.get(editor.key)
    if editor.key.ident and part is None:
        raise Http404  # it was removed
    body = part.body if part else None
    kind = editor.key.kind
    begun_with = {path: spoken(value) for path, value in editor.alongside.items()}
    typed = again.typed if again else begun_with
    faults = again.beside if again else {}
    page = {
        "editor": editor,
        "house": editor.house,
        "name": parts[Key("house")].body["name"],
        "part": name_of(editor.key, body) if body and editor.key.ident else "",
        "base": again.base if again else part.number if part else 0,
        "groups": {
            heading: form_fields(
                kind, paths, body, typed=typed, faults=faults, choices=editor.choices
            )
            for heading, paths in editor.groups.items()
        },
        "general": again.general if again else (),
    }
    return render(request, "page/edit.html", page, status=status)


def _refused(
    request: Asked, editor: Editor, base: int, typed: Mapping[str, str], refused: Refused
) -> HttpResponse:
    """Show the form again, each fault beside its field and the others above them all."""
    beside, general = {}, []
    for fault in refused.faults:
        own = fault.key.kind == editor.key.kind and fault.key.ident in ("", editor.key.ident)
        where = _ITEM.sub("", fault.field)
        if (own or not editor.key.ident) and where in typed:
            beside[where] = fault.allowed
        else:
            general.append(f"{field_name(fault.field)}: {fault.value}: {fault.allowed}")
    again = _Again(base, typed, beside, general)
    return _shown(request, editor, again, status=UNPROCESSABLE)


@dataclass(frozen=True, slots=True)
class Choice:
    """One field to be settled between two versions."""

    path: str
    label: str
    before: str
    theirs: str
    ours: str
    ours_typed: str
    """As it is sent again; empty where we clear it."""


def _disputed(
    request: Asked, editor: Editor, typed: Mapping[str, str], conflict: Conflict
) -> HttpResponse:
    """Show both versions of every field that two have set, and the rest as it was typed."""
    dispute = conflict.disputes[0]
    choices = [_choice(clash, editor) for clash in dispute.clashes if clash.field]
    settled = {choice.path for choice in choices}
    parts = {part.key: part for part in standing_parts(editor.house, window=editor.key.ident)}
    page = {
        "editor": editor,
        "house": editor.house,
        "name": parts[Key("house")].body["name"],
        "part": name_of(editor.key, parts[editor.key].body) if editor.key in parts else "",
        "dispute": dispute,
        "choices": choices,
        "is_removed": any(not clash.field for clash in dispute.clashes),
        "kept": {
            PREFIX + path: text
            for path, text in _ours(dispute, typed).items()
            if path not in settled
        },
    }
    return render(request, "page/conflict.html", page, status=CONFLICT)


def _ours(dispute: Dispute, typed: Mapping[str, str]) -> dict[str, str]:
    """Give what was typed and differs from what the page showed: the rest stays as it now is."""
    stood = dispute.stood
    return {
        path: text for path, text in typed.items() if text.strip() != spoken(stood.get(path, ""))
    }


def _choice(clash: Clash, editor: Editor) -> Choice:
    nothing, texts = _("nothing"), dict(editor.choices.get(clash.field, ()))
    before, theirs, ours = (
        nothing if value is None else texts.get(spoken(value), spoken(value))
        for value in (clash.before, clash.theirs, clash.ours)
    )
    typed = "" if clash.ours is None else spoken(clash.ours)
    return Choice(clash.field, field_name(clash.field), before, theirs, ours, typed)
