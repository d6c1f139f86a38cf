"""Who pays for what: shares that sum to the penny, and what planning together saves."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from optimiser.domain.request import Choice, CuttingRequest
from optimiser.planning.plan import plan_cutting
from optimiser.planning.shares import _shared, compare_batch, job_shares
from optimiser.verify.check import check_plan
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


@settings(max_examples=200, deadline=None)
@given(
    sum_=st.integers(-1000, 100_000),
    weights=st.dictionaries(
        st.text("abcdef", min_size=1, max_size=3), st.integers(0, 10**6), min_size=1, max_size=6
    ).filter(lambda weights: sum(weights.values()) > 0),
)
def test_shares_sum_to_the_penny_and_none_is_a_penny_or_more_off_its_due(
    sum_: int, weights: dict[str, int]
) -> None:
    shares = _shared(sum_, weights)

    assert sum(shares.values()) == sum_
    assert shares.keys() == weights.keys()
    total = sum(weights.values())
    for name, share in shares.items():
        assert abs(share - Fraction(sum_ * weights[name], total)) < 1


def test_the_odd_pennies_go_to_the_largest_remainders_then_by_name() -> None:
    # By hand: 10 p over 1 : 1 : 1 is 3 each and a penny left.
    assert _shared(10, {"c": 1, "a": 1, "b": 1}) == {"a": 4, "b": 3, "c": 3}
    # By hand: 10 p over 1 : 2 : 4 is 1.43, 2.86, 5.71: 1, 3 and 6.
    assert _shared(10, {"a": 1, "b": 2, "c": 4}) == {"a": 1, "b": 3, "c": 6}


def test_nothing_is_dealt_out_where_nobody_takes_anything() -> None:
    assert _shared(0, {"a": 0}) == {}


@settings(max_examples=10, deadline=None)
@given(
    bars=st.lists(
        st.tuples(st.sampled_from("ABC"), st.integers(1, 2400), st.integers(1, 4)),
        min_size=1,
        max_size=5,
    ),
    boards=st.lists(
        st.tuples(st.sampled_from("ABC"), st.integers(1, 1200), st.integers(1, 1200)), max_size=4
    ),
)
def test_the_shares_of_all_jobs_sum_to_the_net_cost_of_the_plan(
    bars: list[tuple[str, int, int]], boards: list[tuple[str, int, int]]
) -> None:
    timber = a_length_material(
        *(a_length_part(f"t{n}", size, count, job) for n, (job, size, count) in enumerate(bars)),
        stock=[a_stock_length("2400", 2400, 358)],
        offcuts=[a_length_offcut("R1", 1100)],
        kerf=3,
    )
    sheets = a_sheet_material(
        *(a_board_part(f"b{n}", wide, high, job=job) for n, (job, wide, high) in enumerate(boards)),
        stock=[a_stock_sheet("full", 1220, 2440, 2401)],
        offcuts=[a_sheet_offcut("R2", 640, 910)],
        kerf=3,
    )
    request = a_request(
        timber,
        *([sheets] if boards else []),
        keep=a_keep(length=600, width=300, height=300, credit=Fraction(1, 2)),
        seconds=0.05,
    )
    plan = plan_cutting(request)

    shares = job_shares(request, plan)

    assert sum(share.cost for share in shares) == plan.money.net
    assert {share.job for share in shares} == {job for job, *_ in (*bars, *boards)}
    for share in shares:
        assert sum(size for _, size in share.lengths) == sum(
            size * count for job, size, count in bars if job == share.job
        )
        assert sum(area for _, area in share.areas) == sum(
            wide * high for job, wide, high in boards if job == share.job
        )


def test_a_cut_out_is_not_paid_for_by_the_job_that_has_it() -> None:
    # By hand: two halves of one sheet at 90 p; A's has a quarter cut away: 3 to 4.
    request = a_request(
        a_sheet_material(
            a_board_part("a", 50, 40, job="A", cut_outs=(a_cut_out(0, 0, 25, 20),)),
            a_board_part("b", 50, 40, job="B"),
            stock=[a_stock_sheet("s", 100, 40, 70)],
        )
    )

    first, second = job_shares(request, plan_cutting(request))

    assert (first.areas, first.cost) == ((("board", 1500),), 30)
    assert (second.areas, second.cost) == ((("board", 2000),), 40)


def test_a_job_of_which_nothing_is_cut_pays_nothing() -> None:
    request = a_request(
        a_length_material(
            a_length_part("a", 900, job="A"),
            a_length_part("b", 2000, job="B"),
            stock=[a_stock_length("1000", 1000, 100), a_stock_length("2000", 2000, 500)],
        ),
        choices=(Choice(id="which", options=(("a",), ("b",))),),
        seconds=0.3,
    )

    first, second = job_shares(request, plan_cutting(request))

    assert (first.job, first.cost) == ("A", 100)
    assert (second.job, second.lengths, second.areas, second.cost) == ("B", (), (), 0)


def three_jobs(*, rack: bool = False) -> CuttingRequest:
    """Two jobs of one 1400 each and one of two 900s: in pairs they fill two lengths of 2400."""
    return a_request(
        a_length_material(
            a_length_part("a", 1400, job="A"),
            a_length_part("b", 1400, job="B"),
            a_length_part("c", 900, 2, job="C"),
            stock=[a_stock_length("2400", 2400, 360)],
            offcuts=[a_length_offcut("R1", 1400), a_length_offcut("R2", 900)] if rack else [],
            kerf=3,
        ),
        seconds=0.3,
    )


def test_parts_of_several_jobs_pair_up_and_less_stock_is_bought() -> None:
    # By hand: alone each job opens a length of its own; 1400 + 900 pair up within 2400.
    request = three_jobs()

    _, comparison = compare_batch(request, plan_cutting(request))

    assert (comparison.one_by_one.lengths, comparison.one_by_one.purchase) == (3, 1080)
    assert (comparison.together.lengths, comparison.together.purchase) == (2, 720)
    assert comparison.together.length == 2 * 2400
    assert comparison.with_rack == comparison.together


def test_the_rack_lowers_what_is_bought_once_more() -> None:
    # By hand: the rack yields one 1400 and one 900; one length is left to buy.
    request = three_jobs(rack=True)

    _, comparison = compare_batch(request, plan_cutting(request))

    assert comparison.together.purchase == 720
    assert (comparison.with_rack.lengths, comparison.with_rack.purchase) == (1, 360)


def test_boards_of_two_jobs_share_a_sheet() -> None:
    # By hand: each job's half leaves a half; together they are one sheet.
    request = a_request(
        a_sheet_material(
            a_board_part("a", 50, 40, job="A"),
            a_board_part("b", 50, 40, job="B"),
            stock=[a_stock_sheet("s", 100, 40, 70)],
        ),
        seconds=0.3,
    )

    _, comparison = compare_batch(request, plan_cutting(request))

    assert (comparison.one_by_one.sheets, comparison.one_by_one.area) == (2, 8000)
    assert (comparison.together.sheets, comparison.together.area) == (1, 4000)


@pytest.mark.parametrize(("seed", "workers"), [(0, 1), (1, 1), (2, 1), (3, 1), (0, 2), (1, 2)])
def test_more_freedom_never_comes_out_dearer(seed: int, workers: int) -> None:
    """With no time to search, a plan of more freedom still costs what one of less was found for."""
    luck = Random(seed)
    parts = []
    choices = []
    for job in "ABC":
        parts += [
            a_length_part(f"{job}{n}", luck.randint(200, 2300), luck.randint(1, 4), job)
            for n in range(8)
        ]
        choices.append(
            Choice(id=job, options=((f"{job}0", f"{job}1"), (f"{job}2",), (f"{job}3", f"{job}4")))
        )
    request = replace(
        a_request(
            a_length_material(
                *parts,
                stock=[a_stock_length("2400", 2400, 360), a_stock_length("3000", 3000, 440)],
                offcuts=[a_length_offcut(f"R{n}", luck.randint(700, 2000)) for n in range(6)],
                kerf=3,
            ),
            choices=tuple(choices),
        ),
        seconds=0.0,
    )

    plan, comparison = compare_batch(request, plan_cutting(request), workers=workers)

    assert check_plan(request, plan) == ()
    assert comparison.first_options is not None
    assert comparison.decided_alone is not None
    assert comparison.with_rack.net == plan.money.net <= comparison.together.net
    assert comparison.together.net <= comparison.first_options.net
    assert comparison.together.net <= comparison.decided_alone.net <= comparison.one_by_one.net


def test_what_takes_more_stock_than_there_is_is_not_carried_over() -> None:
    """Each job alone takes the one long length; both together cannot."""
    request = a_request(
        a_length_material(
            a_length_part("a", 900, 2, "A"),
            a_length_part("b", 900, 2, "B"),
            stock=[
                a_stock_length("long", 2000, 100, available=1),
                a_stock_length("short", 1000, 90),
            ],
        )
    )

    plan, comparison = compare_batch(request, plan_cutting(request))

    assert comparison.one_by_one.net == 200
    assert (comparison.together.net, plan.money.net) == (280, 280)


@pytest.mark.parametrize("workers", [1, 2])
def test_a_comparison_that_is_cancelled_ends_at_once_and_keeps_the_given_plan(
    workers: int,
) -> None:
    request = a_request(
        a_length_material(
            *(
                a_length_part(f"t{n}", 137 + 41 * n, 3, job="a" if n % 2 else "b")
                for n in range(12)
            ),
            stock=[a_stock_length("long", 1000)],
        ),
        seconds=600,
    )
    plan = plan_cutting(replace(request, seconds=0.2))

    kept, comparison = compare_batch(request, plan, cancelled=lambda: True, workers=workers)

    assert kept.money.net <= plan.money.net
    assert comparison.with_rack.net == kept.money.net
