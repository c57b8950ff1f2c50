"""Rules that every reference row keeps."""

from fractions import Fraction

import pytest

from evenhung.reference import SUBJECTS, keys, look_up, rows, sources
from evenhung.reference.row import KNOWN, TEXT, UNITS

EVERY_ROW = [row for subject in SUBJECTS for row in rows(subject)]

every_subject = pytest.mark.parametrize("subject", SUBJECTS)


@every_subject
def test_source_unit_and_how_known_are_of_the_lists(subject):
    for row in rows(subject):
        assert row.source in sources(), row
        assert row.unit in UNITS, row
        assert row.known in KNOWN, row


@every_subject
def test_the_number_is_the_printed_value(subject):
    for row in rows(subject):
        if row.unit == TEXT:
            assert row.number is None, row
            assert row.value.endswith("."), row
        else:
            exact = sum(Fraction(part) for part in row.value.split(" "))
            assert row.number == float(exact), row


@every_subject
def test_no_field_has_stray_spaces(subject):
    for row in rows(subject):
        for field in (row.key, row.property, row.value, row.source, row.locator, row.remark):
            assert field == " ".join(field.split()), row


@every_subject
def test_how_known_agrees_with_the_source(subject):
    for row in rows(subject):
        assert (row.source == "ours") == (row.known == "ours"), row
        assert (row.source == "trade") == (row.known == "common practice"), row
        if row.source == "recalled":
            assert row.known == "from memory", row
        if row.known == "confirmed":
            assert sources()[row.source].note != "not seen", row


@every_subject
def test_a_spread_that_is_not_printed_is_explained(subject):
    for row in rows(subject):
        if row.spread is not None and row.known != "ours":
            assert "spread" in row.remark, row


@every_subject
def test_a_property_is_a_name_and_a_percentage_says_so(subject):
    for row in rows(subject):
        assert row.property.isidentifier(), row
        assert row.property == row.property.lower(), row
        if row.property.endswith("_pct"):
            assert row.unit == "pct", row


def test_exactly_one_row_of_each_key_and_property_is_chosen():
    chosen = [(row.subject, row.key, row.property) for row in EVERY_ROW if row.chosen]
    assert len(chosen) == len(set(chosen))
    assert set(chosen) == {(row.subject, row.key, row.property) for row in EVERY_ROW}


def test_every_source_is_used():
    assert {row.source for row in EVERY_ROW} == set(sources())


def test_no_row_is_there_twice():
    places = [(*row[:4], row.unit, row.source) for row in EVERY_ROW]
    assert len(places) == len(set(places))


@pytest.mark.parametrize("timber", keys("timber"))
def test_every_timber_has_a_weight_with_a_spread(timber):
    weights = [
        row
        for row in rows("timber")
        if row.key == timber
        and row.chosen
        and row.property in {"specific_gravity_green", "density_12pct"}
    ]
    assert weights
    assert all(row.si_spread and 0.03 < row.si_spread / row.si < 0.25 for row in weights)


@pytest.mark.parametrize(
    ("prefix", "least", "most"),
    [("specific_gravity", 0.25, 0.9), ("density", 250.0, 1000.0), ("shrinkage", 1.0, 15.0)],
)
def test_timbers_lie_where_timbers_lie(prefix, least, most):
    found = [row for row in rows("timber") if row.property.startswith(prefix)]
    assert found
    assert all(least < row.si < most for row in found)


@pytest.mark.parametrize("mm", [5, 6, 8])
def test_cord_masses_are_one_cord_at_three_sizes(mm):
    cord = look_up("cords", f"cord {mm} mm", "mass_per_length")
    round_g_m = look_up("cords", "cord", "apparent_density").si * 3.14159265 / 4 * mm**2 / 1000
    assert cord.si == pytest.approx(round_g_m, abs=0.5)


@pytest.mark.parametrize("band", ["light sash", "middle sash", "heavy sash"])
@pytest.mark.parametrize("end", ["lower_excess", "upper_deficit"])
def test_bands_run_from_least_to_most(band, end):
    least, best, most = (
        look_up("policy", band, f"{end}_{name}").si for name in ("least", "best", "most")
    )
    assert 0.0 < least < best < most


def test_friction_runs_from_least_to_most():
    least, likely, most = (look_up("friction", "slide", n).si for n in ("least", "likely", "most"))
    assert 0.0 < least < likely < most
    axle = [look_up("friction", "pulley", n).si for n in ("axle_least", "axle", "axle_most")]
    assert axle == sorted(axle)


@pytest.mark.parametrize("hazard", keys("hazards"))
def test_every_caution_has_a_rule_and_defers_to_whoever_decides(hazard):
    assert look_up("hazards", hazard, "rule").unit == TEXT
    for row in rows("hazards"):
        if row.key == hazard:
            assert row.remark.endswith(
                "Follow the local code and whoever is licensed to do this work."
            )
