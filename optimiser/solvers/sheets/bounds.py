"""Rows that prove how little a plan can cost: a weight across times a weight along for each part.

Candidates are the plain sizes and the classic dual feasible functions of them; how much one sheet
can carry is then worked out exactly by an unbounded knapsack, so a row is valid for every sheet
size whatever function it came from. Source of the functions and of products of two: Fekete and
Schepers 2004, "A general framework for bounds for higher-dimensional orthogonal packing problems".
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import gcd

import numpy as np

from optimiser.solvers.compiled import Real, Whole, compiled
from optimiser.solvers.sheets.cover import Carrier, Load, least_cost
from optimiser.solvers.sheets.problem import SheetsProblem, Table

# Functions tried for each axis, and the table cells they may take together, at first and later.
_MOST_SCALES = 96
QUICK_CELLS = 25_000_000
DEEP_CELLS = 150_000_000
# Rows, best by an estimate, that are worked out exactly.
_EXACT_ROWS = 12
# How much more than any other a size weighs that fits no sheet.
_MOST_WEIGHT = 1 << 20


@dataclass(frozen=True, slots=True, kw_only=True)
class Proof:
    """The best bound found and what proves it; `short` if the stock proves too little.

    `weights` stand in the order of the problem's parts; those in `once` hold because no part is cut
    more often than it is wanted, those in `narrowed` rule out plans below the bound one after
    another. `loads` are rows and weights as counted.
    """

    bound: int
    rows: tuple[tuple[Table, Table], ...]
    short: bool
    weights: tuple[tuple[int, ...], ...] = ()
    once: tuple[tuple[int, ...], ...] = ()
    narrowed: tuple[tuple[int, ...], ...] = ()
    loads: tuple[Load, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class _Axis:
    """Candidate weights of the sizes of one axis, a row each, and what each sheet carries."""

    sizes: tuple[int, ...]
    weights: Whole
    carries: Whole

    def table(self, row: int) -> Table:
        """Return one candidate as the outcome writes it."""
        return tuple(
            (size, int(weight)) for size, weight in zip(self.sizes, self.weights[row], strict=True)
        )


def prove(problem: SheetsProblem, *, scales: int = _MOST_SCALES, cells: int = QUICK_CELLS) -> Proof:
    """Return the best bound on the net cost that two weight tables prove; `scales` 1 is area only.

    Every part must fit some sheet. `cells` limits the work: about 2 ns each.
    """
    across, along = _axes(problem, scales, cells)
    demand = _demands(problem, across, along)
    order = _promising(problem, across, along, demand)
    best = Proof(bound=_floor_cost(problem), rows=(), short=False)
    carriers, constant = carriers_of(problem), constant_of(problem)
    for first, second in order:
        total = _exact_demand(problem, across.table(first), along.table(second))
        carries = tuple(
            int(across.carries[first, k]) * int(along.carries[second, k])
            for k in range(len(problem.sheets))
        )
        load = Load(carries=carries, demand=total)
        cover = least_cost(carriers, [load], constant)
        row = (across.table(first), along.table(second))
        if cover is None:
            return Proof(bound=0, rows=(row,), short=True, loads=(load,))
        if cover.bound > best.bound:
            best = Proof(bound=cover.bound, rows=(row,), short=False, loads=(load,))
    return best


def constant_of(problem: SheetsProblem) -> Fraction:
    """Return the credit of all parts' area: what `carriers_of` takes off too much."""
    return problem.credit * sum(
        demand * width * height
        for demand, width, height in zip(
            problem.demands, problem.widths, problem.heights, strict=True
        )
    )


def _floor_cost(problem: SheetsProblem) -> int:
    """Return a bound that needs no row: no layout costs less than its sheet all credited."""
    cheapest = min(
        (sheet.cost - problem.credit * sheet.width * sheet.height for sheet in problem.sheets),
        default=Fraction(0),
    )
    return 0 if cheapest >= 0 else -(-(cheapest * sum(problem.demands)) // 1)


def carriers_of(problem: SheetsProblem) -> tuple[Carrier, ...]:
    """Return what a sheet of each size costs at least: all of it credited."""
    # A layout holds a part at least, so there are no more layouts than parts.
    parts = sum(problem.demands)
    return tuple(
        Carrier(
            cost=sheet.cost - problem.credit * sheet.width * sheet.height,
            most=parts if sheet.available is None else min(parts, sheet.available),
        )
        for sheet in problem.sheets
    )


def _sizes(problem: SheetsProblem) -> tuple[tuple[int, ...], tuple[int, ...]]:
    across, along = set(), set()
    for width, height, turns, demand in zip(
        problem.widths, problem.heights, problem.turns, problem.demands, strict=True
    ):
        if not demand:
            continue
        across |= {width, height} if turns else {width}
        along |= {width, height} if turns else {height}
    return tuple(sorted(across)), tuple(sorted(along))


def _axes(problem: SheetsProblem, scales: int, cells: int) -> tuple[_Axis, _Axis]:
    sizes = _sizes(problem)
    lengths = (
        [sheet.width for sheet in problem.sheets],
        [sheet.height for sheet in problem.sheets],
    )
    return (
        _axis(sizes[0], lengths[0], problem.kerf, scales, cells),
        _axis(sizes[1], lengths[1], problem.kerf, scales, cells),
    )


def _axis(sizes: tuple[int, ...], sheets: list[int], kerf: int, scales: int, work: int) -> _Axis:
    padded = np.array(sizes, dtype=np.int64) + kerf
    step = gcd(*(int(size) for size in padded)) or 1
    capacities = np.array([(sheet + kerf) // step for sheet in sheets], dtype=np.int64)
    cells = int(capacities.max()) + 1
    scales = max(1, min(scales, work // (cells * len(sizes))))
    weights = _candidates(padded // step, capacities, scales)
    most = _fill(padded // step, weights, cells)
    # A size that fits no sheet may weigh anything: more than all else, so that a part which can
    # only lie the other way round is weighed that way.
    beyond = padded // step >= cells
    weights[:, beyond] = _MOST_WEIGHT * weights.max(axis=1, keepdims=True) + 1
    return _Axis(sizes=sizes, weights=weights, carries=np.ascontiguousarray(most[capacities].T))


def _candidates(sizes: Whole, capacities: Whole, scales: int) -> Whole:
    """List weights: the size itself, then functions made for each capacity, most useful first."""
    rows = [sizes.copy()]
    distinct = [int(capacity) for capacity in dict.fromkeys(capacities.tolist()) if capacity][:4]
    share = max(1, (scales - 1) // (2 * max(1, len(distinct))))
    for capacity in distinct:
        inside = np.minimum(sizes, capacity)
        rows.extend(_stretched(inside, capacity, k) for k in range(1, min(6, share + 1)))
        levels = sorted(
            {int(s) for s in inside if 2 * s <= capacity}
            | {capacity - int(s) + 1 for s in inside if 2 * s > capacity and s <= capacity}
        )
        levels = [level for level in levels if 0 < level <= (capacity + 1) // 2]
        for level in levels[:: max(1, -(-len(levels) // share))]:
            rows.append(_sharpened(inside, capacity, level))
            rows.append(_counted(inside, capacity, level))
    unique = dict.fromkeys(tuple(int(w) for w in row) for row in rows)
    return np.array(list(unique)[:scales], dtype=np.int64)


def _stretched(sizes: Whole, capacity: int, k: int) -> Whole:
    """u^(k): (k + 1) times the share rounded down to whole, unless it is whole already."""
    scaled = (k + 1) * sizes
    return np.where(scaled % capacity == 0, k * sizes, scaled // capacity * capacity)


def _sharpened(sizes: Whole, capacity: int, level: int) -> Whole:
    """U^(ε): above capacity − level all of it, below level nothing."""
    return np.where(sizes > capacity - level, capacity, np.where(sizes < level, 0, sizes)).astype(
        np.int64
    )


def _counted(sizes: Whole, capacity: int, level: int) -> Whole:
    """Φ^(ε): how many pieces of size `level` a size keeps out, those above half counted back."""
    whole = capacity // level
    large = 2 * sizes > capacity
    return np.where(
        large,
        2 * (whole - (capacity - sizes) // level),
        np.where(2 * sizes == capacity, whole, 2 * (sizes // level)),
    ).astype(np.int64)


@compiled
def _fill(sizes: Whole, weights: Whole, cells: int) -> Whole:
    """Return the most weight that fits 0, 1, … cells - 1, one column for each row of weights."""
    columns = weights.shape[0]
    by_size = np.ascontiguousarray(weights.T)
    most = np.zeros((cells, columns), dtype=np.int64)
    for x in range(1, cells):
        most[x] = most[x - 1]
        for place in range(sizes.shape[0]):
            before = x - sizes[place]
            if before >= 0:
                for column in range(columns):
                    value = most[before, column] + by_size[place, column]
                    most[x, column] = max(most[x, column], value)
    return most


def _demands(problem: SheetsProblem, across: _Axis, along: _Axis) -> Real:
    """Estimate the weight of all parts for each pair of candidates (to rank them only)."""
    x = {size: place for place, size in enumerate(across.sizes)}
    y = {size: place for place, size in enumerate(along.sizes)}
    first = across.weights.astype(np.float64)
    second = along.weights.astype(np.float64)
    total = np.zeros((len(first), len(second)))
    for width, height, turns, demand in zip(
        problem.widths, problem.heights, problem.turns, problem.demands, strict=True
    ):
        if not demand:
            continue
        weight = np.outer(first[:, x[width]], second[:, y[height]])
        if turns:
            weight = np.minimum(weight, np.outer(first[:, x[height]], second[:, y[width]]))
        total += demand * weight
    return total


def _promising(
    problem: SheetsProblem, across: _Axis, along: _Axis, demand: Real
) -> list[tuple[int, int]]:
    """List the pairs with the best estimates: the least cost with fractions of sheets allowed."""
    carries = across.carries.astype(np.float64)[:, None, :] * along.carries[None, :, :]
    carriers = carriers_of(problem)
    cost = np.array([max(0.0, float(carrier.cost)) for carrier in carriers])
    most = np.array([float(carrier.most) for carrier in carriers])
    ratio = np.where(carries > 0, cost / np.maximum(carries, 1e-9), np.inf)
    order = np.argsort(ratio, axis=2, kind="stable")
    held = np.take_along_axis(carries * most, order, axis=2)
    before = np.cumsum(held, axis=2) - held
    taken = np.clip(demand[:, :, None] - before, 0.0, held)
    paid = np.where(taken > 0, np.take_along_axis(ratio, order, axis=2), 0.0) * taken
    estimate = paid.sum(axis=2)
    estimate[held.sum(axis=2) < demand] = np.inf
    best = np.argsort(-estimate, axis=None, kind="stable")[:_EXACT_ROWS]
    pairs = [(int(flat // demand.shape[1]), int(flat % demand.shape[1])) for flat in best]
    return pairs if (0, 0) in pairs else [*pairs, (0, 0)]


def _exact_demand(problem: SheetsProblem, across: Table, along: Table) -> int:
    """Return the weight of all parts, each by the lesser of the ways it may lie."""
    first, second = dict(across), dict(along)
    total = 0
    for width, height, turns, demand in zip(
        problem.widths, problem.heights, problem.turns, problem.demands, strict=True
    ):
        if not demand:
            continue
        weight = first[width] * second[height]
        if turns:
            weight = min(weight, first[height] * second[width])
        total += demand * weight
    return total
