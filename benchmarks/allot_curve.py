"""How the gap of a long solve closed: a table and a plot from what it said on the way.

usage: python benchmarks/allot_curve.py PICTURE.svg NAME=PROGRESS.txt [NAME=PROGRESS.txt ...]

A progress file is what `benchmarks/allot.py` wrote to standard error. Needs matplotlib, which
``requirements/bench.txt`` locks.
"""

from __future__ import annotations

import re
import sys
from pathlib import Path
from typing import NamedTuple

import matplotlib as mpl

mpl.use("svg")
from matplotlib import pyplot as plt

LINE = re.compile(r"\s*([\d.]+) s  bound ([\d.]+)  cost (\d+)$")
ROWS = 8
"""Lines of the table for each solve."""


class Point(NamedTuple):
    """What was known at a time."""

    seconds: float
    bound: float
    cost: int

    def gap(self, bound: float) -> float:
        """Give how far the cost lies above a bound, of the cost [%]."""
        return 100.0 * (self.cost - bound) / self.cost


def main() -> int:
    """Read, print, draw."""
    if len(sys.argv) < 3:
        print(__doc__, file=sys.stderr)
        return 2
    picture, solves = Path(sys.argv[1]), {}
    for named in sys.argv[2:]:
        name, _, path = named.partition("=")
        solves[name] = points_in(Path(path).read_text(encoding="utf-8"))
    print("| solve | s | cost | proved | gap of cost, % |")
    print("| --- | ---: | ---: | ---: | ---: |")
    for name, points in solves.items():
        step = max(1, (len(points) - 1) // (ROWS - 1))
        for point in [*points[:-1:step], points[-1]]:
            gap = point.gap(point.bound)
            print(
                f"| {name} | {point.seconds:.0f} | {point.cost:,} | {point.bound:,.0f} "
                f"| {gap:.3f} |"
            )
    draw(picture, solves)
    return 0


def points_in(text: str) -> list[Point]:
    """Give what a progress file says, from the first answer on."""
    found = (LINE.match(line) for line in text.splitlines())
    points = [Point(float(one[1]), float(one[2]), int(one[3])) for one in found if one]
    if not points:
        raise SystemExit("no line with a bound and a cost: not the progress of a solve")
    return points


def draw(path: Path, solves: dict[str, list[Point]]) -> None:
    """Draw the gap to the last bound over time, one line for each solve."""
    plt.rcParams.update({"font.size": 11, "svg.hashsalt": "evenhung", "svg.fonttype": "none"})
    figure, panel = plt.subplots(figsize=(7.2, 4.2))
    every: list[float] = []
    for (name, points), mark in zip(solves.items(), "osD^vP", strict=False):
        gaps = [point.gap(points[-1].bound) for point in points]
        seconds = [point.seconds for point in points]
        panel.step(seconds, gaps, where="post", marker=mark, markersize=4, label=name)
        every += gaps
    # Within a decade a logarithmic axis would have hardly a number on it.
    scale = "log" if max(every) > 10.0 * min(every) > 0.0 else "linear"
    panel.set(xlabel="seconds", ylabel="above the final bound, % of cost", yscale=scale)
    panel.yaxis.set_major_formatter("{x:g}")
    panel.yaxis.set_minor_formatter("")
    panel.set_xlim(left=0)
    if scale == "linear":
        panel.set_ylim(bottom=0)
    panel.grid(visible=True, alpha=0.3)
    panel.legend(frameon=False)
    figure.tight_layout()
    figure.savefig(path, metadata={"Date": None})
    plt.close(figure)


if __name__ == "__main__":
    sys.exit(main())
