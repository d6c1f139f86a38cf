"""An eased request may differ from what was asked by the parts' ease, and in nothing else."""

from __future__ import annotations

from dataclasses import replace

import pytest

from optimiser.domain.parts import BoardPart
from optimiser.domain.request import SheetMaterial
from optimiser.units import Tenths
from optimiser.verify.easing import check_easing
from tests.cutting_builders import a_board_part, a_cut_out, a_sheet_material, a_stock_sheet

PART = replace(
    a_board_part("side", 6000, 9000, cut_outs=(a_cut_out(100, 100, 5880, 500),)),
    ease=Tenths(30),
)


def material(part: BoardPart = PART, kerf: int = 30) -> SheetMaterial:
    return a_sheet_material(part, stock=[a_stock_sheet("B", 12200, 24400)], kerf=kerf)


def test_easings_within_the_ease_pass() -> None:
    eased = material(replace(PART, width=Tenths(5980), height=Tenths(8970)))

    assert check_easing(material(), eased) == ()


@pytest.mark.parametrize(
    ("eased", "said"),
    [
        (material(replace(PART, height=Tenths(8969))), "its ease is 3"),
        (material(replace(PART, height=Tenths(9001))), "its ease is 3"),
        (material(replace(PART, width=Tenths(5979))), "no longer holds its cut-outs"),
        (material(replace(PART, quantity=2)), "more than its size"),
        (material(replace(PART, turn=False)), "more than its size"),
        (material(replace(PART, id="other")), "not those that were asked"),
        (material(kerf=0), "stock or rules were changed"),
    ],
)
def test_anything_else_is_named(eased: SheetMaterial, said: str) -> None:
    (fault,) = check_easing(material(), eased)

    assert said in fault.what
