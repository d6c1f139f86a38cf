"""Stock as a document: what request and price book both say of a length or a sheet that is sold."""

from __future__ import annotations

from pydantic import Field

from optimiser.domain.stock import StockLength, StockSheet
from optimiser.formats.fields import Document, Id, MoneyText, Size
from optimiser.units import Pence, Tenths


class StockLengthDocument(Document):
    """A length that can be bought; `available` null or left out means as many as wanted."""

    id: Id
    length_mm: Size
    price: MoneyText
    available: int | None = Field(default=None, ge=0, le=1_000_000, strict=True)


class StockSheetDocument(Document):
    """A sheet that can be bought; `available` null or left out means as many as wanted."""

    id: Id
    width_mm: Size
    height_mm: Size
    price: MoneyText
    available: int | None = Field(default=None, ge=0, le=1_000_000, strict=True)


def stock_lengths_of(documents: tuple[StockLengthDocument, ...]) -> tuple[StockLength, ...]:
    """Turn stock documents into the values they stand for."""
    return tuple(
        StockLength(
            id=stock.id,
            length=Tenths(stock.length_mm),
            price=Pence(stock.price),
            available=stock.available,
        )
        for stock in documents
    )


def stock_sheets_of(documents: tuple[StockSheetDocument, ...]) -> tuple[StockSheet, ...]:
    """Turn stock documents into the values they stand for."""
    return tuple(
        StockSheet(
            id=stock.id,
            width=Tenths(stock.width_mm),
            height=Tenths(stock.height_mm),
            price=Pence(stock.price),
            available=stock.available,
        )
        for stock in documents
    )
