"""The pictorial view: every timber drawn, and what stands before another drawn after it."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from optimiser.domain.frame import Box
from optimiser.drawing.isometric import painting_order
from optimiser.drawing.pictorial import draw_pictorial
from optimiser.units import Tenths
from tests.drawing.reading import ALLOWED, Drawing
from tests.framing.builders import a_fire, a_tv, framed


def a_box(x: int, y: int, z: int, size: int = 10) -> Box:
    side = Tenths(size)
    return Box(x=Tenths(x), y=Tenths(y), z=Tenths(z), dx=side, dy=side, dz=side)


def test_every_timber_shows_three_sides_and_nothing_leaves_the_page() -> None:
    frame = framed(fire=a_fire(), tv=a_tv())

    drawing = Drawing(draw_pictorial(frame, title="Frame"))

    sides = [p for p in drawing.root.iter() if p.tag.endswith("polygon")]
    assert len(sides) == 3 * len(frame.members)
    for side in sides:
        for point in side.attrib["points"].split():
            x, y = map(float, point.split(","))
            assert 0 <= x <= 420
            assert 0 <= y <= 297
    assert {element.tag.rpartition("}")[2] for element in drawing.root.iter()} <= {*ALLOWED, "svg"}


@given(st.permutations(range(8)))
def test_of_eight_blocks_in_a_cube_the_nearest_corner_is_drawn_last(order: list[int]) -> None:
    corners = [(x, y, z) for x in (0, 10) for y in (0, 10) for z in (0, 10)]
    boxes = [a_box(*corners[i]) for i in order]

    drawn = [boxes[i] for i in painting_order(boxes)]

    assert drawn[-1] == a_box(10, 10, 10)
    assert drawn[0] == a_box(0, 0, 0)
    assert sorted(map(repr, drawn)) == sorted(map(repr, boxes))


def test_each_mark_that_shows_stands_in_the_view_once_and_the_others_are_listed() -> None:
    frame = framed(fire=a_fire(), tv=a_tv())

    drawing = Drawing(draw_pictorial(frame, title="Frame"))

    words = [text.text for text in drawing.texts]
    hidden = next((w for w in words if w.startswith("Marks hidden")), "").partition(": ")[2]
    for mark in {member.mark for member in frame.members}:
        in_legend = mark == "U1"
        assert words.count(mark) == (mark not in hidden.split(", ")) + in_legend
