"""When stock is short: which parts are left over, what would be enough, and that less would not."""

from __future__ import annotations

from dataclasses import replace

import pytest

from optimiser.domain.request import CuttingRequest, LengthMaterial, SheetMaterial
from optimiser.errors import NoPlan, Problem
from optimiser.planning.plan import plan_cutting
from tests.cutting_builders import (
    a_board_part,
    a_length_material,
    a_length_offcut,
    a_length_part,
    a_request,
    a_sheet_material,
    a_stock_length,
    a_stock_sheet,
)


def shortage_of(*materials: LengthMaterial | SheetMaterial) -> tuple[Problem, ...]:
    with pytest.raises(NoPlan) as refusal:
        plan_cutting(a_request(*materials, seconds=1.0))
    return refusal.value.problems


def with_available(request: CuttingRequest, available: int) -> CuttingRequest:
    (material,) = request.lengths
    stock = tuple(replace(item, available=available) for item in material.stock)
    return replace(request, lengths=(replace(material, stock=stock),))


def test_the_pieces_that_are_missing_are_counted_and_no_fewer_would_do() -> None:
    """Seven of 49 from lengths of 125, two a length: four are needed, two are there."""
    material = a_length_material(
        a_length_part("stud", 49, 7), stock=[a_stock_length("125", 125, available=2)]
    )

    enough, left_over = shortage_of(material)

    assert enough.field == "timber"
    assert enough.trouble == "the stock is short of 2 pieces, and fewer cannot do"
    assert enough.remedy == "With 2 × '125' more everything is cut: make that available"
    assert left_over.field == "timber: part 'stud'"
    assert left_over.trouble.startswith("3 of 7 × 4.9 are left over")
    # What is said is true: with three in all there is no plan, with four there is.
    with pytest.raises(NoPlan):
        plan_cutting(with_available(a_request(material), 3))
    assert plan_cutting(with_available(a_request(material), 4)).money.purchase == 400


def test_of_two_sizes_the_one_that_needs_fewer_more_pieces_is_named() -> None:
    enough, *_ = shortage_of(
        a_length_material(
            a_length_part("stud", 40, 6),
            stock=[
                a_stock_length("45", 45, 10, available=1),
                a_stock_length("125", 125, 90, available=1),
            ],
        )
    )

    assert enough.trouble == "the stock is short of 1 piece, and fewer cannot do"
    assert "1 × '125'" in enough.remedy


def test_boards_that_are_missing_are_counted_likewise() -> None:
    enough, left_over = shortage_of(
        a_sheet_material(
            a_board_part("panel", 60, 60, 3), stock=[a_stock_sheet("s", 100, 100, available=1)]
        )
    )

    assert enough.remedy == "With 2 × 's' more everything is cut: make that available"
    assert left_over.trouble.startswith("2 of 3 × 6 × 6 are left over")


def test_where_nothing_can_be_bought_only_the_parts_left_over_are_named() -> None:
    (left_over,) = shortage_of(
        a_length_material(a_length_part("stud", 40, 3), offcuts=[a_length_offcut("R1", 90)])
    )

    assert left_over.field == "timber: part 'stud'"
    assert left_over.trouble.startswith("1 of 3 × 4 are left over: the stock and the rack cannot")


def test_of_many_parts_left_over_a_few_are_named_where_more_stock_serves_them_all() -> None:
    """Twelve parts, each more than half a length, and one length: eleven are left over."""
    enough, *left_over = shortage_of(
        a_length_material(
            *(a_length_part(f"t{n}", 700 + n) for n in range(12)),
            stock=[a_stock_length("1000", 1000, available=1)],
        )
    )

    assert "11 × '1000'" in enough.remedy
    assert [problem.field.startswith("timber: part") for problem in left_over] == [True] * 5 + [
        False
    ]
    assert left_over[-1].trouble == "6 more parts are left over like these"


def test_where_no_stock_helps_every_part_left_over_is_named() -> None:
    left_over = shortage_of(
        a_length_material(
            *(a_length_part(f"t{n}", 700 + n) for n in range(12)),
            offcuts=[a_length_offcut("R1", 1000)],
        )
    )

    assert len(left_over) == 11
    assert len({problem.field for problem in left_over}) == 11
