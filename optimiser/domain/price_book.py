"""A merchant's price book: finished sizes, stock, prices, packs; all prices without VAT."""

from __future__ import annotations

from dataclasses import dataclass

from optimiser.domain.request import CUT_OUT_TRIM, Cutting, Direction
from optimiser.domain.stock import EdgeTrim, StockLength, StockSheet
from optimiser.units import Pence, Tenths

_NOTHING = Pence(0)


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
    `use_cut_outs` and `cut_out_trim`: may parts be cut from what is cut out of others (see there).
    `reaction_to_fire` is its class by EN 13501-1, such as "A1" or "A2-s1,d0"; "" where it is not
    known, which is not taken for a board that does not burn.
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
    use_cut_outs: bool = False
    cut_out_trim: Tenths = CUT_OUT_TRIM
    reaction_to_fire: str = ""

    @property
    def is_non_combustible(self) -> bool:
        """Whether its class says that it does not burn: A1 or A2 (EN 13501-1, from memory)."""
        return self.reaction_to_fire[:2] in ("A1", "A2")


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
class PriceBreak:
    """Who buys `quantity` or more of the stock or pack `id` pays `price` for each."""

    id: str
    quantity: int
    price: Pence


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderTerms:
    """What a merchant asks of one order; all sums without VAT, thresholds over goods alone.

    Below `minimum` it takes no order, or takes it for `small_order` more where that is given. An
    order is brought for `charge`, from goods of `free_over` on for nothing; a longest item above so
    long costs so much more (`by_length`, the dearest that applies).
    """

    minimum: Pence = _NOTHING
    small_order: Pence | None = None
    charge: Pence = _NOTHING
    free_over: Pence | None = None
    by_length: tuple[tuple[Tenths, Pence], ...] = ()

    def extra_for(self, longest: int) -> int:
        """Return what bringing something so long (tenths) costs more."""
        return max((more for over, more in self.by_length if longest > over), default=0)


NO_TERMS = OrderTerms()


@dataclass(frozen=True, slots=True, kw_only=True)
class PriceBook:
    """All that one merchant sells. `vat` in basis points: 2000 is 20 %."""

    merchant: str
    currency: str
    vat: int
    lengths: tuple[LengthItem, ...]
    sheets: tuple[SheetItem, ...]
    packs: tuple[PackItem, ...]
    breaks: tuple[PriceBreak, ...] = ()
    terms: OrderTerms = NO_TERMS
