"""Run every benchmark and write the figures beside this file."""

from __future__ import annotations

import os
import platform
from pathlib import Path

import estate
import pack
import pages as app_pages
import price
import programme
import start

FIGURES = Path(__file__).with_name("figures.md")


def main() -> None:
    """Measure, print and write."""
    machine = f"Python {platform.python_version()}, {os.cpu_count()} cores, {platform.machine()}."
    pages = [
        "# Figures",
        "",
        f"Written by `benchmarks/run.py`. {machine}",
        "",
        "## Start-up",
        "",
        *start.main(),
        "",
        "## An estate",
        "",
        *estate.main(),
        "",
        "## Pages of the app",
        "",
        *app_pages.main(),
        "",
        "## The price in the app",
        "",
        *price.main(),
        "",
        "## A pack of sheets",
        "",
        *pack.main(),
        "",
        "## A programme",
        "",
        *programme.main(),
        "",
    ]
    text = "\n".join(pages)
    print(text)
    FIGURES.write_text(text, encoding="utf-8")


if __name__ == "__main__":
    main()
