"""What the saw asks for, end to end: trims of each edge, the first cut, pieces as marked."""

from __future__ import annotations

from dataclasses import replace

import pytest

from optimiser.domain.plan import SheetLayout
from optimiser.domain.request import CuttingRequest, Direction
from optimiser.domain.stock import EdgeTrim
from optimiser.planning.plan import plan_cutting
from optimiser.units import Tenths
from optimiser.verify.check import check_plan
from tests.cutting_builders import (
    a_board_part,
    a_request,
    a_sheet_material,
    a_sheet_offcut,
    a_stock_sheet,
)


def sheet_layouts(request: CuttingRequest) -> tuple[SheetLayout, ...]:
    plan = plan_cutting(request)
    assert check_plan(request, plan) == ()
    return plan.sheets[0].layouts


@pytest.mark.parametrize(
    ("trim", "sheets"),
    [
        (EdgeTrim(), 1),
        (EdgeTrim(right=Tenths(10), top=Tenths(1)), 1),
        (EdgeTrim(left=Tenths(6), right=Tenths(5)), 2),
        (EdgeTrim(bottom=Tenths(1), top=Tenths(1)), 2),
    ],
)
def test_only_the_edges_named_are_trimmed(trim: EdgeTrim, sheets: int) -> None:
    # Two side by side leave 10 of the width; a third above them leaves 1 of the height.
    material = a_sheet_material(
        a_board_part("upright", 45, 30, 2, turn=False),
        a_board_part("level", 89, 19, turn=False),
        stock=[a_stock_sheet("s", 100, 50)],
    )

    layouts = sheet_layouts(a_request(replace(material, edge_trim=trim)))

    assert sum(layout.count for layout in layouts) == sheets


def test_parts_lie_inside_the_trimmed_edges() -> None:
    trim = EdgeTrim(left=Tenths(4), bottom=Tenths(2), top=Tenths(1))
    material = replace(
        a_sheet_material(a_board_part("panel", 30, 20, 6), stock=[a_stock_sheet("s", 100, 50)]),
        edge_trim=trim,
    )

    for layout in sheet_layouts(a_request(material)):
        for part in layout.parts:
            assert part.x >= 4
            assert part.y >= 2
            assert part.x + part.width <= 100
            assert part.y + part.height <= 49


@pytest.mark.parametrize("first", Direction)
def test_every_sheet_is_begun_with_the_cut_that_the_saw_asks_for(first: Direction) -> None:
    material = replace(
        a_sheet_material(
            a_board_part("long", 70, 20, 3),
            a_board_part("short", 25, 30, 4),
            a_board_part("square", 20, 20, 5),
            stock=[a_stock_sheet("s", 100, 50)],
        ),
        first_cut=first,
    )

    layouts = sheet_layouts(a_request(material))

    assert {layout.cuts[0].direction for layout in layouts} == {first.value}


def test_a_first_cut_may_cost_a_sheet() -> None:
    # One above the other the two fill the sheet; no rip can part boards of nearly its width.
    free = a_sheet_material(
        a_board_part("wide", 90, 25, turn=False),
        a_board_part("wider", 95, 25, turn=False),
        stock=[a_stock_sheet("s", 95, 50), a_stock_sheet("t", 100, 25)],
    )

    crossed = sheet_layouts(a_request(free))
    ripped = sheet_layouts(a_request(replace(free, first_cut=Direction.RIP)))

    assert [(layout.stock, layout.count) for layout in crossed] == [("s", 1)]
    assert sum(layout.count for layout in ripped) == 2
    assert all(layout.cuts[0].direction == "rip" for layout in ripped)


def test_a_square_part_with_grain_is_never_turned() -> None:
    # Turned or not it fits alike, so only the mark in the plan tells; grain must not cross.
    material = a_sheet_material(
        a_board_part("door", 40, 40, 5, turn=False),
        a_board_part("shelf", 60, 40, 2),
        stock=[a_stock_sheet("s", 100, 50)],
    )

    placed = [part for layout in sheet_layouts(a_request(material)) for part in layout.parts]

    assert not any(part.turned for part in placed if part.part == "door")


def test_a_rack_offcut_larger_than_any_sheet_sold_is_used() -> None:
    material = a_sheet_material(
        a_board_part("large", 150, 80),
        stock=[a_stock_sheet("s", 100, 50)],
        offcuts=[a_sheet_offcut("r", 160, 90)],
    )

    (layout,) = sheet_layouts(a_request(material))

    assert (layout.stock, layout.offcut) == ("r", True)
