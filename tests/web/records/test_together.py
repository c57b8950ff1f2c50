"""Many at once: nobody overwrites anybody, and the history has no gap."""

from __future__ import annotations

import threading

from django.db import connection

from evenhung.web.records.latest import standing_parts
from evenhung.web.records.merging import Edit
from evenhung.web.records.models import Change, Revision
from evenhung.web.records.saving import Conflict, Saved, save

SAVERS, TURNS = 4, 8


def run_together(work):
    faults = []

    def guarded(number):
        try:
            work(number)
        except Exception as fault:
            faults.append(fault)
        finally:
            connection.close()

    threads = [threading.Thread(target=guarded, args=(number,)) for number in range(SAVERS)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert faults == []


def test_who_touch_one_field_all_hear_of_each_other(small_house):
    key = next(part.key for part in standing_parts(small_house) if part.key.kind == "window")
    outcomes = []

    def work(number):
        for turn in range(TURNS):
            base = next(p.number for p in standing_parts(small_house) if p.key == key)
            edit = Edit(key, base, {"note": f"{number} {turn}"})
            outcomes.append((edit, save(small_house, [edit], who=f"{number}")))

    run_together(work)
    saved = [edit for edit, outcome in outcomes if isinstance(outcome, Saved)]
    asked = [edit for edit, outcome in outcomes if isinstance(outcome, Conflict)]
    assert len(saved) + len(asked) == SAVERS * TURNS
    revisions = Revision.objects.filter(part__house=small_house, part__kind="window")[1:]
    assert len(revisions) == len(saved) > 0
    assert {one.body["note"] for one in revisions} == {edit.fields["note"] for edit in saved}
    assert [one.number for one in revisions] == list(range(2, len(saved) + 2))
    assert [one.parent.number for one in revisions] == list(range(1, len(saved) + 1))


def test_who_touch_different_fields_all_are_kept(small_house):
    key = next(part.key for part in standing_parts(small_house) if part.key.kind == "window")
    fields = ("note", "room", "lower.note", "lower.left.note")

    def work(number):
        for turn in range(TURNS):
            base = next(p.number for p in standing_parts(small_house) if p.key == key)
            outcome = save(small_house, [Edit(key, base, {fields[number]: f"{turn}"})], who="x")
            assert isinstance(outcome, Saved)

    run_together(work)
    (part,) = (part for part in standing_parts(small_house) if part.key == key)
    last = f"{TURNS - 1}"
    lower = part.body["lower"]
    assert (part.body["note"], part.body["room"]) == (last, last)
    assert (lower["note"], lower["left"]["note"]) == (last, last)
    numbers = Change.objects.filter(house=small_house).values_list("number", flat=True)
    assert list(numbers) == list(range(1, SAVERS * TURNS + 2))
