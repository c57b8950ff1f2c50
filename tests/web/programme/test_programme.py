"""The programme of a house: worked out in a process of its own, shown, moved when a day is lost."""

from __future__ import annotations

import os
import time
from datetime import date

import pytest
from icalendar import Calendar

from evenhung.plan import plan_house
from evenhung.plan.programme import programme_document, programme_of
from evenhung.store.parts import Key
from evenhung.web.errand.standing import FAILED, LOST, READY, STOPPED, claimed
from evenhung.web.programme import working
from evenhung.web.programme.working import folder_of, programmes
from evenhung.web.records.history import history
from evenhung.web.records.latest import standing_parts, survey_of

pytestmark = pytest.mark.slow  # solves for seconds

SLEEPS = """
import time
from evenhung.web.programme import solver
solver._make = lambda *told: time.sleep(60)
solver.main()
"""
FAILS = """
from evenhung.web.programme import solver
def broken(*told):
    raise OSError(28, "No space left on device")
solver._make = broken
solver.main()
"""


@pytest.fixture(autouse=True)
def _one_at_a_time():
    """One at a time in the whole app: end what a test has left."""
    programmes().mkdir(exist_ok=True)
    yield
    for folder in programmes().glob("*/"):
        (folder / "stop").touch()
    deadline = time.monotonic() + 60
    while (claim := claimed(programmes())) is None:
        assert time.monotonic() < deadline
        time.sleep(0.05)
    os.close(claim)


@pytest.fixture
def solver(monkeypatch):
    """Gives ``solver(text)``: have that program take the solver's place."""
    return lambda text: monkeypatch.setattr(working, "COMMAND", ("-c", text))


def address(house, rest=""):
    return f"/house/{house.pk}/programme/{rest}"


def ended(house, seconds=60):
    deadline = time.monotonic() + seconds
    while (standing := folder_of(house).read()).is_making:
        assert time.monotonic() < deadline
        time.sleep(0.05)
    return standing


def work_out(browser, house):
    assert browser.post(address(house, "begin/")).status_code == 302
    standing = ended(house)
    assert (standing.state, standing.reason) == (READY, "")
    return browser.get(address(house))


def set_days(browser, house, **fields):
    (about,) = (part for part in standing_parts(house) if part.key == Key("house"))
    typed = {f"field.programme.{name}": text for name, text in fields.items()}
    return browser.post(address(house, "settings/"), {"base": str(about.number), **typed})


def windows_of(house):
    return [part for part in standing_parts(house) if part.key.kind == "window"]


def test_it_is_worked_out_shown_and_taken_away_as_a_calendar(browser, demo_house):
    assert "Work it out" in browser.get(address(demo_house)).text
    assert browser.get(address(demo_house, "programme.ics")).status_code == 404
    page = work_out(browser, demo_house)
    expected = programme_of(plan_house(survey_of(demo_house)), today=date(2026, 3, 9))
    told = programme_document(expected)
    assert page.context["found"] == {**page.context["found"], **told}
    assert "Proved: no programme ends sooner." in page.text
    answer = browser.get(address(demo_house, "programme.ics"))
    events = Calendar.from_ical(b"".join(answer.streaming_content)).walk("VEVENT")
    assert len(events) == sum(len(visit.steps) for visit in expected.visits)
    assert "tollgate-house-programme.ics" in answer.headers["Content-Disposition"]


def test_the_chart_has_a_letter_for_every_step_on_its_day(browser, demo_house):
    page = work_out(browser, demo_house)
    chart, found = page.context["chart"], page.context["found"]
    columns = {one.day.isoformat(): place for place, one in enumerate(chart.days)}
    letters = {"take out": "O", "frame": "F", "bench": "B", "refit": "R", "in place": "P"}
    letters |= {"coat 1": "1", "coat 2": "2"}
    for row, window in zip(chart.rows, found["windows"], strict=True):
        for step in window["steps"]:
            for end in ("first", "last"):
                assert letters[step["name"]] in row.cells[columns[step[end]]].text
    assert [one.is_off for one in chart.days[:7]] == [False] * 5 + [True] * 2
    assert sum(month.days for month in chart.months) == len(chart.days)


def test_a_lost_day_is_booked_and_what_moved_is_said(browser, demo_house):
    before = work_out(browser, demo_house).context["found"]["end"]
    assert browser.post(address(demo_house, "lost/"), {"day": "2026-03-10"}).status_code == 302
    assert ended(demo_house).state == READY
    page = browser.get(address(demo_house))
    assert survey_of(demo_house).house.programme.lost == ("2026-03-10",)
    assert page.context["found"]["changes"]
    assert page.context["found"]["end"] > before
    assert "What the lost days have moved" in page.text
    (last, *_) = history(demo_house)
    assert last.lines == ["Tollgate House programme: lost 2026-03-10"]


def test_a_lost_day_that_is_none_is_refused(browser, small_house):
    answer = browser.post(address(small_house, "lost/"), {"day": "tomorrow"})
    assert answer.status_code == 422
    assert "tomorrow" in answer.text
    assert survey_of(small_house).house.programme.lost is None


def test_what_cannot_be_kept_is_said_in_words(browser, demo_house):
    set_days(browser, demo_house, start="2026-03-09", deadline="2026-03-10")
    page = work_out(browser, demo_house)
    assert "It cannot be done so" in page.text
    assert "the work shall end by 2026-03-10" in page.text
    assert "Without the deadline the work would end on" in page.text


def test_the_days_and_means_are_edited(browser, small_house):
    answer = set_days(
        browser,
        small_house,
        days="Mon, Tue; Sat",
        holidays="2026-04-03, 2026-04-06",
        crew="2",
        **{"recoat.least": "1", "recoat.likely": "1", "recoat.most": "3"},
    )
    assert answer.status_code == 302
    programme = survey_of(small_house).house.programme
    assert programme.days == ("Mon", "Tue", "Sat")
    assert programme.holidays == ("2026-04-03", "2026-04-06")
    assert programme.recoat.most == 3


@pytest.mark.parametrize(
    ("fields", "allowed"),
    [
        ({"days": "Mon; Someday"}, "Mon"),
        ({"start": "2026-05-01", "deadline": "2026-04-01"}, "a day not before the start"),
        ({"start": "30/2/2026"}, "year first"),
        ({"hours_a_day": "40"}, "16"),
    ],
)
def test_days_that_cannot_be_are_refused_and_stay_typed(browser, small_house, fields, allowed):
    answer = set_days(browser, small_house, **fields)
    assert answer.status_code == 422
    assert allowed in answer.text
    for text in fields.values():
        assert f'value="{text}"' in answer.text


def test_a_house_that_has_changed_since_says_so(browser, small_house):
    assert "Nothing is to be done" in work_out(browser, small_house).text
    set_days(browser, small_house, crew="3")
    assert "The house has changed since." in browser.get(address(small_house)).text


def test_it_can_be_stopped_and_the_one_from_before_stays(browser, demo_house, solver):
    work_out(browser, demo_house)
    solver(SLEEPS)
    assert browser.post(address(demo_house, "begin/")).status_code == 302
    part = browser.get(address(demo_house, "standing/"))
    assert 'hx-trigger="every 1s"' in part.text
    assert browser.post(address(demo_house, "begin/")).status_code == 409
    browser.post(address(demo_house, "stop/"))
    assert ended(demo_house).state == STOPPED
    assert browser.get(address(demo_house, "standing/")).headers["HX-Refresh"] == "true"
    page = browser.get(address(demo_house))
    assert "The last run was stopped." in page.text
    assert page.context["visits"]


def test_a_fault_is_told_and_one_that_ends_without_a_word_is_lost(browser, small_house, solver):
    solver(FAILS)
    browser.post(address(small_house, "begin/"))
    standing = ended(small_house)
    assert (standing.state, "No space left on device" in standing.reason) == (FAILED, True)
    assert "gave no answer" in browser.get(address(small_house)).text
    solver("import os, sys; sys.stdin.readline(); os.kill(os.getpid(), 9)")
    browser.post(address(small_house, "begin/"))
    assert ended(small_house).state == LOST
    assert "was lost" in browser.get(address(small_house)).text


def test_days_its_room_is_needed_are_kept_at_the_window(browser, demo_house):
    window = windows_of(demo_house)[1].key.ident
    here = f"/house/{demo_house.pk}/window/{window}/"
    typed = {"was": "", "field.needed.first": "2026-03-09", "field.needed.last": "2026-03-20"}
    assert browser.post(f"{here}found/needed/new/", typed).status_code == 302
    assert "Mon 9 Mar 2026 to Fri 20 Mar 2026" in browser.get(here).text
    found = work_out(browser, demo_house).context["found"]
    (visit,) = (one for one in found["windows"] if one["tag"] == "W2")
    assert visit["out"] > "2026-03-20"
    backwards = {**typed, "field.needed.last": "2026-03-01"}
    assert browser.post(f"{here}found/needed/new/", backwards).status_code == 422


def test_a_window_follows_another_and_the_history_names_it(browser, demo_house):
    first, second, *_ = windows_of(demo_house)
    here = f"/house/{demo_house.pk}/window/{first.key.ident}/"
    form = browser.get(f"{here}edit/programme/")
    assert f'<option value="{second.key.ident}">W2' in form.text
    assert first.key.ident not in form.text.partition("<select")[2].partition("</select>")[0]
    typed = {"base": str(first.number), "field.after": second.key.ident}
    assert browser.post(f"{here}edit/programme/", typed).status_code == 302
    (last, *_) = history(demo_house)
    assert last.lines == ["W1: after W2"]
    assert "Begun only when W2 is back in." in browser.get(here).text
    found = work_out(browser, demo_house).context["found"]
    days = {one["tag"]: one for one in found["windows"]}
    assert days["W1"]["out"] >= days["W2"]["in"]


def test_two_who_let_it_follow_different_windows_are_asked_by_their_names(browser, demo_house):
    first, second, third, *_ = windows_of(demo_house)
    here = f"/house/{demo_house.pk}/window/{first.key.ident}/edit/programme/"
    typed = {"base": str(first.number), "field.after": second.key.ident}
    assert browser.post(here, typed).status_code == 302
    answer = browser.post(here, {**typed, "field.after": third.key.ident})
    assert answer.status_code == 409
    (choice,) = answer.context["choices"]
    assert (choice.before, choice.theirs[:2], choice.ours[:2]) == ("nothing", "W2", "W3")
    assert choice.ours_typed == third.key.ident


def test_windows_that_follow_each_other_are_named(browser, demo_house):
    first, second, *_ = windows_of(demo_house)
    for one, other in ((first, second), (second, first)):
        here = f"/house/{demo_house.pk}/window/{one.key.ident}/"
        typed = {"base": str(one.number), "field.after": other.key.ident}
        assert browser.post(f"{here}edit/programme/", typed).status_code == 302
    page = work_out(browser, demo_house)
    assert "It cannot be done so" in page.text
    because = page.context["found"]["conflict"]["because"]
    assert sorted(because) == [
        "W1 is begun only when W2 is back in",
        "W2 is begun only when W1 is back in",
    ]
