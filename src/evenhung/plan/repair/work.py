"""The work that a window's treatments come to, operation by operation."""

from __future__ import annotations

from typing import TYPE_CHECKING

from evenhung.plan.work import Work
from evenhung.survey.members import WOODEN

if TYPE_CHECKING:
    from collections.abc import Iterator

    from evenhung.plan.repair.house import WindowRepair
    from evenhung.plan.repair.treatment import Treatment
    from evenhung.plan.work import Operation
    from evenhung.survey.finding import Finding

_AS_NAMED: dict[str, Operation] = {
    "consolidate": "consolidate",
    "splice": "splice",
    "renew sash": "renew a sash",
    "re-bed": "re-bed a pane",
    "renew pane": "renew a pane",
    "overhaul": "overhaul a pulley",
}
_RENEWED: dict[str, Operation] = {
    "bead": "renew a bead",
    "pulley": "renew a pulley",
    "pocket": "make a pocket",
}
_ON_THE_BENCH = ("consolidate", "splice", "renew part", "renew sash", "re-bed", "renew pane")
"""What a sash is taken out for."""


def work_on(repair: WindowRepair) -> list[Work]:
    """Give the work on one window, each operation on a part once, in the order it is done.

    Parameters
    ----------
    repair
        Its treatments. A sash that is taken out for them is taken out, refitted and proved: where
        the hang asks for the same on the same part, it is the same work.
    """
    before = list(_out(repair))
    after = [
        work
        for place in dict.fromkeys(one.part for one in before)
        for work in _back(repair, place, _reason(repair, place))
    ]
    found: dict[tuple[str, str], Work] = {}
    for work in (*before, *_treated(repair), *after):
        known = found.get((work.operation, work.part))
        if known is None or known.quantity < work.quantity:
            found[work.operation, work.part] = work
    return list(found.values())


def _out(repair: WindowRepair) -> Iterator[Work]:
    for place in repair.sorts.panes:
        reason = _reason(repair, place)
        if reason:
            yield Work(
                operation="take out a sash",
                window=repair.window.tag,
                part=place,
                quantity=1.0,
                why=reason,
            )


def _back(repair: WindowRepair, place: str, why: str) -> Iterator[Work]:
    tag = repair.window.tag
    area = repair.sorts.painted_m2[place]
    yield Work(operation="prime and paint", window=tag, part=place, quantity=area, why=why)
    yield Work(operation="refit a sash", window=tag, part=place, quantity=1.0, why=why)
    yield Work(operation="prove a sash", window=tag, part=place, quantity=1.0, why=why)


def _reason(repair: WindowRepair, place: str) -> str:
    """Say what a sash is taken out for; empty where it is not."""
    bench = [
        f"{one.finding.part}: {one.what}"
        for one in repair.treatments
        if one.finding.member.place == place
        and one.what in _ON_THE_BENCH
        and one.finding.member.kind not in ("pulley", "cord", "fittings")
    ]
    return "; ".join(dict.fromkeys(bench))


def _treated(repair: WindowRepair) -> Iterator[Work]:
    for one in repair.treatments:
        for operation, part, quantity in _operations(repair, one):
            yield Work(
                operation=operation,
                window=repair.window.tag,
                part=part,
                quantity=quantity,
                why=f"{one.finding.part}: {one.finding.seen}: {one.why}",
            )


def _operations(repair: WindowRepair, one: Treatment) -> Iterator[tuple[Operation, str, float]]:
    finding, what = one.finding, one.what
    member, place = finding.member, finding.member.place
    if what in _AS_NAMED:
        panes = float(len(one.extent.panes)) if what in ("re-bed", "renew pane") else 1.0
        yield _AS_NAMED[what], place if what == "renew sash" else finding.part, panes
    elif what == "renew part":
        yield _renewed(repair, one)
    elif what == "clean and ease":
        yield _eased(finding)
    elif what == "re-cord":
        yield "re-cord a side", f"{place} {member.side}", 1.0
    elif what in ("paint", "strip and paint"):
        if what == "strip and paint":
            yield "strip a sash", place or "frame", 1.0
        yield "prime and paint", place or "frame", repair.sorts.painted_m2[place]


def _eased(finding: Finding) -> tuple[Operation, str, float]:
    """Ease a sash for any of its members; a part of the frame and a fitting by itself."""
    member = finding.member
    if not member.place or member.kind not in WOODEN:
        return "clean and ease a part", finding.part, 1.0
    freed = finding.seen == "painted over"
    return "free a sash" if freed else "clean and ease a sash", member.place, 1.0


def _renewed(repair: WindowRepair, one: Treatment) -> tuple[Operation, str, float]:
    kind, part = one.finding.member.kind, one.finding.part
    operation = _RENEWED.get(kind, "renew a part")
    piece = repair.sorts.pieces.get(part)
    long_m = piece.length_mm / 1000.0 if piece is not None else 1.0
    return operation, part, long_m if operation == "renew a bead" else 1.0
