"""One section: the request's timber to the solver's integers, and the patterns back to layouts."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from optimiser.domain.parts import LengthPart
from optimiser.domain.plan import (
    LengthCut,
    LengthLayout,
    LengthPlan,
    LengthWeights,
    Money,
    PlacedLength,
    Stretch,
    Trade,
    Usage,
)
from optimiser.domain.request import Choice, CuttingRequest, Keep, LengthMaterial
from optimiser.planning.lifting import lifted_lengths
from optimiser.planning.worth import length_credit, value_of
from optimiser.solvers.lengths.problem import LengthsProblem, Stock
from optimiser.units import Pence, Tenths
from optimiser.verify.bounds import length_bound

if TYPE_CHECKING:
    from optimiser.solvers.lengths.problem import LengthsOutcome, Pattern


def lengths_problem(
    material: LengthMaterial, keep: Keep, quantities: Mapping[str, int]
) -> LengthsProblem:
    """Put one section as integers: stock first, then rack offcuts, in the request's order."""
    credit = length_credit(material, keep)
    stocks = [
        Stock(
            usable=max(0, stock.length - 2 * material.end_trim),
            cost=stock.price,
            available=stock.available,
        )
        for stock in material.stock
    ] + [
        Stock(
            usable=max(0, offcut.length - 2 * offcut.end_trim),
            cost=value_of(credit, offcut.length),
            available=1,
        )
        for offcut in material.offcuts
    ]
    return LengthsProblem(
        sizes=tuple(part.length for part in material.parts),
        demands=tuple(quantities[part.id] for part in material.parts),
        kerf=material.kerf,
        stocks=tuple(stocks),
        keep=keep.length,
        credit=credit,
    )


def length_certificate(
    material: LengthMaterial, choices: tuple[Choice, ...], outcome: LengthsOutcome
) -> tuple[LengthWeights, ...]:
    """Return the reasons of a solver's proof as the checker reads them, for every option."""
    # The plain weight of material proves something even where the solver's weights do not.
    by_length = tuple(part.length + material.kerf for part in material.parts)
    rows = [*outcome.rows, (by_length, 1)] if material.parts else []
    if choices:
        rows = [(lifted_lengths(material, weights), scale) for weights, scale in rows]
    return tuple(
        LengthWeights(weights=weights, scale=scale) for weights, scale in dict.fromkeys(rows)
    )


def lengths_plan(
    material: LengthMaterial,
    request: CuttingRequest,
    outcome: LengthsOutcome,
    certificate: tuple[LengthWeights, ...],
) -> LengthPlan:
    """Lay the solver's patterns out on real stock, and let the checker derive the bound."""
    keep = request.keep_for(material)
    patterns, trade = outcome.patterns, None
    if outcome.trade_off is not None:
        fewer, cost = outcome.trade_off
        if request.fewer_layouts:
            patterns = fewer
        else:
            trade = Trade(layouts=len(fewer), extra=Pence(cost - outcome.cost))
    layouts = tuple(_layout(material, keep, pattern) for pattern in patterns)
    money = _money(material, keep, layouts)
    bound = length_bound(material, keep, request.choices, certificate)
    return LengthPlan(
        material=material.material,
        layouts=layouts,
        money=money,
        usage=_usage(material, layouts),
        bound=Pence(bound),
        proven=bound == money.net,
        certificate=certificate,
        seconds=round(outcome.seconds, 3),
        method=outcome.method,
        trade=trade,
    )


def length_layouts(
    material: LengthMaterial, keep: Keep, outcome: LengthsOutcome
) -> tuple[LengthLayout, ...]:
    """Lay the solver's patterns out on real stock, without a proof."""
    return tuple(_layout(material, keep, pattern) for pattern in outcome.patterns)


def _layout(material: LengthMaterial, keep: Keep, pattern: Pattern) -> LengthLayout:
    is_offcut = pattern.stock >= len(material.stock)
    if is_offcut:
        offcut = material.offcuts[pattern.stock - len(material.stock)]
        id_, length, trim = offcut.id, offcut.length, offcut.end_trim
    else:
        stock = material.stock[pattern.stock]
        id_, length, trim = stock.id, stock.length, material.end_trim
    parts = _longest_first(material.parts, pattern.counts)
    end = length - trim
    position = int(trim)
    placed: list[PlacedLength] = []
    cuts: list[LengthCut] = []
    for part in parts:
        placed.append(
            PlacedLength(part=part.id, job=part.job, start=Tenths(position), length=part.length)
        )
        position += part.length
        if position < end:
            cuts.append(LengthCut(n=len(cuts) + 1, at=Tenths(position)))
        position += material.kerf
    rest = end - position
    left = (Stretch(start=Tenths(position), length=Tenths(rest)),) if rest > 0 else ()
    kept = left if rest >= keep.length else ()
    return LengthLayout(
        stock=id_,
        offcut=is_offcut,
        count=pattern.times,
        parts=tuple(placed),
        cuts=tuple(cuts),
        offcuts=kept,
        scrap=() if kept else left,
    )


def _longest_first(parts: tuple[LengthPart, ...], counts: tuple[int, ...]) -> list[LengthPart]:
    """Order the parts of a layout as they are cut: long ones while the length is still whole."""
    each = [part for part, count in zip(parts, counts, strict=True) for _ in range(count)]
    return sorted(each, key=lambda part: (-part.length, part.job, part.id))


def _money(material: LengthMaterial, keep: Keep, layouts: tuple[LengthLayout, ...]) -> Money:
    credit = length_credit(material, keep)
    prices = {stock.id: stock.price for stock in material.stock}
    racked = {offcut.id: offcut.length for offcut in material.offcuts}
    return Money.of(
        purchase=sum(prices[item.stock] * item.count for item in layouts if not item.offcut),
        offcuts_used=sum(value_of(credit, racked[item.stock]) for item in layouts if item.offcut),
        credit=sum(
            value_of(credit, left.length) * item.count for item in layouts for left in item.offcuts
        ),
    )


def _usage(material: LengthMaterial, layouts: tuple[LengthLayout, ...]) -> Usage:
    lengths = {stock.id: stock.length for stock in material.stock}
    racked = {offcut.id: offcut for offcut in material.offcuts}
    part = offcut = scrap = trim = total = 0
    for item in layouts:
        part += item.count * sum(placed.length for placed in item.parts)
        offcut += item.count * sum(left.length for left in item.offcuts)
        scrap += item.count * sum(left.length for left in item.scrap)
        trim += 2 * item.count * (racked[item.stock].end_trim if item.offcut else material.end_trim)
        total += item.count * (racked[item.stock].length if item.offcut else lengths[item.stock])
    return Usage(
        part=part, offcut=offcut, scrap=scrap, kerf=total - part - offcut - scrap - trim, trim=trim
    )
