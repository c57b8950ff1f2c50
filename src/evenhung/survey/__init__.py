"""The survey: what a house of windows is, as it was found."""

from evenhung.survey.document import FORM, Survey
from evenhung.survey.reading import Notation, read_survey, survey_from
from evenhung.survey.writing import written_survey

__all__ = ["FORM", "Notation", "Survey", "read_survey", "survey_from", "written_survey"]
