"""Stock as a document: what request and price book both say of a length or a sheet that is sold."""

from __future__ import annotations

from typing import Annotated

from pydantic import BeforeValidator, Field, PlainSerializer, WithJsonSchema

from optimiser.domain.stock import EdgeTrim, StockLength, StockSheet
from optimiser.formats.fields import SIZE_SCHEMA, Document, Id, MoneyText, Size, size_of
from optimiser.units import Pence, Tenths, mm_number

_EDGES = ("left", "right", "bottom", "top")


def _edge_trim(value: object) -> EdgeTrim:
    if isinstance(value, EdgeTrim):
        return value
    if not isinstance(value, dict):
        return EdgeTrim.all_round(size_of(value))
    unknown = [str(key) for key in value if key not in _EDGES]
    if unknown:
        raise ValueError(f"a sheet has no edge {unknown[0]!r}; name left, right, bottom or top")
    return EdgeTrim(**{edge: Tenths(size_of(size)) for edge, size in value.items()})


def _trim_document(trim: EdgeTrim) -> int | float | dict[str, int | float]:
    sizes = {edge: mm_number(getattr(trim, edge)) for edge in _EDGES}
    return sizes["left"] if len(set(sizes.values())) == 1 else sizes


# One size for all four edges, or an object that names some of them; the others are not trimmed.
EdgeTrimField = Annotated[
    EdgeTrim,
    BeforeValidator(_edge_trim),
    PlainSerializer(_trim_document, return_type=int | float | dict[str, int | float]),
    WithJsonSchema(
        {
            "anyOf": [
                SIZE_SCHEMA,
                {
                    "type": "object",
                    "properties": dict.fromkeys(_EDGES, SIZE_SCHEMA),
                    "additionalProperties": False,
                },
            ]
        }
    ),
]


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
