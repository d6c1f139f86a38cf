"""Walls over the whole space of what a fitter may write, good and bad."""

from __future__ import annotations

from typing import Any

from hypothesis import strategies as st

from optimiser.domain.wall import (
    Accessory,
    End,
    ExistingWall,
    Extent,
    Fire,
    Floor,
    Glass,
    Materials,
    Niche,
    Projection,
    Site,
    Soundbar,
    Step,
    SurveyPoint,
    Tv,
    Wall,
)
from optimiser.units import Tenths


def size(low: int, high: int) -> st.SearchStrategy[Tenths]:
    """A size between two in mm, to the tenth."""
    return st.integers(low * 10, high * 10).map(Tenths)


def maybe(strategy: st.SearchStrategy[Any]) -> st.SearchStrategy[Any]:
    return st.none() | strategy


@st.composite
def levels(draw: st.DrawFn, clear: int) -> tuple[SurveyPoint, ...]:
    """Nothing, or floor and ceiling at both side walls and at places between."""
    if draw(st.booleans()):
        return ()
    inner = draw(st.lists(st.integers(1, clear // 10 - 1), max_size=4, unique=True))
    return tuple(
        SurveyPoint(
            x=Tenths(x), floor=draw(st.integers(-150, 150)), height=draw(size(2_300, 2_800))
        )
        for x in (0, *(10 * x for x in sorted(inner)), clear)
    )


def projections(clear: int) -> st.SearchStrategy[tuple[Projection, ...]]:
    """No chimney breast, or one."""
    breast = st.builds(
        Projection,
        x=st.integers(0, clear // 2).map(Tenths),
        width=st.integers(5_000, clear // 2).map(Tenths),
        depth=size(50, 350),
    )
    return st.just(()) | breast.map(lambda one: (one,))


def sites(clear: int) -> st.SearchStrategy[Site]:
    return st.builds(
        Site,
        clear_width=st.just(Tenths(clear)),
        height_left=size(2_300, 2_800),
        height_middle=maybe(size(2_300, 2_800)),
        height_right=maybe(size(2_300, 2_800)),
        floor_fall=st.integers(-300, 300),
        kind=st.sampled_from(ExistingWall),
        floor=maybe(st.sampled_from(Floor)),
        stud_positions=st.lists(size(0, clear // 10), max_size=8).map(tuple),
        levels=levels(clear),
        lean_left=st.integers(-150, 150),
        lean_right=st.integers(-150, 150),
        skirting=maybe(size(10, 25)),
        projections=projections(clear),
        accessories=st.lists(
            st.builds(Accessory, x=size(0, clear // 10), z=size(100, 1_500)), max_size=3
        ).map(tuple),
    )


@st.composite
def steps(draw: st.DrawFn, width: int) -> tuple[Step, ...]:
    """No step in the front, or one: deeper, shallower, an alcove, a part above or below."""
    if draw(st.booleans()):
        return ()
    x = draw(st.sampled_from([0, width // 4]))
    low = draw(st.booleans())
    return (
        Step(
            name="centre",
            x=Tenths(x),
            width=Tenths(width - 2 * x),
            depth=draw(st.just(Tenths(0)) | size(200, 700)),
            z=draw(maybe(size(900, 1_200))) if not low else None,
            height=draw(size(800, 1_200)) if low else None,
        ),
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
            lit=draw(st.booleans()),
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
            height=draw(st.none() | st.none() | size(1_000, 2_200)),
            offset=Tenths(offset),
            width=width,
            left=left,
            right=draw(maybe(st.sampled_from(End))),
        ),
        fire=draw(maybe(FIRES)),
        tv=draw(maybe(TVS)),
        soundbar=draw(st.none() | st.none() | SOUNDBARS),
        niches=draw(niches()),
        steps=draw(steps(int(width) if width is not None else clear - offset)),
        materials=Materials(
            timber=draw(st.sampled_from([None, "c16-38x63", "c24-38x89"])),
            board=draw(st.sampled_from([None, "plasterboard-12.5", "plasterboard-9.5"])),
            layers=draw(st.sampled_from([None, 1, 2])),
            centres=draw(st.sampled_from([None, Tenths(4_000), Tenths(4_500), Tenths(6_000)])),
        ),
    )
