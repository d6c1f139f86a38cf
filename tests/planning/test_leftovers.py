"""What a rack saves over a row of orders, against the trend in published studies.

Source, from memory: Cherri, Arenales, Yanasse, Poldi and Vianna, "The one-dimensional cutting stock
problem with usable leftovers: a survey", European Journal of Operational Research 236 (2014): where
leftovers above a least length go back to stock, less is bought over a row of periods, by some per
cent and not by multiples. The limits below are our own reading of that.
"""

from __future__ import annotations

from fractions import Fraction
from random import Random

import pytest

from optimiser.domain.stock import LengthOffcut
from optimiser.planning.plan import plan_cutting
from optimiser.units import Tenths
from tests.cutting_builders import (
    a_keep,
    a_length_material,
    a_length_part,
    a_request,
    a_stock_length,
)

KEPT = 600
ORDERS = 12


def bought(seed: int, *, racked: bool) -> int:
    """Plan small orders of lengths one after the other, what the rule keeps lying there after."""
    luck = Random(seed)
    rack: list[LengthOffcut] = []
    total = 0
    for order in range(ORDERS):
        parts = [
            a_length_part(f"{order}/{n}", luck.randrange(400, 2_400), luck.randint(1, 3))
            for n in range(4)
        ]
        stock = [a_stock_length("4800", 4_800, 480)]
        request = a_request(
            a_length_material(*parts, stock=stock, offcuts=rack, kerf=3),
            keep=a_keep(length=KEPT, credit=Fraction(1, 2)),
            seconds=0.3,
        )
        plan = plan_cutting(request).lengths[0]
        total += plan.money.purchase
        if racked:
            used = {layout.stock for layout in plan.layouts if layout.offcut}
            rack = [piece for piece in rack if piece.id not in used] + [
                LengthOffcut(id=f"R{order}.{number}.{copy}.{place}", length=Tenths(left.length))
                for number, layout in enumerate(plan.layouts)
                for copy in range(layout.count)
                for place, left in enumerate(layout.offcuts)
            ]
    return total


@pytest.mark.parametrize("seed", [4, 5])
def test_leftovers_that_go_back_to_stock_save_some_of_it(seed: int) -> None:
    without = bought(seed, racked=False)
    saved = 1 - bought(seed, racked=True) / without

    assert 0.01 < saved < 0.3
