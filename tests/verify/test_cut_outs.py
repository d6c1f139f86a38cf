"""Parts from cut-outs: what is there, when, how large; and a bound that counts it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import cache
from typing import Any

import pytest

from optimiser.domain.plan import CuttingPlan, SheetLayout
from optimiser.domain.request import Choice, CuttingRequest
from optimiser.planning.plan import plan_cutting
from optimiser.units import Pence, Tenths
from optimiser.verify.check import check_plan
from optimiser.verify.cut_outs import free_pieces
from tests.cutting_builders import (
    a_board_part,
    a_cut_out,
    a_request,
    a_sheet_material,
    a_stock_sheet,
)

Both = tuple[CuttingRequest, CuttingPlan]
Mutant = Callable[[CuttingRequest, tuple[SheetLayout, ...]], tuple[SheetLayout, ...]]


@cache
def good() -> Both:
    """A back with a window that holds a door, whose window holds a vent: one sheet does for all."""
    material = a_sheet_material(
        a_board_part("back", 10_000, 9_000, cut_outs=(a_cut_out(2_000, 2_000, 6_000, 5_000),)),
        a_board_part("door", 5_000, 4_000, cut_outs=(a_cut_out(0, 1_000, 2_000, 2_000),), job="b"),
        a_board_part("vent", 1_900, 1_800, job="c"),
        stock=[a_stock_sheet("sheet", 10_000, 9_000, 1_000)],
        kerf=30,
    )
    request = a_request(replace(material, use_cut_outs=True))
    return request, plan_cutting(request)


def with_layouts(plan: CuttingPlan, layouts: tuple[SheetLayout, ...]) -> CuttingPlan:
    return replace(plan, sheets=(replace(plan.sheets[0], layouts=layouts),))


def test_one_part_holds_another_which_holds_a_third() -> None:
    request, plan = good()

    back, door, vent = plan.sheets[0].layouts
    assert [(one.stock, one.cut_out) for one in (back, door, vent)] == [
        ("sheet", None),
        ("back", 0),
        ("door", 0),
    ]
    assert back.bought
    assert not door.bought
    assert plan.money.net == plan.bound == 1_000
    assert plan.proven
    assert check_plan(request, plan) == ()


def test_every_square_tenth_of_the_sheet_is_counted_once() -> None:
    _, plan = good()

    usage = plan.sheets[0].usage
    assert usage.total == 10_000 * 9_000
    # Net of cut-outs: 90 − 30, 20 − 4, 3.42 million square tenths.
    assert usage.part == 60_000_000 + 16_000_000 + 3_420_000
    # The ring inside the window, and three sides of the slot, whose fourth is the door's own edge.
    ring = 6_000 * 5_000 - 5_900 * 4_900
    assert usage.trim == ring + 2_000 * 2_000 - 1_950 * 1_900


def test_a_side_on_the_edge_of_its_part_loses_nothing() -> None:
    _, plan = good()

    (placed,) = plan.sheets[0].layouts[2].parts
    assert (placed.x, placed.y) == (0, 50)
    assert plan.sheets[0].layouts[2].cuts[0].edge in ("part", "trimmed")


def _changed(at: int, **changes: Any) -> Mutant:
    def mutate(_: CuttingRequest, layouts: tuple[SheetLayout, ...]) -> tuple[SheetLayout, ...]:
        new = replace(layouts[at], **changes)
        return (*layouts[:at], new, *layouts[at + 1 :])

    return mutate


def _moved(at: int, by: int) -> Mutant:
    def mutate(_: CuttingRequest, layouts: tuple[SheetLayout, ...]) -> tuple[SheetLayout, ...]:
        parts = tuple(replace(part, x=Tenths(part.x + by)) for part in layouts[at].parts)
        return (*layouts[:at], replace(layouts[at], parts=parts), *layouts[at + 1 :])

    return mutate


MUTANTS: dict[str, tuple[Mutant, str]] = {
    "before its part is cut": (lambda _, s: (s[1], s[0], s[2]), "has been cut 0 times"),
    "the innermost before its donor": (lambda _, s: (s[0], s[2], s[1]), "has been cut 0 times"),
    "twice from one part": (_changed(1, count=2), "has been cut 1 times"),
    "in a circle": (
        lambda _, s: (s[0], replace(s[2], stock="door", parts=s[1].parts), s[2]),
        "is said to hold the part it is cut out of",
    ),
    "from no such cut-out": (_changed(1, cut_out=1), "there is no cut-out"),
    "from no such part": (_changed(1, stock="roof"), "there is no cut-out"),
    "from a part of another name": (_changed(2, stock="vent"), "there is no cut-out"),
    "from the rack": (_changed(1, offcut=True), "is said to lie on the rack"),
    "never": (_changed(1, count=0), "its count is 0"),
    "into the rough edge": (_moved(1, -50), "not the size or in the place"),
    "as if bought": (_changed(1, cut_out=None), "'back' is not in stock"),
    "from a factory edge": (
        lambda _, s: (
            *s[:2],
            replace(s[2], cuts=tuple(replace(cut, edge="factory") for cut in s[2].cuts)),
        ),
        "measured from an edge",
    ),
}


@pytest.mark.parametrize(("mutant", "says"), MUTANTS.values(), ids=MUTANTS.keys())
def test_a_piece_that_cannot_come_from_there_is_refused(mutant: Mutant, says: str) -> None:
    request, plan = good()
    spoilt = with_layouts(plan, mutant(request, plan.sheets[0].layouts))

    faults = check_plan(request, spoilt)

    assert any(says in fault.what for fault in faults), faults


def test_a_request_that_does_not_allow_it_refuses_the_plan() -> None:
    request, plan = good()
    strict = replace(request, sheets=(replace(request.sheets[0], use_cut_outs=False),))

    faults = check_plan(strict, plan)

    assert any("does not allow" in fault.what for fault in faults)
    # And the bound that cut-outs made lower stands out too.
    assert any("bound" in fault.what for fault in faults)


def test_a_smaller_allowance_than_was_cut_for_is_noticed() -> None:
    request, plan = good()
    rough = replace(request, sheets=(replace(request.sheets[0], cut_out_trim=Tenths(60)),))

    assert check_plan(rough, plan)


def test_grain_that_may_run_either_way_holds_no_part_that_must_not_turn() -> None:
    request, plan = good()
    board = request.sheets[0]
    back, door, vent = board.parts
    grained = replace(
        request, sheets=(replace(board, parts=(back, door, replace(vent, turn=False))),)
    )

    faults = check_plan(grained, plan)

    assert any("grain either way" in fault.what for fault in faults)
    # Planned anew nothing comes from those cut-outs, and the bound knows it.
    again = plan_cutting(grained)
    assert all(layout.cut_out is None for layout in again.sheets[0].layouts)
    assert again.bound == again.money.net == 2_000


def test_a_bound_that_forgets_the_cut_outs_is_refused() -> None:
    """Without them the same parts need two sheets at the least."""
    request, plan = good()
    board = plan.sheets[0]
    lying = replace(plan, sheets=(replace(board, bound=Pence(2_000), proven=False),))

    assert any("the proof yields 1000" in fault.what for fault in check_plan(request, lying))


def test_of_a_choice_no_more_is_counted_than_any_one_option_frees() -> None:
    """Both ways free two pieces; each lies within one of two, not of four."""
    ways = (
        [a_cut_out(0, 0, 500, 500), a_cut_out(700, 700, 200, 200)],
        [a_cut_out(0, 0, 400, 600), a_cut_out(600, 0, 250, 160)],
    )
    backs = [a_board_part(f"back {n}", 1_000, 1_000, cut_outs=tuple(w)) for n, w in enumerate(ways)]
    always = a_board_part("always", 1_000, 1_000, 3, cut_outs=(a_cut_out(0, 0, 300, 350),))
    small = a_board_part("small", 100, 90)
    board = a_sheet_material(*backs, always, small, stock=[a_stock_sheet("s", 1_000, 1_000, 9)])
    board = replace(board, use_cut_outs=True)
    choice = Choice(id="way", options=(("back 0",), ("back 1",)))

    # 5 mm less on each side inside the part.
    assert sorted(free_pieces(board, (choice,))) == [(150, 110, 1), (250, 300, 3), (450, 550, 1)]
    assert len(free_pieces(board, ())) == 5


@pytest.mark.parametrize("option", [0, 1])
def test_a_bound_with_choices_holds_for_either_option(option: int) -> None:
    """The small parts fit the cut-out of the second back alone."""
    plain = a_board_part("plain", 1_000, 1_000)
    open_ = a_board_part("open", 1_000, 1_000, cut_outs=(a_cut_out(0, 0, 600, 600),))
    small = a_board_part("small", 500, 500)
    board = a_sheet_material(plain, open_, small, stock=[a_stock_sheet("s", 1_000, 1_000, 100)])
    options = (("plain",), ("open",))
    request = a_request(
        replace(board, use_cut_outs=True), choices=(Choice(id="way", options=options),)
    )
    forced = replace(
        request,
        choices=(Choice(id="way", options=(options[option],)),),
        sheets=(replace(request.sheets[0], parts=((plain, open_)[option], small)),),
    )

    assert plan_cutting(request).bound <= plan_cutting(forced).money.net == (200, 100)[option]
    assert plan_cutting(request).money.net == 100
