"""Whatever a fitter writes, a wall is refused with reasons or becomes a sound frame."""

from __future__ import annotations

from hypothesis import HealthCheck, event, given, settings

from optimiser.domain.frame import Frame
from optimiser.domain.wall import Wall
from optimiser.errors import InvalidInput, Problem
from optimiser.framing.build import frame_wall
from optimiser.framing.rules import RULES
from tests.framing import geometry
from tests.framing.builders import a_price_book
from tests.framing.strategies import walls

BOOK = a_price_book()
FIT = 10
SHORTEST = 600


def framed_or_refused(wall: Wall) -> tuple[Frame | None, tuple[Problem, ...]]:
    try:
        return frame_wall(wall, BOOK), ()
    except InvalidInput as refused:
        return None, refused.problems


def faults_of(frame: Frame, wall: Wall) -> dict[str, list[object]]:
    timber = next(
        item
        for item in BOOK.lengths
        if item.material == (wall.materials.timber or BOOK.lengths[0].material)
    )
    board = next(
        item
        for item in BOOK.sheets
        if item.material == (wall.materials.board or BOOK.sheets[0].material)
    )
    front = frame.depth - (wall.materials.layers or 1) * board.thickness - timber.width
    return {
        "two members share space": list(geometry.share_space(frame)),
        "a member's end meets nothing": list(geometry.loose_ends(frame, fit=FIT)),
        "a member leaves the wall": list(geometry.outside(frame)),
        "a member stands in an opening": list(geometry.in_openings(frame)),
        "a board fits no sheet": list(geometry.too_large(frame, BOOK)),
        "a cut-out leaves its board": list(geometry.bad_cut_outs(frame)),
        "the front is not covered once": list(geometry.front_faults(frame)),
        "a horizontal joint has no noggin": list(
            geometry.rows_on_air(frame, front=front, wide=timber.width)
        ),
        "a joint has no upright": list(
            geometry.joints_on_air(frame, front=front, wide=timber.width, least=600)
        ),
    }


@settings(
    deadline=None,
    max_examples=60,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
)
@given(walls())
def test_any_wall_is_refused_with_reasons_or_becomes_a_sound_frame(wall: Wall) -> None:
    frame, problems = framed_or_refused(wall)
    event("framed" if frame is not None else "refused")
    if frame is None:
        assert problems
        assert all(p.field and p.trouble and p.remedy for p in problems)
        return

    faults = {name: found for name, found in faults_of(frame, wall).items() if found}

    assert faults == {}
    assert all(min(m.box.dx, m.box.dy, m.box.dz) > 0 for m in frame.members)
    assert all(m.length >= SHORTEST for m in frame.members)
    assert all(m.length in (m.box.dx, m.box.dy, m.box.dz) for m in frame.members)
    named = {m.rule for m in frame.members} | {b.rule for b in frame.boards}
    named |= {b.rule for b in frame.beads} | {q.rule for q in frame.quantities}
    assert named | {f.rule for f in frame.findings} <= set(RULES)
    assert all(bead.length > 0 for bead in frame.beads)
    assert all(quantity.amount > 0 for quantity in frame.quantities)


@settings(deadline=None, max_examples=20, suppress_health_check=[HealthCheck.too_slow])
@given(walls())
def test_a_wall_is_framed_the_same_each_time(wall: Wall) -> None:
    assert framed_or_refused(wall) == framed_or_refused(wall)
