"""Which way to choose is planned next: against trying every way by hand-sized reasons."""

from __future__ import annotations

from itertools import product
from math import inf
from random import Random

import numpy as np
import pytest

from optimiser.domain.request import Choice, CuttingRequest
from optimiser.planning import leads as leading
from optimiser.planning.floors import Floors
from optimiser.planning.leads import Leads, cheapest_ways
from optimiser.verify.reasons import OpenLine, OpenNeed, Reasons
from optimiser.verify.weighing import Amount
from tests.cutting_builders import (
    a_board_part,
    a_length_material,
    a_length_part,
    a_request,
    a_sheet_material,
    a_stock_length,
    a_stock_sheet,
)


def two_materials() -> CuttingRequest:
    """Two choices of two options, each of which cuts something else of both materials."""
    ids = [f"{choice}{option}" for choice in "ab" for option in "xy"]
    return a_request(
        a_length_material(
            *(a_length_part(f"{id_} stud", 600, 1) for id_ in ids),
            stock=[a_stock_length("1000", 1000, 70)],
        ),
        a_sheet_material(
            *(a_board_part(f"{id_} panel", 400, 900, 1) for id_ in ids),
            stock=[a_stock_sheet("full", 1000, 1000, 100)],
        ),
        choices=tuple(
            Choice(
                id=choice,
                options=tuple((f"{choice}{o} stud", f"{choice}{o} panel") for o in "xy"),
            )
            for choice in "ab"
        ),
    )


def holding(price: int, holds: int, *options: tuple[int, int]) -> Reasons:
    """One stock at a price; each choice's options take so much of what one piece holds."""
    return Reasons(
        (60,),
        (OpenLine(Amount(0, tuple((0, 0) for _ in options)), (price,), 1),),
        (OpenNeed((holds,), Amount(0, options)),),
    )


def names(request: CuttingRequest) -> tuple[str, str]:
    timber, board = request.materials
    return timber.material, board.material


def test_the_way_that_counts_in_whole_pieces_leave_cheapest_is_planned_next() -> None:
    # Lengths at 70 hold 10, sheets at 100 hold 10. By hand, pieces for (a, b):
    #   xx: 10+2 -> 2 lengths, 9+3 -> 2 sheets: 340;  xy: 10+0 -> 1, 9+4 -> 2: 270
    #   yx: 8+2 -> 1, 6+3 -> 1: 170;                  yy: 8+0 -> 1, 6+4 -> 1: 170 (planned: 240)
    request = two_materials()
    timber, board = names(request)
    leads = Leads(request, ((0, 1), (0, 1)))
    leads.learn(timber, (0, 0), 140, holding(70, 10, (10, 8), (2, 0)))
    leads.learn(board, (0, 0), 200, holding(100, 10, (9, 6), (3, 4)))

    ways, least = leads.next((0, 0), 1)
    assert (ways, least) == ([(1, 0)], 170) or (ways, least) == ([(1, 1)], 170)

    other = (1, 1) if ways == [(1, 0)] else (1, 0)
    for way in (ways[0], other):
        leads.learn(timber, way, 70, Reasons())
        leads.learn(board, way, 170, Reasons())
    ways, least = leads.next(other, 4)
    assert (ways, least) == ([(0, 1)], 270)


def test_a_way_that_cannot_be_cut_leads_nowhere() -> None:
    request = two_materials()
    timber, board = names(request)
    leads = Leads(request, ((0, 1), (0, 1)))
    for way in product((0, 1), repeat=2):
        leads.learn(timber, way, 70, holding(70, 10, (1, 1), (1, 1)))
    leads.learn(board, (0, 0), 100, holding(100, 10, (1, 1), (1, 1)))
    leads.learn(board, (0, 1), inf, Reasons())
    leads.learn(board, (1, 1), inf, Reasons())

    assert leads.next((0, 0), 4) == ([(1, 0)], 170)


def test_amounts_beyond_64_bits_teach_nothing_and_spoil_nothing() -> None:
    request = two_materials()
    timber, board = names(request)
    leads = Leads(request, ((0, 1), (0, 1)))
    leads.learn(timber, (0, 0), 70, holding(70, 2**70, (2**70, 1), (0, 0)))
    leads.learn(board, (0, 0), 100, holding(100, 10, (9, 6), (0, 4)))

    ways, least = leads.next((0, 0), 4)

    assert (sorted(ways), least) == ([(0, 1), (1, 0), (1, 1)], 100)


def test_options_that_are_shut_are_never_led_to() -> None:
    request = two_materials()
    timber, board = names(request)
    leads = Leads(request, ((0, 1), (1,)))
    leads.learn(timber, (0, 1), 70, holding(70, 10, (10, 1), (0, 5)))
    leads.learn(board, (0, 1), 100, holding(100, 10, (10, 1), (0, 5)))

    ways, _ = leads.next((0, 1), 4)

    assert ways == [(1, 1)]


@pytest.mark.parametrize("most_listed", [leading.MOST_LISTED, 1])
@pytest.mark.parametrize("seed", range(12))
def test_floors_are_never_above_what_the_reasons_prove(
    seed: int, most_listed: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    luck = Random(seed)
    monkeypatch.setattr(leading, "MOST_LISTED", most_listed)
    request = two_materials()
    timber, board = names(request)
    proofs = {
        name: [
            holding(price, 10, *((luck.randint(0, 40), luck.randint(0, 40)) for _ in range(2)))
            for _ in range(2)
        ]
        for name, price in ((timber, 70), (board, 100))
    }
    leads = Leads(request, ((0, 1), (0, 1)))
    planned = (0, 0)

    def least_of(name: str, way: tuple[int, ...]) -> int:
        one, two = proofs[name]
        return Reasons(one.limits, one.lines, (*one.needs, *two.needs)).least_of(way)

    for name in (timber, board):
        for proof in proofs[name]:
            leads.learn(name, planned, least_of(name, planned) + 5, proof)
    ways, least = leads.next(planned, 1)

    costs = {
        way: least_of(timber, way) + least_of(board, way)
        for way in product((0, 1), repeat=2)
        if way != planned
    }
    # Each way costs its counts here, so what leads is a cheapest one, and its floor its cost.
    assert costs[ways[0]] == min(costs.values())
    assert least <= min(costs.values())


def test_what_is_proven_of_one_way_holds_for_all_that_cut_no_less() -> None:
    floors = Floors(((0, 1), (0, 1)))
    floors.list_ways(np.array(list(product((0, 1), repeat=2))))
    floors.learn((0, 0), 100, holding(50, 10, (11, 25), (0, 10)))

    # 11 takes two pieces; so do all ways, as none holds less.
    assert floors.count(0)
    assert floors.floors.tolist() == [100, 100, 100, 100]
    assert not floors.count(0)
    # 25 + 10 takes four.
    assert floors.count(3)
    assert floors.floors.tolist() == [100, 100, 100, 200]


def test_ways_that_cut_the_same_of_a_material_are_one() -> None:
    floors = Floors(((0, 0, 2), (0, 1)))
    floors.list_ways(np.array(list(product((0, 1, 2), (0, 1)))))

    assert len(floors.floors) == 4
    floors.learn((1, 1), 30, Reasons())
    assert floors.planned[floors.places].tolist()[1::2][:2] == [30, 30]
    assert floors.key((1, 0)) == (0, 0)


@pytest.mark.parametrize("seed", range(10))
def test_ways_come_in_the_order_of_their_prices_each_once(seed: int) -> None:
    luck = Random(seed)
    prices = [
        {option: float(luck.randint(0, 9)) for option in range(luck.randint(1, 4))}
        for _ in range(luck.randint(1, 4))
    ]

    found = list(cheapest_ways(prices, 1_000))

    sums = [sum(each[o] for each, o in zip(prices, way, strict=True)) for way in found]
    assert sorted(found) == sorted(product(*prices))
    assert sums == sorted(sums)
    assert list(cheapest_ways(prices, 3)) == found[:3]


def test_choices_with_one_open_option_each_may_be_any_number() -> None:
    request = a_request(
        a_length_material(
            *(a_length_part(f"p{n}", 600, 1) for n in range(70)),
            *(a_length_part(f"q{n}", 500, 1) for n in range(70)),
            stock=[a_stock_length("1000", 1000, 70)],
        ),
        choices=tuple(Choice(id=f"c{n}", options=((f"p{n}",), (f"q{n}",))) for n in range(70)),
    )
    (timber,) = request.materials
    none = tuple((1, 1) for _ in range(70))
    leads = Leads(request, (*((0,) for _ in range(69)), (0, 1)))
    leads.learn(timber.material, (0,) * 70, 500, holding(70, 20, *none))

    assert leads.next((0,) * 70, 2) == ([(*(0,) * 69, 1)], 280)


def test_every_way_is_listed_once() -> None:
    open_ = ((0, 2), (1,), (0, 1, 2))

    assert list(map(tuple, leading._all_ways(open_).tolist())) == list(product(*open_))
