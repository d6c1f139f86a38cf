"""No bound of a board may exceed what edge-to-edge cuts can do: by hand and by recursion."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from optimiser.domain.plan import SheetWeights
from optimiser.domain.request import Choice, Keep, SheetMaterial
from optimiser.verify.board_bounds import sheet_bound
from optimiser.verify.weighing import BadCertificate
from tests.cutting_builders import (
    a_board_part,
    a_keep,
    a_sheet_material,
    a_sheet_offcut,
    a_stock_sheet,
)


def tables(across: dict[int, int], along: dict[int, int]) -> SheetWeights:
    return SheetWeights(across=tuple(across.items()), along=tuple(along.items()))


def sheets_bound_of(
    material: SheetMaterial,
    *certificate: SheetWeights,
    keep: Keep | None = None,
    choices: tuple[Choice, ...] = (),
) -> int:
    return sheet_bound(material, keep or a_keep(), choices, certificate)


def by_area(material: SheetMaterial) -> SheetWeights:
    """Every size weighs what it takes away, its kerf included."""
    sizes = sorted({side for part in material.parts for side in (part.width, part.height)})
    table = {int(size): size + material.kerf for size in sizes}
    return tables(table, table)


def a_board_of(
    parts: Sequence[tuple[int, int, int]],
    sheet: tuple[int, int],
    *,
    turn: bool = False,
    kerf: int = 0,
    trim: int = 0,
) -> SheetMaterial:
    return a_sheet_material(
        *(
            a_board_part(f"p{n}", width, height, quantity, turn=turn)
            for n, (width, height, quantity) in enumerate(parts)
        ),
        stock=[a_stock_sheet("sheet", *sheet, 1)],
        kerf=kerf,
        trim=trim,
    )


def test_plain_area_proves_a_sheet_for_each_sheetful() -> None:
    material = a_board_of([(10, 10, 9)], (20, 20))

    assert sheets_bound_of(material, by_area(material)) == 3


def test_parts_over_half_both_ways_are_proven_to_need_a_sheet_each() -> None:
    material = a_board_of([(11, 11, 7)], (20, 20))

    assert sheets_bound_of(material, by_area(material)) == 7
    assert sheets_bound_of(material, tables({11: 1}, {11: 1})) == 7


def test_the_pinwheel_is_never_proven_to_need_more_than_its_two_sheets() -> None:
    """A common textbook pattern: free cutting needs one sheet, cuts from edge to edge two."""
    parts = [(3, 2, 2), (2, 3, 2), (1, 1, 1)]
    bounds = [
        sheets_bound_of(
            a_board_of(parts, (5, 5), turn=turn),
            tables(dict(zip((1, 2, 3), across, strict=True)),
                   dict(zip((1, 2, 3), along, strict=True))),
        )
        for turn in (True, False)
        for across in product(range(4), repeat=3)
        for along in product(range(4), repeat=3)
    ]  # fmt: skip

    assert min(bounds) == 0
    assert 1 <= max(bounds) <= 2


# By hand: sheet, kerf, trim, part and how many; turning allowed; the fewest sheets.
WORKSHOP = {
    "no kerf, 2 by 2": ((1000, 500), 0, 0, (500, 250, 4), False, 1),
    "kerf 3, one to a sheet": ((1000, 500), 3, 0, (500, 250, 4), False, 4),
    "kerf 3, turned, three side by side": ((1000, 500), 3, 0, (500, 250, 4), True, 2),
    "kerf 4 fits to the tenth": ((1000, 500), 4, 0, (498, 248, 4), False, 1),
    "kerf 5 is one too wide": ((1000, 500), 5, 0, (498, 248, 4), False, 4),
    "kerf 5, turned": ((1000, 500), 5, 0, (498, 248, 4), True, 2),
    "trim 10 leaves room for four": ((1000, 500), 4, 10, (488, 238, 4), False, 1),
    "grain free": ((2440, 1220), 0, 0, (1220, 800, 3), True, 1),
    "grain fixed": ((2440, 1220), 0, 0, (1220, 800, 3), False, 2),
}


@pytest.mark.parametrize(
    ("sheet", "kerf", "trim", "part", "turn", "fewest"), WORKSHOP.values(), ids=WORKSHOP.keys()
)
def test_bounds_of_boards_reach_but_never_pass_what_is_found_by_hand(
    sheet: tuple[int, int],
    kerf: int,
    trim: int,
    part: tuple[int, int, int],
    turn: bool,
    fewest: int,
) -> None:
    material = a_board_of([part], sheet, turn=turn, kerf=kerf, trim=trim)
    width, height, _ = part
    each_alike = (
        tables({width: 1, height: 1}, {width: 1, height: 1})
        if turn
        else tables({width: 1}, {height: 1})
    )

    bounds = [
        sheets_bound_of(material, by_area(material)), sheets_bound_of(material, each_alike)
    ]  # fmt: skip

    assert max(bounds) <= fewest
    if not turn:
        assert max(bounds) == fewest


def test_one_tenth_more_trim_is_proven_to_need_more_sheets() -> None:
    parts = [(488, 238, 4)]
    fits = a_board_of(parts, (1000, 500), kerf=4, trim=10)
    tight = a_board_of(parts, (1000, 500), kerf=4, trim=11)

    assert sheets_bound_of(fits, tables({488: 1}, {238: 1})) == 1
    assert sheets_bound_of(tight, tables({488: 1}, {238: 1})) == 4


def test_the_bound_of_a_board_grants_credit_for_all_that_is_not_a_part() -> None:
    material = replace(a_board_of([(10, 5, 1)], (10, 10)), stock=(a_stock_sheet("s", 10, 10, 100),))

    # By hand: half of 100 p for the half that is left.
    assert (
        sheets_bound_of(
            material, by_area(material), keep=a_keep(width=1, height=1, credit=Fraction(1, 2))
        )
        == 75
    )


def test_the_bound_of_a_board_holds_for_the_lightest_option_of_a_choice() -> None:
    material = a_board_of([(11, 11, 1), (11, 11, 4), (11, 11, 2)], (20, 20))
    choice = Choice(id="which", options=(("p1",), ("p2",)))

    assert sheets_bound_of(material, by_area(material), choices=(choice,)) == 3


def test_a_rack_offcut_of_a_board_lowers_the_bound_only_once() -> None:
    material = replace(
        a_board_of([(11, 11, 3)], (20, 20)), offcuts=(a_sheet_offcut("rack 1", 12, 12),)
    )

    assert sheets_bound_of(material, by_area(material)) == 2


@pytest.mark.parametrize(
    "reason",
    [
        tables({11: 1}, {}),
        tables({}, {11: 1}),
        tables({11: -1}, {11: 1}),
        tables({11: 1, 0: 1}, {11: 1}),
        tables({11: 1}, {11: 2**62}),
        SheetWeights(across=((11, 1), (11, 1)), along=((11, 1),)),
    ],
    ids=["no height", "no width", "below 0", "size 0", "too large", "a size twice"],
)
def test_a_table_that_cannot_be_read_proves_nothing_and_says_so(reason: SheetWeights) -> None:
    with pytest.raises(BadCertificate):
        sheets_bound_of(a_board_of([(11, 11, 1)], (20, 20)), reason)


def most_of_one_sheet(
    width: int, height: int, parts: Sequence[tuple[int, int]], kerf: int, values: Sequence[int]
) -> int:
    """The most value that edge-to-edge cuts yield from a sheet, copies unlimited: plain recursion.

    Every cut at every tenth is tried.
    """
    best: dict[tuple[int, int], int] = {}
    for w in range(1, width + 1):
        for h in range(1, height + 1):
            most = max(
                (v for (a, b), v in zip(parts, values, strict=True) if (a, b) == (w, h)), default=0
            )
            for at in range(1, w):
                most = max(most, best[at, h] + best.get((w - at - kerf, h), 0))
            for at in range(1, h):
                most = max(most, best[w, at] + best.get((w, h - at - kerf), 0))
            best[w, h] = most
    return best[width, height]


@settings(max_examples=60, deadline=None, derandomize=True)
@given(
    st.tuples(st.integers(6, 14), st.integers(6, 14)),
    st.lists(st.tuples(st.integers(2, 6), st.integers(2, 6)), min_size=1, max_size=3, unique=True),
    st.integers(0, 2),
    st.data(),
)
def test_no_edge_to_edge_layout_outweighs_what_a_sheet_is_said_to_hold(
    sheet: tuple[int, int], parts: list[tuple[int, int]], kerf: int, data: st.DataObject
) -> None:
    sizes = sorted({side for part in parts for side in part})
    table = st.fixed_dictionaries({size: st.integers(0, 5) for size in sizes})
    across, along = data.draw(table), data.draw(table)
    values = [across[width] * along[height] for width, height in parts]
    heaviest = most_of_one_sheet(*sheet, parts, kerf, values)
    quantity = 50
    material = a_board_of([(*part, quantity) for part in parts], sheet, kerf=kerf)

    bound = sheets_bound_of(material, tables(across, along))

    # One layout yields `heaviest`: a bound that rests on less from a sheet is false.
    if heaviest:
        assert bound <= -(-quantity * sum(values) // heaviest)
    else:
        assert bound == 0
