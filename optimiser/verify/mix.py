"""Suggests how to mix the reasons of a certificate so that they prove most for a box of counts.

A small linear program, solved in floats by the simplex method on a dense table. It proves nothing:
counts.py works out in whole numbers what a mix is worth, whatever it is.

    min t:  t ≥ (base_r + Σ n_k·each_rk)/scale_r,  Σ n_k·holds_qk ≥ demand_q,  low_k ≤ n_k ≤ high_k

Its dual has one column a line (their shares add up to 1), one a need, and two a count; each count's
row starts with its own column, so that no first phase is wanted.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from optimiser.verify.counts import Box, Line, Need

    Floats = NDArray[np.float64]

NOTHING = 1e-9
MOST_PIVOTS = 300


@dataclass(frozen=True, slots=True)
class Mix:
    """Weights ≥ 0 for the lines and the needs, and the counts at which they meet (not whole)."""

    lines: tuple[Fraction, ...]
    needs: tuple[Fraction, ...]
    point: tuple[float, ...]


def best_mix(box: Box, lines: Sequence[Line], needs: Sequence[Need]) -> Mix:
    """Return a mix that proves about as much as fractions of stock pieces allow.

    Where the needs contradict each other in the box, the lines of the mix weigh nothing.
    """
    units = [float(max(*need.holds, 1)) for need in needs]
    columns = [[1.0, *(-each / line.scale for each in line.each)] for line in lines]
    columns += [
        [0.0, *(held / unit for held in need.holds)]
        for need, unit in zip(needs, units, strict=True)
    ]
    gains = [line.base / line.scale for line in lines]
    gains += [need.demand / unit for need, unit in zip(needs, units, strict=True)]
    eye = np.eye(len(box) + 1)[:, 1:]
    table = np.hstack([np.array(columns).T, eye, -eye])
    low = [float(least) for least, _ in box]
    gains += low + [-float(most) for _, most in box]
    weights, costs = _maximise(table, np.array(gains), len(columns))
    point = np.array(low) - costs[len(columns) : len(columns) + len(box)]
    chosen = [Fraction(max(0.0, float(weight))) for weight in weights[: len(columns)]]
    amounts = [
        weight / Fraction(unit) for weight, unit in zip(chosen[len(lines) :], units, strict=True)
    ]
    return Mix(tuple(chosen[: len(lines)]), tuple(amounts), tuple(float(n) for n in point))


def _maximise(table: Floats, gains: Floats, own: int) -> tuple[Floats, Floats]:
    """Return the weights of the columns, and each column's gain beyond its price.

    Row 0 asks that the first column and its like add up to 1, every other row that it adds up to
    nothing; `own` columns come before the pairs that each row has for itself. Where the gain has no
    end, the weights are the direction in which it grows.
    """
    rows, width = table.shape
    right = np.zeros(rows)
    right[0] = 1.0
    basis = np.zeros(rows, dtype=np.int64)
    for row in range(1, rows):
        factor = table[row, 0]
        table[row] -= factor * table[0]
        right[row] = -factor
        basis[row] = own + row - 1
        if right[row] < 0:
            table[row] *= -1
            right[row] *= -1
            basis[row] += rows - 1
    for pivot in range(MOST_PIVOTS):
        beyond = gains - gains[basis] @ table
        enters = np.flatnonzero(beyond > NOTHING * (1.0 + np.abs(gains)))
        if enters.size == 0:
            break
        # The greatest gain first; the first column once it might be turning in circles (Bland).
        column = int(enters[beyond[enters].argmax()] if pivot < MOST_PIVOTS // 2 else enters[0])
        climbs = table[:, column] > NOTHING
        if not climbs.any():
            ray = np.zeros(width)
            ray[column] = 1.0
            ray[basis] -= table[:, column]
            ray[:own][np.abs(ray[:own]) < NOTHING] = 0.0
            return ray, beyond
        steps = np.full(rows, np.inf)
        steps[climbs] = right[climbs] / table[climbs, column]
        row = int(steps.argmin())
        _turn(table, right, row, column)
        basis[row] = column
    weights = np.zeros(width)
    weights[basis] = right
    return weights, gains - gains[basis] @ table


def _turn(table: Floats, right: Floats, row: int, column: int) -> None:
    """Make a column the row's own."""
    factor = table[row, column]
    table[row] /= factor
    right[row] /= factor
    others = table[:, column].copy()
    others[row] = 0.0
    table -= np.outer(others, table[row])
    right -= others * right[row]
    np.maximum(right, 0.0, out=right)
