"""A merchant's price book: finished sizes, stock, prices, packs; all prices without VAT."""

from __future__ import annotations

from dataclasses import dataclass

from optimiser.domain.request import Cutting, Direction
from optimiser.domain.stock import EdgeTrim, StockLength, StockSheet
from optimiser.units import Pence, Tenths


@dataclass(frozen=True, slots=True, kw_only=True)
class LengthItem:
    """A section sold by the length: timber, or a bead profile.

    `thickness` × `width` is the finished size as measured, never the nominal name.
    `grade` is "" for anything but timber. `mass` in grams per metre.
    """

    material: str
    description: str
    thickness: Tenths
    width: Tenths
    grade: str
    mass: int
    kerf: Tenths
    end_trim: Tenths
    stock: tuple[StockLength, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetItem:
    """A board sold by the sheet. `mass` in grams per square metre.

    `max_stages` and `first_cut` are what the saw it is cut on asks for; None asks for nothing.
    """

    material: str
    description: str
    thickness: Tenths
    mass: int
    cutting: Cutting
    kerf: Tenths
    edge_trim: EdgeTrim
    stock: tuple[StockSheet, ...]
    max_stages: int | None = None
    first_cut: Direction | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Pack:
    """One pack of a thing bought by pack: `size` in the unit of the quantity it serves."""

    id: str
    description: str
    size: int
    price: Pence


@dataclass(frozen=True, slots=True, kw_only=True)
class PackItem:
    """Screws, tape, adhesive, plaster: bought in whole packs of one or more sizes."""

    item: str
    unit: str
    packs: tuple[Pack, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PriceBook:
    """All that one merchant sells. `vat` in basis points: 2000 is 20 %."""

    merchant: str
    currency: str
    vat: int
    lengths: tuple[LengthItem, ...]
    sheets: tuple[SheetItem, ...]
    packs: tuple[PackItem, ...]
