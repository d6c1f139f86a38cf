"""What a plan is while it is being improved, and how it is made exact.

A plan counts equal layouts. Patterns from a covering model may hold parts too many: those are taken
out where that earns most, and each layout moves to the cheapest stock that holds it.
"""

from __future__ import annotations

from collections.abc import Mapping

from optimiser.solvers.lengths.prepare import Items, Ready
from optimiser.solvers.lengths.problem import LengthsProblem, Pattern

Layout = tuple[int, Items]  # kind of stock, parts
Plan = dict[Layout, int]


def cost_of(ready: Ready, plan: Mapping[Layout, int]) -> int:
    """Return the net cost of all layouts."""
    return sum(ready.net(kind, ready.fill(items)) * n for (kind, items), n in plan.items())


def missing_from(ready: Ready, plan: Mapping[Layout, int]) -> list[int]:
    """Return by type how many parts a plan leaves out; below 0 where it holds too many."""
    short = list(ready.demands)
    for (_, items), times in plan.items():
        for t, count in items:
            short[t] -= count * times
    return short


def settle(ready: Ready, plan: Mapping[Layout, int]) -> tuple[Plan, list[int]]:
    """Return the plan without parts too many and on the cheapest stock, and what it leaves out.

    The result respects the availability wherever the given plan does.
    """
    exact = {layout: times for layout, times in plan.items() if times}
    short = missing_from(ready, exact)
    for t, left in enumerate(short):
        if left < 0:
            _take_out(ready, exact, t, -left)
    return _reseat(ready, exact), [max(0, left) for left in short]


def _take_out(ready: Ready, plan: Plan, t: int, surplus: int) -> None:
    """Remove `surplus` parts of a type, one a layout, where it saves most."""
    while surplus:
        holders = [layout for layout in plan if any(u == t for u, _ in layout[1])]
        layout = max(holders, key=lambda holder: (_saving(ready, holder, t), holder))
        kind, items = layout
        times = min(plan[layout], surplus)
        _add(plan, layout, -times)
        fewer = tuple((u, n - (u == t)) for u, n in items if n > (u == t))
        if fewer:
            _add(plan, (kind, fewer), times)
        surplus -= times


def _saving(ready: Ready, layout: Layout, t: int) -> int:
    kind, items = layout
    fill = ready.fill(items)
    rest = fill - ready.weights[t]
    return ready.net(kind, fill) - (ready.net(kind, rest) if rest else 0)


def _reseat(ready: Ready, plan: Plan) -> Plan:
    """Move layouts, fullest first, to the cheapest stock that holds them and is still there."""
    used = [0] * len(ready.kinds)
    for (kind, _), times in plan.items():
        used[kind] += times
    moved: Plan = {}
    for layout in sorted(plan, key=lambda entry: (-ready.fill(entry[1]), entry)):
        kind, items = layout
        times = plan[layout]
        fill = ready.fill(items)
        better = sorted(
            (ready.net(k, fill), k)
            for k, other in enumerate(ready.kinds)
            if other.capacity >= fill and ready.net(k, fill) < ready.net(kind, fill)
        )
        for _, k in better:
            available = ready.kinds[k].available
            shift = times if available is None else min(times, max(0, available - used[k]))
            if shift:
                _add(moved, (k, items), shift)
                used[k] += shift
                used[kind] -= shift
                times -= shift
        _add(moved, layout, times)
    return moved


def _add(plan: Plan, layout: Layout, times: int) -> None:
    total = plan.get(layout, 0) + times
    if total:
        plan[layout] = total
    else:
        plan.pop(layout, None)


def merge(first: Mapping[Layout, int], second: Mapping[Layout, int]) -> Plan:
    """Return the layouts of both plans."""
    both = dict(first)
    for layout, times in second.items():
        _add(both, layout, times)
    return both


def unfold(problem: LengthsProblem, ready: Ready, plan: Mapping[Layout, int]) -> list[Pattern]:
    """Spell a plan out over the problem's own sizes and stocks; equal patterns become one."""
    queues = [
        [[index, problem.demands[index]] for index in reversed(sources)]
        for sources in ready.sources
    ]
    racks = [
        [[index, problem.stocks[index].available] for index in reversed(kind.sources)]
        for kind in ready.kinds
    ]
    totals: dict[tuple[int, tuple[int, ...]], int] = {}
    for layout in sorted(plan):
        kind, items = layout
        left = plan[layout]
        while left:
            run = min([left, _run_of_stock(racks[kind])] + [_run(queues[t], n) for t, n in items])
            counts = [0] * len(problem.sizes)
            for t, n in items:
                _draw(queues[t], n, run, counts)
            stock = racks[kind][-1][0]
            assert stock is not None
            _draw_stock(racks[kind], run)
            key = (stock, tuple(counts))
            totals[key] = totals.get(key, 0) + run
            left -= run
    return [Pattern(stock=k, counts=c, times=n) for (k, c), n in sorted(totals.items())]


def _run_of_stock(rack: list[list[int | None]]) -> int:
    available = rack[-1][1]
    return 1 << 60 if available is None else available


def _run(queue: list[list[int]], n: int) -> int:
    """Return how many equal layouts with n parts the front of the queue can supply."""
    return max(1, queue[-1][1] // n)


def _draw(queue: list[list[int]], n: int, run: int, counts: list[int]) -> None:
    """Take n parts for each of `run` layouts off the queue; add one layout's share to `counts`."""
    if queue[-1][1] >= n:
        counts[queue[-1][0]] += n
        queue[-1][1] -= n * run
        if queue[-1][1] == 0:
            queue.pop()
        return
    while n:  # only with run 1: a layout that mixes sizes which are equal
        part = min(n, queue[-1][1])
        counts[queue[-1][0]] += part
        queue[-1][1] -= part
        n -= part
        if queue[-1][1] == 0:
            queue.pop()


def _draw_stock(rack: list[list[int | None]], run: int) -> None:
    available = rack[-1][1]
    if available is not None:
        rack[-1][1] = available - run
        if available == run:
            rack.pop()
