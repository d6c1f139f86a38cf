"""What can be bought (stock) and what lies on the rack (offcuts), in tenths of a millimetre."""

from __future__ import annotations

from dataclasses import dataclass

from optimiser.units import Pence, Tenths

NO_TRIM = Tenths(0)


@dataclass(frozen=True, slots=True, kw_only=True)
class EdgeTrim:
    """What comes off each edge of a sheet before it is cut, the trimming cut itself included."""

    left: Tenths = NO_TRIM
    right: Tenths = NO_TRIM
    bottom: Tenths = NO_TRIM
    top: Tenths = NO_TRIM

    @classmethod
    def all_round(cls, trim: int) -> EdgeTrim:
        """Return the same trim off each edge."""
        return cls(left=Tenths(trim), right=Tenths(trim), bottom=Tenths(trim), top=Tenths(trim))

    def inside(self, width: int, height: int) -> tuple[int, int]:
        """Return width and height of what is left of a sheet, 0 or less where nothing is."""
        return width - self.across, height - self.along

    @property
    def across(self) -> int:
        """Return what both trims take off the width."""
        return self.left + self.right

    @property
    def along(self) -> int:
        """Return what both trims take off the height."""
        return self.bottom + self.top


NO_EDGE_TRIM = EdgeTrim()


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
    """One board offcut on the rack. Nothing is trimmed off it unless asked, as for lengths."""

    id: str
    width: Tenths
    height: Tenths
    edge_trim: EdgeTrim = NO_EDGE_TRIM
