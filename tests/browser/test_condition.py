"""What was found of a window, taken down on a phone: with photos, and choices that fit the part."""

from __future__ import annotations

import io

import pytest
from PIL import Image

from evenhung.survey.members import SEEN, TREATMENTS

from .conftest import DESK, PHONE


def field(page, path):
    return page.locator(f'[name="field.{path}"]')


def choices(page, path):
    """What can be chosen in a field."""
    return field(page, path).locator("option:not([disabled])").all_inner_texts()


def picture(name, shade):
    file = io.BytesIO()
    Image.new("RGB", (800, 600), shade).save(file, "JPEG")
    return {"name": name, "mimeType": "image/jpeg", "buffer": file.getvalue()}


@pytest.fixture
def new_finding(open_page, demo):
    """Gives ``new_finding(size)``: the form for a finding of the demo house's first window."""

    def opened(size):
        page = open_page(size)
        page.goto(demo(page))
        page.get_by_role("link", name="W1").first.click()
        page.get_by_role("link", name="Add a finding").click()
        return page

    return opened


def test_choices_follow_the_part(new_finding):
    page = new_finding(PHONE)
    field(page, "finding.part").select_option("lower glass")
    assert sorted(choices(page, "finding.seen")[1:]) == sorted(SEEN["glass"])
    assert sorted(choices(page, "finding.treatment")[1:]) == sorted(TREATMENTS["glass"])
    field(page, "finding.seen").select_option("cracked")
    field(page, "finding.part").select_option("sill")
    assert "rot" in choices(page, "finding.seen")
    assert field(page, "finding.seen").input_value() == "cracked"
    field(page, "finding.seen").select_option("rot")
    assert "cracked" not in choices(page, "finding.seen")


@pytest.mark.parametrize("size", [PHONE, DESK], ids=["phone", "desk"])
def test_a_finding_is_taken_down_with_photos(new_finding, faults_of_access, size):
    page = new_finding(size)
    field(page, "finding.part").select_option("sill")
    field(page, "finding.seen").select_option("rot")
    page.get_by_label("Photos to add").set_input_files(
        [picture("one.jpg", "teal"), picture("two.jpg", "sienna")]
    )
    page.get_by_role("button", name="Save", exact=True).click()
    page.locator("#told", has_text="Saved.").wait_for()
    row = page.get_by_role("listitem").filter(has_text="sill: rot").first
    assert row.get_by_role("img", name="Photo: sill: rot").count() == 2
    assert faults_of_access(page) == []
    row.get_by_role("link", name="Edit: sill: rot").click()
    ticks = page.get_by_role("checkbox", name="sill: rot")
    assert [one.is_checked() for one in ticks.all()] == [True, True]
    assert faults_of_access(page) == []
    ticks.first.uncheck()
    page.get_by_role("button", name="Save", exact=True).click()
    page.locator("#told", has_text="Saved.").wait_for()
    row = page.get_by_role("listitem").filter(has_text="sill: rot").first
    assert row.get_by_role("img", name="Photo: sill: rot").count() == 1
