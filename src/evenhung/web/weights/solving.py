"""The solver in a process of its own: started, watched, stopped, found lost.

The process is ``evenhung allot``, told the survey on its standard input. A thread of ours reads its
progress and keeps the answer; nothing waits for it in a request.
"""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
import threading
import time
from contextlib import suppress
from typing import TYPE_CHECKING

from django.db import IntegrityError, connection, transaction
from django.utils import timezone
from django.utils.translation import gettext as _

from evenhung.store.parts import record_of
from evenhung.survey import survey_from, written_survey
from evenhung.web.records.latest import latest_change, standing_parts, survey_document
from evenhung.web.weights.models import Solve

if TYPE_CHECKING:
    from typing import IO

    from evenhung.web.records.models import House

COMMAND = ("-m", "evenhung", "allot", "-", "--json")
"""What Python is started with; ``--seconds`` and a number follow."""
SECONDS = (10, 60, 300)
"""How long one may let it work."""


GRACE_S = 0.5
"""How long the answer of a process that has ended may take to be kept."""


class Busy(Exception):
    """Another allotment is being worked out."""


def begin_solve(house: House, *, seconds: int, who: str) -> Solve:
    """Start working out the allotment of a house as it now stands.

    Parameters
    ----------
    house
        The house.
    seconds
        How long it may work.
    who
        The name of whoever asks.

    Raises
    ------
    Busy
        Where another one is at work: there is one at a time.
    """
    parts = [part for part in standing_parts(house) if record_of(part.key.kind)]
    survey = written_survey(survey_from(survey_document(parts)))
    try:
        with transaction.atomic():
            solve = Solve.objects.create(
                house=house, change=latest_change(house), who=who, started=timezone.now()
            )
    except IntegrityError:
        raise Busy from None
    process = subprocess.Popen(  # noqa: S603 our own program, with arguments of ours
        [sys.executable, *COMMAND, "--seconds", str(seconds)],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
    )
    Solve.objects.filter(pk=solve.pk).update(process=process.pid)
    threading.Thread(target=_watch, args=(solve.pk, process, survey), daemon=True).start()
    return solve


def stop_solve(solve: Solve) -> None:
    """Ask for the best answer so far: the process gives it and ends."""
    if solve.state == Solve.RUNNING and solve.process:
        with suppress(ProcessLookupError):
            os.kill(solve.process, signal.SIGINT)


def last_solve(house: House) -> Solve | None:
    """Give the last allotment of a house, as it is kept."""
    return Solve.objects.filter(house=house).first()


def standing_solve(house: House) -> Solve | None:
    """Give the last allotment of a house, marked as lost if its process is gone without a word."""
    solve = last_solve(house)
    if solve is not None and solve.state == Solve.RUNNING and not _is_alive(solve.process):
        time.sleep(GRACE_S)  # its answer may be on its way
        Solve.objects.filter(pk=solve.pk, state=Solve.RUNNING).update(
            state=Solve.LOST, ended=timezone.now()
        )
        solve.refresh_from_db()
    return solve


def _is_alive(process: int | None) -> bool:
    if process is None:  # it is only being started
        return True
    try:
        os.kill(process, 0)
    except ProcessLookupError:
        return False
    return True


def mark_lost() -> int:
    """Mark what a server that is no longer there was working out; give how many there were."""
    found = Solve.objects.filter(state=Solve.RUNNING)
    return found.update(state=Solve.LOST, ended=timezone.now())


def _watch(number: int, process: subprocess.Popen[bytes], survey: bytes) -> None:
    """Feed the process, keep its progress and its answer; whatever happens, say how it ended."""
    said: list[str] = []
    reader = threading.Thread(target=_read_progress, args=(number, process.stderr, said))
    try:
        reader.start()
        answer = _answer_of(process, survey)
        reader.join()
        _end(number, process.wait(), answer, said)
    finally:
        connection.close()


def _answer_of(process: subprocess.Popen[bytes], survey: bytes) -> bytes:
    if process.stdin is None or process.stdout is None:
        raise RuntimeError("the solver has no pipes")
    with suppress(BrokenPipeError), process.stdin as told:
        told.write(survey)
    with process.stdout as answer:
        return answer.read()


def _read_progress(number: int, progress: IO[bytes] | None, said: list[str]) -> None:
    if progress is None:
        return
    try:
        with progress:
            for line in progress:
                said.append(line.decode(errors="replace").strip())
                Solve.objects.filter(pk=number, state=Solve.RUNNING).update(says=said[-1][:500])
    finally:
        connection.close()


def _end(number: int, code: int, answer: bytes, said: list[str]) -> None:
    """Keep how it ended, unless it has been marked as lost meanwhile."""
    kept = {"state": Solve.FAILED, "says": said[-1][:500] if said else _("it gave no answer")}
    if code == 0:
        with suppress(ValueError):
            json.loads(answer)
            kept = {"state": Solve.DONE, "says": "", "text": answer.decode()}
    Solve.objects.filter(pk=number, state=Solve.RUNNING).update(**kept, ended=timezone.now())
