"""A planted error: the proof that an oracle would notice if our code were wrong."""

import inspect
from types import ModuleType

import pytest


def _planted(module: ModuleType, true_text: str, false_text: str) -> ModuleType:
    """A copy of a module with one piece of its source replaced."""
    source = inspect.getsource(module)
    times = source.count(true_text)
    assert times == 1, f"{true_text!r} occurs {times} times in {module.__name__}, not once"
    copy = ModuleType(module.__name__, module.__doc__)
    exec(compile(source.replace(true_text, false_text), "<planted>", "exec"), copy.__dict__)  # noqa: S102
    return copy


@pytest.fixture
def planted():
    """Gives ``planted(module, true_text, false_text)``: the module with that one error in it."""
    return _planted
