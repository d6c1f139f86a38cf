"""A merchant's price book as a document: TOML, or the same as plain values."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from decimal import Decimal, InvalidOperation
from typing import Annotated, Literal

from pydantic import BeforeValidator, Field

from optimiser.domain.price_book import (
    NO_TERMS,
    LengthItem,
    OrderTerms,
    Pack,
    PackItem,
    PriceBook,
    PriceBreak,
    SheetItem,
)
from optimiser.domain.request import CUT_OUT_TRIM, Cutting, Direction
from optimiser.domain.stock import NO_EDGE_TRIM
from optimiser.errors import InvalidInput, Problem
from optimiser.formats.fields import (
    Document,
    Flag,
    Id,
    Label,
    MoneyText,
    Size,
    SizeOrZero,
    read_document,
    read_toml,
)
from optimiser.formats.stock import (
    EdgeTrimField,
    StockLengthDocument,
    StockSheetDocument,
    stock_lengths_of,
    stock_sheets_of,
)
from optimiser.formats.terms import LongItemModel
from optimiser.units import Pence, Tenths, mm, pounds

_MOST_ITEMS = 5_000


def _grams(value: object) -> int:
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise ValueError("a mass is a number of kg")
    grams = Decimal(str(value)) * 1000
    if not grams.is_finite() or not 0 < grams <= 1_000_000:
        raise ValueError("a mass is above 0 and up to 1000 kg")
    if grams != grams.to_integral_value():
        raise ValueError("a mass is no finer than a gram")
    return int(grams)


def _percent(value: object) -> int:
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise ValueError("a rate is a number of percent")
    try:
        points = Decimal(str(value)) * 100
    except InvalidOperation:
        raise ValueError("a rate is a number of percent") from None
    if not points.is_finite() or points != points.to_integral_value() or not 0 <= points <= 10_000:
        raise ValueError("a rate is from 0 to 100 percent with at most two decimals")
    return int(points)


# The classes of EN 13501-1 for anything but floors and pipes: from memory.
_FIRE_CLASS = re.compile(r"A1|(A2|B|C|D)-s[123],d[012]|E|E-d2|F|")


def _fire_class(value: object) -> str:
    if not isinstance(value, str) or _FIRE_CLASS.fullmatch(value) is None:
        raise ValueError('a class of EN 13501-1 reads "A1", "A2-s1,d0", "D-s2,d0" or the like')
    return value


FireClass = Annotated[
    str,
    BeforeValidator(_fire_class),
    Field(json_schema_extra={"pattern": f"^({_FIRE_CLASS.pattern})$"}),
]
Grams = Annotated[int, BeforeValidator(_grams), Field(json_schema_extra={"type": "number"})]
Percent = Annotated[int, BeforeValidator(_percent), Field(json_schema_extra={"type": "number"})]


class PriceBreakModel(Document):
    """Who buys `quantity` or more pays `price` for each of them."""

    quantity: int = Field(ge=2, le=1_000_000, strict=True)
    price: MoneyText


_Breaks = Annotated[tuple[PriceBreakModel, ...], Field(max_length=20)]


class SoldLengthModel(StockLengthDocument):
    """A length that a merchant sells, cheaper from some quantities on."""

    breaks: _Breaks = ()


class SoldSheetModel(StockSheetDocument):
    """A sheet that a merchant sells, cheaper from some quantities on."""

    breaks: _Breaks = ()


class LengthItemModel(Document):
    """A section: finished thickness × width as measured, never the nominal name.

    `kerf_mm` left out is 3, a saw's (common practice, no source).
    """

    material: Id
    description: Label
    thickness_mm: Size
    width_mm: Size
    grade: Label = ""
    mass_kg_per_m: Grams
    kerf_mm: SizeOrZero = 30
    end_trim_mm: SizeOrZero = 0
    stock: tuple[SoldLengthModel, ...] = Field(min_length=1, max_length=_MOST_ITEMS)


class SheetItemModel(Document):
    """A board; `kerf_mm` left out is 3 for a saw and 0 for a knife (common practice, no source).

    `reaction_to_fire` is the class by EN 13501-1 on its declaration of performance.
    """

    material: Id
    description: Label
    thickness_mm: Size
    mass_kg_per_m2: Grams
    cutting: Cutting
    kerf_mm: SizeOrZero | None = None
    edge_trim_mm: EdgeTrimField = NO_EDGE_TRIM
    max_stages: int | None = Field(default=None, ge=1, le=100, strict=True)
    first_cut: Direction | None = None
    use_cut_outs: Flag = False
    cut_out_trim_mm: SizeOrZero = CUT_OUT_TRIM
    reaction_to_fire: FireClass = ""
    stock: tuple[SoldSheetModel, ...] = Field(min_length=1, max_length=_MOST_ITEMS)


class PackModel(Document):
    """One pack: `size` in the unit of its item."""

    id: Id
    description: Label
    size: int = Field(ge=1, le=1_000_000_000, strict=True)
    price: MoneyText
    breaks: _Breaks = ()


class PackItemModel(Document):
    """Screws, tape, adhesive, plaster and the like."""

    item: Id
    unit: Literal["each", "mm", "ml", "g"]
    packs: tuple[PackModel, ...] = Field(min_length=1, max_length=100)


class OrderTermsModel(Document):
    """What the merchant asks of one order; all sums without VAT, thresholds over goods alone.

    Below `minimum` it takes no order, or takes it for `small_order` more where that is given.
    """

    minimum: MoneyText | None = None
    small_order: MoneyText | None = None
    delivery: MoneyText | None = None
    delivery_free_over: MoneyText | None = None
    by_length: tuple[LongItemModel, ...] = Field(default=(), max_length=20)


class PriceBookModel(Document):
    """All that one merchant sells; prices without VAT."""

    merchant: Label
    currency: str = Field(default="GBP", pattern=r"^[A-Z]{3}$")
    vat_percent: Percent
    lengths: tuple[LengthItemModel, ...] = Field(default=(), max_length=_MOST_ITEMS)
    sheets: tuple[SheetItemModel, ...] = Field(default=(), max_length=_MOST_ITEMS)
    packs: tuple[PackItemModel, ...] = Field(default=(), max_length=_MOST_ITEMS)
    order: OrderTermsModel | None = None


def read_price_book(text: str, *, name: str) -> PriceBook:
    """Read a price book from TOML text. Raises InvalidInput with every fault of it."""
    content = read_toml(text, name=name, smaller="Split the price book")
    return price_book_from_document(content, name=name)


def price_book_from_document(content: object, *, name: str) -> PriceBook:
    """Read a price book from plain values. Raises InvalidInput with every fault of it."""
    model = read_document(content, PriceBookModel, name=name)
    problems = tuple(_problems(model, name))
    if problems:
        raise InvalidInput(problems)
    return _price_book(model)


def _problems(model: PriceBookModel, name: str) -> Iterator[Problem]:
    materials = [item.material for item in model.lengths]
    materials += [item.material for item in model.sheets]
    ids = [stock.id for item in model.lengths for stock in item.stock]
    ids += [stock.id for item in model.sheets for stock in item.stock]
    ids += [pack.id for item in model.packs for pack in item.packs]
    for what, names in (
        ("material", materials),
        ("id", ids),
        ("pack item", [item.item for item in model.packs]),
    ):
        for twice in sorted(found for found, count in Counter(names).items() if count > 1):
            yield Problem(
                f"{name}: {what} {twice!r}", "stands more than once", "Give each its own name"
            )
    yield from _problems_of_breaks(model, name)
    terms = model.order
    if terms is not None and terms.small_order is not None and terms.minimum is None:
        yield Problem(
            f"{name}: order small_order", "has no minimum beside it", "Give minimum as well"
        )
    for item in model.sheets:
        if item.cutting is Cutting.KNIFE and item.kerf_mm:
            yield Problem(
                f"{name}: sheets {item.material!r} kerf_mm",
                f"{mm(item.kerf_mm)} with a knife, which takes nothing away",
                'Give 0, or cutting = "saw"',
            )


def _sold(
    model: PriceBookModel,
) -> Iterator[SoldLengthModel | SoldSheetModel | PackModel]:
    for length in model.lengths:
        yield from length.stock
    for sheet in model.sheets:
        yield from sheet.stock
    for item in model.packs:
        yield from item.packs


def _problems_of_breaks(model: PriceBookModel, name: str) -> Iterator[Problem]:
    for sold in _sold(model):
        before = (1, sold.price)
        for one in sold.breaks:
            if one.quantity <= before[0] or one.price >= before[1]:
                yield Problem(
                    f"{name}: id {sold.id!r} breaks",
                    f"from {one.quantity} on at {pounds(one.price)} comes after "
                    f"{pounds(before[1])} from {before[0]} on",
                    "Let quantities rise and prices fall",
                )
            before = (one.quantity, one.price)


def _terms(model: OrderTermsModel | None) -> OrderTerms:
    if model is None:
        return NO_TERMS
    return OrderTerms(
        minimum=Pence(model.minimum or 0),
        small_order=None if model.small_order is None else Pence(model.small_order),
        charge=Pence(model.delivery or 0),
        free_over=None if model.delivery_free_over is None else Pence(model.delivery_free_over),
        by_length=tuple((Tenths(item.over_mm), Pence(item.charge)) for item in model.by_length),
    )


def _price_book(model: PriceBookModel) -> PriceBook:
    return PriceBook(
        merchant=model.merchant,
        currency=model.currency,
        vat=model.vat_percent,
        lengths=tuple(map(_length_item, model.lengths)),
        sheets=tuple(map(_sheet_item, model.sheets)),
        packs=tuple(
            PackItem(
                item=item.item,
                unit=item.unit,
                packs=tuple(
                    Pack(
                        id=pack.id,
                        description=pack.description,
                        size=pack.size,
                        price=Pence(pack.price),
                    )
                    for pack in item.packs
                ),
            )
            for item in model.packs
        ),
        breaks=tuple(
            PriceBreak(id=sold.id, quantity=one.quantity, price=Pence(one.price))
            for sold in _sold(model)
            for one in sold.breaks
        ),
        terms=_terms(model.order),
    )


def _length_item(item: LengthItemModel) -> LengthItem:
    return LengthItem(
        material=item.material,
        description=item.description,
        thickness=Tenths(item.thickness_mm),
        width=Tenths(item.width_mm),
        grade=item.grade,
        mass=item.mass_kg_per_m,
        kerf=Tenths(item.kerf_mm),
        end_trim=Tenths(item.end_trim_mm),
        stock=stock_lengths_of(item.stock),
    )


def _sheet_item(item: SheetItemModel) -> SheetItem:
    usual_kerf = 30 if item.cutting is Cutting.SAW else 0
    return SheetItem(
        material=item.material,
        description=item.description,
        thickness=Tenths(item.thickness_mm),
        mass=item.mass_kg_per_m2,
        cutting=item.cutting,
        kerf=Tenths(usual_kerf if item.kerf_mm is None else item.kerf_mm),
        edge_trim=item.edge_trim_mm,
        max_stages=item.max_stages,
        first_cut=item.first_cut,
        use_cut_outs=item.use_cut_outs,
        cut_out_trim=Tenths(item.cut_out_trim_mm),
        reaction_to_fire=item.reaction_to_fire,
        stock=stock_sheets_of(item.stock),
    )
