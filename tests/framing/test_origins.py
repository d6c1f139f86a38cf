"""Where the dimensions of parts come from: proven by changing each field and framing again."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields, is_dataclass, replace
from fractions import Fraction
from typing import Any

import pytest

from optimiser.domain.frame import Bead, Board, Frame, Member
from optimiser.domain.rack import Rack
from optimiser.domain.request import Keep
from optimiser.domain.wall import End, Glass, Projection, Step, SurveyPoint, Wall
from optimiser.errors import InvalidInput
from optimiser.formats.part_list_document import part_list_document, part_list_from_document
from optimiser.formats.request import request_document, request_from_document
from optimiser.framing.build import frame_wall
from optimiser.planning.jobs import job_of_frame, request_for_jobs
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
    materials,
)

BOOK = a_price_book()

NO_SIZES = {"mass", "bracket_mass", "power", "layers", "shelves"}
WALLS: dict[str, Wall] = {
    "fire, tv, soundbar and niche between two side walls": a_wall(
        site=a_site(
            height_middle=tenths(2_405), height_right=tenths(2_412), floor_fall=60, lean_left=50
        ),
        extent=an_extent(depth=tenths(320), offset=Tenths(0), width=tenths(3_600)),
        fire=a_fire(base_height=tenths(300), centre=tenths(1_820)),
        tv=a_tv(finger_gap=tenths(30), centre=tenths(1_820), centre_height=tenths(1_640)),
        soundbar=a_soundbar(gap=tenths(10)),
        niches=(a_niche(),),
        materials=materials(fit=tenths(1), centres=tenths(400)),
    ),
    "free ends, glass to the right, defaults taken": a_wall(
        site=a_site(height_right=tenths(2_410)),
        extent=an_extent(offset=tenths(400), width=tenths(2_600), left=End.FREE, right=End.FREE),
        fire=a_fire(glass=Glass.RIGHT, opening_width=None, opening_height=None),
        tv=a_tv(recess_width=tenths(1_520), recess_height=tenths(900), above_fire=tenths(330)),
    ),
    "surveyed at three places, a step and a top": a_wall(
        site=a_site(
            height_left=None,
            levels=(
                SurveyPoint(x=Tenths(0), height=tenths(2_400)),
                SurveyPoint(x=tenths(1_500), height=tenths(2_406), floor=-40),
                SurveyPoint(x=tenths(3_600), height=tenths(2_411), floor=-90),
            ),
        ),
        extent=an_extent(height=tenths(2_000)),
        steps=(Step(name="deep", x=tenths(1_100), width=tenths(1_400), depth=tenths(480)),),
        niches=(a_niche(x=tenths(1_500), depth=tenths(200)),),
    ),
    "alcoves beside a breast": a_wall(
        site=a_site(
            projections=(Projection(x=tenths(1_100), width=tenths(1_400), depth=tenths(300)),),
        ),
        extent=an_extent(depth=tenths(560)),
        niches=(a_niche(depth=tenths(300)),),
    ),
}


def _pieces(frame: Frame) -> list[Member | Bead | Board]:
    return [*frame.members, *frame.beads, *frame.boards]


def _sizes(piece: Member | Bead | Board) -> dict[str, int]:
    if isinstance(piece, Board):
        return {"width": piece.width, "height": piece.height}
    return {"length": piece.length}


def _what(piece: Member | Bead | Board) -> tuple[Any, ...]:
    if isinstance(piece, Board):
        return ("board", piece.face, piece.layer, piece.rule)
    if isinstance(piece, Bead):
        return ("bead", piece.kind, piece.place)
    return ("member", piece.kind, piece.rule, piece.group)


def _changed(value: Any, by: int, path: str = "") -> Iterator[tuple[str, Any]]:
    """Yield each size of a wall by its path, and the wall with that size changed."""
    for field in fields(value):
        one = getattr(value, field.name)
        here = f"{path}.{field.name}" if path else field.name.replace("extent", "wall")
        if is_dataclass(one):
            for name, other in _changed(one, by, here):
                yield name, replace(value, **{field.name: other})
        elif isinstance(one, tuple) and one and is_dataclass(one[0]):
            for i, item in enumerate(one):
                named = f"{here}.{item.name}" if hasattr(item, "name") else f"{here}[{i}]"
                for name, other in _changed(item, by, named):
                    changed = (*one[:i], other, *one[i + 1 :])
                    yield name, replace(value, **{field.name: changed})
        elif isinstance(one, int) and one and field.name not in NO_SIZES:
            yield here, replace(value, **{field.name: Tenths(one + by)})


@pytest.mark.parametrize("name", WALLS)
def test_what_moves_a_part_is_named_and_what_is_named_moves_it(name: str) -> None:
    wall = WALLS[name]
    plain = _pieces(frame_wall(wall, BOOK))
    kinds = [_what(piece) for piece in plain]
    asked: set[str] = set()
    named = moved = 0
    for field, changed in _changed(wall, 20):
        try:
            pieces = _pieces(frame_wall(changed, BOOK))
        except InvalidInput:
            continue
        if [_what(piece) for piece in pieces] != kinds:
            continue
        asked.add(field)
        for before, after in zip(plain, pieces, strict=True):
            sources = {one.dimension: one.fields for one in before.dimension_from}
            for dimension, size in _sizes(before).items():
                source = sources.get(dimension, ())
                by = _sizes(after)[dimension] - size
                if abs(by) > 1:
                    assert field in source, (_what(before), dimension, size, by, source)
                named += field in source
                moved += field in source and by != 0
    assert len(asked) >= 8, asked
    # A share of a field may be lost in rounding, nothing else.
    assert moved >= 0.9 * named > 0


def test_a_request_keeps_where_dimensions_come_from() -> None:
    wall = WALLS["fire, tv, soundbar and niche between two side walls"]
    job = job_of_frame(frame_wall(wall, BOOK))
    keep = Keep(length=tenths(600), width=tenths(300), height=tenths(300), credit=Fraction(1, 2))
    request = request_for_jobs((job,), BOOK, Rack(), keep=keep, seed=1, seconds=1)
    struts = [part for _, part in job.parts.lengths if part.name == "strut"]
    assert {one.fields for part in struts for one in part.dimension_from} == {
        ("tv.finger_gap", "tv.width"),
        ("soundbar.gap", "soundbar.width"),
        ("niches.niche.width",),
    }
    assert request_from_document(request_document(request), name="request") == request
    kept = part_list_from_document(part_list_document(job.parts), name="parts")
    assert kept == job.parts


def test_a_front_board_of_full_width_comes_from_its_sheet_and_the_closing_one_from_the_wall() -> (
    None
):
    wall = a_wall(site=a_site(clear_width=tenths(3_000)), extent=an_extent(width=tenths(3_000)))
    job = job_of_frame(frame_wall(wall, BOOK))
    fronts = {
        part.width: dict((one.dimension, one.fields) for one in part.dimension_from)
        for _, part in job.parts.boards
        if part.name.startswith("front") and part.height == tenths(2_387)
    }
    # The closing board of 600 is cut 3 narrower, to go in.
    assert fronts[tenths(1_200)]["width"] == ("materials.board",)
    assert fronts[tenths(597)]["width"][0] in ("wall.width", "materials.board")
    assert "wall.width" in fronts[tenths(597)]["width"]
    assert fronts[tenths(597)]["height"] == ("site.height_left",)
