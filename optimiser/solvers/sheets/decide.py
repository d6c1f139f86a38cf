"""An exact model for small orders: is there a plan that costs less than the best, or none?

Of all sets of parts only those that such a plan may cut from one sheet are listed (`worthy.py`). A
linear programme over them weighs the parts anew, which rules out more of them, and often all: then
the rows of weights, one after another, prove that there is no such plan. What is left is an integer
programme over whole layouts, all of them, so that the plan it finds is the cheapest there is.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from math import ceil

import numpy as np

from optimiser.solvers.compiled import Whole
from optimiser.solvers.sheets.bounds import Proof, carriers_of, constant_of
from optimiser.solvers.sheets.cover import Load, least_cost
from optimiser.solvers.sheets.pool import MOST_LAYOUTS, Pool, step_of
from optimiser.solvers.sheets.problem import SheetsProblem
from optimiser.solvers.sheets.sets import weights_of_sets
from optimiser.solvers.sheets.table import Kind, by_part
from optimiser.solvers.sheets.worthy import WorthySets, worthy_sets

# Of the time left, for the prices that it all begins with.
PRICED_SHARE = 0.1
# Beyond so many parts, in all or on a sheet, sets are hardly ever few enough; not where there are
# no more parts than the last figure.
_MOST_PARTS = 60
_MOST_PARTS_A_SHEET = 5
_FEW_PARTS = 12
# Pairs of sets looked at for each second of the search, and at most: about 15 ns each. Orders of
# more parts than the first figure show sooner whether their sets are few.
_SMALL_ORDER = 40
_PAIRS_A_SECOND, _PAIRS_A_SECOND_BEYOND = 7_000_000, 1_000_000
_MOST_PAIRS, _MOST_PAIRS_BEYOND = 20_000_000, 4_000_000
# Sets worth their sheet at most: the linear programme over them takes half a second.
_MOST_SETS = 10_000
# Rows of weights, the prices among them, that rule out one set after another.
MOST_ROWS = 4
# A row that leaves more than this share of the sets is the last one.
_SLOW = 0.9


@dataclass(frozen=True, slots=True)
class Decision:
    """Weights of kinds that prove there is no cheaper plan, or layouts to make one of; or neither.

    The layouts are all that a cheaper plan may use, as far as they earn nothing.
    """

    rows: tuple[tuple[int, ...], ...] = ()
    pool: Pool | None = None


def is_small(problem: SheetsProblem, kinds: tuple[Kind, ...], sheets: int) -> bool:
    """Return whether the model is for this order: few parts in all and on each of so many sheets.

    Not where there are limits on how it is cut.
    """
    parts = sum(kind.demand for kind in kinds)
    few = parts <= _FEW_PARTS or parts <= min(_MOST_PARTS, _MOST_PARTS_A_SHEET * sheets)
    return few and problem.max_stages is None and problem.first_cut is None


def ruled_out(
    problem: SheetsProblem,
    kinds: tuple[Kind, ...],
    proof: Proof,
    cost: int,
    rows: Sequence[Sequence[int]],
) -> Proof:
    """Return the proof that rows of weights of kinds make: that no plan costs less than `cost`."""
    narrowed = tuple(by_part(problem, kinds, row) for row in rows)
    return replace(proof, bound=cost, narrowed=narrowed)


def decide(
    problem: SheetsProblem,
    kinds: tuple[Kind, ...],
    prices: Whole,
    yields: Sequence[int],
    cost: int,
    seconds: float,
) -> Decision:
    """Look for what decides whether a plan costs less than `cost`.

    `prices` are of kinds, `yields` the most that each sheet yields of them. `seconds` are those of
    the whole search, however much of them is left: the same every time.
    """
    step = step_of(problem)
    decider = _Decider(problem, kinds, (cost - 1) // step * step)
    load = decider.load(prices, yields)
    needs = decider.needs(load)
    if needs is None:
        return Decision()
    most = min(_MOST_PAIRS_BEYOND, int(_PAIRS_A_SECOND_BEYOND * seconds))
    if sum(kind.demand for kind in kinds) <= _SMALL_ORDER:
        most = min(_MOST_PAIRS, int(_PAIRS_A_SECOND * seconds))
    sets = worthy_sets(problem, kinds, prices, needs, most)
    if sets is None:
        return Decision()
    kerf = problem.kerf
    rooms = [(sheet.width + kerf, sheet.height + kerf) for sheet in problem.sheets]
    shapes = [
        sets.on(room, need) if sheet.available != 0 else np.zeros(0, dtype=np.int64)
        for room, need, sheet in zip(rooms, needs, problem.sheets, strict=True)
    ]
    if sum(map(len, shapes)) > _MOST_SETS:
        return Decision()
    return decider.narrowed(sets, shapes, prices, load)


@dataclass(slots=True)
class _Decider:
    """One question: may a plan cost no more than `most`?"""

    problem: SheetsProblem
    kinds: tuple[Kind, ...]
    most: int

    def load(self, weights: Whole, yields: Sequence[int]) -> Load:
        """Return a row of weights with what each sheet yields of them."""
        demand = sum(int(w) * kind.demand for w, kind in zip(weights, self.kinds, strict=True))
        return Load(carries=tuple(yields), demand=demand)

    def needs(self, load: Load) -> list[int] | None:
        """Return what each sheet of such a plan must yield; None if it may yield anything.

        In prices for which a sheet yields no more than it costs, and a rent where there are few,
        all sheets of the plan together lose no more than the plan costs above the price of all.
        """
        carriers = carriers_of(self.problem)
        limited = [sheet.available is not None for sheet in self.problem.sheets]
        costs = [carrier.cost for carrier in carriers]
        if any(cost <= 0 and not few for cost, few in zip(costs, limited, strict=True)):
            return None
        shares = [
            (yielded / cost, few)
            for yielded, cost, few in zip(load.carries, costs, limited, strict=True)
            if cost > 0
        ]
        scale = max(
            (share for share, few in shares if not few),
            default=max((share for share, _ in shares), default=Fraction(0)),
        )
        if scale <= 0:
            return None
        rents = [
            max(Fraction(0), yielded / scale - cost) if few else Fraction(0)
            for yielded, cost, few in zip(load.carries, costs, limited, strict=True)
        ]
        spare = self.most - constant_of(self.problem) - load.demand / scale
        spare += sum(rent * c.most for rent, c in zip(rents, carriers, strict=True))
        return [
            ceil((cost + rent - spare) * scale) for cost, rent in zip(costs, rents, strict=True)
        ]

    def narrowed(
        self, sets: WorthySets, shapes: list[Whole], prices: Whole, load: Load
    ) -> Decision:
        """Rule out sets by one row of weights after another; make layouts of what is left."""
        rows, loads = [prices], [load]
        while len(rows) < MOST_ROWS:
            weights = self._weights([sets.of(held) for held in shapes])
            yields = [int((sets.of(held) @ weights).max(initial=0)) for held in shapes]
            load = self.load(weights, yields)
            rows.append(weights)
            loads.append(load)
            cover = least_cost(carriers_of(self.problem), loads, constant_of(self.problem))
            if cover is None or cover.bound > self.most:
                return Decision(rows=tuple(tuple(map(int, row)) for row in rows))
            needs = self.needs(load)
            before = sum(map(len, shapes))
            if needs is None:
                break
            shapes = [
                held[sets.of(held) @ weights >= need]
                for held, need in zip(shapes, needs, strict=True)
            ]
            if sum(map(len, shapes)) > _SLOW * before:
                break
        return Decision(pool=self._pool(sets, shapes))

    def _weights(self, counts: list[Whole]) -> Whole:
        """Return the weights of kinds that prove most over the sets left."""
        carriers = carriers_of(self.problem)
        weights = weights_of_sets(
            [kind.demand for kind in self.kinds],
            [[tuple(row) for row in largest(rows).tolist()] for rows in counts],
            carriers,
            float(self.most + 1),
        )
        return np.array(weights, dtype=np.int64)

    def _pool(self, sets: WorthySets, shapes: list[Whole]) -> Pool | None:
        """Build the layouts of the largest sets; None if they are too many."""
        kerf = self.problem.kerf
        chosen: list[tuple[int, int]] = []
        for place, held in enumerate(shapes):
            counts = sets.of(held)
            kept = {tuple(row) for row in largest(counts).tolist()}
            chosen += [
                (place, int(shape))
                for shape, row in zip(held, counts.tolist(), strict=True)
                if tuple(row) in kept
            ]
        if not 0 < len(chosen) <= MOST_LAYOUTS:
            return None
        pool = Pool(self.problem)
        for place, shape in chosen:
            sheet = self.problem.sheets[place]
            size = sheet.width + kerf, sheet.height + kerf
            pool.add(((place, sets.block(shape, *size)),))
        return pool


def largest(counts: Whole) -> Whole:
    """Return the rows to which no part can be added without leaving the rows."""
    rows = [tuple(row) for row in counts.tolist()]
    held = {
        (*row[:place], count - 1, *row[place + 1 :])
        for row in rows
        for place, count in enumerate(row)
        if count
    }
    return counts[[place for place, row in enumerate(rows) if row not in held]]
