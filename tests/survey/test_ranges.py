"""Every range of the form is accepted at both its ends and refused just beyond them."""

from __future__ import annotations

from decimal import Decimal

import pytest
from pydantic_core import SchemaValidator, ValidationError

from evenhung.quantities import Force, Length, LinearDensity, Mass
from evenhung.survey.document import Survey

KINDS = {kind.kind: kind for kind in (Length, Mass, Force, LinearDensity)}
STEP = Decimal("0.000001")


def _fields():
    """Every field of the form that has a range, by record and name, with what checks it."""
    found, waiting = {}, [Survey]
    while waiting:
        kind = waiting.pop()
        for name, entry in kind.entries.items():
            if entry.part is not None and not any(entry.part is one for one, _ in found):
                waiting.append(entry.part)
            for schema in _ranged(entry.schema):
                found[kind, name] = schema
    return {f"{kind.__name__}.{name}": schema for (kind, name), schema in found.items()}


def _ranged(schema):
    if "metadata" in schema and "least" in schema["metadata"]:
        return [schema]
    if schema["type"] == "tagged-union":
        return _ranged(schema["choices"]["<single>"])
    if schema["type"] in ("function-wrap", "function-after"):
        return [schema] if "ge" in schema["schema"] else _ranged(schema["schema"])
    if schema["type"] == "list":
        return _ranged(schema["items_schema"])
    return [schema] if "ge" in schema else []


FIELDS = _fields()
QUANTITIES = [name for name, schema in FIELDS.items() if schema["type"] == "function-plain"]
NUMBERS = [name for name in FIELDS if name not in QUANTITIES]


def test_the_form_has_as_many_ranges_as_it_seems():
    assert len(QUANTITIES) >= 60
    assert len(NUMBERS) >= 10


@pytest.mark.parametrize("name", QUANTITIES)
def test_a_quantity_is_accepted_at_both_ends_and_no_further(name):
    facts = FIELDS[name]["metadata"]
    kind, accepts = KINDS[facts["kind"]], SchemaValidator(FIELDS[name]).validate_python
    ends = [Decimal(end.numerator) / end.denominator for end in _exact(kind, facts)]
    for text in (facts["least"], facts["most"], *(f"{end:f} {kind.base_unit}" for end in ends)):
        assert accepts(text).text == text
    beyond = [ends[1] + STEP] + ([ends[0] - STEP] if ends[0] else [])
    for end in beyond:
        with pytest.raises(ValidationError, match=f"from {facts['least']} to {facts['most']}"):
            accepts(f"{end:f} {kind.base_unit}")


def _exact(kind, facts):
    return [kind.parse(facts[end]).exact for end in ("least", "most")]


@pytest.mark.parametrize("name", NUMBERS)
def test_a_number_is_accepted_at_both_ends_and_no_further(name):
    schema = FIELDS[name]
    bounds = schema.get("schema", schema)
    accepts = SchemaValidator(schema).validate_python
    step = 1 if bounds["type"] == "int" else 1e-9
    for end in (bounds["ge"], bounds["le"]):
        assert accepts(end) == end
    for end in (bounds["ge"] - step, bounds["le"] + step):
        with pytest.raises(ValidationError, match=r"should be (less|greater) than or equal to"):
            accepts(end)
