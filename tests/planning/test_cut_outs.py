"""Cut-outs as stock: by hand at the saw, by brute force, and what is refused."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from optimiser.domain.job import JobShare
from optimiser.domain.parts import BoardPart
from optimiser.domain.request import Cutting, CuttingRequest, SheetMaterial
from optimiser.drawing.sheets import draw_sheet_layout
from optimiser.errors import InvalidInput
from optimiser.formats.plan import plan_document, plan_from_document
from optimiser.formats.request import request_document, request_from_document
from optimiser.formats.saw_document import saw_document
from optimiser.planning.plan import plan_cutting
from optimiser.planning.shares import job_shares
from optimiser.units import Tenths
from tests.cutting_builders import (
    a_board_part,
    a_cut_out,
    a_keep,
    a_request,
    a_sheet_material,
    a_stock_sheet,
)


def a_fitters_case(*, use: bool = True, cutting: Cutting = Cutting.SAW) -> CuttingRequest:
    """A front of a whole 1220 × 2440 board with a 1000 × 600 opening for a fire, and two shelves.

    Worked by hand (common practice, no source): 5 mm off each of four sawn sides leaves 990 × 590.
    Two shelves of 980 × 290 with one kerf of 3 between them need 980 × 583: they fit. A saw takes
    two sheets without the cut-out, one with it.
    """
    board = a_sheet_material(
        a_board_part("front", 12_200, 24_400, cut_outs=(a_cut_out(1_100, 3_000, 10_000, 6_000),)),
        a_board_part("shelf", 9_800, 2_900, 2, job="other"),
        stock=[a_stock_sheet("sheet", 12_200, 24_400, 2_400)],
        kerf=30 if cutting is Cutting.SAW else 0,
        cutting=cutting,
    )
    return a_request(replace(board, use_cut_outs=use))


@pytest.mark.parametrize("cutting", list(Cutting))
def test_two_shelves_come_out_of_the_opening_for_the_fire(cutting: Cutting) -> None:
    plan = plan_cutting(a_fitters_case(cutting=cutting))

    sheet, opening = plan.sheets[0].layouts
    assert (sheet.stock, sheet.cut_out) == ("sheet", None)
    assert (opening.stock, opening.cut_out) == ("front", 0)
    assert [part.part for part in opening.parts] == ["shelf", "shelf"]
    assert plan.money.net == plan.bound == 2_400
    assert plan_cutting(a_fitters_case(use=False)).money.net == 4_800
    if cutting is Cutting.KNIFE:
        assert sheet.cut_outs[0].shape == "window"
        assert len(sheet.cut_outs[0].saw) == 4


def test_a_millimetre_more_and_the_shelves_do_not_fit() -> None:
    request = a_fitters_case()
    board = request.sheets[0]
    front, shelf = board.parts
    tall = replace(
        request, sheets=(replace(board, parts=(front, replace(shelf, height=Tenths(2_940)))),)
    )

    assert plan_cutting(tall).money.net == 4_800


def test_cut_outs_of_as_many_parts_as_are_cut_serve_once_each() -> None:
    back = a_board_part("back", 1_000, 1_000, 2, cut_outs=(a_cut_out(0, 0, 500, 500),))
    small = a_board_part("small", 400, 400, 3)
    board = a_sheet_material(back, small, stock=[a_stock_sheet("sheet", 1_000, 1_000, 100)])
    plan = plan_cutting(a_request(replace(board, use_cut_outs=True)))

    freed = [layout for layout in plan.sheets[0].layouts if layout.cut_out is not None]
    assert sum(layout.count for layout in freed) == 2
    assert plan.money.net == plan.bound == 300


def test_what_is_left_of_a_cut_out_goes_on_the_rack_by_the_keep_rule() -> None:
    back = a_board_part("back", 1_000, 1_000, cut_outs=(a_cut_out(0, 0, 900, 500),))
    small = a_board_part("small", 300, 450)
    board = a_sheet_material(back, small, stock=[a_stock_sheet("sheet", 1_000, 1_000, 1_000)])
    keep = a_keep(width=400, height=400, credit=Fraction(1, 2))
    plan = plan_cutting(a_request(replace(board, use_cut_outs=True), keep=keep))

    (left,) = plan.sheets[0].layouts[1].offcuts
    # 900 − 50 across and 500 − 50 up; half of 0.001 pence for each square tenth.
    assert (left.width, left.height) == (550, 450)
    assert plan.money.credit == 550 * 450 // 2_000
    assert plan.money.net == 1_000 - 123


def test_jobs_pay_by_their_net_area_wherever_it_came_from() -> None:
    request = a_fitters_case()
    plan = plan_cutting(request)

    shares = job_shares(request, plan)

    by_job = {share.job: share for share in shares}
    front, shelves = 12_200 * 24_400 - 6_000 * 10_000, 2 * 9_800 * 2_900
    assert isinstance(by_job["other"], JobShare)
    assert by_job["other"].areas == (("board", shelves),)
    assert sum(share.cost for share in shares) == 2_400
    assert abs(by_job["other"].cost - 2_400 * shelves / (front + shelves)) <= 1


def test_plan_and_request_are_read_back_as_they_were_written() -> None:
    request = a_fitters_case()
    plan = plan_cutting(request)

    assert plan_from_document(plan_document(plan)) == plan
    assert request_from_document(request_document(request)) == request


def test_diagrams_say_where_a_piece_comes_from_and_which_cut_out_to_keep() -> None:
    request = a_fitters_case()
    board = request.sheets[0]
    layouts = plan_cutting(request).sheets[0].layouts
    donor, freed = (
        draw_sheet_layout(layout, board, number=n, of=2, title="T", layouts=layouts)
        for n, layout in enumerate(layouts, start=1)
    )

    assert "from cut-out 1 of front" in freed
    at_the_saw = saw_document(request, plan_cutting(request))["layouts"]
    assert [one["stock"] for one in at_the_saw] == ["sheet", "cut-out 1 of front"]
    assert "Keep whole: parts come from it" in donor
    assert "plunge in" in donor


def test_an_allowance_below_the_kerf_is_refused() -> None:
    request = a_fitters_case()
    thin = replace(request, sheets=(replace(request.sheets[0], cut_out_trim=Tenths(20)),))

    with pytest.raises(InvalidInput, match="less than the kerf"):
        plan_cutting(thin)


Rect = tuple[int, int]


def _cuttable(size: Rect, parts: tuple[BoardPart, ...], kerf: int) -> bool:
    """Return whether cuts from edge to edge free all the parts from one piece, by trying them."""
    if not parts:
        return True
    for part in parts:
        for across, along in ((part.width, part.height), (part.height, part.width)):
            if across > size[0] or along > size[1]:
                continue
            others = tuple(one for one in parts if one is not part)
            far, up = size[0] - across - kerf, size[1] - along - kerf
            ways: tuple[tuple[Rect, Rect], ...] = (
                ((far, size[1]), (across, up)),
                ((far, along), (size[0], up)),
            )
            for (one, two), side in product(ways, product((0, 1), repeat=len(others))):
                first = tuple(p for p, at in zip(others, side, strict=True) if at == 0)
                second = tuple(p for p, at in zip(others, side, strict=True) if at == 1)
                if _cuttable(one, first, kerf) and _cuttable(two, second, kerf):
                    return True
    return False


def _fewest_sheets(board: SheetMaterial) -> int:
    """Deal the parts to sheets and cut-outs in every way: the sheets of the best one.

    Corner placement is general enough for three parts on a piece: some cut runs beside one that
    lies in a corner.
    """
    sheet = board.stock[0]
    parts = board.parts
    homes: list[tuple[BoardPart | None, Rect]] = [
        (None, (sheet.width, sheet.height)) for _ in parts
    ]
    for part in parts:
        for hole in part.cut_outs:
            trim = board.trim_of_cut_out(part, hole)
            homes.append((part, trim.inside(hole.width, hole.height)))
    best = len(parts)
    for dealt in product(range(len(homes)), repeat=len(parts)):
        if any(homes[home][0] is part for home, part in zip(dealt, parts, strict=True)):
            continue
        sheets = {home for home in dealt if homes[home][0] is None}
        if len(sheets) >= best:
            continue
        if all(
            _cuttable(
                homes[home][1],
                tuple(p for p, at in zip(parts, dealt, strict=True) if at == home),
                board.kerf,
            )
            for home in set(dealt)
        ):
            best = len(sheets)
    return best


@settings(max_examples=25, deadline=None)
@given(
    sizes=st.lists(st.tuples(st.integers(10, 40), st.integers(10, 40)), min_size=1, max_size=2),
    hole=st.tuples(st.integers(0, 8), st.integers(0, 8), st.integers(20, 50), st.integers(20, 50)),
    kerf=st.integers(0, 2),
)
def test_no_fewer_sheets_are_found_by_trying_everything(
    sizes: list[Rect], hole: tuple[int, int, int, int], kerf: int
) -> None:
    donor = a_board_part("donor", 60, 60, cut_outs=(a_cut_out(*hole),))
    small = [a_board_part(f"p{n}", *size) for n, size in enumerate(sizes)]
    board = a_sheet_material(donor, *small, stock=[a_stock_sheet("s", 64, 64, 100)], kerf=kerf)
    board = replace(board, use_cut_outs=True, cut_out_trim=Tenths(2))

    plan = plan_cutting(a_request(board, seconds=0.2))

    assert plan.money.net == 100 * _fewest_sheets(board)
    assert plan.bound <= plan.money.net
