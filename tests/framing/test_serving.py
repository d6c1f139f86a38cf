"""An upright between two recesses serves the struts, shelves and joints of both."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise, product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from optimiser.domain.wall import Wall
from optimiser.framing.build import frame_wall
from optimiser.framing.serving import placed
from optimiser.inspection.inspect import inspect_frame
from optimiser.units import tenths
from tests.framing.builders import a_niche, a_price_book, a_tv, a_wall, materials

BOOK = a_price_book()
WIDE = 630


def a_niche_beside_a_tv(*, z: float, shelves: int, board: str) -> Wall:
    """The niche's right side and the TV's left one share an upright at 1399.5."""
    return a_wall(
        tv=a_tv(centre=tenths(2_208), centre_height=tenths(1_300)),
        niches=(
            a_niche(
                x=tenths(950),
                width=tenths(434),
                z=tenths(z),
                height=tenths(1_000),
                shelves=shelves,
            ),
        ),
        materials=materials(board=board, centres=tenths(400)),
    )


@pytest.mark.parametrize(
    ("z", "shelves", "board"),
    [*product(range(500, 720, 28), (0, 1, 3), ("plasterboard-12.5", "plasterboard-9.5"))],
)
def test_struts_and_shelves_of_two_recesses_find_timber_at_the_upright_between(
    z: int, shelves: int, board: str
) -> None:
    wall = a_niche_beside_a_tv(z=z, shelves=shelves, board=board)

    assert inspect_frame(frame_wall(wall, BOOK), wall) == ()


def test_a_return_that_is_left_out_there_is_missed() -> None:
    # Struts and shelf of the niche lie 14 above the TV's: one return serves both.
    wall = a_niche_beside_a_tv(z=700, shelves=3, board="plasterboard-9.5")
    frame = replace(frame_wall(wall, BOOK), alternatives=())
    shared = [
        number
        for number, one in enumerate(frame.members)
        if one.box.x == tenths(1_402.5) and one.rule in ("frame.return.strut", "frame.return.shelf")
    ]
    assert len(shared) >= 4

    for number in shared:
        kept = frame.members[:number] + frame.members[number + 1 :]
        assert inspect_frame(replace(frame, members=kept), wall)


def test_one_return_between_two_struts_serves_both_where_each_bears_on_half_of_it() -> None:
    # Under a top at 2200 there is no room for a second one over the first.
    struts = [(1_000, "frame.return.strut"), (1_400, "frame.return.strut")]

    assert placed(struts, (400, 2_200), WIDE) == [(1_200, "frame.return.strut")]


def test_a_strut_that_bears_on_half_of_anothers_return_takes_that_one() -> None:
    struts = [(1_000, "frame.return.strut"), (1_315, "frame.return.strut")]

    assert placed(struts, (0, 5_000), WIDE) == [(1_000, "frame.return.strut")]


def test_what_must_stand_where_it_is_makes_way_for_nothing() -> None:
    edge, strut = (1_000, "frame.return.reveal"), (1_320, "frame.return.strut")

    assert placed([edge, strut], (0, 5_000), WIDE) == [edge, (1_630, "frame.return.strut")]


@given(
    wanted=st.lists(
        st.tuples(
            st.integers(0, 6_000),
            st.sampled_from(
                (
                    "frame.return.strut",
                    "frame.return.shelf",
                    "frame.noggin.joint",
                    "frame.return.reveal",
                )
            ),
        ),
        max_size=6,
    )
)
def test_returns_never_stand_in_one_another_nor_outside(wanted: list[tuple[int, str]]) -> None:
    levels = placed(wanted, (300, 5_500), WIDE)

    assert all(300 <= z <= 5_500 - WIDE for z, _ in levels)
    assert all(other - one >= WIDE for (one, _), (other, _) in pairwise(sorted(levels)))
