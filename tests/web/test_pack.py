"""The pack of a house: made in a process of its own, one at a time, watched and downloaded."""

from __future__ import annotations

import io
import os
import subprocess
import sys
import time
import uuid
import zipfile
from dataclasses import replace
from datetime import date
from threading import Thread

import openpyxl
import pypdfium2
import pytest
import zxingcpp
from django.conf import settings
from django.db import connection
from django.test import Client, override_settings
from django.utils import timezone

from evenhung.store.parts import Key
from evenhung.web.access.door import LINK
from evenhung.web.access.models import VisitorLink
from evenhung.web.errand.sending import Busy
from evenhung.web.errand.standing import FAILED, LOST, MAKING, READY, STOPPED, claimed
from evenhung.web.pack import making
from evenhung.web.pack.making import Wanted, begin_pack, folder_of, packs, zip_of
from evenhung.web.records.merging import Edit
from evenhung.web.records.saving import save

pytestmark = pytest.mark.slow  # sheets are set by the dozen, or a process is waited for

WANTED = Wanted("a4", False, False, "Ann", "https://x.example/{window}/", "house", date(2026, 3, 9))
WAITS = """
import os, sys
sys.stdin.readline()
while os.read(0, 1):
    pass
"""
SLOW = """
import time
from evenhung.web.pack import maker
import evenhung.sheets.pack.files as files
def slowly(house, wish):
    for number in range(600):
        yield files.PackFile(f"{number}.txt", f"file {number}", lambda: time.sleep(0.05) or b"x")
files.pack_files = lambda house, wish: list(slowly(house, wish))
maker.main()
"""
FAILS = """
from evenhung.web.pack import maker
import evenhung.sheets.pack.files as files
def broken():
    raise OSError(28, "No space left on device")
files.pack_files = lambda house, wish: [files.PackFile("a.txt", "a", broken)]
maker.main()
"""


@pytest.fixture(autouse=True)
def _nothing_being_made():
    """One at a time in the whole app: wait for what a test has left."""
    yield
    for folder in packs().glob("*/"):
        (folder / "stop").touch()
    deadline = time.monotonic() + 60
    while (claim := claimed(packs())) is None:
        assert time.monotonic() < deadline
        time.sleep(0.05)
    os.close(claim)


@pytest.fixture(autouse=True)
def _a_folder_for_packs():
    packs().mkdir(exist_ok=True)


@pytest.fixture
def maker(monkeypatch):
    """Gives ``maker(text)``: have that program take the maker's place."""
    return lambda text: monkeypatch.setattr(making, "COMMAND", ("-c", text))


def until(house, is_so, seconds=60):
    deadline = time.monotonic() + seconds
    while time.monotonic() < deadline:
        standing = folder_of(house).read()
        if is_so(standing):
            return standing
        time.sleep(0.05)
    return pytest.fail(f"still {standing}")


def ended(house):
    return until(house, lambda standing: standing.state != MAKING)


def address(house, rest=""):
    return f"/house/{house.pk}/pack/{rest}"


def unpacked(browser, house):
    answer = browser.get(address(house, "download/"))
    assert answer.status_code == 200
    assert answer.headers["Content-Disposition"].endswith('-sheets.zip"')
    return zipfile.ZipFile(io.BytesIO(b"".join(answer.streaming_content)))


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_a_pack_is_made_and_downloaded(browser, small_house, paper):
    assert "Sheets" in browser.get(f"/house/{small_house.pk}/").text
    before = browser.get(address(small_house))
    assert "download/" not in before.text
    assert browser.post(address(small_house, "begin/"), {"paper": paper}).status_code == 302
    assert ended(small_house).state == READY
    shown = browser.get(address(small_house)).text
    assert "The sheets are ready." in shown
    assert "has changed since" not in shown
    packed = unpacked(browser, small_house)
    assert packed.testzip() is None
    names = [name.removeprefix("alder-row/") for name in packed.namelist()]
    assert {"bench-cards.pdf", "lists.xlsx", "next-looks.ics"} <= set(names)
    assert "drawings.pdf" not in names
    width = {"a4": 595, "letter": 612}[paper]
    card = pypdfium2.PdfDocument(packed.read("alder-row/bench-cards.pdf"))
    assert round(card[0].get_width()) == width
    assert openpyxl.load_workbook(io.BytesIO(packed.read("alder-row/lists.xlsx")))


def test_with_drawings_and_on_the_best_use_of_all_weights(browser, demo_house):
    wish = {"paper": "a4", "drawings": "yes", "allotted": "yes"}
    browser.post(address(demo_house, "begin/"), wish)
    standing = ended(demo_house)
    assert (standing.state, standing.reason) == (READY, "")
    names = unpacked(browser, demo_house).namelist()
    assert "tollgate-house/drawings/W1-elevation.dxf" in names
    assert standing.of == standing.done == len(names)


def test_the_codes_on_tags_open_the_windows_of_the_app(browser, small_house):
    browser.post(address(small_house, "begin/"), {"paper": "a4"})
    ended(small_house)
    data = unpacked(browser, small_house).read("alder-row/tags-adhesive.pdf")
    picture = pypdfium2.PdfDocument(data)[0].render(scale=4.0).to_pil()
    links = {code.text for code in zxingcpp.read_barcodes(picture)}
    (link,) = links
    assert link.startswith(f"http://localhost/house/{small_house.pk}/window/")
    assert browser.get(link).status_code == 200


def test_progress_is_told_and_it_can_be_stopped(browser, small_house, maker):
    maker(SLOW)
    browser.post(address(small_house, "begin/"), {"paper": "a4"})
    until(small_house, lambda standing: standing.done > 2)
    part = browser.get(address(small_house, "standing/"))
    assert "of 600: file " in part.text
    assert 'hx-trigger="every 1s"' in part.text
    assert "HX-Refresh" not in part.headers
    assert "Making the sheets." in browser.get(address(small_house)).text
    assert browser.post(address(small_house, "stop/")).status_code == 302
    assert ended(small_house).state == STOPPED
    assert browser.get(address(small_house, "standing/")).headers["HX-Refresh"] == "true"
    assert "was stopped" in browser.get(address(small_house)).text
    assert browser.get(address(small_house, "download/")).status_code == 404
    assert not list(folder_of(small_house).path.glob(".part-*"))


def test_two_who_ask_at_once_get_one(browser, small_house, demo_house, maker):
    maker(SLOW)
    outcomes = []

    def ask(house):
        try:
            begin_pack(house, WANTED)
            outcomes.append("begun")
        except Busy:
            outcomes.append("busy")
        finally:
            connection.close()

    threads = [Thread(target=ask, args=(house,)) for house in (demo_house, small_house) * 2]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert sorted(outcomes) == ["begun", "busy", "busy", "busy"]
    late = browser.post(address(small_house, "begin/"), {"paper": "a4"})
    assert late.status_code == 409
    assert "Another pack is being made" in late.text


def test_a_fault_is_told_and_the_pack_from_before_is_kept(browser, small_house, maker):
    begin_pack(small_house, WANTED)
    assert ended(small_house).state == READY
    first = zip_of(small_house).read_bytes()
    maker(FAILS)
    browser.post(address(small_house, "begin/"), {"paper": "letter"})
    standing = ended(small_house)
    assert (standing.state, "No space left on device" in standing.reason) == (FAILED, True)
    shown = browser.get(address(small_house)).text
    assert "could not be made" in shown
    assert "from before" in shown
    assert zip_of(small_house).read_bytes() == first


def test_a_maker_that_cannot_be_started_is_said_to(small_house, monkeypatch):
    monkeypatch.setattr(sys, "executable", "/no/such/python")
    begin_pack(small_house, WANTED)
    standing = ended(small_house)
    assert (standing.state, "/no/such/python" in standing.reason) == (FAILED, True)


def test_one_that_is_ended_without_a_word_is_lost(browser, small_house, maker):
    maker("import os, sys; sys.stdin.readline(); os.kill(os.getpid(), 9)")
    begin_pack(small_house, WANTED)
    assert ended(small_house).state == LOST
    assert "was lost" in browser.get(address(small_house)).text
    folder_of(small_house).ask_to_stop()
    browser.post(address(small_house, "begin/"), {"paper": "a4"})  # and can be asked for again


def test_a_maker_ends_with_its_server(small_house):
    """The input of a maker ends when its server does, however that ends."""
    begun = "import sys; from evenhung.web.pack import maker; maker._make = lambda *_: __import__"
    program = f"{begun}('time').sleep(60); maker.main()"
    with subprocess.Popen([sys.executable, "-c", program], stdin=subprocess.PIPE) as process:
        folder = folder_of(small_house)
        asked = f'{{"errands": "{packs()}", "house": "{small_house.pk}", "standing": '
        process.stdin.write(f'{asked}{{"state": "making", "who": "Ann", "started": 0, '.encode())
        rest = '"change": 1, "wanted": {}}}\n'
        process.stdin.write(rest.encode())
        process.stdin.flush()
        with pytest.raises(subprocess.TimeoutExpired):
            process.wait(timeout=1.5)
        process.stdin.close()
        assert process.wait(timeout=10) == 1
    assert folder.read() is None


def test_the_same_house_on_the_same_day_gives_the_same_zip(small_house):
    made = []
    for _ in range(2):
        begin_pack(small_house, WANTED)
        assert ended(small_house).state == READY
        made.append(zip_of(small_house).read_bytes())
    assert made[0] == made[1]


def test_a_house_that_has_changed_since_says_so(browser, small_house):
    begin_pack(small_house, WANTED)
    ended(small_house)
    save(small_house, [Edit(Key("house"), 1, {"note": "changed"})], who="Ben")
    assert "The house has changed since." in browser.get(address(small_house)).text


@pytest.mark.parametrize("paper", ["", "a3", "../a4"])
def test_a_paper_that_there_is_not_is_refused(browser, small_house, paper):
    assert browser.post(address(small_house, "begin/"), {"paper": paper}).status_code == 400
    assert folder_of(small_house).read() is None


def test_what_is_not_there_is_not_found(browser, small_house):
    assert browser.get("/house/nowhere/pack/").status_code == 404
    assert browser.get(address(small_house, "download/")).status_code == 404
    assert browser.get(address(small_house, "begin/")).status_code == 405
    assert browser.post(address(small_house, "stop/")).status_code == 302


@pytest.fixture
def visitor(small_house):
    """Give a browser that came by a visitor's link to the small house."""
    config = replace(settings.CONFIG, is_shared=True, hosts=("192.0.2.7",))
    with override_settings(CONFIG=config, ALLOWED_HOSTS=["192.0.2.7"]):
        link = VisitorLink.objects.create(
            house=small_house,
            visitor="the owner",
            checksum=uuid.uuid4().hex,
            made_by="Ann",
            made=timezone.now(),
        )
        client = Client(headers={"host": "192.0.2.7"}, raise_request_exception=False)
        session = client.session
        session[LINK] = link.pk
        session.save()
        yield client


def test_a_visitor_may_not_start_one_nor_take_one_away(visitor, small_house, maker):
    maker("raise SystemExit(0)")
    assert visitor.get(f"/house/{small_house.pk}/").status_code == 200
    assert address(small_house) not in visitor.get(f"/house/{small_house.pk}/").text
    for rest in ("begin/", "stop/"):
        assert visitor.post(address(small_house, rest), {"paper": "a4"}).status_code == 403
    for rest in ("", "standing/", "download/"):
        assert visitor.get(address(small_house, rest)).status_code == 403
    assert folder_of(small_house).read() is None
