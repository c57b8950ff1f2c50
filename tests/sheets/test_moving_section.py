"""The moving section in a browser: five positions held against the plan, keys, drag, warnings."""

from __future__ import annotations

import re

import pytest

from evenhung.plan.positions import positions_of
from evenhung.quantities import print_length
from evenhung.sheets.elevation import elevation_of
from evenhung.sheets.section import section_of
from evenhung.sheets.svg import svg_of

pytestmark = pytest.mark.slow

PARTS_OF_TRAVEL = (0.0, 0.25, 0.5, 0.75, 1.0)
SLIDER = "input[type=range]"
CASES = [
    pytest.param(0, "upper", "right", False, id="W1-upper-right"),
    pytest.param(1, "lower", "left", False, id="W2-lower-left"),
    pytest.param(2, "lower", "right", False, id="W3-lower-right"),
    pytest.param(3, "lower", "right", True, id="W4-lower-as-found"),
]


def figure(plan, **options):
    return f"<figure data-moving-section>{svg_of(section_of(plan, **options))}</figure>"


def sash(house, window, place):
    return getattr(house.windows[window], place)


def move_to(page, travel_mm):
    """Move the slider as a person does: by its own event."""
    page.locator(SLIDER).evaluate(
        "(slider, to) => { slider.value = to;"
        " slider.dispatchEvent(new Event('input', { bubbles: true })); }",
        travel_mm,
    )


def heights(page, selector):
    """Give the top and the foot of something, in the drawing's own millimetres above the sill."""
    return page.locator(selector).first.evaluate(
        """element => {
            const svg = element.ownerSVGElement;
            const toDrawing = svg.getScreenCTM().inverse();
            const box = element.getBoundingClientRect();
            const at = y => -new DOMPoint(0, y).matrixTransform(toDrawing).y;
            return { top: at(box.top), foot: at(box.bottom) };
        }"""
    )


@pytest.mark.parametrize(("window", "place", "side", "as_found"), CASES)
def test_five_positions_are_those_of_the_plan(open_page, house, window, place, side, as_found):
    plan = sash(house, window, place)
    positions = positions_of(plan)
    hanging = positions.found if as_found else positions.hung
    at = getattr(hanging, side)
    page = open_page(figure(plan, side=side, as_found=as_found), width=1000, height=2600)
    for part in PARTS_OF_TRAVEL:
        travel_mm = part * positions.travel_mm
        move_to(page, travel_mm)
        stile = heights(page, f'[data-part="{place}.stile"] rect')
        assert stile["top"] == pytest.approx(positions.sash_top.at_mm(travel_mm), abs=0.05)
        assert stile["foot"] == pytest.approx(positions.sash_foot.at_mm(travel_mm), abs=0.05)
        knot = heights(page, ".knot rect")
        assert knot["top"] == pytest.approx(at.knot_top.at_mm(travel_mm), abs=0.05)
        assert knot["foot"] == pytest.approx(at.weight_top.at_mm(travel_mm), abs=0.05)
        lowest = heights(page, f'[data-part="{place}.{side}"]')["foot"]
        assert lowest == pytest.approx(at.weight_foot.at_mm(travel_mm), abs=0.05)
        assert cord_ends(page) == pytest.approx(
            [positions.cord_end.at_mm(travel_mm), at.weight_top.at_mm(travel_mm)], abs=0.05
        )
        for row, room in enumerate((at.top_clear, at.bottom_clear)):
            assert_told(page, row, room.at_mm(travel_mm), ("top", "bottom")[row])
    assert page.complaints == []


def cord_ends(page):
    """Give the lower ends of the two straight runs of the cord."""
    return page.locator(".cord[data-stretch-per-mm] line").evaluate_all(
        """lines => lines.map(line => {
            const end = new DOMPoint(0, line.y2.baseVal.value);
            return -end.matrixTransform(line.getScreenCTM()).matrixTransform(
                line.ownerSVGElement.getScreenCTM().inverse()).y;
        })"""
    )


def assert_told(page, row, room_mm, name):
    """The figures beside the slider and on the drawing are those that Python prints."""
    short = "short by " if room_mm < -0.005 else ""
    told = short + print_length(abs(room_mm), "imperial", both=True)
    assert page.locator("dd").nth(row).text_content() == told
    own = page.locator(f'[data-figure="{name} own"]').text_content()
    other = page.locator(f'[data-figure="{name} other"]').text_content()
    assert (own, other) == (print_length(room_mm, "imperial"), print_length(room_mm, "metric"))


def test_lengths_are_printed_as_the_plan_prints_them(open_page):
    page = open_page("")
    lengths = [n * 7.3 - 300.0 for n in range(400)] + [0.4, -0.4, 0.5, 609.6, 609.0]
    for system in ("imperial", "metric"):
        printed = page.evaluate(
            """async ([lengths, system]) => {
                const { printLength } = await import("/moving-section.js");
                return lengths.map(length => printLength(length, system));
            }""",
            [lengths, system],
        )
        assert printed == [print_length(length, system) for length in lengths]


def test_a_weight_that_bottoms_out_is_told_where_it_does(open_page, house):
    plan = sash(house, 3, "lower")
    at = positions_of(plan).found.right
    strikes_mm = at.clear_to_mm(plan.found.inputs.travel_mm)
    page = open_page(figure(plan, as_found=True))
    status, around = page.get_by_role("status"), page.locator("figure")
    move_to(page, strikes_mm - 40.0)
    assert status.text_content() == ""
    move_to(page, strikes_mm - 10.0)
    assert "closer than the 1 in (25 mm) wanted" in status.text_content()
    assert around.get_attribute("class") == "is-close"
    assert not page.locator(".alarm").nth(1).is_visible()
    move_to(page, strikes_mm + 1.0)
    told = f"once the sash is opened by {print_length(strikes_mm, 'imperial', both=True)}"
    assert "the weight stands on the box bottom" in status.text_content()
    assert told in status.text_content()
    assert around.get_attribute("class") == "is-struck"
    assert page.locator(".alarm").nth(1).is_visible()
    assert not page.locator(".alarm").nth(0).is_visible()
    assert page.locator("dd").nth(1).get_attribute("data-state") == "struck"
    move_to(page, 0.0)
    assert status.text_content() == ""
    assert around.get_attribute("class") == ""


def test_keys_move_the_sash_the_way_they_point(open_page, house):
    page = open_page(figure(sash(house, 0, "lower")))
    slider = page.locator(SLIDER)
    slider.focus()
    for key, opened in [
        ("ArrowUp", 10),
        ("Shift+ArrowUp", 11),
        ("PageUp", 111),
        ("ArrowDown", 101),
        ("ArrowLeft", 91),
        ("ArrowRight", 101),
        ("End", 780),
        ("ArrowUp", 780),
        ("Home", 0),
        ("ArrowDown", 0),
    ]:
        page.keyboard.press(key)
        assert float(slider.input_value()) == opened, key
        said = slider.get_attribute("aria-valuetext")
        assert said == (
            f"up by {print_length(opened, 'imperial', both=True)}" if opened else "shut"
        )


def test_down_opens_an_upper_sash(open_page, house):
    page = open_page(figure(sash(house, 0, "upper")))
    page.locator(SLIDER).focus()
    page.keyboard.press("ArrowDown")
    assert page.locator(SLIDER).get_attribute("aria-valuetext") == "down by 3/8 in (10 mm)"


@pytest.mark.parametrize(("held", "way"), [('[data-part="lower.stile"]', -1), (".knot", 1)])
def test_what_is_held_follows_the_finger(open_page, house, held, way):
    page = open_page(figure(sash(house, 0, "lower")), height=1500, width=800)
    box = page.locator(held).first.bounding_box()
    before = page.locator(held).first.bounding_box()["y"]
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x, y + way * 60, steps=4)
    page.mouse.up()
    assert page.locator(held).first.bounding_box()["y"] - before == pytest.approx(way * 60, abs=1)
    page.mouse.move(x, y)
    assert page.locator(held).first.bounding_box()["y"] - before == pytest.approx(way * 60, abs=1)


def test_a_tap_follows_a_link_and_a_drag_does_not(open_page, house):
    text = svg_of(section_of(sash(house, 0, "lower")), link_to=lambda part: f"#{part}")
    page = open_page(f"<figure data-moving-section>{text}</figure>", height=1500, width=800)
    box = page.locator('[data-part="lower.stile"]').bounding_box()
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x, y - 60, steps=4)
    page.mouse.up()
    page.wait_for_timeout(200)
    assert page.url.endswith("/")
    assert float(page.locator(SLIDER).input_value()) > 100.0
    page.mouse.click(x, y - 60)
    page.wait_for_url("**/#lower.stile")
    assert page.complaints == []


def test_the_elevation_beside_it_moves_along(open_page, house):
    plan = house.windows[0]
    both = svg_of(elevation_of(plan)) + figure(plan.lower)
    page = open_page(f'<div class="side-by-side" data-moving-scope>{both}</div>', height=2000)
    lower, upper = (heights(page, f'.elevation [data-part="{p}"]') for p in ("lower", "upper"))
    move_to(page, 300.0)
    moved = heights(page, '.elevation [data-part="lower"]')
    assert moved["top"] - lower["top"] == pytest.approx(300.0, abs=0.1)
    weight = heights(page, '.elevation [data-part="lower.right"] rect')
    positions = positions_of(plan.lower).hung.right
    assert weight["foot"] == pytest.approx(positions.weight_foot.at_mm(300.0), abs=0.6)
    assert heights(page, '.elevation [data-part="upper"]') == upper


@pytest.mark.parametrize("motion", ["reduce", "no-preference"])
def test_buttons_open_and_shut_and_hurry_where_motion_is_unwelcome(open_page, house, motion):
    page = open_page(figure(sash(house, 0, "lower")), reduced_motion=motion)
    values = pressed(page, "fully open", 780)
    assert values[-1] == "780"
    if motion == "reduce":
        assert values == ["0", "780"]
    assert pressed(page, "shut", 0)[-1] == "0"


def pressed(page, button, end):
    """Press a button and give what the slider passes until it comes to its end."""
    return page.get_by_role("button", name=button).evaluate(
        """async (button, end) => {
            const slider = document.querySelector("input[type=range]");
            const seen = [slider.value];
            button.click();
            seen.push(slider.value);
            const late = performance.now() + 5000;
            while (slider.value !== String(end) && performance.now() < late) {
                await new Promise(requestAnimationFrame);
                seen.push(slider.value);
            }
            return seen;
        }""",
        end,
    )


def test_targets_are_large_enough_for_gloves_on_a_phone(open_page, house):
    page = open_page(figure(sash(house, 1, "lower")), width=390, height=844)
    for control in page.locator("button, input").all():
        box = control.bounding_box()
        assert min(box["width"], box["height"]) >= 44
    assert page.evaluate("document.documentElement.scrollWidth") == 390


@pytest.mark.parametrize("width", [390, 1280])
def test_words_are_large_enough_and_do_not_lie_over_each_other(open_page, house, width):
    drawings = [svg_of(elevation_of(window)) for window in house.windows]
    for window in house.windows:
        for plan in (window.upper, window.lower):
            for side in ("left", "right"):
                drawing = section_of(plan, side=side)
                drawings += [svg_of(drawing)] if drawing else []
    pieces = "".join(f'<div class="side-by-side">{one}{one}</div>' for one in drawings)
    page = open_page(pieces, width=width)
    for number in range(0, 2 * len(drawings), 2):
        words = page.locator("svg").nth(number).locator("text").evaluate_all(BOXES)
        assert words
        small = [word for word in words if word["size"] < 11.0 and word["text"] != "!"]
        assert small == []
        assert overlapping([word for word in words if word["text"] != "!"]) == []


BOXES = """texts => texts.map(text => {
    const box = text.getBoundingClientRect();
    const scale = text.ownerSVGElement.getScreenCTM().a;
    return {
        text: text.textContent, size: scale * Number(text.getAttribute("font-size")),
        left: box.left, right: box.right, top: box.top, bottom: box.bottom,
    };
})"""


def overlapping(words):
    """Pairs of words whose boxes share more than the room a face leaves above and below itself."""
    pairs = []
    for number, one in enumerate(words):
        for other in words[number + 1 :]:
            across = min(one["right"], other["right"]) - max(one["left"], other["left"])
            up = min(one["bottom"], other["bottom"]) - max(one["top"], other["top"])
            if across > 1.0 and up > 0.3 * one["size"]:
                pairs.append((one["text"], other["text"]))
    return pairs


def test_a_page_without_scripts_still_has_the_drawing_in_words(house):
    text = svg_of(section_of(sash(house, 0, "lower")))
    assert re.search(r"<desc>Sash shut: knot below pulley case by 1 9/16 in \(40 mm\)", text)
