"""A material may have a keep rule of its own, in place of the request's."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from optimiser.domain.request import CuttingRequest
from optimiser.errors import InvalidInput
from optimiser.formats.request import request_document, request_from_document
from optimiser.planning.plan import plan_cutting
from optimiser.verify.check import check_plan
from tests.cutting_builders import (
    a_board_part,
    a_keep,
    a_length_material,
    a_length_part,
    a_request,
    a_sheet_material,
    a_stock_length,
    a_stock_sheet,
)

OWN = a_keep(300, 100, 100, Fraction(1, 2))


def a_request_with_its_own_rules() -> CuttingRequest:
    timber = a_length_material(a_length_part("upright", 700), stock=[a_stock_length("long", 1000)])
    board = a_sheet_material(
        a_board_part("back", 200, 300), stock=[a_stock_sheet("sheet", 300, 300, 90)]
    )
    return a_request(
        replace(timber, keep=OWN), replace(board, keep=OWN), keep=a_keep(600, 300, 300)
    )


def test_what_a_materials_own_rule_keeps_is_an_offcut_that_earns_its_credit() -> None:
    request = a_request_with_its_own_rules()

    plan = plan_cutting(request)

    assert [item.length for item in plan.lengths[0].layouts[0].offcuts] == [300]
    # 300 of a length of 1000 at 100 p, a third of a sheet at 90 p; half of each.
    assert plan.lengths[0].money.credit == 15
    assert plan.sheets[0].money.credit == 15
    assert plan.proven


def test_the_checker_holds_a_plan_against_the_materials_own_rule() -> None:
    request = a_request_with_its_own_rules()
    plan = plan_cutting(request)
    by_the_requests_rule = replace(
        request,
        lengths=tuple(replace(item, keep=None) for item in request.lengths),
        sheets=tuple(replace(item, keep=None) for item in request.sheets),
    )

    assert check_plan(request, plan) == ()
    faults = [fault.what for fault in check_plan(by_the_requests_rule, plan)]
    assert any("must list 30 mm" in what and "scrap" in what for what in faults)
    assert any("is scrap by the keep rule" in what for what in faults)


def test_without_credit_nothing_kept_earns_anything() -> None:
    request = a_request_with_its_own_rules().without_credit()

    assert plan_cutting(request).money.credit == 0
    assert request.lengths[0].keep == replace(OWN, credit=Fraction(0))


def test_a_materials_own_rule_is_written_and_read_back() -> None:
    request = a_request_with_its_own_rules()

    assert request_from_document(request_document(request)) == request


def test_an_own_rule_whose_credit_is_that_of_new_stock_is_refused_by_name() -> None:
    request = a_request_with_its_own_rules()
    dear = replace(request.lengths[0], keep=replace(OWN, credit=Fraction(1)))

    with pytest.raises(InvalidInput) as refused:
        plan_cutting(replace(request, lengths=(dear,)))

    assert [item.field for item in refused.value.problems] == ["timber: keep.credit"]
