"""What the planner owes the trade: the cheapest stock, every rule at the saw, plain refusals."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from itertools import product
from typing import Any

import pytest

from optimiser.domain.plan import CuttingPlan
from optimiser.domain.request import Choice, Cutting, CuttingRequest
from optimiser.errors import NoPlan
from optimiser.planning import plan as planning
from optimiser.planning.plan import plan_cutting
from optimiser.solvers.protocol import Budget, Status
from optimiser.verify.check import check_plan
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
    layouts_of,
    stock_used,
)


def timeless(plan: CuttingPlan) -> CuttingPlan:
    """The plan without the seconds it took."""
    return replace(
        plan,
        seconds=0.0,
        lengths=tuple(replace(item, seconds=0.0) for item in plan.lengths),
        sheets=tuple(replace(item, seconds=0.0) for item in plan.sheets),
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
    assert layouts_of(plan)[0].parts[0] == replace(plan.lengths[0].layouts[0].parts[0], start=trim)


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

    (problem,) = refusal.value.problems
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


def a_choice_of_boards() -> CuttingRequest:
    """Board a wall with two wide boards or three narrow ones, at the same time plan the studs."""
    return a_request(
        a_length_material(
            a_length_part("stud", 600, 2),
            a_length_part("joint stud", 600, 1),
            stock=[a_stock_length("1000", 1000, 70)],
        ),
        a_sheet_material(
            a_board_part("narrow", 400, 1000, 3, turn=False),
            a_board_part("wide", 500, 1000, 2, turn=False),
            stock=[a_stock_sheet("full", 1000, 1000, 100)],
        ),
        choices=(Choice(id="boarding", options=(("narrow", "joint stud"), ("wide",))),),
    )


def without_choices(request: CuttingRequest, options: tuple[int, ...]) -> CuttingRequest:
    """The same request with the parts of these options only."""
    optional = {id_ for choice in request.choices for option in choice.options for id_ in option}
    wanted = {
        id_
        for choice, option in zip(request.choices, options, strict=True)
        for id_ in choice.options[option]
    }
    dropped = optional - wanted
    return replace(
        request,
        choices=(),
        lengths=tuple(
            replace(item, parts=tuple(part for part in item.parts if part.id not in dropped))
            for item in request.lengths
        ),
        sheets=tuple(
            replace(item, parts=tuple(part for part in item.parts if part.id not in dropped))
            for item in request.sheets
        ),
    )


def test_the_cheaper_option_is_cut_and_the_bound_holds_for_every_option() -> None:
    request = a_choice_of_boards()

    plan = plan_cutting(request)
    each = [plan_cutting(without_choices(request, (option,))).money.net for option in (0, 1)]

    # By hand: 3 studs and 2 sheets are 410; 2 studs and 1 sheet 240.
    assert each == [410, 240]
    assert (plan.chosen[0].option, plan.money.net) == (1, 240)
    assert plan.bound <= 240
    assert not any(
        placed.part in ("narrow", "joint stud")
        for layout in layouts_of(plan)
        for placed in layout.parts
    )


def test_two_choices_are_decided_together_and_never_dearer_than_one_at_a_time() -> None:
    request = a_request(
        a_length_material(
            a_length_part("a0", 700),
            a_length_part("a1", 350, 2),
            a_length_part("b0", 600),
            a_length_part("b1", 300),
            stock=[a_stock_length("1000", 1000, 100)],
        ),
        choices=(
            Choice(id="a", options=(("a0",), ("a1",))),
            Choice(id="b", options=(("b0",), ("b1",))),
        ),
    )

    plan = plan_cutting(request)
    costs = {
        options: plan_cutting(without_choices(request, options)).money.net
        for options in product((0, 1), repeat=2)
    }

    assert plan.money.net == min(costs.values()) == 100
    assert plan.bound <= min(costs.values())
    assert costs[plan.chosen[0].option, plan.chosen[1].option] == plan.money.net


def test_an_option_may_be_to_cut_nothing() -> None:
    request = replace(
        a_choice_of_boards(),
        choices=(
            Choice(id="boarding", options=(("narrow", "joint stud"), ())),
            Choice(id="second", options=(("wide",), ())),
        ),
    )

    plan = plan_cutting(request)

    assert [chosen.option for chosen in plan.chosen] == [1, 1]
    assert plan.sheets[0].layouts == ()
    assert plan.money.net == 140


def test_another_option_is_cut_where_the_stock_cannot_yield_the_first() -> None:
    request = a_request(
        a_length_material(
            a_length_part("long", 900, 3),
            a_length_part("short", 450, 3),
            stock=[a_stock_length("1000", 1000, 100, available=2)],
        ),
        choices=(Choice(id="which", options=(("long",), ("short",))),),
    )

    plan = plan_cutting(request)

    assert plan.chosen[0].option == 1
    assert plan.money.net == 200


def test_the_bound_counts_a_part_that_an_option_names_twice_but_once() -> None:
    request = a_request(
        a_length_material(a_length_part("a", 900), stock=[a_stock_length("1000", 1000, 100)]),
        choices=(Choice(id="which", options=(("a", "a"),)),),
    )

    plan = plan_cutting(request)

    assert plan.bound <= plan.money.net == 100


def test_a_material_without_parts_is_answered_with_no_layout() -> None:
    request = a_request(
        a_length_material(stock=[a_stock_length("1000", 1000)], material="unused"),
        a_length_material(a_length_part("a", 900), stock=[a_stock_length("1000", 1000)]),
        a_sheet_material(stock=[a_stock_sheet("s", 10, 10)]),
    )

    plan = plan_cutting(request)

    assert [item.material for item in plan.materials] == ["unused", "timber", "board"]
    assert plan.lengths[0].layouts == plan.sheets[0].layouts == ()
    assert plan.proven


def a_day_of_work(seed: int = 5) -> CuttingRequest:
    return a_request(
        a_length_material(
            a_length_part("stud", 2400, 9, job="a"),
            a_length_part("plate", 3600, 4, job="a"),
            a_length_part("noggin", 560, 11, job="b"),
            stock=[a_stock_length("4800", 4800, 400), a_stock_length("3600", 3600, 310)],
            offcuts=[a_length_offcut("rack 1", 1400)],
            kerf=3,
            trim=5,
        ),
        a_sheet_material(
            a_board_part("panel", 600, 1100, 5, turn=False),
            a_board_part("strip", 150, 900, 4, cut_outs=(a_cut_out(20, 20, 60, 60),)),
            stock=[a_stock_sheet("full", 1220, 2440, 1800)],
            offcuts=[a_sheet_offcut("rack 2", 700, 1150)],
            kerf=3,
            trim=10,
        ),
        keep=a_keep(length=1000, width=300, height=600, credit=Fraction(1, 2)),
        seed=seed,
        seconds=2.0,
    )


def test_the_same_request_and_seed_give_the_same_proven_plan() -> None:
    request = a_request(
        a_length_material(
            a_length_part("stud", 2400, 9),
            a_length_part("noggin", 560, 8),
            stock=[a_stock_length("4800", 4800, 400), a_stock_length("3000", 3000, 310)],
        ),
        a_sheet_material(
            a_board_part("panel", 600, 1200, 8), stock=[a_stock_sheet("full", 1200, 2400, 1800)]
        ),
        seed=7,
    )

    first, second = plan_cutting(request), plan_cutting(request)

    assert first.proven
    assert timeless(first) == timeless(second)
    assert first.seed == 7


def test_whoever_watches_sees_checked_plans_that_never_get_dearer() -> None:
    request = a_day_of_work()
    seen: list[CuttingPlan] = []

    plan = plan_cutting(request, watch=seen.append)

    assert seen
    assert seen[-1] == plan
    assert all(check_plan(request, each) == () for each in seen)
    costs = [each.money.net for each in seen]
    assert costs == sorted(costs, reverse=True)


def test_a_plan_comes_even_in_no_time_at_all() -> None:
    request = replace(a_day_of_work(), seconds=0.0)

    plan = plan_cutting(request)

    assert check_plan(request, plan) == ()


@pytest.mark.parametrize("solver", ["solve_lengths", "solve_sheets"])
def test_a_plan_that_is_not_found_at_first_glance_gets_the_time_that_is_left(
    solver: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Given scarce stock whose first plan takes longer than the quick pass, it is found later."""
    solve = getattr(planning, solver)

    def slow(problem: Any, *, budget: Budget, seed: int) -> Any:
        found = solve(problem, budget=budget, seed=seed)
        if budget.seconds <= planning.QUICK:
            return replace(found, status=Status.UNKNOWN, patterns=(), missing=problem.demands)
        return found

    monkeypatch.setattr(planning, solver, slow)
    request = a_request(
        a_length_material(
            a_length_part("stud", 600, 2), stock=[a_stock_length("1000", 1000, available=2)]
        ),
        a_sheet_material(
            a_board_part("panel", 600, 600, 2), stock=[a_stock_sheet("s", 1000, 1000, available=2)]
        ),
    )

    plan = plan_cutting(request)

    assert stock_used(plan) == {"1000": 2, "s": 2}


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
