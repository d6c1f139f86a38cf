"""Rows of weights that rule out every plan below a cost: proven, told, tampered with."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from functools import cache

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from optimiser.domain.plan import CuttingPlan, PartWeights
from optimiser.domain.request import Choice, CuttingRequest
from optimiser.formats.plan import plan_document, plan_from_document
from optimiser.planning.plan import plan_cutting
from optimiser.solvers.sheets.pool import step_of
from optimiser.solvers.sheets.problem import SheetsProblem
from optimiser.solvers.sheets.table import Kind, kinds_of
from optimiser.units import Pence
from optimiser.verify.board_bounds import sheet_bound
from optimiser.verify.check import check_plan
from optimiser.verify.filling import Rectangle, most_weights
from optimiser.verify.narrowed import NarrowPart, NarrowSheet, rules_out
from optimiser.verify.wanted_once import TooManySets
from optimiser.verify.weighing import BadCertificate
from tests.cutting_builders import a_board_part, a_keep, a_request, a_sheet_material, a_stock_sheet
from tests.solvers.sheets.exact import least_cost
from tests.solvers.sheets.test_decide import CLASS_7, decided, small_orders


@cache
def published() -> tuple[CuttingRequest, CuttingPlan]:
    request = a_request(
        a_sheet_material(
            *(
                a_board_part(f"p{place}", width, height, turn=True)
                for place, (width, height) in enumerate(CLASS_7)
            ),
            stock=[a_stock_sheet("full", 100, 100, 1000)],
        ),
        keep=a_keep(width=1000, height=1000),
        seconds=6.0,
    )
    return request, plan_cutting(request)


def narrowing(plan: CuttingPlan) -> tuple[PartWeights, ...]:
    reasons = plan.sheets[0].certificate
    return tuple(r for r in reasons if isinstance(r, PartWeights) and r.below)


def changed(
    plan: CuttingPlan, change: Callable[[tuple[PartWeights, ...]], tuple[PartWeights, ...]]
) -> CuttingPlan:
    sheets = plan.sheets[0]
    rows = narrowing(plan)
    others = tuple(reason for reason in sheets.certificate if reason not in rows)
    certificate = (*others, *change(rows))
    return replace(plan, sheets=(replace(sheets, certificate=certificate),))


def test_the_checker_proves_six_sheets_which_no_other_reason_does() -> None:
    request, plan = published()

    assert check_plan(request, plan) == ()
    assert plan.proven
    assert plan.sheets[0].bound == 6000
    others = changed(plan, lambda _: ()).sheets[0].certificate
    assert sheet_bound(request.sheets[0], request.keep, (), others) == 5000


def test_a_plan_file_keeps_what_the_rows_speak_of() -> None:
    request, plan = published()

    assert check_plan(request, plan_from_document(plan_document(plan))) == ()


@pytest.mark.parametrize(
    "change",
    [
        lambda rows: rows[:1],
        lambda rows: rows[1:],
        lambda rows: tuple(replace(r, below=Pence(7000)) for r in rows),
        lambda rows: (rows[0], *(replace(r, below=Pence(5000)) for r in rows[1:])),
        lambda rows: tuple(replace(r, below=Pence(-1)) for r in rows),
        lambda rows: tuple(replace(r, once=False) for r in rows),
        lambda rows: tuple(replace(r, once=False, scale=1) for r in rows),
        lambda rows: tuple(replace(r, weights=r.weights[:-1]) for r in rows),
        lambda rows: tuple(replace(r, weights=(-1, *r.weights[1:])) for r in rows),
        lambda rows: (rows[0], *(replace(r, weights=(1,) * len(r.weights)) for r in rows[1:])),
        lambda rows: (replace(rows[0], weights=tuple(w * h for w, h in CLASS_7)), *rows[1:]),
        lambda rows: (*rows[:-1], replace(rows[-1], weights=(1 << 70, *rows[-1].weights[1:]))),
    ],
    ids=[
        "the first row alone", "without the first", "of dearer plans", "of other plans",
        "of none", "any number of each", "as prices", "one too few", "below 0", "all alike",
        "area first", "too heavy",
    ],
)  # fmt: skip
def test_rows_tampered_with_are_refused(
    change: Callable[[tuple[PartWeights, ...]], tuple[PartWeights, ...]],
) -> None:
    request, plan = published()

    assert check_plan(request, changed(plan, change)) != ()


def test_rows_do_not_speak_of_boards_with_a_choice() -> None:
    request, plan = published()
    choices = (Choice(id="lining", options=(("p0",), ("p1",))),)

    with pytest.raises(BadCertificate, match="without a choice"):
        sheet_bound(request.sheets[0], request.keep, choices, narrowing(plan))


def test_an_order_with_too_many_sets_is_not_believed() -> None:
    parts = [NarrowPart(((3 + n, 5),), (n + 1,) * 2, 9) for n in range(9)]
    sheets = [NarrowSheet(100, 100, Fraction(1), None, 400)]

    with pytest.raises(TooManySets, match="too large"):
        rules_out(parts, sheets, Fraction(2), pairs=20_000)


def the_parts(kinds: tuple[Kind, ...], rows: list[tuple[int, ...]]) -> list[NarrowPart]:
    return [
        NarrowPart(
            ((k.width, k.height), (k.height, k.width))[: 2 if k.turns else 1],
            tuple(row[place] for row in rows),
            k.demand,
        )
        for place, k in enumerate(kinds)
    ]


def the_sheets(problem: SheetsProblem, parts: list[NarrowPart]) -> list[NarrowSheet]:
    rooms = [(s.width + problem.kerf, s.height + problem.kerf) for s in problem.sheets]
    lying = [Rectangle(*way, part.weights[0]) for part in parts for way in part.ways]
    return [
        NarrowSheet(*room, Fraction(sheet.cost), sheet.available, most)
        for room, sheet, most in zip(rooms, problem.sheets, most_weights(lying, rooms), strict=True)
    ]


@settings(max_examples=60, deadline=None, derandomize=True)
@given(small_orders())
def test_the_checker_follows_what_the_solver_rules_out(problem: SheetsProblem) -> None:
    least = least_cost(problem)
    assume(least is not None)
    assert least is not None

    rows = list(decided(problem, least).rows)

    assume(rows)
    parts = the_parts(kinds_of(problem), rows)
    step = step_of(problem)
    most = Fraction((least - 1) // step * step)
    assert rules_out(parts, the_sheets(problem, parts), most)


@settings(max_examples=150, deadline=None, derandomize=True)
@given(
    small_orders(),
    st.lists(st.lists(st.integers(0, 9), min_size=4, max_size=4), min_size=1, max_size=3),
)
def test_no_rows_rule_out_a_plan_that_there_is(
    problem: SheetsProblem, weights: list[list[int]]
) -> None:
    least = least_cost(problem)
    assume(least is not None)
    assert least is not None
    kinds = kinds_of(problem)
    by_area = tuple(kind.width * kind.height for kind in kinds)
    rows = [by_area, *(tuple(row[: len(kinds)]) for row in weights)]

    for first in (0, 1):
        parts = the_parts(kinds, rows[first:])
        assert not rules_out(parts, the_sheets(problem, parts), Fraction(least))
