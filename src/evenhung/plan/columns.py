"""Many alike records as one record of columns, and back.

A house is planned record by record in floats. An estate is planned all at once: its records are
laid into columns (numpy arrays), the very same formulas run on the columns, and the answers are
dealt out again.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple, TypeVar

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

Given = TypeVar("Given", bound=NamedTuple)
Found = TypeVar("Found", bound=NamedTuple)

FEW = 100
"""Up to so many records, floats one by one are quicker than to load numpy for columns."""


def for_each(
    records: Sequence[Given], formula: Callable[[Given], Found], *, few: int = FEW
) -> list[Found]:
    """Apply a formula that takes floats or arrays to every record.

    Parameters
    ----------
    records
        Records of one kind; their fields are numbers, or records of numbers.
    formula
        Takes such a record, of floats or of arrays, and gives back a record of the like.
    few
        Up to so many records the formula is applied one by one.

    Returns
    -------
    list
        What the formula gives for each, in order.
    """
    if not records or len(records) <= few:
        return [formula(record) for record in records]
    return _dealt(formula(_columns(records)), len(records))


def _columns(records: Sequence[Given]) -> Given:
    import numpy as np  # loaded only where an estate is planned

    columns: list[Any] = [
        _columns(values) if isinstance(values[0], tuple) else np.array(values)
        for values in zip(*records, strict=True)
    ]
    return type(records[0])(*columns)


def _dealt(columns: Found, count: int) -> list[Found]:
    import numpy as np  # loaded only where an estate is planned

    lists: list[Sequence[Any]] = [
        _dealt(column, count)
        if isinstance(column, tuple)
        else np.broadcast_to(column, count).tolist()
        for column in columns
    ]
    return [type(columns)(*row) for row in zip(*lists, strict=True)]
