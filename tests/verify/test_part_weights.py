"""A bound proven by weights of whole parts: believed as far as the checker's own table goes."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import cache

import pytest

from optimiser.domain.plan import CuttingPlan, PartWeights, SheetPlan, SheetWeights
from optimiser.domain.request import Choice, CuttingRequest
from optimiser.planning.plan import plan_cutting
from optimiser.units import Pence
from optimiser.verify.board_bounds import MOST_REASONS, sheet_bound
from optimiser.verify.check import check_plan
from optimiser.verify.weighing import BadCertificate
from tests.cutting_builders import (
    a_board_part,
    a_keep,
    a_request,
    a_sheet_material,
    a_sheet_offcut,
    a_stock_sheet,
)


@cache
def pinwheel() -> tuple[CuttingRequest, CuttingPlan]:
    """Five parts with the area of one sheet, which cuts from edge to edge need two for.

    A common textbook pattern; by hand, a first cut would leave a strip that parts cannot fill.
    """
    request = a_request(
        a_sheet_material(
            a_board_part("flat", 30, 20, 2, turn=False),
            a_board_part("tall", 20, 30, 2, turn=False),
            a_board_part("middle", 10, 10, turn=False),
            stock=[a_stock_sheet("full", 50, 50, 100)],
        ),
        keep=a_keep(width=100, height=100),
        seconds=2.0,
    )
    plan = plan_cutting(request)
    # By hand: a sheet yields three of the long parts, whichever. The planner's own reason for so
    # small an order counts parts once, see test_wanted_once.py.
    tables = tuple(r for r in sheets_of(plan).certificate if isinstance(r, SheetWeights))
    by_hand: tuple[SheetWeights | PartWeights, ...] = (*tables, PartWeights(weights=(1, 1, 0)))
    return request, replace(plan, sheets=(replace(sheets_of(plan), certificate=by_hand),))


def sheets_of(plan: CuttingPlan) -> SheetPlan:
    return plan.sheets[0]


def changed(
    plan: CuttingPlan, change: Callable[[PartWeights], PartWeights], times: int = 1
) -> CuttingPlan:
    """Change the weights of parts in the certificate, and give them so many times."""
    sheets = sheets_of(plan)
    reasons = [
        change(reason) if isinstance(reason, PartWeights) else reason
        for reason in sheets.certificate
    ]
    return replace(plan, sheets=(replace(sheets, certificate=tuple(reasons) * times),))


def test_weights_of_whole_parts_prove_what_no_weights_of_sizes_do() -> None:
    request, plan = pinwheel()

    assert check_plan(request, plan) == ()
    assert plan.proven
    assert sheets_of(plan).bound == 200
    tables = tuple(r for r in sheets_of(plan).certificate if isinstance(r, SheetWeights))
    assert sheet_bound(request.sheets[0], request.keep, (), tables) == 100


def test_weights_twice_as_large_prove_the_same() -> None:
    request, plan = pinwheel()

    doubled = changed(plan, lambda r: replace(r, weights=tuple(2 * w for w in r.weights)))

    assert check_plan(request, doubled) == ()


@pytest.mark.parametrize(
    "change",
    [
        lambda r: replace(r, weights=(-1, *r.weights[1:])),
        lambda r: replace(r, weights=r.weights[:-1]),
        lambda r: replace(r, weights=(*r.weights, 1)),
        lambda r: replace(r, weights=tuple(w * 2**60 for w in r.weights)),
        lambda r: replace(r, weights=tuple(0 for _ in r.weights)),
        lambda r: replace(r, weights=(1, *(0 for _ in r.weights[1:]))),
        # By area the parts need one sheet.
        lambda r: replace(r, weights=(600, 600, 100)),
    ],
    ids=["below 0", "one too few", "one too many", "too large", "nothing", "one part", "area"],
)
def test_weights_tampered_with_are_refused(change: Callable[[PartWeights], PartWeights]) -> None:
    request, plan = pinwheel()

    assert check_plan(request, changed(plan, change)) != ()


def test_a_bound_raised_above_its_proof_is_refused() -> None:
    request, plan = pinwheel()
    raised = replace(sheets_of(plan), bound=Pence(201), proven=False)

    faults = check_plan(request, replace(plan, sheets=(raised,), bound=Pence(201), proven=False))

    assert any("the bound is given as 201, the proof yields 200" in fault.what for fault in faults)


def test_more_reasons_than_can_be_looked_into_are_refused() -> None:
    request, plan = pinwheel()

    with pytest.raises(BadCertificate, match="12 reasons at most"):
        sheet_bound(
            request.sheets[0],
            request.keep,
            (),
            changed(plan, lambda r: r, times=MOST_REASONS).sheets[0].certificate,
        )


def test_a_rack_offcut_and_a_lighter_option_lower_the_bound() -> None:
    request, plan = pinwheel()
    (material,) = request.sheets
    certificate = sheets_of(plan).certificate
    racked = replace(material, offcuts=(a_sheet_offcut("rack 1", 30, 20),))
    choice = Choice(id="which", options=(("flat",), ("middle",)))

    # The offcut is worth nothing and takes one part; four parts fit one sheet.
    assert sheet_bound(racked, request.keep, (), certificate) == 100
    # Without the flat ones the rest is less than one sheet.
    assert sheet_bound(material, request.keep, (choice,), certificate) == 100
