"""Notes: what a plan says beside its numbers, each with a stable code, a severity and a source."""

from __future__ import annotations

from typing import Literal, NamedTuple, TypeAlias

Severity: TypeAlias = Literal["info", "caution", "fault"]
"""`info` explains, `caution` asks for care or a second look, `fault` says what stops the work."""


class Note(NamedTuple):
    """One remark of a plan."""

    code: str
    """Stable name, listed in the documents."""
    severity: Severity
    text: str
    """What it says, in plain words."""
    source: str
    """Where the value or the rule comes from."""
