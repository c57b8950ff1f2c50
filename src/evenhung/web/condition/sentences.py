"""A finding and a symptom, each in one line as a joiner would say it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django.utils.translation import gettext as _

from evenhung.web.condition.shelves import FINDINGS, SHELVES, SYMPTOMS
from evenhung.web.page.items import rows_of

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping, Sequence

    from evenhung.web.page.shelf import Shelf


def found_of(
    window: Mapping[str, Any], photos: Sequence[Mapping[str, Any]] = ()
) -> list[tuple[Shelf, list[dict[str, Any]]]]:
    """Give both lists of a window, each item in words and with what its forms send back.

    Parameters
    ----------
    window
        The window as plain data.
    photos
        Its photos as its pages show them: each item has those that it names.
    """
    said = {FINDINGS.slug: finding_line, SYMPTOMS.slug: symptom_line}
    return [(shelf, _rows(shelf, window, photos, said[shelf.slug])) for shelf in SHELVES.values()]


def _rows(
    shelf: Shelf,
    window: Mapping[str, Any],
    photos: Sequence[Mapping[str, Any]],
    line: Callable[[Mapping[str, Any]], str],
) -> list[dict[str, Any]]:
    return [
        {
            **row,
            "says": line(row["item"]),
            "photos": [one for one in photos if one["id"] in row["item"].get(shelf.photos, ())],
        }
        for row in rows_of(shelf, window)
    ]


def finding_line(finding: Mapping[str, Any]) -> str:
    """Say what was found of a part.

    Parameters
    ----------
    finding
        It as plain data.

    Examples
    --------
    >>> finding_line({"part": "sill", "seen": "rot", "depth": "20 mm", "moisture_pct": 24})
    'sill: rot, 20 mm deep, 24 % moist'
    """
    pane = "".join(_pane(finding))
    return ", ".join([f"{finding['part']}{pane}: {finding['seen']}", *_measures(finding)])


def _pane(finding: Mapping[str, Any]) -> Iterator[str]:
    if "column" in finding:
        yield _(", column %(number)s from the left") % {"number": finding["column"]}
    if "row" in finding:
        yield _(", row %(number)s from the top") % {"number": finding["row"]}


def _measures(finding: Mapping[str, Any]) -> Iterator[str]:
    if "begins" in finding:
        ends = {"begins": finding["begins"], "end": finding.get("measured_from", "")}
        yield _("%(begins)s from the %(end)s") % ends
    if "length" in finding:
        yield _("%(length)s long") % finding
    if "depth" in finding:
        yield _("%(depth)s deep") % finding
    if "moisture_pct" in finding:
        yield _("%(moisture_pct)s %% moist") % finding
    if finding.get("historic") == "yes":
        yield _("old glass")
    if "grade" in finding:
        yield str(finding["grade"])
    if "treatment" in finding:
        yield _("to be done: %(treatment)s") % finding
    if "note" in finding:
        yield str(finding["note"])


def symptom_line(symptom: Mapping[str, Any]) -> str:
    """Say how a window behaves.

    Parameters
    ----------
    symptom
        It as plain data.

    Examples
    --------
    >>> symptom_line({"what": "drops", "sash": "upper", "when": "always"})
    'upper sash: drops, always'
    """
    sash = symptom.get("sash")
    who = _("upper sash") if sash == "upper" else _("lower sash") if sash else _("window")
    said = [f"{who}: {symptom['what']}"]
    said += [str(symptom[name]) for name in ("when", "note") if name in symptom]
    return ", ".join(said)
