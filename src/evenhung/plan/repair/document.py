"""The repair of a window and the fabric of a house as plain data, for --json."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from evenhung.plan.repair.diagnosis import SymptomPlan
    from evenhung.plan.repair.fabric import Fabric, Kept
    from evenhung.plan.repair.house import WindowRepair
    from evenhung.plan.repair.splice import Splice
    from evenhung.plan.repair.treatment import Treatment

PLACES = 6
"""Decimals kept, as in the rest of the plan."""


def repair_document(repair: WindowRepair) -> dict[str, Any]:
    """Give the repair of one window."""
    return {
        "findings": [_treatment(one) for one in repair.treatments],
        "symptoms": [_symptom(one) for one in repair.symptoms],
        "fabric": fabric_document(repair.fabric),
    }


def _treatment(one: Treatment) -> dict[str, Any]:
    finding = one.finding
    return {
        "part": finding.part,
        "seen": finding.seen,
        "panes": [list(pane) for pane in one.extent.panes],
        "treatment": one.what,
        "proposed": one.proposed.what,
        "why": one.why,
        "removes_mm3": _number(one.removes_mm3),
        "splice": _splice(one.splice) if one.splice is not None else None,
    }


def _splice(splice: Splice) -> dict[str, Any]:
    return {
        "slope": _number(splice.slope),
        "ends": splice.ends,
        "scarf_mm": _number(splice.scarf_mm),
        "beyond_mm": _number(splice.beyond_mm),
        "starts_mm": _number(splice.starts_mm),
        "piece_mm": _number(splice.piece_mm),
        "across_mm": _number(splice.across_mm),
        "section_mm2": _number(splice.section_mm2),
        "glue_mm2": _number(splice.glue_mm2),
        "joint_ratio": _number(splice.joint_ratio),
        "let_in": splice.is_let_in,
    }


def _symptom(one: SymptomPlan) -> dict[str, Any]:
    return {
        "what": one.symptom.what,
        "sash": one.symptom.sash,
        "causes": [
            {
                "cause": suspect.cause,
                "share": _number(suspect.share),
                "sign": suspect.sign.holds,
                "says": suspect.sign.says,
            }
            for suspect in one.suspects
        ],
        "tests": [
            {"ask": test.ask, "yes": list(test.yes), "bits": _number(test.bits)}
            for test in one.tests
        ],
    }


def fabric_document(fabric: Fabric) -> dict[str, Any]:
    """Give the fabric of a window or of a house."""
    return {
        "timber": _kept(fabric.timber),
        "glass": _kept(fabric.glass),
        "not_reckoned": list(fabric.not_reckoned),
        "parts": {name: _kept(kept) for name, kept in fabric.parts.items()},
    }


def _kept(kept: Kept) -> dict[str, Any]:
    figures = {name: _number(value) for name, value in kept._asdict().items()}
    return {**figures, "kept_pct": _number(kept.kept_pct)}


def _number(value: float | None) -> float | None:
    return None if value is None else round(value, PLACES) + 0.0
