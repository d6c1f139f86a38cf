"""The drawing of one box: its parts, its place in the wall, what it meets."""

from __future__ import annotations

from optimiser.domain.frame import Box
from optimiser.drawing.box_page import draw_box
from optimiser.drawing.box_views import meeting
from optimiser.drawing.dimensions import signed
from optimiser.units import mm
from tests.drawing.reading import Drawing
from tests.framing.builders import a_fire, a_tv, framed


def test_a_box_shows_its_own_timbers_and_lists_them_with_their_lengths() -> None:
    frame = framed(fire=a_fire(), tv=a_tv())
    own = [member for member in frame.members if member.group == "left pier"]

    drawing = Drawing(draw_box(frame, "left pier", title="Left pier"))

    for member in own:
        assert mm(member.length) in drawing.words
        assert member.mark in drawing.words
    assert drawing.outside() == []


def test_a_box_names_what_it_meets_and_nothing_that_it_does_not() -> None:
    frame = framed(fire=a_fire(), tv=a_tv())
    fronts = [m for m in frame.members if m.group == "left pier"]

    met = meeting(frame, fronts)

    assert {m.kind for m in met} >= {"sole plate", "head plate"}
    for member in met:
        gaps = [distance(member.box, own.box) for own in fronts]
        assert min(gaps) <= 50
    far = [m for m in frame.members if m.group == "right pier"]
    assert not {(m.mark, m.box) for m in far} & {(m.mark, m.box) for m in met}


def test_every_box_stands_on_its_page_with_sizes_from_the_walls_own_lines() -> None:
    frame = framed(fire=a_fire(), tv=a_tv())
    half = frame.width // 2

    for group in dict.fromkeys(member.group for member in frame.members):
        drawing = Drawing(draw_box(frame, group, title=group))
        assert drawing.outside() == []
        own = [m for m in frame.members if m.group == group]
        left = min(m.box.x for m in own)
        assert signed(left - half) in drawing.words
        assert mm(max(m.box.x + m.box.dx for m in own) - left) in drawing.words


def distance(one: Box, other: Box) -> int:
    """Return the widest gap between two boxes along any axis, in tenths; below 0 they overlap."""
    return max(
        max(int(getattr(one, a)), int(getattr(other, a)))
        - min(
            int(getattr(one, a) + getattr(one, f"d{a}")),
            int(getattr(other, a) + getattr(other, f"d{a}")),
        )
        for a in "xyz"
    )
