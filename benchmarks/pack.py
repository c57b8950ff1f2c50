"""A whole ``pack``, process and all, against a ``plan`` of the same house, run in turn.

Targets: 20 windows in under 5 s, 200 in under 45 s. Every window differs, so that nothing is set
once and used twice. Seconds of the processor stand beside those of the clock, because a machine
that is busy with other things stretches the clock alone. Each run is told as it is done; sizes may
be given, as in ``benchmarks/pack.py 20``. Memory is that of all processes at once,
looked at ten times a second.
"""

from __future__ import annotations

import os
import resource
import subprocess
import sys
import tempfile
import time
from contextlib import suppress
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

import tomli_w
from surveys import house_of

if TYPE_CHECKING:
    from collections.abc import Iterable

TARGETS_S = {20: 5.0, 200: 45.0}
ROUNDS = {20: 3, 200: 1}
TARGET_MIB = 1536
EVERY_S = 0.1


class Cost(NamedTuple):
    """What a command costs."""

    seconds: float
    worked: float
    """Seconds of the processor."""
    mib: float
    """The most memory that its processes hold together."""


HEAD = (
    "| windows | plan s | pack s | ratio | pack, processor s | target s | most MiB |",
    "| ---: | ---: | ---: | ---: | ---: | ---: | ---: |",
)


def main(sizes: Iterable[int] = tuple(TARGETS_S)) -> list[str]:
    """Pack houses and give the figures as lines of Markdown; each row is told as it is done."""
    rows = []
    with tempfile.TemporaryDirectory() as folder:
        for windows in sizes:
            row = _row(windows, Path(folder))
            print(row, file=sys.stderr, flush=True)
            rows.append(row)
        drawn = [_drawn(Path(folder))] if max(TARGETS_S) in sizes else []
    return [*HEAD, *rows, "", *drawn]


def _row(windows: int, folder: Path) -> str:
    """Give the row of one house."""
    survey = folder / f"{windows}.toml"
    survey.write_text(tomli_w.dumps(_varied(windows)), encoding="utf-8")
    packed = ("pack", str(survey), "-o", str(folder / "sheets"), "--replace")
    plan, pack = _least_in_turn(("plan", str(survey), "--json"), packed, ROUNDS.get(windows, 1))
    target = TARGETS_S.get(windows)
    return (
        f"| {windows} | {plan.seconds:.2f} | {pack.seconds:.1f} "
        f"| {pack.seconds / plan.seconds:.0f} | {pack.worked:.1f} "
        f"| {'' if target is None else f'{target:.0f}'} | {pack.mib:.0f} |"
    )


def _drawn(folder: Path) -> str:
    """Say what the drawings of the largest house cost."""
    survey = folder / f"{max(TARGETS_S)}.toml"
    drawn = _cost(("pack", str(survey), "-o", str(folder / "sheets"), "--replace", "--drawings"))
    said = f"With --drawings, {max(TARGETS_S)} windows: {drawn.seconds:.1f} s, {drawn.mib:.0f} MiB."
    return f"{said} Target: under {TARGET_MIB} MiB without."


def _least_in_turn(
    first: tuple[str, ...], second: tuple[str, ...], rounds: int
) -> tuple[Cost, Cost]:
    """Run two commands in turn and give the quickest run of each."""
    costs = []
    for number in range(rounds):
        costs.append((_cost(first), _cost(second)))
        plan, pack = costs[-1]
        print(
            f"{Path(first[1]).stem} windows, run {number + 1} of {rounds}: "
            f"plan {plan.seconds:.2f} s, pack {pack.seconds:.1f} s, of the processor "
            f"{pack.worked:.1f} s, {pack.mib:.0f} MiB",
            file=sys.stderr,
            flush=True,
        )
    firsts, seconds = zip(*costs, strict=True)
    return min(firsts), min(seconds)


def _varied(windows: int) -> dict[str, object]:
    """Give so many windows, the cord of each ending elsewhere, and no deadline that is too soon."""
    house = house_of(windows)
    del house["house"]["programme"]["deadline"]
    for number, window in enumerate(house["window"]):
        for place in ("upper", "lower"):
            if "cord_end" in window.get(place, {}):
                window[place]["cord_end"] = f"{250 + number % 50} mm"
    return house


def _cost(arguments: tuple[str, ...]) -> Cost:
    """Run a command and give what it costs."""
    clean = {name: value for name, value in os.environ.items() if not name.startswith("PYTHON")}
    command = (sys.executable, "-m", "evenhung", *arguments)
    start, before = time.perf_counter(), resource.getrusage(resource.RUSAGE_CHILDREN)
    most = 0
    with tempfile.TemporaryFile() as said:
        process = subprocess.Popen(command, env=clean, stdout=said, stderr=said)
        while process.poll() is None:
            most = max(most, _held_kib(process.pid))
            with suppress(subprocess.TimeoutExpired):
                process.wait(EVERY_S)
        if process.returncode:
            said.seek(0)
            raise SystemExit(said.read().decode())
    elapsed, after = time.perf_counter() - start, resource.getrusage(resource.RUSAGE_CHILDREN)
    worked = after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime
    return Cost(elapsed, worked, most / 1024)


def _held_kib(process: int) -> int:
    """Give the memory that a process and its children hold now [KiB]; 0 for one that is gone."""
    with suppress(FileNotFoundError, ProcessLookupError):
        status = Path(f"/proc/{process}/status").read_text(encoding="ascii")
        own = [line.split()[1] for line in status.splitlines() if line.startswith("VmRSS:")]
        tasks = Path(f"/proc/{process}/task").glob("*/children")
        children = [int(one) for task in tasks for one in task.read_text(encoding="ascii").split()]
        return sum(map(int, own)) + sum(map(_held_kib, children))
    return 0


if __name__ == "__main__":
    print("\n".join(main([int(one) for one in sys.argv[1:]] or tuple(TARGETS_S))))
