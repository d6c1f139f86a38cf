"""Small orders exactly: every set of parts that one sheet yields, and what those sets prove.

A set fits a sheet by cuts from edge to edge if and only if it is one part, or two sets side by side
or one above another; for each set the least rectangles that hold it are kept. A linear programme
over the sets then weighs the parts so that no sheet yields more than it costs (the dual of the set
covering of Gilmore and Gomory 1961, each part cut no more often than it is wanted). A table over
cuts does not know how often a part is wanted, and proves less where each is wanted once.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import accumulate
from math import floor, inf

from optimiser.solvers.sheets.bounds import Proof, carriers_of, constant_of
from optimiser.solvers.sheets.cover import Carrier, Load, least_cost
from optimiser.solvers.sheets.problem import SheetsProblem
from optimiser.solvers.sheets.table import Kind, by_part

# Pairs of shapes looked at; beyond it the order is not small. About half a microsecond each.
# The checker counts the same sets and may look at more.
MOST_PAIRS = 800_000
# Larger orders have few enough sets only if few parts fill a sheet, which shows sooner.
SMALL_ORDER = 24
_MOST_PAIRS_BEYOND = 100_000
# So many pairs for each second of the search: half of it for small orders, a tenth for others.
_PAIRS_A_SECOND, _PAIRS_A_SECOND_BEYOND = 1_600_000, 40_000
# The largest weight of a part in the certificate.
_SCALE = 1 << 24

_Shapes = tuple[tuple[int, int], ...]


@dataclass(frozen=True, slots=True)
class FittingSets:
    """Each set of parts that some sheet yields, as copies of each kind, and its least shapes."""

    counts: tuple[tuple[int, ...], ...]
    shapes: tuple[_Shapes, ...]

    def largest(self, room: tuple[int, int]) -> list[tuple[int, ...]]:
        """Return the sets that fit a room and to which no part can be added there."""
        inside = [
            counts
            for counts, shapes in zip(self.counts, self.shapes, strict=True)
            if any(width <= room[0] and height <= room[1] for width, height in shapes)
        ]
        held = {
            (*counts[:place], count - 1, *counts[place + 1 :])
            for counts in inside
            for place, count in enumerate(counts)
            if count
        }
        return [counts for counts in inside if counts not in held]


def fitting_sets(
    kinds: Sequence[Kind],
    rooms: Sequence[tuple[int, int]],
    most: int = MOST_PAIRS,
    apart: frozenset[tuple[int, int]] = frozenset(),
) -> FittingSets | None:
    """List every set that fits one of the rooms (sizes plus kerf); None beyond `most` pairs.

    Two kinds that are `apart` (the lower place first) are in no set together.
    """
    # A set is one whole number: copies of the first kind, of the second in steps of one more, …
    steps = tuple(accumulate((kind.demand + 1 for kind in kinds), lambda a, b: a * b, initial=1))
    found: dict[int, _Shapes] = {}
    level: dict[int, tuple[int, ...]] = {}
    nothing = (0,) * len(kinds)
    for place, kind in enumerate(kinds):
        ways = ((kind.width, kind.height), (kind.height, kind.width))[: 2 if kind.turns else 1]
        shapes = _least(ways, rooms)
        if shapes:
            found[steps[place]] = shapes
            level[steps[place]] = (*nothing[:place], 1, *nothing[place + 1 :])
    listed = dict(level)
    pairs = 0
    # With many kinds it takes longer to see that a set cannot fit than to look at its pairs.
    seeing = max(0, len(kinds) - SMALL_ORDER) // 3
    while level:
        larger: dict[int, tuple[int, ...]] = {}
        for set_, counts in level.items():
            for place in range(_last(counts), len(kinds)):
                if counts[place] == kinds[place].demand:
                    continue
                pairs += seeing
                if pairs > most:
                    return None
                if apart and any(n and (k, place) in apart for k, n in enumerate(counts)):
                    continue
                whole = set_ + steps[place]
                grown = (*counts[:place], counts[place] + 1, *counts[place + 1 :])
                if any(n and whole - steps[k] not in found for k, n in enumerate(grown)):
                    continue
                shapes, looked = _held(found, whole, _below(grown, steps), rooms)
                pairs += looked
                if pairs > most:
                    return None
                if shapes:
                    found[whole] = shapes
                    larger[whole] = grown
        listed |= larger
        level = larger
    return FittingSets(tuple(listed.values()), tuple(found[set_] for set_ in listed))


def _last(counts: tuple[int, ...]) -> int:
    return max(place for place, count in enumerate(counts) if count)


def _below(counts: tuple[int, ...], steps: Sequence[int]) -> list[int]:
    """Return one half of each way to part a set in two, as whole numbers."""
    last = _last(counts)
    parts = [0]
    for place in range(last):
        if counts[place]:
            copies = [k * steps[place] for k in range(counts[place] + 1)]
            parts = [part + more for part in parts for more in copies]
    # The other half has no fewer of the last kind; with as many of it some halves come twice.
    fewest = [k * steps[last] for k in range(counts[last] // 2 + 1)]
    return [part + more for part in parts for more in fewest if part + more]


def _held(
    found: Mapping[int, _Shapes], whole: int, parts: Sequence[int], rooms: Sequence[tuple[int, int]]
) -> tuple[_Shapes, int]:
    """Return the least shapes of a set by all ways to part it, and the pairs looked at."""
    widest = max(width for width, _ in rooms)
    highest = max(height for _, height in rooms)
    shapes = set()
    looked = len(parts)
    for part in parts:
        far = found[whole - part]
        for width, height in found[part]:
            looked += len(far)
            for other_width, other_height in far:
                if width + other_width <= widest:
                    shapes.add((width + other_width, max(height, other_height)))
                if height + other_height <= highest:
                    shapes.add((max(width, other_width), height + other_height))
    return _least(shapes, rooms), looked


def _least(shapes: Iterable[tuple[int, int]], rooms: Sequence[tuple[int, int]]) -> _Shapes:
    """Keep the shapes that fit a room and hold no other."""
    kept: list[tuple[int, int]] = []
    for width, height in sorted(shapes):
        if (not kept or height < kept[-1][1]) and any(
            width <= across and height <= along for across, along in rooms
        ):
            kept.append((width, height))
    return tuple(kept)


def prove_by_sets(
    problem: SheetsProblem, kinds: tuple[Kind, ...], proof: Proof, seconds: float
) -> Proof:
    """Return a better proof by the sets that fit, or the one there was: also beyond the limits.

    `seconds` are those of the whole search, however much of them is left: the same every time.
    """
    kerf = problem.kerf
    rooms = [(sheet.width + kerf, sheet.height + kerf) for sheet in problem.sheets]
    carriers = carriers_of(problem)
    if proof.short or min(carrier.cost for carrier in carriers) <= 0:
        return proof
    most = min(_MOST_PAIRS_BEYOND, int(_PAIRS_A_SECOND_BEYOND * seconds))
    if sum(kind.demand for kind in kinds) <= SMALL_ORDER:
        most = min(MOST_PAIRS, int(_PAIRS_A_SECOND * seconds))
    sets = fitting_sets(kinds, rooms, most)
    if sets is None:
        return proof
    yielded = [sets.largest(room) for room in rooms]
    prices = _prices(
        [kind.demand for kind in kinds],
        yielded,
        [float(carrier.cost) for carrier in carriers],
        [float(carrier.most) for carrier in carriers],
    )
    largest = max(prices, default=0.0)
    if largest <= 0:
        return proof
    weights = [max(0, floor(price / largest * _SCALE)) for price in prices]
    load = Load(
        carries=tuple(
            max((sum(map(int.__mul__, counts, weights)) for counts in largest_sets), default=0)
            for largest_sets in yielded
        ),
        demand=sum(kind.demand * weight for kind, weight in zip(kinds, weights, strict=True)),
    )
    loads = (*proof.loads, load)
    cover = least_cost(carriers, loads, constant_of(problem))
    if cover is None or cover.bound <= proof.bound:
        return proof
    return replace(proof, bound=cover.bound, loads=loads, once=(by_part(problem, kinds, weights),))


def sheets_of_sets(
    kinds: Sequence[Kind], apart: frozenset[tuple[int, int]], problem: SheetsProblem, most: int
) -> list[list[tuple[int, ...]]] | None:
    """Return for each sheet the largest sets of kinds that it yields, None beyond `most` pairs.

    Kinds that are `apart` are never cut together.
    """
    kerf = problem.kerf
    rooms = [(sheet.width + kerf, sheet.height + kerf) for sheet in problem.sheets]
    sets = fitting_sets(kinds, rooms, most, apart)
    return None if sets is None else [sets.largest(room) for room in rooms]


def weights_by_sets(
    yielded: Sequence[Sequence[tuple[int, ...]]], shares: Sequence[float], problem: SheetsProblem
) -> tuple[int, ...] | None:
    """Return weights of kinds that prove most where each is cut `shares` times, None if nothing.

    `yielded` are the sets that each sheet yields.
    """
    carriers = carriers_of(problem)
    if min(carrier.cost for carrier in carriers) <= 0:
        return None
    prices = _prices(
        shares,
        yielded,
        [float(carrier.cost) for carrier in carriers],
        [float(carrier.most) for carrier in carriers],
    )
    largest = max(prices, default=0.0)
    if largest <= 0:
        return None
    return tuple(max(0, floor(price / largest * _SCALE)) for price in prices)


def weights_of_sets(
    demands: Sequence[float],
    yielded: Sequence[Sequence[tuple[int, ...]]],
    carriers: Sequence[Carrier],
    dearest: float,
) -> tuple[int, ...]:
    """Return weights of kinds that prove most where each sheet yields one of its sets.

    They exist even where a kind is in no set: no part is priced above `dearest`.
    """
    prices = _prices(
        demands,
        yielded,
        [float(carrier.cost) for carrier in carriers],
        [float(carrier.most) for carrier in carriers],
        dearest,
    )
    largest = max(prices, default=0.0)
    return tuple(max(0, floor(price / largest * _SCALE)) if largest > 0 else 0 for price in prices)


def _prices(
    demands: Sequence[float],
    yielded: Sequence[Sequence[tuple[int, ...]]],
    costs: Sequence[float],
    most: Sequence[float],
    dearest: float = inf,
) -> list[float]:
    """Return what each kind is worth at most when no set is worth more than its sheet.

    A sheet of which there are few may be worth more than it costs, for a fee on each there is. No
    part is worth more than `dearest`.
    """
    # Loaded late: the first plan does not wait for it.
    from ortools.linear_solver import pywraplp

    solver = pywraplp.Solver.CreateSolver("GLOP")
    infinity = solver.infinity()
    prices = [solver.NumVar(0.0, min(dearest, infinity), "") for _ in demands]
    fees = [solver.NumVar(0.0, infinity, "") for _ in most]
    total = solver.Objective()
    total.SetMaximization()
    for price, demand in zip(prices, demands, strict=True):
        total.SetCoefficient(price, float(demand))
    for fee, number in zip(fees, most, strict=True):
        total.SetCoefficient(fee, -number)
    for fee, cost, sets in zip(fees, costs, yielded, strict=True):
        for counts in sets:
            row = solver.Constraint(-infinity, cost)
            row.SetCoefficient(fee, -1.0)
            for price, count in zip(prices, counts, strict=True):
                if count:
                    row.SetCoefficient(price, float(count))
    if solver.Solve() != pywraplp.Solver.OPTIMAL:
        return [0.0 for _ in demands]
    return [float(price.solution_value()) for price in prices]
