"""A part list looked through before it is kept: what it means, and every fault by its cell."""

from __future__ import annotations

import base64
import io
from typing import Any

import pytest
import xlsxwriter

from tests.api.bodies import Caller, a_service, the_problem

HEAD = "Mark,Material,Length,Width,Height,Qty,Name\n"


@pytest.fixture(scope="module")
def service() -> Caller:
    return Caller(a_service())


def preview(service: Caller, content: bytes | str, name: str = "parts.csv") -> dict[str, Any]:
    raw = content.encode() if isinstance(content, str) else content
    body = {"name": name, "job": "A", "content": base64.b64encode(raw).decode()}
    answer = service.post("/v1/part-lists/preview", body)
    assert answer.status_code == 200, answer.text
    document = answer.json()
    assert isinstance(document, dict)
    return document


def cells(found: dict[str, Any], kind: str = "problems") -> list[tuple[int | None, str | None]]:
    return [(item["row"], item["column"]) for item in found[kind]]


def a_book(*, merge: str = "", formula: str = "") -> bytes:
    file = io.BytesIO()
    with xlsxwriter.Workbook(file, {"in_memory": True}) as book:
        sheet = book.add_worksheet()
        sheet.write_row("A1", ["Mark", "Material", "Length", "Qty"])
        sheet.write_row("A2", ["U1", "c16-38x63", 900, 2])
        sheet.write_row("A3", ["U2", "c16-38x63", 800, 1])
        if merge:
            sheet.merge_range(merge, "c16-38x63")
        if formula:
            sheet.write_formula(formula, "=400*2", value=800)
        other = book.add_worksheet()
        other.write_formula("A1", "=1+1", value=2)
    return file.getvalue()


def test_sound_rows_are_understood_and_broken_cells_named(service: Caller) -> None:
    found = preview(
        service,
        HEAD + "U1,c16-38x63,900,,,2,upright\nU2,c16-38x63,long,,,x,\nB1,mdf-12,,600,450,1,shelf\n",
    )

    assert found["sound"] is False
    assert [(part["row"], part["id"]) for part in found["parts"]] == [(2, "A/U1"), (4, "A/B1")]
    assert found["parts"][0]["length_mm"] == "900"
    assert cells(found) == [(3, "C"), (3, "F")]
    assert all(item["trouble"] and item["remedy"] for item in found["problems"])
    assert [item["read_as"] for item in found["columns"]][:3] == ["mark", "material", "length"]


def test_nothing_is_kept(service: Caller) -> None:
    preview(service, HEAD + "U1,c16-38x63,900,,,2,upright\n")

    assert service.get("/v1/jobs").json()["items"] == []


def test_a_list_in_another_encoding_is_named_by_row_and_column(service: Caller) -> None:
    text = HEAD + "U1,c16-38x63,900,,,2,upright\nU2,c16-38x63,900,,,1,søyle\n"

    found = preview(service, text.encode("latin-1"))

    assert cells(found) == [(3, "G")]
    assert "0xf8" in found["problems"][0]["trouble"]
    assert "UTF-16" in preview(service, text.encode("utf-16"))["problems"][0]["trouble"]


def test_merged_cells_are_refused_by_their_place(service: Caller) -> None:
    found = preview(service, a_book(merge="B2:B3"), "parts.xlsx")

    assert cells(found) == [(2, "B")]
    assert "row 3, column B" in found["problems"][0]["trouble"]
    assert found["parts"] == []


def test_a_formula_is_never_worked_out_and_said_by_its_place(service: Caller) -> None:
    found = preview(service, a_book(formula="C3"), "parts.xlsx")

    assert found["sound"] is True
    assert found["parts"][1]["length_mm"] == "800"
    assert cells(found, "notes") == [(3, "C")]
    in_text = preview(service, HEAD + "U1,c16-38x63,=400*2,,,1,\n")
    assert cells(in_text) == [(2, "C")]


def test_a_script_in_a_name_stays_text(service: Caller) -> None:
    name = "<script>alert(1)</script>"
    found = preview(service, HEAD + f"U1,c16-38x63,900,,,1,{name}\nU2,c16-38x63,900,,,1,=cmd()\n")

    assert found["sound"] is True
    assert [part["name"] for part in found["parts"]] == [name, "=cmd()"]
    assert cells(found, "notes") == [(2, "G"), (3, "G")]


def test_units_of_header_and_cell_may_be_mixed_but_never_guessed(service: Caller) -> None:
    text = "Mark,Material,Length (m)\nU1,c16-38x63,2.4\nU2,c16-38x63,900 mm\nU3,c16-38x63,2.4.1\n"

    found = preview(service, text)

    assert [part["length_mm"] for part in found["parts"]] == ["2400", "900"]
    assert found["columns"][2]["unit"] == "m"
    assert cells(found) == [(4, "C")]


def test_fifty_thousand_rows_are_looked_through_and_counted(service: Caller) -> None:
    rows = "".join(f"U{number},c16-38x63,900,,,1,\n" for number in range(49_999))

    found = preview(service, HEAD + rows + "U49999,c16-38x63,none,,,1,\n")

    assert (found["rows"], found["understood"], len(found["parts"])) == (50_000, 49_999, 500)
    assert cells(found) == [(50_001, "C")]


def test_what_is_not_base64_is_refused(service: Caller) -> None:
    body = {"name": "parts.csv", "content": "a"}

    the_problem(service.post("/v1/part-lists/preview", body), status=422, kind="invalid-input")
