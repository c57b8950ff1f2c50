"""The price of a house of 500 windows on its page: when it is first looked at, and after changes.

The app runs as its users start it, in one process. What was changed is saved as a person would, and
the page asked for; each is given as a ratio to the first look, which works everything out.
"""

from __future__ import annotations

import http.client
import re
import statistics
import tempfile
import time
import urllib.parse

from pages import WINDOWS, ask, brought_in, served

ROUNDS = 5


def main() -> list[str]:
    """Measure; give the lines of the report."""
    with tempfile.TemporaryDirectory() as folder, served(folder) as (address, _):
        house = brought_in(address)
        first = looked_at(address, house)
        windows = re.findall(rf'href="({house}window/(?!new)[^"]+)"', text_of(address, house))
        found = {"was": "", "field.finding.part": "sill", "field.finding.seen": "worn"}
        after = {
            "looked at again": [looked_at(address, house) for _ in range(ROUNDS)],
            "at another confidence": [
                looked_at(address, house, f"?sure={sure}") for sure in (50, 60, 70, 90, 95)
            ],
            "after overheads have changed": [
                changed(
                    address, house, f"{house}price/terms/", {"field.price.overhead_pct": str(pct)}
                )
                for pct in range(11, 11 + ROUNDS)
            ],
            "after something was found at one window": [
                changed(address, house, f"{window}found/findings/new/", found)
                for window in windows[:ROUNDS]
            ],
        }
    lines = [
        f"The page of the price, {WINDOWS} windows.",
        "",
        "| asked for | s | ratio |",
        "| --- | ---: | ---: |",
        f"| first | {first:.2f} | 1.00 |",
        *(
            f"| {what} | {statistics.median(taken):.2f} | {statistics.median(taken) / first:.2f} |"
            for what, taken in after.items()
        ),
    ]
    print("\n".join(lines))
    return lines


def text_of(address: str, path: str) -> str:
    """Give a page."""
    return ask(address, path)[1].decode()


def looked_at(address: str, house: str, query: str = "") -> float:
    """Ask for the page of the price; give how long that took [s]."""
    started = time.perf_counter()
    ask(address, f"{house}price/{query}")
    return time.perf_counter() - started


def changed(address: str, house: str, path: str, fields: dict[str, str]) -> float:
    """Save a change by its form; give how long the page of the price then takes [s]."""
    answer, page = ask(address, path)
    token = re.search(rb'name="csrfmiddlewaretoken" value="([^"]+)"', page)[1].decode()
    base = re.search(rb'name="base" value="(\d+)"', page)
    typed = {**fields, "csrfmiddlewaretoken": token, **({"base": base[1].decode()} if base else {})}
    headers = {
        "Cookie": re.search(r"evenhung-form=[^;]+", answer.headers["set-cookie"])[0],
        "Origin": f"http://{address}",
        "Content-Type": "application/x-www-form-urlencoded",
    }
    connection = http.client.HTTPConnection(address, timeout=60)
    connection.request("POST", path, urllib.parse.urlencode(typed), headers)
    answer = connection.getresponse()
    answer.read()
    connection.close()
    assert answer.status == 302, (path, answer.status)
    return looked_at(address, house)


if __name__ == "__main__":
    main()
