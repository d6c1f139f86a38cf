"""The outcome of a solve, written in the problem's own part types and real sizes."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import replace

from optimiser.solvers.protocol import Status
from optimiser.solvers.sheets.bounds import Proof
from optimiser.solvers.sheets.pool import Layout, Plan, net_of
from optimiser.solvers.sheets.problem import (
    Cut,
    Leaf,
    Node,
    SheetPattern,
    SheetsOutcome,
    SheetsProblem,
)
from optimiser.solvers.sheets.table import Kind, kinds_of
from optimiser.solvers.sheets.tidy import laid_anew
from optimiser.solvers.sheets.tree import Block, block_of_cuts, real_cuts


def impossible(
    problem: SheetsProblem,
    missing: Mapping[int, int],
    proof: Proof | None,
    seconds: float,
) -> SheetsOutcome:
    """Write that the stock there is cannot yield the parts."""
    return SheetsOutcome(
        status=Status.IMPOSSIBLE,
        patterns=(),
        cost=0,
        bound=0,
        rows=() if proof is None else proof.rows,
        weights=() if proof is None else proof.weights,
        once=() if proof is None else proof.once,
        missing=tuple(missing.get(part, 0) for part in range(len(problem.demands))),
        method="none",
        seconds=seconds,
    )


def written(
    problem: SheetsProblem,
    kinds: tuple[Kind, ...],
    plan: Plan,
    proof: Proof,
    seconds: float,
    method: str,
) -> SheetsOutcome:
    """Write a complete plan; equal layouts become one pattern."""
    cost = net_of(problem, plan)
    bound = min(proof.bound, cost)
    return SheetsOutcome(
        status=Status.OPTIMAL if cost == proof.bound or not plan else Status.FEASIBLE,
        patterns=_patterns(problem, kinds, plan),
        cost=cost,
        bound=bound,
        rows=proof.rows,
        weights=proof.weights,
        once=proof.once,
        narrowed=proof.narrowed,
        missing=(0,) * len(problem.demands),
        method=method,
        seconds=seconds,
    )


def read_back(
    problem: SheetsProblem, kinds: tuple[Kind, ...], patterns: tuple[SheetPattern, ...]
) -> Plan:
    """Return layouts that were written of the same problem as the plan they were."""
    kind_of = {part: place for place, kind in enumerate(kinds) for part in kind.parts}
    plan: list[Layout] = []
    for pattern in patterns:
        sheet = problem.sheets[pattern.sheet]
        size = sheet.width + problem.kerf, sheet.height + problem.kerf
        block = block_of_cuts(pattern.root, *size, problem.kerf, kind_of)
        plan += [(pattern.sheet, _as_kinds(kinds, block))] * pattern.times
    return tuple(plan)


def simplified(problem: SheetsProblem, outcome: SheetsOutcome) -> SheetsOutcome:
    """Return the outcome with each layout in as few runs of cuts as are found for its parts.

    None comes out dearer; what is left over may earn more.
    """
    if not outcome.patterns:
        return outcome
    kinds = kinds_of(problem)
    plan = laid_anew(problem, kinds, read_back(problem, kinds, outcome.patterns))
    cost = net_of(problem, plan)
    bound = min(outcome.bound, cost)
    return replace(
        outcome,
        status=Status.OPTIMAL if cost == bound else outcome.status,
        patterns=_patterns(problem, kinds, plan),
        cost=cost,
        bound=bound,
    )


def _as_kinds(kinds: tuple[Kind, ...], block: Block) -> Block:
    """Say of each part whether it lies turned against its kind."""
    if block.part >= 0:
        return block._replace(turned=block.width != kinds[block.part].width)
    return block._replace(pieces=tuple(_as_kinds(kinds, piece) for piece in block.pieces))


def _patterns(
    problem: SheetsProblem, kinds: tuple[Kind, ...], plan: Plan
) -> tuple[SheetPattern, ...]:
    """Name the parts, equal layouts one after another so that they stay equal where they can."""
    supply = [[[part, problem.demands[part]] for part in kind.parts] for kind in kinds]
    patterns: Counter[tuple[int, Node]] = Counter()
    for (sheet, block), times in Counter(plan).items():
        root = real_cuts(block, problem.kerf)
        for _ in range(times):
            patterns[sheet, _named(problem, kinds, supply, root)] += 1
    return tuple(
        SheetPattern(sheet=sheet, root=root, times=times)
        for (sheet, root), times in sorted(
            patterns.items(), key=lambda entry: (entry[0][0], -entry[1])
        )
    )


def _named(
    problem: SheetsProblem, kinds: tuple[Kind, ...], supply: list[list[list[int]]], node: Node
) -> Node:
    """Give each leaf the next part of its kind, and turn it as that part was given."""
    if isinstance(node, Cut):
        near = _named(problem, kinds, supply, node.near)
        far = None if node.far is None else _named(problem, kinds, supply, node.far)
        return Cut(node.rip, node.at, near, far)
    if node.part is None:
        return Leaf()
    queue = supply[node.part]
    while not queue[0][1]:
        queue.pop(0)
    part = queue[0][0]
    queue[0][1] -= 1
    as_given = problem.widths[part] + problem.kerf == kinds[node.part].width
    return Leaf(part, node.turned == as_given)
