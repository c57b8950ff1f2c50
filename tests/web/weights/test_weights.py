"""The weights of a house: listed, drawn, allotted in a process of their own, decided on."""

from __future__ import annotations

import os
import signal
import time

import pytest
from django.db import IntegrityError, transaction
from django.utils import timezone

from evenhung.web.records.latest import standing_parts, survey_of
from evenhung.web.weights.models import Solve
from evenhung.web.weights.solving import (
    begin_solve,
    last_solve,
    mark_lost,
    standing_solve,
    stop_solve,
)

SLEEPER = (
    "-c",
    "import sys, time; print('well begun', file=sys.stderr, flush=True); time.sleep(60)",
)


@pytest.fixture(autouse=True)
def _nothing_running():
    """One solve at a time in the whole app: end what a test has left."""
    yield
    for solve in Solve.objects.filter(state=Solve.RUNNING):
        if solve.process:
            os.kill(solve.process, signal.SIGKILL)
    mark_lost()


def until(house, is_so, seconds=40):
    deadline = time.monotonic() + seconds
    while time.monotonic() < deadline:
        solve = last_solve(house)
        if is_so(solve):
            return solve
        time.sleep(0.05)
    pytest.fail(f"still {solve.state}: {solve.says}")


def test_every_weight_is_listed_and_on_the_rack(browser, demo_house):
    page = browser.get(f"/house/{demo_house.pk}/weights/")
    names = [one.name for one in page.context["weights"]]
    assert names[0] == "W1 upper left"
    assert {"A", "B"} <= set(names)  # the loose ones
    assert "W3 lower right" not in names  # it is missing
    assert page.text.count('class="weight') == sum(
        one.kg is not None for one in page.context["weights"]
    )


def test_a_house_without_weights_says_so(browser):
    house = browser.post("/new/", {"name": "Ferry Row", "shown_in": "metric"}).headers["Location"]
    page = browser.get(f"{house}weights/")
    assert page.status_code == 200
    assert "No weight surveyed yet." in page.text


def test_a_loose_weight_is_added_and_edited(browser, small_house):
    typed = {"base": "0", "field.tag": "C", "field.weighed": "9 lb 4 oz"}
    assert browser.post(f"/house/{small_house.pk}/weights/loose/", typed).status_code == 302
    (weight,) = survey_of(small_house).weight
    page = f"/house/{small_house.pk}/weights/loose/{weight.id}/"
    assert browser.post(page, {"base": "1", "field.weighed": "9 lb 6 oz"}).status_code == 302
    assert survey_of(small_house).weight[0].weighed.text == "9 lb 6 oz"


@pytest.mark.slow
def test_an_allotment_is_worked_out_accepted_and_kept_to(browser, demo_house):
    page = f"/house/{demo_house.pk}/weights/"
    assert browser.post(f"{page}allot/", {"seconds": "10"}).status_code == 302
    solve = until(demo_house, lambda solve: solve.state != Solve.RUNNING)
    assert (solve.state, solve.answer["status"]) == (Solve.DONE, "optimal")
    shown = browser.get(page)
    assert solve.answer["moves"][0]["says"] in shown.text
    assert browser.post(f"{page}decide/", {"what": "all"}).status_code == 302
    decisions = survey_of(demo_house).decision
    hung = [side for side in solve.answer["sides"] if side["origin"] in ("found", "moved", "loose")]
    assert len(decisions) == len(hung) > 0
    assert browser.get(page).context["is_old"]
    assert browser.post(f"{page}decide/", {"what": "all"}).status_code == 302
    assert len(survey_of(demo_house).decision) == len(hung)  # nothing twice
    browser.post(f"{page}allot/", {"seconds": "10"})
    again = until(demo_house, lambda solve: solve.state != Solve.RUNNING)
    assert again.answer["sides"] == solve.answer["sides"]
    first = standing_parts(demo_house)
    decision = next(part for part in first if part.key.kind == "decision")
    browser.post(f"{page}undecide/{decision.key.ident}/")
    assert len(survey_of(demo_house).decision) == len(hung) - 1


@pytest.mark.slow
def test_what_is_forbidden_is_not_done_again(browser, demo_house):
    page = f"/house/{demo_house.pk}/weights/"
    browser.post(f"{page}allot/", {"seconds": "10"})
    sides = until(demo_house, lambda solve: solve.state != Solve.RUNNING).answer["sides"]
    number, side = next((n, one) for n, one in enumerate(sides) if one["origin"] == "loose")
    assert browser.post(f"{page}decide/", {"what": "never", "side": number}).status_code == 302
    assert "shall not hang at" in browser.get(page).text
    browser.post(f"{page}allot/", {"seconds": "10"})
    again = until(demo_house, lambda solve: solve.state != Solve.RUNNING).answer["sides"]
    place = (side["window"], side["sash"])
    there = [one["weight"] for one in again if (one["window"], one["sash"]) == place]
    assert side["weight"] not in there


def test_one_is_worked_out_at_a_time_and_its_progress_is_told(browser, demo_house, monkeypatch):
    monkeypatch.setattr("evenhung.web.weights.solving.COMMAND", SLEEPER)
    page = f"/house/{demo_house.pk}/weights/"
    browser.post(f"{page}allot/", {"seconds": "10"})
    until(demo_house, lambda solve: solve.says == "well begun")
    standing = browser.get(f"{page}allot/")
    assert "well begun" in standing.text
    assert 'hx-trigger="every 1s"' in standing.text
    second = browser.post(f"{page}allot/", {"seconds": "10"})
    assert second.status_code == 409
    assert "Another allotment is being worked out" in second.text
    assert browser.post(f"{page}allot/stop/").status_code == 302
    ended = until(demo_house, lambda solve: solve.state != Solve.RUNNING)
    assert ended.state == Solve.FAILED  # this one gives no answer when it is interrupted


def test_the_database_itself_allows_one_at_a_time(small_house, demo_house):
    now = timezone.now()
    Solve.objects.create(house=small_house, change=1, who="Ann", started=now)
    with pytest.raises(IntegrityError), transaction.atomic():
        Solve.objects.create(house=demo_house, change=1, who="Ann", started=now)


def test_one_whose_process_is_gone_is_lost_and_said_to_be(browser, small_house):
    Solve.objects.create(
        house=small_house, change=1, who="Ann", started=timezone.now(), process=2**22 - 3
    )
    assert standing_solve(small_house).state == Solve.LOST
    assert (
        "was lost when the app was started again"
        in browser.get(f"/house/{small_house.pk}/weights/").text
    )


def test_one_of_an_earlier_server_is_lost(small_house):
    Solve.objects.create(house=small_house, change=1, who="Ann", started=timezone.now())
    assert mark_lost() == 1
    assert last_solve(small_house).state == Solve.LOST


@pytest.mark.parametrize("answer", ["", "{", "not JSON"])
def test_an_answer_that_is_none_is_a_failure(demo_house, monkeypatch, answer):
    monkeypatch.setattr("evenhung.web.weights.solving.COMMAND", ("-c", f"print({answer!r})"))
    begin_solve(demo_house, seconds=10, who="Ann")
    assert until(demo_house, lambda solve: solve.state != Solve.RUNNING).state == Solve.FAILED


def test_stopping_what_has_ended_does_no_harm(small_house):
    solve = Solve.objects.create(
        house=small_house,
        change=1,
        who="Ann",
        started=timezone.now(),
        state=Solve.DONE,
        process=2**22 - 3,
    )
    stop_solve(solve)
    assert last_solve(small_house).state == Solve.DONE


def test_what_is_asked_for_must_be_there(browser, small_house):
    page = f"/house/{small_house.pk}/weights/"
    assert browser.post(f"{page}decide/", {"what": "all"}).status_code == 400
    assert browser.post(f"{page}allot/", {"seconds": "100000"}).status_code == 400
