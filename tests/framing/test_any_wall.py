"""Whatever a fitter writes, a wall is refused with reasons or becomes a sound frame."""

from __future__ import annotations

from hypothesis import HealthCheck, Phase, event, given, settings

from optimiser.domain.finding import Severity
from optimiser.domain.frame import Frame
from optimiser.domain.wall import Wall
from optimiser.errors import InvalidInput, Problem
from optimiser.framing.build import frame_wall
from optimiser.framing.rules import RULES
from optimiser.inspection.inspect import inspect_frame
from tests.framing import space
from tests.framing.builders import a_price_book
from tests.framing.strategies import walls

BOOK = a_price_book()
SHORTEST = 600
# A wall that fails is told as it was drawn: making it smaller frames thousands more, for minutes.
DRAWN = (Phase.explicit, Phase.reuse, Phase.generate)


def framed_or_refused(wall: Wall) -> tuple[Frame | None, tuple[Problem, ...]]:
    try:
        return frame_wall(wall, BOOK), ()
    except InvalidInput as refused:
        return None, refused.problems


def is_stopped(frame: Frame) -> bool:
    return any(found.severity is Severity.STOP for found in frame.findings)


@settings(
    deadline=None,
    max_examples=60,
    phases=DRAWN,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
)
@given(walls())
def test_any_wall_is_refused_with_reasons_or_becomes_a_sound_frame(wall: Wall) -> None:
    frame, problems = framed_or_refused(wall)
    if frame is None:
        assert problems
        assert all(p.field and p.trouble and p.remedy for p in problems)
        return

    if is_stopped(frame):
        return
    event("framed")
    assert inspect_frame(frame, wall) == ()
    # The inspector knows nothing of stock; a part that fits no sheet cannot be cut.
    assert list(space.too_large(frame, BOOK)) == []
    assert all(min(m.box.dx, m.box.dy, m.box.dz) > 0 for m in frame.members)
    assert all(m.length >= SHORTEST for m in frame.members)
    assert all(m.length in (m.box.dx, m.box.dy, m.box.dz) for m in frame.members)
    named = {m.rule for m in frame.members} | {b.rule for b in frame.boards}
    named |= {b.rule for b in frame.beads} | {q.rule for q in frame.quantities}
    assert named | {f.rule for f in frame.findings} <= set(RULES)
    assert all(bead.length > 0 for bead in frame.beads)
    assert all(quantity.amount > 0 for quantity in frame.quantities)


@settings(
    deadline=None,
    max_examples=20,
    phases=DRAWN,
    suppress_health_check=[HealthCheck.too_slow],
)
@given(walls())
def test_a_wall_is_framed_the_same_each_time(wall: Wall) -> None:
    assert framed_or_refused(wall) == framed_or_refused(wall)
