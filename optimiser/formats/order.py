"""The order as a merchant takes it: CSV (RFC 4180), a printed table, and plain values for JSON."""

from __future__ import annotations

import csv
import io
from typing import Any

from optimiser.domain.order import Order
from optimiser.units import pounds

# A spreadsheet takes a cell that begins with one of these for a formula; the quote stops it.
_FORMULA = ("=", "+", "-", "@", "\t", "\r")


def order_csv(order: Order) -> str:
    """Write the lines with their totals, then net sum, VAT and total."""
    text = io.StringIO(newline="")
    writer = csv.writer(text)
    writer.writerow(
        ["line", "item", "description", "quantity", "unit_price", "line_total", "jobs", "needed_by"]
    )
    for number, line in enumerate(order.lines, start=1):
        writer.writerow(
            [
                number,
                _cell(line.item),
                _cell(line.description),
                line.quantity,
                pounds(line.price),
                pounds(line.total),
                _cell(" ".join(line.jobs)),
                line.needed,
            ]
        )
    for name, sum_ in _sums(order):
        writer.writerow(["", "", name, "", "", pounds(sum_), "", ""])
    return text.getvalue()


def _cell(text: str) -> str:
    return f"'{text}" if text.startswith(_FORMULA) else text


def _sums(order: Order) -> list[tuple[str, int]]:
    percent = f"{order.vat_rate / 100:g}"
    return [
        (f"net, {order.currency}", order.net),
        (f"VAT {percent} %", order.vat),
        (f"total, {order.currency}", order.total),
    ]


def order_table(order: Order) -> str:
    """Write the order as a table of fixed width, to be read in a terminal or printed."""
    rows = [
        (
            str(line.quantity),
            line.description,
            pounds(line.price),
            pounds(line.total),
            " ".join(line.jobs),
        )
        for line in order.lines
    ]
    heads = ("qty", "item", "each", "total", "for jobs")
    widths = [max(len(row[column]) for row in (heads, *rows)) for column in range(5)]
    totals = [("", name, "", pounds(sum_), "") for name, sum_ in _sums(order)]
    widths[1] = max(widths[1], *(len(row[1]) for row in totals))
    widths[3] = max(widths[3], *(len(row[3]) for row in totals))
    rule = "-" * (sum(widths) + 2 * 4)
    lines = [_row(heads, widths), rule, *(_row(row, widths) for row in rows), rule]
    return "\n".join([*lines, *(_row(row, widths) for row in totals)])


def _row(cells: tuple[str, ...], widths: list[int]) -> str:
    numbers = (0, 2, 3)
    return "  ".join(
        cell.rjust(width) if column in numbers else cell.ljust(width)
        for column, (cell, width) in enumerate(zip(cells, widths, strict=True))
    ).rstrip()


def order_document(order: Order) -> dict[str, Any]:
    """Write the order as plain values, ready for JSON."""
    return {
        "merchant": order.merchant,
        "currency": order.currency,
        "lines": [
            {
                "item": line.item,
                "description": line.description,
                "quantity": line.quantity,
                "unit_price": pounds(line.price),
                "line_total": pounds(line.total),
                "jobs": list(line.jobs),
                "needed_by": line.needed,
                "charge": line.charge,
                "material": line.material,
            }
            for line in order.lines
        ],
        "net": pounds(order.net),
        "vat_percent": order.vat_rate / 100,
        "vat": pounds(order.vat),
        "total": pounds(order.total),
    }
