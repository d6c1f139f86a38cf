"""After a mishap finished work stands, the rest goes on as drawn, and little is bought."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from random import Random
from typing import Any

import pytest

from optimiser.domain.marks import Mark, Marks, State
from optimiser.domain.plan import (
    CuttingPlan,
    Leftover,
    LengthLayout,
    PlacedBoard,
    SheetCut,
    SheetLayout,
)
from optimiser.domain.rack import Rack
from optimiser.domain.request import CuttingRequest
from optimiser.errors import InvalidInput, NoPlan
from optimiser.planning.assemble import added_up, assembled
from optimiser.planning.plan import plan_cutting
from optimiser.planning.replan import replan
from optimiser.units import Tenths
from optimiser.verify.check import check_plan
from optimiser.verify.continuation import check_continuation
from tests.cutting_builders import (
    a_board_part,
    a_keep,
    a_length_material,
    a_length_offcut,
    a_length_part,
    a_request,
    a_sheet_material,
    a_stock_length,
    a_stock_sheet,
    layouts_of,
)


def a_mark(layout: int, state: State, material: str = "timber", **more: Any) -> Mark:
    return replace(Mark(material=material, layout=layout, state=state), **more)


def timber(*, pieces: int = 2, available: int | None = None) -> CuttingRequest:
    """Each stock length gives one long part and one short part and leaves 180 of 2400."""
    return a_request(
        a_length_material(
            a_length_part("long", 1500, pieces),
            a_length_part("short", 700, pieces),
            stock=[a_stock_length("S", 2400, 360, available)],
            kerf=10,
        )
    )


def boards() -> CuttingRequest:
    """Return a request whose one sheet gives a door and four strips, with some left beside them."""
    return a_request(
        a_sheet_material(
            a_board_part("door", 6000, 20000, turn=False),
            a_board_part("strip", 1000, 9000, 4, turn=False),
            stock=[a_stock_sheet("B", 12200, 24400, 2400)],
            kerf=30,
            trim=50,
        ),
        keep=a_keep(3000, 1000, 9000),
    )


def test_nothing_marked_goes_on_exactly_as_drawn() -> None:
    request = timber()
    plan = plan_cutting(request)

    rest = replan(request, plan, Marks(marks=())).rest

    assert rest is not None
    assert rest.plan.money.purchase == 0
    assert (rest.filled, rest.changed) == (0, 0)
    drawn = [(layout.parts, layout.count) for layout in layouts_of(plan)]
    assert [(layout.parts, layout.count) for layout in layouts_of(rest.plan)] == drawn


def test_when_all_is_cut_and_good_nothing_is_left() -> None:
    request = timber()
    plan = plan_cutting(request)
    done = Marks(
        marks=tuple(
            a_mark(number, State.CUT, pieces=layout.count)
            for number, layout in enumerate(layouts_of(plan), start=1)
        )
    )

    continuation = replan(request, plan, done)

    assert continuation.rest is None
    assert dict(continuation.finished) == {"long": 2, "short": 2}


def test_a_started_length_goes_on_from_behind_its_last_cut() -> None:
    request = timber(pieces=1)
    plan = plan_cutting(request)
    started = Marks(marks=(a_mark(1, State.STARTED, cuts=1),))

    rest = replan(request, plan, started).rest

    assert rest is not None
    assert rest.plan.money.purchase == 0
    (layout,) = layouts_of(rest.plan)
    # 2400 less the long part of 1500 and the kerf of 10 behind it.
    (remnant,) = rest.request.lengths[0].offcuts
    assert (layout.stock, remnant.length) == (remnant.id, 890)
    assert [part.part for part in layout.parts] == ["short"]


def test_the_last_cut_of_a_length_that_leaves_nothing_sets_two_parts_free() -> None:
    request = a_request(
        a_length_material(
            a_length_part("long", 1690),
            a_length_part("short", 700),
            stock=[a_stock_length("S", 2400, 360)],
            kerf=10,
        )
    )
    plan = plan_cutting(request)
    assert len(layouts_of(plan)[0].cuts) == 1

    continuation = replan(request, plan, Marks(marks=(a_mark(1, State.STARTED, cuts=1),)))

    assert dict(continuation.finished) == {"long": 1, "short": 1}
    assert continuation.rest is None


def test_a_spoiled_part_that_fits_nowhere_costs_one_more_length() -> None:
    request = timber()
    plan = plan_cutting(request)
    spoiled = Marks(marks=(a_mark(1, State.STARTED, cuts=1, spoiled=("long",)),))

    rest = replan(request, plan, spoiled).rest

    assert rest is not None
    assert rest.plan.money.purchase == 360
    assert rest.plan.proven
    assert rest.changed == 0


def test_a_spoiled_part_comes_from_what_another_piece_leaves_and_nothing_is_moved() -> None:
    request = a_request(
        a_length_material(
            a_length_part("long", 1500, 2),
            a_length_part("short", 300, 2),
            stock=[a_stock_length("S", 2400, 360)],
            kerf=10,
        )
    )
    plan = plan_cutting(request)
    number, first = next(
        (number, layout)
        for number, layout in enumerate(layouts_of(plan), start=1)
        if any(part.part == "short" for part in layout.parts)
    )
    marks = Marks(marks=(a_mark(number, State.CUT, spoiled=("short",)),))
    assert first.count >= 1

    rest = replan(request, plan, marks).rest

    assert rest is not None
    assert rest.plan.money.purchase == 0
    assert rest.changed == 0


def test_a_piece_is_reopened_only_where_that_saves_a_purchase() -> None:
    # As drawn the second length leaves two stretches of too little; together they are enough.
    request = a_request(
        a_length_material(
            a_length_part("a", 1000, 1),
            a_length_part("b", 900, 2),
            a_length_part("c", 400, 2),
            stock=[a_stock_length("S", 2400, 360)],
            offcuts=[a_length_offcut("R", 1000)],
        )
    )
    plan = plan_cutting(request)

    for number, layout in enumerate(layouts_of(plan), start=1):
        for part in layout.parts:
            spoiled = Marks(marks=(a_mark(number, State.CUT, spoiled=(part.part,)),))
            rest = replan(request, plan, spoiled).rest
            assert rest is not None
            assert rest.plan.money.purchase <= 360


def test_damaged_stock_gives_nothing_and_its_half_on_the_floor_is_used() -> None:
    request = timber(pieces=1)
    plan = plan_cutting(request)
    half = Rack(lengths=(("timber", a_length_offcut("half", 1600)),))
    damaged = Marks(marks=(a_mark(1, State.DAMAGED),), floor=half)

    rest = replan(request, plan, damaged).rest

    assert rest is not None
    used = Counter(layout.stock for layout in layouts_of(rest.plan))
    # One new length still is needed for either part; more is not.
    assert rest.plan.money.purchase == 360
    assert used["S"] == 1


def test_short_stock_in_the_shop_is_an_error_that_says_how_much_is_missing() -> None:
    request = timber(pieces=2, available=2)
    plan = plan_cutting(request)
    damaged = Marks(marks=(a_mark(1, State.DAMAGED),))

    with pytest.raises(NoPlan, match="timber"):
        replan(request, plan, damaged)


def test_a_started_sheet_goes_on_from_the_pieces_its_cuts_left() -> None:
    request = boards()
    plan = plan_cutting(request)
    (layout,) = plan.sheets[0].layouts

    for cuts in range(1, len(layout.cuts)):
        started = Marks(marks=(a_mark(1, State.STARTED, "board", cuts=cuts),))
        continuation = replan(request, plan, started)
        rest = continuation.rest
        assert rest is None or (rest.plan.money.purchase == 0 and rest.changed == 0)


def in_two_columns(part: str, height: int) -> SheetLayout:
    """Draw one part of 500 × `height` at the foot of each half of a sheet of 1000 × 1000."""
    return SheetLayout(
        stock="B",
        offcut=False,
        count=1,
        cuts=(
            SheetCut(n=1, of="sheet", direction="rip", at=Tenths(500)),
            SheetCut(n=2, of="1a", direction="crosscut", at=Tenths(height)),
            SheetCut(n=3, of="1b", direction="crosscut", at=Tenths(height)),
        ),
        parts=tuple(
            PlacedBoard(
                part=part,
                job="job",
                piece=piece,
                x=Tenths(x),
                y=Tenths(0),
                width=Tenths(500),
                height=Tenths(height),
                turned=False,
            )
            for piece, x in (("2a", 0), ("3a", 500))
        ),
        offcuts=(),
        scrap=tuple(
            Leftover(
                piece=piece,
                x=Tenths(x),
                y=Tenths(height),
                width=Tenths(500),
                height=Tenths(1000 - height),
            )
            for piece, x in (("2b", 0), ("3b", 500))
        ),
    )


def test_a_started_sheet_that_takes_parts_in_two_remnants_is_one_piece() -> None:
    request = a_request(
        a_sheet_material(
            a_board_part("tall", 500, 600, 2, turn=False),
            a_board_part("low", 500, 390, 2, turn=False),
            stock=[a_stock_sheet("B", 1000, 1000, 700)],
        ),
        keep=a_keep(5000, 5000, 5000),
    )
    drawn = (in_two_columns("tall", 600), in_two_columns("low", 390))
    plan = added_up(request, (assembled(request, request.sheets[0], drawn, None),))

    rest = replan(
        request,
        plan,
        Marks(
            marks=(
                a_mark(1, State.STARTED, "board", cuts=1),
                a_mark(2, State.DAMAGED, "board"),
            )
        ),
    ).rest

    assert rest is not None
    assert rest.plan.money.purchase == 0
    assert (rest.as_planned, rest.filled, rest.changed) == (0, 1, 0)


def test_a_spoiled_strip_comes_from_the_sheet_that_is_there() -> None:
    request = boards()
    plan = plan_cutting(request)
    cut = Marks(marks=(a_mark(1, State.CUT, "board", spoiled=("strip",)),))

    rest = replan(request, plan, cut).rest

    assert rest is not None
    assert rest.plan.money.purchase == 0
    (floor,) = [piece for piece in rest.floor if piece.id == layouts_of(rest.plan)[0].stock]
    assert floor.layout == 1


def test_the_rest_can_meet_with_another_mishap() -> None:
    request = timber()
    plan = plan_cutting(request)
    first = replan(
        request, plan, Marks(marks=(a_mark(1, State.STARTED, cuts=1, spoiled=("long",)),))
    ).rest
    assert first is not None

    second = replan(first.request, first.plan, Marks(marks=(a_mark(1, State.DAMAGED),))).rest

    assert second is not None
    assert check_plan(second.request, second.plan) == ()


def least_new_pieces(parts: list[int], rests: list[int], new: int, kerf: int) -> int:
    """Try every way to lay lengths on what is there and on new pieces; no source, by hand."""

    def place(todo: list[int], room: list[int], fresh: int, best: int) -> int:
        if fresh >= best:
            return best
        if not todo:
            return fresh
        part, later = todo[0], todo[1:]
        seen = set()
        for index, left in enumerate(room):
            if left >= part and left not in seen:
                seen.add(left)
                less = [*room[:index], left - part - kerf, *room[index + 1 :]]
                best = place(later, less, fresh, best)
        return place(later, [*room, new - part - kerf], fresh + 1, best)

    return place(sorted(parts, reverse=True), rests, 0, len(parts) + 1)


@pytest.mark.parametrize("seed", range(12))
def test_no_way_on_buys_fewer_lengths(seed: int) -> None:
    luck = Random(seed)
    kinds = [a_length_part(f"p{n}", luck.randrange(300, 1700), 1) for n in range(8)]
    request = a_request(a_length_material(*kinds, stock=[a_stock_length("S", 2400, 100)], kerf=10))
    plan = plan_cutting(request)
    marks: list[Mark] = []
    for number, layout in enumerate(layouts_of(plan), start=1):
        state = luck.choice((None, State.CUT, State.STARTED, State.DAMAGED))
        if state is State.CUT:
            marks.append(a_mark(number, state, spoiled=(layout.parts[0].part,)))
        elif state is State.STARTED:
            spoiled = (layout.parts[0].part,)
            marks.append(a_mark(number, state, cuts=1, spoiled=spoiled))
        elif state is State.DAMAGED:
            marks.append(a_mark(number, state))

    continuation = replan(request, plan, Marks(marks=tuple(marks)))

    rest = continuation.rest
    if rest is None:
        return
    asked = rest.request.lengths[0]
    room = [int(offcut.length) for offcut in asked.offcuts]
    room += [int(s.length) for s in asked.stock if s.price == 0 for _ in range(s.available or 0)]
    wanted = [int(part.length) for part in asked.parts for _ in range(part.quantity)]
    fewest = least_new_pieces(wanted, room, 2400, 10)
    assert rest.plan.money.purchase == 100 * fewest


def spoilt(plan: CuttingPlan, luck: Random) -> Marks:
    """Mark a plan as a bad day would."""
    marks: list[Mark] = []
    for material in plan.materials:
        layouts: tuple[LengthLayout | SheetLayout, ...] = material.layouts
        for number, layout in enumerate(layouts, start=1):
            for _ in range(layout.count):
                state = luck.choice((None, State.CUT, State.STARTED, State.DAMAGED))
                if state is State.STARTED and layout.cuts:
                    cuts = luck.randint(1, len(layout.cuts))
                    marks.append(a_mark(number, state, material.material, cuts=cuts))
                elif state in (State.CUT, State.DAMAGED):
                    assert state is not None
                    part = luck.choice([placed.part for placed in layout.parts])
                    spoiled = (part,) if state is State.CUT and luck.random() < 0.5 else ()
                    marks.append(a_mark(number, state, material.material, spoiled=spoiled))
    return Marks(marks=tuple(marks))


@pytest.mark.parametrize("seed", range(10))
def test_any_bad_day_ends_in_a_continuation_that_holds(seed: int) -> None:
    luck = Random(seed)
    request = a_request(
        a_length_material(
            *(a_length_part(f"t{n}", luck.randrange(300, 2300), 1 + n % 3) for n in range(6)),
            stock=[a_stock_length("S", 2400, 100), a_stock_length("T", 3600, 140)],
            offcuts=[a_length_offcut("R", 1300, 5)],
            kerf=10,
            trim=20,
        ),
        a_sheet_material(
            *(
                a_board_part(
                    f"b{n}",
                    luck.randrange(1000, 9000),
                    luck.randrange(1000, 20000),
                    1 + n % 2,
                    turn=n % 2 == 0,
                )
                for n in range(6)
            ),
            stock=[a_stock_sheet("B", 12200, 24400, 2400)],
            kerf=30,
            trim=50,
        ),
        seconds=0.3,
    )
    plan = plan_cutting(request)
    marks = spoilt(plan, luck)

    continuation = replan(request, plan, marks, seconds=0.5)

    assert check_continuation(request, plan, marks, continuation) == ()
    finished = Counter(dict(continuation.finished))
    rest = continuation.rest
    if rest is not None:
        finished += Counter(
            {p.id: p.quantity for item in rest.request.materials for p in item.parts}
        )
    assert finished == {p.id: p.quantity for item in request.materials for p in item.parts}


@pytest.mark.parametrize(
    ("mark", "said"),
    [
        (a_mark(1, State.CUT, "oak"), "no 'oak'"),
        (a_mark(9, State.CUT), "layouts 1 to"),
        (a_mark(1, State.CUT, pieces=9), "cut from"),
        (a_mark(1, State.STARTED, cuts=9), "last cut made cannot be 9"),
        (a_mark(1, State.STARTED), "last cut made cannot be 0"),
        (a_mark(1, State.CUT, cuts=1), "is given for pieces that are cut"),
        (a_mark(1, State.DAMAGED, spoiled=("long",)), "never cut"),
        (a_mark(1, State.STARTED, cuts=1, spoiled=("short",)), "by then 0 have come off"),
        (a_mark(1, State.CUT, pieces=2, spoiled=("long",)), "in which of the 2 pieces"),
        (a_mark(1, State.CUT, spoiled=("long", "long")), "2 of part 'long'"),
    ],
)
def test_marks_that_contradict_the_plan_are_refused_by_name(mark: Mark, said: str) -> None:
    request = timber()
    plan = plan_cutting(request)

    with pytest.raises(InvalidInput, match=said):
        replan(request, plan, Marks(marks=(mark,)))


def test_a_floor_of_unknown_stuff_or_of_a_name_in_use_is_refused() -> None:
    request = boards()
    plan = plan_cutting(request)
    rack = Rack(lengths=(("board", a_length_offcut("x", 10)),))

    with pytest.raises(InvalidInput, match="not among the lengths"):
        replan(request, plan, Marks(marks=(), floor=rack))


def test_a_plan_of_another_request_is_refused() -> None:
    request = timber()
    plan = plan_cutting(request)
    other = replace(request, lengths=(replace(request.lengths[0], kerf=Tenths(20)),))

    with pytest.raises(InvalidInput, match="unchanged"):
        replan(other, plan, Marks(marks=()))


def test_seconds_that_are_none_are_refused() -> None:
    request = timber()
    with pytest.raises(InvalidInput, match="seconds"):
        replan(request, plan_cutting(request), Marks(marks=()), seconds=float("nan"))
