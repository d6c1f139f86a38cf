"""Plain methods to stand beside: what a first attempt would do. Credit is left out of all four.

First-fit and best-fit decreasing on the stock that costs least a length; a CP-SAT model that gives
each part its piece of stock; the arc-flow model (Valério de Carvalho 1999) on HiGHS. The last two
take instances with one stock kind only and refuse those too large to write down.
"""

from __future__ import annotations

from collections.abc import Callable
from itertools import pairwise

from ortools.linear_solver import pywraplp
from ortools.sat.python import cp_model

from optimiser.solvers.lengths.problem import LengthsProblem, Stock

MOST_ASSIGNMENTS = 60_000
MOST_ARCS = 400_000


def first_fit(problem: LengthsProblem, seconds: float) -> int | None:
    """Put each part, longest first, in the first piece that holds it."""
    del seconds
    return _decreasing(
        problem, lambda rooms, size: next((i for i, r in enumerate(rooms) if r >= size), -1)
    )


def best_fit(problem: LengthsProblem, seconds: float) -> int | None:
    """Put each part, longest first, in the piece that it fills best."""
    del seconds
    return _decreasing(
        problem,
        lambda rooms, size: min(
            (i for i, r in enumerate(rooms) if r >= size), key=lambda i: rooms[i], default=-1
        ),
    )


def _decreasing(problem: LengthsProblem, place: Callable[[list[int], int], int]) -> int | None:
    parts = _parts(problem)
    if len(parts) > 20_000:
        return None
    left = [stock.available for stock in problem.stocks]
    rooms: list[int] = []
    cost = 0
    for size in parts:
        at = place(rooms, size)
        if at < 0:
            kind = _cheapest(problem, left, size)
            if kind is None:
                return None
            stock = problem.stocks[kind]
            cost += stock.cost
            available = left[kind]
            if available is not None:
                left[kind] = available - 1
            rooms.append(stock.usable + problem.kerf)
            at = len(rooms) - 1
        rooms[at] -= size
    return cost


def _cheapest(problem: LengthsProblem, left: list[int | None], size: int) -> int | None:
    fitting = [
        k
        for k, stock in enumerate(problem.stocks)
        if left[k] != 0 and stock.usable + problem.kerf >= size
    ]
    return min(
        fitting, key=lambda k: problem.stocks[k].cost / problem.stocks[k].usable, default=None
    )


def _parts(problem: LengthsProblem) -> list[int]:
    """Return each part's size and kerf, longest first."""
    pairs = zip(problem.sizes, problem.demands, strict=True)
    return sorted((s + problem.kerf for s, d in pairs for _ in range(d)), reverse=True)


def assignment(problem: LengthsProblem, seconds: float) -> int | None:
    """Let CP-SAT give each part its piece."""
    stock = _only_stock(problem)
    parts = _parts(problem)
    most = first_fit(problem, seconds) if stock is not None and stock.cost == 1 else None
    if stock is None or most is None or most * len(parts) > MOST_ASSIGNMENTS:
        return None
    model = cp_model.CpModel()
    used = [model.new_bool_var("") for _ in range(most)]
    lies = [[model.new_bool_var("") for _ in range(most)] for _ in parts]
    for row in lies:
        model.add_exactly_one(row)
    for piece in range(most):
        filled = sum(size * row[piece] for size, row in zip(parts, lies, strict=True))
        model.add(filled <= (stock.usable + problem.kerf) * used[piece])
    for one, two in pairwise(used):
        model.add_implication(two, one)
    model.minimize(sum(used))
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.max_time_in_seconds = seconds
    status = solver.solve(model)
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return None
    return int(round(solver.objective_value) * stock.cost)


def arc_flow(problem: LengthsProblem, seconds: float) -> int | None:
    """Let HiGHS send the pieces as a flow through the lengths that parts can add up to."""
    stock = _only_stock(problem)
    if stock is None:
        return None
    sizes: dict[int, int] = {}
    for size, demand in zip(problem.sizes, problem.demands, strict=True):
        sizes[size + problem.kerf] = sizes.get(size + problem.kerf, 0) + demand
    capacity = stock.usable + problem.kerf
    arcs = _arcs(sizes, capacity)
    if arcs is None:
        return None
    solver = pywraplp.Solver.CreateSolver("HIGHS")
    solver.SetNumThreads(1)
    solver.SetSolverSpecificParametersAsString("output_flag=false")
    solver.SetTimeLimit(max(1, int(seconds * 1000)))
    infinity = solver.infinity()
    total = solver.IntVar(0, sum(sizes.values()), "")
    nodes = sorted({0, capacity, *(end for _, end, _ in arcs), *(start for start, _, _ in arcs)})
    flow = {node: solver.Constraint(0, 0) for node in nodes}
    flow[0].SetCoefficient(total, 1)
    flow[capacity].SetCoefficient(total, -1)
    cut = {size: solver.Constraint(demand, infinity) for size, demand in sizes.items()}
    for start, end, size in arcs:
        amount = solver.IntVar(0, infinity, "")
        flow[start].SetCoefficient(amount, -1)
        flow[end].SetCoefficient(amount, 1)
        if size:
            cut[size].SetCoefficient(amount, 1)
    solver.Minimize(total)
    if solver.Solve() not in (pywraplp.Solver.OPTIMAL, pywraplp.Solver.FEASIBLE):
        return None
    return int(round(total.solution_value()) * stock.cost)


def _arcs(sizes: dict[int, int], capacity: int) -> list[tuple[int, int, int]] | None:
    """Return (start, end, size) from reachable starts, longest sizes first; size 0 is waste."""
    reached = {0}
    arcs: set[tuple[int, int, int]] = set()
    for size in sorted(sizes, reverse=True):
        starts = sorted(reached)
        for start in starts:
            at = start
            for _ in range(sizes[size]):
                if at + size > capacity:
                    break
                arcs.add((at, at + size, size))
                at += size
                reached.add(at)
            if len(arcs) > MOST_ARCS:
                return None
    points = sorted(reached | {capacity})
    arcs |= {(one, two, 0) for one, two in pairwise(points)}
    return sorted(arcs)


def _only_stock(problem: LengthsProblem) -> Stock | None:
    is_single = len(problem.stocks) == 1 and problem.stocks[0].available is None
    return problem.stocks[0] if is_single else None


METHODS: dict[str, Callable[[LengthsProblem, float], int | None]] = {
    "first_fit": first_fit,
    "best_fit": best_fit,
    "assignment": assignment,
    "arc_flow": arc_flow,
}
