"""Every shape of wall: stepped, in alcoves, before a breast, low, built out, with a ledge."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from optimiser.domain.frame import Frame, Toward
from optimiser.domain.wall import End, Glass, Materials, Projection, Site, Step, SurveyPoint, Wall
from optimiser.errors import InvalidInput
from optimiser.framing.build import frame_wall
from optimiser.inspection.inspect import inspect_frame
from optimiser.units import Tenths, tenths
from tests.framing import space
from tests.framing.builders import (
    a_fire,
    a_niche,
    a_price_book,
    a_site,
    a_tv,
    a_wall,
    an_extent,
    framed,
    materials,
)

BOOK = a_price_book()


def a_step(x: float, width: float, depth: float, **more: Any) -> Step:
    usual = Step(name="centre", x=tenths(x), width=tenths(width), depth=tenths(depth))
    return replace(usual, **more)


def a_breast(depth: float) -> Site:
    breast = Projection(x=tenths(1_000), width=tenths(1_600), depth=tenths(depth))
    return a_site(projections=(breast,))


HIGH_TV = a_tv(centre_height=tenths(1_600))
SHAPES: dict[str, Wall] = {
    "a deeper centre": a_wall(steps=(a_step(900, 1_800, 420),), fire=a_fire(), tv=a_tv()),
    "deeper sides": a_wall(steps=(a_step(900, 1_800, 220),)),
    "alcoves beside a breast": a_wall(site=a_breast(350), steps=(a_step(1_000, 1_600, 0),)),
    "a breast boxed out deeper": a_wall(
        site=a_breast(250), steps=(a_step(1_000, 1_600, 550),), fire=a_fire()
    ),
    "short of the ceiling": a_wall(
        extent=an_extent(height=tenths(1_200), offset=tenths(400), width=tenths(2_600)),
        fire=a_fire(),
    ),
    "an upper part built out": a_wall(
        steps=(a_step(0, 3_600, 420, z=tenths(1_000)),), fire=a_fire(), tv=HIGH_TV
    ),
    "a box built out over the fire": a_wall(
        steps=(a_step(800, 2_000, 420, z=tenths(1_000)),), fire=a_fire(), tv=HIGH_TV
    ),
    "a ledge over the fire": a_wall(
        steps=(a_step(0, 3_600, 450, height=tenths(900)),), fire=a_fire(), tv=HIGH_TV
    ),
    "a ledge as wide as the fire": a_wall(
        steps=(a_step(900, 1_800, 450, height=tenths(900)),), fire=a_fire(), tv=HIGH_TV
    ),
    "low between two piers": a_wall(steps=(a_step(900, 1_800, 0, z=tenths(900)),), fire=a_fire()),
    "set back between two piers": a_wall(
        steps=(a_step(900, 1_800, 220, z=tenths(900)),), fire=a_fire()
    ),
    "free at both ends and deep": a_wall(
        extent=an_extent(depth=tenths(900), offset=tenths(400), width=tenths(2_600))
    ),
    "niches with shelves, one lit": a_wall(
        niches=(a_niche(), a_niche(name="lit one", x=tenths(2_900), lit=True))
    ),
    "a side wall that leans and a kept skirting": a_wall(
        site=a_site(lean_left=80, skirting=tenths(18)), fire=a_fire()
    ),
    # With the lining overhead the facing board may pass its timber by 50: the opening is 455 high.
    "timber round the fire lined": a_wall(
        fire=a_fire(lining="silicate-12", opening_height=tenths(455))
    ),
}


@pytest.mark.parametrize("layers", [1, 2])
@pytest.mark.parametrize("shape", SHAPES)
def test_every_shape_of_wall_is_sound_in_space_however_it_is_boarded(
    shape: str, layers: int
) -> None:
    wall = replace(SHAPES[shape], materials=Materials(layers=layers))

    frame = frame_wall(wall, BOOK)

    assert inspect_frame(frame, wall) == ()
    for way in (frame, *frame.alternatives):
        assert list(space.too_large(way, BOOK)) == []
        assert all(m.length >= 600 for m in way.members)


def test_a_deeper_centre_shows_its_ends_beside_its_shallower_sides() -> None:
    frame = frame_wall(SHAPES["a deeper centre"], BOOK)

    left = next(board for board in frame.boards if board.face == "centre.left")

    assert (left.box.y, left.box.y + left.box.dy) == (tenths(300), tenths(420 - 12.5))
    assert {m.box.x for m in frame.members if m.group.startswith("box 1")} >= {0}
    # The side's last timber touches the centre's first, under the centre's end board.
    ends = {m.box.x + m.box.dx for m in frame.members if m.group.startswith("box 1")}
    assert max(ends) == tenths(900 + 12.5)


def test_alcoves_stand_beside_a_breast_and_nothing_before_it() -> None:
    frame = frame_wall(SHAPES["alcoves beside a breast"], BOOK)

    breast = frame.solids[0].box

    assert (breast.x, breast.dx, breast.dy) == (tenths(1_000), tenths(1_600), tenths(350))
    for member in frame.members:
        assert not space.shares(space.span_of(breast), space.span_of(member.box))
    assert {end for end in space.faces_looking(frame, Toward.RIGHT) if "." not in end} == set()


def test_a_breast_is_boxed_out_from_its_own_face() -> None:
    frame = frame_wall(SHAPES["a breast boxed out deeper"], BOOK)

    over = [m for m in frame.members if m.group.startswith("centre")]

    assert min(m.box.y for m in over) == tenths(250)


def test_a_wall_short_of_the_ceiling_has_a_top_over_its_returns() -> None:
    frame = frame_wall(SHAPES["short of the ceiling"], BOOK)

    top = next(board for board in frame.boards if board.face == "top")

    assert top.box.z + top.box.dz == tenths(1_200)
    assert top.faces is Toward.UP
    assert not any(m.follows_ceiling for m in frame.members)
    assert any(bead.place == "top, front corner" for bead in frame.beads)


def test_a_part_built_out_shows_an_underside_at_the_height_asked_for() -> None:
    frame = frame_wall(SHAPES["an upper part built out"], BOOK)

    under = next(board for board in frame.boards if board.face == "centre.underside")

    assert under.box.z == tenths(1_000)
    assert under.box.y == tenths(300)
    assert any(m.rule == "frame.noggin.edge" for m in frame.members)


def test_the_last_end_of_an_underside_is_held_though_uprights_stand_near_it() -> None:
    # The recess begins 0.3 too low for returns on edge below it: those on the flat must share room.
    wall = a_wall(
        site=a_site(clear_width=tenths(3_090), height_left=tenths(2_450)),
        extent=an_extent(
            depth=tenths(270),
            left=End.FREE,
            right=End.FREE,
            offset=tenths(368),
            width=tenths(2_214),
        ),
        steps=(a_step(440, 1_334, 455, z=tenths(920)),),
        tv=a_tv(width=tenths(1_107), height=tenths(623), centre_height=tenths(1_372), mass=20_000),
        materials=materials(timber="c24-38x89", board="plasterboard-9.5"),
    )

    frame = frame_wall(wall, BOOK)

    flats = [m.box for m in frame.members if m.rule == "frame.return.level"]
    assert max(box.x + box.dx for box in flats) == tenths(440 + 1_334 - 9.5)
    assert inspect_frame(frame, wall) == ()


def test_a_ledge_has_its_top_at_the_height_asked_for() -> None:
    frame = frame_wall(SHAPES["a ledge over the fire"], BOOK)

    ledge = next(board for board in frame.boards if board.face == "centre.top")

    assert ledge.box.z + ledge.box.dz == tenths(900)
    assert ledge.box.y == tenths(300)


def test_a_deep_free_end_has_uprights_between_front_and_back() -> None:
    # NHBC Standards 9.2.4: 12.5 board spans 600 at most.
    frame = frame_wall(SHAPES["free at both ends and deep"], BOOK)

    between = [m for m in frame.members if m.rule == "frame.upright.end-span"]

    assert {m.box.x for m in between} == {tenths(12.5), tenths(2_600 - 12.5 - 38)}


def test_levels_at_any_number_of_places_give_each_upright_its_length() -> None:
    places = ((0, 2_400, 0), (900, 2_405, -4), (2_000, 2_398, 3), (3_600, 2_410, -10))
    levels = tuple(
        SurveyPoint(x=tenths(x), height=tenths(height), floor=Tenths(floor * 10))
        for x, height, floor in places
    )

    frame = framed(site=Site(clear_width=tenths(3_600), levels=levels))

    assert [(point.x, point.floor) for point in frame.levels] == [
        (0, -30),
        (9_000, -70),
        (20_000, 0),
        (36_000, -130),
    ]
    first = next(m for m in frame.members if m.kind == "upright" and m.box.x == 0)
    assert first.length == tenths(2_400 - 3) - 2 * 380 - 10
    assert len({m.length for m in frame.members if m.kind == "upright"}) > 5
    assert {pack.height for pack in frame.packing if pack.x == 190} == {31}


def test_a_recess_widened_by_more_than_a_board_has_its_cheek_doubled() -> None:
    # The TV's frame is brought in line with the fire's: 20 wider a side takes a board of 12.5.
    frame = framed(fire=a_fire(), tv=a_tv(recess_width=Tenths(12_800 - 400 - 2 * 155)))

    doubled = {b.face for b in frame.boards if b.rule == "board.double-cheek"}

    assert doubled == {"tv.left", "tv.right"}
    recess = next(o for o in frame.openings if o.kind == "tv")
    assert recess.wanted is not None
    assert 0 <= recess.width - recess.wanted.dx < 2 * 125


def test_a_joint_of_two_cut_edges_has_an_upright_behind_each() -> None:
    # 1500 is two boards of 750 or a cut one and a rest: no edge of theirs is surely bound.
    frame = framed(site=a_site(clear_width=tenths(1_500)), materials=materials(centres=tenths(400)))
    joints = [way for way in (frame, *frame.alternatives) if _doubled(way)]

    assert joints


def _doubled(frame: Frame) -> bool:
    xs = {m.box.x for m in frame.members if m.rule == "frame.upright.joint"}
    return any(x + tenths(38) in xs for x in xs)


@pytest.mark.parametrize("depth", [300, 350])
def test_alcoves_stop_their_skim_at_side_wall_and_breast(depth: float) -> None:
    # Published UK project specification 2014: stop bead where skim meets another surface.
    frame = framed(site=a_breast(depth), steps=(a_step(1_000, 1_600, 0),))
    places = sorted(bead.place for bead in frame.beads if bead.kind == "stop bead")

    assert places == [
        "box 1, left end, at the side wall",
        "box 1, right end, at the breast",
        "box 2, left end, at the breast",
        "box 2, right end, at the side wall",
    ]


def test_a_recess_before_a_breast_counts_the_breast() -> None:
    with pytest.raises(InvalidInput) as refused:
        framed(
            site=a_breast(150),
            steps=(a_step(1_000, 1_600, 450),),
            tv=a_tv(width=tenths(1_200), recess_depth=tenths(280)),
        )

    (problem,) = refused.value.problems
    assert problem.trouble.endswith("+ site.projections[0].depth 150 behind")


@pytest.mark.parametrize(
    ("wall", "field", "said"),
    [
        (
            a_wall(steps=(a_step(900, 1_800, 420),), tv=a_tv(centre=tenths(900))),
            "tv.width",
            "crosses from box 1, x 0-912.5, z 0-the ceiling, into centre",
        ),
        (
            a_wall(site=a_breast(100), tv=a_tv(centre=tenths(1_000))),
            "tv.width",
            "into wall breast",
        ),
        (
            a_wall(
                steps=(a_step(0, 3_600, 420, z=tenths(1_000)),),
                tv=a_tv(centre_height=tenths(1_100)),
            ),
            "tv.width",
            "crosses from centre, x 0-3600, z 1000-the ceiling, into box 1",
        ),
    ],
)
def test_an_opening_across_a_step_or_a_breast_is_refused_with_both_named(
    wall: Wall, field: str, said: str
) -> None:
    with pytest.raises(InvalidInput) as refused:
        frame_wall(wall, BOOK)

    (problem,) = refused.value.problems
    assert problem.field == field
    assert said in problem.trouble


@pytest.mark.parametrize(
    ("wall", "by"),
    [
        (a_wall(steps=(a_step(900, 1_800, 420),), niches=(a_niche(x=tenths(700)),)), -1),
        (a_wall(steps=(a_step(900, 1_800, 420),), niches=(a_niche(x=tenths(2_500)),)), -1),
        (a_wall(steps=(a_step(900, 1_800, 420),), niches=(a_niche(x=tenths(2_600)),)), 1),
        (a_wall(site=a_breast(100), niches=(a_niche(x=tenths(720)),)), -1),
    ],
)
def test_an_opening_moved_as_the_remedy_says_lies_in_one_box_and_a_tenth_less_does_not(
    wall: Wall, by: int
) -> None:
    with pytest.raises(InvalidInput) as refused:
        frame_wall(wall, BOOK)
    (problem,) = refused.value.problems
    way = "right" if by > 0 else "left"
    said = problem.remedy.partition(f" to the {way}")[0].rpartition(" ")[2]
    (niche,) = wall.niches

    for less in (0, 1):
        x = Tenths(niche.x + by * (tenths(said) - less))
        moved = replace(wall, niches=(replace(niche, x=x),))
        if less:
            with pytest.raises(InvalidInput):
                frame_wall(moved, BOOK)
        else:
            assert inspect_frame(frame_wall(moved, BOOK), moved) == ()


def test_shelves_too_near_for_their_bearers_are_refused_with_the_most_that_fit() -> None:
    niche = a_niche(height=tenths(300), shelves=4)

    with pytest.raises(InvalidInput) as refused:
        framed(niches=(niche,))

    # 300 in five is 60 a shelf; a bearer 63 high beside a strut's of 63 needs one and a half of it
    # but for the lining of 15.5: calculated.
    (problem,) = refused.value.problems
    assert problem.field == f"niches.{niche.name}.shelves"
    assert "lie 60 apart" in problem.trouble
    assert "make it 2 at the most" in problem.remedy


@pytest.mark.parametrize(
    ("depth", "back", "said"),
    [
        # Fire and clearance reach 245 (220 + 25): in 270 deep only 25 is left, an upright has 38.
        (270, 25, "the upright at the glass's edge needs 38"),
        # In 340, 95 is left: the back timber's 63 holds the edge to 113, the glass ends at 120.
        (340, 25, "back timber 63 and the upright at the glass's edge need 101"),
    ],
)
def test_glass_round_an_end_wants_timber_at_the_edge_of_the_end_board(
    depth: float, back: float, said: str
) -> None:
    with pytest.raises(InvalidInput) as refused:
        framed(
            extent=an_extent(depth=tenths(depth), left=End.FREE, offset=tenths(300)),
            fire=a_fire(glass=Glass.LEFT, body_depth=tenths(220), clearance_back=tenths(back)),
        )

    assert any(p.field == "wall.depth" and said in p.trouble for p in refused.value.problems)


def test_a_box_inset_between_others_takes_whole_boards_from_its_first_edge() -> None:
    # Its end uprights stand outside what is boarded: no joint may fall there, and none there may
    # hide that the first board reaches as far as a sheet is wide.
    low = a_step(470, 2_400, 0, z=tenths(1_190))
    frame = framed(steps=(low,), materials=materials(layers=2))
    first = [
        (board.x, board.width)
        for board in frame.boards
        if board.face == "box 2.front" and board.layer == 1
    ]

    assert sorted(first) == [(4_700, 12_000), (16_700, 12_000)]
