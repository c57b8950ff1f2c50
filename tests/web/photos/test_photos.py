"""Photos of a window: taken in, shown, removed and brought back."""

from __future__ import annotations

import io

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from PIL import Image

from evenhung.survey.members import PARTS
from evenhung.web.records.history import history
from evenhung.web.records.latest import standing_parts, survey_of
from evenhung.web.records.models import House


@pytest.fixture
def window(small_house):
    (part,) = (part for part in standing_parts(small_house) if part.key.kind == "window")
    return f"/house/{small_house.pk}/window/{part.key.ident}/"


def photo(name="mark.jpg", size=(900, 600)):
    file = io.BytesIO()
    exif = Image.Exif()
    exif[0x010E] = "behind the church"
    Image.effect_noise(size, 40).convert("RGB").save(file, "JPEG", exif=exif)
    return SimpleUploadedFile(name, file.getvalue(), "image/jpeg")


def taken_in(house):
    return [part for part in standing_parts(house) if part.key.kind == "photo"]


def received(answer):
    data = b"".join(answer.streaming_content)
    answer.close()
    return data


def test_photos_are_taken_in_together_and_shown(browser, small_house, window):
    typed = {"photo": [photo(), photo()], "place": "lower.left", "note": "marked 9"}
    assert browser.post(f"{window}photos/", typed).status_code == 302
    first, second = taken_in(small_house)
    assert first.body["sha256"] != second.body["sha256"]
    assert (first.body["place"], first.body["note"]) == ("lower.left", "marked 9")
    page = browser.get(window).text
    assert page.count("small.jpg") == 2
    assert 'alt="lower sash, left weight: marked 9"' in page
    address = f"/house/{small_house.pk}/photo/{first.key.ident}"
    whole, small = (received(browser.get(f"{address}/{name}.jpg")) for name in ("whole", "small"))
    assert Image.open(io.BytesIO(whole)).size == (900, 600)
    assert max(Image.open(io.BytesIO(small)).size) == 360
    assert b"church" not in whole


def test_a_photo_can_be_of_a_part_of_the_frame_or_of_glass(browser, small_house, window):
    for place in ("sill", "head", "left pulley stile", "upper glass"):
        answer = browser.post(f"{window}photos/", {"photo": [photo()], "place": place})
        assert answer.status_code == 302
    assert {one.body["place"] for one in taken_in(small_house)} <= {*PARTS}
    assert 'alt="left pulley stile"' in browser.get(window).text


def test_one_that_is_no_photo_is_refused_by_name_and_the_others_wait(browser, small_house, window):
    wrong = SimpleUploadedFile("notes.jpg", b"not a photo", "image/jpeg")
    typed = {"photo": [photo(), wrong], "place": "sill", "note": "soft, left end"}
    answer = browser.post(f"{window}photos/", typed)
    assert answer.status_code == 422
    assert "notes.jpg: not such a photo" in answer.text
    assert '<option value="sill" selected>' in answer.text
    assert 'value="soft, left end"' in answer.text
    assert taken_in(small_house) == []


def test_more_photos_than_can_be_sent_at_once_are_told_how_many_can(browser, window):
    many = [photo(size=(8, 8)) for _ in range(21)]
    answer = browser.post(f"{window}photos/", {"photo": many, "place": ""})
    assert answer.status_code == 400
    assert "at most 20 files" in answer.text


def test_one_that_is_removed_comes_back_by_undo(browser, small_house, window):
    browser.post(f"{window}photos/", {"photo": [photo()], "place": ""})
    (one,) = taken_in(small_house)
    assert browser.post(f"/house/{small_house.pk}/photo/{one.key.ident}/").status_code == 302
    assert taken_in(small_house) == []
    gone = browser.get(f"/house/{small_house.pk}/photo/{one.key.ident}/whole.jpg")
    assert gone.status_code == 404
    browser.post(f"/house/{small_house.pk}/undo/3/")
    assert [part.body for part in taken_in(small_house)] == [one.body]


def test_what_is_said_of_one_can_be_said_otherwise(browser, small_house, window):
    browser.post(f"{window}photos/", {"photo": photo(), "place": "lower.left", "note": "marked 9"})
    (before,) = taken_in(small_house)
    address = f"/house/{small_house.pk}/photo/{before.key.ident}/said/"
    typed = {"base": str(before.number), "place": "box", "note": ""}
    assert browser.post(address, typed).status_code == 302
    (after,) = taken_in(small_house)
    kept = {name: before.body[name] for name in ("id", "of", "sha256")}
    assert after.body == {**kept, "place": "box"}


def test_two_who_say_different_things_of_one_are_both_shown(browser, small_house, window):
    browser.post(f"{window}photos/", {"photo": photo(), "note": "marked 9"})
    (found,) = taken_in(small_house)
    address = f"/house/{small_house.pk}/photo/{found.key.ident}/said/"
    base = str(found.number)
    browser.post(address, {"base": base, "place": "", "note": "marked 6"})
    answer = browser.post(address, {"base": base, "place": "", "note": "upside down"})
    assert answer.status_code == 409
    assert "marked 6" in answer.text
    assert "upside down" in answer.text
    assert taken_in(small_house)[0].body["note"] == "marked 6"


@pytest.mark.parametrize(
    "typed",
    [
        {"base": "1", "place": "chimney", "note": ""},
        {"base": "one", "place": "", "note": ""},
        {"base": "1", "place": "", "note": "x" * 2001},
    ],
)
def test_what_cannot_be_said_of_one_is_refused(browser, small_house, window, typed):
    browser.post(f"{window}photos/", {"photo": photo(), "note": "marked 9"})
    (found,) = taken_in(small_house)
    address = f"/house/{small_house.pk}/photo/{found.key.ident}/said/"
    assert browser.post(address, typed).status_code == 400
    assert taken_in(small_house)[0].body["note"] == "marked 9"


def test_one_goes_with_the_house_that_is_taken_out(browser, small_house, window):
    browser.post(f"{window}photos/", {"photo": [photo()], "place": "box"})
    data = received(browser.get(f"/house/{small_house.pk}/take-out/"))
    brought = browser.post("/bring/", {"file": SimpleUploadedFile("h.zip", data)})
    address = brought.headers["Location"]
    (one,) = taken_in(small_house)
    there = received(browser.get(f"{address}photo/{one.key.ident}/whole.jpg"))
    here = received(browser.get(f"/house/{small_house.pk}/photo/{one.key.ident}/whole.jpg"))
    assert there == here


def test_what_a_photo_cannot_show_is_refused(browser, window):
    assert (
        browser.post(f"{window}photos/", {"photo": [photo()], "place": "roof"}).status_code == 400
    )
    assert browser.post(f"{window}photos/", {"place": "box"}).status_code == 400
    typed = {"photo": [photo()], "place": "box", "note": "x" * 2001}
    assert browser.post(f"{window}photos/", typed).status_code == 400


ROT = {"field.finding.part": "sill", "field.finding.seen": "rot"}


@pytest.fixture
def shown_rot(browser, small_house, window):
    """A finding that is taken down together with two photos; the finding as it stands."""
    typed = {"was": "", **ROT, "photo": [photo("one.jpg"), photo("two.jpg")]}
    assert browser.post(f"{window}found/findings/new/", typed).status_code == 302
    return survey_of(small_house).window[0].finding[0]


def test_a_finding_takes_photos_and_shows_them(browser, small_house, window, shown_rot):
    assert list(shown_rot.photo) == [one.key.ident for one in taken_in(small_house)]
    page = browser.get(window).text
    assert page.count('alt="Photo: sill: rot"') == 2
    assert page.count('alt="sill: rot"') == 2
    assert (
        next(iter(history(small_house))).lines[-1].endswith("added: part sill, seen rot, photo 2")
    )


@pytest.mark.usefixtures("shown_rot")
def test_the_history_tells_of_photos_by_their_window(small_house):
    tag = survey_of(small_house).window[0].tag
    assert f"{tag} photo added" in next(iter(history(small_house))).lines


def test_photos_that_are_there_are_ticked_or_left(browser, small_house, window, shown_rot):
    browser.post(f"{window}photos/", {"photo": [photo("three.jpg")], "place": "head"})
    first, second = shown_rot.photo
    third = taken_in(small_house)[-1].key.ident
    page = browser.get(f"{window}found/findings/0/")
    ticks = {one["id"]: one["is_ticked"] for one in page.context["album"]}
    assert ticks == {first: True, second: True, third: False}
    typed = {"was": page.context["was"], **ROT, "ticked": [second, third]}
    browser.post(f"{window}found/findings/0/", typed)
    assert survey_of(small_house).window[0].finding[0].photo == (second, third)
    assert len(taken_in(small_house)) == 3


def test_a_photo_is_not_lost_where_its_finding_is_refused(browser, small_house, window):
    typed = {"was": "", **ROT, "field.finding.length": "9 m", "photo": [photo()]}
    answer = browser.post(f"{window}found/findings/new/", typed)
    assert answer.status_code == 422
    (one,) = taken_in(small_house)
    assert [tick["is_ticked"] for tick in answer.context["album"]] == [True]
    again = {"was": "", **ROT, "ticked": [one.key.ident]}
    assert browser.post(f"{window}found/findings/new/", again).status_code == 302
    assert survey_of(small_house).window[0].finding[0].photo == (one.key.ident,)


def test_what_is_no_photo_is_refused_and_what_was_typed_stays(browser, small_house, window):
    wrong = SimpleUploadedFile("notes.jpg", b"not a photo", "image/jpeg")
    typed = {"was": "", **ROT, "field.finding.note": "soft", "photo": [wrong]}
    answer = browser.post(f"{window}found/findings/new/", typed)
    assert answer.status_code == 422
    assert "notes.jpg: not such a photo" in answer.text
    assert ">soft</textarea>" in answer.text
    assert survey_of(small_house).window[0].finding == ()


def test_a_photo_that_is_removed_is_named_no_more_and_undo_brings_both(
    browser, small_house, shown_rot
):
    first, second = shown_rot.photo
    browser.post(f"/house/{small_house.pk}/photo/{first}/")
    assert survey_of(small_house).window[0].finding[0].photo == (second,)
    browser.post(f"/house/{small_house.pk}/undo/{next(iter(history(small_house))).change.number}/")
    assert survey_of(small_house).window[0].finding[0].photo == (first, second)
    assert [one.key.ident for one in taken_in(small_house)] == [first, second]


def test_a_finding_that_is_removed_leaves_its_photos_to_the_window(
    browser, small_house, window, shown_rot
):
    was = browser.get(f"{window}found/findings/0/").context["was"]
    browser.post(f"{window}found/findings/0/remove/", {"was": was})
    assert len(taken_in(small_house)) == 2
    browser.post(f"/house/{small_house.pk}/undo/{next(iter(history(small_house))).change.number}/")
    assert survey_of(small_house).window[0].finding[0].photo == shown_rot.photo


def test_a_house_that_is_taken_out_and_brought_in_keeps_them_together(
    browser, small_house, shown_rot
):
    packed = received(browser.get(f"/house/{small_house.pk}/take-out/"))
    file = SimpleUploadedFile("house.zip", packed, "application/zip")
    brought = browser.post("/bring/", {"file": file})
    there = House.objects.get(pk=brought.url.split("/")[2])
    assert survey_of(there).window[0].finding[0].photo == shown_rot.photo
    assert [one.key.ident for one in taken_in(there)] == list(shown_rot.photo)


def test_a_photo_that_is_not_here_stays_named(browser, window, shown_rot):
    page = f"{window}found/findings/0/"
    was = browser.get(page).context["was"]
    typed = {"was": was, **ROT, "ticked": [*shown_rot.photo, "elsewhere"]}
    browser.post(page, typed)
    assert 'name="ticked" value="elsewhere"' in browser.get(page).text


def test_a_window_that_was_removed_takes_in_no_photo(browser, small_house, window):
    browser.post(f"{window}remove/")
    assert browser.get(f"{window}photos/").status_code == 404
    answer = browser.post(f"{window}photos/", {"photo": [photo()], "place": "sill"})
    assert answer.status_code == 404
    assert taken_in(small_house) == []
