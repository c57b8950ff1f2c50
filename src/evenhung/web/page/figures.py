"""Figures on pages: both systems, the house's own first, and the other where a finger rests."""

from __future__ import annotations

import math
from datetime import UTC, datetime
from typing import TYPE_CHECKING

from django import template
from django.utils.html import format_html
from django.utils.translation import gettext as _

from evenhung.quantities import print_length, print_mass
from evenhung.sheets.kept import kept_pct

if TYPE_CHECKING:
    from collections.abc import Callable
    from decimal import Decimal

    from django.utils.safestring import SafeString

    from evenhung.plan.repair.fabric import Kept
    from evenhung.quantities.printing import System

register = template.Library()


@register.filter
def as_mass(kg: float | None, system: System) -> SafeString | str:
    """Write a mass [kg] in one system, with the other to be shown on hover or a long press."""
    return _both(kg, system, print_mass)


@register.filter
def as_length(mm: float | None, system: System) -> SafeString | str:
    """Write a length [mm] in one system, with the other to be shown on hover or a long press."""
    return _both(mm, system, print_length)


@register.filter
def mass_alone(kg: float | None, system: System) -> str:
    """Write a mass [kg] in one system, where the other stands beside it."""
    return "–" if kg is None or math.isnan(kg) else print_mass(kg, system)


@register.filter
def length_alone(mm: float | None, system: System) -> str:
    """Write a length [mm] in one system, where the other stands beside it."""
    return "–" if mm is None or math.isnan(mm) else print_length(mm, system)


@register.filter
def as_money(amount: Decimal | None) -> str:
    """Write an amount of money, its thousands set apart by a space that does not break.

    Examples
    --------
    >>> from decimal import Decimal
    >>> as_money(Decimal("2280.80"))
    '2\u202f280.80'
    """
    return "–" if amount is None else f"{amount:,.2f}".replace(",", "\N{NARROW NO-BREAK SPACE}")


@register.filter
def as_source(source: str) -> str:
    """Write where a note comes from so that it is not read as the end of the note.

    Examples
    --------
    >>> as_source("survey")
    '[from the survey]'
    """
    return f"[{_('from the survey') if source == 'survey' else source}]"


@register.filter
def as_share(kept: Kept) -> str:
    """Write how much of something old is kept, in per cent [pct], as its drawing says it."""
    return kept_pct(kept)


@register.filter
def moment(when: datetime | None) -> SafeString | str:
    """Write a moment in UTC, which the page turns into the time where its reader is."""
    if when is None:
        return ""
    written = when.astimezone(UTC)
    return format_html(
        '<time datetime="{}">{} UTC</time>', written.isoformat(), f"{written:%d %b %Y %H:%M}"
    )


def _both(
    value: float | None, system: System, printed: Callable[[float, System], str]
) -> SafeString | str:
    if value is None or math.isnan(value):
        return "–"
    other: System = "metric" if system == "imperial" else "imperial"
    return format_html(
        '<data class="figure" value="{}" title="{}" tabindex="0">{}</data>',
        round(value, 6),
        printed(value, other),
        printed(value, system),
    )
