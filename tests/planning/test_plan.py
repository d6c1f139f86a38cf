"""What the planner owes the trade: the cheapest stock, every rule at the saw, plain refusals."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from optimiser.domain.request import Cutting
from optimiser.errors import NoPlan
from optimiser.planning.plan import plan_cutting
from tests.cutting_builders import (
    a_board_part,
    a_cut_out,
    a_keep,
    a_length_material,
    a_length_offcut,
    a_length_part,
    a_request,
    a_sheet_material,
    a_sheet_offcut,
    a_stock_length,
    a_stock_sheet,
    stock_used,
)


def test_the_cheapest_mix_of_stock_lengths_is_bought() -> None:
    # Gilmore and Gomory 1961 (from memory): 2 × 20, 3 × 10, 4 × 20 cost 170 at least.
    request = a_request(
        a_length_material(
            a_length_part("two", 2, 20),
            a_length_part("three", 3, 10),
            a_length_part("four", 4, 20),
            stock=[
                a_stock_length("5", 5, 6),
                a_stock_length("6", 6, 7),
                a_stock_length("9", 9, 10),
            ],
        )
    )

    plan = plan_cutting(request)

    assert (plan.money.purchase, plan.money.net, plan.bound, plan.proven) == (170, 170, 170, True)


def test_scarce_cheap_stock_is_used_up_before_dear_stock_is_bought() -> None:
    # By hand: five parts, one per length; two at 50, the other three at 80.
    request = a_request(
        a_length_material(
            a_length_part("stud", 600, 5),
            stock=[
                a_stock_length("cheap", 1000, 50, available=2),
                a_stock_length("dear", 1000, 80),
            ],
        )
    )

    plan = plan_cutting(request)

    assert stock_used(plan) == {"cheap": 2, "dear": 3}
    assert (plan.money.net, plan.proven) == (340, True)


def test_a_rack_offcut_is_used_before_new_stock_for_it_is_worth_less() -> None:
    # By hand: half of 100 p a metre for 600 mm is 30 p, against 100 p for a new length.
    request = a_request(
        a_length_material(
            a_length_part("noggin", 6000),
            stock=[a_stock_length("metre", 10_000, 100)],
            offcuts=[a_length_offcut("rack 1", 6000)],
        ),
        keep=a_keep(length=9000, credit=Fraction(1, 2)),
    )

    plan = plan_cutting(request)

    assert stock_used(plan) == {"rack 1": 1}
    assert (plan.money.purchase, plan.money.offcuts_used, plan.money.net) == (0, 30, 30)


def test_a_board_offcut_from_the_rack_is_used_first_too() -> None:
    request = a_request(
        a_sheet_material(
            a_board_part("panel", 500, 400, turn=False),
            stock=[a_stock_sheet("full", 1000, 1000, 100)],
            offcuts=[a_sheet_offcut("rack 1", 500, 400)],
        ),
        keep=a_keep(credit=Fraction(1, 2)),
    )

    plan = plan_cutting(request)

    # By hand: half of 100 p for a fifth of the sheet.
    assert stock_used(plan) == {"rack 1": 1}
    assert plan.money.net == 10


@pytest.mark.parametrize(("kerf", "lengths"), [(0, 1), (1, 2)])
def test_the_kerf_between_two_parts_decides_whether_they_fit_one_length(
    kerf: int, lengths: int
) -> None:
    request = a_request(
        a_length_material(
            a_length_part("half", 500, 2), stock=[a_stock_length("1000", 1000)], kerf=kerf
        )
    )

    assert stock_used(plan_cutting(request)) == {"1000": lengths}


def test_no_kerf_is_paid_where_the_last_part_ends_with_the_stock() -> None:
    # By hand: 498 + 4 + 498 = 1000.
    request = a_request(
        a_length_material(
            a_length_part("half", 498, 2), stock=[a_stock_length("1000", 1000)], kerf=4
        )
    )

    plan = plan_cutting(request)

    (layout,) = plan.lengths[0].layouts
    assert [cut.at for cut in layout.cuts] == [498]
    assert (plan.lengths[0].usage.kerf, plan.lengths[0].usage.scrap) == (4, 0)


@pytest.mark.parametrize(("trim", "lengths"), [(10, 1), (11, 2)])
def test_both_ends_are_trimmed_before_a_part_is_cut(trim: int, lengths: int) -> None:
    request = a_request(
        a_length_material(
            a_length_part("half", 490, 2), stock=[a_stock_length("1000", 1000)], trim=trim
        )
    )

    plan = plan_cutting(request)

    assert stock_used(plan) == {"1000": lengths}
    assert plan.lengths[0].usage.trim == 2 * trim * lengths
    assert plan.lengths[0].layouts[0].parts[0].start == trim


@pytest.mark.parametrize(("keep", "kept"), [(397, [397]), (398, [])])
def test_a_remainder_goes_on_the_rack_from_the_keep_length_on(keep: int, kept: list[int]) -> None:
    # By hand: 1000 - 600 - 3 leaves 397.
    request = a_request(
        a_length_material(
            a_length_part("part", 600), stock=[a_stock_length("1000", 1000, 100)], kerf=3
        ),
        keep=a_keep(length=keep, credit=Fraction(1, 2)),
    )

    plan = plan_cutting(request)

    (layout,) = plan.lengths[0].layouts
    assert [left.length for left in layout.offcuts] == kept
    assert [left.length for left in layout.scrap] == ([] if kept else [397])
    # Half of 39.7 p, rounded down.
    assert plan.money.credit == (19 if kept else 0)
    assert plan.money.net == 100 - plan.money.credit


def test_credit_makes_the_longer_stock_worth_its_price() -> None:
    # By hand: 700 from the 700 at 85 p; from the 1000 at 100 p 300 are kept for 0.9 · 30 = 27 p.
    request = a_request(
        a_length_material(
            a_length_part("part", 700),
            stock=[a_stock_length("700", 700, 85), a_stock_length("1000", 1000, 100)],
        ),
        keep=a_keep(length=300, credit=Fraction(9, 10)),
    )

    plan = plan_cutting(request)

    assert stock_used(plan) == {"1000": 1}
    assert plan.money.net == 73


def test_parts_of_several_jobs_share_a_length_and_keep_their_job() -> None:
    request = a_request(
        a_length_material(
            a_length_part("a/stud", 600, job="a"),
            a_length_part("b/stud", 400, job="b"),
            stock=[a_stock_length("1000", 1000)],
        )
    )

    plan = plan_cutting(request)

    (layout,) = plan.lengths[0].layouts
    assert [(placed.part, placed.job) for placed in layout.parts] == [
        ("a/stud", "a"),
        ("b/stud", "b"),
    ]


def test_equal_lengths_are_cut_by_one_layout_with_a_count() -> None:
    request = a_request(
        a_length_material(a_length_part("half", 500, 8), stock=[a_stock_length("1000", 1000)])
    )

    (layout,) = plan_cutting(request).lengths[0].layouts

    assert (layout.count, len(layout.parts)) == (4, 2)


def test_what_is_cut_out_of_a_board_part_is_scrap() -> None:
    request = a_request(
        a_sheet_material(
            a_board_part("panel", 1000, 500, turn=False, cut_outs=(a_cut_out(100, 100, 50, 60),)),
            stock=[a_stock_sheet("half", 1000, 500)],
        )
    )

    usage = plan_cutting(request).sheets[0].usage

    assert (usage.part, usage.scrap, usage.total) == (497_000, 3_000, 500_000)


@pytest.mark.parametrize(("turn", "sheets"), [(True, 1), (False, 2)])
def test_the_grain_decides_whether_three_boards_come_from_one_sheet(
    turn: bool, sheets: int
) -> None:
    # By hand: turned, 800 × 1220 stand three across 2440; with the grain two fill a row.
    request = a_request(
        a_sheet_material(
            a_board_part("board", 1220, 800, 3, turn=turn),
            stock=[a_stock_sheet("full", 2440, 1220)],
        )
    )

    plan = plan_cutting(request)

    assert stock_used(plan) == {"full": sheets}
    assert {placed.turned for layout in plan.sheets[0].layouts for placed in layout.parts} == {turn}


def test_two_stages_forbid_the_third_turn_of_the_saw() -> None:
    # By hand: a strip of 600, and beside it 400 divided in two that leave no third size:
    # one sheet needs rip, crosscut and rip again for the two of 200 × 300.
    request = a_request(
        a_sheet_material(
            a_board_part("tall", 600, 1000, turn=False),
            a_board_part("wide", 400, 700, turn=False),
            a_board_part("small", 200, 300, 2, turn=False),
            stock=[a_stock_sheet("full", 1000, 1000)],
        )
    )

    free = plan_cutting(request)
    narrow = plan_cutting(replace(request, sheets=(replace(request.sheets[0], max_stages=2),)))

    assert stock_used(free) == {"full": 1}
    assert stock_used(narrow) == {"full": 2}


def test_a_knife_takes_nothing_away() -> None:
    request = a_request(
        a_sheet_material(
            a_board_part("quarter", 600, 1200, 4, turn=False),
            stock=[a_stock_sheet("board", 1200, 2400)],
            cutting=Cutting.KNIFE,
        )
    )

    plan = plan_cutting(request)

    assert stock_used(plan) == {"board": 1}
    assert plan.sheets[0].usage.kerf == 0


def test_too_little_stock_is_no_plan_and_names_the_parts_left_over() -> None:
    request = a_request(
        a_length_material(
            a_length_part("plate", 900, 3), stock=[a_stock_length("1000", 1000, available=2)]
        ),
    )

    with pytest.raises(NoPlan) as refusal:
        plan_cutting(request)

    enough, problem = refusal.value.problems
    assert "1 × '1000'" in enough.remedy
    assert "timber: part 'plate'" in problem.field
    assert "1 of 3 × 90 are left over" in problem.trouble
    assert "Add stock" in problem.remedy


def test_too_few_sheets_is_no_plan_and_names_the_parts_left_over() -> None:
    request = a_request(
        a_sheet_material(
            a_board_part("panel", 900, 900, 3), stock=[a_stock_sheet("s", 1000, 1000, available=2)]
        ),
    )

    with pytest.raises(NoPlan, match=r"part 'panel': 1 of 3 × 90 × 90 are left over"):
        plan_cutting(request)


def test_a_material_without_parts_is_answered_with_no_layout() -> None:
    request = a_request(
        a_length_material(stock=[a_stock_length("1000", 1000)], material="unused"),
        a_length_material(a_length_part("a", 900), stock=[a_stock_length("1000", 1000)]),
        a_sheet_material(stock=[a_stock_sheet("s", 10, 10)]),
    )

    plan = plan_cutting(request)

    assert [item.material for item in plan.materials] == ["unused", "timber", "board"]
    assert not plan.lengths[0].layouts
    assert not plan.sheets[0].layouts
    assert plan.proven


def test_a_rack_offcut_that_its_trim_eats_up_is_left_on_the_rack() -> None:
    request = a_request(
        a_length_material(
            a_length_part("a", 900),
            stock=[a_stock_length("1000", 1000)],
            offcuts=[a_length_offcut("r", 80, trim=40)],
        ),
        a_sheet_material(
            a_board_part("b", 900, 900),
            stock=[a_stock_sheet("s", 1000, 1000)],
            offcuts=[a_sheet_offcut("r", 80, 500, trim=40)],
        ),
    )

    assert stock_used(plan_cutting(request)) == {"1000": 1, "s": 1}
