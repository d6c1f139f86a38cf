"""Alternatives: one option of each is cut, the cheaper one, and the bound holds for all."""

from __future__ import annotations

from dataclasses import replace
from itertools import product

from optimiser.domain.request import Choice, CuttingRequest
from optimiser.planning.plan import plan_cutting
from tests.cutting_builders import (
    a_board_part,
    a_length_material,
    a_length_part,
    a_request,
    a_sheet_material,
    a_stock_length,
    a_stock_sheet,
    layouts_of,
)


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
