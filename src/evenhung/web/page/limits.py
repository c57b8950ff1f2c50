"""How much may be sent at once: more is refused before it is read."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from django.conf import settings
from django.utils.translation import gettext as _

from evenhung.web.page.trouble import trouble

if TYPE_CHECKING:
    from collections.abc import Callable

    from django.http import HttpRequest, HttpResponse

MEGABYTE = 1_000_000
MOST_WITH_FILES = {"photos": 40 * MEGABYTE, "findings": 40 * MEGABYTE, "bring": 500 * MEGABYTE}
"""By the last word of the address, what may be sent there where files are taken."""
ITEM = re.compile(r"/(?:new|\d+)$")
"""What ends the address of one item of a list, after the list's own."""


def refuse_what_is_too_large(
    answer: Callable[[HttpRequest], HttpResponse],
) -> Callable[[HttpRequest], HttpResponse]:
    """Look at how much is announced, and answer 413 instead of reading it."""

    def limited(request: HttpRequest) -> HttpResponse:
        announced = request.META.get("CONTENT_LENGTH") or "0"
        last_word = ITEM.sub("", request.path.rstrip("/")).rpartition("/")[2]
        most = MOST_WITH_FILES.get(last_word, settings.DATA_UPLOAD_MAX_MEMORY_SIZE)
        if not announced.isdecimal() or int(announced) > most:
            said = _("That is more than can be sent at once: at most %(most)d MB here.")
            return trouble(request, 413, said % {"most": most // MEGABYTE})
        return answer(request)

    return limited
