"""Layouts for what is left of a plan: priced by the programme, none using more than is left.

The tables count copies without limit, so a layout may ask for a part twice that is left once. The
place is then given to another that fits it. Layouts found one after another from the same prices
share no part, as what one uses up is worth nothing to the next.
"""

from __future__ import annotations

from collections import Counter

import numpy as np

from optimiser.solvers.compiled import Whole
from optimiser.solvers.sheets import fill
from optimiser.solvers.sheets.columns import Column, Step, last_cuts, value_of
from optimiser.solvers.sheets.generate import Generator
from optimiser.solvers.sheets.table import Kind

# The grid on which what is left of a plan is priced.
_LEVEL = 1
# Layouts by different first cuts taken from the first table of a round.
_FINDS = 4
# Layouts without a part in common that one round adds: one for so many rows of the programme.
_ROWS_A_LAYOUT = 12


class Places:
    """Who may take the place of whom: sizes of the kinds, and whether they may be turned.

    Where stages are limited, none that takes a cut of another stage.
    """

    def __init__(self, kinds: tuple[Kind, ...], *, staged: bool) -> None:
        self._staged = staged
        self._widths = np.array([kind.width for kind in kinds], dtype=np.int64)
        self._heights = np.array([kind.height for kind in kinds], dtype=np.int64)
        self._turns = np.array([kind.turns for kind in kinds], dtype=bool)

    def within(self, column: Column, left: Whole, values: Whole) -> Column | None:
        """Return the layout with no kind above what is left; None if nothing is left in it.

        Where a kind is used up, the most valuable one that fits its place is cut instead.
        """
        spare = left.copy()
        steps: list[Step] = []
        counts: Counter[int] = Counter()
        ways = last_cuts(column.steps) if self._staged else [fill.PART] * len(column.steps)
        for step, way in zip(column.steps, ways, strict=True):
            taken = self._settled(step, way, spare, values) if step[0] == fill.PART else step
            steps.append(taken)
            if taken[0] == fill.PART:
                spare[taken[1]] -= 1
                counts[taken[1]] += 1
        return Column(column.sheet, tuple(sorted(counts.items())), tuple(steps)) if counts else None

    def _settled(self, step: Step, way: int, spare: Whole, values: Whole) -> Step:
        """Return the step, or another part's; `way`: of the last cuts."""
        _, kind, turned = step
        if spare[kind] > 0:
            return step
        width, height = int(self._widths[kind]), int(self._heights[kind])
        if turned:
            width, height = height, width
        upright = (self._widths <= width) & (self._heights <= height)
        lying = (self._heights <= width) & (self._widths <= height) & self._turns
        if self._staged and way != fill.CROSS:
            upright &= self._heights == height
            lying &= self._widths == height
        if self._staged and way != fill.RIP:
            upright &= self._widths == width
            lying &= self._heights == width
        worth = np.where((upright | lying) & (spare > 0), values, -1)
        other = int(np.argmax(worth))
        if worth[other] < 0:
            return (fill.LEFT, 0, 0)
        return (fill.PART, other, 0 if upright[other] else 1)


def price_rest(
    generator: Generator, places: Places, left: list[int], limits: list[int | None], rounds: int
) -> None:
    """Add layouts of parts that are left to the generator's programme, restricted to them."""
    filler = generator.filler(min(_LEVEL, generator.levels - 1))
    master = generator.master
    layouts = max(1, len(generator.shares) // _ROWS_A_LAYOUT)
    for _ in range(rounds):
        master.restrict(left, limits)
        relaxed = master.solve()
        if relaxed is None:
            return
        spare = np.array(left, dtype=np.int64)
        whole, scale = generator.whole(relaxed.duals)
        paid = generator.paid(relaxed.rents, scale)
        new = 0
        for number in range(layouts):
            values = np.where(spare > 0, whole, 0)
            yields = filler.fill(values)
            columns = [
                column
                for sheet, most in enumerate(yields)
                if most > paid[sheet] and limits[sheet] != 0
                for layout in filler.layouts(sheet, paid[sheet], 1 if number else _FINDS)
                if (column := places.within(layout, spare, values)) is not None
                and value_of(column, whole) > paid[sheet]
            ]
            new += master.add(columns)
            if not columns or generator.budget.is_spent:
                break
            best = max(columns, key=lambda column: value_of(column, whole) - paid[column.sheet])
            for kind, made in best.counts:
                spare[kind] -= made
        if not new:
            return
