"""What a batch costs at least, by reasons that other batches' plans gave."""

from __future__ import annotations

from fractions import Fraction
from typing import TypeAlias

import pytest

from optimiser.planning.batch_bounds import Grounds, proven_bound
from optimiser.planning.until import Trial
from tests.cutting_builders import (
    a_board_part,
    a_keep,
    a_request,
    a_sheet_material,
    a_stock_sheet,
)

# Of three boards a little over half a sheet high no two fit one sheet; by area two sheets would do.
MATERIAL = a_sheet_material(
    *(a_board_part(f"{job}/b", 1000, 510, job=job, turn=False) for job in "ABC"),
    stock=[a_stock_sheet("full", 1000, 1000, 700)],
    kerf=0,
)
KEEP = a_keep(width=5000, height=5000, credit=Fraction(0))


Rows: TypeAlias = tuple[tuple[int, ...], ...]


def a_trial(*, once: Rows = (), weights: Rows = ()) -> Trial:
    return Trial(2100, 2100, (), once=once, weights=weights)


@pytest.mark.parametrize("reasons", [{"once": ((1, 1, 1),)}, {"weights": ((1, 1, 1),)}])
def test_a_reason_by_parts_bounds_every_batch(reasons: dict[str, Rows]) -> None:
    grounds = Grounds(MATERIAL)
    grounds.learn(a_trial(), MATERIAL)
    assert grounds.least({"A", "B", "C"}) < 2100

    grounds.learn(a_trial(**reasons), MATERIAL)

    assert grounds.least({"A", "B", "C"}) == 2100
    assert grounds.least({"A", "C"}) == 1400
    assert grounds.least({"B"}) == 700


def test_a_reason_of_some_jobs_counts_stock_that_their_plan_was_not_to_use() -> None:
    own = a_sheet_material(
        a_board_part("A/b", 1000, 510, job="A", turn=False),
        stock=[a_stock_sheet("full", 1000, 1000, 700)],
        kerf=0,
    )
    cheap = a_sheet_material(
        *MATERIAL.parts, stock=[*MATERIAL.stock, a_stock_sheet("rest", 1000, 1100, 300)], kerf=0
    )
    grounds = Grounds(cheap)

    grounds.learn(a_trial(once=((1,),)), own)

    assert grounds.least({"A"}) == 300


def test_a_planned_batch_is_bounded_by_parts_wanted_once() -> None:
    request = a_request(MATERIAL, keep=KEEP)

    assert proven_bound(request, MATERIAL, a_trial()) < 2100
    assert proven_bound(request, MATERIAL, a_trial(once=((1, 1, 1),))) == 2100
