"""Elevation and boarding of a wall: to scale on a sloping floor and ceiling, marked and sized."""

from __future__ import annotations

import pytest

from optimiser.domain.finding import Severity
from optimiser.domain.frame import Frame
from optimiser.drawing.boarding import draw_boarding
from optimiser.drawing.elevation import draw_elevation
from optimiser.units import tenths
from tests.drawing.builders import a_finding, a_frame, a_front_board, a_member, an_opening
from tests.drawing.reading import ALLOWED, Drawing
from tests.framing.builders import a_fire, an_extent, framed

FRONT = 237.0


def a_framed_wall(width: float = 3600) -> Frame:
    members = [
        a_member("P1", "sole plate", (0, FRONT, 0), (width, 63, 38)),
        a_member("P2", "head plate", (0, FRONT, 2342), (width, 63, 38), follows_ceiling=True),
        a_member("H1", "head", (1100, FRONT, 1900), (1400, 63, 38)),
        a_member("N1", "noggin", (438, FRONT, 1181), (362, 63, 38)),
        a_member("K1", "strut", (1100, 0, 1500), (1400, 38, 63)),
        a_member("B1", "back upright", (400, 0, 38), (38, 63, 2300)),
    ]
    for number, x in enumerate((0, 400, 800, 1062, 2500, 3000, width - 38), start=1):
        members.append(a_member(f"U{number}", "upright", (x, FRONT, 38), (38, 63, 2300)))
    return a_frame(
        width=width,
        members=members,
        openings=[
            an_opening("Fire", (1100, 300), (1400, 600), kind="fire"),
            an_opening("TV <wide>", (1100, 1100), (1400, 800)),
        ],
        boards=[
            a_front_board("F1", (0, 0), (1100, 2380)),
            a_front_board("F2", (1100, 0), (1400, 2380), cut_outs=[(0, 300, 1400, 600)]),
            a_front_board("F3", (2500, 0), (1100, 2380)),
            a_front_board("L1", (0, 0), (3600, 1200), layer=2),
            a_front_board("G1", (0, 0), (300, 2380), face="left end"),
        ],
        findings=[
            a_finding(Severity.NOTE, "Studs at 400"),
            a_finding(Severity.STOP, "The gap is 12 mm and fingers need 25 mm"),
        ],
    )


def elevation(frame: Frame) -> Drawing:
    return Drawing(draw_elevation(frame, title="Elevation", lines=("Depth 300",)))


def boarding(frame: Frame, layer: int = 1) -> Drawing:
    return Drawing(draw_boarding(frame, title="Boarding", layer=layer))


def test_every_front_member_shows_its_mark_and_every_opening_its_clear_size() -> None:
    words = elevation(a_framed_wall()).words

    for mark in ("P1", "P2", "H1", "N1", *(f"U{n}" for n in range(1, 8))):
        assert mark in words.splitlines()
    for label in ("Fire", "1400 × 600 clear", "TV <wide>", "1400 × 800 clear"):
        assert label in words


def test_members_and_openings_are_to_the_scale_that_is_written() -> None:
    drawing = elevation(a_framed_wall())

    assert "scale 1:12.5" in drawing.words
    for size in ((3600, 38), (38, 2300), (362, 38), (1400, 600)):
        assert drawing.has_rect(size[0] / 12.5, size[1] / 12.5)


def test_what_stands_behind_is_dashed_and_what_the_front_hides_is_left_out() -> None:
    drawing = elevation(a_framed_wall())

    dashed = [rect for rect in drawing.rects if "stroke-dasharray" in rect]
    assert len(dashed) == 1
    assert "(K1)" in drawing.words
    assert "(B1)" not in drawing.words


def test_running_dimensions_give_the_left_face_of_each_upright_from_the_centre_line() -> None:
    words = elevation(a_framed_wall()).words.splitlines()

    # A wall 3600 wide has its middle at 1800; uprights stand from 0, 400, 800, 1062 and so on.
    for x in ("−1800", "−1400", "−1000", "−738", "+700", "+1200", "+1762", "+1800"):
        assert x in words


def test_sides_of_openings_are_given_from_the_centre_line_and_rails_from_the_datum() -> None:
    words = elevation(a_framed_wall()).words.splitlines()

    # A wall 3600 wide has its middle at 1800; the openings run from 1100 to 2500.
    for text in ("−700", "0", "+700"):
        assert text in words
    # The head's underside is no edge of an opening here but that of the TV.
    assert "1900" in words


def test_a_wall_of_several_boxes_shows_the_boards_of_every_front() -> None:
    boards = [
        a_front_board("F1", (0, 0), (1100, 2380), face="left.front"),
        a_front_board("F2", (1100, 0), (1400, 2380), face="centre.front"),
        a_front_board("G1", (0, 0), (300, 2380), face="centre.left"),
    ]

    drawing = boarding(a_frame(width=2500, boards=boards))

    assert drawing.has_rect(1100 / 12.5, 2380 / 12.5)
    assert "G1 centre.left 1" in " ".join(drawing.words.split())


def test_heights_give_the_edges_of_the_openings() -> None:
    words = elevation(a_framed_wall()).words.splitlines()

    for z in ("300", "900", "1100", "1900"):
        assert z in words


def test_of_edges_cut_to_an_uneven_ceiling_the_lowest_and_the_highest_are_given() -> None:
    # 1 mm apart is 0.1 mm of paper: four texts there ran into one another on a phone.
    boards = [a_front_board(f"F{i}", (900 * i, 5 + i), (900, 2382 + i)) for i in range(4)]
    boards.append(a_front_board("F4", (0, 1200), (900, 600)))

    words = boarding(a_frame(boards=boards)).words.splitlines()

    for text in ("0", "5", "8", "1200", "1800", "2387", "2393"):
        assert text in words
    assert not {"6", "7", "2389", "2391"} & set(words)


def test_overall_heights_follow_floor_and_ceiling_at_each_end() -> None:
    frame = a_frame(floor=(0, -20), ceiling=(2400, 2350), members=[])

    words = elevation(frame).words.splitlines()

    assert "2400" in words
    assert "2370" in words


def test_a_head_plate_bends_with_the_ceiling() -> None:
    def plate(frame: Frame) -> list[list[float]]:
        polygons = elevation(frame).root.findall("{*}polygon")
        filled = [p.attrib["points"] for p in polygons if p.attrib["fill"] == "#e4e4e4"]
        return [[float(n) for n in point.split(",")] for point in filled[0].split()]

    corners = plate(a_framed_wall())

    # The ceiling falls 20 mm from left to right: 1.6 mm of paper at 1:12.5.
    left, right = corners[0], corners[1]
    assert round(right[1] - left[1], 2) == 1.6
    assert round(corners[-1][1] - left[1], 2) == 3.04


def test_what_stops_or_warns_stands_beside_the_wall_and_notes_do_not() -> None:
    kinds = (Severity.NOTE, Severity.WARNING, Severity.STOP)
    findings = [a_finding(kind, f"Trouble {kind.value} of fingers") for kind in kinds]

    words = elevation(a_frame(findings=findings)).words

    assert words.index("stop: tv-gap") < words.index("warning: tv-gap")
    assert "note: tv-gap" not in words
    assert "fingers" in words
    assert "Widen the recess" in words


def test_findings_that_find_no_room_are_counted() -> None:
    findings = [a_finding(Severity.WARNING, f"Trouble {n}") for n in range(40)]

    words = elevation(a_frame(findings=findings)).words

    shown = sum(line.startswith("Trouble") for line in words.splitlines())
    assert 0 < shown < 40
    assert f"… and {40 - shown} more findings" in words


def test_walls_keep_to_the_page_and_no_two_texts_meet() -> None:
    frame = a_framed_wall()
    for drawing in (elevation(frame), boarding(frame), elevation(a_framed_wall(6200))):
        assert drawing.outside() == []
        assert drawing.collisions() == []
        assert drawing.tags <= ALLOWED
        assert min(written.size for written in drawing.texts) >= 2.5


def test_a_wide_wall_moves_to_a_larger_page() -> None:
    low = a_frame(width=2400, ceiling=(1200, 1200))

    assert elevation(low).page.width == 297
    assert elevation(a_framed_wall()).page.width == 420


def test_boarding_shows_front_boards_of_its_layer_with_marks_sizes_and_joints() -> None:
    drawing = boarding(a_framed_wall())

    assert drawing.has_rect(1100 / 12.5, 2380 / 12.5)
    assert drawing.has_rect(1400 / 12.5, 600 / 12.5)
    for label in ("F1", "F2", "F3", "1100 × 2380"):
        assert label in drawing.words
    assert "L1" not in drawing.words
    assert "L1" in boarding(a_framed_wall(), layer=2).words


def test_boards_of_other_faces_are_listed_with_their_face() -> None:
    words = boarding(a_framed_wall()).words

    assert "G1  left end 1" in words
    assert "300 × 2380" in words


def test_a_board_label_keeps_clear_of_openings() -> None:
    drawing = boarding(a_framed_wall())

    label = next(w for w in drawing.texts if w.text == "F2" and w.area.x < 200)
    holes = [r for r in drawing.rects if abs(float(r["width"]) - 70) < 0.01]
    for rect in holes:
        if float(rect["height"]) > 100:
            continue  # the board itself
        top, bottom = float(rect["y"]), float(rect["y"]) + float(rect["height"])
        assert label.area.bottom <= top or label.area.y >= bottom


def test_names_on_a_wall_are_escaped() -> None:
    svg = draw_elevation(a_framed_wall(), title="<script>alert(1)</script>")

    assert "<script" not in svg
    assert "<wide>" not in svg


def test_the_same_wall_gives_the_same_text() -> None:
    first = draw_elevation(a_framed_wall(), title="T")

    assert draw_elevation(a_framed_wall(), title="T") == first


def test_a_wall_without_members_or_boards_still_has_its_outline() -> None:
    drawing = boarding(a_frame())

    assert drawing.has_rect(1, 1) is False
    assert len(drawing.root.findall("{*}polygon")) >= 1


def test_a_wall_that_stops_short_is_drawn_to_its_own_top_and_sized_there() -> None:
    frame = framed(extent=an_extent(height=tenths(1_300)))
    drawing = Drawing(draw_elevation(frame, title="Low wall"))

    heavy = [
        [float(number) for pair in polygon.attrib["points"].split() for number in pair.split(",")]
        for polygon in drawing.root.findall("{*}polygon")
        if polygon.attrib.get("stroke-width") == "0.5"
    ]

    assert "1300" in drawing.words.splitlines()
    tall = [max(points[1::2]) - min(points[1::2]) for points in heavy]
    scale = float(drawing.words.partition("scale 1:")[2].split()[0])
    assert tall == pytest.approx([1_300 / scale], abs=0.02)


def test_a_mark_that_stands_somewhere_is_not_said_to_have_no_room() -> None:
    frame = framed(extent=an_extent(offset=tenths(600), width=tenths(2_000)), fire=a_fire())
    words = Drawing(draw_elevation(frame, title="Frame")).words

    listed = words.partition("Marks without room: ")[2].splitlines()[:1]
    shown = {word.strip("()") for word in words.splitlines()}

    assert "R1" in shown
    assert not listed or "R1" not in listed[0]
