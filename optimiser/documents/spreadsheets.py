"""Tables to files that a spreadsheet opens: XLSX (the only module that knows xlsxwriter) and CSV.

A text is a text, whatever it begins with: no cell is ever a formula or a link. In XLSX it is
written as text; CSV knows no types, so there a ' stands before =, +, −, @, tab and return.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence

from optimiser.documents.made import MADE
from optimiser.documents.sheets import Cell, Head, Kind, Sheet
from optimiser.units import mm, mm_number, pounds

# A spreadsheet takes a cell that begins with one of these for a formula.
_FORMULA = ("=", "+", "-", "@", "\t", "\r")
_FORMATS = {
    Kind.TEXT: {},
    Kind.COUNT: {"num_format": "0"},
    Kind.SIZE: {"num_format": "0.0"},
    Kind.MONEY: {"num_format": "#,##0.00"},
    Kind.SHARE: {"num_format": "0.0%"},
}


def xlsx_bytes(sheets: Sequence[Sheet], *, title: str) -> bytes:
    """Return tables as a workbook: heads in bold, frozen and with filters, columns wide enough.

    Raises ValueError for a text longer than a cell holds (32,767 characters).
    """
    import xlsxwriter

    content = io.BytesIO()
    options = {"in_memory": True, "strings_to_formulas": False, "strings_to_urls": False}
    with xlsxwriter.Workbook(content, options) as book:
        book.set_properties({"title": title, "created": MADE.replace(tzinfo=None)})
        bold = {"bold": True, "text_wrap": True, "valign": "top", "bottom": 1}
        heading = book.add_format(bold)
        plain = {
            kind: book.add_format({"valign": "top", **look}) for kind, look in _FORMATS.items()
        }
        strong = {kind: book.add_format({"bold": True, **look}) for kind, look in _FORMATS.items()}
        for sheet in sheets:
            page = book.add_worksheet(sheet.name)
            for column, head in enumerate(sheet.heads):
                page.set_column(column, column, head.width)
                page.write_string(0, column, head.name, heading)
            for number, row in enumerate((*sheet.rows, *sheet.sums), start=1):
                formats = plain if number <= len(sheet.rows) else strong
                for column, (head, cell) in enumerate(zip(sheet.heads, row, strict=True)):
                    _write(page, number, column, head, cell, formats)
            page.freeze_panes(1, 0)
            page.autofilter(0, 0, max(1, len(sheet.rows)), len(sheet.heads) - 1)
            page.set_landscape()
            page.set_paper(9)  # A4
            page.repeat_rows(0)
            page.fit_to_pages(1, 0)
    return content.getvalue()


def _write(
    page: object, row: int, column: int, head: Head, cell: Cell, formats: dict[Kind, object]
) -> None:
    from xlsxwriter.worksheet import Worksheet

    assert isinstance(page, Worksheet)
    if cell is None or cell == "":
        return
    if isinstance(cell, str):
        if page.write_string(row, column, cell, formats[Kind.TEXT]):
            raise ValueError(f"{head.name}: {cell[:40]!r} is longer than a cell holds")
        return
    scale = {Kind.SIZE: 10, Kind.MONEY: 100, Kind.SHARE: 1000}.get(head.kind, 1)
    page.write_number(row, column, cell / scale, formats[head.kind])


def csv_text(sheet: Sheet) -> str:
    """Return a table as CSV (RFC 4180): a head, its rows, then its sums."""
    text = io.StringIO(newline="")
    writer = csv.writer(text)
    writer.writerow([head.name for head in sheet.heads])
    for row in (*sheet.rows, *sheet.sums):
        writer.writerow(
            [_csv_cell(head, cell) for head, cell in zip(sheet.heads, row, strict=True)]
        )
    return text.getvalue()


def _csv_cell(head: Head, cell: Cell) -> str | int | float:
    if cell is None:
        return ""
    if isinstance(cell, str):
        return f"'{cell}" if cell.startswith(_FORMULA) else cell
    match head.kind:
        case Kind.SIZE:
            return mm(cell)
        case Kind.MONEY:
            return pounds(cell)
        case Kind.SHARE:
            return f"{cell / 10:g} %"
        case _:
            return mm_number(10 * cell)
