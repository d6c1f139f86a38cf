"""Tells whoever listens how far the planning of all materials has come."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from optimiser.solvers.protocol import Budget

EVERY = 0.05  # seconds between two reports, unless the last plan is complete


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanProgress:
    """The net cost so far and what no plan can beat, in pence, over all materials.

    The bound is the solvers' own; the plan in the end carries the one that the checker derives.
    `seconds` since the planning began.
    """

    cost: int
    bound: int
    seconds: float


Tell = Callable[[PlanProgress], None]


class Teller:
    """Adds up what the materials' solvers report; says something once every material has a plan."""

    def __init__(self, budget: Budget, tell: Tell | None, materials: int) -> None:
        self._budget = budget
        self._tell = tell
        self._materials = materials
        self._costs: dict[str, int] = {}
        self._bounds: dict[str, int] = {}
        self._last: tuple[int, int] | None = None
        self._told = -EVERY

    def settle(self, name: str, cost: int, bound: int) -> None:
        """Take the plan of a material as it stands now."""
        self._costs[name] = cost
        self._bounds[name] = max(bound, self._bounds.get(name, bound))
        self._say()

    def hear(self, name: str, cost: int, bound: int) -> None:
        """Take what a solver reports while it works."""
        if name not in self._costs:
            return
        self._costs[name] = min(cost, self._costs[name])
        self._bounds[name] = max(bound, self._bounds[name])
        self._say()

    def _say(self) -> None:
        if self._tell is None or len(self._costs) < self._materials:
            return
        now = self._budget.used
        state = (sum(self._costs.values()), sum(self._bounds.values()))
        if state == self._last or now - self._told < EVERY:
            return
        self._last, self._told = state, now
        cost, bound = state
        self._tell(PlanProgress(cost=cost, bound=min(cost, bound), seconds=round(now, 3)))
