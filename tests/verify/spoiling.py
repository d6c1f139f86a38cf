"""A good plan with everything in it, and the tools to spoil one thing in a copy of it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from functools import cache
from typing import Any

from optimiser.domain.plan import (
    CuttingPlan,
    LengthLayout,
    LengthPlan,
    LengthWeights,
    PartWeights,
    PlacedBoard,
    SheetCut,
    SheetLayout,
    SheetPlan,
    SheetWeights,
)
from optimiser.domain.request import Choice, CuttingRequest
from optimiser.planning.plan import plan_cutting
from optimiser.units import Pence, Tenths
from tests.cutting_builders import (
    a_board_part,
    a_cut_out,
    a_keep,
    a_length_material,
    a_length_offcut,
    a_length_part,
    a_request,
    a_sheet_material,
    a_sheet_offcut,
    a_stock_length,
    a_stock_sheet,
)

Both = tuple[CuttingRequest, CuttingPlan]
Mutant = Callable[[CuttingRequest, CuttingPlan], Both]


@cache
def good() -> Both:
    """A request with every rule in it, and its plan."""
    request = a_request(
        a_length_material(
            a_length_part("half", 490, 4, job="a"),
            a_length_part("long", 600, job="a"),
            a_length_part("short", 440, job="b"),
            a_length_part("option 0", 200, job="b"),
            a_length_part("option 1", 250, job="b"),
            stock=[a_stock_length("1000", 1000, 100, available=3)],
            offcuts=[a_length_offcut("rack 1", 450)],
            kerf=3,
            trim=5,
        ),
        a_sheet_material(
            a_board_part("large", 560, 960, 2, turn=False, cut_outs=(a_cut_out(9, 9, 50, 60),)),
            a_board_part("lying", 900, 400, job="b"),
            a_board_part("small", 250, 240, turn=False, job="b"),
            stock=[a_stock_sheet("full", 600, 1000, 500, available=3)],
            offcuts=[a_sheet_offcut("rack 2", 260, 240)],
            kerf=4,
            trim=10,
        ),
        keep=a_keep(length=150, width=150, height=300, credit=Fraction(1, 2)),
        choices=(Choice(id="which", options=(("option 0",), ("option 1",))),),
        seconds=0.4,
    )
    return request, plan_cutting(request)


def lengths_of(plan: CuttingPlan) -> LengthPlan:
    return plan.lengths[0]


def sheets_of(plan: CuttingPlan) -> SheetPlan:
    return plan.sheets[0]


def length_with(plan: CuttingPlan, part: str) -> int:
    """The place of the layout that cuts a part."""
    return next(
        place
        for place, layout in enumerate(lengths_of(plan).layouts)
        if any(placed.part == part for placed in layout.parts)
    )


def sheet_with(plan: CuttingPlan, part: str) -> int:
    return next(
        place
        for place, layout in enumerate(sheets_of(plan).layouts)
        if any(placed.part == part for placed in layout.parts)
    )


def with_lengths(plan: CuttingPlan, **changes: Any) -> CuttingPlan:
    return replace(plan, lengths=(replace(lengths_of(plan), **changes),))


def with_sheets(plan: CuttingPlan, **changes: Any) -> CuttingPlan:
    return replace(plan, sheets=(replace(sheets_of(plan), **changes),))


def relaid(
    part: str, change: Callable[[LengthLayout], LengthLayout | tuple[LengthLayout, ...]]
) -> Mutant:
    """Change the length layout that cuts a part."""

    def mutate(request: CuttingRequest, plan: CuttingPlan) -> Both:
        layouts = lengths_of(plan).layouts
        place = length_with(plan, part)
        new = change(layouts[place])
        several = new if isinstance(new, tuple) else (new,)
        changed = (*layouts[:place], *several, *layouts[place + 1 :])
        return request, with_lengths(plan, layouts=changed)

    return mutate


def resawn(
    part: str, change: Callable[[SheetLayout], SheetLayout | tuple[SheetLayout, ...]]
) -> Mutant:
    """Change the sheet layout that cuts a part."""

    def mutate(request: CuttingRequest, plan: CuttingPlan) -> Both:
        layouts = sheets_of(plan).layouts
        place = sheet_with(plan, part)
        new = change(layouts[place])
        several = new if isinstance(new, tuple) else (new,)
        changed = (*layouts[:place], *several, *layouts[place + 1 :])
        return request, with_sheets(plan, layouts=changed)

    return mutate


def first_length(**changes: Any) -> Callable[[LengthLayout], LengthLayout]:
    """Change the first part of a layout."""
    return lambda item: replace(item, parts=(replace(item.parts[0], **changes), *item.parts[1:]))


def last_length(change: Callable[[LengthLayout], dict[str, Any]]) -> Callable[[LengthLayout], Any]:
    """Change the last part of a layout."""
    return lambda item: replace(
        item, parts=(*item.parts[:-1], replace(item.parts[-1], **change(item)))
    )


def first_board(**changes: Any) -> Callable[[SheetLayout], SheetLayout]:
    return lambda item: replace(item, parts=(replace(item.parts[0], **changes), *item.parts[1:]))


def moved_board(**by: int) -> Callable[[SheetLayout], SheetLayout]:
    """Add to fields of the first part of a sheet layout."""

    def change(item: SheetLayout) -> SheetLayout:
        placed = item.parts[0]
        sums: dict[str, Any] = {
            name: Tenths(getattr(placed, name) + more) for name, more in by.items()
        }
        moved: PlacedBoard = replace(placed, **sums)
        return replace(item, parts=(moved, *item.parts[1:]))

    return change


def asked(**changes: Any) -> Mutant:
    """Change what was asked of the timber, so that the plan no longer answers it."""
    return lambda request, plan: (
        replace(request, lengths=(replace(request.lengths[0], **changes),)),
        plan,
    )


def asked_of_boards(**changes: Any) -> Mutant:
    return lambda request, plan: (
        replace(request, sheets=(replace(request.sheets[0], **changes),)),
        plan,
    )


def asked_of_part(id_: str, **changes: Any) -> Mutant:
    """Change what was asked of one board part."""

    def mutate(request: CuttingRequest, plan: CuttingPlan) -> Both:
        (board,) = request.sheets
        parts = tuple(replace(part, **changes) if part.id == id_ else part for part in board.parts)
        return replace(request, sheets=(replace(board, parts=parts),)), plan

    return mutate


def planned(**changes: Any) -> Mutant:
    return lambda request, plan: (request, replace(plan, **changes))


def money_off(where: str, field: str, by: int) -> Mutant:
    """Write one sum of money wrong by some pence."""

    def mutate(request: CuttingRequest, plan: CuttingPlan) -> Both:
        if where == "totals":
            wrong = {field: getattr(plan.money, field) + by}
            return request, replace(plan, money=replace(plan.money, **wrong))
        item = lengths_of(plan) if where == "lengths" else sheets_of(plan)
        wrong = {field: getattr(item.money, field) + by}
        changed = replace(item, money=replace(item.money, **wrong))
        return request, replace(plan, **_only(where, changed))

    return mutate


def usage_off(where: str, field: str, by: int) -> Mutant:
    """Write one kind of usage wrong by some tenths."""

    def mutate(request: CuttingRequest, plan: CuttingPlan) -> Both:
        item = lengths_of(plan) if where == "lengths" else sheets_of(plan)
        wrong = {field: getattr(item.usage, field) + by}
        changed = replace(item, usage=replace(item.usage, **wrong))
        return request, replace(plan, **_only(where, changed))

    return mutate


def bound_off(where: str, by: int) -> Mutant:
    """Claim another bound, with totals and `proven` to match."""

    def mutate(request: CuttingRequest, plan: CuttingPlan) -> Both:
        item = lengths_of(plan) if where == "lengths" else sheets_of(plan)
        bound = Pence(item.bound + by)
        changed = replace(item, bound=bound, proven=bound == item.money.net)
        total = Pence(plan.bound + by)
        return request, replace(
            plan,
            **_only(where, changed),
            bound=total,
            proven=total == plan.money.net,
        )

    return mutate


def weighed(change: Callable[[LengthWeights], LengthWeights]) -> Mutant:
    """Change every reason of the timber's certificate."""
    return lambda request, plan: (
        request,
        with_lengths(plan, certificate=tuple(map(change, lengths_of(plan).certificate))),
    )


def sheet_weighed(change: Callable[[SheetWeights], SheetWeights]) -> Mutant:
    """Change every table of the board's certificate."""
    return lambda request, plan: (
        request,
        with_sheets(
            plan,
            certificate=tuple(
                change(reason) if isinstance(reason, SheetWeights) else reason
                for reason in sheets_of(plan).certificate
            ),
        ),
    )


def parts_weighed(change: Callable[[PartWeights], PartWeights]) -> Mutant:
    """Change the weights of whole parts in the board's certificate."""
    return lambda request, plan: (
        request,
        with_sheets(
            plan,
            certificate=tuple(
                change(reason) if isinstance(reason, PartWeights) else reason
                for reason in sheets_of(plan).certificate
            ),
        ),
    )


def swapped_proven(where: str) -> Mutant:
    def mutate(request: CuttingRequest, plan: CuttingPlan) -> Both:
        if where == "totals":
            return request, replace(plan, proven=not plan.proven)
        item = lengths_of(plan) if where == "lengths" else sheets_of(plan)
        changed = replace(item, proven=not item.proven)
        return request, replace(plan, **_only(where, changed))

    return mutate


def without(name: str) -> Callable[[LengthLayout], LengthLayout]:
    """Take a part out of a layout and leave the rest as it was."""
    return lambda item: replace(
        item, parts=tuple(placed for placed in item.parts if placed.part != name)
    )


def stretched(item: LengthLayout) -> LengthLayout:
    """Write the last part longer than asked, with its cut where it now ends."""
    last = item.parts[-1]
    longer = replace(last, length=Tenths(last.length + 1))
    cuts = (*item.cuts[:-1], replace(item.cuts[-1], at=Tenths(item.cuts[-1].at + 1)))
    return replace(item, parts=(*item.parts[:-1], longer), cuts=cuts)


def no_kerf_between(item: LengthLayout) -> LengthLayout:
    """Push the second part against the first as if the blade took nothing."""
    first, second = item.parts
    return replace(item, parts=(first, replace(second, start=Tenths(first.start + first.length))))


def shifted(by: int) -> Callable[[LengthLayout], LengthLayout]:
    """Move parts, cuts and remainders together."""
    return lambda item: replace(
        item,
        parts=tuple(replace(each, start=Tenths(each.start + by)) for each in item.parts),
        cuts=tuple(replace(each, at=Tenths(each.at + by)) for each in item.cuts),
        offcuts=tuple(replace(each, start=Tenths(each.start + by)) for each in item.offcuts),
        scrap=tuple(replace(each, start=Tenths(each.start + by)) for each in item.scrap),
    )


def halves_three_times(item: LengthLayout) -> LengthLayout:
    """Cut a third half where only two fit."""
    last = item.parts[-1]
    third = replace(last, start=Tenths(last.start + last.length + 3))
    return replace(item, parts=(*item.parts, third))


def swapped_cuts(item: SheetLayout) -> SheetLayout:
    """Make the last cut first, keeping the numbers in order."""
    turned = (item.cuts[-1], *item.cuts[:-1])
    return replace(
        item, cuts=tuple(replace(cut, n=number) for number, cut in enumerate(turned, start=1))
    )


def last_sheet_cut(**changes: Any) -> Callable[[SheetLayout], SheetLayout]:
    return lambda item: replace(item, cuts=(*item.cuts[:-1], replace(item.cuts[-1], **changes)))


def one_cut_more(item: SheetLayout) -> SheetLayout:
    """Cut on through a part."""
    more = SheetCut(n=len(item.cuts) + 1, of=item.parts[0].piece, direction="rip", at=Tenths(5))
    return replace(item, cuts=(*item.cuts, more))


def _only(where: str, changed: LengthPlan | SheetPlan) -> dict[str, Any]:
    """Name the one material of a kind that takes the place of all."""
    return {where: (changed,)}
