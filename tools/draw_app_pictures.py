"""Take docs/pictures/app/: every screen of the app, on a phone and at a desk, with the demo house.

Run it after a screen has changed, where Chromium is installed:
``python -m tools.draw_app_pictures``. Nothing compares them: letters differ between machines.
"""

from __future__ import annotations

import io
import os
import re
import shutil
import subprocess
import sys
import tempfile
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

from PIL import Image
from playwright.sync_api import sync_playwright

if TYPE_CHECKING:
    from collections.abc import Iterator

    from playwright.sync_api import Browser, Page

ROOT = Path(__file__).resolve().parent.parent
PICTURES = ROOT / "docs" / "pictures" / "app"
SIZES = {"phone": (390, 844), "desk": (1280, 900)}
COLOURS = 64
"""Of a picture as kept: pages have few."""
LONGEST = 2600
"""Height at which a picture of a long page is cut [px]."""


def main() -> None:
    """Take every picture anew."""
    shutil.rmtree(PICTURES, ignore_errors=True)
    PICTURES.mkdir(parents=True)
    options = ["--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage"]
    with served() as address, sync_playwright() as driver:
        browser = driver.chromium.launch(executable_path=shutil.which("chromium"), args=options)
        house = begin(browser, address)
        for name, size in SIZES.items():
            take_all(browser, address, house, name, size)
        browser.close()


@contextmanager
def served() -> Iterator[str]:
    """Run the app on a folder that is gone afterwards."""
    with tempfile.TemporaryDirectory() as folder:
        command = [sys.executable, "-m", "evenhung", "serve", "--data", folder]
        variables = {**os.environ, "EVENHUNG_DATABASE_URL": ""}
        with subprocess.Popen(command, env=variables, stdout=subprocess.PIPE, text=True) as process:
            line = process.stdout.readline() if process.stdout else ""
            found = re.search(r"http://[^/]+", line)
            if found is None:
                raise RuntimeError(f"the app did not start: {line}")
            try:
                yield found[0]
            finally:
                process.terminate()


def begin(browser: Browser, address: str) -> str:
    """Open the demo house, work out its weights and its programme; give the path of the house."""
    page = browser.new_page(base_url=address)
    page.goto("/")
    page.get_by_role("button", name="Open the demo house").click()
    page.wait_for_url("**/house/*/")
    house = page.url.removeprefix(address)
    page.goto(f"{house}allotment/")
    page.get_by_role("button", name="Work it out").click()
    page.get_by_role("heading", name="In this order").wait_for()
    page.goto(f"{house}programme/")
    page.get_by_role("button", name="Work it out").click()
    page.get_by_role("heading", name="Windows against days").wait_for()
    page.close()
    return house


def take_all(browser: Browser, address: str, house: str, name: str, size: tuple[int, int]) -> None:
    """Take every screen at one size."""
    width, height = size
    page = browser.new_page(base_url=address, viewport={"width": width, "height": height})
    page.goto(house)
    window = page.locator(".windows a.whole").nth(1).get_attribute("href")
    screens = {
        "houses": "/",
        "house": house,
        "window": f"{window}",
        "section": f"{window}edit/lower/",
        "tried": f"{window}edit/lower-tried/",
        "finding": f"{window}found/findings/0/",
        "symptom": f"{window}found/symptoms/new/",
        "weigh-in": f"{house}weigh-in/",
        "weights": f"{house}weights/",
        "allotment": f"{house}allotment/",
        "stock": f"{house}stock/",
        "price": f"{house}price/",
        "price-terms": f"{house}price/terms/",
        "book-hours": f"{house}price/booked/new/",
        "programme": f"{house}programme/",
        "programme-settings": f"{house}programme/settings/",
        "photos": f"{window}photos/",
        "about": f"{house}about/",
        "history": f"{house}history/",
        "visitors": f"{house}visitors/",
        "people": "/people/",
        "new-window": f"{house}window/new/",
        "sheets": f"{house}pack/",
        "no-connection": "/away/not-saved/",
        "log-in": "/log-in/",
    }
    for screen, path in screens.items():
        page.goto(path)
        keep(page, f"{screen}-{name}")
    settle(browser, page, address, f"{window}edit/lower-left/")
    keep(page, f"two-versions-{name}")
    page.close()


def settle(browser: Browser, page: Page, address: str, form: str) -> None:
    """Let two people save one weight, so that the second is asked."""
    other = browser.new_page(base_url=address)
    page.goto(form)
    other.goto(form)
    field = '[name="field.lower.left.weighed"]'
    mass = other.locator(field).input_value()
    other.locator(field).fill("8 lb 13 oz" if mass != "8 lb 13 oz" else "8 lb 15 oz")
    other.get_by_role("button", name="Save", exact=True).click()
    other.locator("#told").wait_for()
    other.close()
    page.locator(field).fill("9 lb")
    page.get_by_role("button", name="Save", exact=True).click()
    page.get_by_role("heading", name="Two versions").wait_for()


def keep(page: Page, name: str) -> None:
    """Keep what a page looks like, in few colours."""
    page.wait_for_timeout(400)
    taken = Image.open(io.BytesIO(page.screenshot(full_page=True, animations="disabled")))
    cut = taken.crop((0, 0, taken.width, min(taken.height, LONGEST)))
    few = cut.convert("RGB").quantize(COLOURS, dither=Image.Dither.NONE)
    few.save(PICTURES / f"{name}.png", optimize=True)


if __name__ == "__main__":
    main()
