"""Cuts the parts of two or three layouts by one layout less, for no more money.

After Foerster and Wäscher 2000, "Pattern reduction in one-dimensional cutting stock problems" (from
memory): the parts that a few layouts yield together are shared out anew between fewer layouts. How
often each new layout is cut is tried in turn; then a type's parts divide in few ways only.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import combinations

from optimiser.solvers.lengths.plans import Layout, Plan
from optimiser.solvers.lengths.prepare import Ready
from optimiser.solvers.protocol import Budget

MOST_LAYOUTS = 60  # beyond it there are too many threes
MOST_STEPS = 400  # of sharing out one group for one pair of repeats
MOST_REPEATS = 24  # of the first of two layouts, tried from 1 on


def combine(ready: Ready, plan: Mapping[Layout, int], budget: Budget) -> Plan:
    """Return a plan of the same parts with as few layouts as pairs and threes can be brought to."""
    best = dict(plan)
    is_better = len(best) <= MOST_LAYOUTS
    while is_better:
        is_better = False
        for group in _groups(best):
            if budget.is_spent:
                break
            fewer = _fewer(ready, {layout: best[layout] for layout in group})
            if fewer is None or any(layout in best and layout not in group for layout in fewer):
                continue
            for layout in group:
                del best[layout]
            best.update(fewer)
            is_better = True
            break
    return best


def _groups(plan: Plan) -> Iterator[tuple[Layout, ...]]:
    """Yield pairs, then threes, those cut least often first: they are the easiest to be rid of."""
    layouts = sorted(plan, key=lambda layout: (plan[layout], layout))
    yield from combinations(layouts, 2)
    yield from sorted(combinations(layouts, 3), key=lambda group: sum(plan[one] for one in group))


def _fewer(ready: Ready, group: Plan) -> Plan | None:
    """Return the group's parts in one layout less at no more cost; None where that does not go."""
    totals: dict[int, int] = {}
    cost = 0
    pieces: dict[int, int] = {}
    for (kind, items), times in group.items():
        cost += times * ready.net(kind, ready.fill(items))
        pieces[kind] = pieces.get(kind, 0) + times
        for t, n in items:
            totals[t] = totals.get(t, 0) + n * times
    for kinds, repeats in _repeats(pieces, len(group) - 1):
        counts = _share(ready, totals, kinds, repeats)
        if counts is None:
            continue
        made: Plan = {}
        for kind, times, items in zip(kinds, repeats, counts, strict=True):
            if items:
                made[kind, items] = made.get((kind, items), 0) + times
        its_cost = sum(n * ready.net(kind, ready.fill(items)) for (kind, items), n in made.items())
        if its_cost <= cost and len(made) < len(group):
            return made
    return None


def _repeats(pieces: dict[int, int], layouts: int) -> Iterator[tuple[tuple[int, ...], ...]]:
    """Yield (kinds, repeats) of one or two layouts that use no more of any kind than the group."""
    kinds = sorted(pieces)
    if layouts == 1:
        if len(kinds) == 1:
            yield (kinds[0],), (pieces[kinds[0]],)
    elif len(kinds) == 2:
        yield (kinds[0], kinds[1]), (pieces[kinds[0]], pieces[kinds[1]])
    elif len(kinds) == 1:
        total = pieces[kinds[0]]
        for one in range(1, min(total // 2, MOST_REPEATS) + 1):
            yield (kinds[0], kinds[0]), (one, total - one)


def _share(
    ready: Ready, totals: dict[int, int], kinds: tuple[int, ...], repeats: tuple[int, ...]
) -> list[tuple[tuple[int, int], ...]] | None:
    """Share each type's parts out so that every layout fits its kind; None where none is found."""
    order = sorted(totals)  # the heaviest first
    ways = [_ways(totals[t], repeats) for t in order]
    if not all(ways):
        return None
    rooms = [ready.kinds[kind].capacity for kind in kinds]
    steps = 0

    def place(depth: int, left: list[int]) -> list[tuple[int, ...]] | None:
        nonlocal steps
        if depth == len(order):
            return []
        steps += 1
        if steps > MOST_STEPS:
            return None
        weight = ready.weights[order[depth]]
        for way in ways[depth]:
            rest = [room - weight * n for room, n in zip(left, way, strict=True)]
            if min(rest) >= 0 and (found := place(depth + 1, rest)) is not None:
                return [way, *found]
        return None

    found = place(0, rooms)
    if found is None:
        return None
    return [
        tuple((t, way[place_]) for t, way in zip(order, found, strict=True) if way[place_])
        for place_ in range(len(kinds))
    ]


def _ways(total: int, repeats: tuple[int, ...]) -> list[tuple[int, ...]]:
    """Return how many of a type each layout can hold so that all repeats give `total`."""
    if len(repeats) == 1:
        return [] if total % repeats[0] else [(total // repeats[0],)]
    one, two = repeats
    return [
        (n, (total - one * n) // two)
        for n in range(total // one + 1)
        if (total - one * n) % two == 0
    ]
