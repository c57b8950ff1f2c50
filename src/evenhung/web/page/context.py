"""What every page is given besides what its view gives it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django.conf import settings

from evenhung.web.access.door import Access

if TYPE_CHECKING:
    from django.http import HttpRequest


def on_every_page(request: HttpRequest) -> dict[str, Any]:
    """Give who is asking, and whether the server is shared."""
    access: Access | None = getattr(request, "access", None)
    return {"access": access, "is_shared": settings.CONFIG.is_shared}
