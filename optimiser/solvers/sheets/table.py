"""A problem written into the row of whole numbers that the compiled steps work on.

Equal part types are merged here, and parted again when the outcome is written.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction

import numpy as np

from optimiser.solvers.compiled import Real, Small, Whole
from optimiser.solvers.sheets import cells as c
from optimiser.solvers.sheets.problem import Sheet, SheetsProblem, Way

_UNLIMITED = 1 << 30
_NO_CAP = 1 << 40
# Entries of the log that takes a step back: eight strips of small parts need about a tenth.
_LOG = 1 << 18
# Records of nodes for each part. A part that the search places takes five at most: its own, two
# left-over pieces, a strip, and a sheet. Layouts that come from elsewhere may hold more left-over
# pieces in one another; those of so many may be loaded, and the search then has room for its own.
_NODES_A_PART = 14
_LOADED_A_PART = 9
# Sizes repeat if so many parts share one on average.
_REPEATED = 1.4


@dataclass(frozen=True, slots=True, kw_only=True)
class Kind:
    """A part type as the search sees it: sizes plus kerf; `parts` are the problem's equal types."""

    width: int
    height: int
    turns: bool
    demand: int
    parts: tuple[int, ...]


def kinds_of(problem: SheetsProblem) -> tuple[Kind, ...]:
    """Merge equal part types; one that may be turned stands with its longer side across."""
    merged: dict[tuple[int, int, bool], list[int]] = {}
    for part, (width, height) in enumerate(zip(problem.widths, problem.heights, strict=True)):
        if not problem.demands[part]:
            continue
        turns = problem.turns[part] and width != height
        size = (max(width, height), min(width, height)) if turns else (width, height)
        merged.setdefault((*size, turns), []).append(part)
    return tuple(
        Kind(
            width=width + problem.kerf,
            height=height + problem.kerf,
            turns=turns,
            demand=sum(problem.demands[part] for part in parts),
            parts=tuple(parts),
        )
        for (width, height, turns), parts in merged.items()
    )


def by_part(
    problem: SheetsProblem, kinds: Sequence[Kind], weights: Iterable[int]
) -> tuple[int, ...]:
    """Return weights of kinds as weights of the problem's parts."""
    found = [0] * len(problem.demands)
    for kind, weight in zip(kinds, weights, strict=True):
        for part in kind.parts:
            found[part] = int(weight)
    return tuple(found)


def sizes_repeat(kinds: tuple[Kind, ...]) -> bool:
    """Return whether parts share sizes so often that layouts repeat."""
    return sum(kind.demand for kind in kinds) >= _REPEATED * len(kinds)


def fits(
    kind: Kind, sheet: Sheet, kerf: int, max_stages: int | None, first_cut: Way | None
) -> bool:
    """Return whether a sheet yields the part at all."""
    width, height = sheet.width + kerf, sheet.height + kerf
    ways = ((kind.width, kind.height), (kind.height, kind.width))[: 2 if kind.turns else 1]
    return any(
        across <= width
        and along <= height
        and (max_stages is None or (across < width) + (along < height) <= max_stages)
        and (
            first_cut is None
            or (across < width if first_cut is Way.RIP else along < height)
            or (across, along) == (width, height)
        )
        for across, along in ways
    )


def homeless(problem: SheetsProblem, kinds: Sequence[Kind]) -> Counter[int]:
    """Count the parts that no sheet there is yields at all."""
    rules = problem.kerf, problem.max_stages, problem.first_cut
    return Counter(
        {
            part: problem.demands[part]
            for kind in kinds
            if not any(s.available != 0 and fits(kind, s, *rules) for s in problem.sheets)
            for part in kind.parts
        }
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class State:
    """A saved state of the search."""

    mem: Small
    counters: Whole


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """The arrays of one search; `mem`, `log`, `head`, `ratios` change as it goes.

    `orders` lists the part types by several measures, `ranks` the place of each type in each.
    Layouts of up to `room` pieces in all may be loaded.
    """

    mem: Small
    log: Small
    head: Whole
    ratios: Real
    orders: Small
    ranks: Small
    queue: Small
    credited: bool
    room: int

    def saved(self) -> State:
        """Return a copy of the present state."""
        return State(mem=self.mem.copy(), counters=self.head[: c.COUNTERS].copy())

    def reset(self, state: State) -> None:
        """Go back to a saved state."""
        self.mem[:] = state.mem
        self.head[: c.COUNTERS] = state.counters

    def size_at(self, sheet: int) -> int:
        """Return where the record of a sheet size begins."""
        return int(self.head[c.AT_SIZES]) + sheet * c.CELLS

    def type_at(self, kind: int) -> int:
        """Return where the record of a part type begins."""
        return int(self.head[c.AT_TYPES]) + kind * c.CELLS

    def kind_of(self, at: int) -> int:
        """Return the number of the part type whose record begins there."""
        return (at - int(self.head[c.AT_TYPES])) // c.CELLS


def new_table(problem: SheetsProblem, kinds: tuple[Kind, ...], seed: int) -> Table:
    """Lay out the row: no sheet open, every part waiting."""
    pieces = sum(kind.demand for kind in kinds)
    nodes = _NODES_A_PART * pieces + 8
    sheets = pieces + 2
    at_nodes = c.NODE  # place 0 is nobody's
    at_sheets = at_nodes + nodes * c.NODE
    at_sizes = at_sheets + sheets * c.SHEET_CELLS
    at_types = at_sizes + len(problem.sheets) * c.CELLS
    at_open = at_types + len(kinds) * c.CELLS
    at_wait = at_open + sheets
    mem = np.zeros(at_wait + len(kinds) + 1, dtype=np.int32)
    chain = np.arange(1, nodes, dtype=np.int32)
    mem[at_nodes + c.NEXT : at_sheets - c.NODE : c.NODE] = at_nodes + chain * c.NODE
    chain = np.arange(1, sheets, dtype=np.int32)
    mem[at_sheets + c.SPOT : at_sizes - c.SHEET_CELLS : c.SHEET_CELLS] = (
        at_sheets + chain * c.SHEET_CELLS
    )
    for number, sheet in enumerate(problem.sheets):
        at = at_sizes + number * c.CELLS
        mem[at + c.W] = sheet.width + problem.kerf
        mem[at + c.H] = sheet.height + problem.kerf
        mem[at + c.COST] = sheet.cost
        available = _UNLIMITED if sheet.available is None else sheet.available
        mem[at + c.AVAILABLE] = min(available, _UNLIMITED)
    for place, kind in enumerate(kinds):
        at = at_types + place * c.CELLS
        mem[at + c.TURNS] = kind.turns
        mem[at + c.W] = kind.width
        mem[at + c.H] = kind.height
        mem[at + c.COUNT] = kind.demand
        mem[at + c.PLACE] = place
        mem[at_wait + place] = at
    head = _settings(problem, len(kinds), seed)
    head[c.N_WAIT] = len(kinds)
    head[c.UNPLACED] = sum(kind.demand * kind.width * kind.height for kind in kinds)
    head[c.FREE_NODE] = at_nodes
    head[c.FREE_SHEET] = at_sheets
    head[c.AT_SIZES], head[c.AT_TYPES] = at_sizes, at_types
    head[c.AT_OPEN], head[c.AT_WAIT] = at_open, at_wait
    credited = problem.credit > 0 and any(
        problem.credit_for(sheet.width, sheet.height) for sheet in problem.sheets
    )
    orders, ranks = _orders(kinds)
    return Table(
        mem=mem,
        log=np.zeros((_LOG, 2), dtype=np.int32),
        head=head,
        ratios=_ratios(problem, credited=credited),
        orders=orders,
        ranks=ranks,
        queue=np.zeros(len(kinds) + 1, dtype=np.int32),
        credited=credited,
        room=_LOADED_A_PART * pieces,
    )


def _settings(problem: SheetsProblem, kinds: int, seed: int) -> Whole:
    head = np.zeros(c.SETTINGS, dtype=np.int64)
    # Knuth's multiplicative hash spreads small seeds; 0 would stop the generator.
    head[c.LUCK] = (seed * 2654435761 + 1) % (1 << 32) or 1
    head[c.CAP] = _NO_CAP
    head[c.STAGES] = _UNLIMITED if problem.max_stages is None else problem.max_stages
    head[c.KERF] = problem.kerf
    head[c.SIZES] = len(problem.sheets)
    head[c.TYPES] = kinds
    head[c.KEEP_LONG] = max(problem.keep)
    head[c.KEEP_SHORT] = min(problem.keep)
    head[c.FIRST_CUT] = {None: 0, Way.RIP: c.RIP, Way.CROSS: c.CROSS}[problem.first_cut]
    largest = max(
        (sheet.width + problem.kerf) * (sheet.height + problem.kerf) for sheet in problem.sheets
    )
    head[c.SHIFT] = max(0, largest.bit_length() - 31)
    return head


def _ratios(problem: SheetsProblem, *, credited: bool) -> Real:
    ratios = np.zeros(c.RATIOS, dtype=np.float64)
    ratios[c.RATE] = float(problem.credit) if credited else 0.0
    dearest = max(
        (
            Fraction(sheet.cost, sheet.width * sheet.height)
            for sheet in problem.sheets
            if sheet.width and sheet.height  # trims may leave nothing of a rack offcut
        ),
        default=Fraction(0),
    )
    # A part that waits must weigh more than the dearest sheet area it could take up.
    ratios[c.PENALTY] = 1.5 * float(dearest) or 1.0
    return ratios


def _orders(kinds: tuple[Kind, ...]) -> tuple[Small, Small]:
    """List the part types in five orders, largest first, and give their ranks; ties by place."""
    measures = (
        [-kind.width * kind.height for kind in kinds],
        [-max(kind.width, kind.height) for kind in kinds],
        [-kind.width for kind in kinds],
        [-kind.height for kind in kinds],
        [-kind.width - kind.height for kind in kinds],
    )
    orders = np.zeros((len(measures), len(kinds)), dtype=np.int32)
    ranks = np.zeros_like(orders)
    for row, measure in enumerate(measures):
        orders[row] = np.argsort(np.array(measure, dtype=np.int64), kind="stable")
        ranks[row, orders[row]] = np.arange(len(kinds))
    return orders, ranks
