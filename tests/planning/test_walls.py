"""Only ways of boarding that hold in space are offered; a wall of which none holds is refused."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

import pytest

from optimiser.domain.fault import Fault
from optimiser.domain.finding import Severity
from optimiser.domain.frame import Frame
from optimiser.domain.plan import Chosen, CuttingPlan
from optimiser.domain.wall import Wall
from optimiser.errors import PlanRefused
from optimiser.framing import build
from optimiser.inspection.inspect import inspect_frame
from optimiser.planning import walls
from optimiser.planning.jobs import job_as_planned, job_of_frame
from optimiser.planning.plan import plan_cutting
from optimiser.planning.walls import LEFT_OUT, frame_as_proven, frame_wall, only_sound
from tests.cutting_builders import a_length_material, a_length_part, a_request, a_stock_length
from tests.framing.builders import a_price_book, a_tv, a_wall

WALL = a_wall(tv=a_tv())
FRAME = build.frame_wall(WALL, a_price_book())


def spoilt(frame: Frame) -> Frame:
    """Take an upright away: the boards that meet on it lose their bearing."""
    last = max((m for m in frame.members if m.mark.startswith("U")), key=lambda member: member.mark)
    return replace(frame, members=tuple(m for m in frame.members if m is not last))


def test_a_sound_wall_keeps_every_way_of_boarding() -> None:
    frame = frame_wall(WALL, a_price_book())

    assert len(FRAME.alternatives) > 0
    assert [way.boarding for way in frame.alternatives] == [
        way.boarding for way in FRAME.alternatives
    ]
    assert not any(finding.rule == LEFT_OUT for finding in frame.findings)


def test_a_way_that_does_not_hold_is_left_out_with_a_note() -> None:
    first, *others = FRAME.alternatives
    wall = replace(FRAME, alternatives=(spoilt(first), *others))
    assert inspect_frame(spoilt(first), WALL)

    frame = only_sound(wall, WALL)

    assert [way.boarding for way in frame.alternatives] == [way.boarding for way in others]
    (note,) = (finding for finding in frame.findings if finding.rule == LEFT_OUT)
    assert note.severity is Severity.NOTE
    assert first.boarding in note.trouble


def test_where_the_first_way_does_not_hold_the_next_takes_its_place() -> None:
    wall = spoilt(FRAME)

    frame = only_sound(wall, WALL)

    assert frame.boarding == FRAME.alternatives[0].boarding
    assert inspect_frame(frame, WALL) == ()


def a_mixture(frame: Frame) -> CuttingPlan:
    """Return a plan that takes the second way of boards and the second of plates."""
    chosen = tuple(Chosen(choice=f"{frame.job}/{one.name}", option=1) for one in frame.choices)
    plan = plan_cutting(
        a_request(
            a_length_material(a_length_part("a", 1_000), stock=[a_stock_length("length", 10_000)])
        )
    )
    return replace(plan, chosen=chosen)


def test_a_mixture_that_a_plan_chose_is_inspected_before_anybody_sees_it(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    frame = frame_wall(WALL, a_price_book())
    plan = a_mixture(frame)
    seen: list[str] = []

    def inspect(one: Frame, _: Wall) -> tuple[Fault, ...]:
        seen.append(one.boarding)
        return (Fault("face front", "is not there"),) if len(seen) > 1 else inspect_frame(one, WALL)

    monkeypatch.setattr(walls, "inspect_frame", inspect)

    mixed = frame_as_proven(frame, WALL, plan)
    assert seen == [mixed.boarding]
    assert mixed.boarding not in {frame.boarding, *(way.boarding for way in frame.alternatives)}
    with pytest.raises(PlanRefused, match="face front: is not there"):
        frame_as_proven(frame, WALL, plan)


def test_a_wall_of_which_no_way_holds_is_refused_with_what_is_wrong() -> None:
    wall = replace(spoilt(FRAME), alternatives=tuple(map(spoilt, FRAME.alternatives)))

    with pytest.raises(PlanRefused) as refusal:
        only_sound(wall, WALL)

    assert all(problem.field.startswith(f"job {WALL.job}, ") for problem in refusal.value.problems)


def test_the_marks_of_a_planned_frame_are_those_of_its_parts_each_as_often() -> None:
    frame = frame_wall(WALL, a_price_book())
    plan = a_mixture(frame)

    marked = frame_as_proven(frame, WALL, plan)

    job = job_as_planned(job_of_frame(frame), frame, plan)
    asked = {part.id: part.quantity for _, part in job.parts.lengths}
    asked |= {part.id: part.quantity for _, part in job.parts.boards}
    marks = [one.mark for one in marked.members]
    marks += [one.mark for one in marked.beads]
    marks += [one.mark for one in marked.boards]
    assert Counter(f"{job.name}/{mark}" for mark in marks) == asked
    assert any("+" in mark for mark in marks)
    assert {one.member for one in marked.fixings} <= {one.mark for one in marked.members}
