"""What every solver takes and gives: a budget of time, a seed, a status.

The one clock of the library is here, and it is passed on as a value, so that tests can hold it.
"""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import dataclass, replace
from enum import Enum


class Status(Enum):
    """How much an answer claims."""

    OPTIMAL = "optimal"  # cost equals the proven bound
    FEASIBLE = "feasible"  # a plan, its gap to the bound stated
    IMPOSSIBLE = "impossible"  # proven: the stock there is cannot yield the parts
    UNKNOWN = "unknown"  # scarce stock, and the time ended before a plan or a proof


def never() -> bool:
    """Return that nobody has called the work off."""
    return False


@dataclass(frozen=True, slots=True)
class Budget:
    """How long a solver may think, counted from `started` on `clock`, unless it is called off."""

    seconds: float
    clock: Callable[[], float]
    started: float
    cancelled: Callable[[], bool] = never

    @classmethod
    def of(cls, seconds: float, cancelled: Callable[[], bool] = never) -> Budget:
        """Start a budget now."""
        return cls(seconds, time.monotonic, time.monotonic(), cancelled)

    def until(self, seconds: float) -> Budget:
        """Return the same budget with another end, counted from the same start."""
        return replace(self, seconds=seconds)

    @property
    def used(self) -> float:
        """Return the seconds gone since the start."""
        return self.clock() - self.started

    @property
    def left(self) -> float:
        """Return the seconds left, never below 0."""
        return 0.0 if self.cancelled() else max(0.0, self.seconds - self.used)

    @property
    def is_spent(self) -> bool:
        """Return whether it is time to hand over the best plan so far."""
        return self.cancelled() or self.used >= self.seconds


# Called with (cost so far, proven bound) whenever either improves.
Progress = Callable[[int, int], None]
