"""No bound may ever exceed the true least cost: held against answers found another way."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import product

import highspy
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from optimiser.domain.plan import LengthWeights, SheetWeights
from optimiser.domain.request import Choice, Keep, LengthMaterial, SheetMaterial
from optimiser.verify.bounds import BadCertificate, length_bound, sheet_bound
from optimiser.verify.cover import Source, least_cost
from tests.cutting_builders import (
    a_board_part,
    a_keep,
    a_length_material,
    a_length_offcut,
    a_length_part,
    a_sheet_material,
    a_sheet_offcut,
    a_stock_length,
    a_stock_sheet,
)


def weights(*each: int, scale: int = 1) -> LengthWeights:
    return LengthWeights(weights=each, scale=scale)


def tables(across: dict[int, int], along: dict[int, int]) -> SheetWeights:
    return SheetWeights(across=tuple(across.items()), along=tuple(along.items()))


def bound_of(
    material: LengthMaterial,
    *certificate: LengthWeights,
    keep: Keep | None = None,
    choices: tuple[Choice, ...] = (),
) -> int:
    return length_bound(material, keep or a_keep(), choices, certificate)


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


# --- one section -------------------------------------------------------------------------------


def patterns_of(material: LengthMaterial, usable: int) -> list[tuple[tuple[int, ...], int]]:
    """All ways to cut a usable length, each with what is left beyond the last kerf."""
    counts = product(*(range(part.quantity + 1) for part in material.parts))
    found = []
    for each in counts:
        taken = sum(
            n * (part.length + material.kerf) for n, part in zip(each, material.parts, strict=True)
        )
        if any(each) and taken <= usable + material.kerf:
            found.append((each, usable - taken))
    return found


def least_net_cost(material: LengthMaterial, keep: Keep) -> int | None:
    """The least net cost over all patterns of all stock, by a general integer programme."""
    rate = keep.credit * min(
        (Fraction(stock.price, stock.length) for stock in material.stock), default=Fraction(0)
    )
    pieces = [
        (stock.length - 2 * material.end_trim, int(stock.price), stock.available)
        for stock in material.stock
    ] + [
        (offcut.length - 2 * offcut.end_trim, int(rate * offcut.length), 1)
        for offcut in material.offcuts
    ]
    model = highspy.Highs()
    model.setOptionValue("output_flag", False)
    model.setOptionValue("mip_rel_gap", 0.0)
    most = sum(part.quantity for part in material.parts)
    rows: list[list[tuple[int, float]]] = [[] for _ in material.parts]
    column = 0
    for usable, cost, available in pieces:
        of_piece = []
        for counts, left in patterns_of(material, usable):
            credit = int(rate * left) if left > 0 and left >= keep.length else 0
            limit = most if available is None else min(most, available)
            model.addVar(0, limit)
            model.changeColCost(column, cost - credit)
            model.changeColIntegrality(column, highspy.HighsVarType.kInteger)
            of_piece.append(column)
            for row, n in zip(rows, counts, strict=True):
                if n:
                    row.append((column, float(n)))
            column += 1
        if available is not None and of_piece:
            model.addRow(0, available, len(of_piece), of_piece, [1.0] * len(of_piece))
    for row, part in zip(rows, material.parts, strict=True):
        if not row:
            return None
        model.addRow(
            part.quantity, part.quantity, len(row), [at for at, _ in row], [n for _, n in row]
        )
    model.run()
    if model.getModelStatus() != highspy.HighsModelStatus.kOptimal:
        return None
    return round(model.getInfo().objective_function_value)


@st.composite
def small_sections(draw: st.DrawFn) -> tuple[LengthMaterial, Keep, tuple[LengthWeights, ...]]:
    parts = [
        a_length_part(f"p{n}", draw(st.integers(2, 30)), draw(st.integers(1, 4)))
        for n in range(draw(st.integers(1, 3)))
    ]
    stock = [
        a_stock_length(
            f"s{n}",
            draw(st.integers(30, 60)),
            draw(st.integers(1, 90)),
            draw(st.sampled_from((None, None, 1, 3))),
        )
        for n in range(draw(st.integers(1, 2)))
    ]
    offcuts = [
        a_length_offcut(f"r{n}", draw(st.integers(5, 40)), draw(st.sampled_from((0, 1))))
        for n in range(draw(st.integers(0, 2)))
    ]
    material = a_length_material(
        *parts,
        stock=stock,
        offcuts=offcuts,
        kerf=draw(st.sampled_from((0, 1, 4))),
        trim=draw(st.sampled_from((0, 2))),
    )
    credit = draw(st.sampled_from((Fraction(0), Fraction(1, 2), Fraction(9, 10))))
    reason = st.builds(
        lambda each, scale: LengthWeights(weights=tuple(each), scale=scale),
        st.lists(st.integers(0, 60), min_size=len(parts), max_size=len(parts)),
        st.sampled_from((1, 1, 2, 7)),
    )
    by_length = LengthWeights(
        weights=tuple(part.length + material.kerf for part in material.parts), scale=1
    )
    reasons = (*draw(st.lists(reason, min_size=1, max_size=3)), by_length)
    return material, a_keep(draw(st.integers(1, 40)), credit=credit), reasons


@settings(max_examples=150, deadline=None, derandomize=True)
@given(small_sections())
def test_no_weights_whatever_prove_more_than_the_least_cost_of_a_section(
    case: tuple[LengthMaterial, Keep, tuple[LengthWeights, ...]],
) -> None:
    material, keep, certificate = case
    least = least_net_cost(material, keep)

    bound = length_bound(material, keep, (), certificate)

    if least is not None:
        assert bound <= least


def gilmore_gomory() -> LengthMaterial:
    """Gilmore and Gomory 1961 (from memory); the least cost is 170."""
    return a_length_material(
        a_length_part("2", 2, 20),
        a_length_part("3", 3, 10),
        a_length_part("4", 4, 20),
        stock=[a_stock_length("5", 5, 6), a_stock_length("6", 6, 7), a_stock_length("9", 9, 10)],
    )


def test_the_published_section_costs_170_by_enumeration_and_by_its_weights() -> None:
    # By hand: with 2, 3 and 5 the lengths hold 5, 7 and 10 at most, for 6, 7 and 10 p, so that no
    # penny buys more than a weight of 1; the parts weigh 40 + 30 + 100.
    assert least_net_cost(gilmore_gomory(), a_keep()) == 170
    assert bound_of(gilmore_gomory(), weights(2, 3, 5)) == 170
    assert bound_of(gilmore_gomory(), weights(24, 36, 60, scale=12)) == 170


def test_plain_length_proves_less_than_the_published_weights() -> None:
    # By hand: 150 of length is 16 nines and a six, 167.
    assert bound_of(gilmore_gomory(), weights(2, 3, 4)) == 167


def test_the_best_of_several_reasons_counts() -> None:
    assert bound_of(gilmore_gomory(), weights(2, 3, 4), weights(2, 3, 5), weights(0, 0, 0)) == 170


def test_no_reason_proves_nothing() -> None:
    assert bound_of(gilmore_gomory()) == 0


def test_no_pattern_is_credited_with_more_parts_than_are_demanded() -> None:
    """Scheithauer and Terno's type (from memory): stock 132, parts 44 × 2, 33 × 3, 12 × 6.

    With copies unlimited each would fill a length, 3 · 44 = 4 · 33 = 11 · 12 = 132.
    """
    material = a_length_material(
        a_length_part("44", 44, 2),
        a_length_part("33", 33, 3),
        a_length_part("12", 12, 6),
        stock=[a_stock_length("132", 132, 1)],
    )

    assert least_net_cost(material, a_keep()) == 3
    # By hand: all weigh 88 + 99 + 72 = 259, and of so many 66 + 60 = 126 is the most in 132; with
    # copies unlimited 3 · 44 = 132 would let two lengths hold all.
    assert bound_of(material, weights(44, 33, 12)) == 3


@pytest.mark.parametrize(("kerf", "trim", "least"), [(0, 0, 1), (4, 0, 1), (5, 0, 2), (4, 1, 2)])
def test_kerf_and_trim_count_in_the_bound_of_a_section(kerf: int, trim: int, least: int) -> None:
    # By hand: 498 + 4 + 498 = 1000.
    material = a_length_material(
        a_length_part("half", 498, 2), stock=[a_stock_length("1000", 1000, 1)], kerf=kerf, trim=trim
    )

    assert bound_of(material, weights(1)) == least


def test_credit_for_all_that_is_not_a_part_lowers_the_bound_of_a_section() -> None:
    # By hand: half of 100 p for the 400 that are left.
    material = a_length_material(
        a_length_part("part", 600), stock=[a_stock_length("1000", 1000, 100)]
    )

    assert bound_of(material, weights(1), keep=a_keep(400, credit=Fraction(1, 2))) == 80


def test_the_bound_of_a_section_holds_for_the_lightest_option_of_a_choice() -> None:
    material = a_length_material(
        a_length_part("always", 900),
        a_length_part("long", 900, 3),
        a_length_part("short", 900, 1),
        stock=[a_stock_length("1000", 1000, 10)],
    )
    choice = Choice(id="which", options=(("long",), ("short",)))

    assert bound_of(material, weights(1, 1, 1)) == 50
    assert bound_of(material, weights(1, 1, 1), choices=(choice,)) == 20


def test_a_cheap_offcut_lowers_the_bound_of_a_section_only_once() -> None:
    material = a_length_material(
        a_length_part("part", 600, 3),
        stock=[a_stock_length("1000", 1000, 100)],
        offcuts=[a_length_offcut("rack 1", 600)],
    )

    # By hand: half of 60 p for the offcut, two new lengths.
    assert bound_of(material, weights(1), keep=a_keep(900, credit=Fraction(1, 2))) <= 230
    assert bound_of(material, weights(1)) == 200


@pytest.mark.parametrize(
    "reason",
    [
        weights(1, 1),
        weights(1, 1, 1, 1),
        weights(1, 1, -1),
        weights(1, 1, 1, scale=0),
        weights(1, 1, 1, scale=-5),
        weights(2**62, 2**62, 2**62),
    ],
    ids=["too few", "too many", "below 0", "scale 0", "scale below 0", "too large"],
)
def test_a_reason_that_cannot_be_read_proves_nothing_and_says_so(reason: LengthWeights) -> None:
    with pytest.raises(BadCertificate):
        bound_of(gilmore_gomory(), reason)


# --- one board ---------------------------------------------------------------------------------


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


# --- the least cost of stock that holds a weight ------------------------------------------------

FRACTIONS = st.builds(Fraction, st.integers(-6, 60), st.integers(1, 7))
LIMITED = st.builds(Source, FRACTIONS, st.integers(0, 12), st.integers(0, 4))
UNLIMITED = st.builds(
    Source,
    st.builds(Fraction, st.integers(0, 60), st.integers(1, 7)),
    st.integers(0, 12),
    st.none(),
)


@settings(max_examples=200, deadline=None, derandomize=True)
@given(
    st.lists(LIMITED, max_size=3),
    st.lists(UNLIMITED, max_size=2),
    st.integers(-3, 30),
    st.builds(Fraction, st.integers(-90, 90), st.integers(1, 5)),
)
def test_the_least_cost_of_stock_equals_plain_enumeration(
    limited: list[Source], unlimited: list[Source], demand: int, offset: Fraction
) -> None:
    sources = (*limited, *unlimited)
    ranges = [
        range((max(demand, 0) if source.available is None else source.available) + 1)
        for source in sources
    ]
    sums = [
        offset + sum(n * source.cost for n, source in zip(counts, sources, strict=True))
        for counts in product(*ranges)
        if sum(n * source.holds for n, source in zip(counts, sources, strict=True)) >= demand
    ]

    expected = -(-min(sums) // 1) if sums else None
    assert least_cost(sources, demand, offset) == expected


def test_the_least_cost_may_lie_with_the_dearest_stock_by_weight() -> None:
    # By hand: a weight of 1 is held by the last for 2 p, by either of the others for 3 p.
    sources = (
        Source(Fraction(3), 2, None),
        Source(Fraction(3), 2, None),
        Source(Fraction(2), 1, 1),
    )

    assert least_cost(sources, 1, Fraction(0)) == 2


def test_a_short_cheap_length_is_not_overlooked_by_the_bound_of_a_section() -> None:
    # By hand: one part of 10 is cut from the 10 for 2 p; the longer two cost 3 p.
    material = a_length_material(
        a_length_part("part", 10, 1),
        a_length_part("none", 10, 1),
        stock=[
            a_stock_length("20", 20, 3),
            a_stock_length("20 too", 20, 3),
            a_stock_length("10", 10, 2),
        ],
    )
    either = Choice(id="which", options=(("part",), ("none",)))

    assert bound_of(material, weights(1, 1), choices=(either,)) == 2


def test_an_unlimited_source_that_costs_less_than_nothing_has_no_least_cost() -> None:
    with pytest.raises(ValueError, match="less than nothing"):
        least_cost((Source(Fraction(-1, 3), 5, None),), 10, Fraction(0))


def test_stock_that_cannot_hold_the_demand_has_no_cost() -> None:
    assert least_cost((Source(Fraction(5), 3, 2),), 7, Fraction(0)) is None
    assert least_cost((), 1, Fraction(0)) is None
    assert least_cost((), 0, Fraction(7, 2)) == 4


def test_a_search_cut_short_still_answers_with_a_lower_bound() -> None:
    # Sums near each other in cost per weight, many of each: more nodes than the search may visit.
    sources = tuple(Source(Fraction(1000 + n, 1), 1000 - 7 * n, 40) for n in range(1, 40, 2))
    demand = 123_457

    answer = least_cost(sources, demand, Fraction(0))

    # Filled greedily with whole pieces, cheapest by weight first: some cost that is reachable.
    cost, missing = 0, demand
    for source in sources:
        pieces = min(40, -(-missing // source.holds))
        cost, missing = cost + pieces * int(source.cost), missing - pieces * source.holds
        if missing <= 0:
            break
    assert missing <= 0
    assert answer is not None
    assert answer <= cost
