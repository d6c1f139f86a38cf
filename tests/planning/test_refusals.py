"""A request that makes no sense is refused before any saw runs, with all its faults at once."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from typing import Any

import pytest

from optimiser.domain.parts import CutOut
from optimiser.domain.request import Choice, Cutting, CuttingRequest, Direction
from optimiser.domain.stock import EdgeTrim
from optimiser.errors import InvalidInput, Problem
from optimiser.planning.plan import plan_cutting
from optimiser.units import Tenths
from tests.cutting_builders import (
    a_board_part,
    a_cut_out,
    a_keep,
    a_length_material,
    a_length_offcut,
    a_length_part,
    a_request,
    a_sheet_material,
    a_sheet_offcut,
    a_stock_length,
    a_stock_sheet,
)


def problems_of(request: CuttingRequest) -> tuple[Problem, ...]:
    with pytest.raises(InvalidInput) as refusal:
        plan_cutting(request)
    return refusal.value.problems


def a_sound_request() -> CuttingRequest:
    return a_request(
        a_length_material(a_length_part("stud", 900), stock=[a_stock_length("1000", 1000)]),
        a_sheet_material(a_board_part("panel", 90, 40), stock=[a_stock_sheet("s", 100, 50)]),
    )


def test_a_part_longer_than_all_stock_is_named_with_the_longest_that_was_tried() -> None:
    request = a_request(
        a_length_material(
            a_length_part("beam", 6100),
            stock=[a_stock_length("4800", 4800), a_stock_length("6000", 6000)],
            offcuts=[a_length_offcut("rack 1", 5000)],
            trim=50,
        )
    )

    (problem,) = problems_of(request)

    assert problem.field == "part 'beam'.length_mm"
    assert problem.trouble.startswith("610 fits no timber")
    assert "stock '6000' with 590 usable" in problem.trouble


def test_a_part_that_fits_only_before_the_trim_is_refused() -> None:
    request = a_request(
        a_length_material(
            a_length_part("beam", 5901), stock=[a_stock_length("6000", 6000)], trim=50
        )
    )

    assert "590.1 fits no timber" in str(problems_of(request)[0])


def test_a_long_rack_offcut_is_named_where_it_is_the_longest() -> None:
    request = a_request(
        a_length_material(
            a_length_part("beam", 5500),
            stock=[a_stock_length("4800", 4800)],
            offcuts=[a_length_offcut("rack 1", 5000)],
        )
    )

    assert "offcut 'rack 1' with 500 usable" in problems_of(request)[0].trouble


def test_a_part_with_no_stock_at_all_is_refused() -> None:
    request = a_request(
        a_length_material(a_length_part("a", 5)), a_sheet_material(a_board_part("b", 5, 5))
    )

    lengths, sheets = problems_of(request)

    assert "there is no stock and no offcut" in lengths.trouble
    assert "there is no stock and no offcut" in sheets.trouble


def test_a_board_part_larger_than_all_sheets_is_named_with_the_largest_that_was_tried() -> None:
    request = a_request(
        a_sheet_material(
            a_board_part("panel", 12_300, 24_000),
            stock=[a_stock_sheet("small", 9000, 9000), a_stock_sheet("full", 12_200, 24_400)],
            trim=100,
        )
    )

    (problem,) = problems_of(request)

    assert "part 'panel'" in problem.field
    assert "1230 × 2400 fits no board" in problem.trouble
    assert "stock 'full', usable 1200 × 2420" in problem.trouble


def test_a_board_part_that_fits_only_turned_is_refused_where_turning_is_not_allowed() -> None:
    sheet = [a_stock_sheet("full", 1000, 500)]
    upright = a_request(a_sheet_material(a_board_part("p", 400, 900, turn=False), stock=sheet))
    turned = a_request(a_sheet_material(a_board_part("p", 400, 900), stock=sheet))

    assert "40 × 90 fits no board" in problems_of(upright)[0].trouble
    assert plan_cutting(turned).sheets[0].layouts[0].parts[0].turned


def with_keep_credit(credit: Fraction) -> CuttingRequest:
    return replace(a_sound_request(), keep=a_keep(credit=credit))


def with_cut_outs(*cut_outs: CutOut) -> CuttingRequest:
    return a_request(
        a_sheet_material(
            a_board_part("panel", 90, 40, cut_outs=cut_outs), stock=[a_stock_sheet("s", 100, 50)]
        )
    )


def with_choices(*choices: Choice) -> CuttingRequest:
    return replace(a_sound_request(), choices=choices)


def with_timber(**changes: Any) -> CuttingRequest:
    request = a_sound_request()
    return replace(request, lengths=(replace(request.lengths[0], **changes),))


def with_boards(**changes: Any) -> CuttingRequest:
    request = a_sound_request()
    return replace(request, sheets=(replace(request.sheets[0], **changes),))


REFUSED: dict[str, tuple[CuttingRequest, str, str]] = {
    "an offcut worth as much as new stock": (
        with_keep_credit(Fraction(1)), "keep.credit", "is not from 0 to below 1"),
    "an offcut worth less than nothing": (
        with_keep_credit(Fraction(-1, 2)), "keep.credit", "is not from 0 to below 1"),
    "seconds that are no number": (
        replace(a_sound_request(), seconds=float("nan")), "seconds", "nan"),
    "seconds without end": (replace(a_sound_request(), seconds=float("inf")), "seconds", "inf"),
    "seconds below 0": (replace(a_sound_request(), seconds=-1.0), "seconds", "-1.0"),
    "a seed below 0": (replace(a_sound_request(), seed=-1), "seed", "below 0"),
    "nothing to cut": (a_request(), "parts", "there is no part to cut"),
    "a material without parts": (
        a_request(a_length_material(stock=[a_stock_length("1000", 1000)])),
        "parts", "there is no part to cut"),
    "a part id twice in one material": (
        with_timber(parts=(a_length_part("stud", 900), a_length_part("stud", 800))),
        "part id 'stud'", "stands 2 times"),
    "a part id twice over materials": (
        with_timber(parts=(a_length_part("panel", 900),)), "part id 'panel'", "stands 2 times"),
    "a material twice": (
        replace(a_sound_request(), lengths=a_sound_request().lengths * 2),
        "material 'timber'", "stands 2 times"),
    "a stock id twice": (
        with_timber(stock=(a_stock_length("1000", 1000),) * 2), "stock id '1000'", "2 times"),
    "a rack offcut twice": (
        with_timber(offcuts=(a_length_offcut("r", 500),) * 2), "offcut id 'r'", "2 times"),
    "a board offcut twice": (
        with_boards(offcuts=(a_sheet_offcut("r", 50, 50),) * 2), "offcut id 'r'", "2 times"),
    "a part of no length": (
        with_timber(parts=(a_length_part("stud", 0),)), "part 'stud'.length_mm", "0 is not a size"),
    "a part asked for 0 times": (
        with_timber(parts=(a_length_part("stud", 9, 0),)), "part 'stud'.quantity", "0 is too few"),
    "a part of more than 100 m": (
        with_timber(parts=(a_length_part("stud", 1_000_001),)), "part 'stud'.length_mm", "100 m"),
    "a kerf below 0": (with_timber(kerf=-1), "lengths[0].kerf_mm", "from 0 to 100 m"),
    "an end trim that eats a stock length": (
        with_timber(stock=(a_stock_length("1000", 1000), a_stock_length("80", 80)), end_trim=40),
        "lengths[0].end_trim_mm", "4 off each end leaves nothing of stock '80'"),
    "an edge trim that eats a sheet": (
        with_boards(edge_trim=EdgeTrim.all_round(25)), "sheets[0].edge_trim_mm",
        "5 off bottom and top leaves nothing of the height 5"),
    "an edge trim below 0": (
        with_boards(edge_trim=EdgeTrim(left=Tenths(-1))), "sheets[0].edge_trim_mm.left", "below 0"),
    "one run of cuts for a part that needs two": (
        with_boards(max_stages=1), "sheets[0].max_stages", "1 does not free part 'panel' of 9 × 4"),
    "a first cut that a part as wide as its sheet leaves no room for": (
        with_boards(first_cut=Direction.RIP, parts=(a_board_part("panel", 100, 40),)),
        "sheets[0].first_cut", "rip first does not free part 'panel' of 10 × 4"),
    "cut-outs that leave two halves": (
        with_cut_outs(a_cut_out(0, 0, 20, 20), a_cut_out(20, 18, 70, 22)),
        "part 'panel'.cut_outs", "cut it apart"),
    "cut-outs that meet at a corner and leave two halves": (
        with_cut_outs(a_cut_out(0, 0, 20, 20), a_cut_out(20, 20, 70, 20)),
        "part 'panel'.cut_outs", "cut it apart"),
    "cut-outs that leave nothing": (
        with_cut_outs(
            a_cut_out(0, 0, 45, 20), a_cut_out(45, 0, 45, 20), a_cut_out(0, 20, 45, 20),
            a_cut_out(45, 20, 45, 20)),
        "part 'panel'.cut_outs", "cut it apart"),
    "stock of a price below 0": (
        with_timber(stock=(a_stock_length("1000", 1000, -1),)), "lengths[0].stock[0].price", "0"),
    "a sheet of a price below 0": (
        with_boards(stock=(a_stock_sheet("s", 100, 50, -1),)), "sheets[0].stock[0].price", "0"),
    "fewer than no stock": (
        with_timber(stock=(a_stock_length("1000", 1000, 5, available=-1),)),
        "lengths[0].stock[0].available", "-1 is too few"),
    "a knife with a kerf": (
        with_boards(cutting=Cutting.KNIFE, kerf=3), "sheets[0].kerf_mm", "0.3 with a knife"),
    "no stage of cutting": (with_boards(max_stages=0), "sheets[0].max_stages", "0 is too few"),
    "a cut-out that reaches outside its part": (
        with_cut_outs(a_cut_out(50, 10, 41, 10)), "part 'panel'.cut_outs[0]", "reaches outside"),
    "a cut-out left of its part": (
        with_cut_outs(a_cut_out(-1, 10, 20, 10)), "part 'panel'.cut_outs[0]", "reaches outside"),
    "a cut-out of no width": (
        with_cut_outs(a_cut_out(1, 10, 0, 10)), "part 'panel'.cut_outs[0].width_mm", "not a size"),
    "a cut-out from edge to edge": (
        with_cut_outs(a_cut_out(0, 10, 90, 10)), "part 'panel'.cut_outs[0]", "edge to edge"),
    "cut-outs that overlap": (
        with_cut_outs(a_cut_out(0, 0, 20, 20), a_cut_out(19, 19, 5, 5)),
        "part 'panel'.cut_outs", "overlap each other"),
    "a choice with no option": (
        with_choices(Choice(id="c", options=())), "choice 'c'", "has no option"),
    "a choice of an unknown part": (
        with_choices(Choice(id="c", options=(("ghost",),))),
        "choice 'c'.options[0]", "names part 'ghost'"),
    "a part in two choices": (
        with_choices(Choice(id="c", options=(("stud",),)), Choice(id="d", options=(("stud",),))),
        "choice 'd'", "part 'stud' is in two choices"),
    "a choice id twice": (
        with_choices(Choice(id="c", options=(("stud",),)), Choice(id="c", options=(("panel",),))),
        "choice id 'c'", "stands 2 times"),
}  # fmt: skip


@pytest.mark.parametrize(("request_", "field", "trouble"), REFUSED.values(), ids=REFUSED.keys())
def test_a_request_is_refused_where_it_is_wrong_and_is_told_how_to_mend_it(
    request_: CuttingRequest, field: str, trouble: str
) -> None:
    problems = problems_of(request_)

    assert any(
        problem.field == field and trouble in problem.trouble and problem.remedy
        for problem in problems
    ), problems


def test_touching_cut_outs_do_not_overlap() -> None:
    request = with_cut_outs(a_cut_out(0, 0, 20, 20), a_cut_out(20, 0, 20, 20))

    assert plan_cutting(request).sheets[0].usage.part == 90 * 40 - 800


def test_all_faults_of_a_request_are_listed_at_once() -> None:
    request = replace(
        a_request(
            a_length_material(
                a_length_part("beam", 2000, 0),
                a_length_part("beam", 0),
                stock=[a_stock_length("1000", 1000, -5)],
                kerf=-1,
            ),
            a_sheet_material(
                a_board_part("panel", 200, 40, cut_outs=(a_cut_out(190, 0, 20, 5),)),
                stock=[a_stock_sheet("s", 100, 50)],
                max_stages=0,
            ),
        ),
        seconds=float("nan"),
        keep=a_keep(credit=Fraction(2)),
    )

    fields = {problem.field for problem in problems_of(request)}

    assert fields >= {
        "seconds",
        "keep.credit",
        "part id 'beam'",
        "lengths[0].kerf_mm",
        "lengths[0].stock[0].price",
        "part 'beam'.quantity",
        "part 'beam'.length_mm",
        "sheets[0].max_stages",
        "part 'panel'.cut_outs[0]",
        "part 'panel'.width_mm × height_mm",
    }


def test_a_size_beyond_100_m_is_not_called_below_0() -> None:
    (problem,) = problems_of(with_timber(kerf=1_000_001))

    assert "below 0" not in problem.trouble


def test_more_different_parts_than_the_solvers_are_sized_for_are_refused_with_the_limit() -> None:
    parts = tuple(a_board_part(f"p{n}", 100 + n, 200) for n in range(100_000))
    request = a_request(a_sheet_material(*parts, stock=[a_stock_sheet("s", 200_000, 300_000)]))

    (problem,) = problems_of(request)

    assert (problem.field, problem.trouble) == ("parts", "100000 different parts")
    assert problem.remedy == "Plan at most 20000"
