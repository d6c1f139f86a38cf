"""The least cost over how many pieces of each stock are cut: the last step of the lengths' bound.

Every reason of a certificate says something about the counts alone: a *need* (so much weight must
be held) or a *line* (the cost is at least this much, so much a piece). All must hold for one and
the same whole-number counts. Branch and bound over boxes of counts; floats only suggest how to mix
the reasons, and what a mix proves is worked out in whole numbers.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor
from typing import TYPE_CHECKING

from optimiser.verify.mix import best_mix

if TYPE_CHECKING:
    from optimiser.verify.mix import Mix

MOST_BOXES = 400
WHOLE = 1e-6

Box = tuple[tuple[int, int], ...]  # least and most of each stock


@dataclass(frozen=True, slots=True)
class Line:
    """cost · scale ≥ base + Σ count_k · each_k, all whole numbers, scale above 0."""

    base: int
    each: tuple[int, ...]
    scale: int


@dataclass(frozen=True, slots=True)
class Need:
    """Σ count_k · holds_k ≥ demand."""

    holds: tuple[int, ...]
    demand: int


def least_cost(
    limits: Sequence[int],
    lines: Sequence[Line],
    needs: Sequence[Need],
    most_boxes: int | None = None,
) -> int | None:
    """Return the least whole pence that some counts 0 … limits_k allow; None when none do.

    `lines` has one at least. Where the search would take too long, the answer is the least of what
    is proven so far: lower, and therefore still a bound. `most_boxes` says how long that is.
    """
    boxes = MOST_BOXES if most_boxes is None else most_boxes
    return _Search(lines, needs).least(tuple((0, limit) for limit in limits), boxes)


class _Search:
    """Best bound first; `best` is the cost of the best counts met."""

    def __init__(self, lines: Sequence[Line], needs: Sequence[Need]) -> None:
        self._lines = lines
        self._needs = needs
        self._best: int | None = None

    def least(self, root: Box, most_boxes: int) -> int | None:
        opened = self._open(root)
        waiting = [] if opened is None else [opened]
        for _ in range(most_boxes):
            if not waiting:
                return self._best
            waiting.sort(key=lambda node: -node[0])
            bound, box, point = waiting.pop()
            if self._best is not None and bound >= self._best:
                return self._best
            waiting += [
                node for half in _halves(box, point) if (node := self._open(half)) is not None
            ]
        proven = [bound for bound, _, _ in waiting]
        return min(proven if self._best is None else [*proven, self._best], default=None)

    def _open(self, box: Box) -> tuple[int, Box, tuple[float, ...]] | None:
        """Bound a box; None when it holds no counts, or none worth a look."""
        if any(_most_held(need, box) < need.demand for need in self._needs):
            return None
        mix = best_mix(box, self._lines, self._needs)
        bound = self._proves(box, mix)
        if bound is None:
            return None
        whole = tuple(
            min(most, max(least, round(value)))
            for value, (least, most) in zip(mix.point, box, strict=True)
        )
        cost = self._cost(whole)
        if cost is not None and (self._best is None or cost < self._best):
            self._best = cost
        if self._best is not None and bound >= self._best:
            return None
        return bound, box, mix.point

    def _cost(self, counts: tuple[int, ...]) -> int | None:
        """Return the least cost that these counts allow; None when they hold too little."""
        for need in self._needs:
            if sum(n * held for n, held in zip(counts, need.holds, strict=True)) < need.demand:
                return None
        return max(
            -(
                -(line.base + sum(n * e for n, e in zip(counts, line.each, strict=True)))
                // line.scale
            )
            for line in self._lines
        )

    def _proves(self, box: Box, mix: Mix) -> int | None:
        """Return what a mix proves for every counts in the box, rounded up; None: there are none.

        Weighted sums of lines and needs, each count then at whichever end costs less (Lagrange).
        """
        share = sum(mix.lines)
        total = Fraction(0)
        each = [Fraction(0)] * len(box)
        for weight, line in zip(mix.lines, self._lines, strict=True):
            if weight:
                factor = weight / line.scale
                total += factor * line.base
                each = [e + factor * step for e, step in zip(each, line.each, strict=True)]
        for weight, need in zip(mix.needs, self._needs, strict=True):
            if weight:
                total += weight * need.demand
                each = [e - weight * held for e, held in zip(each, need.holds, strict=True)]
        for step, (least, most) in zip(each, box, strict=True):
            total += step * (least if step > 0 else most)
        if share == 0:
            # Needs alone: a shortfall above 0 means that no counts in the box meet them all.
            return None if total > 0 else self._plainly(box)
        return ceil(total / share)

    def _plainly(self, box: Box) -> int:
        """Return what the lines prove for a box one by one."""
        ends = [
            line.base
            + sum(
                e * (least if e > 0 else most)
                for e, (least, most) in zip(line.each, box, strict=True)
            )
            for line in self._lines
        ]
        return max(-(-end // line.scale) for end, line in zip(ends, self._lines, strict=True))


def _most_held(need: Need, box: Box) -> int:
    return sum(most * held for (_, most), held in zip(box, need.holds, strict=True))


def _halves(box: Box, point: tuple[float, ...]) -> list[Box]:
    """Split a box at the stock whose suggested count is farthest from whole, else the widest."""
    open_ = [k for k, (least, most) in enumerate(box) if least < most]
    if not open_:
        return []
    k = max(open_, key=lambda k: (_apart(point[k]), box[k][1] - box[k][0]))
    least, most = box[k]
    at = min(most - 1, max(least, floor(point[k])))
    return [(*box[:k], (least, at), *box[k + 1 :]), (*box[:k], (at + 1, most), *box[k + 1 :])]


def _apart(value: float) -> float:
    """Return how far a suggested count is from whole, trifles left out."""
    apart = abs(value - round(value))
    return apart if apart > WHOLE else 0.0
