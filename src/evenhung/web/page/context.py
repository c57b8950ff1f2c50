"""What every page is given besides what its view gives it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django.conf import settings
from django.utils.translation import gettext as _

from evenhung.web.access.door import Access

if TYPE_CHECKING:
    from django.http import HttpRequest


def on_every_page(request: HttpRequest) -> dict[str, Any]:
    """Give who is asking, whether the server is shared, and what has just been saved."""
    access: Access | None = getattr(request, "access", None)
    return {
        "access": access,
        "is_shared": settings.CONFIG.is_shared,
        "just_saved": _just_saved(request),
    }


def _just_saved(request: HttpRequest) -> str:
    """Say that a save has led to this page; the address tells, and the browser clears it."""
    if "saved" not in request.GET:
        return ""
    also = request.GET.get("also", "")
    if not also:
        return _("Saved.")
    said = _("Saved. Others had changed this meanwhile, and it is kept as well: %(also)s")
    return said % {"also": also}
