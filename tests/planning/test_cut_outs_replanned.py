"""After a mishap what was cut out of a finished part lies there, and the rest comes as drawn."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from random import Random

import pytest

from optimiser.domain.continuation import Continuation
from optimiser.domain.marks import Mark, Marks, State
from optimiser.domain.plan import CuttingPlan
from optimiser.domain.request import CuttingRequest
from optimiser.domain.stock import NO_EDGE_TRIM
from optimiser.errors import InvalidInput
from optimiser.planning.plan import plan_cutting
from optimiser.planning.replan import replan
from optimiser.verify.check import check_plan
from optimiser.verify.continuation import check_continuation
from tests.cutting_builders import (
    a_board_part,
    a_cut_out,
    a_request,
    a_sheet_material,
    a_stock_sheet,
)
from tests.planning.test_cut_outs import a_fitters_case


def a_mark(layout: int, state: State, spoiled: tuple[str, ...] = (), pieces: int = 1) -> Mark:
    return Mark(material="board", layout=layout, state=state, spoiled=spoiled, pieces=pieces)


def gone_on(
    request: CuttingRequest, plan: CuttingPlan, *marks: Mark
) -> tuple[Continuation, list[tuple[str, int | None, int]]]:
    """Return the checked rest, and of each of its layouts the stock, the cut-out and the count."""
    continuation = replan(request, plan, Marks(marks=marks), seconds=0.3)
    assert continuation.rest is not None
    layouts = continuation.rest.plan.sheets[0].layouts
    return continuation, [(one.stock, one.cut_out, one.count) for one in layouts]


def test_nothing_cut_yet_goes_on_as_drawn() -> None:
    request = a_fitters_case()
    found, layouts = gone_on(request, plan_cutting(request))

    assert layouts == [("sheet in hand", None, 1), ("front", 0, 1)]
    assert found.rest is not None
    assert (found.rest.plan.money.purchase, found.rest.changed) == (0, 0)


def test_the_cut_out_of_a_finished_part_lies_there_with_its_rough_edges() -> None:
    request = a_fitters_case()
    found, layouts = gone_on(request, plan_cutting(request), a_mark(1, State.CUT))

    assert layouts == [("L2.1/cut-out", None, 1)]
    assert found.finished == (("front", 1),)
    assert found.rest is not None
    (offcut,) = found.rest.request.sheets[0].offcuts
    assert (offcut.width, offcut.height, offcut.edge_trim.left) == (10_000, 6_000, 50)


def test_a_spoiled_front_is_bought_anew_and_its_cut_out_still_serves() -> None:
    request = a_fitters_case()
    found, layouts = gone_on(
        request, plan_cutting(request), a_mark(1, State.CUT, spoiled=("front",))
    )

    assert sorted(layouts) == [("L2.1/cut-out", None, 1), ("sheet", None, 1)]
    assert found.rest is not None
    assert found.rest.plan.money.purchase == 2_400


def test_shelves_of_a_broken_cut_out_come_from_a_new_sheet() -> None:
    request = a_fitters_case()
    found, layouts = gone_on(
        request, plan_cutting(request), a_mark(1, State.CUT), a_mark(2, State.DAMAGED)
    )

    assert layouts == [("sheet", None, 1)]
    assert found.rest is not None
    assert found.rest.request.sheets[0].offcuts == ()


def test_both_spoiled_the_new_front_gives_the_new_shelves() -> None:
    """One sheet is bought, not two: what is cut out of the new front serves again."""
    request = a_fitters_case()
    found, layouts = gone_on(
        request,
        plan_cutting(request),
        a_mark(1, State.CUT, spoiled=("front",)),
        a_mark(2, State.DAMAGED),
    )

    assert layouts == [("sheet", None, 1), ("front", 0, 1)]
    assert found.rest is not None
    assert found.rest.plan.money.purchase == 2_400


def test_a_cut_out_marked_before_its_part_is_refused() -> None:
    request = a_fitters_case()
    plan = plan_cutting(request)

    with pytest.raises(InvalidInput, match="cut-out 1 of 'front' was used or lost"):
        replan(request, plan, Marks(marks=(a_mark(2, State.CUT),)))


def test_a_rest_that_forgets_the_rough_edges_is_refused() -> None:
    request = a_fitters_case()
    plan = plan_cutting(request)
    marks = Marks(marks=(a_mark(1, State.CUT),))
    good = replan(request, plan, marks)
    assert good.rest is not None
    board = good.rest.request.sheets[0]

    for wrong in (
        replace(board, offcuts=(replace(board.offcuts[0], edge_trim=NO_EDGE_TRIM),)),
        replace(board, use_cut_outs=False),
    ):
        rest = replace(good.rest, request=replace(good.rest.request, sheets=(wrong,)))
        assert check_continuation(request, plan, marks, replace(good, rest=rest))


def a_nested_case() -> CuttingRequest:
    """Three backs with a window each; doors out of some of them, vents out of the doors."""
    board = a_sheet_material(
        a_board_part("back", 10_000, 9_000, 3, cut_outs=(a_cut_out(2_000, 2_000, 6_000, 5_000),)),
        a_board_part("door", 5_000, 4_000, 2, cut_outs=(a_cut_out(0, 1_000, 2_000, 2_000),)),
        a_board_part("vent", 1_900, 1_800, 2),
        a_board_part("strip", 4_000, 700, 3),
        stock=[a_stock_sheet("sheet", 10_000, 9_000, 1_000)],
        kerf=30,
    )
    return a_request(replace(board, use_cut_outs=True), seconds=0.3)


def a_bad_day(plan: CuttingPlan, luck: Random) -> Marks:
    """Mark pieces at random, but never a cut-out before its part."""
    cut: Counter[str] = Counter()
    used: Counter[tuple[str, int]] = Counter()
    marks: list[Mark] = []
    for number, layout in enumerate(plan.sheets[0].layouts, start=1):
        for _ in range(layout.count):
            if layout.cut_out is not None:
                if cut[layout.stock] <= used[layout.stock, layout.cut_out]:
                    continue
                if luck.random() < 0.7:
                    used[layout.stock, layout.cut_out] += 1
                else:
                    continue
            state = luck.choice((State.CUT, State.CUT, State.STARTED, State.DAMAGED))
            if state is State.STARTED and not layout.cuts:
                state = State.CUT
            mark = a_mark(number, state)
            if state is State.STARTED:
                mark = replace(mark, cuts=luck.randint(1, len(layout.cuts)))
                made = {f"{cut_.n}{side}" for cut_ in layout.cuts[: mark.cuts] for side in "ab"}
                off = [part.part for part in layout.parts if part.piece in made]
            else:
                off = [part.part for part in layout.parts] if state is State.CUT else []
            cut.update(off)
            spoiled = tuple(part for part in off if luck.random() < 0.3)
            marks.append(replace(mark, spoiled=spoiled))
    return Marks(marks=tuple(marks))


@pytest.mark.parametrize("seed", range(12))
def test_any_bad_day_ends_in_a_continuation_that_holds(seed: int) -> None:
    request = a_nested_case()
    plan = plan_cutting(request)
    assert sum(one.cut_out is not None for one in plan.sheets[0].layouts) >= 2
    marks = a_bad_day(plan, Random(seed))

    found = replan(request, plan, marks, seconds=0.2)

    assert check_continuation(request, plan, marks, found) == ()
    if found.rest is not None:
        assert check_plan(found.rest.request, found.rest.plan) == ()
