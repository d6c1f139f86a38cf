"""Tables as people save them: which files are read, which are refused, and in what words."""

from __future__ import annotations

import io
import re

import pytest
import xlsxwriter
from hypothesis import given
from hypothesis import strategies as st

from optimiser.errors import InvalidInput
from optimiser.formats import table as tables
from optimiser.formats.table import Cells, Table, read_table
from tests.formats.workbooks import a_workbook

KNOWN = {
    "mark": ("part",),
    "length": ("len",),
    "width": (),
    "quantity": ("qty",),
    "name": ("description",),
}


def a_table(content: bytes | str) -> Table:
    raw = content.encode() if isinstance(content, str) else content
    return read_table(raw, name="list", known=KNOWN)


def cells_of(content: bytes | str) -> list[dict[str, str]]:
    return [dict(row.cells) for row in a_table(content).rows]


def refused(content: bytes | str) -> str:
    with pytest.raises(InvalidInput) as caught:
        a_table(content)
    return str(caught.value)


def rows_or_problems(content: bytes) -> int:
    """Return how many rows were read or how many problems named; any other error passes on."""
    try:
        return len(a_table(content).rows)
    except InvalidInput as refusal:
        return len(refusal.problems)


@pytest.mark.parametrize("mark", [",", ";", "\t"])
@pytest.mark.parametrize("begin", ["", "\ufeff"])
@pytest.mark.parametrize("end", ["\n", "\r\n"])
def test_comma_semicolon_and_tab_read_alike_with_or_without_the_sign_that_excel_puts_first(
    mark: str, begin: str, end: str
) -> None:
    content = begin + end.join([mark.join(["Mark", "Length"]), mark.join(["U1", "2400"])])

    assert cells_of(content) == [{"mark": "U1", "length": "2400"}]


def test_a_separator_inside_a_quoted_header_does_not_count() -> None:
    assert "column A 'Mark; part; id'" in refused('"Mark; part; id",Length\nU1,2400')


def test_a_workbook_reads_as_the_same_list_in_csv() -> None:
    rows: list[list[object]] = [["Mark", "Length (mm)", "Qty"], ["U1", 2281.5, 4], ["N1", 562, 6]]

    assert cells_of(a_workbook(rows)) == cells_of("Mark,Length (mm),Qty\nU1,2281.5,4\nN1,562,6\n")


def test_a_number_reckoned_in_a_spreadsheet_is_read_as_it_is_shown() -> None:
    assert cells_of(a_workbook([["Length"], [0.1 + 0.2]])) == [{"length": "0.3"}]


def test_a_formula_in_a_workbook_gives_its_value_and_a_text_like_one_stays_text() -> None:
    file = io.BytesIO()
    with xlsxwriter.Workbook(file, {"strings_to_formulas": False}) as book:
        sheet = book.add_worksheet()
        sheet.write_row(0, 0, ["Mark", "Length"])
        sheet.write_string(1, 0, "=1+1")
        sheet.write_formula(1, 1, "=1200*2", None, 2400)

    assert cells_of(file.getvalue()) == [{"mark": "=1+1", "length": "2400"}]


def test_rows_keep_the_numbers_that_the_person_sees_though_empty_rows_are_passed_over() -> None:
    text = a_table("\n\nMark,Length\n,\nU1,2400\n\nU2,1200\n")
    sheet = a_table(a_workbook([["Mark", "Length"], [], ["U1", 2400]], first_row=4))

    assert [row.number for row in text.rows] == [5, 7]
    assert [row.number for row in sheet.rows] == [7]


@pytest.mark.parametrize(
    ("header", "unit"),
    [
        ("Length", "mm"),
        ("LENGTH_MM", "mm"),
        ("length (m)", "m"),
        ("Length [cm]", "cm"),
        (" len - cm ", "cm"),
    ],
)
def test_a_header_may_name_its_unit(header: str, unit: str) -> None:
    assert a_table(f"{header}\n2\n").columns[0].unit == unit


@pytest.mark.parametrize("header", ["Quantity m", "Length in", "Länge", "Length?", "m", "é len"])
def test_a_header_that_is_not_known_is_refused_and_the_known_ones_are_named(header: str) -> None:
    words = refused(f"Mark,{header}\nU1,2\n")

    assert f"list: column B {header!r}: is not known" in words
    assert "mark, length, width, quantity, name" in words


def test_a_column_without_header_between_others_is_refused() -> None:
    assert "list: column B '': is not known" in refused("Mark,,Length\nU1,x,2400\n")


def test_two_columns_for_one_thing_are_refused_even_under_two_words() -> None:
    words = refused("Qty,Length,Quantity\n1,2400,2\n")

    assert "column C 'Quantity': is a second column for quantity" in words


def test_a_cell_beyond_the_header_is_refused_by_its_row() -> None:
    words = refused("Mark,Length\nU1,2400\nU2,1200,5\n")

    assert words.startswith("list: row 3: has a cell to the right of the last header, in column C")


@pytest.mark.parametrize("content", ["Mark,Length", "Mark,Length\n", "Mark,Length\n , \n"])
def test_a_list_without_rows_is_refused(content: str) -> None:
    assert "has no row below its header" in refused(content)


@pytest.mark.parametrize("content", ["", "\n \n", ",,\n", "\ufeff"])
def test_an_empty_file_is_refused(content: str) -> None:
    assert refused(content) == "list: is empty. Give a header, and a row for each piece."


def test_a_file_in_another_encoding_is_refused_with_the_one_to_save_it_in() -> None:
    assert "Save it as CSV in UTF-8" in refused("Name,Length\nhøjde,2400\n".encode("latin-1"))
    assert "Save it as CSV in UTF-8" in refused("Name,Length\nx,2400\n".encode("utf-16"))
    assert "is not a text file" in refused("Name,Length\nx,2400\n".encode("utf-16-le"))


def test_a_quote_left_open_does_not_swallow_the_rest_of_the_list() -> None:
    words = refused('Mark,Name,Length\nU1,upright,2400\nU2,"noggin,562\nU3,plate,900\n')

    assert words.startswith("list: row 3: is not CSV")


def test_a_list_of_more_rows_than_the_limit_is_refused_and_one_at_the_limit_is_read() -> None:
    rows = "1\n" * tables.MOST_ROWS

    assert len(a_table("Length\n" + rows).rows) == tables.MOST_ROWS
    assert "has more than 50000 rows" in refused("Length\n" + rows + "1\n")


def test_a_file_of_more_bytes_than_the_limit_is_refused() -> None:
    assert "is larger than 10 MB" in refused(b"Length\n" + b" " * tables.MOST_BYTES)


@pytest.mark.parametrize(
    ("header", "text", "size"),
    [
        ("Length", "2281.5", 22815),
        ("Length", "2281,5", 22815),
        ("Length", "2.4 m", 24000),
        ("Length (m)", "2,400", 24000),
        ("Length (m)", "2.400", 24000),
        ("Length (cm)", "60,5", 6050),
        ("Length (m)", "562 mm", 5620),
        ("Length", "0,500", 5),
        ("Length", " 240CM ", 24000),
    ],
)
def test_a_size_is_read_in_its_own_unit_or_that_of_its_header(
    header: str, text: str, size: int
) -> None:
    table = a_table(f'{header}\n"{text}"\n')
    cells = Cells(table, table.rows[0])

    assert (cells.size("length"), cells.problems) == (size, [])


@pytest.mark.parametrize(
    ("header", "text", "trouble"),
    [
        ("Length", "1.234,5", "has both a comma and a point"),
        ("Length (m)", "1,234.5", "has both a comma and a point"),
        ("Length", "2,400", "may be meant in thousands or in decimals"),
        ("Length", "2.400", "may be meant in thousands or in decimals"),
        ("Length (m)", "2,400 mm", "may be meant in thousands or in decimals"),
        ("Length (cm)", "2.400", "may be meant in thousands or in decimals"),
        ("Length", "-5", "is not a size of 0 or more"),
        ("Length", "0", "is no size"),
        ("Length", "8 ft", "is not a size of 0 or more"),
        ("Length", "12.25", "is finer than 0.1 mm"),
        ("Length", "100001", "is longer than 100 m"),
        ("Length (m)", "2400", "is longer than 100 m"),
        ("Length", "=1200*2", "is not a size of 0 or more"),
    ],
)
def test_a_size_that_is_none_or_has_two_meanings_is_refused_by_row_column_and_value(
    header: str, text: str, trouble: str
) -> None:
    table = a_table(f'Mark,{header}\nU1,1\nU2,"{text}"\n')
    cells = Cells(table, table.rows[1])

    cells.size("length")

    (problem,) = cells.problems
    assert problem.field == f"list: row 3, column B {header!r}"
    assert problem.trouble == f"{text!r} {trouble}" or trouble in problem.trouble
    assert text in problem.trouble
    assert problem.remedy


@pytest.mark.parametrize(("text", "count"), [("1", 1), ("12", 12), ("2.0", 2), ("1000000", 10**6)])
def test_a_quantity_is_a_whole_number(text: str, count: int) -> None:
    table = a_table(f"Mark,Qty\nU1,{text}\n")
    cells = Cells(table, table.rows[0])

    assert (cells.count("quantity"), cells.problems) == (count, [])


@pytest.mark.parametrize(
    "text", ["", "0", "-1", "1.5", "1,000", "1.000", "1e3", "two", "1000001", "²"]
)
def test_a_quantity_that_is_no_whole_number_of_1_or_more_is_refused(text: str) -> None:
    table = a_table(f'Mark,Qty\nU1,"{text}"\n')
    cells = Cells(table, table.rows[0])

    cells.count("quantity")

    (problem,) = cells.problems
    assert problem.field == "list: row 2, column B 'Qty'"
    assert problem.trouble.startswith(repr(text))


def test_a_quantity_that_no_column_gives_is_one() -> None:
    table = a_table("Mark\nU1\n")

    assert Cells(table, table.rows[0]).count("quantity") == 1


@pytest.mark.parametrize("text", ["=1+1", "<script>alert(1)</script>", "@x", "ø 35 – hole", "a'b"])
def test_a_text_is_kept_as_it_stands(text: str) -> None:
    table = a_table(f"Name\n{text}\n")
    cells = Cells(table, table.rows[0])

    assert (cells.text("name"), cells.problems) == (text, [])


@pytest.mark.parametrize("sign", ["\x07", "\x1b", "\x1f", "\x7f", "\x85", "\u2028", "\u202e"])
@pytest.mark.parametrize("place", ["{}shelf", "she{}lf", "shelf{}"])
def test_a_text_with_signs_that_cannot_be_printed_is_refused(sign: str, place: str) -> None:
    table = a_table(f"Name\n{place.format(sign)}\n")
    cells = Cells(table, table.rows[0])

    cells.text("name")

    assert "holds signs that cannot be printed" in cells.problems[0].trouble
    assert sign not in str(cells.problems[0])


def test_a_text_on_two_lines_or_too_long_is_refused() -> None:
    table = a_table(f'Name\n"two\nlines"\n{"x" * 101}\n')
    two_lines, long = (Cells(table, row) for row in table.rows)

    two_lines.text("name")
    long.text("name")

    assert "cannot be printed" in two_lines.problems[0].trouble
    assert "has 101 characters" in long.problems[0].trouble


def test_columns_are_lettered_as_a_spreadsheet_letters_them() -> None:
    headers = ",".join(f"x{number}" for number in range(703))

    letters = re.findall(r"column ([A-Z]+) 'x(?:0|25|26|51|52|701|702)'", refused(headers + "\n1"))

    assert letters == ["A", "Z", "AA", "AZ", "BA", "ZZ", "AAA"]


@given(st.binary(max_size=400))
def test_no_bytes_do_more_than_be_refused(content: bytes) -> None:
    for raw in (content, b"PK\x03\x04" + content, b"Length\n" + content):
        assert rows_or_problems(raw)
