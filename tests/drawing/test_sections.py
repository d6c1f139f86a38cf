"""Sections: what the cut meets and no more, to scale, sized from the centre line and the datum."""

from __future__ import annotations

from optimiser.domain.wall import Projection, SurveyPoint
from optimiser.drawing.section_page import Section
from optimiser.drawing.sections import draw_plan_sections, draw_upright_sections, upright_section
from optimiser.drawing.wall_set import wall_set
from optimiser.units import mm, tenths
from tests.drawing.reading import Drawing
from tests.framing.builders import a_fire, a_niche, a_site, a_tv, framed

WALL = framed(tv=a_tv())


def test_a_plan_shows_each_timber_that_it_cuts_at_its_distance_from_the_centre_line() -> None:
    drawing = Drawing(draw_plan_sections(WALL, heights=(tenths(500),), title="Plan"))

    words = drawing.words.splitlines()
    cut = [m for m in WALL.members if m.box.z <= 5_000 < m.box.z + m.box.dz]
    assert {m.mark for m in cut} <= set(words)
    assert {"−1800", "0", "+1762", "+1800", "3600", "300"} <= set(words)
    rects = drawing.root.findall("{*}rect")
    tinted = [r for r in rects if r.attrib["fill"] == "#e4e4e4"]
    # One more stands in the legend.
    assert len(tinted) == len(cut) + 1


def test_a_board_is_drawn_only_beside_its_cut_outs() -> None:
    through = WALL.openings[0].z + WALL.openings[0].height // 2

    def front(height: int) -> float:
        drawing = Drawing(draw_plan_sections(WALL, heights=(height,), title="Plan"))
        rects = drawing.root.findall("{*}rect")
        boards = [r for r in rects if r.attrib["fill"] == "#6e6e6e"]
        flat = [r for r in boards if float(r.attrib["width"]) > float(r.attrib["height"])]
        lowest = max(float(r.attrib["y"]) for r in flat)
        return sum(float(r.attrib["width"]) for r in flat if float(r.attrib["y"]) == lowest)

    assert front(through) < 0.7 * front(tenths(500))


def test_an_upright_section_gives_the_heights_of_what_it_cuts() -> None:
    tv = WALL.openings[0]
    place = tv.x + tv.width // 2

    words = Drawing(
        draw_upright_sections(WALL, places=(place,), title="Section")
    ).words.splitlines()

    assert {"0", "38", "2400", "300"} <= set(words)
    assert any(mark.startswith("T") for mark in words)


def test_cuts_share_a_page_and_a_scale_and_each_says_where_it_is() -> None:
    heights = (tenths(500), tenths(1500), tenths(2200))

    drawing = Drawing(draw_plan_sections(WALL, heights=heights, title="Plans"))

    words = drawing.words.splitlines()
    assert [w for w in words if w.endswith("above the floor datum")] == [
        "2200 mm above the floor datum",
        "1500 mm above the floor datum",
        "500 mm above the floor datum",
    ]
    assert words.count("3600") == 3


def test_a_section_shows_the_space_that_fire_and_tv_need() -> None:
    frame = framed(fire=a_fire(), tv=a_tv())

    words = Drawing(
        draw_upright_sections(frame, places=(frame.width // 2,), title="Section")
    ).words.splitlines()

    assert {"fire", "TV", "space that stays empty", "on the centre line"} <= set(words)


def test_a_chimney_breast_is_hatched_where_the_plan_meets_it() -> None:
    breast = Projection(x=tenths(1_200), width=tenths(1_200), depth=tenths(100))
    plain, before = (
        Drawing(draw_plan_sections(framed(site=site), heights=(tenths(500),), title="Plan"))
        for site in (a_site(), a_site(projections=(breast,)))
    )

    def hatched(drawing: Drawing) -> int:
        return len(drawing.root.findall("{*}path"))

    assert hatched(before) > hatched(plain)
    # The back uprights before it stand off the existing wall by its depth.
    assert "100" in before.words.splitlines()
    assert "100" not in plain.words.splitlines()


def test_a_head_plate_follows_a_sloping_ceiling_in_section() -> None:
    levels = (
        SurveyPoint(x=tenths(0), height=tenths(2_400)),
        SurveyPoint(x=tenths(3_600), height=tenths(2_460)),
    )
    frame = framed(site=a_site(height_left=None, levels=levels))

    def plate(section: Section) -> tuple[int, int]:
        highest = max(section.timbers, key=lambda piece: piece.y)
        return highest.y, highest.y + highest.height

    # 1200 along a ceiling that rises 60 in 3600: 2420, and the plate is 38 thick.
    assert plate(upright_section(frame, tenths(1_200))) == (tenths(2_382), tenths(2_420))


def test_a_plan_through_a_niche_is_not_cut_through_a_shelf() -> None:
    # 900 high from 900 with one shelf: the middle of the niche lies in the shelf.
    frame = framed(niches=(a_niche(shelves=1),))
    (low, high) = next((b.box.z, b.box.z + b.box.dz) for b in frame.boards if ".shelf" in b.face)
    assert low < tenths(1_350) < high

    (title,) = [d.page.title for d in wall_set(frame) if d.kind == "plan"]

    assert f"plan at {mm(high + tenths(30))} mm above" in title
