"""Versions of the form: none, false ones, newer ones, and older ones brought up to date."""

from __future__ import annotations

import pytest

from evenhung.errors import InvalidSurvey
from evenhung.survey import FORM, forms, survey_from

NOT_A_VERSION = [
    ({"form": None}, "form: null: a version of the form, at most 1"),
    ({"form": 0}, "form: 0: a version of the form, at most 1"),
    ({"form": -1}, "form: -1: a version of the form, at most 1"),
    ({"form": "1"}, "form: '1': a version of the form, at most 1"),
    ({"form": 1.0}, "form: 1.0: a version of the form, at most 1"),
    ({"form": True}, "form: true: a version of the form, at most 1"),
    (
        {"form": 2},
        "form: 2: at most 1; this survey was written by a newer Evenhung, which can read it",
    ),
]


@pytest.mark.parametrize(("version", "line"), NOT_A_VERSION, ids=range(len(NOT_A_VERSION)))
def test_only_a_version_this_program_knows_is_read(house, version, line):
    del house["form"]
    with pytest.raises(InvalidSurvey) as caught:
        survey_from({**version, **house, "unknown": 1})
    assert str(caught.value) == line  # and nothing else: the rest is judged by its own version


def test_an_absent_version_is_said_with_all_the_other_faults(house):
    del house["form"]
    with pytest.raises(InvalidSurvey) as caught:
        survey_from({**house, "unknown": 1})
    assert str(caught.value).splitlines() == [
        "form: (absent): form = 1, above everything else",
        "unknown: 1: no such key; known are booked, decision, form, house, weight, window",
    ]


def test_there_is_a_step_from_every_older_version():
    assert sorted(forms.STEPS) == list(range(1, FORM))


def test_the_newest_form_is_left_as_it_is(house):
    assert forms.brought_up_to_date(house) is house


def test_an_older_survey_is_brought_up_to_date_step_by_step():
    def to_2(document):
        return {**document, "form": 2, "rooms": [document["house"]["name"]]}

    def to_3(document):
        return {**document, "form": 3, "rooms": [*document["rooms"], "Cellar"]}

    before = {"form": 1, "house": {"name": "Alder Row"}}
    found = forms.brought_up_to_date(before, steps={1: to_2, 2: to_3}, newest=3)
    assert found == {"form": 3, "house": {"name": "Alder Row"}, "rooms": ["Alder Row", "Cellar"]}
    assert before == {"form": 1, "house": {"name": "Alder Row"}}
    from_2 = forms.brought_up_to_date({"form": 2, "rooms": []}, steps={1: to_2, 2: to_3}, newest=3)
    assert from_2 == {"form": 3, "rooms": ["Cellar"]}


def test_a_version_beyond_the_newest_is_refused_whatever_the_newest_is():
    with pytest.raises(
        InvalidSurvey, match=r"^form: 4: at most 3; this survey was written by a new"
    ):
        forms.brought_up_to_date({"form": 4}, steps={}, newest=3)
