"""A survey cut into parts and put together again is the same survey."""

from __future__ import annotations

from evenhung.store.demo import SURVEY
from evenhung.store.parts import document_of, new_id, parts_of, with_ids
from evenhung.survey import Survey, read_survey, survey_from


def demo():
    return read_survey(SURVEY.read_bytes()).as_typed()


def ids_in(value):
    if isinstance(value, dict):
        own = [value["id"]] if "id" in value else []
        return own + [one for inner in value.values() for one in ids_in(inner)]
    return [one for inner in value for one in ids_in(inner)] if isinstance(value, list) else []


def test_parts_make_the_survey_they_were_cut_from():
    document = with_ids(demo())
    parts = parts_of(document)
    assert document_of(parts) == document
    assert survey_from(document_of(parts)).as_typed() == document
    assert {part.key.kind for part in parts} <= set(Survey.entries)


def test_every_window_and_weight_gets_an_id_of_its_own():
    document = with_ids(demo())
    ids = ids_in(document)
    weights = [
        sash[side]
        for window in document["window"]
        for sash in (window.get("upper", {}), window.get("lower", {}))
        for side in ("left", "right")
        if side in sash
    ]
    assert all("id" in one for one in (*document["window"], *weights))
    assert len(ids) == len(set(ids)) > len(document["window"])


def test_an_id_that_is_there_stays():
    once = with_ids(demo())
    assert with_ids(once) == once


def test_ids_are_short_and_do_not_repeat():
    ids = {new_id() for _ in range(10_000)}
    assert len(ids) == 10_000
    assert {len(one) for one in ids} == {16}
