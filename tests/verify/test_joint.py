"""The bound over all options together, against trying every way to choose."""

from __future__ import annotations

from itertools import product
from random import Random

import pytest

from optimiser.verify import joint
from optimiser.verify.joint import joint_bound
from optimiser.verify.reasons import OpenLine, OpenNeed, Reasons
from optimiser.verify.weighing import Amount


def some_reasons(luck: Random, options: list[int]) -> Reasons:
    """One material with one to three stocks, a line that holds credit back, and a few reasons."""

    def amount(most: int) -> Amount:
        return Amount(
            luck.randint(0, most),
            tuple(tuple(luck.randint(0, most) for _ in range(count)) for count in options),
        )

    stocks = luck.randint(1, 3)
    prices = tuple(luck.randint(20, 90) for _ in range(stocks))
    lines = [OpenLine(amount(20), prices, 1)]
    for _ in range(luck.randint(0, 2)):
        each = tuple(luck.randint(-10, 40) for _ in range(stocks))
        lines.append(OpenLine(amount(300), each, luck.randint(1, 9)))
    needs = [
        OpenNeed(tuple(luck.randint(5, 30) for _ in range(stocks)), amount(25))
        for _ in range(luck.randint(1, 3))
    ]
    return Reasons((60,) * stocks, tuple(lines), tuple(needs))


def by_trying_all(materials: tuple[Reasons, ...], options: list[int]) -> int:
    return min(
        sum(material.least_of(way) for material in materials)
        for way in product(*(range(count) for count in options))
    )


@pytest.mark.parametrize("seed", range(40))
def test_the_bound_of_few_ways_is_the_least_of_them_all(seed: int) -> None:
    luck = Random(seed)
    options = [luck.randint(1, 4) for _ in range(luck.randint(1, 3))]
    materials = tuple(some_reasons(luck, options) for _ in range(luck.randint(1, 3)))
    start = tuple(luck.randrange(count) for count in options)
    least = by_trying_all(materials, options)

    assert joint_bound(materials, start) <= least
    # Counting out ends early on large boxes of counts; these are small.
    assert joint_bound(materials, start) >= least - len(materials)
    # Each material by itself may take other options than its neighbour.
    assert sum(material.least() for material in materials) <= least


@pytest.mark.parametrize("fewer", [0, 3])
@pytest.mark.parametrize("seed", range(40))
def test_the_bound_of_ways_too_many_to_list_is_never_above_the_least(
    seed: int, fewer: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(joint, "MOST_WAYS", 0)
    monkeypatch.setattr(joint, "FEWER_WAYS", fewer)
    joint_bound.cache_clear()
    luck = Random(seed)
    options = [luck.randint(1, 4) for _ in range(luck.randint(1, 3))]
    materials = tuple(some_reasons(luck, options) for _ in range(luck.randint(1, 3)))
    start = tuple(luck.randrange(count) for count in options)

    assert 0 <= joint_bound(materials, start) <= by_trying_all(materials, options)
    joint_bound.cache_clear()


def test_what_one_option_saves_of_one_material_it_pays_of_the_other() -> None:
    # By hand: one piece of stock at 10 holds 1; option 0 takes 2 and 1, option 1 takes 1 and 2.
    here = Reasons(
        (9,), (OpenLine(Amount(0, ((0, 0),)), (10,), 1),), (OpenNeed((1,), Amount(0, ((2, 1),))),)
    )
    there = Reasons(
        (9,), (OpenLine(Amount(0, ((0, 0),)), (10,), 1),), (OpenNeed((1,), Amount(0, ((1, 2),))),)
    )

    assert here.least() + there.least() == 20
    assert joint_bound((here, there), (0,)) == 30


def test_many_choices_are_bounded_without_listing_their_ways() -> None:
    # By hand: 40 choices between 3 of one material and 2 of another, a penny each: 80 at least.
    own = tuple((3, 0) for _ in range(40))
    other = tuple((0, 2) for _ in range(40))
    none = tuple((0, 0) for _ in range(40))
    materials = tuple(
        Reasons((200,), (OpenLine(Amount(0, none), (1,), 1),), (OpenNeed((1,), Amount(0, each)),))
        for each in (own, other)
    )

    assert joint_bound(materials, (0,) * 40) == 80


def test_a_material_without_reasons_proves_nothing_and_spoils_nothing() -> None:
    known = Reasons(
        (9,), (OpenLine(Amount(0, ((0, 0),)), (10,), 1),), (OpenNeed((1,), Amount(0, ((2, 1),))),)
    )

    assert joint_bound((Reasons(), known), (0,)) == 10
    assert joint_bound((Reasons(),), (0,)) == 0


def pieces(*options: tuple[int, ...], holds: int) -> Reasons:
    """One stock at 100 a piece, of which each piece holds so much."""
    none = tuple((0,) * len(each) for each in options)
    return Reasons(
        (60,), (OpenLine(Amount(0, none), (100,), 1),), (OpenNeed((holds,), Amount(0, options)),)
    )


def test_whole_pieces_are_counted_where_the_rest_of_the_choices_is_left_open(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    # By hand: 11 or 12 of one piece's 10 take two pieces, whatever the second choice adds; by price
    # 11 are worth 110 only.
    material = pieces((12, 11), (0, 1), holds=10)
    monkeypatch.setattr(joint, "MOST_WAYS", 3)
    monkeypatch.setattr(joint, "FEWER_WAYS", 2)
    joint_bound.cache_clear()

    assert joint_bound((material,), (0, 0)) == 200
    monkeypatch.setattr(joint, "_listed", lambda *_: 0)
    joint_bound.cache_clear()
    assert joint_bound((material,), (0, 0)) == 110
    joint_bound.cache_clear()


def test_choices_of_one_option_take_no_room() -> None:
    # Tables have 64 sides at most.
    material = pieces(*((0,) for _ in range(70)), (25, 11), holds=10)

    assert joint_bound((material,), (0,) * 71) == 200
    assert joint_bound((pieces((25,), holds=10),), (0,)) == 300
