"""A whole ``pack``, process and all, against a ``plan`` of the same house, run in turn.

Targets: 20 windows in under 5 s, 200 in under 45 s. Every window differs, so that nothing is set
once and used twice. Seconds of the processor stand beside those of the clock, because a machine
that is busy with other things stretches the clock alone.
"""

from __future__ import annotations

import os
import resource
import subprocess
import sys
import tempfile
import time
from pathlib import Path

import tomli_w
from surveys import house_of

TARGETS_S = {20: 5.0, 200: 45.0}
ROUNDS = {20: 3, 200: 1}


def main() -> list[str]:
    """Pack two houses and give the figures as lines of Markdown."""
    lines = ["| windows | plan s | pack s | ratio | pack, processor s | target s |"]
    lines.append("| ---: | ---: | ---: | ---: | ---: | ---: |")
    with tempfile.TemporaryDirectory() as folder:
        for windows, target in TARGETS_S.items():
            survey = Path(folder) / f"{windows}.toml"
            survey.write_text(tomli_w.dumps(_varied(windows)), encoding="utf-8")
            sheets = str(Path(folder) / "sheets")
            commands = {
                "plan": ("plan", str(survey), "--json"),
                "pack": ("pack", str(survey), "-o", sheets, "--replace"),
            }
            least = dict.fromkeys(commands, (float("inf"), float("inf")))
            for _ in range(ROUNDS[windows]):
                for name, arguments in commands.items():
                    least[name] = min(least[name], _seconds(arguments))
            (plan, _), (pack, worked) = least["plan"], least["pack"]
            lines.append(
                f"| {windows} | {plan:.2f} | {pack:.1f} | {pack / plan:.0f} "
                f"| {worked:.1f} | {target:.0f} |"
            )
    peak = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / 1024
    return [*lines, "", f"Peak memory of the largest process, 200 windows: {peak:.0f} MiB."]


def _varied(windows: int) -> dict[str, object]:
    """Give so many windows, the cord of each ending elsewhere."""
    house = house_of(windows)
    for number, window in enumerate(house["window"]):
        for place in ("upper", "lower"):
            if "cord_end" in window.get(place, {}):
                window[place]["cord_end"] = f"{250 + number % 50} mm"
    return house


def _seconds(arguments: tuple[str, ...]) -> tuple[float, float]:
    """Give the seconds of a process by the clock and by the processor."""
    clean = {name: value for name, value in os.environ.items() if not name.startswith("PYTHON")}
    command = (sys.executable, "-m", "evenhung", *arguments)
    start, before = time.perf_counter(), resource.getrusage(resource.RUSAGE_CHILDREN)
    subprocess.run(command, env=clean, capture_output=True, check=True)
    elapsed, after = time.perf_counter() - start, resource.getrusage(resource.RUSAGE_CHILDREN)
    return elapsed, after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


if __name__ == "__main__":
    print("\n".join(main()))
