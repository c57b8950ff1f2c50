"""The allotment beside its peers: exact ones, general solvers, a joiner's hand and a greedy one.

usage: python benchmarks/allot_peers.py [--sizes 10 40] [--seeds 1 2] [--scarce] [--seconds 60]

Each runs alone, in a process of its own and in turn, on the same instances. Every answer goes
through ``tests/allot/formal/verify.py``. Prints a table in Markdown and writes a plot beside the
other pictures. Needs what ``requirements/bench.txt`` locks, besides Evenhung's own environment.
"""

from __future__ import annotations

import argparse
import multiprocessing
import sys
import time
from pathlib import Path
from typing import Any, NamedTuple

ROOT = Path(__file__).resolve().parent.parent
FORMAL = ROOT / "tests" / "allot" / "formal"
PICTURE = ROOT / "docs" / "pictures" / "allot-peers.svg"

PEERS = {
    "ours": ("peers.ours", "solve"),
    "pair enumeration": ("peers.enumeration", "solve"),
    "compact, HiGHS": ("peers.compact", "by_highs"),
    "compact, CP-SAT": ("peers.compact", "by_cp_sat"),
    "by hand": ("peers.simple", "by_hand"),
    "greedy": ("peers.simple", "greedy"),
}
SIMPLE = ("by hand", "greedy")
EXACT = ("pair enumeration", "compact, HiGHS", "compact, CP-SAT")
MOST_SASHES = {"pair enumeration": 60}
"""Beyond so many sashes a peer is not started: it would fill the memory."""


class Run(NamedTuple):
    """What one peer made of one instance."""

    peer: str
    cost: int | None
    """None where there was no answer in the time."""
    unserved: int
    bound: float | None
    status: str
    seconds: float
    """By the clock on the wall."""
    own_seconds: float
    """Processor time of all its threads: what to compare where others use the machine too."""


def main() -> int:
    """Run all in turn, print the table, draw the plot."""
    parser = argparse.ArgumentParser(description="Run the allotment beside its peers.")
    parser.add_argument("--sizes", type=int, nargs="+", default=[10, 40])
    parser.add_argument("--seeds", type=int, nargs="+", default=[1])
    parser.add_argument("--scarce", action="store_true", help="also the scarce instances")
    parser.add_argument("--seconds", type=float, default=60.0, help="time for each")
    parser.add_argument("--peers", nargs="+", default=list(PEERS), choices=list(PEERS))
    parser.add_argument("--picture", type=Path, default=PICTURE)
    asked = parser.parse_args()
    kinds = [False, True] if asked.scarce else [False]
    cases = [(size, seed, kind) for size in asked.sizes for kind in kinds for seed in asked.seeds]
    rows: list[tuple[str, float, Run, int]] = []
    print("| instance | who | cost | proved | gap of served, % | status | s | own s | to ours |")
    print("| --- | --- | ---: | ---: | ---: | --- | ---: | ---: | ---: |")
    for size, seed, scarce in cases:
        name = f"{size:,} {'scarce' if scarce else 'plain'} {seed}"
        runs = [_run(peer, size, seed, scarce, asked.seconds) for peer in asked.peers]
        runs = [run for run in runs if run is not None]
        best = max(run.bound for run in runs if run.bound is not None)
        for run in runs:
            gap = _gap(run, best)
            rows.append((name, gap, run, size))
            print(_line(name, run, gap, runs[0].own_seconds), flush=True)
        print(_ratios(name, runs), file=sys.stderr, flush=True)
    from peers.picture import draw

    draw(asked.picture, [(size, run.peer, run.own_seconds, gap) for _, gap, run, size in rows])
    return 0


def _run(peer: str, size: int, seed: int, scarce: bool, seconds: float) -> Run | None:
    """Run one peer in a fresh process, so that none warms another's libraries or memory."""
    if size > MOST_SASHES.get(peer, size):
        return None
    with multiprocessing.get_context("spawn").Pool(1) as pool:
        return pool.apply(_timed, (peer, size, seed, scarce, seconds))


def _timed(peer: str, size: int, seed: int, scarce: bool, seconds: float) -> Run:
    import importlib

    sys.path.insert(0, str(FORMAL))
    make_instance, verify = (importlib.import_module(name) for name in ("make_instance", "verify"))
    module, function = PEERS[peer]
    solve = getattr(importlib.import_module(module), function)
    instance: dict[str, Any] = make_instance.make(size, seed, scarce)
    start, own_start = time.perf_counter(), time.process_time()
    found = solve(instance, seconds)
    taken, own = time.perf_counter() - start, time.process_time() - own_start
    if found is None:
        return Run(peer, None, 0, None, "none in time", taken, own)
    checked = verify.check(instance, {"sashes": found.sashes})
    assert checked["feasible"], (peer, checked["errors"])
    bound = found.bound
    if found.prices is not None:
        bound = max(found.bound or 0, verify.lower_bound(instance, found.prices))
    return Run(peer, checked["cost"], checked["unserved"], bound, found.status, taken, own)


def _gap(run: Run, bound: float) -> float:
    """Give the difference from the best bound over the cost of the served sashes, in percent."""
    if run.cost is None:
        return float("nan")
    return 100.0 * (run.cost - bound) / max(1, run.cost - 50_000 * run.unserved)


def _line(name: str, run: Run, gap: float, ours: float) -> str:
    cost = "" if run.cost is None else f"{run.cost:,}"
    bound = "" if run.bound is None else f"{run.bound:,.0f}"
    off = "" if run.cost is None else f"{gap:.3f}"
    ratio = run.own_seconds / ours
    return (
        f"| {name} | {run.peer} | {cost} | {bound} | {off} | {run.status} "
        f"| {run.seconds:.2f} | {run.own_seconds:.2f} | {ratio:.2f} |"
    )


def _ratios(name: str, runs: list[Run]) -> str:
    """Say how ours compares with the fastest exact peer and the better simple procedure."""
    ours = runs[0]
    exact = [run for run in runs if run.peer in EXACT and run.status == "optimal"]
    simple = [run for run in runs if run.peer in SIMPLE and run.cost is not None]
    said = [name]
    if exact:
        fastest = min(exact, key=lambda run: run.own_seconds)
        said.append(f"{fastest.own_seconds / ours.own_seconds:.1f} times as fast as {fastest.peer}")
    if simple and ours.cost is not None:
        better = min(simple, key=lambda run: run.cost or 0)
        said.append(f"{100 * (1 - ours.cost / (better.cost or 1)):.1f} % under {better.peer}")
    return ": ".join([said[0], ", ".join(said[1:])])


if __name__ == "__main__":
    sys.exit(main())
