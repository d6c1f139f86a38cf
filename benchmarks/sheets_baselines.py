"""Plain methods to compare with: shelves, a general packing library, a plain integer programme.

Each answers what its plan costs, or None where it has none; they know no rack, no credit and no
limit on sheets, and take the one unlimited size of sheet that comes out cheapest.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from ortools.sat.python import cp_model
from rectpack import GuillotineBssfSas, PackingMode, newPacker

from optimiser.solvers.sheets.problem import Sheet, SheetsProblem

# A two-stage model of more parts than this does not fit into memory in good time.
_MOST_MODELLED = 120
# Nor does the library pack more in less than a quarter of an hour.
_MOST_PACKED = 300


def beside(problem: SheetsProblem, seconds: float) -> dict[str, int | None]:
    """Return the cost by each plain method."""
    return {
        "shelves": _cheapest(problem, [_shelves(problem, s) for s in _unlimited(problem)]),
        "packing_library": _cheapest(problem, [_library(problem, s) for s in _unlimited(problem)]),
        "two_stage_model": _cheapest(
            problem, [_model(problem, s, seconds) for s in _unlimited(problem)]
        ),
    }


def _unlimited(problem: SheetsProblem) -> list[Sheet]:
    return [sheet for sheet in problem.sheets if sheet.available is None]


def _cheapest(problem: SheetsProblem, numbers: list[int | None]) -> int | None:
    costs = [
        sheet.cost * number
        for sheet, number in zip(_unlimited(problem), numbers, strict=True)
        if number is not None
    ]
    return min(costs, default=None)


def _lying(problem: SheetsProblem, sheet: Sheet) -> list[tuple[int, int]] | None:
    """List the parts plus kerf, turned to lie where they may and fit so; None if one fits not."""
    width, height = sheet.width + problem.kerf, sheet.height + problem.kerf
    sizes = []
    for w, h, turns, demand in zip(
        problem.widths, problem.heights, problem.turns, problem.demands, strict=True
    ):
        ways = [(w + problem.kerf, h + problem.kerf)]
        ways += [(h + problem.kerf, w + problem.kerf)] if turns else []
        fitting = [way for way in ways if way[0] <= width and way[1] <= height]
        if not fitting:
            return None
        sizes += [min(fitting, key=lambda way: way[1])] * demand
    return sorted(sizes, key=lambda size: (-size[1], -size[0]))


def _shelves(problem: SheetsProblem, sheet: Sheet) -> int | None:
    """Shelf first-fit decreasing height: each part on the first shelf with room for it."""
    sizes = _lying(problem, sheet)
    if sizes is None:
        return None
    width, height = sheet.width + problem.kerf, sheet.height + problem.kerf
    shelves: list[list[int]] = []  # room left, height, sheet
    sheets: list[int] = []  # height left
    for across, along in sizes:
        shelf = next((s for s in shelves if s[0] >= across and s[1] >= along), None)
        if shelf is None:
            place = next((n for n, left in enumerate(sheets) if left >= along), None)
            if place is None:
                place = len(sheets)
                sheets.append(height)
            sheets[place] -= along
            shelf = [width, along, place]
            shelves.append(shelf)
        shelf[0] -= across
    return len(sheets)


def _library(problem: SheetsProblem, sheet: Sheet) -> int | None:
    """Guillotine packing by the library's best short side, splitting the shorter axis."""
    sizes = _lying(problem, sheet)
    if sizes is None or len(sizes) > _MOST_PACKED or len(set(problem.turns)) > 1:
        return None
    packer = newPacker(
        mode=PackingMode.Offline, pack_algo=GuillotineBssfSas, rotation=problem.turns[0]
    )
    for across, along in sizes:
        packer.add_rect(across, along)
    packer.add_bin(sheet.width + problem.kerf, sheet.height + problem.kerf, count=len(sizes))
    packer.pack()
    return len(packer) if sum(len(bin_) for bin_ in packer) == len(sizes) else None


@dataclass(frozen=True, slots=True)
class _Levels:
    """Shelves opened by part i, parts j on them, sheets opened by shelf i (Lodi et al. 2004)."""

    sizes: list[tuple[int, int]]

    def pairs(self) -> Iterator[tuple[int, int]]:
        for i in range(len(self.sizes)):
            for j in range(i + 1, len(self.sizes)):
                yield i, j


def _model(problem: SheetsProblem, sheet: Sheet, seconds: float) -> int | None:
    """A plain two-stage model: parts on shelves no lower than they are, shelves on sheets."""
    sizes = _lying(problem, sheet)
    if sizes is None or len(sizes) > _MOST_MODELLED:
        return None
    width, height = sheet.width + problem.kerf, sheet.height + problem.kerf
    levels = _Levels(sizes)
    model = cp_model.CpModel()
    count = range(len(sizes))
    opens = [model.new_bool_var("") for _ in count]
    starts = [model.new_bool_var("") for _ in count]
    on = {pair: model.new_bool_var("") for pair in levels.pairs()}
    under = {pair: model.new_bool_var("") for pair in levels.pairs()}
    for j in count:
        model.add_exactly_one([opens[j], *(on[i, j] for i in range(j))])
        model.add(sum(under[i, j] for i in range(j)) + starts[j] == opens[j])
    for i in count:
        room = width - sizes[i][0]
        model.add(sum(sizes[j][0] * on[i, j] for j in count if j > i) <= room * opens[i])
        left = height - sizes[i][1]
        model.add(sum(sizes[j][1] * under[i, j] for j in count if j > i) <= left * starts[i])
    model.minimize(sum(starts))
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.max_time_in_seconds = seconds
    status = solver.solve(model)
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return None
    return round(solver.objective_value)
