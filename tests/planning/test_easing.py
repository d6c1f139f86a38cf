"""Near misses: a few millimetres that save a length or a sheet, and no more than are needed."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from itertools import combinations
from random import Random

import pytest

from optimiser.domain.easing import NearMiss
from optimiser.domain.parts import LengthPart
from optimiser.domain.request import CuttingRequest
from optimiser.errors import InvalidInput
from optimiser.planning.easing import near_misses
from optimiser.planning.plan import plan_cutting
from optimiser.units import Pence, Tenths
from optimiser.verify.check import check_plan
from tests.cutting_builders import (
    a_board_part,
    a_cut_out,
    a_length_material,
    a_length_part,
    a_request,
    a_sheet_material,
    a_stock_length,
    a_stock_sheet,
)


def eased(part: LengthPart, ease: int) -> LengthPart:
    return replace(part, ease=Tenths(ease))


def found(
    request: CuttingRequest, *, saving: int = 1, seconds: float = 2.0
) -> tuple[NearMiss, ...]:
    return near_misses(request, plan_cutting(request), saving=Pence(saving), seconds=seconds)


def test_a_length_is_saved_by_exactly_the_millimetres_it_is_short_of() -> None:
    # Two of 1205 and a kerf of 10 need 2420; of 2400 there is 20 too little, 10 on each.
    request = a_request(
        a_length_material(
            eased(a_length_part("rail", 1205, 2), 30),
            stock=[a_stock_length("S", 2400, 360)],
            kerf=10,
        )
    )

    (miss,) = found(request)

    (easing,) = miss.easings
    assert (easing.part, easing.dimension, easing.by) == ("rail", "length", 10)
    assert miss.saving == 360
    assert miss.per_mm == 360
    assert miss.certain
    assert miss.fewest
    assert check_plan(miss.request, miss.plan) == ()


def test_a_sheet_is_saved_by_easing_the_one_dimension_that_is_too_large() -> None:
    request = a_request(
        a_sheet_material(
            replace(a_board_part("side", 6100, 24000, 2, turn=False), ease=Tenths(50)),
            stock=[a_stock_sheet("B", 12200, 24400, 2400)],
            kerf=30,
        )
    )

    (miss,) = found(request)

    # Twice 6100 and a kerf of 30 is 30 more than the sheet; 15 off each width will do.
    assert [(one.dimension, one.by) for one in miss.easings] == [("width", 15)]
    assert miss.saving == 2400


def test_the_strip_beyond_a_cut_out_is_all_that_a_part_can_give() -> None:
    part = a_board_part(
        "side", 6100, 24000, 2, turn=False, cut_outs=(a_cut_out(100, 100, 5990, 500),)
    )
    request = a_request(
        a_sheet_material(
            replace(part, ease=Tenths(50)),
            stock=[a_stock_sheet("B", 12200, 24400, 2400)],
            kerf=30,
        )
    )

    assert found(request) == ()


def test_a_saving_below_the_sum_asked_for_is_not_listed() -> None:
    request = a_request(
        a_length_material(
            eased(a_length_part("rail", 1205, 2), 30),
            stock=[a_stock_length("S", 2400, 360)],
            kerf=10,
        )
    )

    assert found(request, saving=361) == ()


def test_sets_are_ranked_by_saving_for_each_millimetre() -> None:
    request = a_request(
        a_length_material(
            eased(a_length_part("a", 1205, 2), 30),
            stock=[a_stock_length("S", 2400, 360)],
            kerf=10,
            material="cheap",
        ),
        a_length_material(
            eased(a_length_part("b", 1205, 2), 30),
            stock=[a_stock_length("T", 2400, 900)],
            kerf=10,
            material="dear",
        ),
    )

    misses = found(request)

    assert [miss.material for miss in misses] == ["dear", "cheap"]
    assert misses[0].per_mm > misses[1].per_mm


def fewest_lengths(parts: Iterable[int], whole: int) -> int:
    """Try every way to lay parts on equal lengths, without kerf; no source, by hand."""

    def place(todo: list[int], room: list[int], best: int) -> int:
        if len(room) >= best:
            return best
        if not todo:
            return len(room)
        part, later = todo[0], todo[1:]
        for index, left in enumerate(room):
            if left >= part:
                best = place(later, [*room[:index], left - part, *room[index + 1 :]], best)
        return place(later, [*room, whole - part], best)

    todo = sorted(parts, reverse=True)
    return place(todo, [], len(todo) + 1)


@pytest.mark.parametrize("seed", range(10))
def test_no_smaller_set_of_easings_saves_a_length(seed: int) -> None:
    luck = Random(seed)
    parts = [
        eased(a_length_part(f"p{n}", luck.randrange(380, 820)), luck.choice((0, 15, 30)))
        for n in range(7)
    ]
    request = a_request(a_length_material(*parts, stock=[a_stock_length("S", 1600, 100)]))
    asked = fewest_lengths((part.length for part in parts), 1600)
    with_ease = [part for part in parts if part.ease]
    sizes = [
        size
        for size in range(1, len(with_ease) + 1)
        for few in combinations([part.id for part in with_ease], size)
        if fewest_lengths((p.length - (p.ease if p.id in few else 0) for p in parts), 1600) < asked
    ]
    if not with_ease:
        return

    misses = found(request)

    if not sizes:
        assert misses == ()
        return
    least = min(misses, key=lambda miss: len(miss.easings))
    assert len(least.easings) == min(sizes)
    by = {one.part: one.by for one in least.easings}
    smaller = [part.length - by.get(part.id, Tenths(0)) for part in parts]
    assert fewest_lengths(smaller, 1600) < asked
    # A tenth less on any of them, and the saving is gone.
    for id_ in by:
        short = [part.length - (by.get(part.id, 0) - (part.id == id_)) for part in parts]
        assert fewest_lengths(short, 1600) == asked


@pytest.mark.parametrize(
    ("ease", "said"), [(0, "is 0 for every part"), (1205, "less than its length of 120.5")]
)
def test_no_ease_and_more_ease_than_there_is_are_refused(ease: int, said: str) -> None:
    plain = a_request(
        a_length_material(a_length_part("rail", 1205, 2), stock=[a_stock_length("S", 2400)])
    )
    item = plain.lengths[0]
    parts = tuple(eased(part, ease) for part in item.parts)
    request = replace(plain, lengths=(replace(item, parts=parts),))

    with pytest.raises(InvalidInput, match=said):
        near_misses(request, plan_cutting(plain))


def test_a_saving_that_is_none_and_a_strange_plan_are_refused() -> None:
    request = a_request(
        a_length_material(
            eased(a_length_part("rail", 1205, 2), 30), stock=[a_stock_length("S", 2400)]
        )
    )
    plan = plan_cutting(request)

    with pytest.raises(InvalidInput, match="saving"):
        near_misses(request, plan, saving=Pence(0))
    with pytest.raises(InvalidInput, match="made for this request"):
        near_misses(request, replace(plan, seed=7))
