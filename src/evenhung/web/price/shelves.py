"""The lists that a price is made with."""

from __future__ import annotations

from django.utils.translation import gettext_lazy as _

from evenhung.plan.work import UNITS
from evenhung.survey.hours import Rate
from evenhung.survey.price import Hand, Material, Option
from evenhung.web.page.shelf import Shelf

OPERATIONS = [(one, one) for one in UNITS]
"""What can be done to a window, in the order it is done."""

CREW = Shelf(
    "crew",
    "house",
    "price.crew",
    Hand,
    _("Crew"),
    _("one of the crew"),
    {_("Who works, and for what"): ("who", "count", "rate")},
)
HOURS = Shelf(
    "hours",
    "house",
    "rate",
    Rate,
    _("Own hours"),
    _("an operation"),
    {
        _("What is done"): ("operation", "note"),
        _("Hours of one person, for one of it, a metre or a square metre"): (
            "hours.least",
            "hours.likely",
            "hours.most",
        ),
    },
    {"operation": OPERATIONS},
)
MATERIALS = Shelf(
    "materials",
    "house",
    "material",
    Material,
    _("Prices of materials"),
    _("a material"),
    {_("As it is bought"): ("name", "per", "price")},
)
OPTIONS = Shelf(
    "options",
    "house",
    "price.option",
    Option,
    _("Options"),
    _("an option"),
    {
        _("What may be had besides"): ("name",),
        _("At a price of its own"): ("price",),
        _("Or reckoned by what is done"): ("operation", "quantity"),
    },
    {"operation": OPERATIONS},
)
SHELVES = {shelf.slug: shelf for shelf in (CREW, HOURS, MATERIALS, OPTIONS)}
"""By the word in their address."""
