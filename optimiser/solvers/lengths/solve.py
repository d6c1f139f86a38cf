"""Cuts lengths: a plan at once, then column generation, whole plans from it, and a proof.

Method: Gilmore and Gomory 1961 over patterns that hold no more than is demanded, smoothed prices
(Wentges 1997), diving, an integer program over the columns found, and columns listed by reduced
cost once the gap is small. Every bound is recomputed in whole numbers before it is claimed.
"""

from __future__ import annotations

from fractions import Fraction

import numpy as np

from optimiser.solvers.lengths import greedy
from optimiser.solvers.lengths.bounds import dual_weights, material_weights
from optimiser.solvers.lengths.dive import dive
from optimiser.solvers.lengths.master import Master, Root, excess, generate
from optimiser.solvers.lengths.plans import Layout, unfold
from optimiser.solvers.lengths.pool import choose, is_impossible
from optimiser.solvers.lengths.prepare import Ready, prepare
from optimiser.solvers.lengths.problem import LengthsOutcome, LengthsProblem, Stock
from optimiser.solvers.lengths.search import Search
from optimiser.solvers.protocol import Budget, Progress, Status

# Measured: the value at which most bin-packing lists are closed before the first dive.
PERTURBED_GREEDIES = 12
PERTURBATION = 0.02
DIVE_ROUNDS = 2
BLUR = 0.4
# Where this share of the cost is several steps, generating further moves neither plan nor proof.
ENOUGH = 5e-5
GENERATING = 0.6  # of the time left
LISTED = 6_000  # patterns; above it the integer program is slower than diving
PROOF_PATTERNS = 4_000  # patterns; above it an exhaustive proof is not tried
DIVES = 4  # a turn
# The integer program's turn lasts as long as the search did so far, this share of what is left
# at most: on large pools it finds nothing, on small ones it is done at once.
SHARE = 0.3


def solve(
    problem: LengthsProblem, *, budget: Budget, seed: int, progress: Progress | None = None
) -> LengthsOutcome:
    """Cut every part at the least net cost that the budget lets it find.

    Sizes in one unit, costs in another, see problem.py. `progress` hears (cost, bound) whenever
    either improves. The same seed gives the same outcome when it ends by proof, not by time.
    """
    ready = prepare(problem)
    search = Search(ready, budget, seed, progress)
    if not ready.weights:
        search.cost = 0
    elif ready.unstocked:
        _refuse_unstocked(search)
    else:
        _run(search)
    return _outcome(problem, search)


def warm() -> None:
    """Compile and cache every kernel by solving small problems; call it once at set-up."""
    stocks = (Stock(usable=2_400, cost=360), Stock(usable=1_111, cost=150, available=1))
    for credit in (Fraction(0), Fraction(3, 40)):
        problem = LengthsProblem(
            sizes=(1_153, 977, 701, 523, 311),
            demands=(3, 4, 5, 6, 7),
            kerf=3,
            stocks=stocks,
            keep=200,
            credit=credit,
        )
        ready = prepare(problem)
        pricer = Search(ready, Budget.of(1.0), 0, None).pricer
        values = np.array(ready.weights, np.int64)
        limits = np.array(ready.demands, np.int64)
        kinds = [0] * len(ready.kinds)
        pricer.search(values, limits, 1, kinds)
        pricer.by_table(values, limits, 1, kinds)
        pricer.collect(values, limits, 1, kinds, 10)
        solve(problem, budget=Budget.of(2.0), seed=0)


def _refuse_unstocked(search: Search) -> None:
    """Show that a part is longer than every stock: all stock together holds none of it."""
    ready = search.ready
    worst = ready.unstocked[0]
    weights = tuple(int(t == worst) for t in range(len(ready.weights)))
    if ready.kinds:
        search.offer(greedy.best_fit(ready), "best fit")
        search.prove(weights, 1)
    else:
        search.refuse(weights)


def _run(search: Search) -> None:
    """Take the steps in turn until the plan is proven or the time is up."""
    ready = search.ready
    search.offer(greedy.best_fit(ready), "best fit")
    search.prove(*material_weights(ready))
    master = Master(ready, search.pricer)
    master.add(search.plan)
    for exponent in greedy.EXPONENTS:
        if search.is_over():
            return
        values = greedy.start_values(ready, exponent)
        plan = greedy.fill_by_value(ready, search.pricer, values, search.budget)
        search.offer(plan, "subset greedy")
        master.add(plan)
    if search.is_over():
        return
    gap = ENOUGH if (search.cost or 0) * ENOUGH > 3 * ready.step else 0.0
    root = generate(master, search.bars(), _slice(search.budget), gap)
    if root is None:
        return
    search.prove(*dual_weights(search.pricer, root.prices))
    if not search.is_proven and root.relaxed.short > 0:
        search.prove(*dual_weights(search.pricer, root.relaxed.duals))
    if not search.is_over():
        _make_whole(search, master, root)


def _slice(budget: Budget) -> Budget:
    """Leave time for whole plans: prices not quite final already fill stock well."""
    return Budget(budget.used + GENERATING * budget.left, budget.clock, budget.started)


def _make_whole(search: Search, master: Master, root: Root) -> None:
    """Look for whole plans until proven, out of time, or nothing better can exist."""
    _price_greedies(search, master, root)
    if not search.is_over():
        _dive(search, master, 0.0)
    if not search.has_plan() and not search.is_over():
        _settle_scarcity(search, master)
    listed_at: int | None = None
    while not search.is_over():
        if search.cost is not None and search.cost != listed_at:
            listed_at = search.cost
            listed = _listed(search, root)
            if listed is not None and not search.is_over():
                done = _choose(search, listed, 0.9)
                if done:
                    return
                continue
        for _ in range(DIVES):
            if search.is_over():
                return
            _dive(search, master, BLUR)
        _choose(search, master.columns, SHARE)


def _price_greedies(search: Search, master: Master, root: Root) -> None:
    """Fill stock after stock by the program's prices, then by prices slightly off."""
    base = np.maximum(root.prices, root.prices.max() * 1e-6)
    for attempt in range(PERTURBED_GREEDIES):
        if search.is_over():
            return
        noise = [search.rng.uniform(-PERTURBATION, PERTURBATION) for _ in base]
        values = base * (1.0 + np.array(noise)) if attempt else base
        plan = greedy.fill_by_value(search.ready, search.pricer, values, search.budget)
        search.offer(plan, "price greedy")
        master.add(plan)


def _dive(search: Search, master: Master, blur: float) -> None:
    plan = dive(master, search.budget, search.cost, search.rng, DIVE_ROUNDS, blur)
    if plan is None:
        return
    search.offer(plan, "diving")
    if not search.budget.is_spent:
        values = greedy.start_values(search.ready, greedy.EXPONENTS[0])
        rest = greedy.fill_by_value(search.ready, search.pricer, values, search.budget, start=plan)
        search.offer(rest, "diving")


def _settle_scarcity(search: Search, master: Master) -> None:
    """With no full plan yet: try the integer program, then to prove that there is none."""
    _choose(search, master.columns, 0.3)
    if search.has_plan() or search.is_over():
        return
    ready = search.ready
    ones = np.ones(len(ready.weights), np.int64)
    limits = np.array(ready.demands, np.int64)
    least = [1] * len(ready.kinds)
    every = search.pricer.collect(ones, limits, 0, least, PROOF_PATTERNS)
    if every is None:
        return
    _choose(search, every, 0.3)
    if not search.has_plan() and is_impossible(ready, every, search.budget.left, search.seed):
        search.is_impossible = True


def _listed(search: Search, root: Root) -> list[Layout] | None:
    """List every pattern that a plan better than the best can use; None when they are many."""
    ready = search.ready
    assert search.cost is not None
    scale = search.pricer.scale_for(float(root.prices.max())) >> 1 or 1
    values = np.floor(root.prices * scale).astype(np.int64)
    limits = np.array(ready.demands, np.int64)
    costs = [scale * kind.cost for kind in ready.kinds]
    best = search.pricer.search(values, limits, scale, costs).best
    bound = sum(int(v) * d for v, d in zip(values, ready.demands, strict=True))
    bound -= excess(ready, best, costs, range(len(ready.kinds)), search.bars())
    gap = max(0, (search.cost - ready.step) * scale - bound)
    return search.pricer.collect(values, limits, scale, [b - gap for b in best], LISTED)


def _choose(search: Search, layouts: list[Layout], share: float) -> bool:
    """Give the integer program a share of the time left; return whether it saw all there is."""
    seconds = min(search.budget.left * share, 0.1 + search.budget.used)
    choice = choose(search.ready, layouts, search.cost, seconds)
    improved = search.offer(choice.plan, "integer program")
    return choice.exhausted and not improved


def _outcome(problem: LengthsProblem, search: Search) -> LengthsOutcome:
    """State what was found, in the problem's own sizes and stocks."""
    ready = search.ready
    status = Status.IMPOSSIBLE if search.is_impossible else Status.UNKNOWN
    patterns = []
    missing = [0] * len(problem.sizes)
    bound = search.bound
    if search.cost is not None:
        bound = min(bound, search.cost)
        status = Status.OPTIMAL if search.cost == bound else Status.FEASIBLE
        patterns = unfold(problem, ready, search.plan)
    else:
        for t, sources in enumerate(ready.sources):
            short = search.missing[t]
            for index in sources:
                missing[index] = min(short, problem.demands[index])
                short -= missing[index]
    return LengthsOutcome(
        status=status,
        patterns=tuple(patterns),
        cost=search.cost or 0,
        bound=bound,
        rows=tuple((_spread(problem, ready, row.weights), row.scale) for row in search.rows),
        missing=tuple(missing),
        method=search.method,
        seconds=search.budget.used,
    )


def _spread(problem: LengthsProblem, ready: Ready, weights: tuple[int, ...]) -> tuple[int, ...]:
    """Give each of the problem's sizes the weight of its type; 0 where none is demanded."""
    spread = [0] * len(problem.sizes)
    for t, sources in enumerate(ready.sources):
        for index in sources:
            spread[index] = weights[t]
    return tuple(spread)
