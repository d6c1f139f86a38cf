"""Cuts lengths: a plan at once, then column generation, whole plans from it, and a proof.

Method: Gilmore and Gomory 1961 over patterns that hold no more than is demanded, smoothed prices
(Wentges 1997), diving, an integer program over the columns found, and columns listed by reduced
cost once the gap is small. Every bound is recomputed in whole numbers before it is claimed.
"""

from __future__ import annotations

from fractions import Fraction
from math import inf

import numpy as np

from optimiser.solvers.lengths import greedy
from optimiser.solvers.lengths.bounds import Row, dual_weights, material_weights, slack
from optimiser.solvers.lengths.dive import dive
from optimiser.solvers.lengths.master import Master, Root, generate, prices_at
from optimiser.solvers.lengths.outcome import outcome_of
from optimiser.solvers.lengths.plans import Layout, Plan
from optimiser.solvers.lengths.pool import choose, is_impossible
from optimiser.solvers.lengths.prepare import prepare
from optimiser.solvers.lengths.problem import LengthsOutcome, LengthsProblem, Stock
from optimiser.solvers.lengths.regroup import TYPES, draw_group
from optimiser.solvers.lengths.rework import rework
from optimiser.solvers.lengths.search import Search
from optimiser.solvers.lengths.tidy import tidy
from optimiser.solvers.protocol import Budget, Progress

# Measured: the value at which most bin-packing lists are closed before the first dive.
PERTURBED_GREEDIES = 12
PERTURBATION = 0.02
DIVE_ROUNDS = 2
BLUR = 0.4
# Where this share of the cost is several steps, generating further moves neither plan nor proof.
ENOUGH = 5e-5
GENERATING = 0.6  # of the time left
MOST_ROWS = 12
COUNT_ROUNDS = 30
SHARPENING = 0.5  # of the time may be used up when the last row is made
COARSE = (32,)  # rows of the first linear programs
FINER = 1.5  # times as many sizes, or a coarse program is not worth its time
MOST_TYPES = 450  # above it one row a size is too slow
REWORK = 0.2  # of the time used so far
MOST_PIECES = 5_000  # above it writing them out takes longer than they gain
GROUPS = 4  # between two turns of diving
GROUP_SECONDS = 0.5
TIDYING = 0.1  # of the budget is kept for second goals
TIDYING_SHARE = 0.25  # of the time used; a plan found at once is also made tidy at once
TIDY_POOL = 1_000  # patterns of plans of the same cost; where they are more, those met must do
LEAST_TIDYING = 0.3  # seconds; a smaller budget has none to spare
LAST_ROWS = 3
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
    main = budget.until(budget.seconds * (1.0 - TIDYING))
    search = Search(ready, main, seed, progress)
    trade = None
    if not ready.weights:
        search.cost = 0
    elif ready.unstocked:
        _refuse_unstocked(search)
    else:
        _run(search)
        trade = _tidy(search, budget)
    return outcome_of(problem, search, trade)


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
        prices = greedy.start_values(ready, greedy.EXPONENTS[0])
        rework(ready, greedy.best_fit(ready), prices, 0, Budget.of(60.0), until=0.001)
        solve(problem, budget=Budget.of(2.0), seed=0)


def _tidy(search: Search, budget: Budget) -> Plan | None:
    """Make the plan simpler at the same cost; return one much simpler for a trifle more."""
    if not search.has_plan() or budget.seconds < LEAST_TIDYING or budget.cancelled():
        return None
    prices = search.prices
    if prices is None:
        # Proven before any program was solved: a part is worth its length of the cheapest stock.
        rate = min(kind.cost / kind.capacity for kind in search.ready.kinds)
        prices = rate * np.array(search.ready.weights, np.float64)
    used = budget.used
    until = min(budget.seconds, used + LEAST_TIDYING + TIDYING_SHARE * used)
    own = budget.until(until)
    pool = search.pool
    if search.cost is not None and (listed := _listed(search, search.cost, TIDY_POOL)):
        pool = [*pool, *listed]
    plan, trade = tidy(search.ready, search.pricer, search.plan, prices, pool, own)
    search.replace(plan)
    return trade


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


def _run(search: Search, *, inside: bool = False) -> None:
    """Take the steps in turn until the plan is proven or the time is up.

    `inside`: the problem is a group of a larger one, which is not divided further.
    """
    ready = search.ready
    if not inside:
        search.offer(greedy.best_fit(ready), "best fit")
    search.prove(*material_weights(ready))
    columns = set(search.plan)
    for exponent in greedy.EXPONENTS:
        if search.is_over():
            return
        values = greedy.start_values(ready, exponent)
        plan = greedy.fill_by_value(ready, search.pricer, values, search.budget)
        search.offer(plan, "subset greedy")
        columns |= set(plan)
    master, root = _generate(search, sorted(columns))
    if root is None or search.is_over():
        return
    _make_whole(search, master, root, inside=inside)


def _generate(search: Search, columns: list[Layout]) -> tuple[Master | None, Root | None]:
    """Generate columns, first with many sizes to a row, and prove what their prices prove.

    No master comes back for orders of so many sizes that one row for each is too slow.
    """
    types = len(search.ready.weights)
    master, root = None, None
    for rows in (*(r for r in COARSE if r * FINER <= types), types):
        if rows > MOST_TYPES or search.is_over():
            return master, root
        groups = None if rows == types else [t * rows // types for t in range(types)]
        master = Master(search.ready, search.pricer, groups)
        master.add(columns)
        gap = ENOUGH if (search.cost or 0) * ENOUGH > 3 * search.ready.step else 0.0
        found = generate(master, search.bars(), _slice(search.budget), gap)
        if found is None:
            return master, root
        root = found
        search.prices, search.pool = root.prices, master.columns
        columns = list(master.columns)
        search.prove(*dual_weights(search.pricer, root.prices))
        if not search.is_over() and root.relaxed.short > 0:
            search.prove(*dual_weights(search.pricer, root.relaxed.duals))
        is_last = rows == types or min(r for r in (*COARSE, types) if r > rows) > MOST_TYPES
        if is_last and not search.is_over():
            _sharpen(search, master)
    return master, root


def _sharpen(search: Search, master: Master) -> None:
    """Add rows made for the counts of stock that the rows so far leave cheapest (Benders 1962)."""
    ready = search.ready
    if len(ready.kinds) == 1 and not ready.credit:
        return
    tried: set[tuple[int, ...]] = set()
    most = len(search.rows) + MOST_ROWS
    # Near where the linear program is: the rows so far say little of anywhere else.
    counts = tuple(round(n) for n in master.usage() or ())
    least = inf
    while counts and counts not in tried and len(search.rows) < most:
        tried.add(counts)
        found = prices_at(master, counts, search.budget, COUNT_ROUNDS)
        if found is None:
            return
        prices, proven = found
        if proven < least:
            least, search.counts_to_try = proven, counts
        if len(tried) > 1 and proven <= search.bound - ready.step + 1e-6:
            return
        search.prove(*dual_weights(search.pricer, prices))
        if search.is_proven or search.budget.used > SHARPENING * search.budget.seconds:
            return
        counts = search.counts


def _slice(budget: Budget) -> Budget:
    """Leave time for whole plans: prices not quite final already fill stock well."""
    return budget.until(budget.used + GENERATING * budget.left)


def _rework(search: Search, root: Root, share: float) -> None:
    """Take stock pieces apart and fill them again, for a share of the time used so far."""
    until = search.budget.used * (1.0 + share)
    seed = search.rng.getrandbits(48)
    plan = rework(search.ready, search.plan, root.prices, seed, search.budget, until)
    search.offer(plan, "rework")


def _make_whole(search: Search, master: Master | None, root: Root, *, inside: bool) -> None:
    """Look for whole plans until proven, out of time, or nothing better can exist."""
    _first_plans(search, master, root)
    is_large = len(search.ready.weights) > TYPES and not inside
    listed_at: int | None = None
    while not search.is_over():
        if search.cost is not None and search.cost != listed_at:
            listed_at = search.cost
            listed = _listed(search, search.cost - search.ready.step, LISTED)
            if listed is not None and not search.is_over():
                if _choose(search, listed, 0.5, patience=1.0):
                    search.exhausted = True
                    return
                continue
        if is_large and search.has_plan():
            _regroup(search, root)
        elif master is None:
            return
        if master is not None:
            _dive_on(search, master)


def _first_plans(search: Search, master: Master | None, root: Root) -> None:
    """Dive for the counts that the proof points to, fill by prices, dive for any counts."""
    ready = search.ready
    if master is not None:
        _dive(search, master, 0.0, search.counts_to_try)
    may_gain = bool(ready.credit) or len(ready.kinds) > 1
    if may_gain and not search.is_over() and 1 < sum(search.plan.values()) <= MOST_PIECES:
        _rework(search, root, REWORK)
    if not search.is_over():
        _price_greedies(search, master, root)
    if master is None or search.is_over():
        return
    _dive(search, master, 0.0)
    if not search.has_plan() and not search.is_over():
        _settle_scarcity(search, master)
    if len(search.ready.kinds) == 1 and not search.is_over():
        _converge(search, master)


def _converge(search: Search, master: Master) -> None:
    """Take prices to their end: fewer patterns need listing then."""
    found = generate(master, search.bars(), _slice(search.budget), to_the_end=True)
    if found is not None:
        search.prove(*dual_weights(search.pricer, found.relaxed.duals))


def _dive_on(search: Search, master: Master) -> None:
    """Dive a few times, every other time for the counts of the proof, then choose from all."""
    for dived in range(DIVES):
        if search.is_over():
            return
        _dive(search, master, BLUR, search.counts_to_try if dived % 2 else None)
    _choose(search, master.columns, SHARE)


def _regroup(search: Search, root: Root) -> None:
    """Solve groups of layouts as problems of their own, a few of them, or until the time is up."""
    ready = search.ready
    for _ in range(GROUPS):
        if search.is_over():
            return
        losses = {
            (kind, items): ready.net(kind, ready.fill(items))
            - sum(float(root.prices[t]) * n for t, n in items)
            for kind, items in search.plan
        }
        drawn = draw_group(ready, search.plan, losses, search.rng)
        budget = search.budget
        own = budget.until(min(budget.seconds, budget.used + GROUP_SECONDS))
        inner = Search(drawn.ready, own, search.rng.getrandbits(48), None)
        inner.offer(drawn.plan, "")
        _run(inner, inside=True)
        search.offer(drawn.joined(inner.plan), "regrouping")


def _price_greedies(search: Search, master: Master | None, root: Root) -> None:
    """Fill stock after stock by the program's prices, then by prices slightly off."""
    base = np.maximum(root.prices, root.prices.max() * 1e-6)
    for attempt in range(PERTURBED_GREEDIES):
        if search.is_over():
            return
        noise = [search.rng.uniform(-PERTURBATION, PERTURBATION) for _ in base]
        values = base * (1.0 + np.array(noise)) if attempt else base
        plan = greedy.fill_by_value(search.ready, search.pricer, values, search.budget)
        search.offer(plan, "price greedy")
        if master is not None:
            master.add(plan)


def _dive(
    search: Search, master: Master, blur: float, counts: tuple[int, ...] | None = None
) -> None:
    plan = dive(master, search.budget, search.cost, search.rng, DIVE_ROUNDS, blur, counts)
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


def _listed(search: Search, target: int, most: int) -> list[Layout] | None:
    """List every pattern that a plan of cost `target` can use; None when they are over `most`."""
    ready = search.ready
    narrowest: tuple[float, Row, int] | None = None
    # The last rows were made where the proof stands; the first ones say less there.
    for row in search.rows[-LAST_ROWS:]:
        gap = slack(ready, search.rows, row, target)
        if gap is None:
            return []
        if narrowest is None or gap / row.scale < narrowest[0]:
            narrowest = (gap / row.scale, row, gap)
    if narrowest is None:
        return None
    _, row, gap = narrowest
    values = np.array(row.weights, np.int64)
    limits = np.array(ready.demands, np.int64)
    least = [most - gap for most in row.yields]
    return search.pricer.collect(values, limits, row.scale, least, most)


def _choose(search: Search, layouts: list[Layout], share: float, patience: float = 0.1) -> bool:
    """Give the integer program a share of the time left; return whether it saw all there is."""
    seconds = min(search.budget.left * share, patience * (1.0 + 9.0 * search.budget.used))
    choice = choose(search.ready, layouts, search.cost, seconds)
    improved = search.offer(choice.plan, "integer program")
    return choice.exhausted and not improved
