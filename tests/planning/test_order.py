"""What is ordered: exactly the stock the plan cuts, the cheapest packs, VAT once on the sum."""

from __future__ import annotations

from collections import Counter
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from optimiser.domain.job import Job
from optimiser.domain.order import Order
from optimiser.domain.plan import CuttingPlan
from optimiser.domain.price_book import PackItem, PriceBook
from optimiser.domain.rack import Rack
from optimiser.errors import InvalidInput
from optimiser.planning.jobs import request_for_jobs
from optimiser.planning.order import fewest_pence, order_for
from optimiser.planning.plan import plan_cutting
from tests.cutting_builders import (
    a_board_part,
    a_keep,
    a_length_offcut,
    a_length_part,
    a_stock_length,
    a_stock_sheet,
    layouts_of,
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


def planned(jobs: tuple[Job, ...], book: PriceBook, rack: Rack | None = None) -> CuttingPlan:
    return plan_cutting(
        request_for_jobs(jobs, book, rack or Rack(), keep=a_keep(), seed=1, seconds=0.2)
    )


def packs_order(item: PackItem, *amounts: int) -> Order:
    """Order nothing but one thing bought by pack, wanted by one job per amount."""
    stock = a_length_item(a_stock_length("2400", 24_000, 0))
    jobs = tuple(
        a_job(
            f"job {number}",
            lengths=[a_length_part(f"p{number}", 24_000, job=f"job {number}")],
            quantities=[a_quantity(item.item, amount, item.unit)],
        )
        for number, amount in enumerate(amounts)
    )
    book = a_book(lengths=[stock], packs=[item])
    return order_for(planned(jobs, book), jobs, book)


def test_the_stock_ordered_is_exactly_what_the_plan_cuts_from_new_stock() -> None:
    jobs = (
        a_job(
            "A",
            lengths=[a_length_part("a", 14_000, 3, job="A")],
            boards=[a_board_part("ab", 6000, 6000, 5, job="A")],
            needed="2026-12-09",
        ),
        a_job("B", lengths=[a_length_part("b", 9000, 4, job="B")], needed="2026-12-07"),
    )
    # Both materials call their stock "2400": they must not be mixed up.
    book = a_book(
        lengths=[a_length_item(a_stock_length("2400", 24_000, 358))],
        sheets=[a_sheet_item(a_stock_sheet("2400", 12_000, 24_000, 895))],
    )
    rack = Rack(lengths=(("timber", a_length_offcut("R1", 9000)),))
    plan = planned(jobs, book, rack)

    order = order_for(plan, jobs, book)

    bought: Counter[str] = Counter()
    for material in plan.materials:
        for layout in material.layouts:
            if not layout.offcut:
                bought[material.material] += layout.count
    assert any(layout.offcut for layout in layouts_of(plan))
    assert [(line.item, line.quantity, line.price) for line in order.lines] == [
        ("2400", bought["timber"], 358),
        ("2400", bought["board"], 895),
    ]
    assert order.net == plan.money.purchase
    assert (order.lines[0].jobs, order.lines[0].needed) == (("A", "B"), "2026-12-07")
    assert (order.lines[1].jobs, order.lines[1].needed) == (("A",), "2026-12-09")


def test_nothing_is_ordered_for_parts_that_all_come_from_the_rack() -> None:
    jobs = (a_job("A", lengths=[a_length_part("a", 9000, job="A")]),)
    book = a_book(lengths=[a_length_item(a_stock_length("2400", 24_000, 358))])
    # A piece on the rack may be called as the stock is: it is still not bought.
    rack = Rack(lengths=(("timber", a_length_offcut("2400", 9000)),))

    order = order_for(planned(jobs, book, rack), jobs, book)

    assert (order.lines, order.net, order.vat, order.total) == ((), 0, 0, 0)


def test_vat_is_taken_once_on_the_sum_and_rounded_half_up() -> None:
    # Standard rate 20 %: GOV.UK, VAT for builders. Sums calculated: 57.48 × 0.2 = 11.496.
    jobs = (a_job("A", lengths=[a_length_part("a", 24_000, 12, job="A")]),)
    book = a_book(lengths=[a_length_item(a_stock_length("2400", 24_000, 479))], vat=2000)

    order = order_for(planned(jobs, book), jobs, book)

    assert (order.net, order.vat, order.total) == (5748, 1150, 6898)


@pytest.mark.parametrize(("net", "rate", "vat"), [(250, 2000, 50), (10, 500, 1), (9, 500, 0)])
def test_half_a_penny_of_vat_is_rounded_up(net: int, rate: int, vat: int) -> None:
    # Calculated: 10 p at 5 % is half a penny, 9 p at 5 % is less than half.
    jobs = (a_job("A", lengths=[a_length_part("a", 24_000, job="A")]),)
    book = a_book(lengths=[a_length_item(a_stock_length("2400", 24_000, net))], vat=rate)

    assert order_for(planned(jobs, book), jobs, book).vat == vat


def test_38_m_of_tape_and_a_tenth_more_take_one_roll_of_90_m() -> None:
    # Calculated: 38 m + 10 % = 41.8 m.
    order = packs_order(a_pack_item("tape", "mm", a_pack("roll", 90_000, 710)), 41_800)

    assert [(line.item, line.quantity) for line in order.lines[1:]] == [("roll", 1)]


def test_23_square_metres_of_skim_take_three_bags_of_25_kg() -> None:
    # Calculated: 23 m² at 10 m² a bag of 25 kg is 57.5 kg.
    order = packs_order(a_pack_item("plaster", "g", a_pack("bag", 25_000, 975)), 57_500)

    assert [(line.item, line.quantity, line.total) for line in order.lines[1:]] == [
        ("bag", 3, 2925)
    ]


def test_packs_are_opened_for_all_jobs_together() -> None:
    # By hand: 60 and 40 screws are one box of 100, not two.
    order = packs_order(a_pack_item("screw", "each", a_pack("box", 100, 720)), 60, 40)

    assert [(line.quantity, line.jobs) for line in order.lines[1:]] == [(1, ("job 0", "job 1"))]


@pytest.mark.parametrize(
    ("packs", "unit"),
    [
        ((), "g"),
        ((a_pack_item("plaster", "ml", a_pack("tub", 5000, 100)),), "g"),
        ((a_pack_item("plaster", "g"),), "g"),
    ],
    ids=["not sold", "sold in another unit", "sold in no pack"],
)
def test_a_thing_that_no_pack_is_sold_of_is_refused_by_name(
    packs: tuple[PackItem, ...], unit: str
) -> None:
    jobs = (
        a_job(
            "A",
            lengths=[a_length_part("a", 9000, job="A")],
            quantities=[a_quantity("plaster", 57_500, unit)],
        ),
    )
    book = a_book(lengths=[a_length_item(a_stock_length("2400", 24_000, 358))], packs=packs)

    with pytest.raises(InvalidInput) as refusal:
        order_for(planned(jobs, book), jobs, book)

    (problem,) = refusal.value.problems
    assert "'plaster'" in problem.field
    assert "57500 g" in problem.trouble
    assert 'unit = "g"' in problem.remedy


def test_two_small_boxes_are_not_bought_where_the_large_one_costs_less() -> None:
    # By hand: 150 screws are 2 × 7.20 or 1 × 11.90.
    small, large = a_pack("100", 100, 720), a_pack("200", 200, 1190)

    assert fewest_pence([small, large], 150) == [(large, 1, large.price)]
    assert fewest_pence([small, large], 100) == [(small, 1, small.price)]
    assert fewest_pence([small, large], 0) == []


@settings(max_examples=150, deadline=None)
@given(
    sizes=st.lists(
        st.tuples(st.integers(1, 12), st.integers(0, 60)), min_size=1, max_size=3, unique=True
    ),
    amount=st.integers(1, 24),
)
def test_no_other_mix_of_packs_costs_less_or_opens_fewer_at_the_same_money(
    sizes: list[tuple[int, int]], amount: int
) -> None:
    packs = [
        a_pack(str(number), size, price) for number, (size, price) in enumerate(sizes, start=1)
    ]

    chosen = fewest_pence(packs, amount)

    paid = sum(count * price for _, count, price in chosen)
    opened = sum(count for _, count, _ in chosen)
    every_mix = product(*(range(-(-amount // pack.size) + 1) for pack in packs))
    best = min(
        (sum(n * pack.price for n, pack in zip(mix, packs, strict=True)), sum(mix))
        for mix in every_mix
        if sum(n * pack.size for n, pack in zip(mix, packs, strict=True)) >= amount
    )
    assert sum(count * pack.size for pack, count, _ in chosen) >= amount
    assert (paid, opened) == best
