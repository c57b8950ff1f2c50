"""The allotment of a house: worked out in a process of its own, one at a time, and decided on."""

from __future__ import annotations

import json
import os
import subprocess
import sys
import time
from threading import Thread

import pytest
from django.db import IntegrityError, connection, transaction
from django.utils import timezone

from evenhung.store.parts import Key
from evenhung.web.allotment import solving
from evenhung.web.allotment.models import Run
from evenhung.web.allotment.reading import wishes_of
from evenhung.web.allotment.solving import Busy, begin_run, last_run, mark_lost, stop_run
from evenhung.web.records.latest import survey_of
from evenhung.web.records.merging import Edit
from evenhung.web.records.saving import save

pytestmark = pytest.mark.slow  # solves for seconds

GONE = 2**22 - 3
"""The number of a process that no machine reaches."""
WAITS = """
import json, os, sys
sys.stdin.readline()
print(json.dumps({"gap_pct": 12.5}), flush=True)
while os.read(0, 1):
    pass
"""
STOPS = f"{WAITS}\nprint(json.dumps({{'answer': {{'sides': [], 'sashes': [], 'unserved': []}}}}))"
DIES = f"{WAITS}\nos.kill(os.getpid(), 9)"


@pytest.fixture(autouse=True)
def _nothing_running():
    """One run at a time in the whole app: end what a test has left."""
    yield
    Run.objects.filter(state=Run.RUNNING).update(is_stopping=True)
    mark_lost()


@pytest.fixture
def solver(monkeypatch):
    """Gives ``solver(text)``: have that program take the solver's place."""

    def put(text):
        monkeypatch.setattr(solving, "COMMAND", ("-c", text))

    return put


@pytest.fixture
def page(demo_house):
    return f"/house/{demo_house.pk}/allotment/"


def until(house, is_so, seconds=60):
    deadline = time.monotonic() + seconds
    while time.monotonic() < deadline:
        run = last_run(house)
        if is_so(run):
            return run
        time.sleep(0.05)
    pytest.fail(f"still {run.state}: {run.reason}")


def ended(house):
    return until(house, lambda run: not run.is_running)


def kinds(house):
    return sorted(one.what for one in survey_of(house).decision)


@pytest.fixture
def worked_out(browser, demo_house, page):
    """Work out the allotment of the demo house; give the run."""
    assert browser.post(f"{page}begin/").status_code == 302
    run = ended(demo_house)
    assert (run.state, run.reason) == (Run.DONE, "")
    return run


# -- the process


def test_progress_is_told_and_it_stops_with_the_best_so_far(browser, demo_house, page, solver):
    solver(STOPS)
    browser.post(f"{page}begin/", {"seconds": "60"})
    until(demo_house, lambda run: run.gap_pct == 12.5)
    standing = browser.get(f"{page}standing/")
    assert "within 12.50 % of the best" in standing.text
    assert 'hx-trigger="every 1s"' in standing.text
    assert "HX-Refresh" not in standing.headers
    assert "Working it out." in browser.get(page).text  # a reload finds it again
    assert browser.post(f"{page}stop/").status_code == 302
    run = ended(demo_house)
    assert (run.state, run.answer["sides"]) == (Run.DONE, [])
    assert browser.get(f"{page}standing/").headers["HX-Refresh"] == "true"


def test_two_who_ask_at_once_get_one_run(browser, demo_house, small_house, page, solver):
    solver(STOPS)
    outcomes = []

    def ask(house):
        try:
            outcomes.append(begin_run(house, seconds=None, who="Ann").state)
        except Busy:
            outcomes.append("busy")
        finally:
            connection.close()

    threads = [Thread(target=ask, args=(house,)) for house in (demo_house, small_house) * 2]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert sorted(outcomes) == ["busy", "busy", "busy", "running"]
    late = browser.post(f"{page}begin/")
    assert late.status_code == 409
    assert "Another allotment is being worked out" in late.text


@pytest.mark.parametrize(
    ("program", "reason"),
    [
        ("import sys; sys.exit(3)", "code 3"),
        ("import sys; sys.stdin.readline(); print('not JSON')", "cannot be read"),
        ('import sys; sys.stdin.readline(); print(\'{"failed": "OSError: no"}\')', "OSError: no"),
    ],
)
def test_a_solver_that_fails_is_said_to_have_failed(
    browser, demo_house, page, solver, program, reason
):
    solver(program)
    browser.post(f"{page}begin/")
    run = ended(demo_house)
    assert run.state == Run.FAILED
    assert reason in run.reason
    assert reason in browser.get(page).text


def test_a_solver_that_is_killed_is_said_to_have_been(browser, demo_house, page, solver):
    solver(DIES)
    browser.post(f"{page}begin/")
    until(demo_house, lambda run: run.gap_pct is not None)
    stop_run(demo_house)
    assert "signal 9" in ended(demo_house).reason


def test_a_solver_that_cannot_be_started_is_said_to(demo_house, monkeypatch):
    monkeypatch.setattr(sys, "executable", "/no/such/python")
    begin_run(demo_house, seconds=None, who="Ann")
    assert "/no/such/python" in ended(demo_house).reason


def begun(house, watcher=GONE):
    return Run.objects.create(
        house=house, change=1, who="Ann", started=timezone.now(), watcher=watcher, names_text="{}"
    )


def test_the_database_itself_allows_one_at_a_time(small_house, demo_house):
    begun(small_house, os.getpid())
    with pytest.raises(IntegrityError), transaction.atomic():
        begun(demo_house)


def test_one_that_nobody_watches_any_more_is_lost(browser, small_house):
    begun(small_house)
    assert last_run(small_house).state == Run.LOST
    assert "The last run was lost" in browser.get(f"/house/{small_house.pk}/allotment/").text


def test_one_of_an_earlier_server_is_lost_when_the_next_one_starts(small_house):
    begun(small_house, os.getpid())
    assert mark_lost() == 1
    assert last_run(small_house).state == Run.LOST
    assert mark_lost() == 0


PATIENT = """
import time
import evenhung.plan.allotment as allotment
from evenhung.web.allotment import solver
at_once = allotment.allot_house
def when_told(plan, watch):
    while not watch.is_over():
        time.sleep(0.01)
    return at_once(plan, watch)
allotment.allot_house = when_told
solver.main()
"""
"""The solver itself, on a house so large that it would go on until it is told to stop."""


def test_the_solver_stops_with_its_best_when_its_input_ends(small_survey):
    """A server that stops it closes the input; one that is killed does so too."""
    asked = json.dumps({"survey": small_survey, "seconds": None}).encode() + b"\n"
    command = [sys.executable, "-c", PATIENT]
    pipes = dict.fromkeys(("stdin", "stdout", "stderr"), subprocess.PIPE)
    with subprocess.Popen(command, **pipes) as process:
        process.stdin.write(asked)
        process.stdin.flush()
        try:
            with pytest.raises(subprocess.TimeoutExpired):
                process.wait(timeout=2)
            said, complaints = process.communicate(timeout=30)
        finally:
            process.kill()
    assert json.loads(said.splitlines()[-1])["answer"]["house"]["name"] == "Alder Row"
    assert (process.returncode, complaints) == (0, b"")


def test_the_solver_answers_by_itself_and_says_nothing_else(small_survey):
    command = [sys.executable, *solving.COMMAND]
    asked = json.dumps({"survey": small_survey, "seconds": None}) + "\n"
    done = subprocess.run(
        command, input=asked, capture_output=True, text=True, check=True, timeout=60
    )
    assert json.loads(done.stdout.splitlines()[-1])["answer"]["status"] in ("optimal", "feasible")
    assert done.stderr == ""


def test_the_solver_says_why_it_fails():
    command = [sys.executable, *solving.COMMAND]
    asked = json.dumps({"survey": {"form": 1}, "seconds": None}) + "\n"
    done = subprocess.run(
        command, input=asked, capture_output=True, text=True, check=False, timeout=60
    )
    assert "InvalidSurvey" in json.loads(done.stdout.splitlines()[-1])["failed"]
    assert done.returncode == 1


# -- the answer


def test_a_later_run_that_fails_leaves_the_answer_before_it(
    browser, demo_house, page, worked_out, solver
):
    solver("import sys; sys.exit(3)")
    browser.post(f"{page}begin/")
    ended(demo_house)
    shown = browser.get(page)
    assert "The last run gave no answer" in shown.text
    assert worked_out.answer["moves"][0]["says"] in shown.text
    assert browser.post(f"{page}accept/", {"run": worked_out.pk}).status_code == 302


def test_an_answer_is_read_out_and_the_list_says_where_each_would_hang(
    browser, demo_house, page, worked_out
):
    shown = browser.get(page)
    answer = worked_out.answer
    assert "Proved: no other use of the weights is better." in shown.text
    assert all(move["says"] in shown.text for move in answer["moves"])
    assert answer["totals"]["price"] in shown.text
    told = {
        (sash.name, side.side): side.says
        for sash in [*shown.context["to_do"], *shown.context["staying"]]
        for side in sash.sides
    }
    assert told == {
        (f"{one['window']} {one['sash']}", one["side"]): one["says"] for one in answer["sides"]
    }
    listed = {
        one.name: one for one in browser.get(f"/house/{demo_house.pk}/weights/").context["weights"]
    }
    moved = next(one for one in answer["sides"] if one["origin"] == "loose")
    assert listed[moved["weight"]].goes_to == f"{moved['window']} {moved['sash']} {moved['side']}"
    assert all(listed[one["weight"]].is_left_over for one in answer["left_over"])


def test_an_answer_to_an_older_survey_says_so_and_decisions_do_not_make_it_old(
    browser, demo_house, page, worked_out
):
    browser.post(f"{page}accept/", {"run": worked_out.pk})
    shown = browser.get(page)
    assert not shown.context["since"].is_old
    assert "Something has been decided since." in shown.text
    save(demo_house, [Edit(Key("house"), 1, {"note": "changed"})], who="Ben")
    assert "The survey has changed since." in browser.get(page).text


# -- decisions


def test_an_answer_is_accepted_in_one_change_undone_and_kept_to(
    browser, demo_house, page, worked_out
):
    before = demo_house.changes.count()
    assert browser.post(f"{page}accept/", {"run": worked_out.pk}).status_code == 302
    assert demo_house.changes.count() == before + 1
    assert kinds(demo_house) == ["hang"] * len(wishes_of(worked_out))
    browser.post(f"{page}accept/", {"run": worked_out.pk})
    assert demo_house.changes.count() == before + 1  # nothing twice
    change = demo_house.changes.latest("number")
    assert "allotment accepted" in change.summary
    browser.post(f"/house/{demo_house.pk}/undo/{change.number}/")
    assert kinds(demo_house) == []
    browser.post(f"{page}accept/", {"run": worked_out.pk})
    browser.post(f"{page}begin/")
    assert ended(demo_house).answer["sides"] == worked_out.answer["sides"]


def test_all_that_is_held_is_let_go_at_once_but_not_what_is_hung(
    browser, demo_house, page, worked_out
):
    browser.post(f"{page}accept/", {"run": worked_out.pk})
    (first, *_rest) = survey_of(demo_house).decision
    save(demo_house, [Edit(Key("decision", first.id), 1, {"what": "hung"})], who="Ann")
    before = demo_house.changes.count()
    assert browser.post(f"{page}withdraw/").status_code == 302
    assert kinds(demo_house) == ["hung"]
    assert demo_house.changes.count() == before + 1


def test_the_history_tells_of_decisions_by_the_names_of_now(browser, demo_house, page, worked_out):
    number, side = side_of(worked_out, "loose")
    browser.post(f"{page}decide/", {"run": worked_out.pk, "side": number, "what": "hang"})
    place = f"{side['window']} {side['sash']} {side['side']}"
    assert demo_house.changes.latest("number").summary == f"{side['weight']} held at {place}"
    (decision,) = survey_of(demo_house).decision
    browser.post(f"{page}withdraw/{decision.id}/")
    history = browser.get(f"/house/{demo_house.pk}/history/").text
    assert f"withdrawn: {side['weight']} held at {place}" in history


def test_a_long_answer_comes_in_pages(browser, page, worked_out, monkeypatch):
    monkeypatch.setattr("evenhung.web.allotment.views.PAGE", 4)
    shown = [browser.get(f"{page}?after={number}").context for number in (0, 4, 8)]
    sashes = [sash.name for one in shown for sash in [*one["to_do"], *one["staying"]]]
    assert len(sashes) == len(set(sashes)) == len(worked_out.answer["sashes"])
    assert shown[0]["pages"].after == "?after=4"
    assert shown[2]["pages"].after == ""


def side_of(run, origin):
    return next((n, one) for n, one in enumerate(run.answer["sides"]) if one["origin"] == origin)


def test_what_is_forbidden_is_not_done_again_and_can_be_allowed_again(
    browser, demo_house, page, worked_out
):
    number, side = side_of(worked_out, "loose")
    sent = {"run": worked_out.pk, "side": number}
    assert browser.post(f"{page}decide/", {**sent, "what": "never"}).status_code == 302
    assert f"{side['weight']} shall not hang at" in browser.get(page).text
    browser.post(f"{page}begin/")
    again = ended(demo_house).answer["sides"]
    assert side["weight"] not in [
        one["weight"]
        for one in again
        if one["window"] == side["window"] and one["side"] == side["side"]
    ]
    browser.post(f"{page}decide/", {**sent, "what": "hang"})
    assert kinds(demo_house) == ["hang"]  # the newer wish took the older one's place
    browser.post(f"{page}decide/", {**sent, "what": "never"})
    assert kinds(demo_house) == ["never"]
    browser.post(f"{page}withdraw/{survey_of(demo_house).decision[0].id}/")
    assert kinds(demo_house) == []


def test_a_weight_that_is_held_elsewhere_is_held_here_instead(
    browser, demo_house, page, worked_out
):
    number, side = side_of(worked_out, "loose")
    sash = worked_out.names["sashes"]["W5 lower"]
    weight = worked_out.names["weights"][side["weight"]]
    held = {"what": "hang", "sash": sash, "side": "left", "weight": weight}
    save(demo_house, [Edit(Key("decision"), 0, held)], who="Ben")
    browser.post(f"{page}decide/", {"run": worked_out.pk, "side": number, "what": "hang"})
    (decision,) = survey_of(demo_house).decision
    assert decision.sash == worked_out.names["sashes"][f"{side['window']} {side['sash']}"]


def test_a_side_is_hung_and_then_left_alone(browser, demo_house, page, worked_out):
    browser.post(f"{page}accept/", {"run": worked_out.pk})
    number, side = next((n, one) for n, one in enumerate(worked_out.answer["sides"]) if one["add"])
    form = f"{page}hung/{worked_out.pk}/{number}/"
    shown = browser.get(form)
    fields = {
        field.path: field.value for group in shown.context["groups"].values() for field in group
    }
    assert fields["on"] == timezone.localdate().isoformat()
    assert fields["by"] == "keeper"
    assert fields["added"]
    typed = {f"field.{path}": value for path, value in fields.items()}
    answer = browser.post(form, {**typed, "field.by": "Ann", "base": shown.context["base"]})
    assert answer.status_code == 302
    (hung,) = (one for one in survey_of(demo_house).decision if one.what == "hung")
    assert (hung.by, hung.side) == ("Ann", side["side"])
    assert kinds(demo_house).count("hang") == len(wishes_of(worked_out)) - 1  # it took its place
    assert "Ann" in browser.get(page).text
    refused = browser.post(
        f"{page}decide/", {"run": worked_out.pk, "side": number, "what": "never"}
    )
    assert refused.status_code == 409
    assert "hangs there already" in refused.text
    assert browser.post(f"{page}accept/", {"run": worked_out.pk}).status_code == 302
    assert kinds(demo_house).count("hung") == 1
    assert browser.get(f"{page}done/{hung.id}/").status_code == 200


def test_a_new_weight_is_hung_with_what_it_weighs(browser, demo_house, page, worked_out):
    number, _side = side_of(worked_out, "new")
    shown = browser.get(f"{page}hung/{worked_out.pk}/{number}/")
    fields = {
        field.path: field.value for group in shown.context["groups"].values() for field in group
    }
    typed = {f"field.{path}": value for path, value in fields.items()}
    assert browser.post(shown.request["PATH_INFO"], {**typed, "base": "0"}).status_code == 302
    (hung,) = survey_of(demo_house).decision
    assert (hung.what, hung.weight, bool(hung.weighed)) == ("hung", None, True)


def test_what_is_decided_outlasts_a_new_name(browser, demo_house, page, worked_out):
    """An answer speaks of tags as they were; a new tag changes nothing."""
    number, side = side_of(worked_out, "loose")
    survey = survey_of(demo_house)
    loose = next(one for one in survey.weight if one.tag == side["weight"])
    save(demo_house, [Edit(Key("weight", loose.id), 1, {"tag": "Z"})], who="Ben")
    browser.post(f"{page}decide/", {"run": worked_out.pk, "side": number, "what": "hang"})
    assert survey_of(demo_house).decision[0].weight == loose.id
    assert "Z shall hang at" in browser.get(page).text


def test_a_loose_weight_that_is_decided_on_is_not_removed(browser, demo_house, page, worked_out):
    number, side = side_of(worked_out, "loose")
    browser.post(f"{page}decide/", {"run": worked_out.pk, "side": number, "what": "hang"})
    weight = worked_out.names["weights"][side["weight"]]
    answer = browser.post(f"/house/{demo_house.pk}/weights/loose/{weight}/remove/")
    assert answer.status_code == 409
    assert "Withdraw that first" in answer.text


def test_a_weight_that_is_gone_cannot_be_held(browser, demo_house, page, worked_out):
    number, side = side_of(worked_out, "loose")
    weight = worked_out.names["weights"][side["weight"]]
    browser.post(f"/house/{demo_house.pk}/weights/loose/{weight}/remove/")
    for sent in ({"side": number, "what": "hang"}, {"side": number, "what": "never"}):
        answer = browser.post(f"{page}decide/", {"run": worked_out.pk, **sent})
        assert answer.status_code == 409
        assert "no longer in the survey" in answer.text
    assert browser.post(f"{page}accept/", {"run": worked_out.pk}).status_code == 409


def test_what_is_asked_for_must_be_there(browser, small_house, page, worked_out):
    assert browser.post(f"{page}begin/", {"seconds": "7"}).status_code == 400
    assert browser.post(f"{page}accept/", {"run": "x"}).status_code == 404
    other = f"/house/{small_house.pk}/allotment/"
    assert browser.post(f"{other}accept/", {"run": worked_out.pk}).status_code == 404
    for bad in (
        {"side": "999", "what": "hang"},
        {"side": "-1", "what": "hang"},
        {"side": "0", "what": "x"},
    ):
        assert browser.post(f"{page}decide/", {"run": worked_out.pk, **bad}).status_code == 400
    assert browser.get(f"{page}hung/{worked_out.pk}/999/").status_code == 400
