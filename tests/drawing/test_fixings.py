"""What holds a wall to the house: each fixing drawn where it goes, studs and bands with them."""

from __future__ import annotations

import math

from optimiser.domain.wall import Accessory, ExistingWall
from optimiser.drawing.fixings import fixings_page
from optimiser.drawing.scene import Strokes, Text
from optimiser.drawing.svg import svg_text
from optimiser.drawing.wall_page import wall_page
from optimiser.framing.build import frame_wall
from optimiser.units import tenths
from tests.drawing.reading import Drawing
from tests.framing.builders import a_price_book, a_site, a_wall, framed

STUDS = tuple(tenths(x) for x in range(300, 3_600, 600))


def test_every_plug_is_a_cross_where_it_goes() -> None:
    frame = framed()
    page = fixings_page(frame, title="Fixings")
    strokes = next(item for item in page.items if isinstance(item, Strokes))
    crosses = {(round((a[0] + a[2]) / 2, 3), round((a[1] + a[3]) / 2, 3)) for a in strokes.lines}
    view = wall_page(frame, (), ()).view  # same scale and corner; the legend only takes from below

    plugs = [f for f in frame.fixings if f.into == "wall"]

    assert len(plugs) == 50
    wide = {round(view.size(f.at.x), 1) for f in plugs}
    left = min(x for x, _ in crosses)
    first = min(f.at.x for f in frame.fixings)
    drawn = {round(x - left + view.size(first), 1) for x, _ in crosses}
    assert wide <= drawn
    rows = {f.at.z for f in plugs}
    assert len({y for _, y in crosses}) == len(rows) + 2  # and the floor's and the ceiling's


def test_studs_and_bands_are_shown_with_the_screws_into_them() -> None:
    site = a_site(
        kind=ExistingWall.STUDS,
        stud_positions=STUDS,
        accessories=(Accessory(x=tenths(1_800), z=tenths(450)),),
    )
    frame = frame_wall(a_wall(site=site), a_price_book())
    drawing = Drawing(svg_text(fixings_page(frame, title="Fixings")))
    words = drawing.words

    into_studs = sum(f.into == "stud" for f in frame.fixings)

    assert into_studs > 0
    assert "100 mm screws into existing studs" in words
    assert str(into_studs) in words.splitlines()
    assert "no screws: a cable may run here" in words
    # The stud 300 from the left stands 1500 left of the centre line.
    assert "−1500" in words.splitlines()
    assert drawing.outside() == []


def test_a_fixing_near_a_mark_is_not_covered_by_it() -> None:
    frame = framed()
    page = fixings_page(frame, title="Fixings")
    strokes = next(item for item in page.items if isinstance(item, Strokes))
    middles = [((a[0] + a[2]) / 2, (a[1] + a[3]) / 2) for a in strokes.lines]
    after = page.items[page.items.index(strokes) + 1 :]

    marks = [item for item in after if isinstance(item, Text) and item.text.startswith("U")]

    assert marks
    for mark in marks:
        near = min(math.dist((mark.x, mark.y), middle) for middle in middles)
        assert near > 0.8
