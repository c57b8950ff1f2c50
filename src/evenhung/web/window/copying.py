"""What a window shares with one that is made like it: sizes, not what was weighed or seen."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from evenhung.web.records.fields import flat

if TYPE_CHECKING:
    from collections.abc import Mapping

_ITS_OWN = {"tag", "room", "note", "id", "shared_with", "weighed", "moisture_pct", "readings"}
_ITS_OWN |= {"completion"}
_WEIGHTS = {"left", "right"}


def sizes_of(body: Mapping[str, Any]) -> dict[str, Any]:
    """Give the fields of a window that another one made like it shares, by path.

    Parameters
    ----------
    body
        The window as it stands.

    Returns
    -------
    dict
        Sizes of box, pulleys and sashes; no tag, no mass, no weight, no note, no readings.

    Examples
    --------
    >>> sizes_of({"tag": "W1", "lower": {"height": "840 mm", "weighed": "11 lb", "left": {"a": 1}}})
    {'lower.height': '840 mm'}
    """
    return {path: value for path, value in flat(body).items() if _is_shared(path.split("."))}


def _is_shared(path: list[str]) -> bool:
    is_of_weight = path[0] in ("upper", "lower") and path[1] in _WEIGHTS
    return not is_of_weight and not _ITS_OWN.intersection(path)
