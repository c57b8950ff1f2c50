"""The watch on a long solve: when to stop, and whom to tell how it goes."""

from __future__ import annotations

import copy
import time
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from collections.abc import Callable


class Progress(NamedTuple):
    """How far a solve has come."""

    bound: float | None
    """No answer costs less [cent]; None before there is one."""
    cost: int | None
    """What the best answer costs [cent]; None before there is one."""
    seconds: float


class Watch:
    """Knows the deadline and the stop flag, and passes progress on.

    Parameters
    ----------
    seconds
        Time allowed; None for as long as the effort takes. An answer that the clock has cut short
        depends on the machine; any other is the same wherever it is made.
    is_stopped
        Asked now and then; once it says True, the best answer so far is given.
    report
        Told of progress.
    """

    def __init__(
        self,
        seconds: float | None = None,
        is_stopped: Callable[[], bool] = lambda: False,
        report: Callable[[Progress], None] = lambda _: None,
    ) -> None:
        self._start = time.monotonic()
        self._allowed = seconds
        self._is_stopped = is_stopped
        self._report = report
        self._bound: float | None = None
        self._cost: int | None = None

    @property
    def seconds(self) -> float:
        """Time since the start."""
        return time.monotonic() - self._start

    def left(self) -> float:
        """Time that is left; infinite where no time was set."""
        return float("inf") if self._allowed is None else max(0.0, self._allowed - self.seconds)

    def within(self, share: float) -> Watch:
        """Give a watch on the same work that is over once so much of the time left is spent."""
        part = copy.copy(self)
        part._allowed = None if self._allowed is None else self.seconds + share * self.left()
        part.tell = self.tell  # type: ignore[method-assign] # what is told to a part is told to all
        return part

    def is_over(self) -> bool:
        """Whether to stop now."""
        return self.left() <= 0.0 or self._is_stopped()

    def tell(self, *, bound: float | None = None, cost: int | None = None) -> None:
        """Pass on a bound or an answer; of those that are told, the best so far is passed on."""
        self._bound = max((b for b in (self._bound, bound) if b is not None), default=None)
        self._cost = min((c for c in (self._cost, cost) if c is not None), default=None)
        self._report(Progress(self._bound, self._cost, self.seconds))
