"""What a survey is refused for: where, what was found, what is allowed, the nearest right key."""

from __future__ import annotations

import datetime

import pytest

from evenhung.errors import InvalidSurvey, SurveyFault
from evenhung.survey import read_survey, survey_from

UPPER = "window[0].upper"

FAULTS = [
    # absent
    (("window", 0, "tag"), ..., "window[0].tag: (absent): required: what the window is called"),
    (("window", 0, "box"), ..., "window[0].box: (absent): required: the frame and the weight"),
    (("window", 0, "pulley", "wheel"), ..., "window[0].pulley.wheel: (absent): required: diameter"),
    (("house",), ..., "house: (absent): required: the house as a whole"),
    (("window", 0, "upper", "panes"), {"across": 2}, f"{UPPER}.panes.up: (absent): required: one"),
    # keys
    (("hose",), {}, "hose: {}: no such key; nearest is 'house'"),
    (
        ("window", 0, "upper", "wieghed"),
        "9 lb",
        f"{UPPER}.wieghed: '9 lb': no such key; nearest is",
    ),
    (("window", 0, "box", "clearwidth"), 1, "window[0].box.clearwidth: 1: no such key; nearest is"),
    (("house", "cord", "colour"), "red", "house.cord.colour: 'red': no such key; known are diam"),
    (("house", ""), 1, "house.'': 1: no such key; known are built, cord, currency, glass_rules"),
    (("house", "a.b c"), 1, "house.'a.b c': 1: no such key; known are"),
    (("house", "\n\x1b"), 1, "house.'\\n\\x1b': 1: no such key; known are"),
    (("house", "k" * 200), 1, f"house.'{'k' * 56}...: 1: no such key; known are"),
    # quantities
    (("window", 0, "upper", "height"), 840, f"{UPPER}.height: 840: write it as text with its unit"),
    (
        ("window", 0, "upper", "height"),
        "840",
        f"{UPPER}.height: '840': add a unit: 840 mm or 840 in",
    ),
    (
        ("window", 0, "upper", "height"),
        "840 kg",
        f"{UPPER}.height: '840 kg': kg is a mass: write a",
    ),
    (("window", 0, "upper", "height"), "-84 mm", f"{UPPER}.height: '-84 mm': no - before it"),
    (
        ("window", 0, "upper", "height"),
        "3 m",
        f"{UPPER}.height: '3 m': a length from 100 mm to 2.5 m",
    ),
    (("window", 0, "upper", "height"), "", f"{UPPER}.height: '': write a length with its unit"),
    (
        ("window", 0, "upper", "height"),
        None,
        f"{UPPER}.height: null: write it as text with its unit",
    ),
    (
        ("window", 0, "upper", "height"),
        True,
        f"{UPPER}.height: true: write it as text with its unit",
    ),
    (("window", 0, "upper", "weighed"), "500 kg", f"{UPPER}.weighed: '500 kg': a mass from 0.5 kg"),
    # numbers
    (("house", "cord", "stretch_pct"), "1 %", "house.cord.stretch_pct: '1 %': a plain number, wit"),
    (("house", "cord", "stretch_pct"), "1", "house.cord.stretch_pct: '1': a plain number, without"),
    (("house", "cord", "stretch_pct"), True, "house.cord.stretch_pct: true: a plain number, with"),
    (("house", "cord", "stretch_pct"), -1, "house.cord.stretch_pct: -1: at least 0"),
    (("house", "cord", "stretch_pct"), 10.5, "house.cord.stretch_pct: 10.5: at most 10"),
    (
        ("house", "cord", "stretch_pct"),
        float("nan"),
        "house.cord.stretch_pct: nan: an ordinary num",
    ),
    (
        ("house", "cord", "stretch_pct"),
        float("inf"),
        "house.cord.stretch_pct: inf: an ordinary num",
    ),
    (
        ("house", "cord", "stretch_pct"),
        16**9999,
        "house.cord.stretch_pct: (a huge number): a plain",
    ),
    (("window", 0, "upper", "nails"), {"count": "3"}, f"{UPPER}.nails.count: '3': a whole number"),
    (("window", 0, "upper", "nails"), {"count": 3.0}, f"{UPPER}.nails.count: 3.0: a whole number"),
    (("window", 0, "upper", "nails"), {"count": False}, f"{UPPER}.nails.count: false: a whole num"),
    (("window", 0, "upper", "nails"), {"count": 13}, f"{UPPER}.nails.count: 13: at most 12"),
    (("window", 0, "upper", "nails"), {"count": 0}, f"{UPPER}.nails.count: 0: at least 1"),
    # texts and choices
    (("house", "name"), 5, "house.name: 5: a text in quotes"),
    (("house", "name"), "", "house.name: '': a text of 1 character or more"),
    (("house", "name"), "  ", "house.name: '  ': a text of one line, without control characters"),
    (("house", "name"), "A\nB", "house.name: 'A\\nB': a text of one line, without control charact"),
    (
        ("house", "name"),
        "A\n",
        "house.name: 'A\\n': a text of one line, without control characters",
    ),
    (("house", "name"), "\x1b[2J", "house.name: '\\x1b[2J': a text of one line, without control"),
    (("house", "name"), "A\u202eB", "house.name: 'A\\u202eB': a text of one line, without control"),
    (
        ("house", "name"),
        "n" * 2001,
        f"house.name: '{'n' * 56}...: a text of at most 2000 characters",
    ),
    (("house", "name"), "\ud800", "house.name: '\\ud800': a text of whole characters"),
    (("house", "note"), "\x07", "house.note: '\\x07': a text without control characters"),
    (("house", "note"), datetime.date(2026, 3, 1), "house.note: 2026-03-01: a text in quotes"),
    (
        ("house", "shown_in"),
        "Metric",
        "house.shown_in: 'Metric': did you mean 'metric'? one of 'imperial' or 'metric'",
    ),
    (("window", 0, "upper", "runs"), False, f"{UPPER}.runs: false: one of 'yes' or 'no'"),
    (
        ("window", 0, "upper", "timber"),
        "Oak",
        f"{UPPER}.timber: 'Oak': a timber of the reference: did you mean 'oak'? one",
    ),
    # tables and lists
    (("house",), [], "house: []: a table of keys"),
    (("house",), "Alder Row", "house: 'Alder Row': a table of keys"),
    (("window",), {"tag": "W1"}, "window: {tag = 'W1'}: a list"),
    (("window",), ["W1"], "window[0]: 'W1': a table of keys"),
    (
        ("window", 0, "upper", "readings"),
        {"raising": []},
        f"{UPPER}.readings.raising: []: at least 1",
    ),
    (
        ("window", 0, "upper", "readings"),
        {"raising": ["9 N"] * 10},
        f"{UPPER}.readings.raising: ['9 N', '9 N', '9 N', '9 N', '9 N', '9 N', '9 N', '9 N', ...",
    ),
    (
        ("window", 0, "upper", "readings"),
        {"raising": ["9 N", "x"]},
        f"{UPPER}.readings.raising[1]: 'x': start each part with its number",
    ),
    (("house", "note"), [[[[[1]]]]], "house.note: [[[[...]]]]: a text in quotes"),
    # friction, which is one value or three
    (
        ("window", 0, "upper", "slide_friction"),
        10,
        f"{UPPER}.slide_friction: 10: write it as text with",
    ),
    (("window", 0, "upper", "slide_friction"), [], f"{UPPER}.slide_friction: []: write it as text"),
    (
        ("window", 0, "upper", "slide_friction"),
        "1001 N",
        f"{UPPER}.slide_friction: '1001 N': a force f",
    ),
    (
        ("window", 0, "upper", "slide_friction"),
        {"least": "4 N", "likely": "10 N"},
        f"{UPPER}.slide_friction.most: (absent): required: on a bad day",
    ),
    (
        ("window", 0, "upper", "slide_friction"),
        {"least": "4 N", "likely": "10", "most": "25 N"},
        f"{UPPER}.slide_friction.likely: '10': add a unit: 10 N or 10 lbf",
    ),
    (
        ("window", 0, "upper", "slide_friction"),
        {"least": "4 N", "likely": "10 N", "most": "25 N", "mst": "1 N"},
        f"{UPPER}.slide_friction.mst: '1 N': no such key; nearest is 'most'",
    ),
    (
        ("window", 0, "upper", "slide_friction"),
        {"least": "11 N", "likely": "10 N", "most": "25 N"},
        f"{UPPER}.slide_friction.likely: 11 N, 10 N, 25 N: least, likely and most in rising order",
    ),
]


@pytest.mark.parametrize(("place", "value", "line"), FAULTS, ids=range(len(FAULTS)))
def test_a_fault_says_where_what_and_what_is_allowed(house, refused, place, value, line):
    house["house"]["cord"] = {}
    part = house
    *way, last = place
    for step in way:
        part = part[step]
    if value is ...:
        del part[last]
    else:
        part[last] = value
    (fault,) = refused(house)
    assert fault.startswith(line), fault
    assert fault.isprintable()


def test_all_faults_are_reported_together_in_the_order_of_the_survey(house, refused):
    house["house"]["shown_in"] = "feet"
    house["window"].append({**house["window"][0], "pulley": {"wheel": "44"}})
    house["window"].append({**house["window"][0], "tag": "W3", "upper": {"height": "9 m"}})
    house["windows"] = []
    assert [line.partition(": ")[0] for line in refused(house)] == [
        "house.shown_in",
        "window[1].pulley.wheel",
        "window[1].tag",
        "window[2].upper.height",
        "window[2].upper.width",
        "windows",
    ]


def test_the_error_prints_one_line_for_each_fault(house):
    house["house"] = {"name": 1, "shown_in": 2}
    with pytest.raises(InvalidSurvey) as caught:
        survey_from(house)
    assert str(caught.value).splitlines() == [
        "house.name: 1: a text in quotes",
        "house.shown_in: 2: one of 'imperial' or 'metric'",
    ]


@pytest.mark.parametrize("document", [[], None, "form = 1", 1, 1.5, [{"form": 1}]])
def test_only_a_table_is_a_survey(document):
    with pytest.raises(
        InvalidSurvey, match=r"^survey: .*: a table of keys, beginning with form = 1"
    ):
        survey_from(document)


@pytest.mark.parametrize("key", ["tag", "id"])
def test_two_windows_do_not_share_a_tag_or_an_id(house, refused, key):
    (window,) = house["window"]
    windows = [{**window, "tag": f"W{number}"} for number in range(4)]
    for number in (1, 2, 3):
        windows[number][key] = "A"
    house["window"] = windows
    assert refused(house) == [
        f"window[2].{key}: 'A': one of its own; window[1] has this {key}{_of(key, 'W2')}",
        f"window[3].{key}: 'A': one of its own; window[1] has this {key}{_of(key, 'W3')}",
    ]


def _of(key, tag):
    return "" if key == "tag" else f" (window {tag})"


def test_tags_that_differ_only_in_case_are_two_tags(house):
    house["window"].append({**house["window"][0], "tag": "w1"})
    assert len(survey_from(house).window) == 2


def test_a_tag_that_is_no_text_is_one_fault_and_no_repetition(house, refused):
    house["window"] = [{**house["window"][0], "tag": 1}, {**house["window"][0], "tag": 1}, "W3"]
    assert refused(house) == [
        "window[0].tag: 1: a text in quotes",
        "window[1].tag: 1: a text in quotes",
        "window[2]: 'W3': a table of keys",
    ]


UNREADABLE = [
    (b"", "toml", "file: (empty): a survey, beginning with form = 1"),
    (b" \n\t\n", "json", "file: (empty): a survey, beginning with form = 1"),
    ("name = 'Gräf'".encode("latin-1"), "toml", "file: byte 0xe4 on line 1: a text in UTF-8"),
    ("form = 1".encode("utf-16"), "toml", "file: byte 0xff on line 1: a text in UTF-8"),
    ("form = 1".encode("utf-16-be"), "toml", "file: byte 0x00 on line 1: a text in UTF-8"),
    (b"\xef\xbb\xbfform\0 = 1", "toml", "file: byte 0x00 on line 1: a text in UTF-8"),
    (b"form = ", "toml", "file: (not TOML): Invalid value (at end of document)"),
    (b"form = 1\nform = 1", "toml", "file: (not TOML): Cannot overwrite a value"),
    (
        b'{"form": 1',
        "json",
        "file: (not JSON): Expecting ',' delimiter: line 1 column 11 (char 10)",
    ),
    (b'{"form": NaN}', "json", "file: (not JSON): NaN is not a number that JSON has"),
    (b'{"form": -Infinity}', "json", "file: (not JSON): -Infinity is not a number that JSON has"),
    (
        b'{"form": 1, "a": 1, "a": 2}',
        "json",
        "file: (not JSON): the key 'a' stands twice in one tab",
    ),
    (
        b'{"form": 1, "b": {"\\u001b": 1, "\\u001b": 2}}',
        "json",
        "file: (not JSON): the key '\\x1b' sta",
    ),
    (b"form = " + b"9" * 5000, "toml", "file: (not TOML): a number has too many figures"),
    (b'{"form": ' + b"9" * 5000 + b"}", "json", "file: (not JSON): a number has too many figures"),
    (
        b"form = 0x" + b"f" * 5000,
        "toml",
        "form: (a huge number): at most 1; this survey was written",
    ),
    (b"x = " + b"[" * 100_000, "toml", "file: (nested too deeply): tables nested no deeper than"),
    (b"x = " + b"{a=" * 100_000, "toml", "file: (nested too deeply): tables nested no deeper than"),
    (b"[" * 100_000, "json", "file: (nested too deeply): tables nested no deeper than the form's"),
    (
        b'{"a":' * 100_000,
        "json",
        "file: (nested too deeply): tables nested no deeper than the form's",
    ),
    (b"a." * 100_000 + b"a = 1", "toml", "file: (nested too deeply): tables nested no deeper than"),
    (
        b"[" + b"a." * 100_000 + b"a]",
        "toml",
        "file: (nested too deeply): tables nested no deeper than",
    ),
    (
        b"x = {" + b"'a' . " * 100_000 + b"a=1}",
        "toml",
        "file: (nested too deeply): tables nested no",
    ),
    (bytes(20_000_001), "toml", "file: (too large): at most 20000000 bytes"),
]


@pytest.mark.parametrize(("data", "notation", "line"), UNREADABLE, ids=range(len(UNREADABLE)))
def test_what_cannot_be_read_is_one_clear_line(data, notation, line):
    with pytest.raises(InvalidSurvey) as caught:
        read_survey(data, notation)
    assert str(caught.value).startswith(line)
    assert str(caught.value).isprintable()


def test_dots_in_a_note_are_no_deep_nesting():
    note = (
        f"see book 1{'.1' * 300}, then a box {'. ' * 300}, and 2.1, 2.2, 2.3 and so on {'. ' * 9}"
    )
    data = f"form = 1\n[house]\nname = 'Alder Row'\nnote = '''\n  {note}'''".encode()
    assert read_survey(data).house.note.endswith(". ")


def test_a_fault_is_a_value_error_that_keeps_its_faults():
    fault = SurveyFault("form", "2", "at most 1")
    error = InvalidSurvey((fault,))
    assert isinstance(error, ValueError)
    assert error.faults == (fault,)
