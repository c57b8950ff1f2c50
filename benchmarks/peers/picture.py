"""The plot of a run beside peers: how far off, and how long."""

from __future__ import annotations

import math
from pathlib import Path

import matplotlib as mpl

mpl.use("svg")
from matplotlib import pyplot as plt

MARKS = "osD^vP"
LEAST_GAP = 0.001
"""Where an answer at the bound is drawn, for zero has no place on the scale [%]."""


def draw(path: Path, points: list[tuple[int, str, float, float]]) -> None:
    """Draw a panel for each size: seconds across, gap of served upwards, a mark for each peer.

    Parameters
    ----------
    path
        Where the picture goes; its ending says in what form.
    points
        Sashes, peer, seconds and gap of the served [%]; a gap that is not a number is left out.
    """
    sizes = sorted({size for size, *_ in points})
    peers = list(dict.fromkeys(peer for _, peer, *_ in points))
    plt.rcParams.update({"font.size": 11, "svg.hashsalt": "evenhung", "svg.fonttype": "none"})
    figure, panels = plt.subplots(
        1, len(sizes), figsize=(4.2 * len(sizes), 4.2), sharey=True, squeeze=False
    )
    for panel, size in zip(panels[0], sizes, strict=True):
        for peer, mark in zip(peers, MARKS, strict=False):
            here = [
                (seconds, max(gap, LEAST_GAP))
                for at, who, seconds, gap in points
                if (at, who) == (size, peer) and not math.isnan(gap)
            ]
            across, up = zip(*here, strict=True) if here else ((), ())
            panel.plot(across, up, mark, label=peer, alpha=0.8, markersize=7)
        panel.set(
            xscale="log", yscale="log", title=f"{size:,} sashes", xlabel="seconds of processor time"
        )
        panel.xaxis.set_major_formatter("{x:g}")
        panel.yaxis.set_major_formatter("{x:g}")
        panel.grid(visible=True, alpha=0.3)
    panels[0][0].set_ylabel(f"above the best bound, % of served\n({LEAST_GAP} stands for none)")
    handles, labels = panels[0][0].get_legend_handles_labels()
    figure.legend(handles, labels, loc="lower center", ncols=3, frameon=False)
    figure.tight_layout(rect=(0, 0.14, 1, 1))
    figure.savefig(path, metadata={"Date": None})
    plt.close(figure)
