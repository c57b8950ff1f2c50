"""``evenhung programme``: lines, one JSON object, a calendar that reads back, a conflict."""

from __future__ import annotations

import json
from datetime import date, timedelta

import pytest
from icalendar import Calendar


@pytest.fixture
def surveyed(tollgate, tmp_path):
    """Give ``surveyed(**programme)``: a file of the demo house with such a programme."""

    def write(**programme):
        tollgate["house"]["programme"] = {"start": "2026-03-09", **programme}
        path = tmp_path / "house.json"
        path.write_text(json.dumps(tollgate))
        return str(path)

    return write


def test_it_prints_one_object_and_a_calendar_that_says_the_same(says, surveyed, tmp_path):
    ics = tmp_path / "programme.ics"
    code, lines, _ = says("programme", surveyed(), "--json", "--ics", str(ics))
    assert (code, len(lines)) == (0, 1)
    found = json.loads(lines[0])
    steps = {
        (f"{window['tag']}: {step['name']}", step["first"], step["last"])
        for window in found["windows"]
        for step in window["steps"]
    }
    calendar = Calendar.from_ical(ics.read_bytes())
    events = calendar.walk("VEVENT")
    read = {
        (
            str(event["summary"]),
            event.decoded("dtstart").isoformat(),
            (event.decoded("dtend") - timedelta(days=1)).isoformat(),
        )
        for event in events
    }
    assert read == steps
    assert {type(event.decoded("dtstart")) for event in events} == {date}
    assert len({str(event["uid"]) for event in events}) == len(events) > 0


def test_a_step_that_moves_keeps_its_identity(says, surveyed, tmp_path):
    uids = []
    for extra in ((), ("--lost", "2026-03-09")):
        ics = tmp_path / f"{len(uids)}.ics"
        says("programme", surveyed(), "--ics", str(ics), *extra)
        events = Calendar.from_ical(ics.read_bytes()).walk("VEVENT")
        uids.append({str(event["uid"]): event.decoded("dtstart") for event in events})
    assert uids[0].keys() == uids[1].keys()
    assert uids[0] != uids[1]


def test_the_first_line_has_the_days_and_the_proof(says, surveyed):
    code, lines, _ = says("programme", surveyed())
    assert code == 0
    assert lines[0].startswith("Tollgate House: Mon 2026-03-09 to ")
    assert lines[0].endswith("; proved: no programme ends sooner")


def test_a_lost_day_says_what_moved(says, surveyed):
    _, lines, _ = says("programme", surveyed(), "--lost", "2026-03-09")
    assert any(line.startswith("moved: W") for line in lines)
    _, lines, _ = says("programme", surveyed(), "--lost", "2026-03-08")
    assert "moved: nothing" in lines


def test_a_conflict_is_an_answer(says, surveyed):
    code, lines, _ = says("programme", surveyed(deadline="2026-03-09", hours_a_day=1))
    assert code == 0
    assert lines[0] == "Tollgate House: cannot be scheduled because these cannot all be kept:"
    assert lines[1].startswith("because: the work shall end by 2026-03-09, which leaves 1 day ")
    assert lines[-1].startswith("without the deadline the work would end on ")


@pytest.mark.parametrize(
    ("arguments", "line"),
    [
        (["--lost", "9 March"], "--lost: '9 March': a day, year first, such as \"2026-03-09\""),
        (["--ics", "/nowhere/at/all.ics"], "--ics: '/nowhere/at/all.ics': a file that can be "),
    ],
)
def test_a_wrong_option_is_refused(says, surveyed, arguments, line):
    code, lines, errors = says("programme", surveyed(), *arguments)
    assert (code, lines) == (2, [])
    assert errors[-1].startswith(line)


def test_impossible_dates_are_refused(says, surveyed):
    code, _, errors = says("programme", surveyed(deadline="2026-02-30"))
    assert code == 2
    assert errors[0].startswith("house.programme.deadline: '2026-02-30': a day, year first")


def test_nothing_to_do_is_said(says, tmp_path):
    path = tmp_path / "empty.toml"
    path.write_text('form = 1\n[house]\nname = "Alder Row"\n')
    assert says("programme", str(path))[1] == ["Alder Row: nothing is to be done"]
