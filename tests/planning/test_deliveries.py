"""Deliveries: jobs that come together cost least, within days, loads and the merchant's terms."""

from __future__ import annotations

import time
from collections.abc import Iterator
from dataclasses import replace
from random import Random
from types import SimpleNamespace
from typing import Any

import pytest

from optimiser.domain.deliveries import Deliveries, Terms
from optimiser.domain.job import Job
from optimiser.domain.part_list import PartList
from optimiser.domain.parts import CutOut
from optimiser.domain.price_book import PriceBook
from optimiser.domain.request import Choice
from optimiser.errors import InvalidInput, NoPlan
from optimiser.planning.batches import Batches, charge_for
from optimiser.planning.days import day_number, day_text, weekday
from optimiser.planning.deliveries import plan_deliveries
from optimiser.units import Pence, Tenths
from optimiser.verify.check import check_plan
from tests.cutting_builders import (
    a_board_part,
    a_keep,
    a_length_part,
    a_stock_length,
    a_stock_sheet,
)
from tests.planning.jobs_builders import a_book, a_length_item, a_sheet_item

TODAY = "2026-11-25"  # a Wednesday


def terms(**change: Any) -> Terms:
    plain = Terms(
        charge=Pence(1000),
        free_over=None,
        by_length=(),
        mass=None,
        length=None,
        weekdays=(0, 1, 2, 3, 4),
        storage_days=7,
    )
    return replace(plain, **change)


def a_book_of_both() -> PriceBook:
    return a_book(
        lengths=[a_length_item(a_stock_length("S", 24_000, 360), a_stock_length("L", 48_000, 700))],
        sheets=[a_sheet_item(a_stock_sheet("B", 12_200, 24_400, 2400))],
    )


def a_timber_job(name: str, needed: str, *lengths: int) -> Job:
    return Job(
        name=name,
        client="",
        needed=needed,
        parts=PartList(
            lengths=tuple(
                ("timber", a_length_part(f"{name}/{n}", size, job=name))
                for n, size in enumerate(lengths)
            )
        ),
    )


def dealt(*jobs: Job, **change: Any) -> Deliveries:
    return plan_deliveries(
        jobs, a_book_of_both(), terms(**change), keep=a_keep(), today=TODAY, seconds=20
    )


def test_two_jobs_that_share_a_length_and_a_charge_come_together() -> None:
    one, two = (a_timber_job(name, "2026-12-04", 11_000) for name in "AB")

    found = dealt(one, two)

    (delivery,) = found.deliveries
    assert delivery.jobs == ("A", "B")
    # One length of 2400 holds both; alone each takes one, and each pays the charge.
    assert (found.cost, found.one_each, found.together) == (1360, 2720, 1360)
    assert found.proven
    assert check_plan(delivery.request, delivery.plan) == ()


def test_jobs_too_far_apart_for_the_storage_days_come_apart() -> None:
    found = dealt(a_timber_job("A", "2026-12-01", 11_000), a_timber_job("B", "2026-12-10", 11_000))

    assert [one.jobs for one in found.deliveries] == [("A",), ("B",)]
    assert found.together is None


def test_a_delivery_comes_on_the_last_weekday_that_suits_all() -> None:
    # 6 December 2026 is a Sunday; the Friday before is the last day that suits.
    found = dealt(a_timber_job("A", "2026-12-06", 11_000), a_timber_job("B", "2026-12-08", 11_000))

    assert [one.day for one in found.deliveries] == ["2026-12-04"]


def test_goods_enough_to_come_free_are_brought_together() -> None:
    jobs = [a_timber_job(name, "2026-12-04", 23_000, 23_000) for name in "AB"]

    found = dealt(*jobs, free_over=Pence(1400))

    assert [one.charge for one in found.deliveries] == [0]
    assert found.cost == 1400


def test_long_items_are_left_out_where_bringing_them_costs_more_than_they_save() -> None:
    job = a_timber_job("A", "2026-12-04", 23_000, 23_000)

    cheap = dealt(job, by_length=((Tenths(30_000), Pence(10)),))
    dear = dealt(job, by_length=((Tenths(30_000), Pence(500)),))

    # One 4800 for 700 and the charge for its length, against two 2400 for 720.
    assert (cheap.cost, cheap.deliveries[0].longest) == (1710, 48_000)
    assert (dear.cost, dear.deliveries[0].longest) == (1720, 24_000)


def test_what_the_vehicle_cannot_carry_at_once_comes_in_two() -> None:
    jobs = [a_timber_job(name, "2026-12-04", 23_000) for name in "AB"]

    # 1.1 kg a metre: 2400 weighs 2640 g.
    found = dealt(*jobs, mass=5000)

    assert [one.jobs for one in found.deliveries] == [("A",), ("B",)]
    assert [one.mass for one in found.deliveries] == [2640, 2640]


def test_once_cancelled_the_best_of_what_is_planned_is_told() -> None:
    jobs = [
        a_timber_job(name, f"2026-12-{day:02}", 11_000, 8_000)
        for name, day in zip("ABCD", (3, 4, 10, 11), strict=True)
    ]

    stopped = plan_deliveries(
        tuple(jobs),
        a_book_of_both(),
        terms(),
        keep=a_keep(),
        today=TODAY,
        seconds=3600,
        cancelled=lambda: True,
    )
    whole = dealt(*jobs)

    # Each job alone is planned before anything else; these cannot all come together.
    assert stopped.planned < whole.planned
    assert stopped.bound <= whole.cost <= stopped.cost
    for delivery in stopped.deliveries:
        assert check_plan(delivery.request, delivery.plan) == ()


def partitions(places: list[int]) -> Iterator[list[list[int]]]:
    """Yield every way to deal places to sets; by hand, no source."""
    if not places:
        yield []
        return
    first, rest = places[0], places[1:]
    for others in partitions(rest):
        yield [[first], *others]
        for index, group in enumerate(others):
            yield [*others[:index], [first, *group], *others[index + 1 :]]


def random_jobs(luck: Random, count: int) -> tuple[Job, ...]:
    jobs = []
    for n in range(count):
        name = f"J{n}"
        timber = a_timber_job(
            name,
            day_text(day_number("2026-12-01") + luck.randrange(12)),
            *(luck.randrange(4_000, 23_000) for _ in range(luck.randint(1, 4))),
        )
        boards = tuple(
            (
                "board",
                a_board_part(
                    f"{name}/b{m}",
                    luck.randrange(2_000, 12_000),
                    luck.randrange(2_000, 12_000),
                    job=name,
                ),
            )
            for m in range(luck.randint(0, 2))
        )
        jobs.append(replace(timber, parts=replace(timber.parts, boards=boards)))
    return tuple(jobs)


@pytest.mark.parametrize(("seed", "count"), [(1, 4), (2, 5), (3, 5), (4, 6), (5, 7)])
def test_no_other_way_to_deal_the_jobs_costs_less(
    seed: int, count: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    # Long enough to find the best plan of a batch so small; the process's own seconds, as on a busy
    # machine a second may be none of work.
    monkeypatch.setattr("optimiser.planning.batches.TRIAL", 1.0)
    # Plans of few layouts are not asked for: making them so took most of the time.
    monkeypatch.setattr("optimiser.solvers.lengths.solve.LEAST_TIDYING", float("inf"))
    clock = SimpleNamespace(monotonic=time.process_time)
    monkeypatch.setattr("optimiser.solvers.protocol.time", clock)
    luck = Random(seed)
    jobs = random_jobs(luck, count)
    asked = terms(free_over=Pence(4000), by_length=((Tenths(30_000), Pence(200)),), mass=60_000)
    book = a_book_of_both()
    found = plan_deliveries(jobs, book, asked, keep=a_keep(), today=TODAY, seconds=60)

    batches = Batches(jobs, book, asked, a_keep(), 1)
    known: dict[frozenset[int], int | None] = {}

    def cost(group: list[int]) -> int | None:
        key = frozenset(group)
        if key not in known:
            needed = [day_number(jobs[place].needed) for place in group]
            opens = max(max(needed) - 7, day_number(TODAY))
            days = [d for d in range(opens, min(needed) + 1) if weekday(d) < 5]
            planned = batches.plan(key) if days else None
            known[key] = None if planned is None else planned.cost
        return known[key]

    costs = []
    for way in partitions(list(range(count))):
        each = [cost(group) for group in way]
        if all(one is not None for one in each):
            costs.append(sum(one for one in each if one is not None))
    assert found.proven
    assert found.cost == min(costs)
    assert found.bound <= found.cost
    assert found.one_each == sum(cost([place]) or 0 for place in range(count))


@pytest.mark.parametrize("seed", [11, 12])
def test_no_batch_costs_less_than_its_bound(seed: int) -> None:
    jobs = random_jobs(Random(seed), 5)
    batches = Batches(jobs, a_book_of_both(), terms(free_over=Pence(4000)), a_keep(), 1)
    batches.weigh()

    for mask in range(1, 32):
        places = frozenset(place for place in range(5) if mask >> place & 1)
        planned = batches.plan(places)
        assert planned is not None
        assert batches.least(places) <= planned.cost


def test_a_part_cut_from_a_cut_out_takes_no_sheet_of_its_own() -> None:
    hole = CutOut(x=Tenths(1_100), y=Tenths(1_200), width=Tenths(10_000), height=Tenths(22_000))
    parts = (
        a_board_part("A/front", 12_200, 24_400, job="A", cut_outs=(hole,)),
        a_board_part("B/back", 9_800, 21_800, job="B"),
    )
    jobs = tuple(
        replace(a_timber_job(name, "2026-12-04"), parts=PartList(boards=(("board", part),)))
        for name, part in zip("AB", parts, strict=True)
    )
    book = a_book(sheets=[a_sheet_item(a_stock_sheet("B", 12_200, 24_400, 2400))])
    book = replace(book, sheets=(replace(book.sheets[0], use_cut_outs=True),))
    batches = Batches(jobs, book, terms(), a_keep(), 1)
    batches.weigh()

    for places in (frozenset({0}), frozenset({1}), frozenset({0, 1})):
        planned = batches.plan(places)
        assert planned is not None
        # One sheet and its delivery, whoever comes.
        assert planned.cost == 3400
        assert batches.least(places) <= 3400


@pytest.mark.parametrize(
    ("goods", "longest", "charge"), [(999, 100, 35), (1000, 100, 0), (1000, 101, 9), (0, 201, 46)]
)
def test_a_charge_is_flat_free_above_a_sum_and_more_for_length(
    goods: int, longest: int, charge: int
) -> None:
    asked = terms(
        charge=Pence(35),
        free_over=Pence(1000),
        by_length=((Tenths(100), Pence(9)), (Tenths(200), Pence(11))),
    )

    assert charge_for(asked, goods, longest) == charge


@pytest.mark.parametrize(
    ("job", "change", "said"),
    [
        (a_timber_job("A", "2026-11-24", 11_000), {}, "job 'A'.*before today"),
        (a_timber_job("A", "", 11_000), {}, "job 'A'.*is not given"),
        (a_timber_job("A", "soon", 11_000), {}, "job 'A'.*'soon' is no date"),
        (a_timber_job("A", "2026-02-30", 11_000), {}, "no date"),
        (
            a_timber_job("A", "2026-12-06", 11_000),
            {"storage_days": 1},
            "job 'A'.*storage_days is 1",
        ),
        (
            a_timber_job("A", "2026-12-04", 40_000),
            {"length": Tenths(30_000)},
            "job 'A': part 'A/0'.*vehicle takes 3000",
        ),
        (
            replace(
                a_timber_job("A", "2026-12-04", 11_000),
                choices=(Choice(id="c", options=(("A/0",),)),),
            ),
            {},
            "ways of boarding",
        ),
    ],
)
def test_what_cannot_be_is_refused_by_job_and_limit(
    job: Job, change: dict[str, Any], said: str
) -> None:
    with pytest.raises(InvalidInput, match=said):
        dealt(job, **change)


def test_a_job_heavier_than_the_vehicle_is_named_with_the_limit() -> None:
    with pytest.raises(NoPlan, match=r"job 'A'.*mass of 2 kg"):
        dealt(a_timber_job("A", "2026-12-04", 23_000), mass=2000)


def test_too_many_jobs_within_one_window_are_refused() -> None:
    jobs = [a_timber_job(f"J{n}", "2026-12-04", 11_000) for n in range(12)]

    with pytest.raises(InvalidInput, match="storage_days"):
        dealt(*jobs)


def test_no_job_and_no_date_of_today_are_refused() -> None:
    with pytest.raises(InvalidInput, match="there is no job"):
        dealt()
    with pytest.raises(InvalidInput, match="today"):
        plan_deliveries((), a_book_of_both(), terms(), keep=a_keep(), today="now")


def test_days_are_numbered_as_the_calendar_has_them() -> None:
    # Source: 1 January 2000 was a Saturday; 2000 was a leap year, 2100 is none (Gregorian rule).
    assert weekday(day_number("2000-01-01")) == 5
    assert day_number("2000-03-01") - day_number("2000-02-28") == 2
    assert day_number("2100-03-01") - day_number("2100-02-28") == 1
    for text in ("1999-12-31", "2024-02-29", "2026-11-25"):
        assert day_text(day_number(text)) == text
