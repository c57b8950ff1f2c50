"""Densities of metals against periodictable, an independent table of the elements."""

import periodictable
import pytest

from evenhung.reference import look_up, rows

G_CM3_TO_KG_M3 = 1000.0


@pytest.mark.parametrize(
    ("metal", "element"), [("lead", "Pb"), ("zinc", "Zn"), ("iron", "Fe")], ids=["Pb", "Zn", "Fe"]
)
def test_an_element_weighs_what_the_periodic_table_says(metal, element):
    ours = look_up("metals", metal, "density")
    theirs = getattr(periodictable, element).density * G_CM3_TO_KG_M3
    assert ours.si == pytest.approx(theirs, rel=0.002)


@pytest.mark.parametrize(
    "row", [row for row in rows("metals") if row.source == "periodictable"], ids=lambda row: row.key
)
def test_a_row_that_cites_periodictable_prints_its_value(row):
    element = getattr(periodictable, row.locator)
    assert row.number == pytest.approx(element.density * G_CM3_TO_KG_M3, abs=0.5)


@pytest.mark.parametrize("metal", ["cast iron", "wrought iron", "mild steel"])
def test_an_iron_with_carbon_or_slag_is_lighter_than_the_element(metal):
    """The graphite or slag in it weighs less than iron: no such metal is denser than Fe."""
    iron = periodictable.Fe.density * G_CM3_TO_KG_M3
    assert 0.85 * iron < look_up("metals", metal, "density").si < iron
