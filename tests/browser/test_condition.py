"""What was found of a window, taken down on a phone, with photos."""

from __future__ import annotations

import io

import pytest
from PIL import Image

from .conftest import DESK, PHONE


def field(page, path):
    return page.locator(f'[name="field.{path}"]')


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
