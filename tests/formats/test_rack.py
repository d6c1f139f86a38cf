"""The rack as a list of offcuts: read, refused, written and read again."""

from __future__ import annotations

import io

import pytest
import xlsxwriter
from hypothesis import given
from hypothesis import strategies as st

from optimiser.domain.rack import Rack
from optimiser.domain.stock import LengthOffcut, SheetOffcut
from optimiser.errors import InvalidInput, Problem
from optimiser.formats.rack import rack_from_document, read_rack, write_rack_csv
from optimiser.units import Tenths

RACK = Rack(
    lengths=(("c16-38x63", LengthOffcut(id="R1", length=Tenths(14125))),),
    sheets=(("mdf-12", SheetOffcut(id="R2", width=Tenths(6000), height=Tenths(9005))),),
)


def a_rack(text: str) -> Rack:
    return read_rack(text.encode(), name="rack.csv")


def problems_of(text: str) -> tuple[Problem, ...]:
    with pytest.raises(InvalidInput) as caught:
        a_rack(text)
    return caught.value.problems


def test_offcuts_are_lengths_or_boards_and_their_place_is_left_aside() -> None:
    text = (
        "Offcut;Material;Length (m);Width (cm);Height_mm;Place\n"
        "R1;c16-38x63;1,4125;;;bay 1\n"
        "R2;mdf-12;;60;900,5;behind the door\n"
    )

    assert a_rack(text) == RACK


def test_a_workbook_reads_as_the_same_rack_in_csv() -> None:
    file = io.BytesIO()
    with xlsxwriter.Workbook(file) as book:
        sheet = book.add_worksheet()
        sheet.write_row(0, 0, ["id", "material", "length", "width", "height"])
        sheet.write_row(1, 0, ["R1", "c16-38x63", 1412.5])
        sheet.write_row(2, 0, ["R2", "mdf-12", "", 600, 900.5])

    assert read_rack(file.getvalue(), name="rack.xlsx") == RACK


def test_the_rack_as_plain_values_is_the_same_rack() -> None:
    content = [
        {"id": "R1", "material": "c16-38x63", "length_mm": 1412.5},
        {"id": "R2", "material": "mdf-12", "width_mm": 600, "height_mm": 900.5},
    ]

    assert rack_from_document(content, name="rack") == RACK


def test_a_header_with_nothing_below_it_is_an_empty_rack() -> None:
    assert a_rack("id,material,length\n") == Rack()


def test_a_rack_without_marks_or_materials_is_refused_once_for_each_column() -> None:
    assert problems_of("length\n2400\n1200\n") == (
        Problem("rack.csv", "has no column 'id'", "Add it"),
        Problem("rack.csv", "has no column 'material'", "Add it"),
    )


@pytest.mark.parametrize("cells", [",,", "2400,300,", "2400,300,900", ",300,", ",,900"])
def test_an_offcut_that_is_neither_length_nor_board_or_both_is_refused(cells: str) -> None:
    (problem,) = problems_of(f"id,material,length,width,height\nR1,c16,{cells}\n")

    assert problem.field == "rack.csv: offcut 'R1'"
    assert problem.remedy == "Give length for timber, or width and height for a board"


def test_an_offcut_listed_twice_is_refused_even_as_timber_and_as_board() -> None:
    (problem,) = problems_of("id,material,length,width,height\nR1,c16,900,,\nR1,mdf,,300,400\n")

    assert problem == Problem("rack.csv: offcut 'R1'", "stands 2 times", "Each offcut is one piece")


def test_every_broken_cell_and_every_offcut_listed_twice_is_named_at_once() -> None:
    text = "id,material,length,width,height\n,,0,,\nR1,mdf,,x,-4\nR1,c16,12.25,,\n"

    assert [problem.field.removeprefix("rack.csv: ") for problem in problems_of(text)] == [
        "row 2, column A 'id'",
        "row 2, column B 'material'",
        "row 2, column C 'length'",
        "row 3, column D 'width'",
        "row 3, column E 'height'",
        "row 4, column C 'length'",
        "offcut 'R1'",
    ]


def test_plain_values_are_refused_by_field_and_by_offcut() -> None:
    wrong: list[object] = [{"id": "R1", "material": "c16", "length_mm": "900", "colour": "red"}]
    twice: list[object] = [{"id": "R1", "material": "c16", "length_mm": 900}] * 2

    with pytest.raises(InvalidInput) as fields:
        rack_from_document(wrong, name="rack")
    with pytest.raises(InvalidInput) as offcuts:
        rack_from_document(twice, name="rack")

    assert {problem.field for problem in fields.value.problems} == {
        "rack: [0].length_mm",
        "rack: [0].colour",
    }
    assert [problem.field for problem in offcuts.value.problems] == ["rack: offcut 'R1'"]


def test_a_written_rack_gives_a_spreadsheet_no_formula_to_run() -> None:
    rack = Rack(lengths=(("=c16", LengthOffcut(id="@R1", length=Tenths(9000))),))

    text = write_rack_csv(rack)

    assert text == "id,material,length_mm,width_mm,height_mm\n'@R1,'=c16,900,,\n"


NAMES = st.text(
    st.characters(exclude_categories=["Cc", "Cs", "Zl", "Zp", "Cf"]), min_size=1, max_size=20
).filter(lambda text: text == text.strip())
SIZES = st.integers(1, 1_000_000).map(Tenths)


@st.composite
def racks(draw: st.DrawFn) -> Rack:
    ids = draw(st.lists(NAMES, max_size=8, unique=True))
    cut = draw(st.integers(0, len(ids)))
    return Rack(
        lengths=tuple((draw(NAMES), LengthOffcut(id=id_, length=draw(SIZES))) for id_ in ids[:cut]),
        sheets=tuple(
            (draw(NAMES), SheetOffcut(id=id_, width=draw(SIZES), height=draw(SIZES)))
            for id_ in ids[cut:]
        ),
    )


@given(racks())
def test_any_rack_that_is_written_reads_back_equal(rack: Rack) -> None:
    assert a_rack(write_rack_csv(rack)) == rack


@given(st.binary(max_size=300))
def test_no_bytes_do_more_than_be_refused(content: bytes) -> None:
    for raw in (content, b"id,material,length,width,height,place\n" + content):
        try:
            rack = read_rack(raw, name="rack.csv")
        except InvalidInput:
            continue
        assert a_rack(write_rack_csv(rack)) == rack
