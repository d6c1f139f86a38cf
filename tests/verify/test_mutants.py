"""One thing wrong at a time: the checker passes a good plan and refuses each spoilt copy of it."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from optimiser.domain.plan import (
    Chosen,
    LengthCut,
    PlacedBoard,
    SheetCut,
    SheetLayout,
    Stretch,
)
from optimiser.domain.request import Direction
from optimiser.domain.stock import NO_EDGE_TRIM, EdgeTrim
from optimiser.errors import PlanRefused
from optimiser.planning.plan import plan_cutting
from optimiser.units import Pence, Tenths
from optimiser.verify.check import check_plan, require_sound
from tests.cutting_builders import (
    a_board_part,
    a_cut_out,
    a_length_offcut,
    a_request,
    a_sheet_material,
    a_sheet_offcut,
    a_stock_length,
    a_stock_sheet,
)
from tests.verify.spoiling import (
    Mutant,
    asked,
    asked_of_boards,
    asked_of_part,
    bound_off,
    first_board,
    first_length,
    good,
    halves_three_times,
    last_length,
    last_sheet_cut,
    length_with,
    lengths_of,
    money_off,
    moved_board,
    no_kerf_between,
    one_cut_more,
    parts_weighed,
    planned,
    relaid,
    resawn,
    sheet_weighed,
    sheet_with,
    sheets_of,
    shifted,
    stretched,
    swapped_cuts,
    swapped_proven,
    usage_off,
    weighed,
    with_lengths,
    with_sheets,
    without,
)

LENGTHS: dict[str, Mutant] = {
    "a part moved": relaid("half", first_length(start=6)),
    "a last part moved": relaid("half", last_length(lambda i: {"start": i.parts[-1].start + 1})),
    "a part missing": relaid("option 0", without("option 0")),
    "a whole layout missing": relaid("long", lambda _: ()),
    "a whole layout twice": relaid("short", lambda item: (item, item)),
    "a layout cut once more than needed": relaid("half", lambda i: replace(i, count=3)),
    "a layout cut once less than needed": relaid("half", lambda i: replace(i, count=1)),
    "a layout cut no times": relaid("half", lambda i: replace(i, count=0)),
    "a layout cut -1 times": relaid("half", lambda i: replace(i, count=-1)),
    "a layout with no part": relaid("short", lambda i: replace(i, parts=())),
    "a part listed twice in one place": relaid(
        "half", lambda i: replace(i, parts=(i.parts[0], *i.parts))),
    "parts overlap": relaid("half", last_length(lambda _: {"start": 400})),
    "a part too short": relaid("long", first_length(length=599)),
    "a part too long": relaid("option 0", stretched),
    "a part for the wrong job": relaid("half", first_length(job="b")),
    "a part that was never asked for": relaid("half", first_length(part="ghost")),
    "a part in place of another": relaid("long", first_length(part="half")),
    "a kerf unpaid": relaid("half", no_kerf_between),
    "parts beyond the stock": relaid("half", halves_three_times),
    "a trim unpaid": relaid("long", shifted(-5)),
    "all moved to the right": relaid("long", shifted(1)),
    "no cuts": relaid("half", lambda i: replace(i, cuts=())),
    "a cut missing": relaid("half", lambda i: replace(i, cuts=i.cuts[:-1])),
    "a cut too many": relaid(
        "half", lambda i: replace(i, cuts=(*i.cuts, LengthCut(n=3, at=Tenths(999))))),
    "a cut in the wrong place": relaid(
        "half", lambda i: replace(i, cuts=(replace(i.cuts[0], at=Tenths(490)), *i.cuts[1:]))),
    "cuts out of order": relaid("half", lambda i: replace(i, cuts=i.cuts[::-1])),
    "cuts numbered from 0": relaid(
        "half", lambda i: replace(i, cuts=tuple(replace(c, n=c.n - 1) for c in i.cuts))),
    "scrap listed as an offcut": relaid(
        "half", lambda i: replace(i, offcuts=i.scrap, scrap=())),
    "an offcut listed as scrap": relaid(
        "long", lambda i: replace(i, offcuts=(), scrap=i.offcuts)),
    "a kept remainder not listed": relaid("long", lambda i: replace(i, offcuts=())),
    "scrap not listed": relaid("half", lambda i: replace(i, scrap=())),
    "a remainder listed twice": relaid("long", lambda i: replace(i, offcuts=i.offcuts * 2)),
    "a remainder listed both ways": relaid("long", lambda i: replace(i, scrap=i.offcuts)),
    "a remainder one tenth longer": relaid(
        "long",
        lambda i: replace(
            i, offcuts=(replace(i.offcuts[0], length=Tenths(i.offcuts[0].length + 1)),))),
    "a remainder in two pieces": relaid(
        "long",
        lambda i: replace(
            i,
            offcuts=(),
            scrap=(
                Stretch(start=i.offcuts[0].start, length=Tenths(90)),
                Stretch(
                    start=Tenths(i.offcuts[0].start + 93),
                    length=Tenths(i.offcuts[0].length - 93),
                ),
            ))),
    "unknown stock": relaid("half", lambda i: replace(i, stock="2000")),
    "an unknown rack offcut": relaid("short", lambda i: replace(i, stock="rack 9")),
    "stock passed off as a rack offcut": relaid("half", lambda i: replace(i, offcut=True)),
    "a rack offcut passed off as stock": relaid("short", lambda i: replace(i, offcut=False)),
    "a rack offcut used twice by its count": relaid("short", lambda i: replace(i, count=2)),
    "more stock than available": asked(stock=(a_stock_length("1000", 1000, 100, available=2),)),
    "dearer stock than planned": asked(stock=(a_stock_length("1000", 1000, 101, available=3),)),
    "shorter stock than planned": asked(stock=(a_stock_length("1000", 985, 100, available=3),)),
    "longer stock than planned": asked(stock=(a_stock_length("1000", 1001, 100, available=3),)),
    "a rack offcut that is gone": asked(offcuts=()),
    "a rack offcut with ends to trim": asked(offcuts=(a_length_offcut("rack 1", 450, trim=5),)),
    "a wider kerf": asked(kerf=4),
    "a deeper trim": asked(end_trim=6),
}  # fmt: skip

SHEETS: dict[str, Mutant] = {
    "a board moved across": resawn("lying", moved_board(x=1)),
    "a board moved along": resawn("lying", moved_board(y=1)),
    "a board moved outside the sheet": resawn("lying", moved_board(x=600)),
    "a board too wide": resawn("lying", moved_board(width=1)),
    "a board too low": resawn("lying", moved_board(height=-1)),
    "a board missing": resawn("lying", lambda i: replace(i, parts=())),
    "a whole sheet missing": resawn("small", lambda _: ()),
    "a whole sheet twice": resawn("lying", lambda item: (item, item)),
    "a sheet cut once less": resawn("large", lambda i: replace(i, count=1)),
    "a sheet cut once more": resawn("large", lambda i: replace(i, count=3)),
    "a sheet cut no times": resawn("large", lambda i: replace(i, count=0)),
    "a board listed twice in one piece": resawn("lying", lambda i: replace(i, parts=i.parts * 2)),
    "a board for the wrong job": resawn("lying", first_board(job="a")),
    "a board that was never asked for": resawn("lying", first_board(part="ghost")),
    "a board in place of another": resawn("lying", first_board(part="large")),
    "a board claims a piece that is not there": resawn("lying", first_board(piece="9a")),
    "a board claims the whole sheet": resawn("lying", first_board(piece="sheet")),
    "a turned board said to lie upright": resawn("lying", first_board(turned=False)),
    "an upright board said to be turned": resawn("small", first_board(turned=True)),
    "a board turned though it must not be": asked_of_part("lying", turn=False),
    "a larger board asked": asked_of_part("large", height=961),
    "another cut-out asked": asked_of_part("large", cut_outs=(a_cut_out(9, 9, 50, 61),)),
    "no cuts": resawn("lying", lambda i: replace(i, cuts=())),
    "a cut missing": resawn("lying", lambda i: replace(i, cuts=i.cuts[:-1])),
    "a cut through a part": resawn("lying", one_cut_more),
    "cuts out of order": resawn("lying", swapped_cuts),
    "cuts numbered wrongly": resawn("lying", last_sheet_cut(n=9)),
    "a cut divides a piece that does not lie there": resawn("lying", last_sheet_cut(of="7b")),
    "a cut divides the sheet a second time": resawn("lying", last_sheet_cut(of="sheet")),
    "a cut in an unknown direction": resawn("lying", last_sheet_cut(direction="mitre")),
    "a cut at 0": resawn("lying", last_sheet_cut(at=Tenths(0))),
    "a cut before its piece": resawn("lying", last_sheet_cut(at=Tenths(-5))),
    "a cut beyond its piece": resawn("lying", last_sheet_cut(at=Tenths(5000))),
    "a cut a tenth off": resawn(
        "lying",
        lambda i: replace(
            i, cuts=(*i.cuts[:-1], replace(i.cuts[-1], at=Tenths(i.cuts[-1].at + 1))))),
    "scrap listed as an offcut": resawn(
        "lying", lambda i: replace(i, offcuts=(*i.offcuts, *i.scrap), scrap=())),
    "an offcut listed as scrap": resawn(
        "lying", lambda i: replace(i, offcuts=(), scrap=(*i.scrap, *i.offcuts))),
    "an offcut not listed": resawn("lying", lambda i: replace(i, offcuts=i.offcuts[1:])),
    "scrap not listed": resawn("lying", lambda i: replace(i, scrap=i.scrap[1:])),
    "an offcut listed twice": resawn("lying", lambda i: replace(i, offcuts=i.offcuts * 2)),
    "an offcut larger than its piece": resawn(
        "lying",
        lambda i: replace(
            i,
            offcuts=(
                replace(i.offcuts[0], width=Tenths(i.offcuts[0].width + 1)), *i.offcuts[1:]))),
    "unknown stock": resawn("large", lambda i: replace(i, stock="half")),
    "an unknown rack offcut": resawn("small", lambda i: replace(i, stock="rack 9")),
    "a rack offcut passed off as stock": resawn("small", lambda i: replace(i, offcut=False)),
    "a rack offcut used twice by its count": resawn("small", lambda i: replace(i, count=2)),
    "a rack offcut used twice by its layouts": resawn("small", lambda item: (item, item)),
    "more sheets than available": asked_of_boards(
        stock=(a_stock_sheet("full", 600, 1000, 500, available=2),)),
    "dearer sheets than planned": asked_of_boards(
        stock=(a_stock_sheet("full", 600, 1000, 501, available=3),)),
    "a smaller sheet than planned": asked_of_boards(
        stock=(a_stock_sheet("full", 579, 1000, 500, available=3),)),
    "a rack offcut that is gone": asked_of_boards(offcuts=()),
    "a rack offcut with edges to trim": asked_of_boards(
        offcuts=(a_sheet_offcut("rack 2", 260, 240, trim=5),)),
    "a wider kerf": asked_of_boards(kerf=Tenths(5)),
    "no kerf at all": asked_of_boards(kerf=Tenths(0)),
    "a deeper trim": asked_of_boards(edge_trim=EdgeTrim.all_round(11)),
    "no trim at all": asked_of_boards(edge_trim=NO_EDGE_TRIM),
    "more stages than allowed": asked_of_boards(max_stages=1),
    "trimmed on two edges only": asked_of_boards(
        edge_trim=EdgeTrim(right=Tenths(20), top=Tenths(20))
    ),
    "begun with a rip where a crosscut is asked for": asked_of_boards(first_cut=Direction.CROSSCUT),
}  # fmt: skip

HUGE = 2**70
MONEY_FIELDS = ("purchase", "offcuts_used", "credit", "net")
USAGE_FIELDS = ("part", "offcut", "scrap", "kerf", "trim")

CLAIMS: dict[str, Mutant] = {
    **{
        f"{field} of the {where} off by {by} p": money_off(where, field, by)
        for where in ("lengths", "sheets", "totals")
        for field in MONEY_FIELDS
        for by in (1, -1)
    },
    **{
        f"{field} usage of the {where} off by {by} tenth": usage_off(where, field, by)
        for where in ("lengths", "sheets")
        for field in USAGE_FIELDS
        for by in (1, -1)
    },
    **{
        f"bound of the {where} off by {by} p": bound_off(where, by)
        for where in ("lengths", "sheets")
        for by in (1, -1)
    },
    **{
        f"proven of the {where} swapped": swapped_proven(where)
        for where in ("lengths", "sheets", "totals")
    },
    "the bound in total too high": lambda request, plan: (
        request, replace(plan, bound=Pence(plan.bound + 1))),
    "another seed": planned(seed=2),
    "no certificate": lambda request, plan: (request, with_lengths(plan, certificate=())),
    "no certificate for the sheets": lambda request, plan: (
        request, with_sheets(plan, certificate=())),
    "a weight below 0": weighed(lambda r: replace(r, weights=(-1, *r.weights[1:]))),
    "a weight too few": weighed(lambda r: replace(r, weights=r.weights[:-1])),
    "a weight too many": weighed(lambda r: replace(r, weights=(*r.weights, 1))),
    "a scale of 0": weighed(lambda r: replace(r, scale=0)),
    "a scale below 0": weighed(lambda r: replace(r, scale=-1)),
    "weights too large to add up": weighed(
        lambda r: replace(r, weights=tuple(w * HUGE for w in r.weights))),
    "weights of nothing": weighed(lambda r: replace(r, weights=tuple(0 for _ in r.weights))),
    "a sheet weight below 0": sheet_weighed(
        lambda r: replace(r, across=((r.across[0][0], -1), *r.across[1:]))),
    "a size without a weight": sheet_weighed(lambda r: replace(r, along=r.along[1:])),
    "a size weighed twice": sheet_weighed(lambda r: replace(r, across=(*r.across, r.across[0]))),
    "sheet weights too large to add up": sheet_weighed(
        lambda r: replace(r, across=tuple((size, w * HUGE) for size, w in r.across))),
    "part weights of nothing": parts_weighed(
        lambda r: replace(r, weights=tuple(0 for _ in r.weights))),
    "a part weight below 0": parts_weighed(lambda r: replace(r, weights=(-1, *r.weights[1:]))),
    "a part weight too few": parts_weighed(lambda r: replace(r, weights=r.weights[:-1])),
    "part weights on a scale of 0": parts_weighed(lambda r: replace(r, scale=0)),
    "parts weighed at double": parts_weighed(
        lambda r: replace(r, weights=tuple(2 * w for w in r.weights))),
    "seconds that are no number": planned(seconds=float("nan")),
    "seconds below 0": lambda request, plan: (request, with_lengths(plan, seconds=-1.0)),
    "a material missing": planned(sheets=()),
    "a material answered twice": lambda request, plan: (
        request, replace(plan, lengths=plan.lengths * 2)),
    "a material of another name": lambda request, plan: (
        request, with_lengths(plan, material="steel")),
    "a choice that was not made": planned(chosen=()),
    "a choice made twice": planned(chosen=(Chosen(choice="which", option=0),) * 2),
    "another choice": planned(chosen=(Chosen(choice="what", option=0),)),
    "the option that was not cut": planned(chosen=(Chosen(choice="which", option=1),)),
    "an option that does not exist": planned(chosen=(Chosen(choice="which", option=2),)),
    "an option before the first": planned(chosen=(Chosen(choice="which", option=-1),)),
    "a part cut that was not chosen": relaid(
        "option 0", last_length(lambda _: {"part": "option 1", "length": 250})),
    "an offcut credited that the keep rule calls scrap": lambda request, plan: (
        replace(request, keep=replace(request.keep, length=Tenths(185))), plan),
    "another credit": lambda request, plan: (
        replace(request, keep=replace(request.keep, credit=Fraction(1, 3))), plan),
}  # fmt: skip

MUTANTS = {
    **{f"lengths: {name}": mutant for name, mutant in LENGTHS.items()},
    **{f"sheets: {name}": mutant for name, mutant in SHEETS.items()},
    **CLAIMS,
}


def test_the_good_plan_passes_and_has_all_that_can_be_spoilt() -> None:
    request, plan = good()

    assert check_plan(request, plan) == ()
    assert require_sound(request, plan) is plan
    lengths, sheets = lengths_of(plan).layouts, sheets_of(plan).layouts
    for layouts in (lengths, sheets):
        assert {layout.count for layout in layouts} == {1, 2}
        assert {layout.offcut for layout in layouts} == {True, False}
        assert any(layout.offcuts for layout in layouts)
        assert any(layout.scrap for layout in layouts)
    assert sheets[sheet_with(plan, "lying")].parts[0].turned
    assert len(sheets[sheet_with(plan, "lying")].cuts) > 1
    assert sheets[sheet_with(plan, "lying")].scrap
    assert [left.length for left in lengths[length_with(plan, "long")].offcuts] == [184]
    assert plan.chosen == (Chosen(choice="which", option=0),)


@pytest.mark.parametrize("mutant", MUTANTS.values(), ids=MUTANTS.keys())
def test_a_spoilt_plan_is_refused(mutant: Mutant) -> None:
    request, plan = mutant(*good())
    assert (request, plan) != good()

    faults = check_plan(request, plan)

    assert faults
    assert all(fault.where and fault.what for fault in faults)
    with pytest.raises(PlanRefused) as refusal:
        require_sound(request, plan)
    assert len(refusal.value.problems) == len(faults)


# The place of each part of the pinwheel around its centre.
PINWHEEL = {
    "a": (0, 0, 30, 20),
    "b": (30, 0, 20, 30),
    "c": (20, 30, 30, 20),
    "d": (0, 20, 20, 30),
    "e": (20, 20, 10, 10),
}
PINWHEEL_CUTS = {
    "cut into a": [("sheet", "crosscut", 20), ("1a", "rip", 30), ("1b", "rip", 20),
                   ("3b", "crosscut", 10), ("4a", "rip", 10)],
    "cut into b": [("sheet", "rip", 30), ("1a", "crosscut", 20), ("1b", "crosscut", 30),
                   ("2b", "rip", 20), ("4b", "crosscut", 10)],
    "no cuts": [],
}  # fmt: skip


@pytest.mark.parametrize("cuts", PINWHEEL_CUTS.values(), ids=PINWHEEL_CUTS.keys())
def test_a_pinwheel_fits_the_sheet_but_no_saw_cuts_it(cuts: list[tuple[str, str, int]]) -> None:
    """A common textbook pattern; by hand no first cut from edge to edge spares all five parts."""
    request = a_request(
        a_sheet_material(
            *(
                a_board_part(name, width, height, turn=False)
                for name, (_, _, width, height) in PINWHEEL.items()
            ),
            stock=[a_stock_sheet("square", 50, 50)],
        ),
        seconds=0.2,
    )
    plan = plan_cutting(request)
    pieces = [f"{n}{side}" for n in range(1, 6) for side in "ab"]
    divided = {of for of, _, _ in cuts}
    free = [piece for piece in pieces if piece not in divided]
    layout = SheetLayout(
        stock="square",
        offcut=False,
        count=1,
        cuts=tuple(
            SheetCut(n=n, of=of, direction=direction, at=Tenths(at))
            for n, (of, direction, at) in enumerate(cuts, start=1)
        ),
        parts=tuple(
            PlacedBoard(
                part=name,
                job="job",
                piece=piece,
                x=Tenths(x),
                y=Tenths(y),
                width=Tenths(width),
                height=Tenths(height),
                turned=False,
            )
            for (name, (x, y, width, height)), piece in zip(PINWHEEL.items(), free, strict=False)
        ),
        offcuts=(),
        scrap=(),
    )

    assert sum(found.count for found in sheets_of(plan).layouts) == 2
    faults = check_plan(request, with_sheets(plan, layouts=(layout,)))

    assert any(
        "not the size or in the place" in fault.what or "not free" in fault.what for fault in faults
    )
