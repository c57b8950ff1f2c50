"""What is answered when something is wrong that nobody typed."""

from __future__ import annotations

import errno
import logging
import sys
from typing import TYPE_CHECKING

from django.conf import settings
from django.core.exceptions import TooManyFilesSent
from django.db import InterfaceError, OperationalError
from django.shortcuts import render
from django.utils.translation import gettext as _

if TYPE_CHECKING:
    from django.http import HttpRequest, HttpResponse

LOG = logging.getLogger("evenhung.web")

NO_ROOM = {errno.ENOSPC, errno.EDQUOT, errno.EFBIG}
NO_ROOM_IN_SQLITE = {"SQLITE_FULL", "SQLITE_IOERR_WRITE", "SQLITE_IOERR_FSYNC"}
NO_ROOM_IN_POSTGRESQL = {"53100"}
"""The code of `disk_full` (PostgreSQL, appendix A)."""


def _is_for_want_of_room(fault: BaseException) -> bool:
    if isinstance(fault, OSError):
        return fault.errno in NO_ROOM
    cause = fault.__cause__
    return (
        getattr(cause, "sqlite_errorname", None) in NO_ROOM_IN_SQLITE
        or getattr(cause, "sqlstate", None) in NO_ROOM_IN_POSTGRESQL
    )


def trouble(request: HttpRequest, status: int, said: str) -> HttpResponse:
    """Give a page that says what is wrong, without asking the database for anything."""
    return render(request, "page/trouble.html", {"said": said, "status": status}, status=status)


def stale_form(request: HttpRequest, reason: str = "") -> HttpResponse:
    """Answer a form that was not made by this server for this browser, or long ago."""
    LOG.warning("a form was refused: %s", reason)
    said = _("This page was open for too long. Go back, reload it, and save again.")
    return trouble(request, 403, said)


def not_found(request: HttpRequest, exception: Exception | None = None) -> HttpResponse:
    """Answer for an address that leads nowhere."""
    del exception
    return trouble(request, 404, _("There is no such page. It may have been removed."))


def forbidden(request: HttpRequest, exception: Exception | None = None) -> HttpResponse:
    """Answer whoever may not do this."""
    del exception
    return trouble(request, 403, _("This is not for you to see or to change."))


def bad_request(request: HttpRequest, exception: Exception | None = None) -> HttpResponse:
    """Answer what cannot be understood."""
    LOG.warning("a request was refused: %s", type(exception).__name__)
    if isinstance(exception, TooManyFilesSent):
        said = _("That is more than can be sent at once: at most %(most)d files.")
        return trouble(request, 400, said % {"most": settings.DATA_UPLOAD_MAX_NUMBER_FILES})
    return trouble(request, 400, _("What was sent could not be understood."))


def our_fault(request: HttpRequest) -> HttpResponse:
    """Answer for a full disk, a database that does not answer, or a fault of ours."""
    fault = sys.exc_info()[1]
    if fault is not None and _is_for_want_of_room(fault):
        said = _("The disk is full or failing, so nothing was saved. Make room, then save again.")
        return trouble(request, 507, said)
    if isinstance(fault, OperationalError | InterfaceError):
        said = _("The database does not answer, so nothing was saved. Try again in a moment.")
        return trouble(request, 503, said)
    said = _("A fault of ours, not of what you typed. Nothing of this page was saved.")
    return trouble(request, 500, said)
