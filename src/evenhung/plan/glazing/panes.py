"""The panes that are renewed or bedded again: what to order, and putty by length and mass."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from evenhung.physics import glazing
from evenhung.plan.assumed import assumed

if TYPE_CHECKING:
    from collections.abc import Iterator

    from evenhung.plan.repair.house import WindowRepair
    from evenhung.plan.repair.piece import Panes


class PaneWork(NamedTuple):
    """One pane and what is done to it."""

    window: str
    place: str
    column: int
    """From the left, seen from inside."""
    row: int
    """From the top."""
    what: str
    """``renew pane`` or ``re-bed``."""
    width_mm: float
    """To order, whole millimetres, rounded down."""
    height_mm: float
    sheet_mm: float
    """Thickness of one sheet."""
    sheets: int
    is_historic: bool
    putty_mm2: float
    """Section of putty."""
    putty_mm: float
    """Length of putty round it."""
    putty_kg: float

    @property
    def name(self) -> str:
        """Name it for people."""
        return f"{self.place} sash, pane {self.column} from the left, {self.row} from the top"


def pane_work_on(repair: WindowRepair) -> list[PaneWork]:
    """Give every pane that is worked on, each once: one that is renewed is not bedded besides."""
    found: dict[tuple[str, int, int], PaneWork] = {}
    for work in _asked(repair):
        key = work.place, work.column, work.row
        if key not in found or work.what == "renew pane":
            found[key] = work
    return list(found.values())


_WITH_PUTTY = ("renew pane", "re-bed", "renew sash")
"""What takes putty: a new sash is glazed with the glass of the old one."""


def _asked(repair: WindowRepair) -> Iterator[PaneWork]:
    for one in repair.treatments:
        panes = repair.sorts.panes.get(one.finding.member.place)
        if panes is None or not panes.number or one.what not in _WITH_PUTTY:
            continue
        what = "re-bed" if one.what == "renew sash" else one.what
        every = [(column + 1, row + 1) for row in range(panes.up) for column in range(panes.across)]
        for column, row in every if one.what == "renew sash" else one.extent.panes:
            is_historic = one.finding.historic == "yes"
            yield _work(repair.window.tag, panes, column, row, what, is_historic=is_historic)


def _work(
    tag: str, panes: Panes, column: int, row: int, what: str, *, is_historic: bool
) -> PaneWork:
    run = float(glazing.putty_run_mm(width_mm=panes.width_mm, height_mm=panes.height_mm))
    return PaneWork(
        tag,
        panes.place,
        column,
        row,
        what,
        float(int(panes.width_mm + 1e-6)),
        float(int(panes.height_mm + 1e-6)),
        panes.glass_mm / panes.sheets,
        panes.sheets,
        is_historic,
        panes.putty_mm2,
        run,
        run * panes.putty_mm2 * 1e-9 * assumed("putty/linseed/density").value,
    )
