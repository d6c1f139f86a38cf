"""The proven bound of a board's plan, worked out again from its certificate, in whole numbers."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from math import gcd
from typing import TYPE_CHECKING

from optimiser.domain.parts import BoardPart
from optimiser.domain.plan import PartWeights
from optimiser.domain.stock import NO_EDGE_TRIM
from optimiser.units import Pence, Tenths
from optimiser.verify.credited import most_with_credit
from optimiser.verify.cut_outs import free_pieces
from optimiser.verify.filling import MOST_WORK, Rectangle, TooHeavy, most_weights
from optimiser.verify.narrowed import NarrowPart, NarrowSheet, rules_out
from optimiser.verify.reasons import OpenLine, OpenNeed, Reasons
from optimiser.verify.wanted_once import TooManySets, WantedPart, most_of_sets, options_of
from optimiser.verify.weighing import Amount, BadCertificate, FillTable, amount_of
from optimiser.verify.worth import sheet_rate, worth

if TYPE_CHECKING:
    from optimiser.domain.plan import SheetWeights
    from optimiser.domain.request import Choice, Keep, SheetMaterial

# Each reason takes up to a second to look into.
MOST_REASONS = 12
# A reason that stands alone may take a second or two.
ONE_REASON_WORK = 4 * MOST_WORK
KEPT = 32  # answers


# A plan is counted when it is made and again when it is checked: the same question twice.
@lru_cache(maxsize=KEPT)
def sheet_bound(
    material: SheetMaterial,
    keep: Keep,
    choices: tuple[Choice, ...],
    certificate: tuple[SheetWeights | PartWeights, ...],
) -> int:
    """Return the least net cost in pence that all reasons together prove, 0 if they prove nothing.

    Holds for every option. Raises BadCertificate as `sheet_reasons` does.
    """
    return sheet_reasons(material, keep, choices, certificate).least()


@lru_cache(maxsize=KEPT)
def sheet_reasons(
    material: SheetMaterial,
    keep: Keep,
    choices: tuple[Choice, ...],
    certificate: tuple[SheetWeights | PartWeights, ...],
) -> Reasons:
    """Return what the certificate says of the counts of sheets, options still open.

    Raises BadCertificate when a weight is below 0, missing or too large, when a table lacks a size
    or names one twice, or when there are more reasons than can be looked into.
    """
    if len(certificate) > MOST_REASONS:
        raise BadCertificate(f"a certificate may give {MOST_REASONS} reasons at most")
    rate = sheet_rate(material, keep)
    pieces = _usable_sheets(material, choices, rate)
    if not pieces or not material.parts:
        return Reasons()
    narrowing = _narrowing(material, choices, certificate)
    plain = [r for r in certificate if not isinstance(r, PartWeights) or not r.below]
    weighed = sum(isinstance(reason, PartWeights) and not reason.scale for reason in plain)
    work = max(MOST_WORK, ONE_REASON_WORK // max(1, weighed + len(narrowing)))
    needs = [
        _need(material, choices, reason, pieces, work) for reason in plain if not _is_priced(reason)
    ]
    if not certificate:
        return Reasons()
    parts = sum(part.quantity for part in material.parts)
    # Credit for all that is not part is more than any plan earns.
    net = amount_of(material.parts, choices, lambda part: part.quantity * part.area)
    line = OpenLine(
        net.times(rate.numerator),
        tuple(rate.denominator * p.cost - rate.numerator * p.width * p.height for p in pieces),
        rate.denominator,
    )
    priced = [
        _priced_line(material, keep, choices, reason, pieces)
        for reason in certificate
        if isinstance(reason, PartWeights) and reason.scale
    ]
    limits = tuple(parts if piece.available is None else piece.available for piece in pieces)
    floors = [
        OpenLine(
            Amount(below, tuple((0,) * len(c.options) for c in choices)), (0,) * len(pieces), 1
        )
        for below, rows in narrowing.items()
        if _is_ruled_out(material, below, rows, pieces, rate, work)
    ]
    return Reasons(limits, (line, *priced, *floors), tuple(needs))


def _is_priced(reason: SheetWeights | PartWeights) -> bool:
    return isinstance(reason, PartWeights) and reason.scale != 0


def _narrowing(
    material: SheetMaterial,
    choices: tuple[Choice, ...],
    certificate: tuple[SheetWeights | PartWeights, ...],
) -> dict[int, list[dict[str, int]]]:
    """Return the rows of weights that speak of plans below a cost, by that cost, in their order."""
    rows: dict[int, list[dict[str, int]]] = {}
    for reason in certificate:
        if not isinstance(reason, PartWeights) or not reason.below:
            continue
        if reason.below < 0 or not reason.once or reason.scale:
            raise BadCertificate("weights of plans below a cost count parts once, at no price")
        if any(options_of(choices, part.id) for part in material.parts):
            raise BadCertificate("weights of plans below a cost are for boards without a choice")
        rows.setdefault(reason.below, []).append(_weights_of(material, reason))
    return rows


def _is_ruled_out(
    material: SheetMaterial,
    below: int,
    rows: list[dict[str, int]],
    pieces: list[_Piece],
    rate: Fraction,
    work: int,
) -> bool:
    """Return whether the rows show that no plan costs less, all that is no part credited."""
    kerf = material.kerf
    parts = [
        NarrowPart(
            _ways(material, part), tuple(weights[part.id] for weights in rows), part.quantity
        )
        for part in material.parts
        if any(weights[part.id] for weights in rows)
    ]
    yields = _most_cut(material, rows[0], pieces, work)
    sheets = [
        NarrowSheet(
            piece.width + kerf,
            piece.height + kerf,
            piece.cost - rate * piece.width * piece.height,
            piece.available,
            most,
        )
        for piece, most in zip(pieces, yields, strict=True)
    ]
    area = sum(part.quantity * part.area for part in material.parts)
    # Without credit a plan costs a whole number of times what all prices are multiples of.
    step = 1 if rate else gcd(*(piece.cost for piece in pieces)) or 1
    try:
        return bool(parts) and rules_out(parts, sheets, (below - 1) // step * step - rate * area)
    except TooManySets as trouble:
        raise BadCertificate(str(trouble)) from None


def _ways(material: SheetMaterial, part: BoardPart) -> tuple[tuple[int, int], ...]:
    """Return how a part may lie, one kerf added to its sizes."""
    across, along = part.width + material.kerf, part.height + material.kerf
    return ((across, along), (along, across))[: 2 if part.turn else 1]


def _priced_line(
    material: SheetMaterial,
    keep: Keep,
    choices: tuple[Choice, ...],
    reason: PartWeights,
    pieces: list[_Piece],
) -> OpenLine:
    """Turn prices into what they say of the cost, credit counted as it is given (Lagrange).

    A plan costs the price of its parts plus, for each sheet, what its cost exceeds the most that it
    yields in prices and credit together.
    """
    if reason.scale < 0 or reason.once:
        raise BadCertificate("a reason's scale is 0 or more, and 0 for parts wanted once")
    prices = _weights_of(material, reason)
    kerf = material.kerf
    try:
        yields = most_with_credit(
            tuple(_lying(material, prices)),
            tuple((piece.width + kerf, piece.height + kerf) for piece in pieces),
            kerf,
            (keep.width, keep.height),
            sheet_rate(material, keep),
            reason.scale,
        )
    except TooHeavy as trouble:
        raise BadCertificate(str(trouble)) from None
    return OpenLine(
        amount_of(material.parts, choices, lambda part: part.quantity * prices[part.id]),
        tuple(reason.scale * p.cost - most for p, most in zip(pieces, yields, strict=True)),
        reason.scale,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Piece:
    """One size of sheet or one rack offcut, trims taken off."""

    width: int
    height: int
    cost: int
    available: int | None


def _usable_sheets(
    material: SheetMaterial, choices: tuple[Choice, ...], rate: Fraction
) -> list[_Piece]:
    pieces = [
        (sheet.width, sheet.height, material.edge_trim, sheet.price, sheet.available)
        for sheet in material.stock
    ] + [
        (
            offcut.width,
            offcut.height,
            offcut.edge_trim,
            worth(rate, offcut.width * offcut.height),
            1,
        )
        for offcut in material.offcuts
    ]
    # What is cut out of a part costs nothing and is there once for each: it may hold parts that
    # would else be bought, and all that is left of it may be credited.
    pieces += [
        (Tenths(width), Tenths(height), NO_EDGE_TRIM, Pence(0), count)
        for width, height, count in free_pieces(material, choices)
    ]
    return [
        _Piece(
            width=width - trim.across,
            height=height - trim.along,
            cost=cost,
            available=available,
        )
        for width, height, trim, cost, available in pieces
        if width > trim.across and height > trim.along
    ]


def _need(
    material: SheetMaterial,
    choices: tuple[Choice, ...],
    reason: SheetWeights | PartWeights,
    pieces: list[_Piece],
    work: int,
) -> OpenNeed:
    """Return the most that each sheet yields of a reason's weight, and the weight of all parts."""
    if isinstance(reason, PartWeights):
        weights = _weights_of(material, reason)
        if reason.once:
            yields = _most_once(material, choices, weights, pieces)
        else:
            yields = _most_cut(material, weights, pieces, work)
    else:
        across, along = _table_of(reason.across), _table_of(reason.along)
        weights = {part.id: _board_weight(part, across, along) for part in material.parts}
        yields = _most_beside(material.kerf, across, along, pieces)
    need = amount_of(material.parts, choices, lambda part: part.quantity * weights[part.id])
    return OpenNeed(yields, need)


def _weights_of(material: SheetMaterial, reason: PartWeights) -> dict[str, int]:
    if len(reason.weights) != len(material.parts) or min(reason.weights, default=0) < 0:
        raise BadCertificate("a reason needs one weight of 0 or more for each part")
    return dict(zip((part.id for part in material.parts), reason.weights, strict=True))


def _most_cut(
    material: SheetMaterial, weights: dict[str, int], pieces: list[_Piece], work: int
) -> tuple[int, ...]:
    kerf = material.kerf
    lying = _lying(material, weights)
    try:
        sheets = [(piece.width + kerf, piece.height + kerf) for piece in pieces]
        return tuple(most_weights(lying, sheets, work))
    except TooHeavy as trouble:
        raise BadCertificate(str(trouble)) from None


def _lying(material: SheetMaterial, weights: dict[str, int]) -> list[Rectangle]:
    """Return the parts in each way that they may lie, one kerf added to their sizes."""
    return [
        Rectangle(across, along, weights[part.id])
        for part in material.parts
        for across, along in _ways(material, part)
    ]


def _most_once(
    material: SheetMaterial,
    choices: tuple[Choice, ...],
    weights: dict[str, int],
    pieces: list[_Piece],
) -> tuple[int, ...]:
    kerf = material.kerf
    parts = [
        WantedPart(
            ways=_ways(material, part),
            weight=weights[part.id],
            quantity=part.quantity,
            options=options_of(choices, part.id),
        )
        for part in material.parts
    ]
    try:
        return tuple(most_of_sets(parts, [(p.width + kerf, p.height + kerf) for p in pieces]))
    except TooManySets as trouble:
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


def _axis_table(weights: dict[int, int], kerf: int, longest: int) -> FillTable:
    capacity = longest + kerf
    return FillTable(
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
