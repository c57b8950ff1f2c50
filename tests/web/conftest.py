"""The app under test: one database for the whole run, a house of its own for every test.

Rows are only ever added, so nothing is emptied between tests: each begins a house and looks at no
other. With ``EVENHUNG_DATABASE_URL`` set the same tests run on that database instead.
"""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from evenhung.web.config import Config
from evenhung.web.database import bring_up_to_date

bring_up_to_date(Config.from_variables())

from django.test import Client  # noqa: E402
from django.test.utils import setup_test_environment  # noqa: E402

from evenhung.store.demo import SURVEY  # noqa: E402
from evenhung.survey import read_survey, survey_from  # noqa: E402
from evenhung.web.records.beginning import begin  # noqa: E402

setup_test_environment()  # so that a test can see what a page was given

SMALL = {
    "form": 1,
    "house": {"name": "Alder Row", "shown_in": "imperial"},
    "window": [
        {
            "tag": "W1",
            "box": {
                "clear_width": "860 mm",
                "clear_height": "1650 mm",
                "weight_space": "1545 mm",
                "pulley_drop": "90 mm",
            },
            "pulley": {"wheel": "44 mm"},
            "lower": {
                "height": "840 mm",
                "width": "857 mm",
                "cord_end": "260 mm",
                "weighed": "11 lb",
                "left": {"weighed": "5 lb", "length": "300 mm", "diameter": "38 mm"},
                "right": {"weighed": "5 lb", "length": "300 mm", "diameter": "38 mm"},
            },
        },
    ],
}


@pytest.fixture
def small_survey():
    """Give a house of one window with one sash, as plain data."""
    return survey_from(SMALL).as_typed()


@pytest.fixture
def small_house():
    """Give the house of one window with one sash, saved."""
    return begin(survey_from(SMALL), who="Ann")


@pytest.fixture
def demo_house():
    """Give the demo house, saved."""
    return begin(read_survey(SURVEY.read_bytes()), who="Ann")


@pytest.fixture
def browser():
    """Give a client that follows nothing and raises nothing: it sees what a browser would."""
    return Client(headers={"host": "localhost"}, raise_request_exception=False)


@pytest.fixture
def data_folder():
    """Give the folder that the app keeps its data in."""
    return Path(os.environ["EVENHUNG_DATA"])
