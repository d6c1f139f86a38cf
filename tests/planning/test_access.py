"""What can be carried in to a job: other parts are refused, options that hold one are shut."""

from __future__ import annotations

from dataclasses import replace

import pytest

from optimiser.domain.request import Access, Choice, CuttingRequest
from optimiser.errors import InvalidInput
from optimiser.planning.plan import plan_cutting
from optimiser.units import Tenths
from optimiser.verify.check import check_plan
from tests.cutting_builders import (
    a_board_part,
    a_length_material,
    a_length_part,
    a_request,
    a_sheet_material,
    a_stock_length,
    a_stock_sheet,
)


def limited(
    request: CuttingRequest, *, length: int | None = None, board: tuple[int, int] | None = None
) -> CuttingRequest:
    sides = None if board is None else (Tenths(board[0]), Tenths(board[1]))
    limit = Access(job="job", length=None if length is None else Tenths(length), board=sides)
    return replace(request, access=(limit,))


def plates() -> CuttingRequest:
    """One plate of 36 in one piece, or joined from 20 and 16; both from stock of 36."""
    return a_request(
        a_length_material(
            a_length_part("whole", 36),
            a_length_part("left", 20),
            a_length_part("right", 16),
            stock=[a_stock_length("36", 36, 100), a_stock_length("20", 20, 70)],
        ),
        choices=(Choice(id="plate", options=(("whole",), ("left", "right"))),),
    )


def test_a_part_too_long_to_be_carried_in_is_refused_before_any_cutting() -> None:
    request = a_request(
        a_length_material(a_length_part("beam", 3_000), stock=[a_stock_length("36", 3_600)])
    )

    with pytest.raises(InvalidInput) as refusal:
        plan_cutting(limited(request, length=2_400))

    (problem,) = refusal.value.problems
    assert problem.field == "part 'beam'"
    assert problem.trouble == "is 300 long; job 'job' lets in 240 at most"
    assert "Join the part from two" in problem.remedy


@pytest.mark.parametrize(
    ("width", "height", "passes"), [(90, 40, True), (40, 90, True), (60, 60, False)]
)
def test_a_board_may_be_carried_either_way_round(width: int, height: int, *, passes: bool) -> None:
    request = limited(
        a_request(
            a_sheet_material(
                a_board_part("panel", width, height), stock=[a_stock_sheet("s", 100, 100)]
            )
        ),
        board=(100, 50),
    )

    if passes:
        assert check_plan(request, plan_cutting(request)) == ()
    else:
        with pytest.raises(InvalidInput, match="lets in 10 × 5 at most"):
            plan_cutting(request)


def test_the_cheaper_option_is_left_when_its_part_cannot_be_carried_in() -> None:
    assert [chosen.option for chosen in plan_cutting(plates()).chosen] == [0]

    plan = plan_cutting(limited(plates(), length=30))

    assert [chosen.option for chosen in plan.chosen] == [1]
    assert check_plan(limited(plates(), length=30), plan) == ()


def test_a_choice_of_which_no_option_can_be_carried_in_names_every_part_that_stops_one() -> None:
    with pytest.raises(InvalidInput) as refusal:
        plan_cutting(limited(plates(), length=18))

    (problem,) = refusal.value.problems
    assert problem.field == "choice 'plate'"
    assert "part 'whole' is 3.6 long" in problem.trouble
    assert "part 'left' is 2 long" in problem.trouble


def test_an_access_for_a_job_that_has_no_part_is_a_slip_of_the_pen() -> None:
    request = replace(plates(), access=(Access(job="jbo", length=Tenths(30)),))

    with pytest.raises(InvalidInput, match=r"access\[0\].job: 'jbo' has no part"):
        plan_cutting(request)


def test_the_checker_refuses_a_plan_with_parts_that_cannot_be_carried_in() -> None:
    request = a_request(
        a_length_material(a_length_part("beam", 3_000), stock=[a_stock_length("36", 3_600)]),
        a_sheet_material(a_board_part("panel", 90, 40), stock=[a_stock_sheet("s", 100, 100)]),
    )
    plan = plan_cutting(request)

    assert check_plan(limited(request, length=3_000, board=(40, 90)), plan) == ()
    assert [str(fault) for fault in check_plan(limited(request, length=2_999), plan)] == [
        "timber: part 'beam' cannot be carried in"
    ]
    assert [str(fault) for fault in check_plan(limited(request, board=(40, 89)), plan)] == [
        "board: part 'panel' cannot be carried in"
    ]
