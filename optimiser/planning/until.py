"""A plan of one material that need only be good enough: a trial within a larger search.

Working out a proven bound takes longer than many a trial, so a trial has none but the solver's own;
whatever is handed out in the end is checked like any plan.
"""

from __future__ import annotations

from dataclasses import dataclass

from optimiser.domain.plan import LengthLayout, SheetLayout
from optimiser.domain.request import CuttingRequest, LengthMaterial, SheetMaterial
from optimiser.planning.lengths import length_layouts, lengths_problem
from optimiser.planning.sheets import sheet_layouts, sheets_problem
from optimiser.solvers.lengths.solve import solve as solve_lengths
from optimiser.solvers.protocol import Budget, Status
from optimiser.solvers.sheets.problem import Table
from optimiser.solvers.sheets.solve import solve as solve_sheets


@dataclass(frozen=True, slots=True)
class Trial:
    """Layouts that give all parts of a material, their net cost, and the solver's own bound.

    The rows are the solver's reasons for it: see LengthsOutcome and SheetsOutcome.
    """

    cost: int
    bound: int
    layouts: tuple[LengthLayout | SheetLayout, ...]
    length_rows: tuple[tuple[tuple[int, ...], int], ...] = ()
    sheet_rows: tuple[tuple[Table, Table], ...] = ()
    weights: tuple[tuple[int, ...], ...] = ()
    once: tuple[tuple[int, ...], ...] = ()


def try_plan(
    request: CuttingRequest,
    material: LengthMaterial | SheetMaterial,
    seconds: float,
    enough: int = -1,
) -> Trial | None:
    """Plan all parts of a material until the net cost is `enough` pence or less, or cannot be.

    Takes keep rule and seed from the request, and `seconds` at most. None when no plan was found.
    `enough` below 0 plans for all the seconds, unless the solver proves its plan before.
    """
    answered = False

    def hear(cost: int, bound: int) -> None:
        nonlocal answered
        answered = answered or cost <= enough or bound > enough >= 0

    budget = Budget.of(seconds, lambda: answered)
    wanted = {part.id: part.quantity for part in material.parts}
    layouts: tuple[LengthLayout | SheetLayout, ...]
    if isinstance(material, LengthMaterial):
        lengths = lengths_problem(material, request.keep_for(material), wanted)
        outcome = solve_lengths(lengths, budget=budget, seed=request.seed, progress=hear)
        if outcome.status not in (Status.OPTIMAL, Status.FEASIBLE):
            return None
        layouts = length_layouts(material, request.keep_for(material), outcome)
        return Trial(outcome.cost, outcome.bound, layouts, length_rows=outcome.rows)
    sheets = sheets_problem(material, request.keep_for(material), wanted)
    found = solve_sheets(sheets, budget=budget, seed=request.seed, progress=hear)
    if found.status not in (Status.OPTIMAL, Status.FEASIBLE):
        return None
    layouts = sheet_layouts(material, request.keep_for(material), found)
    return Trial(
        found.cost,
        found.bound,
        layouts,
        sheet_rows=found.rows,
        weights=found.weights,
        once=found.once,
    )
