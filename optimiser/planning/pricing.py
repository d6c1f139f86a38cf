"""Reasons for a board's bound that are made for a plan once it stands.

The solver's own proof takes kerf and scrap as credited; `solvers/sheets/credited.py` looks for
prices that say more. Where a solve was too short to list the sets of parts that a sheet yields,
that is made up for.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from optimiser.domain.plan import PartWeights, SheetWeights
from optimiser.domain.request import Choice, Keep, SheetMaterial
from optimiser.planning.lifting import lifted_prices
from optimiser.planning.sheets import once_reasons, sheets_problem
from optimiser.solvers.sheets.credited import prices_for
from optimiser.solvers.sheets.sets import sheets_of_sets, weights_by_sets
from optimiser.solvers.sheets.table import Kind
from optimiser.verify.board_bounds import sheet_reasons
from optimiser.verify.wanted_once import Options, are_apart, options_of

if TYPE_CHECKING:
    from optimiser.solvers.protocol import Budget
    from optimiser.solvers.sheets.problem import SheetsOutcome, SheetsProblem

# Of a mix of options, the share of those chosen: rows of weights by sets, one for each.
MIXES = (0.9, 0.4)
# Parts of less than such a share of a sheet weigh nothing: the finest that is listed stands.
LEAST = (0.3, 0.2, 0.12, 0.07)
# Pairs of shapes looked at for one of them.
PAIRS = 60_000


def further_reasons(
    material: SheetMaterial,
    keep: Keep,
    choices: tuple[Choice, ...],
    chosen: tuple[int, ...],
    outcome: SheetsOutcome,
    certificate: tuple[SheetWeights | PartWeights, ...],
    wanted: Mapping[str, int],
    budget: Budget,
) -> tuple[PartWeights, ...]:
    """Return reasons beside those of a plan's certificate; none where they could say no more."""
    if outcome.cost <= outcome.bound or not outcome.patterns:
        return ()
    problem = sheets_problem(material, keep, wanted)
    more: list[PartWeights] = []
    if choices:
        rows = _of_all_options(material, choices, chosen, problem, budget)
        more += once_reasons(material, keep, choices, rows)
    counted = sheet_reasons(material, keep, choices, (*certificate, *more))
    if counted.least_of(chosen) >= outcome.cost or not keep.credit:
        return tuple(more)
    found = prices_for(problem, outcome.patterns, counted.fewest(chosen), budget)
    if found is not None:
        weights, scale = found
        if choices:
            weights = lifted_prices(material, keep, weights, scale, wanted)
        more.append(PartWeights(weights=weights, scale=scale))
    return tuple(more)


@dataclass(frozen=True, slots=True)
class _Sets:
    """Parts by size and by the options that cut them, and the sets of them that sheets yield."""

    kinds: tuple[Kind, ...]
    options: tuple[Options, ...]
    yielded: list[list[tuple[int, ...]]]


def _of_all_options(
    material: SheetMaterial,
    choices: tuple[Choice, ...],
    chosen: tuple[int, ...],
    problem: SheetsProblem,
    budget: Budget,
) -> Iterator[tuple[int, ...]]:
    """Yield weights by sets of parts of all options, a row for each mix of options.

    Each proves most of a mix: so much of it the options chosen, the rest all options alike.
    """
    sets = None
    for least in LEAST:
        finer = None if budget.is_spent else _listed(material, choices, problem, least)
        if finer is None:
            break
        sets = finer
    if sets is None or not sets.kinds:
        return
    for mix in MIXES:
        shares = [
            kind.demand * _share(choices, chosen, options, mix)
            for kind, options in zip(sets.kinds, sets.options, strict=True)
        ]
        weights = weights_by_sets(sets.yielded, shares, problem)
        if weights is not None:
            by_part = [0] * len(material.parts)
            for kind, weight in zip(sets.kinds, weights, strict=True):
                for place in kind.parts:
                    by_part[place] = weight
            yield tuple(by_part)


def _listed(
    material: SheetMaterial, choices: tuple[Choice, ...], problem: SheetsProblem, least: float
) -> _Sets | None:
    """List the sets of parts of at least such a share of a sheet; None where they are too many."""
    kerf = material.kerf
    smallest = least * max(sheet.width * sheet.height for sheet in problem.sheets)
    merged: dict[tuple[tuple[int, int], bool, Options], list[int]] = {}
    for place, part in enumerate(material.parts):
        if part.area >= smallest:
            turn = part.turn and part.width != part.height
            size = (int(part.width) + kerf, int(part.height) + kerf)
            size = (max(size), min(size)) if turn else size
            merged.setdefault((size, turn, options_of(choices, part.id)), []).append(place)
    kinds = tuple(
        Kind(
            width=size[0],
            height=size[1],
            turns=turn,
            demand=sum(material.parts[place].quantity for place in places),
            parts=tuple(places),
        )
        for (size, turn, _), places in merged.items()
    )
    options = tuple(each for _, _, each in merged)
    apart = frozenset(
        (near, far)
        for far in range(len(kinds))
        for near in range(far)
        if are_apart(options[near], options[far])
    )
    yielded = sheets_of_sets(kinds, apart, problem, PAIRS)
    return None if yielded is None else _Sets(kinds, options, yielded)


def _share(
    choices: tuple[Choice, ...], chosen: tuple[int, ...], options: Options, mix: float
) -> float:
    """Return how often a part is cut in a mix of options."""
    share = 1.0
    for choice, its in options:
        among = len(its) / len(choices[choice].options)
        share *= mix * (chosen[choice] in its) + (1 - mix) * among
    return share
