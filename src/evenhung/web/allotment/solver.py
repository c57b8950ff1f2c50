"""What runs in the solver's own process: a survey comes in, progress and the answer go out.

One line of JSON at a time. The survey is the first line of the standard input. When that input
ends, the best answer so far is wanted: so a server that is gone leaves no solver behind.
"""

from __future__ import annotations

import json
import os
import sys
import threading
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from evenhung.allot.watch import Progress

EVERY_S = 0.5
"""Progress is told this often, at most [s]."""


def main() -> None:
    """Read what is asked, work it out, say how it goes and what came of it."""
    asked = json.loads(sys.stdin.buffer.readline())
    stopped = threading.Event()
    threading.Thread(target=_wait_for_the_end, args=(stopped,), daemon=True).start()
    try:
        _say({"answer": _answer(asked, stopped)})
    except BrokenPipeError:
        os._exit(1)  # nobody listens any more
    except Exception as fault:
        _say({"failed": f"{type(fault).__name__}: {fault}"})
        raise


def _answer(asked: dict[str, Any], stopped: threading.Event) -> dict[str, Any]:
    from evenhung.allot.watch import Watch
    from evenhung.plan import plan_house
    from evenhung.plan.allotment import allot_house, allotment_document
    from evenhung.survey import survey_from

    watch = Watch(asked["seconds"], stopped.is_set, _Teller().tell)
    return allotment_document(allot_house(plan_house(survey_from(asked["survey"])), watch))


def _wait_for_the_end(stopped: threading.Event) -> None:
    """Wait on the bare input: a reader of Python's would be held by this thread at the end."""
    while os.read(sys.stdin.fileno(), 4096):
        pass
    stopped.set()


def _say(message: dict[str, Any]) -> None:
    print(json.dumps(message, allow_nan=False), flush=True)  # noqa: T201 its line to the server


class _Teller:
    """Tells how far the answer is from what is proved."""

    def __init__(self) -> None:
        self._next = 0.0

    def tell(self, progress: Progress) -> None:
        """Tell it, unless it has only just been told."""
        if progress.cost is None or progress.bound is None or progress.seconds < self._next:
            return
        self._next = progress.seconds + EVERY_S
        gap = 100.0 * (progress.cost - progress.bound) / max(1.0, abs(progress.cost))
        _say({"gap_pct": round(max(0.0, gap), 4)})


if __name__ == "__main__":
    main()
