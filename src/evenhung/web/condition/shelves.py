"""The lists of what was found of a window and of how it behaves."""

from __future__ import annotations

from django.utils.translation import gettext_lazy as _

from evenhung.survey.finding import Finding, Symptom
from evenhung.survey.members import PARTS, SEEN, TREATMENTS
from evenhung.web.page.shelf import Narrowed, Shelf
from evenhung.web.programme.needed import NEEDED

FINDINGS = Shelf(
    "findings",
    "window",
    "finding",
    Finding,
    _("What was found"),
    _("a finding"),
    {
        _("What was seen"): ("part", "seen", "grade", "moisture_pct", "note"),
        _("Where along the part"): ("measured_from", "begins", "length", "depth"),
        _("Which pane, of glass and putty"): ("column", "row", "historic"),
        _("What shall be done, if not as proposed"): ("treatment", "slope", "bears_load"),
    },
    narrowed={
        "seen": Narrowed("part", {name: SEEN[part.kind] for name, part in PARTS.items()}),
        "treatment": Narrowed(
            "part", {name: TREATMENTS[part.kind] for name, part in PARTS.items()}
        ),
        "measured_from": Narrowed("part", {name: part.ends for name, part in PARTS.items()}),
    },
    photos="photo",
)
SYMPTOMS = Shelf(
    "symptoms",
    "window",
    "symptom",
    Symptom,
    _("How it behaves"),
    _("a symptom"),
    {_("How it behaves"): ("what", "sash", "when", "note")},
)
SHELVES = {shelf.slug: shelf for shelf in (FINDINGS, SYMPTOMS)}
"""What was found, by the word in their address."""

LISTS = {**SHELVES, NEEDED.slug: NEEDED}
"""Every list of a window, by the word in its address."""
