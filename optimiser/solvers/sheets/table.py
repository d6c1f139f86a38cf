"""A problem written into the table of whole numbers that the compiled steps work on.

Equal part types are merged here, and parted again when the outcome is written.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

import numpy as np

from optimiser.solvers.sheets import cells as c
from optimiser.solvers.sheets.compiled import Real, Whole
from optimiser.solvers.sheets.problem import Sheet, SheetsProblem

_UNLIMITED = 1 << 40
# Entries of the log that takes a step back: eight strips of small parts need about a tenth.
_LOG = 1 << 18


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


def fits(kind: Kind, sheet: Sheet, kerf: int, max_stages: int | None) -> bool:
    """Return whether a sheet yields the part at all."""
    width, height = sheet.width + kerf, sheet.height + kerf
    ways = ((kind.width, kind.height), (kind.height, kind.width))[: 2 if kind.turns else 1]
    return any(
        across <= width
        and along <= height
        and (max_stages is None or (across < width) + (along < height) <= max_stages)
        for across, along in ways
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """The arrays of one search; `mem`, `log`, `head`, `ratios` change as it goes."""

    mem: Whole
    log: Whole
    head: Whole
    ratios: Real
    ranks: Whole
    queue: Whole
    first_kind: int
    credited: bool

    def reset(self, saved: Whole) -> None:
        """Go back to a saved state."""
        self.mem[:] = saved


def new_table(problem: SheetsProblem, kinds: tuple[Kind, ...], seed: int) -> Table:
    """Lay out the table: no sheet open, every part waiting."""
    pieces = sum(kind.demand for kind in kinds)
    first_kind = 1 + len(problem.sheets)
    first_node = first_kind + len(kinds)
    mem = np.zeros((first_node + 5 * pieces + 8, c.COLUMNS), dtype=np.int64)
    for size, sheet in enumerate(problem.sheets, 1):
        mem[size, c.W] = sheet.width + problem.kerf
        mem[size, c.H] = sheet.height + problem.kerf
        mem[size, c.COST] = sheet.cost
        available = _UNLIMITED if sheet.available is None else sheet.available
        mem[size, c.AVAILABLE] = available
    for place, kind in enumerate(kinds):
        row = first_kind + place
        mem[row, c.W] = kind.width
        mem[row, c.H] = kind.height
        mem[row, c.TURNED] = kind.turns
        mem[row, c.COUNT] = kind.demand
        mem[row, c.POS] = place
        mem[place, c.WAIT] = row
    mem[0, c.N_WAIT] = len(kinds)
    mem[0, c.UNPLACED] = sum(kind.demand * kind.width * kind.height for kind in kinds)
    mem[0, c.FREE_ROW] = first_node
    mem[first_node:-1, c.NEXT] = np.arange(first_node + 1, len(mem))
    credited = problem.credit > 0 and any(
        problem.credit_for(sheet.width, sheet.height) for sheet in problem.sheets
    )
    return Table(
        mem=mem,
        log=np.zeros((_LOG, 3), dtype=np.int64),
        head=_settings(problem, len(kinds), seed),
        ratios=_ratios(problem, credited=credited),
        ranks=_ranks(kinds),
        queue=np.zeros(len(kinds) + 1, dtype=np.int64),
        first_kind=first_kind,
        credited=credited,
    )


def _settings(problem: SheetsProblem, kinds: int, seed: int) -> Whole:
    head = np.zeros(c.SETTINGS, dtype=np.int64)
    # Knuth's multiplicative hash spreads small seeds; 0 would stop the generator.
    head[c.LUCK] = (seed * 2654435761 + 1) % (1 << 32) or 1
    head[c.CAP] = _UNLIMITED
    head[c.STAGES] = _UNLIMITED if problem.max_stages is None else problem.max_stages
    head[c.KERF] = problem.kerf
    head[c.SIZES] = len(problem.sheets)
    head[c.TYPES] = kinds
    head[c.KEEP_LONG] = max(problem.keep)
    head[c.KEEP_SHORT] = min(problem.keep)
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


def _ranks(kinds: tuple[Kind, ...]) -> Whole:
    """Rank the part types in five orders, largest first; ties by their place."""
    measures = (
        [-kind.width * kind.height for kind in kinds],
        [-max(kind.width, kind.height) for kind in kinds],
        [-kind.width for kind in kinds],
        [-kind.height for kind in kinds],
        [-kind.width - kind.height for kind in kinds],
    )
    ranks = np.zeros((len(measures), len(kinds)), dtype=np.int64)
    for row, measure in enumerate(measures):
        ranks[row, np.argsort(np.array(measure, dtype=np.int64), kind="stable")] = np.arange(
            len(kinds)
        )
    return ranks
