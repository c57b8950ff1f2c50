"""A printed value, kept apart from the computed one."""

import pytest


def _agrees(computed, printed, *, within=None, because=None):
    """Whether a computed value is the printed one, to half of the last printed place.

    `printed` is the figure as it stands in the source, as text. A looser bound needs its reason.
    """
    assert (within is None) == (because is None), "a looser bound needs its reason"
    places = len(printed.partition(".")[2])
    allowed = within if within is not None else 0.5 * 10.0**-places
    apart = abs(computed - float(printed))
    assert apart <= allowed * (1 + 1e-9), f"{computed:.6g} against {printed} as printed"


@pytest.fixture
def agrees():
    """Gives ``agrees(computed, printed)``: asserts that a value is the one in the source."""
    return _agrees
