"""A form that comes twice is done once: pressed twice, or sent again since its answer was lost.

Every page that is shown gives its forms a mark of their own, so what comes again under one mark
with the same in every field is the same press; it is led on to where the first one led. Where that
was is kept for a day, each in a small file: a thing of the day, so no database keeps it.
"""

from __future__ import annotations

import fcntl
import hashlib
import logging
import os
import time
from contextlib import suppress
from typing import TYPE_CHECKING

from django.conf import settings
from django.http import HttpResponseRedirect

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

    from django.http import HttpRequest, HttpResponse

LOG = logging.getLogger("evenhung.web")

MARK, FORGERY = "mark", "csrfmiddlewaretoken"
"""The fields that tell one showing of a form from the next.

The second is masked anew for every page, and changed at every log-in; what is typed on one page
and sent from a later one, because no answer came, brings the mark of the first.
"""
KEPT_S = 24 * 3600.0
"""How long it is kept where a form led [s]."""
LONGEST_ADDRESS = 65536


class Claim:
    """A hold on one form while it is done: whoever brings the same one meanwhile waits.

    The system frees it when its holder dies.

    Parameters
    ----------
    file
        The file that says where the form led; it is made where it is not there.
    """

    def __init__(self, file: Path) -> None:
        self._descriptor = os.open(file, os.O_RDWR | os.O_CREAT, 0o600)
        fcntl.flock(self._descriptor, fcntl.LOCK_EX)
        self.led_to = os.pread(self._descriptor, LONGEST_ADDRESS, 0).decode()
        """Where it led; empty where it was not done yet, or came to nothing."""

    def settle(self, response: HttpResponse) -> None:
        """Keep where it led and let go; what was not done may be sent again."""
        try:
            if isinstance(response, HttpResponseRedirect):
                os.pwrite(self._descriptor, response.url.encode(), 0)
        except OSError:  # it is done all the same, and that is what its answer says
            LOG.exception("where a form led is not kept")
        finally:
            self.let_go()

    def let_go(self) -> None:
        """Let whoever waits go on."""
        os.close(self._descriptor)


def done_once(
    answer: Callable[[HttpRequest], HttpResponse],
) -> Callable[[HttpRequest], HttpResponse]:
    """Do what a form asks for when it first comes; lead every other time to where that led."""

    def at_first(request: HttpRequest) -> HttpResponse:
        response = answer(request)
        claim: Claim | None = getattr(request, "claim", None)
        if claim is not None:
            claim.settle(response)
        return response

    at_first.process_view = _claimed  # type: ignore[attr-defined]
    return at_first


def _claimed(
    request: HttpRequest, view: Callable[..., HttpResponse], _args: object, _named: object
) -> HttpResponse | None:
    """Claim a form for this request, or lead it on; None where the view is to do it."""
    if request.method != "POST" or "HX-Request" in request.headers:
        return None
    if getattr(view, "is_open", False) or not request.POST.get(FORGERY):
        return None  # to log in twice is to log in twice
    folder = settings.CONFIG.folder.path / "once"
    folder.mkdir(mode=0o700, exist_ok=True)
    _forget_old(folder)
    claim = Claim(folder / _name_of(request))
    if claim.led_to:
        claim.let_go()
        return HttpResponseRedirect(claim.led_to)
    request.claim = claim  # type: ignore[attr-defined]
    return None


def _name_of(request: HttpRequest) -> str:
    """Give a name to a form as it was filled in, by whom, on one showing of its page."""
    digest = hashlib.sha256()
    for said in _said_in(request):
        digest.update(f"{len(said)}:".encode())
        digest.update(said)
    return digest.hexdigest()


def _said_in(request: HttpRequest) -> Iterator[bytes]:
    access = request.access  # type: ignore[attr-defined]
    yield repr((access.role, access.name, request.get_full_path())).encode()
    yield (request.POST.get(MARK) or request.POST[FORGERY]).encode()
    for name, texts in sorted(request.POST.lists()):
        if name not in (MARK, FORGERY):
            yield repr((name, texts)).encode()
    for name, files in sorted(request.FILES.lists()):
        for file in files:
            yield repr((name, file.name)).encode()
            yield from file.chunks()
            file.seek(0)


def _forget_old(folder: Path) -> None:
    oldest = time.time() - KEPT_S
    for kept in folder.iterdir():
        with suppress(FileNotFoundError):  # another has just forgotten it
            if kept.stat().st_mtime < oldest:
                kept.unlink()
