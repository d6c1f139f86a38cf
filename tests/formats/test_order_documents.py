"""Orders as text and CSV: read back whole, and nothing in them that a spreadsheet would run."""

from __future__ import annotations

import csv
import io

import pytest

from optimiser.domain.order import Order, OrderLine
from optimiser.formats.order import order_csv, order_table
from optimiser.units import Pence


def an_order(*lines: OrderLine) -> Order:
    net = sum(line.total for line in lines)
    return Order(
        merchant="a merchant",
        currency="GBP",
        lines=lines,
        net=Pence(net),
        vat_rate=2_000,
        vat=Pence(net // 5),
        total=Pence(net + net // 5),
    )


def a_line(item: str, description: str) -> OrderLine:
    return OrderLine(
        item=item, description=description, quantity=3, price=Pence(250), jobs=("A",), needed=""
    )


def test_an_order_reads_back_from_csv_with_its_sums() -> None:
    order = an_order(a_line("s-1", 'Screws, "5.0"\nbox'), a_line("s-2", "plain"))

    rows = list(csv.reader(io.StringIO(order_csv(order), newline="")))

    assert rows[1][1:6] == ["s-1", 'Screws, "5.0"\nbox', "3", "2.50", "7.50"]
    assert [row[5] for row in rows[-3:]] == ["15.00", "3.00", "18.00"]


def test_an_order_in_csv_ends_its_lines_and_doubles_its_quotes_as_rfc_4180_says() -> None:
    text = order_csv(an_order(a_line("s-1", 'Screws, "5.0"')))

    # RFC 4180, section 2: CRLF after each record (1), a quote inside a field is doubled (7).
    assert text.endswith("\r\n")
    assert text.count("\n") == text.count("\r\n") == 5
    assert '"Screws, ""5.0"""' in text


@pytest.mark.parametrize("begin", ["=", "+", "-", "@", "\t", "\r"])
def test_a_text_that_a_spreadsheet_would_run_is_defused(begin: str) -> None:
    line = OrderLine(
        item=f"{begin}1+1",
        description=f"{begin}sum",
        quantity=1,
        price=Pence(100),
        jobs=(f"{begin}A",),
        needed="",
    )

    rows = list(csv.reader(io.StringIO(order_csv(an_order(line)), newline="")))

    assert rows[1][1:3] == [f"'{begin}1+1", f"'{begin}sum"]
    assert rows[1][6] == f"'{begin}A"


def test_the_printed_order_stands_in_columns() -> None:
    lines = order_table(an_order(a_line("a", "short"), a_line("b", "a longer one"))).splitlines()

    assert lines[2].index("2.50") == lines[3].index("2.50")
    assert lines[-1].strip().startswith("total, GBP")
    assert lines[-1].endswith("18.00")
