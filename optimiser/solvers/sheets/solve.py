"""The 2D solver: a first plan at once, then several methods raced by size, and a proven bound.

Ruin and recreate is best where nearly every part has a size of its own, column generation where
sizes repeat; the latter's prices also prove how much is still to be gained.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field, replace

from optimiser.solvers.protocol import Budget, Progress, Status
from optimiser.solvers.sheets import cells as c
from optimiser.solvers.sheets.bounds import Proof, prove
from optimiser.solvers.sheets.classes import MOST_ROWS, most_rows
from optimiser.solvers.sheets.columns import block_of
from optimiser.solvers.sheets.decide import PRICED_SHARE, decide, is_small, ruled_out
from optimiser.solvers.sheets.engine import Engine
from optimiser.solvers.sheets.generate import Generator
from optimiser.solvers.sheets.outcome import impossible, read_back, simplified, written
from optimiser.solvers.sheets.pool import Plan, Pool, worth_of
from optimiser.solvers.sheets.problem import SheetsOutcome, SheetsProblem
from optimiser.solvers.sheets.regroup import Regrouper
from optimiser.solvers.sheets.rounding import REPEATED_RESTS, Rounder
from optimiser.solvers.sheets.sequence import Sequencer
from optimiser.solvers.sheets.sets import prove_by_sets
from optimiser.solvers.sheets.table import Kind, homeless, kinds_of, new_table, sizes_repeat
from optimiser.solvers.sheets.tidy import tidied
from optimiser.solvers.sheets.tree import Block

# Beyond so many parts, reading every state into the pool would cost more than it brings.
_POOLED_PARTS = 1500
# Reading a state takes as long as a slice of search: one in so many is read.
_POOLED_SLICE = 8
# After so many slices layouts are rounded anew, where sizes repeat.
_ROUNDED_SLICE = 20
# With many kinds groups of sheets gain far more than single steps do.
_GROUPED_SLICE = 8
# The most of the time left that one set covering may take, and the first after generation.
_COVER_SHARE = 0.2
_FIRST_COVER_SHARE = 0.05
# The most of the time left that goes into building the layouts generated, for set covering.
_POOL_SHARE = 0.02
# Set covering is tried again when the pool has grown by half.
_GROWTH = 1.2
_LEAST_POOL = 20
# Column generation starts after so many slices of ruin and recreate for each second beyond those
# that it takes itself, at least and at most; at once if sizes repeat. It may take so much of the
# time left, and more of it in a search of so few seconds.
_SLICES_A_SECOND = 20
_SECONDS_APART = 0.8
_LEAST_AFTER = 3
_MOST_AFTER = 25
_GENERATE_SHARE = 0.6
_SHORT = 1.5
_SHORT_SHARE = 0.8
# Slices of ruin and recreate spent on the rest of the first plan made of columns.
_EARLY_SLICES = 4
# Orders of more parts than this, so many alike on average, start with column generation.
_VAST = 4000
_VAST_COPIES = 20
# Plans made sheet after sheet once there are prices.
_PASSES = 4
# First plans are built until so many places were looked at, about a tenth of a second.
_FIRST_WORK = 10_000_000
# Where prices come first: how many first plans, and the share of the usual listing of sets.
_FEW_FIRST = 2
_FEW_SETS = 0.1


def solve(
    problem: SheetsProblem,
    *,
    budget: Budget,
    seed: int,
    progress: Progress | None = None,
    known: SheetsOutcome | None = None,
    simple: bool = True,
    prices_first: bool = False,
) -> SheetsOutcome:
    """Return the best plan found within the budget, and a bound that no guillotine plan can beat.

    The demand is met exactly. The same seed and the same number of slices give the same plan; the
    clock only ends the search. `progress` is called with (cost, bound) when either improves.
    `known` is an outcome of the same problem, from whose plan the search goes on.
    With `simple` each layout is tried in fewer runs of cuts at the end; of plans that are only held
    against each other, `simplified` does that later to the one that stands.
    With `prices_first` layouts and their prices come before much else: for short searches whose
    proof is worth as much as their plan.
    """
    kinds = kinds_of(problem)
    missing = homeless(problem, kinds)
    if missing:
        return impossible(problem, missing, None, budget.used)
    run = _Run(
        problem=problem,
        kinds=kinds,
        budget=budget,
        seed=seed,
        progress=progress,
        prices_first=prices_first,
    )
    outcome = run.outcome(known)
    return simplified(problem, outcome) if simple else outcome


@dataclass(slots=True)
class _Run:
    """One solve: the best plan and the best bound so far."""

    problem: SheetsProblem
    kinds: tuple[Kind, ...]
    budget: Budget
    seed: int
    progress: Progress | None
    prices_first: bool
    engine: Engine = field(init=False)
    pool: Pool = field(init=False)
    best: Plan | None = None
    worth: tuple[int, int, int] = (0, 0, 0)
    proof: Proof = field(init=False)
    method: str = "best insertion"
    covered: int = 0
    rows: int = field(init=False)
    _tidy: dict[Block, Block] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.engine = Engine(new_table(self.problem, self.kinds, self.seed))
        self.pool = Pool(self.problem)
        self.rows = most_rows(self.budget.seconds)

    def outcome(self, known: SheetsOutcome | None) -> SheetsOutcome:
        """Search on from a known plan, if any, until the time is spent or the best is proven."""
        if not self.kinds:
            nothing = Proof(bound=0, rows=(), short=False)
            return written(self.problem, self.kinds, (), nothing, self.budget.used, "none")
        self.proof = prove(self.problem, scales=1)
        plans: Iterator[Plan] = iter(())
        parts = sum(kind.demand for kind in self.kinds)
        vast = parts > _VAST and parts > _VAST_COPIES * len(self.kinds)
        if known is not None and known.patterns:
            plan = read_back(self.problem, self.kinds, known.patterns)
            self._take(plan, known.method)
            self._go_on()
        if vast:
            # Inserting so many parts one by one takes longer than generating layouts for them.
            plans = self._rounded(self._generate())
        if self.best is None:
            self._first_plans()
        if not vast and not self._is_over():
            self._prove(prove(self.problem))
        self._search(plans, generated=vast)
        if self.best is None:
            missing = self._missing()
            if self.proof.short:
                return impossible(self.problem, missing, self.proof, self.budget.used)
            return replace(
                impossible(self.problem, missing, None, self.budget.used), status=Status.UNKNOWN
            )
        plan = self._tidied(self.best)
        return written(self.problem, self.kinds, plan, self.proof, self.budget.used, self.method)

    def _tidied(self, plan: Plan) -> Plan:
        """Return the plan with its waste in larger pieces, equal sheets cut alike."""
        for _, block in plan:
            if block not in self._tidy:
                self._tidy[block] = tidied(self.problem, block)
        return self.pool.best_of(tuple((sheet, self._tidy[block]) for sheet, block in plan))

    def _is_over(self) -> bool:
        """Return whether nothing is left to gain, or no time to gain it in."""
        is_proven = self.best is not None and self.worth[0] <= self.proof.bound
        return self.proof.short or is_proven or self.budget.is_spent

    def _tell(self) -> None:
        if self.progress is not None and self.best is not None:
            self.progress(self.worth[0], self.proof.bound)

    def _first_plans(self) -> None:
        """Build plans by best insertion in several orders; keep the best."""
        fewest: tuple[int, int] | None = None
        for number in range(_FEW_FIRST if self.prices_first else self.engine.constructions()):
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

    def _go_on(self) -> None:
        """Let the search go on from the best plan; from one of its own if that has no room."""
        if self.best is None or self.engine.load(self.best, self.worth[0]):
            return
        if self.engine.net is None:
            self.engine.construct(0)
            self.engine.keep(self.engine.net_cost if self.engine.unplaced == 0 else None)

    def _offer(self, method: str) -> None:
        """Take the engine's present, complete state if it is better than the best plan."""
        net = self.engine.net_cost
        behind = self.best is not None and (net, self.engine.sheets) >= self.worth[:2]
        if behind and not self.engine.table.credited:
            # A search with a plan of its own may gain and still be behind the best.
            if self.engine.net is not None and net < self.engine.net:
                self.engine.keep(net)
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

    def _prove(self, proof: Proof) -> None:
        """Take a better bound; the cap of the search never goes below it."""
        if proof.short or proof.bound > self.proof.bound:
            self.proof = proof
            self._tell()
        if not self.engine.table.credited:
            self.engine.floor = self.proof.bound

    def _search(self, plans: Iterator[Plan], *, generated: bool) -> None:
        """Search until it is over: ruin and recreate, with column generation where it pays."""
        pooled = sum(kind.demand for kind in self.kinds) <= _POOLED_PARTS
        repeated = sizes_repeat(self.kinds)
        patience = 0 if repeated or self.prices_first else self._patience()
        turn = self._turn(repeated=repeated)
        self.engine.restore()
        slices = 0
        while not self._is_over():
            if slices >= patience and not generated:
                generated = True
                seconds = self.budget.seconds * (_FEW_SETS if self.prices_first else 1.0)
                self._prove(prove_by_sets(self.problem, self.kinds, self.proof, seconds))
                if self._is_over():
                    break
                generator = self._generate()
                if self.best is not None:
                    plans = self._rounded(generator)
                    self._decide(generator)
                self.engine.restore()
            said = self.engine.step()
            slices += 1
            if said == c.FOUND:
                self._offer("ruin and recreate")
            elif said == c.STALLED and slices < patience:
                # Little is gained any more: a bound says whether there is anything to gain.
                patience = slices
            elif self.best is not None:
                if pooled and slices % _POOLED_SLICE == 0 and said == c.GO_ON:
                    self.pool.add(self.engine.plan())
                if slices % turn == 0 or (said == c.STALLED and repeated):
                    next(plans, None)
                if pooled and said == c.STALLED:
                    self._cover(_COVER_SHARE)

    def _patience(self) -> int:
        """Return how many slices of ruin and recreate come before column generation."""
        after = int(_SLICES_A_SECOND * (self.budget.seconds - _SECONDS_APART))
        return min(max(after, _LEAST_AFTER), _MOST_AFTER)

    def _turn(self, *, repeated: bool) -> int:
        """Return after how many slices a plan is made of columns again."""
        if len(self.kinds) > self.rows:
            return _GROUPED_SLICE
        # Where sizes differ a plan takes about as long to round as half as many slices as kinds.
        return _ROUNDED_SLICE if repeated else max(_ROUNDED_SLICE, len(self.kinds) // 2)

    def _generate(self) -> Generator:
        """Look for layouts, for plans made of them, and for a bound by column generation."""
        generator = Generator(self.problem, self.kinds, self.proof, self._share(), self.rows)
        generator.start(lambda: self._is_enough(generator))
        self._plan_early(generator)
        generator.budget = self._share()
        generator.run(lambda: self._is_enough(generator))
        generator.budget = self.budget
        self._prove(generator.proof)
        if self.problem.max_stages is not None and not self._is_over():
            self._prove_free()
        return generator

    def _prove_free(self) -> None:
        """Look for a bound among layouts of any number of stages; it holds for fewer too."""
        free = replace(self.problem, max_stages=None, first_cut=None)
        generator = Generator(free, self.kinds, self.proof, self._share(), self.rows)
        generator.start(lambda: self._is_enough(generator))
        generator.run(lambda: self._is_enough(generator))
        self._prove(generator.proof)

    def _share(self) -> Budget:
        """Return the time that column generation may take now."""
        share = _SHORT_SHARE if self.budget.seconds < _SHORT else _GENERATE_SHARE
        return self.budget.until(self.budget.used + share * self.budget.left)

    def _is_enough(self, generator: Generator) -> bool:
        return self.best is not None and self.worth[0] <= generator.proof.bound

    def _plan_early(self, generator: Generator) -> None:
        """Make a plan or a few by the first prices; the proof may take longer than there is."""
        if len(self.kinds) <= MOST_ROWS:
            next(self._taken(self._plans_of(generator, _EARLY_SLICES), "column generation"))
            return
        sequencer = Sequencer(self.problem, self.kinds, generator, self.budget)
        for _ in range(_PASSES):
            plan = None if self._is_over() else sequencer.plan()
            if plan is None:
                return
            if self._take(plan, "sheet after sheet"):
                self._go_on()

    def _rounded(self, generator: Generator) -> Iterator[Plan]:
        """Make plans of the layouts generated; the first few at once, then one each time asked."""
        if len(generator.shares) < len(self.kinds):
            regrouper = Regrouper(self.problem, self.kinds, self.budget, self.seed)
            return self._taken(regrouper.plans(lambda: self.best or ()), "groups of sheets")
        plans = self._taken(self._plans_of(generator), "column generation")
        for _ in range(len(REPEATED_RESTS) if sizes_repeat(self.kinds) else 1):
            if self._is_over():
                return plans
            next(plans)
        # Late ones first: they came of better prices. Thousands of large layouts take seconds.
        building = self.budget.until(self.budget.used + _POOL_SHARE * self.budget.left)
        for column in reversed(generator.master.columns):
            if building.is_spent:
                break
            self.pool.add(((column.sheet, block_of(self.problem, self.kinds, column)),))
        self._cover(_FIRST_COVER_SHARE)
        return plans

    def _plans_of(self, generator: Generator, slices: int = 0) -> Iterator[Plan]:
        rounder = Rounder(self.problem, self.kinds, generator, self.budget, self.seed, slices)
        return rounder.plans(self.proof.bound, lambda: None if self.best is None else self.worth[0])

    def _taken(self, plans: Iterator[Plan], method: str) -> Iterator[Plan]:
        for plan in plans:
            if plan:
                self.pool.add(plan)
                if self._take(plan, method):
                    self._go_on()
            yield plan

    def _cover(self, share: float) -> None:
        """Choose anew among all layouts met, if enough of them are new."""
        size = len(self.pool.layouts)
        if self.best is None or self._is_over() or size < max(_LEAST_POOL, _GROWTH * self.covered):
            return
        self.covered = size
        plan = self.pool.cheapest(
            self.kinds, self.worth[0], self.proof.bound, share * self.budget.left
        )
        if plan is not None and self._take(plan, "set covering"):
            self._go_on()

    def _decide(self, generator: Generator) -> None:
        """Of a small order, find the cheapest plan by an exact model, or prove there is none."""
        if not is_small(self.problem, self.kinds, len(self.best or ())):
            return
        generator.budget = self.budget.until(self.budget.used + PRICED_SHARE * self.budget.left)
        prices = None if self._is_over() else generator.priced()
        generator.budget = self.budget
        while prices is not None and not self._is_over():
            cost = self.worth[0]
            found = decide(self.problem, self.kinds, *prices, cost, self.budget.seconds)
            if found.rows:
                self._prove(ruled_out(self.problem, self.kinds, self.proof, cost, found.rows))
            share = _COVER_SHARE * self.budget.left
            plan = found.pool and found.pool.cheapest(self.kinds, cost, self.proof.bound, share)
            if not plan or not self._take(plan, "exact model"):
                return
            self._go_on()

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
