"""Alternatives: one option of each is cut, the cheaper one, and the bound holds for all."""

from __future__ import annotations

from dataclasses import replace
from itertools import count, product
from random import Random
from types import SimpleNamespace

import pytest

from optimiser.domain.request import Choice, CuttingRequest
from optimiser.planning.plan import plan_cutting
from optimiser.solvers import protocol
from optimiser.units import Pence
from optimiser.verify.check import check_plan
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


def some_choices(luck: Random) -> CuttingRequest:
    """Two or three choices of two or three options, each of lengths and boards of random sizes."""
    lengths = [a_length_part("stud", luck.randint(300, 900), luck.randint(1, 3))]
    boards = [a_board_part("back", luck.randint(200, 900), luck.randint(200, 900))]
    choices = []
    for name in "abc"[: luck.randint(2, 3)]:
        options = []
        for number in range(luck.randint(2, 3)):
            own = [f"{name}{number}/l", f"{name}{number}/b"][luck.randint(0, 1) :]
            for id_ in own:
                if id_.endswith("l"):
                    lengths.append(a_length_part(id_, luck.randint(200, 950), luck.randint(1, 2)))
                else:
                    boards.append(a_board_part(id_, luck.randint(200, 950), luck.randint(200, 950)))
            options.append(tuple(own))
        choices.append(Choice(id=name, options=tuple(options)))
    return a_request(
        a_length_material(
            *lengths, stock=[a_stock_length("1000", 1000, 90), a_stock_length("1500", 1500, 130)]
        ),
        a_sheet_material(*boards, stock=[a_stock_sheet("full", 1000, 1000, 100)]),
        choices=tuple(choices),
    )


@pytest.mark.parametrize("seed", [0, 1, 2, 3, 5, 6])
def test_small_joint_cases_cost_what_planning_every_way_to_choose_finds(
    seed: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The plain solvers plan each combination of options by itself: full enumeration.

    The clock counts its readings, so that a busy machine finds what a quiet one does.
    """
    work = count()
    clock = SimpleNamespace(monotonic=lambda: next(work) * 1e-3)
    monkeypatch.setitem(vars(protocol), "time", clock)
    request = replace(some_choices(Random(seed)), seconds=2.0)
    ways = product(*(range(len(choice.options)) for choice in request.choices))

    plan = plan_cutting(request)
    costs = {
        way: plan_cutting(replace(without_choices(request, way), seconds=1.0)).money.net
        for way in ways
    }

    assert plan.money.net == min(costs.values())
    assert plan.bound <= min(costs.values())
    assert costs[tuple(chosen.option for chosen in plan.chosen)] == plan.money.net
    assert plan.choices_saved >= 0


def test_a_plan_says_what_its_options_save_against_the_first() -> None:
    # By hand: 410 with the first option, 240 with the second.
    assert plan_cutting(a_choice_of_boards()).choices_saved == 170


def test_the_bound_holds_all_materials_to_the_same_option() -> None:
    # By hand: narrow boards take 3 studs and 1 sheet, wide ones 1 stud and 3 sheets; each material
    # by itself would take the other's cheap option, 1 stud and 1 sheet for 170.
    request = a_request(
        a_length_material(
            a_length_part("n-stud", 600, 3),
            a_length_part("w-stud", 600, 1),
            stock=[a_stock_length("1000", 1000, 70)],
        ),
        a_sheet_material(
            a_board_part("narrow", 900, 900, 1, turn=False),
            a_board_part("wide", 900, 900, 3, turn=False),
            stock=[a_stock_sheet("full", 1000, 1000, 100)],
        ),
        choices=(Choice(id="way", options=(("n-stud", "narrow"), ("w-stud", "wide"))),),
    )

    plan = plan_cutting(request)

    assert sum(item.bound for item in plan.materials) == 170
    assert plan.bound == plan.money.net == 310
    assert plan.proven
    false = replace(plan, bound=Pence(311), proven=False)
    assert any("proofs together" in fault.what for fault in check_plan(request, false))


@pytest.mark.parametrize("options", [1, 2])
def test_there_may_be_more_choices_than_a_table_has_sides(options: int) -> None:
    # By hand: 70 of 600 take 70 lengths of 1000; 70 of 500 take 35.
    material = a_length_material(
        *(a_length_part(f"long {n}", 600, 1) for n in range(70)),
        *(a_length_part(f"short {n}", 500, 1) for n in range(70) if options > 1),
        stock=[a_stock_length("1000", 1000, 70)],
        kerf=0,
        trim=0,
    )
    choices = tuple(
        Choice(id=f"c{n}", options=((f"long {n}",), (f"short {n}",))[:options]) for n in range(70)
    )
    request = a_request(material, choices=choices, seconds=1.0)

    plan = plan_cutting(request)

    assert plan.money.net == (4_900 if options == 1 else 2_450)
    assert plan.proven
    assert check_plan(request, plan) == ()
