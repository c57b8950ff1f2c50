"""Saving: what is kept, what is refused with everything typed, what two people must settle."""

from __future__ import annotations

import pytest
from django.db import IntegrityError, transaction

from evenhung.store.parts import Key
from evenhung.web.records.latest import standing_parts, survey_document, survey_of
from evenhung.web.records.merging import Edit
from evenhung.web.records.models import Change, Revision
from evenhung.web.records.saving import Conflict, Refused, Saved, save


@pytest.fixture
def window(small_house):
    """Give the window of the small house as it stands."""
    (part,) = (part for part in standing_parts(small_house) if part.key.kind == "window")
    return part


def now(house, key):
    return next((part for part in standing_parts(house) if part.key == key), None)


def test_what_is_begun_is_the_survey_with_ids(small_house, small_survey):
    document = survey_document(standing_parts(small_house))
    window = document["window"][0]
    assert len(window.pop("id")) == 16
    assert window["lower"]["left"].pop("id") != window["lower"]["right"].pop("id")
    assert document == small_survey


def test_a_save_adds_a_revision_that_names_its_parent(small_house, window):
    edit = Edit(window.key, 1, {"lower.weighed": "11 lb 4 oz"})
    outcome = save(small_house, [edit], who="Ben")
    assert isinstance(outcome, Saved)
    first, second = Revision.objects.filter(part__house=small_house, part__kind="window")
    assert (second.number, second.parent) == (2, first)
    assert first.body["lower"]["weighed"] == "11 lb"
    change = second.change
    assert (change.who, change.number) == ("Ben", 2)
    assert change.summary == "W1 lower: weighed 11 lb 4 oz, was 11 lb"


def test_an_id_is_never_changed(small_house, window):
    save(small_house, [Edit(window.key, 1, {"tag": "W7"})], who="Ben")
    assert now(small_house, window.key).body["id"] == window.body["id"]


def test_nothing_typed_is_no_change(small_house, window):
    outcome = save(small_house, [Edit(window.key, 1, {"lower.weighed": "11 lb"})], who="Ben")
    assert outcome == Saved(None, (window.key,))
    assert Change.objects.filter(house=small_house).count() == 1


def test_what_is_wrong_is_said_by_field_and_nothing_is_kept(small_house, window):
    edit = Edit(window.key, 1, {"lower.weighed": "11", "box.clear_width": "9 mm"})
    outcome = save(small_house, [edit], who="Ben")
    assert isinstance(outcome, Refused)
    assert {(fault.key, fault.field) for fault in outcome.faults} == {
        (window.key, "lower.weighed"),
        (window.key, "box.clear_width"),
    }
    assert outcome.edits == (edit,)
    assert now(small_house, window.key).number == 1


def test_two_who_touch_different_fields_are_both_kept(small_house, window):
    save(small_house, [Edit(window.key, 1, {"lower.weighed": "12 lb"})], who="Ben")
    outcome = save(small_house, [Edit(window.key, 1, {"room": "Hall"})], who="Cass")
    assert outcome.also == ("W1 lower: weighed 12 lb, was 11 lb",)
    body = now(small_house, window.key).body
    assert (body["lower"]["weighed"], body["room"]) == ("12 lb", "Hall")


def test_two_who_touch_one_field_must_settle_it(small_house, window):
    save(small_house, [Edit(window.key, 1, {"lower.weighed": "12 lb"})], who="Ben")
    edit = Edit(window.key, 1, {"lower.weighed": "13 lb", "room": "Hall"})
    outcome = save(small_house, [edit], who="Cass")
    assert isinstance(outcome, Conflict)
    (dispute,) = outcome.disputes
    assert [tuple(clash) for clash in dispute.clashes] == [
        ("lower.weighed", "11 lb", "12 lb", "13 lb")
    ]
    assert (dispute.latest, dispute.who) == (2, "Ben")
    settled = Edit(window.key, dispute.latest, {"lower.weighed": "13 lb", "room": "Hall"})
    assert isinstance(save(small_house, [settled], who="Cass"), Saved)
    assert now(small_house, window.key).body["lower"]["weighed"] == "13 lb"


def test_two_who_set_the_same_value_agree(small_house, window):
    edit = Edit(window.key, 1, {"lower.weighed": "12 lb"})
    save(small_house, [edit], who="Ben")
    assert save(small_house, [edit], who="Cass") == Saved(
        None, (window.key,), ("W1 lower: weighed 12 lb, was 11 lb",)
    )


def test_what_was_removed_meanwhile_is_not_brought_back_unasked(small_house, window):
    save(small_house, [Edit(window.key, 1, removes=True)], who="Ben")
    outcome = save(small_house, [Edit(window.key, 1, {"room": "Hall"})], who="Cass")
    assert isinstance(outcome, Conflict)
    assert outcome.disputes[0].clashes[0].field == ""
    assert now(small_house, window.key) is None


def test_what_was_changed_meanwhile_is_not_removed_unasked(small_house, window):
    save(small_house, [Edit(window.key, 1, {"room": "Hall"})], who="Ben")
    outcome = save(small_house, [Edit(window.key, 1, removes=True)], who="Cass")
    assert isinstance(outcome, Conflict)
    assert now(small_house, window.key).body["room"] == "Hall"


def test_a_tag_that_another_window_has_is_refused(demo_house):
    first, second, *_ = (part for part in standing_parts(demo_house) if part.key.kind == "window")
    outcome = save(demo_house, [Edit(second.key, 1, {"tag": first.body["tag"]})], who="Ben")
    assert [fault.field for fault in outcome.faults] == ["tag"]


def test_windows_keep_their_order_and_a_new_one_is_last(demo_house):
    def tags():
        return [window.tag for window in survey_of(demo_house).window]

    windows = [part for part in standing_parts(demo_house) if part.key.kind == "window"]
    save(demo_house, [Edit(windows[0].key, 1, {"note": "seen"})], who="Ben")
    new = {name: windows[0].body[name] for name in ("box", "pulley")}
    save(demo_house, [Edit(Key("window"), 0, {**new, "tag": "W9"})], who="Ben")
    assert tags() == ["W1", "W2", "W3", "W4", "W5", "W6", "W9"]
    between = (windows[0].place + windows[1].place) / 2
    save(demo_house, [Edit(windows[5].key, 1, place=between)], who="Ben")
    assert tags() == ["W1", "W6", "W2", "W3", "W4", "W5", "W9"]


def test_a_revision_that_is_not_there_is_an_error(small_house, window):
    with pytest.raises(LookupError, match="no revision 7"):
        save(small_house, [Edit(window.key, 7, {"room": "Hall"})], who="Ben")


@pytest.mark.parametrize("word", ["update", "delete"])
@pytest.mark.parametrize("model", [Revision, Change])
@pytest.mark.usefixtures("small_house")
def test_the_database_refuses_to_change_what_was_saved(model, word):
    rows = model.objects.filter(pk=model.objects.latest("pk").pk)
    name = "text" if model is Revision else "summary"
    with pytest.raises(IntegrityError, match="never changed"), transaction.atomic():
        rows.update(**{name: "x"}) if word == "update" else rows._raw_delete(rows.db)
