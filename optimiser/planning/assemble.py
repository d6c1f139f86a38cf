"""Requests for a part of what was asked, and plans put together from layouts made one by one."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import replace
from typing import TypeVar

from optimiser.domain.parts import BoardPart, LengthPart
from optimiser.domain.plan import (
    Chosen,
    CuttingPlan,
    LengthLayout,
    LengthPlan,
    Money,
    SheetLayout,
    SheetPlan,
    Usage,
)
from optimiser.domain.request import CuttingRequest, LengthMaterial, SheetMaterial
from optimiser.domain.stock import StockLength, StockSheet
from optimiser.planning.cut_list import described
from optimiser.planning.cut_outs import in_order
from optimiser.units import Pence
from optimiser.verify.board_bounds import sheet_bound
from optimiser.verify.bounds import length_bound
from optimiser.verify.lengths import check_length_layouts
from optimiser.verify.sheets import check_sheet_layouts

StockT = TypeVar("StockT", StockLength, StockSheet)
PartT = TypeVar("PartT", LengthPart, BoardPart)
LayoutT = TypeVar("LayoutT", LengthLayout, SheetLayout)

Layouts = tuple[LengthLayout | SheetLayout, ...]

_BY_HAND = "continued"


def request_with(
    request: CuttingRequest, materials: tuple[LengthMaterial | SheetMaterial, ...]
) -> CuttingRequest:
    """Return the request with these materials alone, and with the limits of access they need."""
    jobs = {part.job for material in materials for part in material.parts}
    return replace(
        request,
        lengths=tuple(item for item in materials if isinstance(item, LengthMaterial)),
        sheets=tuple(item for item in materials if isinstance(item, SheetMaterial)),
        choices=(),
        access=tuple(limit for limit in request.access if limit.job in jobs),
    )


def stock_left(
    stock: tuple[StockT, ...],
    hands: Mapping[str, str],
    held: Mapping[str, int],
    used: Mapping[str, int],
) -> tuple[StockT, ...]:
    """Return stock in hand, which costs nothing, and then what can be bought beside what was.

    `hands` gives the id of stock in hand by what it was bought as, `held` how much there is by
    that id, `used` how much of each stock was bought.
    """
    left: list[StockT] = []
    for item in stock:
        id_ = hands.get(item.id, "")
        if held.get(id_, 0):
            left.append(replace(item, id=id_, price=Pence(0), available=held[id_]))
    for item in stock:
        if item.available is None:
            left.append(item)
        else:
            there = max(0, item.available - used.get(item.id, 0))
            left.append(replace(item, available=there))
    return tuple(left)


def parts_left(parts: tuple[PartT, ...], wanted: Mapping[str, int]) -> tuple[PartT, ...]:
    """Return the parts that are wanted, in their order, as often as they are."""
    return tuple(replace(part, quantity=wanted[part.id]) for part in parts if part.id in wanted)


def added_up(
    request: CuttingRequest,
    plans: tuple[LengthPlan | SheetPlan, ...],
    chosen: tuple[Chosen, ...] = (),
    seconds: float = 0.0,
) -> CuttingPlan:
    """Return the plan of a request from those of its materials, their bounds added up too."""
    money = Money.of(
        purchase=sum(plan.money.purchase for plan in plans),
        offcuts_used=sum(plan.money.offcuts_used for plan in plans),
        credit=sum(plan.money.credit for plan in plans),
    )
    bound = sum(plan.bound for plan in plans)
    return CuttingPlan(
        seed=request.seed,
        lengths=tuple(plan for plan in plans if isinstance(plan, LengthPlan)),
        sheets=tuple(plan for plan in plans if isinstance(plan, SheetPlan)),
        chosen=chosen,
        money=money,
        bound=Pence(bound),
        proven=bound == money.net,
        seconds=round(seconds, 3),
    )


def assembled(
    request: CuttingRequest,
    material: LengthMaterial | SheetMaterial,
    layouts: Layouts,
    proof: LengthPlan | SheetPlan | None,
) -> LengthPlan | SheetPlan:
    """Return a plan of these layouts for a material, with the proof of another plan for it."""
    seconds = 0.0 if proof is None else proof.seconds
    method = _BY_HAND if proof is None else f"{_BY_HAND}, bound by {proof.method}"
    nothing = Money.of(purchase=0, offcuts_used=0, credit=0)
    unused = Usage(part=0, offcut=0, scrap=0, kerf=0, trim=0)
    if isinstance(material, LengthMaterial):
        reasons = proof.certificate if isinstance(proof, LengthPlan) else ()
        lengths = LengthPlan(
            material=material.material,
            layouts=_counted([item for item in layouts if isinstance(item, LengthLayout)]),
            money=nothing,
            usage=unused,
            bound=Pence(
                length_bound(material, request.keep_for(material), request.choices, reasons)
            ),
            proven=False,
            certificate=reasons,
            seconds=seconds,
            method=method,
        )
        _, _, money, usage = check_length_layouts(lengths, material, request.keep_for(material))
        return replace(lengths, money=money, usage=usage, proven=lengths.bound == money.net)
    weights = proof.certificate if isinstance(proof, SheetPlan) else ()
    flat = [described(item, material) for item in layouts if isinstance(item, SheetLayout)]
    sheets = SheetPlan(
        material=material.material,
        layouts=in_order(_counted(flat), material),
        money=nothing,
        usage=unused,
        bound=Pence(sheet_bound(material, request.keep_for(material), request.choices, weights)),
        proven=False,
        certificate=weights,
        seconds=seconds,
        method=method,
    )
    _, _, money, usage = check_sheet_layouts(sheets, material, request.keep_for(material))
    return replace(sheets, money=money, usage=usage, proven=sheets.bound == money.net)


def _counted(layouts: list[LayoutT]) -> tuple[LayoutT, ...]:
    """Put equal layouts together, each as often as it stands there."""
    counts: Counter[LayoutT] = Counter()
    for layout in layouts:
        counts[replace(layout, count=1)] += layout.count
    return tuple(replace(layout, count=count) for layout, count in counts.items())
