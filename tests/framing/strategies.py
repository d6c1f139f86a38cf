"""Walls over the whole space of what a fitter may write, good and bad."""

from __future__ import annotations

from typing import Any

from hypothesis import strategies as st

from optimiser.domain.wall import (
    End,
    ExistingWall,
    Extent,
    Fire,
    Glass,
    Materials,
    Niche,
    Site,
    Soundbar,
    Tv,
    Wall,
)
from optimiser.units import Tenths


def size(low: int, high: int) -> st.SearchStrategy[Tenths]:
    """A size between two in mm, to the tenth."""
    return st.integers(low * 10, high * 10).map(Tenths)


def maybe(strategy: st.SearchStrategy[Any]) -> st.SearchStrategy[Any]:
    return st.none() | strategy


def sites(clear: int) -> st.SearchStrategy[Site]:
    return st.builds(
        Site,
        clear_width=st.just(Tenths(clear)),
        height_left=size(2_300, 2_800),
        height_middle=maybe(size(2_300, 2_800)),
        height_right=maybe(size(2_300, 2_800)),
        floor_fall=st.integers(-300, 300),
        kind=st.sampled_from(ExistingWall),
        stud_positions=st.lists(size(0, 5_000), max_size=8).map(tuple),
    )


FIRES = st.builds(
    Fire,
    body_width=size(750, 2_000),
    body_height=size(350, 650),
    body_depth=size(120, 260),
    base_height=maybe(size(80, 400)),
    clearance_top=maybe(size(0, 50)),
    clearance_side=maybe(size(0, 30)),
    clearance_back=maybe(size(0, 30)),
    glass=maybe(st.sampled_from(Glass)),
)
TVS = st.builds(
    Tv,
    width=size(900, 1_700),
    height=size(500, 900),
    depth=maybe(size(30, 90)),
    mass=maybe(st.integers(5_000, 60_000)),
    centre_height=maybe(size(1_000, 1_800)),
    recess_depth=maybe(size(60, 180)),
)
SOUNDBARS = st.builds(Soundbar, width=size(500, 1_200), height=size(50, 120), depth=size(80, 140))


@st.composite
def niches(draw: st.DrawFn) -> tuple[Niche, ...]:
    count = draw(st.integers(0, 3))
    return tuple(
        Niche(
            name=f"niche {i}",
            x=draw(size(50, 3_500)),
            z=draw(size(100, 1_800)),
            width=draw(size(150, 600)),
            height=draw(size(150, 1_200)),
            depth=draw(size(80, 220)),
            shelves=draw(st.integers(0, 4)),
        )
        for i in range(count)
    )


@st.composite
def walls(draw: st.DrawFn) -> Wall:
    clear = draw(st.integers(18_000, 50_000))
    left = draw(maybe(st.sampled_from(End)))
    offset = 0 if left is not End.FREE else draw(st.integers(0, 8_000))
    full = draw(st.booleans())
    width = None if full else Tenths(draw(st.integers(12_000, max(12_001, clear - offset))))
    return Wall(
        job="J",
        site=draw(sites(clear)),
        extent=Extent(
            depth=draw(size(200, 450)),
            offset=Tenths(offset),
            width=width,
            left=left,
            right=draw(maybe(st.sampled_from(End))),
        ),
        fire=draw(maybe(FIRES)),
        tv=draw(maybe(TVS)),
        soundbar=draw(st.none() | st.none() | SOUNDBARS),
        niches=draw(niches()),
        materials=Materials(
            timber=draw(st.sampled_from([None, "c16-38x63", "c24-38x89"])),
            board=draw(st.sampled_from([None, "plasterboard-12.5", "plasterboard-9.5"])),
            layers=draw(st.sampled_from([None, 1, 2])),
            centres=draw(st.sampled_from([None, Tenths(4_000), Tenths(4_500), Tenths(6_000)])),
        ),
    )
