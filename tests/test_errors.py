"""The family of errors."""

import pickle

import pytest

from evenhung.errors import (
    DrawingDomainError,
    EvenhungError,
    InvalidQuantity,
    InvalidSurvey,
    PhysicsDomainError,
    SurveyFault,
    UnknownReference,
)


def test_every_error_is_of_the_family_and_of_its_builtin_kind():
    assert issubclass(InvalidQuantity, (EvenhungError, ValueError))
    for child, builtin in [
        (InvalidQuantity, ValueError),
        (InvalidSurvey, ValueError),
        (DrawingDomainError, ValueError),
        (PhysicsDomainError, ValueError),
        (UnknownReference, LookupError),
    ]:
        assert issubclass(child, EvenhungError)
        assert issubclass(child, builtin)


def test_an_invalid_survey_prints_one_line_for_each_fault():
    faults = (SurveyFault("house.name", "''", "a name"), SurveyFault("form", "2", "1"))
    error = InvalidSurvey(faults)
    assert error.faults == faults
    assert str(error) == "house.name: '': a name\nform: 2: 1"


@pytest.mark.parametrize(
    "error",
    [InvalidQuantity("838", "add a unit"), InvalidSurvey((SurveyFault("form", "2", "1"),))],
)
def test_errors_survive_pickling(error):
    again = pickle.loads(pickle.dumps(error))  # noqa: S301 - our own bytes
    assert (type(again), str(again), vars(again)) == (type(error), str(error), vars(error))
