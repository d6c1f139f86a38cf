"""A bound that holds because no part is cut more often than wanted: proven, told, tampered with."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import cache

import pytest

from optimiser.domain.plan import CuttingPlan, PartWeights
from optimiser.domain.request import CuttingRequest
from optimiser.formats.plan import plan_document, plan_from_document
from optimiser.planning.plan import plan_cutting
from optimiser.verify.board_bounds import sheet_bound
from optimiser.verify.check import check_plan
from optimiser.verify.wanted_once import TooManySets, WantedPart, most_of_sets
from tests.cutting_builders import a_board_part, a_keep, a_request, a_sheet_material, a_stock_sheet
from tests.solvers.sheets.test_sets import CLASS_5


@cache
def published() -> tuple[CuttingRequest, CuttingPlan]:
    request = a_request(
        a_sheet_material(
            *(
                a_board_part(f"p{place}", width, height, turn=False)
                for place, (width, height) in enumerate(CLASS_5)
            ),
            stock=[a_stock_sheet("full", 100, 100, 1000)],
        ),
        keep=a_keep(width=1000, height=1000),
        seconds=4.0,
    )
    return request, plan_cutting(request)


def changed(plan: CuttingPlan, change: Callable[[PartWeights], PartWeights]) -> CuttingPlan:
    sheets = plan.sheets[0]
    reasons = tuple(
        change(reason) if isinstance(reason, PartWeights) and reason.once else reason
        for reason in sheets.certificate
    )
    return replace(plan, sheets=(replace(sheets, certificate=reasons),))


def test_the_checker_proves_the_published_order_from_the_certificate() -> None:
    request, plan = published()

    assert check_plan(request, plan) == ()
    assert plan.proven
    assert plan.sheets[0].bound == 9000
    others = tuple(r for r in plan.sheets[0].certificate if not getattr(r, "once", False))
    assert sheet_bound(request.sheets[0], request.keep, (), others) == 8000


def test_a_plan_file_keeps_that_a_reason_counts_parts_once() -> None:
    request, plan = published()

    assert check_plan(request, plan_from_document(plan_document(plan))) == ()


@pytest.mark.parametrize(
    "change",
    [
        lambda r: replace(r, once=False),
        lambda r: replace(r, weights=r.weights[:-1]),
        lambda r: replace(r, weights=(-1, *r.weights[1:])),
        lambda r: replace(r, weights=tuple(0 for _ in r.weights)),
        lambda r: replace(r, weights=tuple(w * h for w, h in CLASS_5)),
    ],
    ids=["any number of each", "one too few", "below 0", "nothing", "area"],
)
def test_a_certificate_tampered_with_is_refused(
    change: Callable[[PartWeights], PartWeights],
) -> None:
    request, plan = published()

    assert check_plan(request, changed(plan, change)) != ()


def test_an_order_with_too_many_sets_is_not_believed() -> None:
    parts = [WantedPart(ways=((3 + n, 5),), weight=n + 1, quantity=9) for n in range(9)]

    with pytest.raises(TooManySets, match="too large"):
        most_of_sets(parts, [(100, 100)], pairs=20_000)
