"""A continuation that takes what is not there, or leaves a part out, does not pass."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest

from optimiser.domain.continuation import Continuation, Rest
from optimiser.domain.marks import Mark, Marks, State
from optimiser.domain.stock import LengthOffcut
from optimiser.planning.plan import plan_cutting
from optimiser.planning.replan import replan
from optimiser.units import Pence, Tenths
from optimiser.verify.continuation import check_continuation
from tests.cutting_builders import (
    a_length_material,
    a_length_part,
    a_request,
    a_stock_length,
)

REQUEST = a_request(
    a_length_material(
        a_length_part("long", 1500, 3),
        a_length_part("short", 700, 3),
        stock=[a_stock_length("S", 2400, 360, 9)],
        kerf=10,
    )
)
MARKS = Marks(
    marks=(
        Mark(material="timber", layout=1, state=State.STARTED, cuts=1),
        Mark(material="timber", layout=1, state=State.DAMAGED),
    )
)


def with_offcut(**change: Any) -> Callable[[Rest], Rest]:
    def spoil(rest: Rest) -> Rest:
        (item,) = rest.request.lengths
        first: LengthOffcut = replace(item.offcuts[0], **change)
        item = replace(item, offcuts=(first, *item.offcuts[1:]))
        return replace(rest, request=replace(rest.request, lengths=(item,)))

    return spoil


def with_stock(place: int, **change: Any) -> Callable[[Rest], Rest]:
    def spoil(rest: Rest) -> Rest:
        (item,) = rest.request.lengths
        stock = list(item.stock)
        stock[place] = replace(stock[place], **change)
        item = replace(item, stock=tuple(stock))
        return replace(rest, request=replace(rest.request, lengths=(item,)))

    return spoil


def one_part_less(rest: Rest) -> Rest:
    (item,) = rest.request.lengths
    first, *others = item.parts
    item = replace(item, parts=(replace(first, quantity=first.quantity - 1), *others))
    (drawn,) = rest.plan.lengths
    return replace(
        rest,
        request=replace(rest.request, lengths=(item,)),
        plan=replace(rest.plan, lengths=(replace(drawn, layouts=drawn.layouts[:-1]),)),
    )


def with_rules(**change: Any) -> Callable[[Rest], Rest]:
    def spoil(rest: Rest) -> Rest:
        (item,) = rest.request.lengths
        return replace(rest, request=replace(rest.request, lengths=(replace(item, **change),)))

    return spoil


def a_shorter_part(rest: Rest) -> Rest:
    (item,) = rest.request.lengths
    first, *others = item.parts
    return with_rules(parts=(replace(first, length=Tenths(600)), *others))(rest)


MUTANTS: dict[str, tuple[Callable[[Rest], Rest], str]] = {
    "a remnant longer than the cut list leaves": (with_offcut(length=Tenths(1600)), "found"),
    "a remnant from nowhere": (with_offcut(id="X"), "neither on the floor nor racked"),
    "a remnant of a piece never started": (
        lambda rest: replace(rest, floor=(replace(rest.floor[0], layout=7),)),
        "found nothing",
    ),
    "more in hand than was bought": (with_stock(0, available=5), "in hand"),
    "stock in hand that costs": (with_stock(0, price=Pence(1)), "in hand"),
    "a price that nobody asks": (with_stock(1, price=Pence(1)), "can still be bought"),
    "more for sale than is left": (with_stock(1, available=9), "can still be bought"),
    "stock of another size": (with_stock(1, length=Tenths(4800)), "not sold in that size"),
    "a narrower blade": (with_rules(kerf=Tenths(5)), "by other rules"),
    "untrimmed ends": (with_rules(end_trim=Tenths(5)), "by other rules"),
    "a part of another size": (a_shorter_part, "not as it was asked"),
    "a part left out": (one_part_less, "in all, asked"),
}


def continued() -> Continuation:
    return replan(REQUEST, plan_cutting(REQUEST), MARKS)


def test_the_continuation_itself_holds() -> None:
    assert check_continuation(REQUEST, plan_cutting(REQUEST), MARKS, continued()) == ()


@pytest.mark.parametrize("name", sorted(MUTANTS))
def test_a_spoilt_continuation_is_refused(name: str) -> None:
    spoil, said = MUTANTS[name]
    continuation = continued()
    assert continuation.rest is not None

    faults = check_continuation(
        REQUEST,
        plan_cutting(REQUEST),
        MARKS,
        replace(continuation, rest=spoil(continuation.rest)),
    )

    assert any(said in fault.what for fault in faults), faults


def test_finished_parts_that_the_marks_do_not_bear_out_are_refused() -> None:
    continuation = replace(continued(), finished=(("long", 2),))

    faults = check_continuation(REQUEST, plan_cutting(REQUEST), MARKS, continuation)

    assert any(fault.where == "finished" for fault in faults)


def test_one_piece_of_the_floor_under_two_names_is_refused() -> None:
    continuation = continued()
    rest = continuation.rest
    assert rest is not None
    (item,) = rest.request.lengths
    twin = replace(item.offcuts[0], id="twin")
    item = replace(item, offcuts=(*item.offcuts, twin))
    doubled = replace(
        rest,
        request=replace(rest.request, lengths=(item,)),
        floor=(*rest.floor, replace(rest.floor[0], id="twin")),
    )

    faults = check_continuation(
        REQUEST, plan_cutting(REQUEST), MARKS, replace(continuation, rest=doubled)
    )

    assert any("twice" in fault.what for fault in faults)
