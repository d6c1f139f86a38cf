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
from optimiser.domain.plan import PartWeights
from optimiser.verify.cover import Source, least_cost
from optimiser.verify.filling import MOST_WORK, Rectangle, TooHeavy, most_weights
from optimiser.verify.joint import Row, Supply, joint_least_cost
from optimiser.verify.worth import length_rate, sheet_rate, worth

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from optimiser.domain.plan import LengthWeights, SheetWeights
    from optimiser.domain.request import Choice, Keep, LengthMaterial, SheetMaterial

# Weights are added up in 64 bits; a certificate that could overflow them is refused.
_MOST = 2**62
# Each reason takes up to half a second to look into.
MOST_REASONS = 12
# A reason that stands alone may take about a second.
ONE_REASON_WORK = 4 * MOST_WORK

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
    best = 0
    for reason in certificate:
        if len(reason.weights) != len(material.parts) or min(reason.weights, default=0) < 0:
            raise BadCertificate("a reason needs one weight of 0 or more for each part")
        if reason.scale <= 0:
            raise BadCertificate("the scale of a reason must be above 0")
        best = max(best, *_length_bounds(material, keep, choices, reason))
    return best


def _length_bounds(
    material: LengthMaterial, keep: Keep, choices: tuple[Choice, ...], reason: LengthWeights
) -> tuple[int, int]:
    rate = length_rate(material, keep)
    pieces = [
        (stock.length - 2 * material.end_trim, Fraction(stock.price), stock.available)
        for stock in material.stock
    ] + [
        (offcut.length - 2 * offcut.end_trim, Fraction(worth(rate, offcut.length)), 1)
        for offcut in material.offcuts
    ]
    pieces = [piece for piece in pieces if piece[0] > 0]
    if not pieces or not material.parts:
        return (0, 0)
    weigh = dict(zip((part.id for part in material.parts), reason.weights, strict=True))
    demand = _least_sum(material.parts, choices, lambda part: weigh[part.id] * part.quantity)
    table = _FillTable(
        [
            (part.length + material.kerf, weigh[part.id], part.quantity)
            for part in material.parts
            if weigh[part.id]
        ],
        max(usable for usable, _, _ in pieces) + material.kerf,
    )
    sources = tuple(
        Source(cost - rate * usable, table.most(usable + material.kerf), available)
        for usable, cost, available in pieces
    )
    net = _least_sum(material.parts, choices, lambda part: part.length * part.quantity)
    cover = least_cost(sources, demand, rate * net)
    # Price bound: a piece's weight beyond what it costs, credit counted, limits what it can save.
    total: Fraction | None = Fraction(demand)
    for usable, cost, available in pieces:
        excess = reason.scale * cost - table.most_with_credit(
            usable, material.kerf, keep.length, rate, reason.scale
        )
        if excess < 0:
            total = None if available is None or total is None else total + available * excess
    price = 0 if total is None else -(-total.numerator // (total.denominator * reason.scale))
    return (cover or 0, price)


def sheet_bound(
    material: SheetMaterial,
    keep: Keep,
    choices: tuple[Choice, ...],
    certificate: tuple[SheetWeights | PartWeights, ...],
) -> int:
    """Return the least net cost in pence that all reasons together prove, 0 if they prove nothing.

    Raises BadCertificate when a weight is below 0, missing or too large, when a table lacks a size
    or names one twice, or when there are more reasons than can be looked into.
    """
    if len(certificate) > MOST_REASONS:
        raise BadCertificate(f"a certificate may give {MOST_REASONS} reasons at most")
    rate = sheet_rate(material, keep)
    pieces = _usable_sheets(material, rate)
    if not pieces or not material.parts:
        return 0
    weighed = sum(isinstance(reason, PartWeights) for reason in certificate)
    work = max(MOST_WORK, ONE_REASON_WORK // max(1, weighed))
    rows = [_row(material, choices, reason, pieces, work) for reason in certificate]
    net = _least_sum(material.parts, choices, lambda part: part.quantity * part.area)
    supplies = [
        Supply(piece.cost - rate * piece.width * piece.height, piece.available) for piece in pieces
    ]
    return (joint_least_cost(supplies, rows, rate * net) or 0) if rows else 0


@dataclass(frozen=True, slots=True, kw_only=True)
class _Piece:
    """One size of sheet or one rack offcut, trims taken off."""

    width: int
    height: int
    cost: Fraction
    available: int | None


def _usable_sheets(material: SheetMaterial, rate: Fraction) -> list[_Piece]:
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
    return [
        _Piece(width=width - 2 * trim, height=height - 2 * trim, cost=cost, available=available)
        for width, height, trim, cost, available in pieces
        if min(width, height) > 2 * trim
    ]


def _row(
    material: SheetMaterial,
    choices: tuple[Choice, ...],
    reason: SheetWeights | PartWeights,
    pieces: list[_Piece],
    work: int,
) -> Row:
    """Return the most that each sheet yields of a reason's weight, and the weight of all parts."""
    if isinstance(reason, PartWeights):
        weights = _weights_of(material, reason)
        yields = _most_cut(material, weights, pieces, work)
    else:
        across, along = _table_of(reason.across), _table_of(reason.along)
        weights = {part.id: _board_weight(part, across, along) for part in material.parts}
        yields = _most_beside(material.kerf, across, along, pieces)
    need = _least_sum(material.parts, choices, lambda part: part.quantity * weights[part.id])
    return Row(yields, need)


def _weights_of(material: SheetMaterial, reason: PartWeights) -> dict[str, int]:
    if len(reason.weights) != len(material.parts) or min(reason.weights, default=0) < 0:
        raise BadCertificate("a reason needs one weight of 0 or more for each part")
    return dict(zip((part.id for part in material.parts), reason.weights, strict=True))


def _most_cut(
    material: SheetMaterial, weights: dict[str, int], pieces: list[_Piece], work: int
) -> tuple[int, ...]:
    kerf = material.kerf
    lying = [
        Rectangle(across + kerf, along + kerf, weights[part.id])
        for part in material.parts
        for across, along in ((part.width, part.height), (part.height, part.width))[
            : 2 if part.turn else 1
        ]
    ]
    try:
        sheets = [(piece.width + kerf, piece.height + kerf) for piece in pieces]
        return tuple(most_weights(lying, sheets, work))
    except TooHeavy as trouble:
        raise BadCertificate(str(trouble)) from None


def _most_beside(
    kerf: int, across: dict[int, int], along: dict[int, int], pieces: list[_Piece]
) -> tuple[int, ...]:
    fits_across = _axis_table(across, kerf, max(piece.width for piece in pieces))
    fits_along = _axis_table(along, kerf, max(piece.height for piece in pieces))
    return tuple(
        fits_across.most(piece.width + kerf) * fits_along.most(piece.height + kerf)
        for piece in pieces
    )


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
        self, usable: int, kerf: int, keep: int, rate: Fraction, scale: int
    ) -> int:
        """Return the most of weight + scale · credit that one piece yields, all fills compared."""
        best = self.most(usable + kerf)
        longest_fill = usable - keep
        if rate == 0 or longest_fill <= 0:
            return best
        # Credit falls as the fill grows and the table rises, so only steps of the table matter.
        fills = np.flatnonzero(np.diff(self._most[: longest_fill // self._step + 1])) + 1
        if fills.size == 0:
            return best
        largest = max(rate.numerator * usable, scale * worth(rate, usable) + best)
        exact = np.int64 if largest < _MOST else object
        left = usable - fills.astype(exact) * self._step
        earned = left * rate.numerator // rate.denominator
        return max(best, int((self._most[fills].astype(exact) + scale * earned).max()))
