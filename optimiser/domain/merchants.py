"""Buying for one batch where several merchants quote: who is ordered from, and what others cost."""

from __future__ import annotations

from dataclasses import dataclass

from optimiser.domain.order import Order
from optimiser.domain.plan import CuttingPlan
from optimiser.domain.price_book import PriceBook
from optimiser.domain.request import CuttingRequest
from optimiser.units import Pence


@dataclass(frozen=True, slots=True, kw_only=True)
class Quote:
    """What one merchant alone takes for everything, charges and VAT included.

    `total` None: it cannot be had from this merchant alone, and `trouble` says why.
    """

    merchant: str
    total: Pence | None
    trouble: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Buying:
    """One order, or two where that saves enough; each material comes whole from one merchant.

    `total` is all that is to be paid, `split` the least that two orders come to (None where two
    cannot be or are dearer). `proven`: no other way to deal the materials to merchants costs less
    as each material is planned here. `book` has each material as the merchant sells it whom it is
    ordered from.
    """

    request: CuttingRequest
    plan: CuttingPlan
    book: PriceBook
    orders: tuple[Order, ...]
    total: Pence
    split: Pence | None
    quotes: tuple[Quote, ...]
    proven: bool
