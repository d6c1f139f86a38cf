"""The order as UBL 2.1 Order XML, and the order read back from its plain values.

Source of the structure: OASIS Standard "Universal Business Language Version 2.1" (4 November 2013),
UBL-Order-2.1.xsd. Unit C62 ("one") is of UN/ECE Recommendation 20, tax scheme VAT of UN/ECE 5153.
"""

from __future__ import annotations

from typing import Any
from xml.etree import ElementTree as Xml

from optimiser.domain.order import Order, OrderLine
from optimiser.errors import InvalidInput, Problem
from optimiser.units import Pence, pence, pounds

_NAMESPACE = "urn:oasis:names:specification:ubl:schema:xsd:"
_ORDER = f"{_NAMESPACE}Order-2"
_PART = f"{_NAMESPACE}CommonAggregateComponents-2"
_VALUE = f"{_NAMESPACE}CommonBasicComponents-2"


def order_from_document(document: dict[str, Any]) -> Order:
    """Return the order that its plain values, as `order_document` wrote them, stand for."""
    return Order(
        merchant=document["merchant"],
        currency=document["currency"],
        lines=tuple(
            OrderLine(
                item=line["item"],
                description=line["description"],
                quantity=line["quantity"],
                price=pence(line["unit_price"]),
                jobs=tuple(line["jobs"]),
                needed=line["needed_by"],
                charge=line.get("charge", False),
                material=line.get("material", ""),
            )
            for line in document["lines"]
        ),
        net=pence(document["net"]),
        vat_rate=round(document["vat_percent"] * 100),
        vat=pence(document["vat"]),
        total=pence(document["total"]),
    )


def order_ubl(order: Order, *, number: str, issued: str, buyer: str) -> str:
    """Write an order as UBL 2.1 XML. `number` is the buyer's own, `issued` an ISO date.

    What the merchant takes for bringing goods stands as a charge, not as goods. Raises InvalidInput
    for an order without goods, or a buyer or number without a letter.
    """
    problems = [
        Problem(field, "is empty", remedy)
        for field, given, remedy in (
            ("buyer", buyer.strip(), "Say who orders"),
            ("order number", number.strip(), "Give the order a number of your own"),
            ("order", any(not line.charge for line in order.lines), "There is nothing to order"),
        )
        if not given
    ]
    if problems:
        raise InvalidInput(tuple(problems))
    for prefix, namespace in (("", _ORDER), ("cac", _PART), ("cbc", _VALUE)):
        Xml.register_namespace(prefix, namespace)
    root = Xml.Element(f"{{{_ORDER}}}Order")
    _value(root, "UBLVersionID", "2.1")
    _value(root, "ID", number)
    _value(root, "IssueDate", issued)
    _value(root, "DocumentCurrencyCode", order.currency)
    for role, name in (
        ("BuyerCustomerParty", buyer),
        ("SellerSupplierParty", order.merchant),
    ):
        _value(_part(root, role, "Party", "PartyName"), "Name", name)
    goods = [line for line in order.lines if not line.charge]
    needed = min((line.needed for line in goods if line.needed), default="")
    if needed:
        _value(_part(root, "Delivery", "RequestedDeliveryPeriod"), "EndDate", needed)
    charges = [line for line in order.lines if line.charge]
    for line in charges:
        charge = _part(root, "AllowanceCharge")
        _value(charge, "ChargeIndicator", "true")
        _value(charge, "AllowanceChargeReason", line.description)
        _money(charge, "Amount", line.total, order)
    _tax(root, order)
    total = _part(root, "AnticipatedMonetaryTotal")
    _money(total, "LineExtensionAmount", sum(line.total for line in goods), order)
    _money(total, "TaxExclusiveAmount", order.net, order)
    _money(total, "TaxInclusiveAmount", order.total, order)
    if charges:
        _money(total, "ChargeTotalAmount", sum(line.total for line in charges), order)
    _money(total, "PayableAmount", order.total, order)
    for place, line in enumerate(goods, start=1):
        _line(_part(root, "OrderLine", "LineItem"), line, place, order)
    Xml.indent(root, space=" ")
    return (
        '<?xml version="1.0" encoding="UTF-8"?>\n' + Xml.tostring(root, encoding="unicode") + "\n"
    )


def _tax(root: Xml.Element, order: Order) -> None:
    tax = _part(root, "TaxTotal")
    _money(tax, "TaxAmount", order.vat, order)
    sub = _part(tax, "TaxSubtotal")
    _money(sub, "TaxableAmount", order.net, order)
    _money(sub, "TaxAmount", order.vat, order)
    category = _part(sub, "TaxCategory")
    _value(category, "Percent", pounds(order.vat_rate))
    _value(_part(category, "TaxScheme"), "ID", "VAT")


def _line(item: Xml.Element, line: OrderLine, place: int, order: Order) -> None:
    _value(item, "ID", str(place))
    if line.jobs:
        _value(item, "Note", "For " + ", ".join(line.jobs))
    _value(item, "Quantity", str(line.quantity), unitCode="C62")
    _money(item, "LineExtensionAmount", line.total, order)
    if line.needed:
        _value(_part(item, "Delivery", "RequestedDeliveryPeriod"), "EndDate", line.needed)
    _money(_part(item, "Price"), "PriceAmount", line.price, order)
    thing = _part(item, "Item")
    _value(thing, "Name", line.description)
    _value(_part(thing, "SellersItemIdentification"), "ID", line.item)


def _part(above: Xml.Element, *names: str) -> Xml.Element:
    for name in names:
        above = Xml.SubElement(above, f"{{{_PART}}}{name}")
    return above


def _value(above: Xml.Element, name: str, text: str, **attributes: str) -> None:
    Xml.SubElement(above, f"{{{_VALUE}}}{name}", attributes).text = text


def _money(above: Xml.Element, name: str, sum_: int, order: Order) -> None:
    _value(above, name, pounds(Pence(sum_)), currencyID=order.currency)
