"""What joint plans, continuations and deliveries refuse: field, value and remedy of each."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest

from optimiser.domain.marks import Mark, Marks, State
from optimiser.domain.request import Choice
from optimiser.errors import InvalidInput
from optimiser.formats.plan import plan_document, plan_from_document
from optimiser.planning.easing import near_misses
from optimiser.planning.plan import plan_cutting
from optimiser.planning.replan import replan
from optimiser.units import Tenths
from tests.cutting_builders import (
    a_board_part,
    a_cut_out,
    a_length_material,
    a_length_part,
    a_request,
    a_sheet_material,
    a_stock_length,
    a_stock_sheet,
)
from tests.planning.test_deliveries import a_timber_job, dealt

STUDS = a_request(
    a_length_material(a_length_part("stud", 600, 2), stock=[a_stock_length("1000", 1000)])
)


def a_choice_of_an_unknown_part() -> None:
    choice = Choice(id="way", options=(("stud",), ("door",)))
    plan_cutting(replace(STUDS, choices=(choice,)))


def cut_outs_that_go_round() -> None:
    """A plan read from a file that takes the front out of its own opening."""
    board = a_sheet_material(
        a_board_part("front", 900, 1800, cut_outs=(a_cut_out(100, 100, 600, 900),)),
        a_board_part("shelf", 500, 300),
        stock=[a_stock_sheet("s", 1000, 2000)],
    )
    eased = tuple(replace(part, ease=Tenths(5)) for part in board.parts)
    request = a_request(replace(board, use_cut_outs=True, parts=eased))
    document = plan_document(plan_cutting(request))
    for layout in document["sheets"][0]["layouts"]:
        if layout.get("cut_out") is None:
            layout |= {"stock": "front", "cut_out": 0}
    near_misses(request, plan_from_document(document, name="plan"))


def marks_beyond_the_plan() -> None:
    mark = Mark(material="timber", layout=9, state=State.CUT)
    replan(STUDS, plan_cutting(STUDS), Marks(marks=(mark,)))


def a_day_that_has_passed() -> None:
    dealt(a_timber_job("A", "2026-11-24", 11_000))


def a_window_without_a_day() -> None:
    # 6 December 2026 is a Sunday; with one day of storage only the Saturday is left.
    dealt(a_timber_job("A", "2026-12-06", 11_000), storage_days=1)


@pytest.mark.parametrize(
    ("asked", "field", "value", "remedy"),
    [
        (a_choice_of_an_unknown_part, "way", "door", "part"),
        (cut_outs_that_go_round, "board layout", "front", "Give the plan"),
        (marks_beyond_the_plan, "mark", "9", "Give"),
        (a_day_that_has_passed, "job 'A': needed", "2026-11-24", "from today on"),
        (a_window_without_a_day, "job 'A': needed", "storage_days is 1", "Store for longer"),
    ],
)
def test_bad_input_is_refused_with_field_value_and_remedy(
    asked: Callable[[], None], field: str, value: str, remedy: str
) -> None:
    with pytest.raises(InvalidInput) as caught:
        asked()

    told = [(one.field, one.trouble, one.remedy) for one in caught.value.problems]
    assert any(
        field in where and value in f"{where} {what}" and remedy in way for where, what, way in told
    ), told
