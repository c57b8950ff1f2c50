"""Whatever a survey states is kept as it was typed, in either notation, and nothing is added."""

from __future__ import annotations

import json
import tomllib

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from evenhung.survey import read_survey, survey_from, written_survey
from evenhung.survey.document import Survey

# Surveys are large: they take hypothesis long to make, and say so.
SLOW = [HealthCheck.too_slow, HealthCheck.data_too_large]
large = settings(deadline=None, max_examples=100, suppress_health_check=SLOW)


@large
@given(st.data())
def test_a_survey_is_kept_as_typed_and_nothing_is_added(surveys, data):
    document = data.draw(surveys)
    assert _told(survey_from(document).as_typed()) == _told(document)


@large
@given(st.data())
@pytest.mark.parametrize("notation", ["toml", "json"])
def test_a_survey_reads_back_as_itself(surveys, notation, data):
    survey = survey_from(data.draw(surveys))
    again = read_survey(written_survey(survey, notation), notation)
    assert again == survey
    assert _told(again.as_typed()) == _told(survey.as_typed())


def _told(document):
    """Tell values apart that Python takes for equal, such as 3 and 3.0; keys in no order."""
    return json.dumps(document, sort_keys=True)


@pytest.mark.parametrize(
    "typed",
    ["1 st 2 lb", " 11 lb 4 oz", "5,1 kg", "11¼ lb", "5.250 kg", "11 LB", "1 cwt"],
)
def test_a_mass_is_written_exactly_as_it_was_typed(tollgate, typed):
    tollgate["window"][0]["upper"]["weighed"] = typed
    survey = survey_from(tollgate)
    assert survey.window[0].upper.weighed.text == typed
    back = tomllib.loads(written_survey(survey).decode())
    assert back["window"][0]["upper"]["weighed"] == typed


@pytest.mark.parametrize(("typed", "written"), [(3, "= 3\n"), (3.0, "= 3.0\n"), (2.5, "= 2.5\n")])
def test_a_number_is_written_as_it_was_typed(tollgate, typed, written):
    tollgate["house"]["cord"]["stretch_pct"] = typed
    assert f"stretch_pct {written}" in written_survey(survey_from(tollgate)).decode()


def test_the_demo_house_is_written_and_read_in_both_notations(tollgate):
    survey = survey_from(tollgate)
    for notation in ("toml", "json"):
        assert read_survey(written_survey(survey, notation), notation).as_typed() == tollgate


def test_imperial_in_a_metric_house_and_the_reverse_are_one_survey(tollgate):
    tollgate["house"]["shown_in"] = "metric"
    tollgate["window"][0]["upper"]["weighed"] = "18 lb"
    tollgate["window"][0]["lower"]["weighed"] = "8.62 kg"
    window = survey_from(tollgate).window[0]
    assert window.upper.weighed.kg == pytest.approx(8.1646627, abs=1e-6)
    assert window.lower.weighed.kg == 8.62


def test_text_of_any_script_and_notes_of_several_lines_are_kept():
    house = {"name": "Gräfin’s Haus · 窓 · ½", "note": "measured twice\n\tonce by torch\n"}
    survey = survey_from({"form": 1, "house": house})
    for notation in ("toml", "json"):
        assert read_survey(written_survey(survey, notation), notation).as_typed()["house"] == house


def test_a_byte_order_mark_and_windows_line_ends_are_read():
    data = b'\xef\xbb\xbfform = 1\r\n[house]\r\nname = "Alder Row"\r\n'
    assert read_survey(data).house.name == "Alder Row"


def test_a_house_without_windows_is_a_survey():
    survey = survey_from({"form": 1, "house": {"name": "Alder Row"}})
    assert survey.window == ()
    assert survey.as_typed() == {"form": 1, "house": {"name": "Alder Row"}}
    assert isinstance(survey, Survey)
