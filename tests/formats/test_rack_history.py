"""What became of offcuts, read from a table."""

from __future__ import annotations

import pytest

from optimiser.domain.keeping import OffcutLife
from optimiser.errors import InvalidInput
from optimiser.formats.rack_history import read_rack_history
from optimiser.planning.days import day_number
from optimiser.units import tenths

HEADER = "id,material,length_mm,width_mm,height_mm,racked,ended,fate\n"


def read(rows: str) -> tuple[OffcutLife, ...]:
    return read_rack_history((HEADER + rows).encode(), name="history.csv")


def test_lengths_and_boards_come_with_their_days() -> None:
    found = read(
        "R1,c16,812.5,,,2026-03-02,2026-03-30,used\n"
        "R2,mdf-12,,610,900,2026-03-02,2026-09-01,thrown\n"
        "R3,c16,700,,,2026-04-01,,\n"
    )

    assert found == (
        OffcutLife(
            material="c16",
            size=(tenths("812.5"),),
            racked=day_number("2026-03-02"),
            ended=day_number("2026-03-30"),
            used=True,
        ),
        OffcutLife(
            material="mdf-12",
            size=(tenths(610), tenths(900)),
            racked=day_number("2026-03-02"),
            ended=day_number("2026-09-01"),
        ),
        OffcutLife(material="c16", size=(tenths(700),), racked=day_number("2026-04-01")),
    )


def test_a_header_alone_is_a_history_of_nothing() -> None:
    assert read("") == ()


@pytest.mark.parametrize(
    ("row", "where", "trouble"),
    [
        ("R1,c16,700,,,yesterday,,", "racked", "'yesterday' is not a date"),
        ("R1,c16,700,,,,,", "racked", "is empty"),
        ("R1,c16,700,,,2026-03-02,2026-03-30,", "row 2", "one of ended and fate"),
        ("R1,c16,700,,,2026-03-02,,used", "row 2", "one of ended and fate"),
        ("R1,c16,700,,,2026-03-02,2026-03-30,sold", "fate", "'sold' is neither"),
        ("R1,c16,700,300,,2026-03-02,,", "row 2", "either a length or a width and a height"),
        ("R1,c16,,,,2026-03-02,,", "row 2", "either a length or a width and a height"),
    ],
)
def test_a_row_that_cannot_be_read_is_named_with_its_cell(
    row: str, where: str, trouble: str
) -> None:
    with pytest.raises(InvalidInput) as refused:
        read(row + "\n")

    (problem,) = refused.value.problems
    assert where in problem.field
    assert trouble in problem.trouble
