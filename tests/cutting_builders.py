"""Small cutting requests in a line: sizes in tenths of a millimetre, money in pence."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from optimiser.domain.parts import BoardPart, CutOut, LengthPart
from optimiser.domain.plan import CuttingPlan, LengthLayout, SheetLayout
from optimiser.domain.request import (
    Choice,
    Cutting,
    CuttingRequest,
    Keep,
    LengthMaterial,
    SheetMaterial,
)
from optimiser.domain.stock import EdgeTrim, LengthOffcut, SheetOffcut, StockLength, StockSheet
from optimiser.units import Pence, Tenths

# Longer and wider than anything in these tests: nothing is kept.
NOTHING_KEPT = Tenths(900_000)


def a_keep(
    length: int = NOTHING_KEPT,
    width: int = NOTHING_KEPT,
    height: int = NOTHING_KEPT,
    credit: Fraction = Fraction(0),
) -> Keep:
    return Keep(length=Tenths(length), width=Tenths(width), height=Tenths(height), credit=credit)


def a_stock_length(
    id_: str, length: int, price: int = 100, available: int | None = None
) -> StockLength:
    return StockLength(id=id_, length=Tenths(length), price=Pence(price), available=available)


def a_length_offcut(id_: str, length: int, trim: int = 0) -> LengthOffcut:
    return LengthOffcut(id=id_, length=Tenths(length), end_trim=Tenths(trim))


def a_length_part(id_: str, length: int, quantity: int = 1, job: str = "job") -> LengthPart:
    return LengthPart(id=id_, job=job, length=Tenths(length), quantity=quantity)


def a_length_material(
    *parts: LengthPart,
    stock: Iterable[StockLength] = (),
    offcuts: Iterable[LengthOffcut] = (),
    kerf: int = 0,
    trim: int = 0,
    material: str = "timber",
) -> LengthMaterial:
    return LengthMaterial(
        material=material,
        kerf=Tenths(kerf),
        end_trim=Tenths(trim),
        stock=tuple(stock),
        offcuts=tuple(offcuts),
        parts=parts,
    )


def a_stock_sheet(
    id_: str, width: int, height: int, price: int = 100, available: int | None = None
) -> StockSheet:
    return StockSheet(
        id=id_,
        width=Tenths(width),
        height=Tenths(height),
        price=Pence(price),
        available=available,
    )


def a_sheet_offcut(id_: str, width: int, height: int, trim: int = 0) -> SheetOffcut:
    return SheetOffcut(
        id=id_, width=Tenths(width), height=Tenths(height), edge_trim=EdgeTrim.all_round(trim)
    )


def a_cut_out(x: int, y: int, width: int, height: int) -> CutOut:
    return CutOut(x=Tenths(x), y=Tenths(y), width=Tenths(width), height=Tenths(height))


def a_board_part(
    id_: str,
    width: int,
    height: int,
    quantity: int = 1,
    *,
    turn: bool = True,
    cut_outs: tuple[CutOut, ...] = (),
    job: str = "job",
) -> BoardPart:
    return BoardPart(
        id=id_,
        job=job,
        width=Tenths(width),
        height=Tenths(height),
        quantity=quantity,
        turn=turn,
        cut_outs=cut_outs,
    )


def a_sheet_material(
    *parts: BoardPart,
    stock: Iterable[StockSheet] = (),
    offcuts: Iterable[SheetOffcut] = (),
    kerf: int = 0,
    trim: int = 0,
    max_stages: int | None = None,
    cutting: Cutting = Cutting.SAW,
    material: str = "board",
) -> SheetMaterial:
    return SheetMaterial(
        material=material,
        kerf=Tenths(kerf),
        edge_trim=EdgeTrim.all_round(trim),
        max_stages=max_stages,
        cutting=cutting,
        stock=tuple(stock),
        offcuts=tuple(offcuts),
        parts=parts,
    )


def a_request(
    *materials: LengthMaterial | SheetMaterial,
    keep: Keep | None = None,
    choices: tuple[Choice, ...] = (),
    seconds: float = 1.0,
    seed: int = 1,
) -> CuttingRequest:
    return CuttingRequest(
        seed=seed,
        seconds=seconds,
        keep=keep or a_keep(),
        lengths=tuple(item for item in materials if isinstance(item, LengthMaterial)),
        sheets=tuple(item for item in materials if isinstance(item, SheetMaterial)),
        choices=choices,
    )


def layouts_of(plan: CuttingPlan) -> list[LengthLayout | SheetLayout]:
    return [layout for material in plan.materials for layout in material.layouts]


def stock_used(plan: CuttingPlan) -> dict[str, int]:
    """How many of each stock length, stock sheet and rack offcut the plan takes, by id."""
    used: dict[str, int] = {}
    for layout in layouts_of(plan):
        used[layout.stock] = used.get(layout.stock, 0) + layout.count
    return used


def size_of_stock_used(request: CuttingRequest, plan: CuttingPlan) -> list[int]:
    """Per material, the length or area of all stock and rack offcuts used, as bought."""
    sizes: list[int] = []
    for lengths, length_plan in zip(request.lengths, plan.lengths, strict=True):
        long = {(item.id, False): int(item.length) for item in lengths.stock}
        long |= {(item.id, True): int(item.length) for item in lengths.offcuts}
        sizes.append(
            sum(long[item.stock, item.offcut] * item.count for item in length_plan.layouts)
        )
    for sheets, sheet_plan in zip(request.sheets, plan.sheets, strict=True):
        large = {(item.id, False): item.width * item.height for item in sheets.stock}
        large |= {(item.id, True): item.width * item.height for item in sheets.offcuts}
        sizes.append(
            sum(large[item.stock, item.offcut] * item.count for item in sheet_plan.layouts)
        )
    return sizes
