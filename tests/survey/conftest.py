"""Surveys for the tests: one of a house that is, and any number of houses that could be."""

import copy
import math
import re
import tomllib
from decimal import Decimal
from fractions import Fraction
from functools import cache
from pathlib import Path

import pytest
from hypothesis import strategies as st

from evenhung.errors import InvalidSurvey
from evenhung.quantities import Force, Length, LinearDensity, Mass
from evenhung.reference import keys
from evenhung.survey import Survey, survey_from
from evenhung.survey.house import House
from evenhung.survey.window import Window

DEMO = Path(__file__).parents[2] / "src/evenhung/store/demo/tollgate-house.toml"

KINDS = {kind.kind: kind for kind in (Length, Mass, Force, LinearDensity)}

DECIMALS = {
    "length": [("1", "mm"), ("0.1", "mm"), ("0.1", "cm"), ("0.001", "m"), ("0.25", "in")],
    "mass": [("0.01", "kg"), ("1", "g"), ("0.25", "lb"), ("1", "oz")],
    "force": [("0.1", "N"), ("0.1", "lbf"), ("0.1", "kgf"), ("1", "oz")],
    "mass per length": [("1", "g/m"), ("0.01", "oz/ft"), ("0.001", "kg/m")],
}
"""By kind of quantity: the steps of a rule, tape or scale, and their unit."""

PAIRS = {"length": ("ft", "in", 12, 16), "mass": ("lb", "oz", 16, 4), "force": ("lb", "oz", 16, 4)}
"""By kind: larger unit, smaller unit, how many of it make a larger, steps of the smaller."""


def quantities(kind, least, most):
    """Texts of one kind between two others, in either system, both ends included."""
    ways = [st.sampled_from([least, most])]
    low, high = (KINDS[kind].parse(end).exact for end in (least, most))
    for step, unit in DECIMALS[kind]:
        one = KINDS[kind].parse(f"{step} {unit}").exact
        first, last = math.ceil(low / one), math.floor(high / one)
        if first <= last:
            ways.append(st.integers(first, last).map(_decimal_writer(Decimal(step), unit)))
    if kind in PAIRS:
        larger, smaller, count, steps = PAIRS[kind]
        one = KINDS[kind].parse(f"1 {smaller}").exact / steps
        first, last = math.ceil(low / one), math.floor(high / one)
        ways.append(st.integers(first, last).map(_pair_writer(larger, smaller, count, steps)))
    return st.one_of(ways)


def _decimal_writer(step, unit):
    def write(count):
        text = f"{count * step:f}"
        _, _, decimals = text.partition(".")
        return f"{text.replace('.', ',') if len(decimals) == 1 else text} {unit}"

    return write


def _pair_writer(larger, smaller, count, steps):
    def write(number):
        wholes, rest = divmod(number, count * steps)
        below = Fraction(rest, steps)
        whole, part = divmod(below, 1)
        small = f"{whole} {part}" if whole and part else f"{part or whole}"
        return f"{wholes} {larger} {small} {smaller}" if wholes else f"{small} {smaller}"

    return write


LABELS = st.text(
    st.characters(codec="utf-8", categories=("L", "N", "P", "S", "Zs")), min_size=1
).filter(str.strip)


PATTERNED = {
    "^[A-Z]{3}$": st.sampled_from(["GBP", "USD", "XTS"]),
    r"^\d{4}-\d{2}-\d{2}$": st.dates().map(str),
    r"^[0-9]{1,6}([.,][0-9]{1,2})?$": st.from_regex(r"[0-9]{1,6}([.,][0-9]{1,2})?", fullmatch=True),
}
"""By the pattern of a text: what it may be, where it is not anything at all."""


@cache
def held(kind, name):
    """Whatever one field of a record may hold, as a survey file would have it."""
    entry = kind.entries[name]
    if name == "operation":
        return st.sampled_from(keys("labour"))
    return _held(entry.schema, entry.part)


def _held(schema, part):
    kind = schema["type"]
    if kind == "tagged-union":
        return st.one_of(_held(choice, part) for choice in schema["choices"].values())
    if kind == "function-after" and schema["schema"]["type"] == "str":
        if "metadata" not in schema:
            return st.sampled_from(["softwood", "scots pine"])
        return PATTERNED.get(schema["metadata"]["pattern"], LABELS)
    if kind in ("function-after", "function-wrap"):
        return _held(schema["schema"], part)
    return records(part) if kind == "typed-dict" else SIMPLE[kind](schema, part)


SIMPLE = {
    "function-plain": lambda schema, _: quantities(
        *(schema["metadata"][fact] for fact in ("kind", "least", "most"))
    ),
    "list": lambda schema, part: st.lists(
        _held(schema["items_schema"], part),
        min_size=schema["min_length"],
        max_size=schema.get("max_length", 3),
    ),
    "literal": lambda schema, _: st.sampled_from(schema["expected"]),
    "int": lambda schema, _: st.integers(schema["ge"], schema["le"]),
    "float": lambda schema, _: (
        st.floats(schema["ge"], schema["le"])
        | st.integers(math.ceil(schema["ge"]), math.floor(schema["le"]))
    ),
}


NONE = st.just(())


@cache
def records(kind, most=9):
    """Tables that a record of the form is made of: what is required and some of the rest."""
    required = {name: held(kind, name) for name, entry in kind.entries.items() if entry.is_required}
    optional = [name for name, entry in kind.entries.items() if not entry.is_required]
    some = st.lists(st.sampled_from(optional), unique=True, max_size=most) if optional else NONE

    @st.composite
    def table(draw):
        stated = {name: draw(strategy) for name, strategy in required.items()}
        return stated | {name: draw(held(kind, name)) for name in draw(some)}

    return table()


@cache
def places(kind, way=()):
    """Every field of a record and of the records in it, lists left out: way, record, name."""
    found = []
    for name, entry in kind.entries.items():
        found.append((way, kind, name))
        if entry.part is not None and entry.schema["type"] == "function-after":
            found += places(entry.part, (*way, name))
    return found


@st.composite
def altered(draw, most=9):
    """The demo house with one of its windows changed in some of its fields."""
    window = copy.deepcopy(draw(st.sampled_from(tomllib.loads(DEMO.read_text())["window"])))
    for way, kind, name in draw(st.lists(st.sampled_from(places(Window)), max_size=most)):
        part = window
        for step in way:
            part = part.setdefault(step, {})
            if not isinstance(part, dict):
                break
        else:
            part[name] = draw(held(kind, name))
    return {"form": 1, "house": draw(records(House)), "window": [window]}


STEP = re.compile(r"([^.\[\]]+)|\[(\d+)\]")


def mended(document):
    """Take out of a survey what contradicts itself, as the reader finds it, until nothing does."""
    document, left = copy.deepcopy(document), None
    for _ in range(9):
        try:
            survey_from(document)
        except InvalidSurvey as refusal:
            left = refusal.faults
            for fault in left:
                _mend(document, fault)
        else:
            return document
    raise AssertionError(f"not mended: {left}")


def _mend(document, fault):
    steps = [name or int(number) for name, number in STEP.findall(fault.path)]
    if fault.value == "(absent)" and steps[-1] != "cord_end":
        steps.pop()
    if steps[0] in ("decision", "booked"):
        document.pop(steps[0], None)
        return
    if steps[2:] and steps[2] in ("finding", "symptom"):
        document["window"][steps[1]].pop(steps[2], None)
        return
    *way, name = steps
    part = _at(document, way)
    if part is None or _mend_what_is_priced(document, part, way, name):
        return
    rising = {"best": ("least", "best", "most"), "likely": ("least", "likely", "most")}
    if name == "tag":
        part["tag"] += f" {steps[1]}"
    elif name in rising:
        part.update(dict.fromkeys(rising[name], part["least"]))
    elif name in ("height", "width") and way[-1] in ("upper", "lower"):
        part[name] = "100 mm"
    elif name in ("pulley_drop", "cord_end"):
        part[name] = "10 mm"
    else:
        part.pop(name, None)


def _at(part, way):
    for step in way:
        if isinstance(part, dict) and step not in part:
            return None  # taken out with what it stood in
        part = part[step]
    return part


def _mend_what_is_priced(document, part, way, name):
    if way[:1] != ["house"] or way[1:2] not in (["rate"], ["material"], ["price"]):
        return False
    if isinstance(part, list):
        part[name] = {"name": "Seals", "price": "1.00"}
    elif name in ("operation", "name"):
        document["house"].pop(way[1])
    elif name == "most":
        part["most"] = 1
    elif name == "price":
        part.pop("operation", None)
    else:
        return False
    return True


@pytest.fixture(scope="session")
def tables():
    """Tables that any record of the form may be made of."""
    return records


@pytest.fixture(scope="session")
def surveys():
    """Surveys of houses that could be, as plain data."""
    return records(Survey).map(mended)


@pytest.fixture(scope="session")
def texts():
    """Texts of quantities, by kind, least and most."""
    return quantities


@pytest.fixture
def tollgate():
    """The survey of the demo house, as plain data."""
    return tomllib.loads(DEMO.read_text())


@pytest.fixture
def house():
    """A house of one plain window with both its sashes, as plain data, to be changed by a test."""
    sash = {"height": "840 mm", "width": "857 mm", "cord_end": "260 mm"}
    window = {
        "tag": "W1",
        "box": {
            "clear_width": "860 mm",
            "clear_height": "1650 mm",
            "weight_space": "1545 mm",
            "pulley_drop": "90 mm",
        },
        "pulley": {"wheel": "44 mm"},
        "upper": sash,
        "lower": dict(sash),
    }
    return {"form": 1, "house": {"name": "Alder Row"}, "window": [window]}


@pytest.fixture
def refused():
    """Gives ``refused(document)``: the faults of a survey that must be refused, as printed."""

    def faults(document):
        with pytest.raises(InvalidSurvey) as caught:
            survey_from(document)
        return [str(fault) for fault in caught.value.faults]

    return faults


@pytest.fixture(scope="session")
def altered_surveys():
    """Surveys of one window of the demo house with some of its fields changed."""
    return altered().map(mended)


@pytest.fixture(scope="session")
def demo_survey():
    """The survey of the demo house, as plain data that no test may change."""
    return tomllib.loads(DEMO.read_text())
