"""What can be bought (stock) and what lies on the rack (offcuts), in tenths of a millimetre."""

from __future__ import annotations

from dataclasses import dataclass

from optimiser.units import Pence, Tenths

NO_TRIM = Tenths(0)


@dataclass(frozen=True, slots=True, kw_only=True)
class StockLength:
    """A length that can be bought. `available` None means as many as wanted."""

    id: str
    length: Tenths
    price: Pence
    available: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class LengthOffcut:
    """One length on the rack. `end_trim` comes off each end: 0, as the rack holds clean pieces."""

    id: str
    length: Tenths
    end_trim: Tenths = NO_TRIM


@dataclass(frozen=True, slots=True, kw_only=True)
class StockSheet:
    """A sheet that can be bought. `available` None means as many as wanted."""

    id: str
    width: Tenths
    height: Tenths
    price: Pence
    available: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetOffcut:
    """One board offcut on the rack. `edge_trim` comes off each edge: 0, as for lengths."""

    id: str
    width: Tenths
    height: Tenths
    edge_trim: Tenths = NO_TRIM
