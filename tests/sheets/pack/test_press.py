"""The typesetter: the same bytes in a process of its own, and a plain word where that fails."""

from __future__ import annotations

import pytest

from evenhung.sheets.pack import press
from evenhung.sheets.pack.bench import AT_A_TIME, bench_cards
from evenhung.sheets.pack.records import owners_record

EMPTY = press.Job("no-such-template", "{}", 0)


def test_a_document_set_apart_is_the_same_byte_for_byte(house_of, monkeypatch):
    house = house_of("emptiest")
    here = bench_cards(house), owners_record(house)
    started = []
    apart = press.apart
    monkeypatch.setattr(press, "APART", 1)
    monkeypatch.setattr(press, "apart", lambda job: started.append(job.template) or apart(job))
    assert (bench_cards(house), owners_record(house)) == here
    assert started == ["bench-fit", "bench", "owner"]


def test_a_short_document_starts_no_process(house_of, monkeypatch):
    monkeypatch.setattr(press, "apart", lambda _: pytest.fail("started a process"))
    assert owners_record(house_of("plain")).startswith(b"%PDF")


def test_what_a_process_ends_with_is_told():
    with pytest.raises(RuntimeError, match="no-such-template: the typesetter ended with 1: "):
        press.apart(EMPTY)


def test_cards_fit_alike_however_many_are_fitted_together(house_of, monkeypatch):
    house = house_of("plain")
    whole = bench_cards(house)
    assert len(house.plan.windows) < AT_A_TIME
    monkeypatch.setattr("evenhung.sheets.pack.bench.AT_A_TIME", 2)
    assert bench_cards(house) == whole
