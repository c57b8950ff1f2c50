"""The solver in a process of its own: started, watched, stopped, found lost.

Nothing waits for it in a request. A thread of the server reads what it says and keeps its answer;
where that server is gone without a word, the run is lost and is said to be.
"""

from __future__ import annotations

import json
import os
import queue
import subprocess
import sys
import threading
from contextlib import suppress
from typing import TYPE_CHECKING, Any, NamedTuple

from django.db import IntegrityError, connection, transaction
from django.utils import timezone
from django.utils.translation import gettext as _

from evenhung.store.parts import record_of
from evenhung.survey import survey_from
from evenhung.web.allotment.models import Run
from evenhung.web.allotment.names import ids_by_name
from evenhung.web.records.latest import latest_change, standing_parts, survey_document

if TYPE_CHECKING:
    from typing import IO

    from evenhung.web.records.models import House

COMMAND = ("-I", "-m", "evenhung.web.allotment.solver")
"""What Python is started with; -I: no module of the folder we stand in is taken for ours."""
TICK_S = 0.3
"""How often it is looked whether somebody wants it to stop [s]."""


class Busy(Exception):
    """Another allotment is being worked out."""


def begin_run(house: House, *, seconds: int | None, who: str) -> Run:
    """Start working out the allotment of a house as it now stands.

    Parameters
    ----------
    house
        The house.
    seconds
        How long it may take; None for as long as the effort takes.
    who
        The name of whoever asks.

    Raises
    ------
    Busy
        Where another one is at work: there is one at a time.
    """
    change = latest_change(house)
    parts = [part for part in standing_parts(house) if record_of(part.key.kind)]
    document = survey_document(parts)
    try:
        with transaction.atomic():
            run = Run.objects.create(
                house=house,
                change=change,
                names_text=json.dumps(ids_by_name(survey_from(document))),
                seconds=seconds,
                who=who,
                started=timezone.now(),
                watcher=os.getpid(),
            )
    except IntegrityError:
        raise Busy from None
    asked = json.dumps({"survey": document, "seconds": seconds}).encode()
    threading.Thread(target=_watch, args=(run.pk, asked), daemon=True).start()
    return run


def stop_run(house: House) -> None:
    """Ask for the best answer so far; the watcher passes it on."""
    Run.objects.filter(house=house, state=Run.RUNNING).update(is_stopping=True)


def last_run(house: House) -> Run | None:
    """Give the last allotment of a house, marked as lost if nobody watches it any more."""
    run = Run.objects.filter(house=house).first()
    if run is not None and run.is_running and not _is_alive(run.watcher):
        _mark_lost(Run.objects.filter(pk=run.pk))
        run.refresh_from_db()
    return run


def last_answered(house: House) -> Run | None:
    """Give the last allotment of a house that came to an answer, whatever has been tried since."""
    return Run.objects.filter(house=house, state=Run.DONE).first()


def mark_lost() -> int:
    """Mark what a server that is no longer there was working out; give how many there were."""
    return _mark_lost(Run.objects.all())


def _mark_lost(runs: Any) -> int:
    marked: int = runs.filter(state=Run.RUNNING).update(state=Run.LOST, ended=timezone.now())
    return marked


def _is_alive(process: int) -> bool:
    try:
        os.kill(process, 0)
    except ProcessLookupError:
        return False
    except PermissionError:
        return True
    return True


class _Ended(NamedTuple):
    """How a run ended."""

    state: str
    reason: str = ""
    answer_text: str = ""


def _watch(number: int, asked: bytes) -> None:
    """Start the solver and follow it; whatever happens, say how it ended."""
    ended = _Ended(Run.FAILED, _("the server could not follow it"))
    try:
        process = subprocess.Popen(  # noqa: S603 our own program, with arguments of ours
            [sys.executable, *COMMAND], stdin=subprocess.PIPE, stdout=subprocess.PIPE
        )
        with process:
            ended = _followed(number, process, asked)
    except OSError as fault:
        ended = _Ended(Run.FAILED, str(fault))
    finally:
        Run.objects.filter(pk=number, state=Run.RUNNING).update(
            **ended._asdict(), ended=timezone.now()
        )
        connection.close()


def _followed(number: int, process: subprocess.Popen[bytes], asked: bytes) -> _Ended:
    """Tell the solver what is asked; keep its progress; give how it ended."""
    if process.stdin is None or process.stdout is None:
        raise OSError("the solver has no pipes")
    said: queue.Queue[bytes] = queue.Queue()
    threading.Thread(target=_read, args=(process.stdout, said), daemon=True).start()
    with suppress(BrokenPipeError):  # then it has ended, and its end says why
        process.stdin.write(asked + b"\n")
        process.stdin.flush()
    run, ended, line = Run.objects.filter(pk=number), None, b"begun"
    while line:
        with suppress(queue.Empty):
            line = said.get(timeout=TICK_S)
            ended = _heard(run, line) or ended
        if not process.stdin.closed and not run.filter(is_stopping=False).exists():
            with suppress(BrokenPipeError):
                process.stdin.close()
    return ended or _Ended(Run.FAILED, _without_a_word(process.wait()))


def _read(output: IO[bytes], said: queue.Queue[bytes]) -> None:
    """Pass on each line, and an empty one at the end."""
    for line in output:
        said.put(line)
    said.put(b"")


def _heard(run: Any, line: bytes) -> _Ended | None:
    """Take in one line of the solver; give how it ended, once it says so."""
    if not line:
        return None
    try:
        message = json.loads(line)
    except ValueError:
        return _Ended(Run.FAILED, _("it said what cannot be read"))
    if "answer" in message:
        return _Ended(Run.DONE, answer_text=json.dumps(message["answer"], ensure_ascii=False))
    if "failed" in message:
        return _Ended(Run.FAILED, str(message["failed"]))
    run.update(gap_pct=message["gap_pct"])
    return None


def _without_a_word(code: int) -> str:
    if code < 0:
        return _("it was ended by the machine, signal %(number)d") % {"number": -code}
    return _("it ended without an answer, code %(number)d") % {"number": code}
