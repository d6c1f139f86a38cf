"""Every contradiction of a wall's shape, site and materials names its fields and a remedy, as does
each stop."""

from __future__ import annotations

from dataclasses import replace

import pytest

from optimiser.domain.finding import Severity
from optimiser.domain.wall import Accessory, End, ExistingWall, Glass, SurveyPoint, Wall
from optimiser.framing.build import frame_wall
from optimiser.units import tenths
from tests.framing.builders import a_fire, a_niche, a_site, a_tv, a_wall, an_extent, materials
from tests.framing.contradicted import BOOK, Contradiction, a_step, assert_told, breast, refused


def point(x: float, height: float = 2_400) -> SurveyPoint:
    return SurveyPoint(x=tenths(x), height=tenths(height))


CASES: dict[str, Contradiction] = {
    "wider than the room": (
        a_wall(extent=an_extent(offset=tenths(200), width=tenths(3_500), left=End.FREE)),
        ("wall.width 3500", "wall.offset 200", "site.clear_width 3600"),
        "wall.width 3400 or less",
    ),
    "begins beyond the room": (
        a_wall(extent=an_extent(offset=tenths(3_700), left=End.FREE)),
        ("wall.offset 3700", "site.clear_width 3600"),
        "wall.offset less than 3600",
    ),
    "abuts a side wall that it is not at": (
        a_wall(extent=an_extent(offset=tenths(200), left=End.ABUTS)),
        ('wall.left "abuts"', "wall.offset 200"),
        "wall.offset to 0",
    ),
    "abuts at the right, short of it": (
        a_wall(extent=an_extent(width=tenths(3_000), right=End.ABUTS)),
        ('wall.right "abuts"', "wall.width 3000", "site.clear_width 3600"),
        "wall.width 3600",
    ),
    "shallower than its own timbers": (
        a_wall(extent=an_extent(depth=tenths(150))),
        ("wall.depth 150", 'materials.timber "c16-38x63"', 'materials.board "plasterboard-12.5"'),
        "at least 198.5",
    ),
    "shallower than its timbers before a breast": (
        a_wall(site=a_site(projections=breast(0, 3_600, 120))),
        ("wall.depth 300", "site.projections[0].depth 120", "materials.timber"),
        "at least 318.5",
    ),
    "deeper than the widest board": (
        a_wall(extent=an_extent(depth=tenths(1_300))),
        ("wall.depth 1300", 'materials.board "plasterboard-12.5"'),
        "1212.5 deep at most",
    ),
    "too narrow for uprights": (
        a_wall(extent=an_extent(width=tenths(200))),
        ("wall.width 200", 'materials.timber "c16-38x63"'),
        "at least 253 wide",
    ),
    "centres closer than any": (
        a_wall(materials=materials(centres=tenths(60))),
        ("materials.centres 60", "materials.timber"),
        "choose 400 or 600",
    ),
    "too many layers": (
        a_wall(materials=materials(layers=3)),
        ("materials.layers 3",),
        "choose 1 or 2",
    ),
    "wider than any wall": (
        a_wall(site=a_site(clear_width=tenths(60_000))),
        ("site.clear_width 60000",),
        "check the figure",
    ),
    "higher than any room": (
        a_wall(site=a_site(height_left=tenths(7_000))),
        ("site.height_left 7000",),
        "check the heights",
    ),
    "lower than any room": (
        a_wall(site=a_site(height_left=tenths(600))),
        ("site.height_left 600", "materials.timber"),
        "check the heights",
    ),
    "heights left out": (
        a_wall(site=a_site(height_left=None)),
        ("site.height_left", "site.levels"),
        "two or more places",
    ),
    "heights given twice": (
        a_wall(site=a_site(levels=(point(0), point(3_600)))),
        ("site.height_left 2400", "site.levels[0].height 2400"),
        "leave site.height_left or site.levels out",
    ),
    "the floor given twice": (
        a_wall(site=a_site(height_left=None, floor_fall=50, levels=(point(0), point(3_600)))),
        ("site.floor_fall 5", "site.levels[0].floor 0"),
        "leave site.floor_fall or site.levels out",
    ),
    "a place surveyed twice": (
        a_wall(site=a_site(height_left=None, levels=(point(0), point(90), point(90)))),
        ("site.levels[2].x 90", "site.levels[1].x 90"),
        "once",
    ),
    "a place beyond the site": (
        a_wall(site=a_site(height_left=None, levels=(point(0), point(4_000)))),
        ("site.levels[1].x 4000", "site.clear_width 3600"),
        "measure from the left",
    ),
    "a side wall that leans too far": (
        a_wall(site=a_site(lean_right=700)),
        ("site.lean_right 70",),
        "check the figure",
    ),
    "plugs too far apart": (
        a_wall(site=a_site(plug_spacing=tenths(2_000))),
        ("site.plug_spacing 2000",),
        "choose 600",
    ),
    "a breast beyond the site": (
        a_wall(site=a_site(projections=breast(3_000, 900, 100))),
        ("site.projections[0].x 3000", "site.projections[0].width 900", "site.clear_width 3600"),
        "measure from the left",
    ),
    "a stud beyond the site": (
        a_wall(site=a_site(kind=ExistingWall.STUDS, stud_positions=(tenths(400), tenths(3_900)))),
        ("site.stud_positions[1] 3900", "site.clear_width 3600"),
        "measure from the left",
    ),
    "studs without the kind of wall": (
        a_wall(site=a_site(kind=None, stud_positions=(tenths(400), tenths(800)))),
        ("site.kind", "site.stud_positions gives 400, 800"),
        'kind = "studs"',
    ),
    "a socket beyond the site": (
        a_wall(site=a_site(accessories=(Accessory(x=tenths(3_900), z=tenths(300)),))),
        ("site.accessories[0].x 3900", "site.clear_width 3600"),
        "measure from the left",
    ),
    "a material that is not sold": (
        a_wall(materials=materials(timber="oak")),
        ('materials.timber "oak"',),
        "c16-38x63",
    ),
    "a lining that is not sold": (
        a_wall(fire=a_fire(lining="glass")),
        ('fire.lining "glass"',),
        "choose one of",
    ),
    "a step beyond the wall": (
        a_wall(steps=(a_step(width=3_000),)),
        ("steps.deep.x 900", "steps.deep.width 3000", "site.clear_width 3600"),
        "steps.deep.width 2700 or less",
    ),
    "a step above the wall's top": (
        a_wall(extent=an_extent(height=tenths(1_500)), steps=(a_step(z=1_000, height=900),)),
        ("steps.deep.z 1000", "steps.deep.height 900", "wall.height 1500"),
        "make it lower",
    ),
    "a step too shallow": (
        a_wall(steps=(a_step(depth=150),)),
        ("steps.deep.depth 150", "materials.timber", "materials.board"),
        "at least 198.5",
    ),
    "a step too narrow": (
        a_wall(steps=(a_step(width=60),)),
        ("steps.deep.x 900", "steps.deep.width 60", "materials.timber"),
        "at least 253 wide",
    ),
    "a step that hardly stands out": (
        a_wall(steps=(a_step(depth=320),)),
        ("steps.deep.depth 320", "wall.depth 300"),
        "make steps.deep.depth 342.5",
    ),
    "a part built out by hardly anything": (
        a_wall(steps=(a_step(x=0, width=3_600, depth=320, z=1_000),)),
        ("steps.deep.depth 320", "wall.depth 300"),
        "342.5",
    ),
    "nothing under a part of the wall": (
        a_wall(steps=(a_step(x=0, width=3_600, depth=0, height=900),)),
        ("steps.deep.z 0", "steps.deep.height 900", "wall.depth 300"),
        "reach the floor",
    ),
    "a step that leaves nothing to build": (
        a_wall(steps=(a_step(x=0, width=3_600, depth=0),)),
        ("steps.deep.depth 0", "site.clear_width 3600"),
        "give one a depth",
    ),
    "what stands over differs along the width": (
        a_wall(
            steps=(
                a_step(name="low", depth=360, z=0, height=1_200),
                a_step(x=0, width=3_600, z=1_200),
            )
        ),
        ("steps.deep.depth 420", "wall.depth 300", "steps.low.depth 360", "steps.low.x 900"),
        "the same sides",
    ),
    "no upright behind a bare end": (
        a_wall(
            site=a_site(projections=breast(900, 1_800, 200)),
            extent=an_extent(depth=tenths(270)),
            steps=(a_step(depth=399),),
        ),
        ("steps.deep.depth 399", "wall.depth 270", "materials.timber"),
        "make steps.deep.depth 401.5",
    ),
    "a step too low": (
        a_wall(steps=(a_step(x=0, width=3_600, z=0, height=300),)),
        ("steps.deep.z 0", "steps.deep.height 300", "materials.timber"),
        "at least 625 high",
    ),
    "an end that shows above a deeper part": (
        a_wall(
            steps=(
                a_step(name="low", x=0, width=900, depth=500, height=1_200),
                a_step(name="high", x=0, width=900, depth=0, z=1_200),
            )
        ),
        ("wall.depth 300", "steps.low.depth 500", "steps.low.height 1200"),
        "one depth",
    ),
}


@pytest.mark.parametrize("name", CASES)
def test_a_contradiction_names_its_fields_their_values_and_a_remedy(name: str) -> None:
    assert_told(*CASES[name])


def test_the_faults_of_a_file_come_in_one_answer_whatever_they_are_about() -> None:
    wall = a_wall(
        site=a_site(lean_left=900),
        extent=an_extent(width=tenths(5_000)),
        tv=a_tv(recess_depth=tenths(290)),
        niches=(a_niche(z=tenths(60)), a_niche(name="other", x=tenths(210), z=tenths(70))),
        materials=materials(timber="oak"),
    )

    fields = {problem.field for problem in refused(wall, BOOK)}

    assert fields >= {
        "site.lean_left",
        "wall.width",
        "materials.timber",
        "wall.depth",
        "niches.niche.z",
        "niches.other.z",
        "niches.niche.x",
    }


def test_what_would_stop_a_wall_is_told_with_the_faults_of_its_file() -> None:
    wall = a_wall(
        fire=a_fire(body_depth=tenths(295)),
        tv=a_tv(recess_width=tenths(1_440), mass=70_000),
        niches=(a_niche(z=tenths(60)),),
        materials=materials(centres=tenths(700)),
    )

    fields = [problem.field for problem in refused(wall, BOOK)]

    assert fields == [
        "niches.niche.z",
        "materials.centres",
        "wall.depth",
        "tv.recess_width",
        "tv.bracket_reach",
        "tv.bracket_reach",
    ]


# A stop, with the fields of the file and their values that it must name.
STOPS: dict[str, tuple[Wall, tuple[str, ...]]] = {
    "check.fire.depth": (
        a_wall(fire=a_fire(body_depth=tenths(295))),
        ("wall.depth 300", "fire.body_depth 295", "fire.clearance_back 10"),
    ),
    "check.fire.overhang": (
        a_wall(fire=a_fire(opening_width=tenths(1_100))),
        ("fire.body_width 1270", "fire.clearance_side 5", "1100"),
    ),
    "check.fire.width": (
        a_wall(
            extent=an_extent(
                offset=tenths(300), width=tenths(1_300), left=End.FREE, right=End.FREE
            ),
            fire=a_fire(glass=Glass.BOTH, opening_width=None),
        ),
        ("wall.width 1300", "fire.body_width 1270"),
    ),
    "check.tv.gap": (
        a_wall(tv=a_tv(recess_width=tenths(1_440))),
        ("tv.recess_width 1440", "1450 × 830"),
    ),
    "check.tv.bracket": (
        a_wall(tv=a_tv(bracket_width=tenths(1_600))),
        ("tv.bracket_width 1600", "tv.width 1450", "tv.finger_gap 30"),
    ),
    "check.tv.withdrawal": (
        a_wall(tv=a_tv(mass=70_000)),
        ("tv.mass 70", "tv.bracket_reach 500 (default)"),
    ),
    "check.board.centres": (
        a_wall(materials=materials(centres=tenths(700))),
        ("materials.centres 700", 'materials.board "plasterboard-12.5"'),
    ),
    "check.site.studs": (
        a_wall(site=a_site(kind=ExistingWall.STUDS)),
        ('site.kind "studs"', "site.stud_positions none"),
    ),
}


@pytest.mark.parametrize("rule", STOPS)
def test_a_stop_names_its_fields_their_values_and_a_remedy(rule: str) -> None:
    wall, said = STOPS[rule]

    stops = [f for f in frame_wall(wall, BOOK).findings if f.severity is Severity.STOP]

    (stop,) = [one for one in stops if one.rule == rule]
    assert all(figure in stop.trouble for figure in said), stop.trouble
    assert stop.remedy


def test_a_price_book_without_stock_is_told_with_the_material_chosen() -> None:
    timber = replace(BOOK.lengths[0], stock=())
    board = replace(BOOK.sheets[0], stock=())
    bare = replace(BOOK, lengths=(timber, *BOOK.lengths[1:]), sheets=(board, *BOOK.sheets[1:]))

    said = [str(problem) for problem in refused(a_wall(), bare)]

    assert any('materials.timber "c16-38x63"' in one and "no stock length" in one for one in said)
    assert any(
        'materials.board "plasterboard-12.5"' in one and "no stock sheet" in one for one in said
    )


def test_a_price_book_without_boards_is_told_for_each_use() -> None:
    problems = refused(a_wall(), replace(BOOK, sheets=()))

    assert [problem.field for problem in problems] == ["materials.board", "materials.backboard"]
    assert all("left out, and the price book has none" in p.trouble for p in problems)
