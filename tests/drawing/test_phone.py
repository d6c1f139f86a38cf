"""A drawing set anew for a phone: all of it, in text that can be read there."""

from __future__ import annotations

import re
from dataclasses import replace
from itertools import pairwise
from xml.etree import ElementTree as ET

import pytest

from optimiser.drawing.elevation import elevation_page
from optimiser.drawing.phone import PIXELS, phone_svg
from optimiser.drawing.scene import Area, Page, Rect, Text, Told
from optimiser.drawing.wall_set import wall_set
from tests.framing.builders import a_fire, a_tv, framed

SVG = "{http://www.w3.org/2000/svg}"


def windows(root: ET.Element) -> list[tuple[Area, float]]:
    """Return what of the drawing each window shows, and how much larger than on paper."""
    found = []
    for window in root.findall(f"{SVG}svg"):
        x, y, width, height = map(float, window.attrib["viewBox"].split())
        found.append((Area(x, y, width, height), float(window.attrib["width"]) / width))
    return found


def test_every_text_is_ten_pixels_high_on_a_phone_390_wide() -> None:
    for drawing in wall_set(framed(fire=a_fire(), tv=a_tv())):
        root = ET.fromstring(phone_svg(drawing.page))

        pixels = PIXELS / float(root.attrib["viewBox"].split()[2])
        sizes = [float(text.attrib["font-size"]) for text in root.iter(f"{SVG}text")]
        assert root.attrib["width"] == str(PIXELS)
        assert min(sizes) * pixels >= 10 - 1e-6
        assert any(larger == pytest.approx(1, abs=1e-3) for _, larger in windows(root))


def test_every_word_of_a_drawing_stands_in_a_window_at_full_size() -> None:
    for drawing in wall_set(framed(fire=a_fire(), tv=a_tv())):
        page = drawing.page
        assert page.told is not None
        full = [
            area.grown(0.3)
            for area, larger in windows(ET.fromstring(phone_svg(page)))
            if larger > 0.99
        ]

        words = [item for item in page.told.items if isinstance(item, Text)]
        lost = [w.text for w in words if not any(a.holds(Area(w.x, w.y, 0, 0)) for a in full)]
        assert lost == [], page.title


def test_no_strip_of_a_wide_drawing_is_left_out_between_its_parts() -> None:
    """Four parts as wide as can be: words at the edges of the inner ones would have them sooner."""
    room, shared = 91.5, 8.0
    step = room - shared
    wide = room + 3 * step
    ends = [Rect(Area(0, 0, 1, 40), "none"), Rect(Area(wide - 1, 0, 1, 40), "none")]
    words = [Text(number * step - 5, 20, "m" * 6) for number in (1, 2, 3)]
    told = Told(
        heading="Wall",
        facts=(),
        note="",
        entries=(),
        caution="",
        items=(*ends, *words),
        views=(Area(0, 0, wide, 40),),
    )

    shown = [
        area
        for area, larger in windows(ET.fromstring(phone_svg(Page(wide, 60, "Wall", (), told))))
        if larger > 0.99
    ]

    assert len(shown) == 4
    for one, following in pairwise(shown):
        assert one.right - following.x >= shared - 0.1


def test_windows_lie_under_one_another_within_the_phone() -> None:
    page = elevation_page(framed(fire=a_fire(), tv=a_tv()), title="Frame")

    root = ET.fromstring(phone_svg(page))

    wide, high = map(float, root.attrib["viewBox"].split()[2:])
    end = 0.0
    for window in root.findall(f"{SVG}svg"):
        x, y, width, height = (float(window.attrib[n]) for n in ("x", "y", "width", "height"))
        assert x >= 0
        assert x + width <= wide
        assert y >= end - 1e-3
        end = y + height
    assert end < high


def test_the_title_is_escaped_and_the_legend_stands_at_the_foot() -> None:
    page = elevation_page(framed(fire=a_fire(), tv=a_tv()), title='A <b> & "c"')

    text = phone_svg(page)

    root = ET.fromstring(text)
    assert root.attrib["aria-label"] == 'A <b> & "c"'
    words = [t.text or "" for t in root.findall(f"{SVG}text")]
    assert any("Not a structural design" in word for word in words)
    assert re.search(r"<b>", text) is None


def test_a_page_made_in_one_piece_cannot_be_set_anew() -> None:
    page = elevation_page(framed(fire=a_fire(), tv=a_tv()), title="Frame")

    with pytest.raises(ValueError, match="made of"):
        phone_svg(replace(page, told=None))
    with pytest.raises(ValueError, match="made of"):
        phone_svg(Page(100, 100, "empty", ()))


def test_a_wide_drawing_with_nothing_in_its_middle_is_set_without_that_part() -> None:
    """A section with its key far to the right left a part of the phone's width empty."""
    wide = 91.5 + 2 * 83.5
    told = Told(
        heading="Wall",
        facts=(),
        note="",
        entries=(),
        caution="",
        items=(Rect(Area(0, 0, 1, 40), "none"), Rect(Area(wide - 1, 0, 1, 40), "none")),
        views=(Area(0, 0, wide, 40),),
    )

    shown = [
        area
        for area, larger in windows(ET.fromstring(phone_svg(Page(wide, 60, "Wall", (), told))))
        if larger > 0.99
    ]

    assert len(shown) == 2
