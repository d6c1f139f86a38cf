"""What to buy from one merchant for a batch, and what it costs."""

from __future__ import annotations

from dataclasses import dataclass

from optimiser.units import Pence


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderLine:
    """One item: quantity in whole lengths, sheets or packs; prices without VAT.

    `charge`: no goods, but what the merchant takes for bringing them or for a small order.
    `material`: what stock of lengths or sheets is made of; "" for packs and charges.
    """

    item: str
    description: str
    quantity: int
    price: Pence
    jobs: tuple[str, ...]
    needed: str
    charge: bool = False
    material: str = ""

    @property
    def total(self) -> Pence:
        """Return quantity × price."""
        return Pence(self.quantity * self.price)


@dataclass(frozen=True, slots=True, kw_only=True)
class Order:
    """The lines with net sum, VAT and total. `vat_rate` in basis points; VAT is rounded half up."""

    merchant: str
    currency: str
    lines: tuple[OrderLine, ...]
    net: Pence
    vat_rate: int
    vat: Pence
    total: Pence
