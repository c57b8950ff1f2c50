"""Solve an instance of the formal problem and write a solution with prices that anyone can check.

usage: python benchmarks/allot.py INSTANCE.json SOLUTION.json [--seconds S [--own-time]]

``tests/allot/formal/make_instance.py`` documents both forms and makes instances;
``tests/allot/formal/verify.py`` certifies solutions. Progress goes to standard error; Ctrl-C writes
the best answer so far. Standard output has one line of ours and nothing else: what the solver
library may print there, once in a while, is sent after the progress.
"""

from __future__ import annotations

import argparse
import json
import os
import signal
import sys
import threading
import time
from pathlib import Path
from typing import TYPE_CHECKING

from evenhung.allot.form import problem_of, solution_of
from evenhung.allot.memory import ALLOWED
from evenhung.allot.solve import allot
from evenhung.allot.watch import Watch
from evenhung.errors import InvalidInstance

if TYPE_CHECKING:
    from evenhung.allot.watch import Progress

EVERY_SECONDS = 1.0


def main() -> int:
    """Read, solve, write."""
    parser = argparse.ArgumentParser(description="Solve an instance of the formal problem.")
    parser.add_argument("instance", type=Path)
    parser.add_argument("solution", type=Path)
    parser.add_argument("--seconds", type=float, help="time allowed; unset: a set effort")
    parser.add_argument(
        "--own-time",
        action="store_true",
        help="count this process's own processor time, where others use the machine too",
    )
    parser.add_argument("--memory", type=float, help="GiB that may be taken")
    parser.add_argument("--rounds", type=int, help="effort: how often the search covers all")
    arguments = parser.parse_args()
    try:
        problem = problem_of(json.loads(arguments.instance.read_text(encoding="utf-8")))
    except InvalidInstance as error:
        print(error, file=sys.stderr)
        return 2
    output = os.fdopen(os.dup(1), "w")
    os.dup2(2, 1)
    stopped = threading.Event()
    signal.signal(signal.SIGINT, lambda *_: stopped.set())
    kind = OwnTime if arguments.own_time else Watch
    watch = kind(arguments.seconds, stopped.is_set, Teller().tell)
    rounds = arguments.rounds or (1_000_000 if arguments.seconds else 20)
    memory = ALLOWED if arguments.memory is None else int(arguments.memory * (1 << 30))
    try:
        answer = allot(problem, watch, rounds=rounds, memory=memory)
    except InvalidInstance as error:
        print(error, file=sys.stderr)
        return 2
    arguments.solution.write_text(json.dumps(solution_of(answer)), encoding="utf-8")
    print(
        f"{answer.status}: cost {answer.cost}, bound {answer.bound}, {answer.effort}", file=output
    )
    return 0


class OwnTime(Watch):
    """A watch that counts the processor time of this process."""

    @property
    def seconds(self) -> float:
        """Time spent since the process began."""
        return time.process_time()


class Teller:
    """Prints progress, but not too often."""

    def __init__(self) -> None:
        self._last = 0.0

    def tell(self, progress: Progress) -> None:
        """Print one line."""
        if progress.seconds - self._last >= EVERY_SECONDS:
            self._last = progress.seconds
            print(
                f"{progress.seconds:7.1f} s  bound {progress.bound}  cost {progress.cost}",
                file=sys.stderr,
            )


if __name__ == "__main__":
    sys.exit(main())
