"""The 2D solver: a first plan at once, then ruin and recreate, set covering, and a proven bound."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field, replace
from fractions import Fraction
from itertools import count

from optimiser.solvers.protocol import Budget, Progress, Status
from optimiser.solvers.sheets import cells as c
from optimiser.solvers.sheets.bounds import DEEP_CELLS, QUICK_CELLS, Proof, prove
from optimiser.solvers.sheets.engine import Engine
from optimiser.solvers.sheets.outcome import impossible, written
from optimiser.solvers.sheets.pool import Plan, Pool, worth_of
from optimiser.solvers.sheets.problem import Sheet, SheetsOutcome, SheetsProblem
from optimiser.solvers.sheets.table import Kind, fits, kinds_of, new_table
from optimiser.solvers.sheets.tree import concentrate

# Beyond so many parts, reading every state into the pool would cost more than it brings.
_POOLED_PARTS = 1500
# The most of the time that one set covering may take.
_COVER_SHARE = 0.15
_COVER_SECONDS = 3.0
# Set covering is tried again when the pool has grown by half.
_GROWTH = 1.5
_LEAST_POOL = 20
# A plan still unproven after so many slices is worth a longer look for a bound.
_DEEP_AFTER = 50
# First plans are built until so many places were looked at, about a tenth of a second.
_FIRST_WORK = 10_000_000


def solve(
    problem: SheetsProblem, *, budget: Budget, seed: int, progress: Progress | None = None
) -> SheetsOutcome:
    """Return the best plan found within the budget, and a bound that no guillotine plan can beat.

    The demand is met exactly. The same seed and the same number of slices give the same plan; the
    clock only ends the search. `progress` is called with (cost, bound) when either improves.
    """
    kinds = kinds_of(problem)
    homeless = [
        kind
        for kind in kinds
        if not any(
            sheet.available != 0
            and fits(kind, sheet, problem.kerf, problem.max_stages, problem.first_cut)
            for sheet in problem.sheets
        )
    ]
    if homeless:
        missing = Counter({part: problem.demands[part] for kind in homeless for part in kind.parts})
        return impossible(problem, missing, (), budget.used)
    run = _Run(problem=problem, kinds=kinds, budget=budget, seed=seed, progress=progress)
    return run.outcome()


@dataclass(slots=True)
class _Run:
    """One solve: the best plan and the best bound so far."""

    problem: SheetsProblem
    kinds: tuple[Kind, ...]
    budget: Budget
    seed: int
    progress: Progress | None
    engine: Engine = field(init=False)
    pool: Pool = field(init=False)
    best: Plan | None = None
    worth: tuple[int, int, int] = (0, 0, 0)
    proof: Proof = field(init=False)
    method: str = "best insertion"
    covered: int = 0

    def __post_init__(self) -> None:
        self.engine = Engine(new_table(self.problem, self.kinds, self.seed))
        self.pool = Pool(self.problem)

    def outcome(self) -> SheetsOutcome:
        """Search until the time is spent or the best plan is proven."""
        if not self.kinds:
            nothing = Proof(bound=0, rows=(), short=False)
            return written(self.problem, self.kinds, (), nothing, self.budget.used, "none")
        self.proof = prove(self.problem, scales=1)
        self._first_plans()
        if not self._is_over():
            self._prove()
        self._search()
        if self.best is None:
            missing = self._missing()
            if self.proof.short:
                return impossible(self.problem, missing, self.proof.rows, self.budget.used)
            return replace(
                impossible(self.problem, missing, (), self.budget.used), status=Status.UNKNOWN
            )
        plan = self._tidied(self.best)
        return written(self.problem, self.kinds, plan, self.proof, self.budget.used, self.method)

    def _tidied(self, plan: Plan) -> Plan:
        """Return the plan with its waste in larger pieces, equal sheets cut alike."""
        tidy = {layout: concentrate(self.problem, layout[1]) for layout in dict.fromkeys(plan)}
        return self.pool.best_of(tuple((sheet, tidy[sheet, block]) for sheet, block in plan))

    def _is_over(self) -> bool:
        """Return whether nothing is left to gain, or no time to gain it in."""
        return self.proof.short or self._is_proven() or self.budget.is_spent

    def _is_proven(self) -> bool:
        return self.best is not None and self.worth[0] <= self.proof.bound

    def _tell(self) -> None:
        if self.progress is not None and self.best is not None:
            self.progress(self.worth[0], self.proof.bound)

    def _first_plans(self) -> None:
        """Build plans by best insertion in several orders; keep the best."""
        fewest: tuple[int, int] | None = None
        for number in range(self.engine.constructions()):
            self.engine.construct(number)
            waiting = self.engine.unplaced
            if waiting == 0:
                self._offer("best insertion")
            elif self.best is None and (fewest is None or waiting < fewest[0]):
                fewest = (waiting, number)
                self.engine.keep(None)
            # Even a proven cost may yet come with fewer sheets, while that takes no time.
            if self.proof.short or self.budget.is_spent or self.engine.work > _FIRST_WORK:
                return

    def _offer(self, method: str) -> None:
        """Take the engine's present, complete state if it is better than the best plan."""
        net = self.engine.net_cost
        ranked = (net, self.engine.sheets)
        if self.best is not None and not self.engine.table.credited and ranked >= self.worth[:2]:
            return
        plan = self.engine.plan()
        if self._take(plan, method):
            self.engine.keep(min(net, self.worth[0]))
        elif self.best is not None and net <= self.worth[0]:
            # Equal in money: search on from here, for less than the best.
            self.engine.keep(self.worth[0])

    def _take(self, plan: Plan, method: str) -> bool:
        if self.engine.table.credited:
            plan = self._tidied(plan)
        worth = worth_of(self.problem, plan)
        if self.best is not None and worth >= self.worth:
            return False
        cheaper = self.best is None or worth[0] < self.worth[0]
        self.best, self.worth = plan, worth
        if cheaper:
            self.method = method
            self._tell()
        return cheaper

    def _prove(self, cells: int = QUICK_CELLS) -> None:
        """Look for the best bound; the cap of the search never goes below it."""
        proof = prove(self.problem, cells=cells)
        if proof.short or proof.bound > self.proof.bound:
            self.proof = proof
            self._tell()
        if not self.engine.table.credited:
            self.engine.floor = self.proof.bound

    def _search(self) -> None:
        pooled = sum(kind.demand for kind in self.kinds) <= _POOLED_PARTS
        self.engine.restore()
        slices = 0
        while not self._is_over():
            said = self.engine.step()
            slices += 1
            if slices == _DEEP_AFTER:
                self._prove(DEEP_CELLS)
            if said == c.FOUND:
                self._offer("ruin and recreate")
            elif pooled and self.best is not None:
                self.pool.add(self.engine.plan() if said == c.GO_ON else ())
                if said == c.STALLED:
                    self._cover()

    def _cover(self) -> None:
        """Choose anew among all layouts met, if enough of them are new."""
        size = len(self.pool.layouts)
        if size < max(_LEAST_POOL, _GROWTH * self.covered):
            return
        self.covered = size
        seconds = min(_COVER_SECONDS, _COVER_SHARE * self.budget.seconds, self.budget.left)
        plan = self.pool.cheapest(self.kinds, self.worth[0], seconds)
        if plan is not None and self._take(plan, "set covering"):
            self.engine.load(plan, self.worth[0])

    def _missing(self) -> Counter[int]:
        """Count the parts that the best attempt leaves out."""
        missing: Counter[int] = Counter()
        self.engine.restore()
        for kind, waiting in zip(self.kinds, self.engine.waiting, strict=True):
            left = waiting
            for part in kind.parts:
                missing[part] = min(left, self.problem.demands[part])
                left -= missing[part]
        return missing


def warm() -> None:
    """Compile all that the solver needs in one small run; kept on disk where that is possible."""
    problem = SheetsProblem(
        widths=(60, 50, 40, 30),
        heights=(50, 40, 30, 20),
        demands=(3, 3, 3, 3),
        turns=(False, True, True, True),
        kerf=1,
        sheets=(
            Sheet(width=100, height=120, cost=10),
            Sheet(width=90, height=90, cost=7, available=1),
        ),
        max_stages=None,
        keep=(10, 10),
        credit=Fraction(1, 10_000),
    )
    # A clock that counts its readings: compiling takes no time on it.
    solve(problem, budget=Budget(60.0, count().__next__, 0.0), seed=0)
