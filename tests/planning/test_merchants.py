"""Whom to order from: no merchant, and no two, would take a penny less for the same parts."""

from __future__ import annotations

from dataclasses import replace
from itertools import product

import pytest

from optimiser.domain.job import Job
from optimiser.domain.merchants import Buying
from optimiser.domain.price_book import NO_TERMS, OrderTerms, PriceBook, PriceBreak
from optimiser.domain.rack import Rack
from optimiser.errors import InvalidInput, NoPlan
from optimiser.planning.assemble import added_up
from optimiser.planning.jobs import request_for_jobs
from optimiser.planning.merchants import buy_from
from optimiser.planning.order import order_for
from optimiser.planning.plan import plan_cutting
from optimiser.units import Pence, Tenths
from optimiser.verify.check import check_plan
from tests.cutting_builders import (
    a_board_part,
    a_keep,
    a_length_part,
    a_stock_length,
    a_stock_sheet,
)
from tests.planning.jobs_builders import (
    a_book,
    a_job,
    a_length_item,
    a_pack,
    a_pack_item,
    a_quantity,
    a_sheet_item,
)

JOBS = (
    a_job(
        "A",
        lengths=[a_length_part("a", 11_000, 5, job="A")],
        boards=[a_board_part("ab", 6000, 11_000, 9, job="A")],
        quantities=[a_quantity("screw", 150, "each"), a_quantity("tape", 60_000, "mm")],
    ),
)


def a_merchant(
    name: str, *, timber: int, board: int, box: int, roll: int, terms: OrderTerms = NO_TERMS
) -> PriceBook:
    book = a_book(
        lengths=[a_length_item(a_stock_length(f"{name}-2400", 24_000, timber))],
        sheets=[a_sheet_item(a_stock_sheet(f"{name}-2412", 12_000, 24_000, board))],
        packs=[
            a_pack_item("screw", "each", a_pack(f"{name}-100", 100, box)),
            a_pack_item("tape", "mm", a_pack(f"{name}-roll", 90_000, roll)),
        ],
    )
    return replace(book, merchant=name, terms=terms)


NORTH = a_merchant("North", timber=500, board=2000, box=700, roll=500)
SOUTH = a_merchant("South", timber=560, board=1500, box=650, roll=900)


def bought(*books: PriceBook, jobs: tuple[Job, ...] = JOBS, split_saves: int = 0) -> Buying:
    request = request_for_jobs((), books[0], Rack(), keep=a_keep(), seed=1, seconds=0.4)
    found = buy_from(jobs, books, Rack(), request, split_saves=Pence(split_saves))
    assert check_plan(found.request, found.plan) == ()
    assert sum(order.total for order in found.orders) == found.total
    return found


def alone(book: PriceBook, materials: set[str], jobs: tuple[Job, ...] = JOBS) -> int | None:
    """Return what these materials and pack items cost from one merchant, by the plain way."""
    some = tuple(
        replace(
            job,
            parts=replace(
                job.parts,
                lengths=tuple(pair for pair in job.parts.lengths if pair[0] in materials),
                boards=tuple(pair for pair in job.parts.boards if pair[0] in materials),
            ),
            quantities=tuple(q for q in job.quantities if q.item in materials),
        )
        for job in jobs
    )
    request = request_for_jobs(some, book, Rack(), keep=a_keep(), seed=1, seconds=0.2)
    try:
        plan = plan_cutting(request) if request.materials else added_up(request, ())
        return order_for(plan, some, book).total
    except NoPlan:
        return None


THINGS = ("timber", "board", "screw", "tape")


@pytest.mark.parametrize(
    ("north", "south"),
    [
        (NO_TERMS, NO_TERMS),
        (OrderTerms(charge=Pence(600)), OrderTerms(charge=Pence(600))),
        (OrderTerms(charge=Pence(2500), free_over=Pence(2900)), NO_TERMS),
        (OrderTerms(minimum=Pence(4000)), OrderTerms(minimum=Pence(3200), charge=Pence(50))),
        (
            OrderTerms(minimum=Pence(4000), small_order=Pence(90)),
            OrderTerms(by_length=((Tenths(23_000), Pence(75)),)),
        ),
    ],
    ids=["no charges", "charges", "free from a sum on", "smallest orders", "small and long"],
)
def test_of_all_ways_to_deal_the_goods_the_cheapest_is_taken(
    north: OrderTerms, south: OrderTerms
) -> None:
    books = (replace(NORTH, terms=north), replace(SOUTH, terms=south))
    every = []
    for dealt in product((0, 1), repeat=len(THINGS)):
        sums = [
            alone(book, {thing for thing, at in zip(THINGS, dealt, strict=True) if at == number})
            for number, book in enumerate(books)
        ]
        if None not in sums:
            every.append(sum(one for one in sums if one is not None))

    found = bought(*books)

    assert found.proven
    assert found.total == min(every)
    assert [quote.total for quote in found.quotes] == [alone(book, set(THINGS)) for book in books]


def test_two_are_ordered_from_only_where_that_saves_more_than_was_stated() -> None:
    # By hand, net: North 3 × 5 + 3 × 20 + 2 × 7 + 5 = 94, South 3 × 5.60 + 45 + 13 + 9 = 83.80,
    # each thing where it costs less 15 + 45 + 13 + 5 = 78: with VAT 6.96 less than South alone.
    both = bought(NORTH, SOUTH, split_saves=695)
    one = bought(NORTH, SOUTH, split_saves=696)

    assert [(order.merchant, order.net) for order in both.orders] == [
        ("North", 2000),
        ("South", 5800),
    ]
    assert [order.merchant for order in one.orders] == ["South"]
    assert (one.total, one.split) == (10_056, 9360)


def test_a_price_break_is_paid_where_the_quantity_reaches_it() -> None:
    # By hand: 3 sheets at 20.00; from 3 on 14.00 makes North's boards cheaper than South's.
    north = replace(NORTH, breaks=(PriceBreak(id="North-2412", quantity=3, price=Pence(1400)),))

    found = bought(north, SOUTH)

    lines = {line.item: line for order in found.orders for line in order.lines}
    assert (lines["North-2412"].quantity, lines["North-2412"].price) == (3, 1400)
    assert found.plan.money.purchase == 1500 + 4200


def test_one_more_is_bought_where_that_costs_less() -> None:
    # By hand: 3 sheets at 20.00 are 60.00, 4 at 14.50 are 58.00.
    north = replace(NORTH, breaks=(PriceBreak(id="North-2412", quantity=4, price=Pence(1450)),))
    far = a_merchant("Far", timber=900, board=9000, box=900, roll=900)

    found = bought(north, far)

    (line,) = [line for order in found.orders for line in order.lines if "2412" in line.item]
    assert (line.quantity, line.total) == (4, 5800)
    assert "1 more than is cut" in line.description


def test_what_only_one_merchant_sells_is_ordered_there() -> None:
    no_boards = replace(NORTH, sheets=())

    found = bought(no_boards, SOUTH, split_saves=100_000)

    assert [order.merchant for order in found.orders] == ["South"]
    assert found.quotes[0].total is None
    assert "'board'" in found.quotes[0].trouble


def test_what_no_merchant_sells_is_refused_by_name() -> None:
    books = [replace(book, packs=book.packs[:1]) for book in (NORTH, SOUTH)]

    with pytest.raises(InvalidInput) as refusal:
        bought(*books)

    assert [problem.field for problem in refusal.value.problems] == [
        "pack item 'tape' at 'North'",
        "pack item 'tape' at 'South'",
    ]


def test_one_name_for_two_things_is_refused() -> None:
    other = replace(SOUTH, lengths=(replace(SOUTH.lengths[0], grade="C24"),))

    with pytest.raises(InvalidInput, match=r"C16 at 'North' and .* C24 at 'South'"):
        bought(NORTH, other)


def test_too_small_an_order_for_everybody_is_no_plan() -> None:
    terms = OrderTerms(minimum=Pence(100_000))

    with pytest.raises(NoPlan, match="take no order as small as this"):
        bought(replace(NORTH, terms=terms), replace(SOUTH, terms=terms))


def test_an_order_names_what_bringing_it_costs() -> None:
    terms = OrderTerms(
        minimum=Pence(20_000), small_order=Pence(450), charge=Pence(1200), free_over=Pence(50_000)
    )
    book = replace(NORTH, terms=terms)
    request = request_for_jobs(JOBS, book, Rack(), keep=a_keep(), seed=1, seconds=0.2)

    order = order_for(plan_cutting(request), JOBS, book)

    charges = [(line.item, line.total) for line in order.lines if line.charge]
    assert charges == [("small-order", 450), ("delivery", 1200)]
    # Calculated: goods 94.00 + 16.50, VAT 20 % of the sum.
    assert (order.net, order.vat, order.total) == (11_050, 2210, 13_260)


def test_the_jobs_shares_are_of_what_is_ordered() -> None:
    found = bought(NORTH, SOUTH)

    assert {line.item for order in found.orders for line in order.lines} == {
        "North-2400",
        "South-2412",
        "South-100",
        "North-roll",
    }
    assert {item.material for item in found.book.lengths} == {"timber"}
    assert found.book.sheets[0].stock[0].id == "South-2412"
