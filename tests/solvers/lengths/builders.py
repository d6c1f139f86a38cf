"""Problems for the tests, and checks that share nothing with the solver."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from itertools import product
from math import ceil
from time import process_time

from optimiser.solvers.lengths.problem import LengthsOutcome, LengthsProblem, Stock
from optimiser.solvers.lengths.solve import solve
from optimiser.solvers.protocol import Budget


def a_problem(
    parts: Mapping[int, int],
    stocks: Sequence[tuple[int, int, int | None]],
    *,
    kerf: int = 0,
    keep: int = 0,
    credit: Fraction = Fraction(0),
) -> LengthsProblem:
    """Build a problem from {size: demand} and (usable, cost, available)."""
    return LengthsProblem(
        sizes=tuple(parts),
        demands=tuple(parts.values()),
        kerf=kerf,
        stocks=tuple(Stock(usable=u, cost=c, available=a) for u, c, a in stocks),
        keep=keep,
        credit=credit,
    )


def cut(problem: LengthsProblem, *, seconds: float = 2.0, seed: int = 0) -> LengthsOutcome:
    """Solve within a small budget of the process's own time: other work must not change a test."""
    return solve(problem, budget=Budget(seconds, process_time, process_time()), seed=seed)


def faults(problem: LengthsProblem, outcome: LengthsOutcome) -> list[str]:
    """Return what is wrong with an outcome that claims to be a plan, checked from scratch."""
    found = []
    made = [0] * len(problem.sizes)
    used = [0] * len(problem.stocks)
    cost = 0
    for pattern in outcome.patterns:
        parts = sum(pattern.counts)
        length = sum(n * size for n, size in zip(pattern.counts, problem.sizes, strict=True))
        if parts == 0 or pattern.times < 1:
            found.append("an empty pattern")
        if length + problem.kerf * (parts - 1) > problem.stocks[pattern.stock].usable:
            found.append(f"does not fit: {pattern}")
        used[pattern.stock] += pattern.times
        for i, n in enumerate(pattern.counts):
            made[i] += n * pattern.times
        cost += problem.cost(pattern.stock, pattern.counts) * pattern.times
    if tuple(made) != problem.demands:
        found.append(f"makes {made}, not {problem.demands}")
    for stock, n in zip(problem.stocks, used, strict=True):
        if stock.available is not None and n > stock.available:
            found.append(f"uses {n} of {stock.available}")
    if cost != outcome.cost:
        found.append(f"costs {cost}, not {outcome.cost}")
    if outcome.bound > outcome.cost:
        found.append(f"bound {outcome.bound} above cost {outcome.cost}")
    if any(outcome.missing):
        found.append("a full plan that says something is missing")
    return found


def patterns_of(problem: LengthsProblem, stock: int) -> Iterator[tuple[int, ...]]:
    """Yield every pattern that fits a stock and holds no more than is demanded, not the empty."""
    usable = problem.stocks[stock].usable
    limits = [
        range(min(d, (usable + problem.kerf) // (s + problem.kerf)) + 1)
        for s, d in zip(problem.sizes, problem.demands, strict=True)
    ]
    for counts in product(*limits):
        parts = sum(counts)
        length = sum(n * s for n, s in zip(counts, problem.sizes, strict=True))
        if parts and length + problem.kerf * (parts - 1) <= usable:
            yield counts


def proven_by(problem: LengthsProblem, rows: Sequence[tuple[tuple[int, ...], int]]) -> int | None:
    """Recompute what rows prove together, by listing patterns and trying all counts of stock.

    None where no counts agree with all of them. Stocks must be few and demands small.
    """
    kinds = range(len(problem.stocks))
    listed = [list(patterns_of(problem, k)) for k in kinds]
    sizes = sum(s * d for s, d in zip(problem.sizes, problem.demands, strict=True))
    nets = [stock.cost - problem.credit * stock.usable for stock in problem.stocks]
    lines = [(problem.credit * sizes, nets)]
    needs = []
    for weights, scale in rows:
        need = sum(w * d for w, d in zip(weights, problem.demands, strict=True))
        holds, each = [], []
        for k in kinds:
            worth = [sum(w * n for w, n in zip(weights, p, strict=True)) for p in listed[k]]
            holds.append(max(worth, default=0))
            beyond = [scale * problem.cost(k, p) - w for p, w in zip(listed[k], worth, strict=True)]
            each.append(Fraction(min(beyond, default=0), scale))
        lines.append((Fraction(need, scale), each))
        needs.append((need, holds))
    parts = sum(problem.demands)
    most = [
        0 if not listed[k] else parts if stock.available is None else min(parts, stock.available)
        for k, stock in enumerate(problem.stocks)
    ]
    costs = [
        max(base + sum(n * e for n, e in zip(counts, each, strict=True)) for base, each in lines)
        for counts in product(*(range(n + 1) for n in most))
        if sum(counts) <= parts
        and all(sum(n * h for n, h in zip(counts, holds, strict=True)) >= d for d, holds in needs)
    ]
    return ceil(min(costs)) if costs else None
