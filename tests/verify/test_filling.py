"""What a sheet may hold at most: the checker's table against plain recursion and published best."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from optimiser.verify.filling import Rectangle, TooHeavy, most_weights

Size = tuple[int, int]

# Herz 1972: a sheet of 127 × 98. Optimum 12,348: own exact run; published value from memory.
HERZ = [(21, 13), (36, 17), (54, 20), (24, 27), (18, 65)]
# Beasley 1985, gcut1: a sheet of 250 × 250. Optimum 56,460 as given (the paper; value from memory),
# 58,136 turned: own exact run.
GCUT1 = [
    (167, 184), (114, 118), (167, 152), (83, 140), (70, 86), (143, 166), (120, 160), (66, 148),
    (87, 141), (69, 165),
]  # fmt: skip


def most_by_recursion(parts: list[Rectangle], sheet: Size) -> dict[Size, int]:
    """Try every cut of every piece."""
    best: dict[Size, int] = {}
    for width in range(sheet[0] + 1):
        for height in range(sheet[1] + 1):
            fits = [p.weight for p in parts if p.across <= width and p.along <= height]
            most = max(fits, default=0)
            for at in range(1, width // 2 + 1):
                most = max(most, best[at, height] + best[width - at, height])
            for at in range(1, height // 2 + 1):
                most = max(most, best[width, at] + best[width, height - at])
            best[width, height] = most
    return best


RECTANGLES = st.builds(Rectangle, st.integers(1, 14), st.integers(1, 14), st.integers(0, 30))


@settings(max_examples=150, deadline=None, derandomize=True)
@given(
    st.lists(RECTANGLES, max_size=5),
    st.tuples(st.integers(1, 24), st.integers(1, 24)),
    st.tuples(st.integers(1, 24), st.integers(1, 24)),
)
def test_the_most_weight_of_every_sheet_equals_trying_every_cut(
    parts: list[Rectangle], first: Size, second: Size
) -> None:
    largest = (max(first[0], second[0]), max(first[1], second[1]))
    best = most_by_recursion(parts, largest)

    assert most_weights(parts, [first, second]) == [best[first], best[second]]


@settings(max_examples=100, deadline=None, derandomize=True)
@given(
    st.lists(RECTANGLES, min_size=1, max_size=5),
    st.tuples(st.integers(1, 24), st.integers(1, 24)),
    st.integers(1, 400),
)
def test_with_too_little_work_allowed_the_answer_may_be_high_but_never_low(
    parts: list[Rectangle], sheet: Size, work: int
) -> None:
    (most,) = most_weights(parts, [sheet], work)

    assert most >= most_by_recursion(parts, sheet)[sheet]


def test_sizes_to_the_tenth_are_rounded_to_a_step_rather_than_take_for_ever() -> None:
    # Tenths of a millimetre, no common step: hundreds of millions of sums if nothing were rounded.
    sizes = [(3011 + 97 * n, 2003 + 61 * n) for n in range(12)]
    parts = [Rectangle(width, height, width * height) for width, height in sizes]

    (most,) = most_weights(parts, [(12_203, 24_403)])

    # No more than all of the sheet and a little for the rounding; no less than a row of the first.
    assert 4 * 12 * 3011 * 2003 <= most <= 1.02 * 12_203 * 24_403


@pytest.mark.parametrize(
    ("sheet", "sizes", "turn", "most"),
    [
        ((127, 98), HERZ, False, 12_348),
        ((127, 98), HERZ, True, 12_387),
        ((250, 250), GCUT1, False, 56_460),
        ((250, 250), GCUT1, True, 58_136),
    ],
)  # fmt: skip
def test_the_published_best_filling_of_one_sheet_is_found_to_the_square(
    sheet: Size, sizes: list[Size], *, turn: bool, most: int
) -> None:
    ways = [*sizes, *((height, width) for width, height in sizes if turn)]
    parts = [Rectangle(width, height, width * height) for width, height in ways]

    assert most_weights(parts, [sheet]) == [most]


def test_weights_that_could_overflow_are_refused() -> None:
    with pytest.raises(TooHeavy):
        most_weights([Rectangle(1, 1, 2**50)], [(1000, 1000)])
