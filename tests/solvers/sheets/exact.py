"""The least cost on tiny sheets by an integer programme over all plates: shares no code with us.

Every plate that cuts can make is a row; buying, cutting at each place and using as a part are the
columns (after Furini, Malaguti and Thomopulos 2016). No limit on stages.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

import highspy

from optimiser.solvers.sheets.problem import SheetsProblem

_MANY = 1000.0


@dataclass(slots=True)
class _Columns:
    """Columns of the programme; each changes how many plates of some sizes there are."""

    costs: list[float] = field(default_factory=list)
    tops: list[float] = field(default_factory=list)
    balance: dict[tuple[int, int], dict[int, float]] = field(default_factory=dict)

    def add(self, cost: float, top: float, changes: list[tuple[tuple[int, int], int]]) -> int:
        place = len(self.costs)
        for plate, change in changes:
            row = self.balance.setdefault(plate, {})
            row[place] = row.get(place, 0.0) + change
        self.costs.append(cost)
        self.tops.append(top)
        return place


def least_cost(problem: SheetsProblem) -> int | None:
    """Return the least cost without credit, None if the stock cannot yield the parts."""
    columns = _Columns()
    copies = float(sum(problem.demands))
    for sheet in problem.sheets:
        top = copies if sheet.available is None else float(sheet.available)
        columns.add(float(sheet.cost), top, [((sheet.width, sheet.height), 1)])
    seen: set[tuple[int, int]] = set()
    queue = [(sheet.width, sheet.height) for sheet in problem.sheets]
    while queue:
        plate = queue.pop()
        if plate not in seen:
            seen.add(plate)
            for pieces in _cuts(*plate, problem.kerf):
                columns.add(0.0, _MANY, [(plate, -1), *((piece, 1) for piece in pieces)])
                queue.extend(pieces)
    serve = []
    for width, height, turns in zip(problem.widths, problem.heights, problem.turns, strict=True):
        plates = {(width, height), (height, width)} if turns else {(width, height)}
        serve.append([columns.add(0.0, _MANY, [(plate, -1)]) for plate in sorted(plates)])
    return _solved(columns, serve, problem.demands)


def _solved(columns: _Columns, serve: list[list[int]], demands: tuple[int, ...]) -> int | None:
    solver: Any = highspy.Highs  # Any: its constructor carries no types
    model = solver()
    model.setOptionValue("output_flag", False)
    for place, (cost, top) in enumerate(zip(columns.costs, columns.tops, strict=True)):
        model.addVar(0.0, top)
        model.changeColCost(place, cost)
        model.changeColIntegrality(place, highspy.HighsVarType.kInteger)
    for row in columns.balance.values():
        model.addRow(0.0, highspy.kHighsInf, len(row), list(row), list(row.values()))
    for uses, demand in zip(serve, demands, strict=True):
        model.addRow(float(demand), highspy.kHighsInf, len(uses), uses, [1.0] * len(uses))
    model.run()
    if model.getModelStatus() != highspy.HighsModelStatus.kOptimal:
        return None
    least: float = model.getInfo().objective_function_value
    return round(least)


def _cuts(width: int, height: int, kerf: int) -> list[list[tuple[int, int]]]:
    rips = [
        [(at, height)] + ([(width - at - kerf, height)] if width - at > kerf else [])
        for at in range(1, width)
    ]
    crosscuts = [
        [(width, at)] + ([(width, height - at - kerf)] if height - at > kerf else [])
        for at in range(1, height)
    ]
    return rips + crosscuts
