"""The proven bound of a section's plan, worked out again from its certificate, in whole numbers."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from typing import TYPE_CHECKING

from optimiser.verify.reasons import OpenLine, OpenNeed, Reasons
from optimiser.verify.weighing import BadCertificate, FillTable, amount_of
from optimiser.verify.worth import length_rate, worth

if TYPE_CHECKING:
    from optimiser.domain.plan import LengthWeights
    from optimiser.domain.request import Choice, Keep, LengthMaterial


KEPT = 32  # answers


# A plan is counted when it is made and again when it is checked: the same question twice.
@lru_cache(maxsize=KEPT)
def length_bound(
    material: LengthMaterial,
    keep: Keep,
    choices: tuple[Choice, ...],
    certificate: tuple[LengthWeights, ...],
) -> int:
    """Return the least net cost in pence that the certificate proves, 0 if it proves nothing.

    Holds for every option. Raises BadCertificate when a weight is below 0, missing or too large.
    """
    return length_reasons(material, keep, choices, certificate).least()


@lru_cache(maxsize=KEPT)
def length_reasons(
    material: LengthMaterial,
    keep: Keep,
    choices: tuple[Choice, ...],
    certificate: tuple[LengthWeights, ...],
) -> Reasons:
    """Return what the certificate says of the counts of stock, options still open.

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
        return Reasons()
    # No piece of stock is cut for nothing: each yields one part at least.
    parts = sum(part.quantity for part in material.parts)
    net = amount_of(material.parts, choices, lambda part: part.length * part.quantity)
    # Credit for all that is not part is more than any plan earns.
    lines = [
        OpenLine(
            net.times(rate.numerator),
            tuple(rate.denominator * p.cost - rate.numerator * p.usable for p in pieces),
            rate.denominator,
        )
    ]
    needs = []
    for reason in certificate:
        line, need = _length_reason(material, keep, choices, pieces, reason)
        lines.append(line)
        needs.append(need)
    return Reasons(
        tuple(parts if piece.available is None else piece.available for piece in pieces),
        tuple(lines),
        tuple(needs),
    )


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
) -> tuple[OpenLine, OpenNeed]:
    """Turn weights into what they say of the counts of stock pieces.

    Need: all weight must be held. Line: a plan's cost, credit counted, is the weight of its parts
    over the scale plus, for each piece, what its cost exceeds the most that it yields (Lagrange).
    """
    rate = length_rate(material, keep)
    weigh = dict(zip((part.id for part in material.parts), reason.weights, strict=True))
    demand = amount_of(material.parts, choices, lambda part: weigh[part.id] * part.quantity)
    table = FillTable(
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
    line = OpenLine(
        demand,
        tuple(reason.scale * p.cost - most for p, most in zip(pieces, yields, strict=True)),
        reason.scale,
    )
    return line, OpenNeed(tuple(table.most(p.usable + material.kerf) for p in pieces), demand)
