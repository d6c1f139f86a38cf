"""Published and calculated figures of buying and cutting, each with its source."""

from __future__ import annotations

import pytest

from optimiser.domain.plan import SheetLayout
from optimiser.domain.request import Cutting
from optimiser.formats.request_documents import KeepDocument
from optimiser.planning.order import fewest_pence, order_for
from optimiser.planning.plan import plan_cutting
from tests.cutting_builders import (
    a_board_part,
    a_length_material,
    a_length_part,
    a_request,
    a_sheet_material,
    a_stock_length,
    a_stock_sheet,
    stock_used,
)
from tests.planning.jobs_builders import a_book, a_job, a_length_item, a_pack

# Corners 2 × 2387 and the mouth of a recess 2 × (1499 + 869): whole pieces, mitred.
BEADS = {2_387: 2, 1_499: 2, 869: 2}


def test_tape_for_38_m_of_joints_and_a_tenth_more_is_one_roll() -> None:
    # Rolls of 90 m: from memory; 41.8 m calculated.
    roll = a_pack("90", 90_000, 710)

    assert fewest_pence([roll], 38_000 * 110 // 100) == [(roll, 1, roll.price)]


@pytest.mark.parametrize("size", [2_400, 3_000])
def test_beads_of_two_corners_and_a_recess_come_from_four_lengths(size: int) -> None:
    # Calculated: from 2.4 m the sides of the mouth pair, 1499 + 869 = 2368; from 3.0 m no plan has
    # three, for 9 510 are needed of 9 000.
    parts = [a_length_part(str(length), length * 10, count) for length, count in BEADS.items()]
    stock = [a_stock_length("bead", size * 10)]

    plan = plan_cutting(a_request(a_length_material(*parts, stock=stock)))

    assert sum(length * count for length, count in BEADS.items()) == 9_510
    assert stock_used(plan) == {"bead": 4}


def test_twelve_at_4_79_are_68_98_with_vat() -> None:
    # 20 %: GOV.UK, VAT for builders. Calculated: 57.48, VAT 11.496 rounded half up.
    stock = a_stock_length("2400", 24_000, 479)
    parts = [a_length_part("a", 24_000, 12, job="A")]
    plan = plan_cutting(a_request(a_length_material(*parts, stock=[stock])))

    order = order_for(plan, (a_job("A", lengths=parts),), a_book(lengths=[a_length_item(stock)]))

    assert (order.net, order.vat, order.total) == (5_748, 1_150, 6_898)


def test_a_board_is_kept_from_300_on_by_default() -> None:
    # Trade press 2015, a school project with offcut stores: 300; that it is the short side is our
    # reading.
    keep = KeepDocument()

    assert (keep.width_mm, keep.height_mm) == (3_000, 3_000)


@pytest.mark.parametrize(("sides", "left"), [(2, (500, 2_387)), (3, (150, 2_387))])
def test_box_sides_of_350_by_2387_come_from_one_board(sides: int, left: tuple[int, int]) -> None:
    # Calculated: a board of 1200 × 2400 scored and snapped gives two sides of a box, or three.
    side = a_board_part("side", 3_500, 23_870, sides, turn=False)
    stock = [a_stock_sheet("board", 12_000, 24_000)]
    material = a_sheet_material(side, stock=stock, cutting=Cutting.KNIFE)

    plan = plan_cutting(a_request(material))

    assert stock_used(plan) == {"board": 1}
    (layout,) = plan.sheets[0].layouts
    assert isinstance(layout, SheetLayout)
    rest = {(one.width // 10, one.height // 10) for one in (*layout.offcuts, *layout.scrap)}
    # What lies above the sides, 13 high, may stay with the rest or with them.
    assert left in rest or (left[0], 2_400) in rest
