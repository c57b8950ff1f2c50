"""Records: frozen, alike where they state the same, plain to read."""

from __future__ import annotations

import pytest

from evenhung.quantities import Length
from evenhung.survey import survey_from
from evenhung.survey.fields import Record
from evenhung.survey.house import Cord, House
from evenhung.survey.sash import Sash


def test_what_was_found_is_never_overwritten(tollgate):
    survey = survey_from(tollgate)
    with pytest.raises(AttributeError, match=r"^Sash\.height is frozen$"):
        survey.window[0].upper.height = Length.parse("1 m")
    with pytest.raises(AttributeError, match=r"^House\.name is frozen$"):
        survey.house.name = "Another House"
    assert survey.as_typed() == tollgate


def test_records_that_state_the_same_are_equal_and_hash_alike(tollgate):
    one, other = survey_from(tollgate), survey_from(tollgate)
    assert one == other
    assert hash(one.window[0]) == hash(other.window[0])
    assert len({window.pulley for window in (*one.window, *other.window)}) == len(
        {window.pulley for window in one.window}
    )


def test_the_same_size_typed_otherwise_is_not_the_same_record(tollgate):
    one = survey_from(tollgate)
    tollgate["window"][0]["box"]["clear_width"] = "86 cm"
    other = survey_from(tollgate)
    assert one.window[0].box.clear_width.mm == other.window[0].box.clear_width.mm
    assert one.window[0].box != other.window[0].box


def test_records_of_two_kinds_are_never_equal():
    assert Cord() != House()
    assert Record() != Cord()


def test_a_record_names_itself_and_what_it_states():
    assert repr(Cord(stretch_pct=1)) == "Cord(stretch_pct=1)"
    assert repr(Cord()) == "Cord()"


def test_what_was_not_stated_falls_back_on_the_declaration():
    survey = survey_from({"form": 1, "house": {"name": "Alder Row"}})
    assert survey.house.cord == Cord()
    assert survey.house.cord.diameter is None
    assert "cord" not in survey.as_typed()["house"]


def test_a_plain_record_contradicts_nothing():
    assert list(Cord().contradictions()) == []


def test_every_field_says_what_it_holds_and_what_its_absence_means():
    seen, waiting = set(), [survey_from({"form": 1, "house": {"name": "A"}}).__class__]
    while waiting:
        kind = waiting.pop()
        if kind in seen:
            continue
        seen.add(kind)
        for name, entry in kind.entries.items():
            assert entry.says, (kind, name)
            assert entry.is_required == (entry.absent == ""), (kind, name)
            waiting += [entry.part] if entry.part else []
    assert Sash in seen
    assert len(seen) >= 17
