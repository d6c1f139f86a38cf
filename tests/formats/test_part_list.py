"""Part lists as a joiner keeps them: timber by length, boards by width and height."""

from __future__ import annotations

import csv
import io
from decimal import Decimal

import pytest
import xlsxwriter
from hypothesis import given
from hypothesis import strategies as st

from optimiser.domain.part_list import PartList
from optimiser.domain.parts import BoardPart, CutOut, LengthPart
from optimiser.errors import InvalidInput, Problem
from optimiser.formats.part_list import read_part_list
from optimiser.units import Tenths

LIST = """\
Mark,Material,Length,Width,Height,Qty,Name,Turn,Cut-outs
U1,c16-38x63,2281.5,,,4,upright,,
N1,c16-38x63,562,,,6,noggin,,
B1,mdf-12,,1270,600.5,2,backboard,no,100 100 70 70; 900 100 70.5 70
S1,mdf-12,,300,900,1,shelf,yes,
"""


def a_list(text: str, *, job: str = "A") -> PartList:
    return read_part_list(text.encode(), name="parts.csv", job=job)


def problems_of(text: str, *, job: str = "A") -> tuple[Problem, ...]:
    with pytest.raises(InvalidInput) as caught:
        a_list(text, job=job)
    return caught.value.problems


def problem_of(text: str) -> Problem:
    (problem,) = problems_of(text)
    return problem


def a_timber(
    id_: str, length: int, quantity: int = 1, name: str = "", job: str = "A"
) -> LengthPart:
    return LengthPart(id=id_, job=job, length=Tenths(length), quantity=quantity, name=name)


def test_rows_with_a_length_are_timber_and_rows_with_width_and_height_are_boards() -> None:
    holes = (
        CutOut(x=Tenths(1000), y=Tenths(1000), width=Tenths(700), height=Tenths(700)),
        CutOut(x=Tenths(9000), y=Tenths(1000), width=Tenths(705), height=Tenths(700)),
    )
    backboard = BoardPart(
        id="A/B1",
        job="A",
        width=Tenths(12700),
        height=Tenths(6005),
        quantity=2,
        turn=False,
        cut_outs=holes,
        name="backboard",
    )
    shelf = BoardPart(
        id="A/S1", job="A", width=Tenths(3000), height=Tenths(9000), quantity=1, name="shelf"
    )

    assert a_list(LIST) == PartList(
        lengths=(
            ("c16-38x63", a_timber("A/U1", 22815, 4, "upright")),
            ("c16-38x63", a_timber("A/N1", 5620, 6, "noggin")),
        ),
        boards=(("mdf-12", backboard), ("mdf-12", shelf)),
    )


def test_a_workbook_reads_as_the_same_list_in_csv() -> None:
    file = io.BytesIO()
    with xlsxwriter.Workbook(file) as book:
        sheet = book.add_worksheet()
        for number, row in enumerate(csv.reader(io.StringIO(LIST))):
            for column, cell in enumerate(row):
                numeric = number > 0 and 2 <= column <= 5 and cell
                sheet.write(number, column, float(cell) if numeric else cell)

    assert read_part_list(file.getvalue(), name="parts.xlsx", job="A") == a_list(LIST)


@pytest.mark.parametrize(
    ("mark", "id_"), [("U1", "A/U1"), ("A/U1", "A/U1"), ("", "A/row-2"), ("B/U1", "A/B/U1")]
)
def test_a_part_is_known_by_its_job_and_its_mark_or_else_its_row(mark: str, id_: str) -> None:
    parts = a_list(f"Mark,Material,Length\n{mark},c16,2400\n")

    assert parts.lengths == (("c16", a_timber(id_, 24000)),)


def test_a_row_that_names_its_job_belongs_to_it_and_the_others_to_the_job_of_the_list() -> None:
    parts = a_list("Job,Mark,Material,Length\nB,U1,c16,2400\n,U1,c16,2400\n")

    assert [(part.job, part.id) for _, part in parts.lengths] == [("B", "B/U1"), ("A", "A/U1")]


def test_without_any_job_the_list_is_one_job_of_its_own() -> None:
    parts = a_list("Mark,Material,Length\nU1,c16,2400\n", job="")

    assert [(part.job, part.id) for _, part in parts.lengths] == [("job", "job/U1")]


@pytest.mark.parametrize("word", ["Mark", "PART", "id", "Part no", "part_mark", "ref"])
def test_the_trade_s_other_words_for_a_mark_are_known(word: str) -> None:
    assert a_list(f"{word},Section,Len,Pcs\nU1,c16,2400,3\n") == a_list(
        "mark,material,length,quantity\nU1,c16,2400,3\n"
    )


@pytest.mark.parametrize(
    ("header", "cell", "turn"),
    [
        ("Turn", "", True),
        ("Turn", "Yes", True),
        ("Turn", "1", True),
        ("Turn", "FALSE", False),
        ("Turn", "n", False),
        ("Grain", "", True),
        ("Grain", "no", True),
        ("Grain", "yes", False),
        ("grain", "TRUE", False),
    ],
)
def test_a_part_may_turn_unless_it_is_said_not_to_or_its_grain_matters(
    header: str, cell: str, turn: bool
) -> None:
    parts = a_list(f"Material,Width,Height,{header}\nmdf,300,900,{cell}\n")

    assert [part.turn for _, part in parts.boards] == [turn]


def test_an_answer_that_is_neither_yes_nor_no_is_refused() -> None:
    problem = problem_of("Material,Width,Height,Turn\nmdf,300,900,perhaps\n")

    assert problem == Problem(
        "parts.csv: row 2, column D 'Turn'", "'perhaps' is not an answer", "Say yes or no"
    )


def test_turn_and_grain_together_are_refused_as_they_may_contradict_each_other() -> None:
    problem = problem_of("Material,Width,Height,Turn,Grain\nmdf,300,900,yes,yes\n")

    assert "a column for turn as well as one for grain" in problem.trouble


def test_a_list_without_materials_is_refused_once_and_not_for_every_row() -> None:
    problem = problem_of("Mark,Length\nU1,2400\nU2,2400\n")

    assert problem == Problem("parts.csv", "has no column 'material'", "Add it")


@pytest.mark.parametrize(
    ("cells", "trouble"),
    [
        (",,", "has neither a length nor a width and a height"),
        ("2400,300,", "has a length as well as a width or height"),
        ("2400,300,900", "has a length as well as a width or height"),
        (",300,", "has no height"),
        (",,900", "has no width"),
    ],
)
def test_a_row_that_is_neither_timber_nor_board_or_both_is_refused(
    cells: str, trouble: str
) -> None:
    problem = problem_of(f"Mark,Material,Length,Width,Height\nU1,c16,{cells}\n")

    assert problem.field == "parts.csv: row 2"
    assert problem.trouble == trouble
    assert problem.remedy == "Give length for timber, or width and height for a board"


def test_every_broken_cell_of_every_row_is_named_at_once() -> None:
    text = (
        "Mark;Material;Length;Width;Height;Qty;Turn\n"
        "U1;;abc;;;1.5;\n"
        "U2;c16;2400;;;1;\n"
        "B1;mdf;;-3;1.234,5;0;maybe\n"
        "U2;c16;1200;;;;\n"
    )

    fields = [problem.field.removeprefix("parts.csv: ") for problem in problems_of(text)]

    assert fields == [
        "row 2, column B 'Material'",
        "row 2, column C 'Length'",
        "row 2, column F 'Qty'",
        "row 4, column D 'Width'",
        "row 4, column E 'Height'",
        "row 4, column F 'Qty'",
        "row 4, column G 'Turn'",
        "row 5, column F 'Qty'",
        "part 'A/U2'",
    ]


def test_a_mark_on_a_timber_and_on_a_board_is_refused() -> None:
    problem = problem_of("Mark,Material,Length,Width,Height\nX,c16,2400,,\nX,mdf,,300,900\n")

    assert problem == Problem("parts.csv: part 'A/X'", "stands 2 times", "Give each its own mark")


def test_a_mark_too_long_beside_its_job_is_refused() -> None:
    problem = problem_of(f"Job,Mark,Material,Length\n{'j' * 60},{'m' * 60},c16,2400\n")

    assert problem.field == "parts.csv: row 2, column B 'Mark'"
    assert "is too long with its job before it" in problem.trouble


@pytest.mark.parametrize(
    ("cut_outs", "trouble"),
    [
        ("100 100 70", "'100 100 70' is not a rectangle"),
        ("100 100 70 70 70", "'100 100 70 70 70' is not a rectangle"),
        ("a b c d", "'a b c d' is not a rectangle"),
        ("0 0 -5 70", "'0 0 -5 70' is not a rectangle"),
        ("10 10 0 70", "'10 10 0 70' removes nothing"),
        ("250 10 60 70", "'250 10 60 70' reaches beyond the part"),
        ("10 850 60 70; 1 1 9 9", "'10 850 60 70' reaches beyond the part"),
        ("1 1 1 1;" * 101, "has 101 rectangles"),
    ],
)
def test_a_cut_out_that_cannot_be_is_refused(cut_outs: str, trouble: str) -> None:
    problem = problem_of(f'Material,Width,Height,Cut outs\nmdf,300,900,"{cut_outs}"\n')

    assert problem.field == "parts.csv: row 2, column D 'Cut outs'"
    assert problem.trouble == trouble


def test_a_cut_out_in_timber_is_refused() -> None:
    problem = problem_of("Material,Length,Cut_outs\nc16,2400,1 1 5 5\n")

    assert problem.trouble == "stands beside a length"


def test_texts_that_a_program_might_run_are_names_like_any_other() -> None:
    parts = a_list("Mark,Material,Length,Name\n=1+1,c16,2400,<script>alert(1)</script>\n")

    assert parts.lengths == (("c16", a_timber("A/=1+1", 24000, name="<script>alert(1)</script>")),)


MARKS = {"mark": ["Mark", "PART", "id"], "material": ["Material", "section", "BOARD"]}
WORDS = {
    **MARKS,
    "quantity": ["Qty", "quantity", "No", "PCS"],
    "name": ["Name", "description"],
    "turn": ["Turn", "may_turn"],
}
SIZE_WORDS = {"length": ["Length", "LEN", "l"], "width": ["Width", "w"], "height": ["HEIGHT", "h"]}
TEXTS = st.text("abcXYZ019 ,;\"'=<>&éø–", max_size=12).map(str.strip)
SIZES = st.integers(1, 200_000)


@st.composite
def part_lists(draw: st.DrawFn) -> PartList:
    lengths: list[tuple[str, LengthPart]] = []
    boards: list[tuple[str, BoardPart]] = []
    for number in range(draw(st.integers(1, 6))):
        material = draw(st.sampled_from(["c16-38x63", "mdf-12", "a b"]))
        id_, quantity, name = f"A/{number}", draw(st.integers(1, 1000)), draw(TEXTS)
        if draw(st.booleans()):
            lengths.append((material, a_timber(id_, draw(SIZES), quantity, name)))
        else:
            board = BoardPart(
                id=id_,
                job="A",
                width=Tenths(draw(SIZES)),
                height=Tenths(draw(SIZES)),
                quantity=quantity,
                turn=draw(st.booleans()),
                name=name,
            )
            boards.append((material, board))
    return PartList(lengths=tuple(lengths), boards=tuple(boards))


def a_number(size: int, unit: str, mark: str) -> str:
    """Write a size without trailing zeros, so that it has one meaning in any unit."""
    number = Decimal(size) / {"mm": 10, "cm": 100, "m": 10_000}[unit]
    return format(number.normalize(), "f").replace(".", mark)


def rows_of(parts: PartList, unit: str, mark: str) -> list[dict[str, str]]:
    rows = [
        {"material": material, "mark": part.id, "length": a_number(part.length, unit, mark)}
        | {"quantity": str(part.quantity), "name": part.name}
        for material, part in parts.lengths
    ]
    rows += [
        {"material": material, "mark": part.id, "turn": "yes" if part.turn else "no"}
        | {"width": a_number(part.width, unit, mark), "height": a_number(part.height, unit, mark)}
        | {"quantity": str(part.quantity), "name": part.name}
        for material, part in parts.boards
    ]
    return rows


@given(st.data(), part_lists())
def test_a_list_reads_back_equal_in_any_order_case_word_decimal_mark_separator_and_unit(
    data: st.DataObject, parts: PartList
) -> None:
    unit, decimal_mark, separator, style, in_header = (
        data.draw(st.sampled_from(["mm", "m"])),
        data.draw(st.sampled_from([".", ","])),
        data.draw(st.sampled_from([",", ";", "\t"])),
        data.draw(st.sampled_from(["{} ({})", "{}_{}", "{} [{}]", "{} {}"])),
        data.draw(st.booleans()),
    )
    headers = {name: data.draw(st.sampled_from(words)) for name, words in WORDS.items()}
    for name, words in SIZE_WORDS.items():
        word = data.draw(st.sampled_from(words))
        headers[name] = style.format(word, unit) if in_header else word
    headers = {
        name: data.draw(st.sampled_from([h, h.upper(), h.lower()])) for name, h in headers.items()
    }
    order = data.draw(st.permutations(list(headers)))
    file = io.StringIO(newline="")
    writer = csv.writer(file, delimiter=separator)
    writer.writerow(headers[name] for name in order)
    for row in rows_of(parts, unit, decimal_mark):
        if not in_header:
            row |= {name: f"{row[name]} {unit}" for name in SIZE_WORDS if name in row}
        writer.writerow(row.get(name, "") for name in order)

    assert a_list(file.getvalue()) == parts


@given(st.binary(max_size=300))
def test_no_bytes_do_more_than_be_refused(content: bytes) -> None:
    for raw in (content, b"Mark,Material,Length,Width,Height,Qty,Cut outs\n" + content):
        try:
            parts = read_part_list(raw, name="parts.csv")
        except InvalidInput as refusal:
            count = len(refusal.problems)
        else:
            count = len(parts.lengths) + len(parts.boards)
        assert count > 0


def test_a_column_says_by_how_much_a_part_may_be_smaller() -> None:
    parts = a_list(
        "Mark,Material,Length,Width,Height,Ease\n"
        "U1,c16,2281.5,,,3\nU2,c16,2281.5,,,\nU3,c16,2281.5,,,0\nB1,mdf,,300,900,2.5\n"
    )

    assert [part.ease for _, part in parts.lengths] == [30, 0, 0]
    assert [part.ease for _, part in parts.boards] == [25]


@pytest.mark.parametrize(
    ("ease", "trouble"),
    [("much", "'much' is not a size"), ("900", "900 is not below the height"), ("-1", "-1")],
)
def test_an_ease_that_leaves_nothing_is_refused_by_its_cell(ease: str, trouble: str) -> None:
    problem = problem_of(f"Mark,Material,Width,Height,May be smaller\nB1,mdf,1000,900,{ease}\n")

    assert trouble in problem.trouble
    assert "row 2" in problem.field
