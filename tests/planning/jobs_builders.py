"""Small price books and jobs in a line: sizes in tenths of a millimetre, money in pence."""

from __future__ import annotations

from collections.abc import Iterable

from optimiser.domain.frame import Quantity
from optimiser.domain.job import Job
from optimiser.domain.part_list import PartList
from optimiser.domain.parts import BoardPart, LengthPart
from optimiser.domain.price_book import LengthItem, Pack, PackItem, PriceBook, SheetItem
from optimiser.domain.request import Cutting
from optimiser.domain.stock import NO_EDGE_TRIM, StockLength, StockSheet
from optimiser.units import Pence, Tenths


def a_pack(id_: str, size: int, price: int) -> Pack:
    return Pack(id=id_, description=f"pack {id_}", size=size, price=Pence(price))


def a_pack_item(item: str, unit: str, *packs: Pack) -> PackItem:
    return PackItem(item=item, unit=unit, packs=packs)


def a_length_item(*stock: StockLength, material: str = "timber") -> LengthItem:
    return LengthItem(
        material=material,
        description=f"{material} by the length",
        thickness=Tenths(380),
        width=Tenths(630),
        grade="C16",
        mass=1100,
        kerf=Tenths(0),
        end_trim=Tenths(0),
        stock=stock,
    )


def a_sheet_item(*stock: StockSheet, material: str = "board") -> SheetItem:
    return SheetItem(
        material=material,
        description=f"{material} by the sheet",
        thickness=Tenths(120),
        mass=8600,
        cutting=Cutting.SAW,
        kerf=Tenths(0),
        edge_trim=NO_EDGE_TRIM,
        stock=stock,
    )


def a_book(
    *,
    lengths: Iterable[LengthItem] = (),
    sheets: Iterable[SheetItem] = (),
    packs: Iterable[PackItem] = (),
    vat: int = 2000,
) -> PriceBook:
    return PriceBook(
        merchant="Demo Merchant",
        currency="GBP",
        vat=vat,
        lengths=tuple(lengths),
        sheets=tuple(sheets),
        packs=tuple(packs),
    )


def a_quantity(item: str, amount: int, unit: str) -> Quantity:
    return Quantity(item=item, amount=amount, unit=unit, working="by hand", rule="by hand")


def a_job(
    name: str,
    *,
    lengths: Iterable[LengthPart] = (),
    boards: Iterable[BoardPart] = (),
    quantities: Iterable[Quantity] = (),
    needed: str = "",
    timber: str = "timber",
    board: str = "board",
) -> Job:
    return Job(
        name=name,
        client="",
        needed=needed,
        parts=PartList(
            lengths=tuple((timber, part) for part in lengths),
            boards=tuple((board, part) for part in boards),
        ),
        quantities=tuple(quantities),
    )
