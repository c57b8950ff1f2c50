"""The rules of docstrings, read by machine: every public function of the modules that compute.

Summary ending in ``[unit]``; Parameters in the order of the signature, each with its ``[unit]``;
Returns with its ``[unit]``; at least one example; no unit or suffix that this table does not know.
"""

import importlib
import inspect
import pkgutil
import re

import pytest

import evenhung.physics as physics_package

UNITS = {
    "1",
    "1/pct",
    "C",
    "L",
    "N",
    "kg",
    "kg/m",
    "kg/m3",
    "m/s2",
    "m2",
    "m2/L",
    "mm",
    "mm2",
    "mm3",
    "pct",
    "rad",
    "true or false",
    "unit of both",
    "unit of the field",
}
UNIT_OF_SUFFIX = {
    "_c": "C",
    "_kg": "kg",
    "_kg_m": "kg/m",
    "_kg_m3": "kg/m3",
    "_l": "L",
    "_m2": "m2",
    "_m2_l": "m2/L",
    "_m_s2": "m/s2",
    "_mm": "mm",
    "_mm2": "mm2",
    "_mm3": "mm3",
    "_n": "N",
    "_pct": "pct",
    "_rad": "rad",
}
NEARLY_A_SUFFIX = re.compile(r"_(?:m|cm|km|g|lb|oz|in|ft|deg|s|pa|j|w|k|l)\d?$")
UNIT = re.compile(r"\[([^\[\]]+)\]")
SECTIONS = ("Parameters", "Returns", "Raises", "Notes", "Sources", "Examples")


def modules():
    for found in pkgutil.iter_modules(physics_package.__path__, physics_package.__name__ + "."):
        yield importlib.import_module(found.name)


def public_functions():
    return [
        pytest.param(function, id=f"{module.__name__.rpartition('.')[2]}.{name}")
        for module in modules()
        for name, function in inspect.getmembers(module, inspect.isfunction)
        if function.__module__ == module.__name__ and not name.startswith("_")
    ]


def summary(function):
    return inspect.getdoc(function).partition("\n")[0]


def sections(function):
    """The sections of a numpydoc docstring, by name, in their order."""
    found = re.split(r"^(\w+)\n-{3,}\n", inspect.getdoc(function), flags=re.MULTILINE)
    return dict(zip(found[1::2], found[2::2], strict=True))


def entries(section):
    """Names of a Parameters section and the text under each, in order."""
    found = re.split(r"^(\S.*)\n", section, flags=re.MULTILINE)
    for names, text in zip(found[1::2], found[2::2], strict=True):
        for name in names.split(", "):
            yield name, text


def unit_of_name(name):
    """Unit that a name's suffix states; None where it states none."""
    known = [suffix for suffix in UNIT_OF_SUFFIX if name.endswith(suffix)]
    return UNIT_OF_SUFFIX[max(known, key=len)] if known else None


def faults_of_sections(function):
    told = sections(function)
    for name in told.keys() - set(SECTIONS):
        yield f"section {name} is not one of ours"
    for name in ("Returns", "Examples"):
        if name not in told:
            yield f"no section {name}"
    if list(told) != [name for name in SECTIONS if name in told]:
        yield "sections out of order"
    if ">>> " not in told.get("Examples", ""):
        yield "no example"
    if not UNIT.search(told.get("Returns", "")):
        yield "Returns has no [unit]"


def faults_of_parameters(function):
    described = list(entries(sections(function).get("Parameters", "")))
    if [name for name, _ in described] != list(inspect.signature(function).parameters):
        yield "Parameters are not those of the signature, in its order"
    for name, text in described:
        units = UNIT.findall(text)
        if not units:
            yield f"{name} has no [unit]"
        elif unit_of_name(name) not in (None, *units):
            yield f"{name} is described in {units}"
        if unit_of_name(name) is None and NEARLY_A_SUFFIX.search(name):
            yield f"{name} ends like a unit that is not one of ours"


def faults_of_units(function):
    closing = re.search(r"\[([^\[\]]+)\]\.$", summary(function))
    if not closing:
        yield "summary does not end in [unit]."
    elif unit_of_name(function.__name__) not in (None, closing[1]):
        yield f"name and summary differ: [{closing[1]}]"
    for unit in UNIT.findall(inspect.getdoc(function).partition("Examples\n")[0]):
        if unit not in UNITS:
            yield f"unknown unit [{unit}]"


def faults(function):
    """What is wrong with a function's docstring, in words."""
    rules = (faults_of_sections, faults_of_parameters, faults_of_units)
    return [fault for rule in rules for fault in rule(function)]


@pytest.mark.parametrize("function", public_functions())
def test_docstring_keeps_the_rules(function):
    assert faults(function) == []


def test_there_is_something_to_read():
    assert len(public_functions()) > 30


def well_told(*, length_mm):
    """Give twice a length [mm].

    Parameters
    ----------
    length_mm
        The length [mm].

    Returns
    -------
    float
        Twice it [mm].

    Examples
    --------
    >>> well_told(length_mm=1.0)
    2.0
    """
    return 2.0 * length_mm


@pytest.mark.parametrize(
    ("true_text", "false_text", "fault"),
    [
        ("length [mm].\n\nPar", "length.\n\nPar", "summary does not end"),
        ("length_mm\n    The", "lenght_mm\n    The", "not those of the signature"),
        ("The length [mm].", "The length.", "length_mm has no [unit]"),
        ("The length [mm].", "The length [cm].", "length_mm is described in ['cm']"),
        ("The length [mm].", "The length [cm].", "unknown unit [cm]"),
        ("Twice it [mm].", "Twice it.", "Returns has no [unit]"),
        (">>> well_told(length_mm=1.0)", "Two", "no example"),
        ("Returns\n-------", "Yields\n-------", "no section Returns"),
    ],
    ids=["summary", "name", "no unit", "unit", "unknown", "returns", "example", "section"],
)
def test_the_rules_notice(true_text, false_text, fault):
    def told_badly(*, length_mm):
        return well_told(length_mm=length_mm)

    told = inspect.cleandoc(well_told.__doc__)  # as Python 3.13 keeps it, and older ones do not
    assert told.count(true_text) == 1
    told_badly.__doc__ = told.replace(true_text, false_text)
    assert any(fault in wrong for wrong in faults(told_badly))
    assert faults(well_told) == []
