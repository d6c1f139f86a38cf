"""Workbooks that are broken, vast or made to do harm: refused in words, at no cost."""

from __future__ import annotations

import io
import zipfile

import pytest
import xlsxwriter
from hypothesis import given
from hypothesis import strategies as st

from optimiser.errors import InvalidInput
from optimiser.formats import workbook
from optimiser.formats.table import Cells, Table, read_table
from tests.formats.workbooks import a_page_changed, a_workbook

KNOWN: dict[str, tuple[str, ...]] = {"mark": (), "length": (), "quantity": ("qty",)}


def a_table(content: bytes) -> Table:
    return read_table(content, name="list", known=KNOWN)


def cells_of(content: bytes) -> list[dict[str, str]]:
    return [dict(row.cells) for row in a_table(content).rows]


def refused(content: bytes) -> str:
    with pytest.raises(InvalidInput) as caught:
        a_table(content)
    return str(caught.value)


def rows_or_problems(content: bytes) -> int:
    """Return how many rows were read or how many problems named; any other error passes on."""
    try:
        return len(a_table(content).rows)
    except InvalidInput as refusal:
        return len(refusal.problems)


def test_a_broken_workbook_is_refused() -> None:
    whole = a_workbook([["Length"], [2400]])

    for broken in (b"PK", whole[:200], whole[: len(whole) // 2], whole[:-30]):
        assert "is not a workbook that can be read" in refused(broken)


def test_a_zip_that_holds_no_workbook_is_refused() -> None:
    file = io.BytesIO()
    with zipfile.ZipFile(file, "w") as archive:
        archive.writestr("content.xml", "<office/>")

    assert "is not a workbook that can be read" in refused(file.getvalue())


def test_a_workbook_that_unfolds_beyond_the_limit_is_refused() -> None:
    file = io.BytesIO()
    with zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("xl/workbook.xml", b" " * (workbook.MOST_UNFOLDED + 1))

    assert len(file.getvalue()) < 100_000
    assert "unfolds to more than 50 MB" in refused(file.getvalue())


def test_two_cells_in_opposite_corners_of_a_sheet_are_refused_before_room_is_made_for_them() -> (
    None
):
    far = a_page_changed(a_workbook([["Length"], [2400]]), b'r="A2"', b'r="XFD1048576"')

    assert "spans 17179869184 cells" in refused(far)


def test_a_cell_far_away_that_is_only_coloured_does_not_count() -> None:
    file = io.BytesIO()
    with xlsxwriter.Workbook(file) as book:
        sheet = book.add_worksheet()
        sheet.write_column(0, 0, ["Length", 2400])
        sheet.write_blank(1_000_000, 200, None, book.add_format({"bg_color": "#FFFF00"}))

    assert cells_of(file.getvalue()) == [{"length": "2400"}]


def test_a_workbook_that_declares_a_document_type_is_refused() -> None:
    bomb = b'standalone="yes"?><!DOCTYPE w [<!ENTITY a "aaaa"><!ENTITY b "&a;&a;">]>'
    changed = a_page_changed(a_workbook([["Length"], [2400]]), b'standalone="yes"?>', bomb)

    assert "is not a workbook that can be read" in refused(changed)


@pytest.mark.parametrize("number", ["inf", "nan", "1e400"])
def test_a_number_in_a_workbook_that_is_none_is_refused_as_a_size(number: str) -> None:
    changed = a_page_changed(
        a_workbook([["Length"], [2400]]), b"<v>2400</v>", f"<v>{number}</v>".encode()
    )
    table = a_table(changed)
    cells = Cells(table, table.rows[0])

    cells.size("length")

    assert "column A 'Length'" in cells.problems[0].field


def test_a_cell_of_endless_digits_is_refused_by_its_place() -> None:
    sheet = a_page_changed(
        a_workbook([["Mark", "Length"], ["U1", 2400]]),
        b'<c r="B2"><v>2400</v></c>',
        b'<c r="B2" t="inlineStr"><is><t>' + b"9" * 1_000_000 + b"</t></is></c>",
    )

    assert refused(sheet) == (
        "list: row 2, column B: has 1000000 characters. Give at most 10000 characters."
    )
    long = a_workbook([["Mark", "Length"], ["U1", "9" * 10_001]])
    assert "row 2, column B: has 10001 characters" in refused(long)


WORKBOOK = a_workbook([["Mark", "Length", "Qty"], ["U1", 2281.5, 4], ["N1", 562, 6]])


@given(st.integers(0, len(WORKBOOK) - 1), st.binary(min_size=1, max_size=8))
def test_no_damage_to_a_workbook_does_more_than_have_it_refused(place: int, damage: bytes) -> None:
    content = WORKBOOK[:place] + damage + WORKBOOK[place + len(damage) :]
    assert rows_or_problems(content)


SHEET = zipfile.ZipFile(io.BytesIO(WORKBOOK)).read("xl/worksheets/sheet1.xml")


@given(st.integers(0, len(SHEET) - 1), st.binary(max_size=6), st.integers(0, 6))
def test_no_damage_inside_a_sheet_does_more_than_have_it_refused(
    place: int, damage: bytes, gone: int
) -> None:
    content = a_page_changed(WORKBOOK, SHEET, SHEET[:place] + damage + SHEET[place + gone :])
    assert rows_or_problems(content)
