"""Workbooks for tests: written whole, or with the text of their sheet changed."""

from __future__ import annotations

import io
import zipfile

import xlsxwriter


def a_workbook(rows: list[list[object]], *, first_row: int = 0) -> bytes:
    file = io.BytesIO()
    with xlsxwriter.Workbook(file, {"in_memory": True, "strings_to_formulas": False}) as book:
        sheet = book.add_worksheet()
        for number, row in enumerate(rows, start=first_row):
            for column, value in enumerate(row):
                sheet.write(number, column, value)
    return file.getvalue()


def a_page_changed(content: bytes, old: bytes, new: bytes) -> bytes:
    """Return the workbook with the text of its first sheet changed."""
    file = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(content)) as old_zip, zipfile.ZipFile(file, "w") as new_zip:
        for path in old_zip.namelist():
            page = old_zip.read(path)
            if path == "xl/worksheets/sheet1.xml":
                assert old in page
                page = page.replace(old, new)
            new_zip.writestr(path, page)
    return file.getvalue()
