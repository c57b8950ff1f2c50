"""How a sash ran once the work was done: what can be said of it, and what cannot be so."""

from __future__ import annotations

import pytest

from evenhung.errors import InvalidSurvey
from evenhung.survey import read_survey, survey_from, written_survey
from evenhung.survey.completion import PLACES

WHOLE = {
    "on": "2026-11-27",
    "by": "Ann",
    "let_go": {"shut": "stays", "half": "stays", "open": "drops"},
    "raising": ["30 N", "7 lb"],
    "lowering": ["2.1 kgf"],
    "note": "left runner waxed again",
}


@pytest.fixture
def tried(house):
    """Gives ``tried(place, completion, ...)``: the house with one of its sashes tried."""

    def make(place, completion, **sash):
        house["window"][0][place] |= {"completion": completion, **sash}
        return house

    return make


def test_it_keeps_what_was_typed(tried):
    document = tried("lower", WHOLE)
    survey = survey_from(document)
    completion = survey.window[0].lower.completion
    assert completion.let_go.seen() == {"shut": "stays", "half": "stays", "open": "drops"}
    assert completion.raising[1].n == pytest.approx(31.1, abs=0.05)  # 7 x 4.448 N
    assert survey.as_typed() == document
    assert read_survey(written_survey(survey)) == survey


def test_a_form_without_it_is_as_it_was(house):
    survey = survey_from(house)
    assert survey.window[0].upper.completion is None


def test_nothing_of_it_must_be_stated(tried):
    survey = survey_from(tried("upper", {}))
    assert survey.window[0].upper.completion.let_go.seen() == {}


REFUSED = [
    ({"on": "2026-02-30"}, "on: 2026-02-30: a day, year first"),
    ({"on": "27.11.2026"}, "on: 27.11.2026: a day, year first"),
    ({"raising": ["30"]}, "raising[0]: 30: "),
    ({"raising": [30]}, "raising[0]: 30: "),
    ({"lowering": ["9 N"] * 10}, "lowering: "),
    ({"let_go": {"half": "sticks"}}, "let_go.half: sticks: "),
    ({"let_go": {"ajar": "stays"}}, "let_go.ajar: "),
    ({"raising": ["3 N"], "restraining": ["3 N"]}, "restraining: 3 N: either raising or"),
    ({"lowering": ["3 N"], "holding": ["3 N", "4 N"]}, "holding: 3 N, 4 N: either lowering or"),
]


@pytest.mark.parametrize(("completion", "says"), REFUSED, ids=range(len(REFUSED)))
def test_what_cannot_be_read_is_refused_by_its_name(tried, refused, completion, says):
    (fault,) = refused(tried("lower", completion))
    assert fault.replace("'", "").startswith(f"window[0].lower.completion.{says}")


@pytest.mark.parametrize(
    ("place", "end", "did", "says"),
    [
        ("lower", "shut", "drops", "stays or rises: shut, it is as low as it goes"),
        ("lower", "open", "rises", "stays or drops: open, it is as high as it goes"),
        ("upper", "shut", "rises", "stays or drops: shut, it is as high as it goes"),
        ("upper", "open", "drops", "stays or rises: open, it is as low as it goes"),
    ],
)
def test_no_sash_goes_on_beyond_the_end_of_its_travel(tried, refused, place, end, did, says):
    (fault,) = refused(tried(place, {"let_go": {end: did}}))
    assert fault.startswith(f"window[0].{place}.completion.let_go.{end}: ")
    assert says in fault


def test_everywhere_else_it_may_go_either_way(tried):
    for place in ("quarter", "half", "three_quarters"):
        for did in ("drops", "rises"):
            survey_from(tried("lower", {"let_go": {place: did}}))
    assert survey_from(tried("lower", {"let_go": {"shut": "rises", "open": "drops"}}))


def test_one_place_is_said_once(tried):
    text = written_survey(survey_from(tried("lower", {"let_go": {"half": "stays"}}))).decode()
    twice = text.replace('half = "stays"', 'half = "stays"\nhalf = "drops"')
    assert twice != text
    with pytest.raises(InvalidSurvey, match="Cannot overwrite a value"):
        read_survey(twice.encode())
    json = b'{"form": 1, "house": {"name": "Alder Row", "let_go": {"half": 1, "half": 2}}}'
    with pytest.raises(InvalidSurvey, match="half"):
        read_survey(json, "json")


def test_a_fixed_sash_has_nothing_to_prove(tried, refused):
    (fault,) = refused(tried("upper", {"on": "2026-11-27"}, runs="no"))
    assert "nothing, for a fixed sash has nothing to prove" in fault
    (fault,) = refused(tried("upper", {}, runs="no"))
    assert "upper.completion: (empty): " in fault


def test_the_places_are_those_of_the_form():
    survey = survey_from({"form": 1, "house": {"name": "Alder Row"}})
    window = type(survey).entries["window"].part
    let_go = window.entries["lower"].part.entries["completion"].part.entries["let_go"].part
    assert tuple(let_go.entries) == PLACES
