"""What every solver takes and gives: a budget of time, a seed, a status.

The one clock of the library is here, and it is passed on as a value, so that tests can hold it.
"""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import dataclass
from enum import Enum


class Status(Enum):
    """How much an answer claims."""

    OPTIMAL = "optimal"  # cost equals the proven bound
    FEASIBLE = "feasible"  # a plan, its gap to the bound stated
    IMPOSSIBLE = "impossible"  # proven: the stock there is cannot yield the parts
    UNKNOWN = "unknown"  # scarce stock, and the time ended before a plan or a proof


@dataclass(frozen=True, slots=True)
class Budget:
    """How long a solver may think, counted from `started` on `clock`."""

    seconds: float
    clock: Callable[[], float]
    started: float

    @classmethod
    def of(cls, seconds: float) -> Budget:
        """Start a budget now."""
        return cls(seconds, time.monotonic, time.monotonic())

    @property
    def used(self) -> float:
        """Return the seconds gone since the start."""
        return self.clock() - self.started

    @property
    def left(self) -> float:
        """Return the seconds left, never below 0."""
        return max(0.0, self.seconds - self.used)

    @property
    def is_spent(self) -> bool:
        """Return whether it is time to hand over the best plan so far."""
        return self.used >= self.seconds


# Called with (cost so far, proven bound) whenever either improves.
Progress = Callable[[int, int], None]
