"""Makes a problem of its own of some layouts of a plan.

On large orders the linear program over all parts is slow; a few dozen layouts that share their
sizes are as quick as a small order, and what they save the whole plan saves.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from random import Random

from optimiser.solvers.lengths.plans import Layout, Plan, merge
from optimiser.solvers.lengths.prepare import Ready

TYPES = 45  # the most sizes of a group: three jobs' worth
PIECES = 60


@dataclass(frozen=True, slots=True)
class Group:
    """Some layouts of a plan as a problem, and what it takes to go back."""

    ready: Ready
    plan: Plan  # in the group's types
    rest: Plan  # the layouts left alone
    types: tuple[int, ...]  # of the whole problem, by type of the group

    def joined(self, plan: Mapping[Layout, int]) -> Plan:
        """Return the whole plan with the group cut as given."""
        return merge(
            self.rest,
            {
                (kind, tuple((self.types[t], n) for t, n in items)): times
                for (kind, items), times in plan.items()
            },
        )


def draw_group(
    ready: Ready, plan: Mapping[Layout, int], losses: Mapping[Layout, float], rng: Random
) -> Group:
    """Choose layouts around one that loses much, those first that bring in fewest new sizes."""
    layouts = sorted(plan)
    first = max(rng.sample(layouts, min(6, len(layouts))), key=lambda layout: losses[layout])
    chosen = [first]
    types = {t for t, _ in first[1]}
    pieces = plan[first]
    others = [layout for layout in layouts if layout != first]
    rng.shuffle(others)
    while others and pieces < PIECES:
        near = min(others[:200], key=lambda layout: _strangers(layout, types) / len(layout[1]))
        if len(types) + _strangers(near, types) > TYPES:
            break
        others.remove(near)
        chosen.append(near)
        types |= {t for t, _ in near[1]}
        pieces += plan[near]
    return group(ready, plan, chosen)


def _strangers(layout: Layout, types: set[int]) -> int:
    return sum(t not in types for t, _ in layout[1])


def group(ready: Ready, plan: Mapping[Layout, int], chosen: Iterable[Layout]) -> Group:
    """Return the chosen layouts as a problem with the stock that the rest of the plan leaves."""
    picked = {layout: plan[layout] for layout in chosen}
    rest = {layout: times for layout, times in plan.items() if layout not in picked}
    demands: dict[int, int] = {}
    for (_, items), times in picked.items():
        for t, n in items:
            demands[t] = demands.get(t, 0) + n * times
    types = tuple(sorted(demands))
    place = {t: index for index, t in enumerate(types)}
    used = [0] * len(ready.kinds)
    for (kind, _), times in rest.items():
        used[kind] += times
    kinds = tuple(
        kind if kind.available is None else replace(kind, available=kind.available - gone)
        for kind, gone in zip(ready.kinds, used, strict=True)
    )
    smaller = replace(
        ready,
        weights=tuple(ready.weights[t] for t in types),
        demands=tuple(demands[t] for t in types),
        sources=tuple((t,) for t in types),
        kinds=kinds,
        net_length=sum(
            (ready.weights[t] * ready.unit - ready.kerf) * n for t, n in demands.items()
        ),
    )
    own = {
        (kind, tuple((place[t], n) for t, n in items)): times
        for (kind, items), times in picked.items()
    }
    return Group(smaller, own, rest, types)
