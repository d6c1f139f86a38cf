"""What the terminal shows while a plan is made, and Ctrl-C: once keeps the best plan, twice quits.

The line of figures is rewritten in place, on a terminal only; a log gets the complete plans.
"""

from __future__ import annotations

import os
import signal
import sys
from threading import Event
from types import FrameType, TracebackType
from typing import TYPE_CHECKING, Any

from optimiser import pounds

if TYPE_CHECKING:
    from optimiser import CuttingPlan, PlanProgress

RESULTS, MESSAGES = 1, 2  # what the system calls standard output and standard error


def cores() -> int:
    """Return how many processes may plan at once: one for each core this one may use."""
    if hasattr(os, "sched_getaffinity"):
        return max(1, len(os.sched_getaffinity(0)))
    return os.cpu_count() or 1


class Watching:
    """Use as a context around the planning; hand its methods to the planner."""

    def __init__(self) -> None:
        self._stop = Event()
        self._is_live = sys.stderr.isatty()
        # Any: what signal() gives is wider than what it takes.
        self._before: Any = signal.SIG_DFL
        self._results = -1

    def __enter__(self) -> Watching:
        self._before = signal.signal(signal.SIGINT, self._interrupted)
        # An engine may print a line of its own, past Python; results are read from there.
        sys.stdout.flush()
        self._results = os.dup(RESULTS)
        os.dup2(MESSAGES, RESULTS)
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        os.dup2(self._results, RESULTS)
        os.close(self._results)
        signal.signal(signal.SIGINT, self._before)
        self._clear()

    def cancelled(self) -> bool:
        """Return whether Ctrl-C was pressed."""
        return self._stop.is_set()

    def complete(self, plan: CuttingPlan) -> None:
        """Tell of a complete, checked plan."""
        self._clear()
        print(_line(plan.seconds, plan.money.net, plan.bound), file=sys.stderr)

    def progress(self, state: PlanProgress) -> None:
        """Show how far the planning is."""
        if self._is_live:
            line = _line(state.seconds, state.cost, state.bound)
            print(f"\r{line}  (Ctrl-C keeps the best)", end="", file=sys.stderr, flush=True)

    def _clear(self) -> None:
        if self._is_live:
            print(f"\r{'':<78}\r", end="", file=sys.stderr, flush=True)

    def _interrupted(self, number: int, frame: FrameType | None) -> None:
        del number, frame
        self._stop.set()
        signal.signal(signal.SIGINT, signal.default_int_handler)
        print("\nscantling: stopping; the best plan so far is kept", file=sys.stderr)


def _line(seconds: float, cost: int, bound: int) -> str:
    gap = 100 * (cost - bound) / cost if cost else 0.0
    return f"  {seconds:5.1f} s: net {pounds(cost)}, bound {pounds(bound)}, gap {gap:.2f} %"
