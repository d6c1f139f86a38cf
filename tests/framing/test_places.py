"""Where fire and TV come to lie, and figures that would otherwise go unheeded.

Positions follow from the wall's own figures: geometry.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from optimiser.domain.finding import Severity
from optimiser.domain.wall import End, Glass, Projection, Socket, Step, SurveyPoint, Wall
from optimiser.errors import InvalidInput
from optimiser.framing.build import frame_wall
from optimiser.inspection.inspect import inspect_frame
from optimiser.units import Tenths, tenths
from tests.framing.builders import (
    a_fire,
    a_niche,
    a_price_book,
    a_site,
    a_soundbar,
    a_tv,
    a_wall,
    an_extent,
)

BOOK = a_price_book()
FREE = an_extent(
    depth=tenths(400), offset=tenths(300), width=tenths(3_000), left=End.FREE, right=End.FREE
)


def a_centre(depth: float, width: float = 1_600) -> Step:
    return Step(name="centre", x=tenths(1_000), width=tenths(width), depth=tenths(depth))


def refused(wall: Wall) -> str:
    with pytest.raises(InvalidInput) as error:
        frame_wall(wall, BOOK)
    return str(error.value)


@pytest.mark.parametrize(("glass", "at"), [(Glass.LEFT, 0), (Glass.RIGHT, 3_000 - 1_250)])
def test_a_hole_where_glass_returns_is_as_wide_as_it_was_given_from_that_end(
    glass: Glass, at: int
) -> None:
    wall = a_wall(extent=FREE, fire=a_fire(glass=glass))
    frame = frame_wall(wall, BOOK)
    hole, body = frame.openings[0], frame.keep_outs[0].box

    assert (hole.x, hole.width) == (tenths(at), tenths(1_250))
    # 1270 of body from that end, 5 of air beside it, the end's board before it: 1275 - 12.5.
    assert body.dx == tenths(1_262.5)
    assert inspect_frame(frame, wall) == ()


def test_glass_at_both_ends_of_a_part_built_out_is_as_wide_as_that_part() -> None:
    fire = a_fire(
        body_width=tenths(1_600), opening_width=None, glass=Glass.BOTH, return_depth=tenths(200)
    )
    wall = a_wall(extent=an_extent(depth=tenths(300)), steps=(a_centre(600),), fire=fire)
    frame = frame_wall(wall, BOOK)

    assert [f for f in frame.findings if f.severity is Severity.STOP] == []
    assert (frame.openings[0].x, frame.openings[0].width) == (tenths(1_000), tenths(1_600))
    assert inspect_frame(frame, wall) == ()


def test_a_part_built_out_of_another_width_than_its_fire_names_the_step() -> None:
    fire = a_fire(body_width=tenths(1_550), opening_width=None, glass=Glass.BOTH)
    wall = a_wall(extent=an_extent(depth=tenths(300)), steps=(a_centre(600),), fire=fire)
    stop = next(f for f in frame_wall(wall, BOOK).findings if f.rule == "check.fire.width")

    assert "steps.centre.width 1600" in stop.trouble
    assert [(c.field, c.value) for c in stop.change] == [("steps.centre.width", "1550")]


def test_glass_finds_the_end_that_shows_without_being_told_where() -> None:
    """The middle of the wall lies in a shallower centre, which shows no end."""
    wall = a_wall(
        extent=FREE,
        steps=(Step(name="right", x=tenths(1_400), width=tenths(1_600), depth=tenths(300)),),
        fire=a_fire(body_width=tenths(900), opening_width=None, glass=Glass.LEFT),
    )
    frame = frame_wall(wall, BOOK)

    assert frame.openings[0].x == 0
    assert inspect_frame(frame, wall) == ()


CONTRADICTIONS: dict[str, tuple[Wall, tuple[str, ...], str]] = {
    "a return that no glass has": (
        a_wall(fire=a_fire(return_depth=tenths(150))),
        ("fire.return_depth 150", 'fire.glass "front" (default)'),
        "leave it out",
    ),
    "a hole narrower than glass at both ends": (
        a_wall(
            extent=an_extent(
                depth=tenths(400),
                offset=tenths(300),
                width=tenths(1_270),
                left=End.FREE,
                right=End.FREE,
            ),
            fire=a_fire(glass=Glass.BOTH),
        ),
        ("fire.opening_width 1250", 'fire.glass "both"', "wall.width 1270"),
        "make it 1270",
    ),
    "glass that the part beside it hides": (
        a_wall(
            extent=an_extent(depth=tenths(450)),
            steps=(a_centre(600),),
            fire=a_fire(glass=Glass.LEFT, body_width=tenths(1_200), opening_width=None),
        ),
        ("fire.return_depth 200 (default)", "steps.centre.depth 600", "wall.depth 450"),
        "make it 150 at most, or steps.centre.depth 650",
    ),
    "a fire that reaches in behind what stands beside its glass": (
        a_wall(
            extent=an_extent(depth=tenths(330)),
            steps=(a_centre(530),),
            fire=a_fire(
                glass=Glass.RIGHT,
                body_width=tenths(1_200),
                opening_width=None,
                body_depth=tenths(190),
                clearance_back=tenths(25),
            ),
        ),
        (
            "steps.centre.depth 530",
            "leaves 200 before wall.depth 330",
            "fire.body_depth 190",
            "fire.clearance_back 25",
        ),
        "make steps.centre.depth 561 or more",
    ),
    "a strip of end board on no timber": (
        a_wall(
            site=a_site(
                projections=(Projection(x=tenths(1_000), width=tenths(1_600), depth=tenths(200)),)
            ),
            extent=an_extent(depth=tenths(330)),
            steps=(a_centre(550),),
            fire=a_fire(
                glass=Glass.LEFT,
                body_width=tenths(1_200),
                opening_width=None,
                body_depth=tenths(190),
                clearance_back=tenths(25),
            ),
        ),
        ("steps.centre.depth 550", "fire.return_depth 190", "wall.depth 330"),
        "make steps.centre.depth 561",
    ),
    "a skirting that no board passes": (
        a_wall(site=a_site(skirting=tenths(60))),
        ("site.skirting 60", "50"),
        "take the skirting off",
    ),
}


def before_a_skirting(depth: float) -> Wall:
    """Glass round the left end, as deep as the frame where that stands before a skirting of 15."""
    return a_wall(
        site=a_site(skirting=tenths(15)),
        extent=an_extent(depth=tenths(depth), left=End.FREE, offset=tenths(300)),
        fire=a_fire(
            glass=Glass.LEFT,
            body_depth=tenths(225),
            clearance_back=tenths(0),
            body_width=tenths(1_200),
            opening_width=None,
        ),
    )


def test_the_end_board_beside_glass_has_timber_where_it_passes_a_skirting_too() -> None:
    told = refused(before_a_skirting(240))

    assert "15 of end board behind fire.return_depth 225 (default)" in told
    assert "make wall.depth 278" in told.lower()
    frame = frame_wall(before_a_skirting(278), BOOK)
    assert [f for f in frame.findings if f.severity is Severity.STOP] == []
    assert inspect_frame(frame, before_a_skirting(278)) == ()


@pytest.mark.parametrize(
    "name",
    ["a fire that reaches in behind what stands beside its glass",
     "a strip of end board on no timber"],
)  # fmt: skip
def test_the_depth_that_is_told_is_enough(name: str) -> None:
    wall = CONTRADICTIONS[name][0]
    deeper = replace(wall, steps=(replace(wall.steps[0], depth=tenths(561)),))
    frame = frame_wall(deeper, BOOK)

    assert [f for f in frame.findings if f.severity is Severity.STOP] == []
    assert inspect_frame(frame, deeper) == ()


@pytest.mark.parametrize("name", CONTRADICTIONS)
def test_no_figure_goes_unheeded(name: str) -> None:
    wall, named, remedy = CONTRADICTIONS[name]
    told = refused(wall)

    assert [one for one in named if one not in told] == []
    assert remedy in told.lower()


def test_a_tv_hangs_over_a_fire_that_was_put_somewhere() -> None:
    fire = a_fire(centre=tenths(1_300))
    frame = frame_wall(a_wall(fire=fire, tv=a_tv()), BOOK)
    box = next(one.box for one in frame.keep_outs if one.name == "tv")

    assert 2 * box.x + box.dx == 2 * tenths(1_300)


def test_a_tv_finds_the_part_over_a_ledge_that_its_own_height_puts_it_in() -> None:
    """Fire in a ledge 1000 high, TV 300 above its hole at 290 + 450: from 1040 up it fits above."""
    ledge = Step(
        name="ledge", x=Tenths(0), width=tenths(3_600), depth=tenths(450), height=tenths(900)
    )
    wall = a_wall(
        steps=(ledge,),
        fire=a_fire(base_height=tenths(290)),
        tv=a_tv(width=tenths(900), height=tenths(400)),
    )
    frame = frame_wall(wall, BOOK)
    tv = next(one for one in frame.openings if one.name == "tv")

    assert (tv.front, tv.z) == (tenths(300), tenths(290 + 450 + 300 - 30))
    assert inspect_frame(frame, wall) == ()


def test_a_slot_that_hangs_under_its_tv_is_raised_with_it() -> None:
    upper = Step(name="upper", x=Tenths(0), width=tenths(3_600), depth=tenths(450), z=tenths(1_000))
    wall = a_wall(steps=(upper,), tv=a_tv(centre_height=tenths(1_650)), soundbar=a_soundbar())

    assert "Raise the TV" in refused(wall)


def test_a_niche_with_shelves_has_no_cheek_of_three_boards() -> None:
    wall = a_wall(niches=(a_niche(x=tenths(90), depth=tenths(135)),))
    frame = frame_wall(wall, BOOK)
    layers = [board.layer for board in frame.boards if board.face in ("niche.left", "niche.right")]

    assert max(layers) <= 2
    assert inspect_frame(frame, wall) == ()


def test_a_socket_larger_than_a_double_one_stops_the_purchase() -> None:
    socket = Socket(x=tenths(1_150), z=tenths(1_000), width=tenths(200), height=tenths(90))
    frame = frame_wall(a_wall(tv=a_tv(sockets=(socket,))), BOOK)
    stops = [f for f in frame.findings if f.severity is Severity.STOP]

    assert any("tv.sockets[0].width 200" in one.trouble for one in stops)


def test_a_socket_needs_no_timber_round_it() -> None:
    socket = Socket(x=tenths(1_250), z=tenths(1_160), width=tenths(90), height=tenths(90))
    wall = a_wall(tv=a_tv(sockets=(socket,)))
    frame = frame_wall(wall, BOOK)

    assert [f for f in frame.findings if f.severity is Severity.STOP] == []
    assert inspect_frame(frame, wall) == ()


POINTS = tuple(
    SurveyPoint(x=tenths(x), height=tenths(high), floor=floor)
    for x, high, floor in ((0, 2_500, 0), (1_800, 2_440, -20), (3_600, 2_400, -30))
)


@pytest.mark.parametrize(
    ("site", "along", "named", "not_named"),
    [
        # The lowest place over the whole front is the right end's.
        (a_site(height_left=None, levels=POINTS), 0, "site.levels[2].height 2400", "levels[0]"),
        # Over the left part it lies between the first two places.
        (a_site(height_left=None, levels=POINTS), 900, "site.levels[1].height 2440", "levels[2]"),
        (
            a_site(height_left=tenths(2_500), height_right=tenths(2_400), floor_fall=50),
            0,
            "site.height_right 2400, site.floor_fall 5",
            "height_left",
        ),
        (
            a_site(height_left=tenths(2_400), height_middle=tenths(2_450)),
            0,
            "site.height_left 2400",
            "height_middle",
        ),
    ],
)
def test_a_ceiling_too_low_names_the_places_surveyed_over_the_box(
    site: object, along: int, named: str, not_named: str
) -> None:
    steps = (
        (Step(name="right", x=tenths(along), width=tenths(3_600 - along), depth=tenths(450)),)
        if along
        else ()
    )
    x = tenths(150) if along else tenths(1_000)
    told = refused(
        a_wall(site=site, steps=steps, niches=(a_niche(x=x, z=tenths(1_900), height=tenths(600)),))
    )

    assert named in told
    assert not_named not in told


def test_a_level_top_is_what_uprights_are_cut_to() -> None:
    extent = an_extent(height=tenths(1_200))
    found = frame_wall(a_wall(extent=extent), BOOK).findings
    said = next(f.trouble for f in found if f.rule == "check.fit")

    assert said.startswith("the top is level, 1200 above the highest floor")


def test_a_wall_that_wants_a_cable_and_names_no_accessory_is_told_that_no_band_is_kept() -> None:
    """Bands of existing and new accessories are printed: BS 7671 522.6.202."""
    fed = frame_wall(a_wall(fire=a_fire(), tv=a_tv()), BOOK)
    said = [f for f in fed.findings if f.rule == "check.site.cables"]

    assert [f.severity for f in said] == [Severity.NOTE]
    assert "fire and TV want a cable" in said[0].trouble
    assert not [f for f in frame_wall(a_wall(), BOOK).findings if f.rule == "check.site.cables"]
