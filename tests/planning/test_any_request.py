"""Whatever is asked within reason: a refusal in words, or a plan that passes the checker."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from hypothesis import event, given, settings
from hypothesis import strategies as st

from optimiser.domain.parts import CutOut
from optimiser.domain.plan import CuttingPlan
from optimiser.domain.request import (
    Choice,
    CuttingRequest,
    Keep,
    LengthMaterial,
    SheetMaterial,
)
from optimiser.errors import InvalidInput, NoPlan, Problem
from optimiser.planning.plan import plan_cutting
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
    size_of_stock_used,
)

AVAILABLE = st.one_of(st.none(), st.none(), st.integers(0, 6))
PRICE = st.integers(0, 500)
JOBS = st.sampled_from(("a", "b"))


@st.composite
def some_timber(draw: st.DrawFn) -> LengthMaterial:
    sizes = draw(st.lists(st.integers(20, 400), min_size=1, max_size=6))
    if draw(st.integers(0, 5)) == 5:
        sizes.append(700)
    return a_length_material(
        *(
            a_length_part(f"t{n}", size, draw(st.integers(1, 5)), job=draw(JOBS))
            for n, size in enumerate(sizes)
        ),
        stock=[
            a_stock_length(f"stock {n}", size, draw(PRICE), draw(AVAILABLE))
            for n, size in enumerate(draw(st.lists(st.integers(480, 1000), min_size=1, max_size=3)))
        ],
        offcuts=[
            a_length_offcut(f"rack {n}", size, draw(st.sampled_from((0, 0, 30))))
            for n, size in enumerate(draw(st.lists(st.integers(40, 800), max_size=3)))
        ],
        kerf=draw(st.sampled_from((0, 3, 30))),
        trim=draw(st.sampled_from((0, 0, 5, 40))),
    )


@st.composite
def some_cut_outs(draw: st.DrawFn, width: int, height: int) -> tuple[CutOut, ...]:
    if not draw(st.booleans()):
        return ()
    x, y = draw(st.integers(0, width - 2)), draw(st.integers(0, height - 2))
    return (a_cut_out(x, y, draw(st.integers(1, width - x)), draw(st.integers(1, height - y))),)


@st.composite
def some_boards(draw: st.DrawFn) -> SheetMaterial:
    parts = []
    for n in range(draw(st.integers(1, 6))):
        width, height = draw(st.integers(10, 140)), draw(st.integers(10, 190))
        parts.append(
            a_board_part(
                f"b{n}",
                width,
                height,
                draw(st.integers(1, 5)),
                turn=draw(st.booleans()),
                cut_outs=draw(some_cut_outs(width, height)),
                job=draw(JOBS),
            )
        )
    sides = st.tuples(st.integers(150, 400), st.integers(200, 500))
    return a_sheet_material(
        *parts,
        stock=[
            a_stock_sheet(f"stock {n}", width, height, draw(PRICE), draw(AVAILABLE))
            for n, (width, height) in enumerate(draw(st.lists(sides, min_size=1, max_size=2)))
        ],
        offcuts=[
            a_sheet_offcut(f"rack {n}", width, height, draw(st.sampled_from((0, 0, 20))))
            for n, (width, height) in enumerate(
                draw(st.lists(st.tuples(st.integers(20, 300), st.integers(20, 300)), max_size=2))
            )
        ],
        kerf=draw(st.sampled_from((0, 3, 20))),
        trim=draw(st.sampled_from((0, 0, 5))),
        max_stages=draw(st.sampled_from((None, None, 1, 2, 3))),
    )


@st.composite
def some_keep(draw: st.DrawFn) -> Keep:
    return a_keep(
        draw(st.integers(50, 900)),
        draw(st.integers(20, 300)),
        draw(st.integers(20, 300)),
        draw(st.sampled_from((Fraction(0), Fraction(1, 2), Fraction(9, 10), Fraction(2, 3)))),
    )


@st.composite
def some_request(draw: st.DrawFn) -> CuttingRequest:
    materials: list[LengthMaterial | SheetMaterial] = []
    kinds = draw(st.sampled_from(("lengths", "sheets", "both")))
    if kinds != "sheets":
        materials.append(draw(some_timber()))
    if kinds != "lengths":
        materials.append(draw(some_boards()))
    own = draw(st.one_of(st.none(), some_keep()))
    materials[0] = replace(materials[0], keep=own)
    ids = [part.id for material in materials for part in material.parts]
    choices: tuple[Choice, ...] = ()
    if len(ids) > 1 and draw(st.booleans()):
        middle = len(ids) // 2
        choices = (Choice(id="which", options=((ids[0],), (ids[middle],), ())),)
    return a_request(
        *materials,
        keep=draw(some_keep()),
        choices=choices,
        seconds=draw(st.sampled_from((0.05, 0.1, 0.2))),
        seed=draw(st.integers(0, 9)),
    )


def planned(request: CuttingRequest) -> tuple[CuttingPlan | None, tuple[Problem, ...]]:
    """Return the plan, or None and what the refusal says."""
    try:
        return plan_cutting(request), ()
    except (InvalidInput, NoPlan) as refusal:
        event(type(refusal).__name__)
        return None, refusal.problems


@settings(max_examples=150, deadline=None, derandomize=True)
@given(some_request())
def test_any_request_is_refused_in_words_or_planned_and_passes_the_checker(
    request: CuttingRequest,
) -> None:
    plan, problems = planned(request)
    if plan is None:
        assert problems
        assert all(problem.field and problem.trouble for problem in problems)
        return
    event("planned")

    assert check_plan(request, plan) == ()
    assert [item.usage.total for item in plan.materials] == size_of_stock_used(request, plan)
    assert plan.bound <= plan.money.net
    assert all(item.bound <= item.money.net for item in plan.materials)
