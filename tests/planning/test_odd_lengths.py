"""Odd orders of lengths: planned rightly, or refused with field, value and remedy."""

from __future__ import annotations

import json

import pytest

from optimiser.errors import InvalidInput
from optimiser.formats.request import read_request
from optimiser.planning.plan import plan_cutting
from optimiser.verify.check import check_plan
from tests.cutting_builders import (
    a_length_material,
    a_length_offcut,
    a_length_part,
    a_request,
    a_stock_length,
    stock_used,
)


def test_a_thousand_million_parts_are_refused_with_the_limit() -> None:
    request = a_request(
        a_length_material(a_length_part("nogging", 600, 10**9), stock=[a_stock_length("s", 1_000)])
    )

    with pytest.raises(
        InvalidInput, match=r"1000000000 parts in all\. Plan at most 1000000 at once"
    ):
        plan_cutting(request)


def test_the_same_quantity_in_a_document_is_refused_with_its_field() -> None:
    part = {"id": "p", "job": "j", "length_mm": 600, "quantity": 10**9}
    document = {"lengths": [{"material": "m", "parts": [part]}]}

    with pytest.raises(InvalidInput) as refusal:
        read_request(json.dumps(document))

    assert any("quantity" in problem.field for problem in refusal.value.problems)


def test_a_million_different_lengths_are_refused_with_the_limit() -> None:
    """Twenty-one thousand stand for them: the limit is 20,000."""
    parts = [a_length_part(f"p{n}", 1_000 + n) for n in range(21_000)]
    request = a_request(a_length_material(*parts, stock=[a_stock_length("s", 30_000)]))

    with pytest.raises(InvalidInput, match=r"21000 different parts\. Plan at most 20000"):
        plan_cutting(request)


def test_stock_that_costs_nothing_is_used_before_stock_that_costs() -> None:
    request = a_request(
        a_length_material(
            a_length_part("stud", 900, 5),
            stock=[a_stock_length("paid", 1_000, 100), a_stock_length("free", 1_000, 0, 3)],
        )
    )

    plan = plan_cutting(request)

    assert check_plan(request, plan) == ()
    assert stock_used(plan) == {"free": 3, "paid": 2}
    assert plan.proven


def test_where_all_stock_is_free_the_plan_costs_nothing_and_wastes_no_pieces() -> None:
    request = a_request(
        a_length_material(a_length_part("stud", 400, 4), stock=[a_stock_length("free", 1_000, 0)])
    )

    plan = plan_cutting(request)

    assert check_plan(request, plan) == ()
    assert (plan.money.net, plan.proven) == (0, True)
    assert stock_used(plan) == {"free": 2}


def test_an_offcut_longer_than_any_stock_serves_the_part_that_no_stock_holds() -> None:
    request = a_request(
        a_length_material(
            a_length_part("beam", 5_000),
            a_length_part("stud", 900),
            stock=[a_stock_length("s", 1_000)],
            offcuts=[a_length_offcut("R1", 5_200)],
        )
    )

    plan = plan_cutting(request)

    assert check_plan(request, plan) == ()
    assert stock_used(plan) == {"R1": 1, "s": 1}


def test_a_kerf_larger_than_a_part_is_paid_like_any_other() -> None:
    """Parts of 2 with a kerf of 3 from 20: n parts need 2n + 3(n − 1), so four fit."""
    request = a_request(
        a_length_material(a_length_part("packer", 20, 9), stock=[a_stock_length("s", 200)], kerf=30)
    )

    plan = plan_cutting(request)

    assert check_plan(request, plan) == ()
    assert stock_used(plan) == {"s": 3}
    assert plan.proven


def test_a_trim_that_leaves_nothing_of_a_stock_is_refused_with_the_stock_it_eats() -> None:
    request = a_request(
        a_length_material(
            a_length_part("stud", 100), stock=[a_stock_length("short", 1_000)], trim=500
        )
    )

    with pytest.raises(InvalidInput) as refusal:
        plan_cutting(request)

    assert any(
        problem.field == "lengths[0].end_trim_mm"
        and "leaves nothing of stock 'short'" in problem.trouble
        for problem in refusal.value.problems
    )
