"""The proven bound of a plan, worked out again from its certificate: whole numbers throughout.

A certificate is a list of reasons; each gives every part a weight, and what matters is only how
much weight one stock piece can hold. That is recomputed here by plain tables that share nothing
with the solvers, so a wrong weight can make a bound poor but never false.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import gcd
from typing import TYPE_CHECKING, TypeVar

import numpy as np

from optimiser.domain.parts import BoardPart, LengthPart
from optimiser.verify.counts import Line, Need, least_cost
from optimiser.verify.cover import Source, least_cover
from optimiser.verify.worth import length_rate, sheet_rate, worth

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from optimiser.domain.plan import LengthWeights, SheetWeights
    from optimiser.domain.request import Choice, Keep, LengthMaterial, SheetMaterial

# Weights are added up in 64 bits; a certificate that could overflow them is refused.
_MOST = 2**62

PartT = TypeVar("PartT", LengthPart, BoardPart)


class BadCertificate(ValueError):
    """The certificate cannot be read as one."""


def length_bound(
    material: LengthMaterial,
    keep: Keep,
    choices: tuple[Choice, ...],
    certificate: tuple[LengthWeights, ...],
) -> int:
    """Return the least net cost in pence that the certificate proves, 0 if it proves nothing.

    Raises BadCertificate when a weight is below 0, missing or too large.
    """
    for reason in certificate:
        if len(reason.weights) != len(material.parts) or min(reason.weights, default=0) < 0:
            raise BadCertificate("a reason needs one weight of 0 or more for each part")
        if reason.scale <= 0:
            raise BadCertificate("the scale of a reason must be above 0")
    rate = length_rate(material, keep)
    pieces = _length_pieces(material, rate)
    if not pieces or not material.parts:
        return 0
    # No piece of stock is cut for nothing: each yields one part at least.
    parts = sum(part.quantity for part in material.parts)
    limits = [parts if piece.available is None else piece.available for piece in pieces]
    net = _least_sum(material.parts, choices, lambda part: part.length * part.quantity)
    # Credit for all that is not part is more than any plan earns.
    lines = [
        Line(
            rate.numerator * net,
            tuple(rate.denominator * p.cost - rate.numerator * p.usable for p in pieces),
            rate.denominator,
        )
    ]
    needs = []
    for reason in certificate:
        line, need = _length_reason(material, keep, choices, pieces, reason)
        lines.append(line)
        needs.append(need)
    return max(0, least_cost(limits, lines, needs) or 0)


@dataclass(frozen=True, slots=True)
class _Piece:
    usable: int
    cost: int
    available: int | None


def _length_pieces(material: LengthMaterial, rate: Fraction) -> list[_Piece]:
    pieces = [
        _Piece(stock.length - 2 * material.end_trim, stock.price, stock.available)
        for stock in material.stock
    ] + [
        _Piece(offcut.length - 2 * offcut.end_trim, worth(rate, offcut.length), 1)
        for offcut in material.offcuts
    ]
    return [piece for piece in pieces if piece.usable > 0]


def _length_reason(
    material: LengthMaterial,
    keep: Keep,
    choices: tuple[Choice, ...],
    pieces: list[_Piece],
    reason: LengthWeights,
) -> tuple[Line, Need]:
    """Turn weights into what they say of the counts of stock pieces.

    Need: all weight must be held. Line: a plan's cost, credit counted, is the weight of its parts
    over the scale plus, for each piece, what its cost exceeds the most that it yields (Lagrange).
    """
    rate = length_rate(material, keep)
    weigh = dict(zip((part.id for part in material.parts), reason.weights, strict=True))
    demand = _least_sum(material.parts, choices, lambda part: weigh[part.id] * part.quantity)
    table = _FillTable(
        [
            (part.length + material.kerf, weigh[part.id], part.quantity)
            for part in material.parts
            if weigh[part.id]
        ],
        max(piece.usable for piece in pieces) + material.kerf,
    )
    least = min(part.length for part in material.parts) + material.kerf
    yields = [
        table.most_with_credit(piece.usable, material.kerf, least, keep.length, rate, reason.scale)
        for piece in pieces
    ]
    line = Line(
        demand,
        tuple(reason.scale * p.cost - most for p, most in zip(pieces, yields, strict=True)),
        reason.scale,
    )
    return line, Need(tuple(table.most(p.usable + material.kerf) for p in pieces), demand)


def sheet_bound(
    material: SheetMaterial,
    keep: Keep,
    choices: tuple[Choice, ...],
    certificate: tuple[SheetWeights, ...],
) -> int:
    """Return the least net cost in pence that the certificate proves, 0 if it proves nothing.

    Raises BadCertificate when a table lacks a size, names one twice, or holds a weight below 0.
    """
    return max((_sheet_bound(material, keep, choices, reason) for reason in certificate), default=0)


def _sheet_bound(
    material: SheetMaterial, keep: Keep, choices: tuple[Choice, ...], reason: SheetWeights
) -> int:
    across, along = _table_of(reason.across), _table_of(reason.along)
    rate = sheet_rate(material, keep)
    pieces = [
        (sheet.width, sheet.height, material.edge_trim, Fraction(sheet.price), sheet.available)
        for sheet in material.stock
    ] + [
        (
            offcut.width,
            offcut.height,
            offcut.edge_trim,
            Fraction(worth(rate, offcut.width * offcut.height)),
            1,
        )
        for offcut in material.offcuts
    ]
    usable = [
        (width - 2 * trim, height - 2 * trim, cost, available)
        for width, height, trim, cost, available in pieces
        if min(width, height) > 2 * trim
    ]
    if not usable or not material.parts:
        return 0
    kerf = material.kerf
    fits_across = _axis_table(across, kerf, max(width for width, _, _, _ in usable))
    fits_along = _axis_table(along, kerf, max(height for _, height, _, _ in usable))
    sources = tuple(
        Source(
            cost - rate * width * height,
            fits_across.most(width + kerf) * fits_along.most(height + kerf),
            available,
        )
        for width, height, cost, available in usable
    )
    demand = _least_sum(
        material.parts, choices, lambda part: part.quantity * _board_weight(part, across, along)
    )
    net = _least_sum(material.parts, choices, lambda part: part.quantity * part.area)
    return least_cover(sources, demand, rate * net) or 0


def _table_of(pairs: tuple[tuple[int, int], ...]) -> dict[int, int]:
    table = dict(pairs)
    if len(table) != len(pairs):
        raise BadCertificate("a table of weights names a size twice")
    if min(table.values(), default=0) < 0 or min(table, default=1) <= 0:
        raise BadCertificate("sizes must be above 0 and weights 0 or more")
    return table


def _axis_table(weights: dict[int, int], kerf: int, longest: int) -> _FillTable:
    capacity = longest + kerf
    return _FillTable(
        [
            (size + kerf, weight, capacity // (size + kerf))
            for size, weight in weights.items()
            if weight
        ],
        capacity,
    )


def _board_weight(part: BoardPart, across: dict[int, int], along: dict[int, int]) -> int:
    try:
        upright = across[part.width] * along[part.height]
        return min(upright, across[part.height] * along[part.width]) if part.turn else upright
    except KeyError as missing:
        raise BadCertificate(f"a table of weights lacks the size {missing}") from None


def _least_sum(
    parts: tuple[PartT, ...], choices: tuple[Choice, ...], measure: Callable[[PartT], int]
) -> int:
    """Add a measure over the parts that must be cut, and the least option of every choice."""
    measures = {part.id: measure(part) for part in parts}
    optional = {id_ for choice in choices for option in choice.options for id_ in option}
    total = sum(value for id_, value in measures.items() if id_ not in optional)
    for choice in choices:
        total += min(sum(measures.get(id_, 0) for id_ in set(option)) for option in choice.options)
    return total


class _FillTable:
    """The most weight of parts that fill at most x, for every x: a bounded knapsack table."""

    def __init__(self, items: Sequence[tuple[int, int, int]], capacity: int) -> None:
        self._step = gcd(*(size for size, _, _ in items)) or 1
        cells = capacity // self._step + 1
        heaviest = max((weight * (capacity // size) for size, weight, _ in items), default=0)
        if heaviest >= _MOST:
            raise BadCertificate("a weight is too large to add up safely")
        self._most: NDArray[np.int64] = np.zeros(cells, dtype=np.int64)
        merged: dict[tuple[int, int], int] = {}
        for size, weight, copies in items:
            merged[size, weight] = merged.get((size, weight), 0) + copies
        for (size, weight), copies in merged.items():
            self._add(size // self._step, weight, min(copies, capacity // size))

    def _add(self, size: int, weight: int, copies: int) -> None:
        """Offer up to `copies` pieces, in lots of 1, 2, 4 … and a last lot."""
        lot = 1
        while copies > 0:
            lot = min(lot, copies)
            cells = size * lot
            if cells < len(self._most):
                np.maximum(
                    self._most[cells:], self._most[:-cells] + weight * lot, out=self._most[cells:]
                )
            copies -= lot
            lot *= 2

    def most(self, capacity: int) -> int:
        """Return the most weight that fits a capacity."""
        return int(self._most[capacity // self._step])

    def most_with_credit(
        self, usable: int, kerf: int, least: int, keep: int, rate: Fraction, scale: int
    ) -> int:
        """Return the most of weight + scale · credit that one piece yields, all fills compared.

        A piece holds one part at least, so it is filled to `least`, the shortest part and its kerf.
        """
        best = self.most(usable + kerf)
        longest_fill = usable - keep
        if rate == 0 or longest_fill < least:
            return best
        # Credit falls as the fill grows and the table rises, so only steps of the table matter.
        steps = np.flatnonzero(np.diff(self._most[: longest_fill // self._step + 1])) + 1
        fills = np.append(steps[steps * self._step > least] * self._step, least)
        largest = max(rate.numerator * usable, scale * worth(rate, usable) + best)
        exact = np.int64 if largest < _MOST else object
        left = usable - fills.astype(exact)
        earned = left * rate.numerator // rate.denominator
        held = self._most[fills // self._step].astype(exact)
        return max(best, int((held + scale * earned).max()))
