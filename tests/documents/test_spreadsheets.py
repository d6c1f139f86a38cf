"""Workbooks and CSV read back: figures as numbers, names as text, nothing that could run."""

from __future__ import annotations

import csv
import io
from dataclasses import replace
from typing import Any

import openpyxl
import pytest

import optimiser as lib
from optimiser.documents.files import cuts_csv, order_xlsx, parts_csv, parts_xlsx, plan_xlsx
from optimiser.documents.sheets import Head, Sheet
from optimiser.documents.spreadsheets import csv_text, xlsx_bytes
from optimiser.formats.order import order_document
from optimiser.formats.order_ubl import order_from_document
from optimiser.formats.part_list import read_part_list
from optimiser.units import mm
from tests.documents.builders import Planned, a_request, an_order

NASTY = (
    "=1+1",
    "+44 1",
    "-1",
    "@SUM(A1)",
    "=HYPERLINK('x')",
    "http://x.example",
    "'quoted",
    "0012",
)


def opened(content: bytes) -> Any:
    return openpyxl.load_workbook(io.BytesIO(content))


def rows_of(sheet: Any) -> list[tuple[Any, ...]]:
    return list(sheet.iter_rows(values_only=True))


def test_the_parts_of_a_plan_are_a_part_list_that_reads_back_to_the_same_parts(
    planned: Planned,
) -> None:
    asked = {part.id: part for part in planned.parts}

    for content, name in (
        (parts_csv(planned.request, planned.plan).encode(), "parts.csv"),
        (parts_xlsx(planned.request, planned.plan), "parts.xlsx"),
    ):
        read = read_part_list(content, name=name)

        lengths = {part.id: part for _, part in read.lengths}
        assert {**lengths, **{part.id: part for _, part in read.boards}} == asked


def test_cuts_are_listed_in_the_order_of_work_with_their_figures(planned: Planned) -> None:
    rows = list(csv.DictReader(io.StringIO(cuts_csv(planned.plan))))

    wanted = [
        (material, str(number), str(cut.n), mm(cut.at))
        for material, number, layout in planned.layouts
        for cut in layout.cuts
    ]
    assert [(r["material"], r["layout"], r["cut"], r["set at mm"]) for r in rows] == wanted


def test_a_plan_workbook_has_money_layouts_cuts_and_parts(planned: Planned) -> None:
    book = opened(plan_xlsx(planned.request, planned.plan))

    assert book.sheetnames == ["materials", "layouts", "cuts", "parts"]
    materials = rows_of(book["materials"])
    for row, item in zip(materials[1:], planned.plan.materials, strict=False):
        assert row[0] == item.material
        assert round(100 * row[10]) == item.money.net
        assert round(100 * row[11]) == item.bound
        assert sum(row[3:7]) == pytest.approx(1, abs=0.002)
    assert materials[-1][0] == "all"
    assert round(100 * materials[-1][10]) == planned.plan.money.net
    parts = rows_of(book["parts"])
    assert sum(row[6] for row in parts[1:]) == 28
    assert len(rows_of(book["cuts"])) == 1 + sum(
        len(layout.cuts) for item in planned.plan.materials for layout in item.layouts
    )


def test_every_sheet_has_its_heads_frozen_filters_and_columns_wide_enough(
    planned: Planned,
) -> None:
    for sheet in opened(plan_xlsx(planned.request, planned.plan)).worksheets:
        heads = rows_of(sheet)[0]
        assert sheet.freeze_panes == "A2"
        assert sheet.auto_filter.ref.startswith("A1:")
        assert all(sheet.cell(1, n).font.bold for n in range(1, len(heads) + 1))
        for n in range(1, len(heads) + 1):
            letter = openpyxl.utils.get_column_letter(n)
            assert sheet.column_dimensions[letter].width >= 7


def test_figures_have_formats_that_show_tenths_and_pence(planned: Planned) -> None:
    book = opened(plan_xlsx(planned.request, planned.plan))

    assert book["parts"]["D2"].number_format == "0.0"
    assert book["materials"]["K2"].number_format == "#,##0.00"
    assert book["materials"]["D2"].number_format == "0.0%"


def test_an_order_workbook_has_its_lines_and_sums() -> None:
    order = an_order()

    rows = rows_of(opened(order_xlsx(order))["order"])

    assert rows[1] == (
        1, "c16-38x63-2400", "Timber 38 × 63", 7, 3.58, 25.06, "A, B", "2026-12-07",
    )  # fmt: skip
    assert [(row[2], row[5]) for row in rows[-3:]] == [
        ("net, GBP", 48.86),
        ("VAT 20 %", 9.77),
        ("total, GBP", 58.63),
    ]


def test_an_order_is_read_back_from_its_document_as_it_was() -> None:
    order = an_order()

    assert order_from_document(order_document(order)) == order
    odd = replace(order, vat_rate=1750)
    assert order_from_document(order_document(odd)) == odd


@pytest.mark.parametrize("name", NASTY)
def test_no_name_ever_becomes_a_formula_or_a_link(name: str) -> None:
    table = Sheet("x", (Head("name"),), ((name,),))

    cell = opened(xlsx_bytes([table], title="x"))["x"]["A2"]
    (_, (text,)) = csv.reader(io.StringIO(csv_text(table)))

    assert (cell.value, cell.data_type, cell.hyperlink) == (name, "s", None)
    assert text == (f"'{name}" if name[0] in "=+-@" else name)


def test_names_of_parts_go_through_the_same_gate() -> None:
    request = a_request()
    request["lengths"][0]["parts"][0] |= {"id": "=1+1", "name": "@x"}
    asked = lib.request_from_document(request, name="x")
    plan = lib.plan_cutting(asked)

    text = parts_csv(asked, plan)
    cells = [cell for row in rows_of(opened(parts_xlsx(asked, plan))["parts"]) for cell in row]

    assert ",'=1+1," in text
    assert ",'@x," in text
    assert "=1+1" in cells


def test_a_text_longer_than_a_cell_holds_is_refused_not_lost() -> None:
    table = Sheet("x", (Head("name"),), (("y" * 40_000,),))

    with pytest.raises(ValueError, match="longer than a cell"):
        xlsx_bytes([table], title="x")
