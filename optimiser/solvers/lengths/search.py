"""The state of one solve: the best plan, the best proof, and who is told about them."""

from __future__ import annotations

from collections.abc import Mapping
from random import Random
from typing import Any

from optimiser.solvers.lengths.bounds import Row, floor_of, least_counts, weigh
from optimiser.solvers.lengths.plans import Layout, Plan, cost_of, settle
from optimiser.solvers.lengths.prepare import Ready
from optimiser.solvers.lengths.pricing import Pricer
from optimiser.solvers.protocol import Budget, Progress

Array = Any  # numpy arrays


class Search:
    """Keeps the best of everything found; every offer is settled and counted again here."""

    def __init__(self, ready: Ready, budget: Budget, seed: int, progress: Progress | None) -> None:
        self.ready = ready
        self.pricer = Pricer(ready)
        self.budget = budget
        self.seed = seed
        self.rng = Random(seed)
        self.plan: Plan = {}
        self.cost: int | None = None
        self.missing: list[int] = list(ready.demands)
        self.bound = floor_of(ready)
        self.rows: list[Row] = []
        self.counts: tuple[int, ...] = ()
        # Of the counts tried, those at which the linear program costs least.
        self.counts_to_try: tuple[int, ...] | None = None
        # What column generation leaves for those who come after it: prices by type, and layouts.
        self.prices: Array | None = None
        self.pool: list[Layout] = []
        self.is_impossible = False
        self.exhausted = False
        self.method = ""
        self._progress = progress

    @property
    def is_proven(self) -> bool:
        """Return whether no further thinking can help."""
        return self.is_impossible or (self.cost is not None and self.cost <= self.bound)

    def is_over(self) -> bool:
        """Return whether to hand over."""
        return self.is_proven or self.budget.is_spent

    def has_plan(self) -> bool:
        """Return whether a plan with all parts is known."""
        return self.cost is not None

    def offer(self, plan: Mapping[Layout, int] | None, method: str) -> bool:
        """Take a plan if it is the best so far; a partial one counts while no full one is known."""
        if not plan:
            return False
        exact, missing = settle(self.ready, plan)
        if any(missing):
            if self.cost is None and self._length(missing) < self._length(self.missing):
                self.plan, self.missing = exact, missing
            return False
        cost = cost_of(self.ready, exact)
        if self.cost is not None and cost >= self.cost:
            return False
        self.plan, self.cost, self.missing, self.method = exact, cost, missing, method
        self._tell()
        return True

    def replace(self, plan: Plan) -> None:
        """Take a plan of the same cost at most that is simpler."""
        exact, missing = settle(self.ready, plan)
        if not any(missing) and self.cost is not None:
            self.plan, self.cost = exact, min(self.cost, cost_of(self.ready, exact))

    def prove(self, weights: tuple[int, ...], scale: int) -> None:
        """Add a row to the proof; `counts` becomes what agrees with all rows at least cost."""
        self.rows.append(weigh(self.ready, self.pricer, weights, scale))
        least = least_counts(self.ready, self.rows, self.cost)
        if least.bound is None:
            self.is_impossible = True
        elif least.bound > self.bound:
            self.bound = least.bound
            self._tell()
        self.counts = least.counts

    def refuse(self, weights: tuple[int, ...]) -> None:
        """Record a proof that there is no plan: no stock holds any of these weights."""
        self.is_impossible = True
        self.rows = [Row(weights, 1, 1, (), ())]

    def bars(self) -> list[int]:
        """Return the most of each kind that a plan of interest is taken to use."""
        ready = self.ready
        most = [ready.most(k) for k in range(len(ready.kinds))]
        if self.cost is None:
            return most
        used = sum(self.plan.values())
        return [min(limit, 2 * used) for limit in most]

    def _length(self, counts: list[int]) -> int:
        return sum(n * w for n, w in zip(counts, self.ready.weights, strict=True))

    def _tell(self) -> None:
        if self._progress is not None and self.cost is not None:
            self._progress(self.cost, min(self.cost, self.bound))
