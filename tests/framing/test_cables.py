"""Ways for cables: through the backs of what is fed, past the timbers, and what they bury.

Sizes of holes and the room round them: common practice, no source.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from optimiser.domain.finding import Finding, Severity
from optimiser.domain.frame import Frame, Passage
from optimiser.domain.wall import Accessory, Projection, Socket, Step
from optimiser.formats.set_out import set_out_text
from optimiser.inspection.inspect import inspect_frame
from optimiser.units import Tenths, tenths
from tests.framing.builders import a_niche, a_site, a_soundbar, a_tv, a_wall, an_extent, framed

FED: dict[str, dict[str, Any]] = {
    "tv": {"tv": a_tv()},
    "soundbar": {"tv": a_tv(), "soundbar": a_soundbar()},
    "niche": {"niches": (a_niche(lit=True),)},
}
SOCKET = Socket(x=tenths(1_200), z=tenths(1_150), width=tenths(150), height=tenths(90))


def told(frame: Frame, rule: str) -> list[Finding]:
    return [one for one in frame.findings if one.rule == rule]


def without_alternatives(frame: Frame) -> Frame:
    return replace(frame, alternatives=())


@pytest.mark.parametrize("name", FED)
def test_what_is_fed_has_a_hole_through_its_back_clear_of_struts_and_shelves(name: str) -> None:
    frame = framed(**FED[name])
    hole = next(one for one in frame.passages if one.name == name)
    radius = hole.diameter // 2

    behind = [one.box for one in frame.members if one.kind == "strut"]
    shelves = [one.box for one in frame.boards if one.face.startswith(f"{name}.shelf")]
    for box in (*behind, *shelves):
        beside = hole.at.x + radius <= box.x or box.x + box.dx <= hole.at.x - radius
        below = hole.at.z + radius + 50 <= box.z
        above = hole.at.z - radius - 50 >= box.z + box.dz
        assert beside or below or above
    assert hole.diameter in (500, 250)
    assert inspect_frame(frame, a_wall(**FED[name])) == ()


def test_the_hole_behind_a_tv_keeps_clear_of_the_brackets_plate() -> None:
    frame = framed(tv=a_tv(bracket_width=tenths(900), bracket_height=tenths(420)))
    (hole,) = frame.passages
    opening = next(one for one in frame.openings if one.kind == "tv")

    across = abs(hole.at.x - opening.x - opening.width // 2)
    up = abs(hole.at.z - opening.z - opening.height // 2)
    room = hole.diameter // 2 + 100
    assert across >= 4_500 + room or up >= 2_100 + room


def test_sockets_on_the_backboard_and_unlit_niches_need_no_other_hole() -> None:
    assert framed(tv=a_tv(sockets=(SOCKET,))).passages == ()
    assert framed(niches=(a_niche(),)).passages == ()


def test_the_set_out_sheet_says_where_to_drill() -> None:
    said = set_out_text(framed(tv=a_tv()), cautions=())

    assert "tv.back: drill 50 for cables at" in said


def test_a_slot_too_low_for_a_hole_between_its_struts_is_told() -> None:
    wall = a_wall(tv=a_tv(), soundbar=a_soundbar(height=tenths(30), gap=tenths(5)))
    frame = framed(tv=wall.tv, soundbar=wall.soundbar)

    (found,) = told(frame, "check.cable.passage")

    assert found.severity is Severity.WARNING
    assert found.trouble.startswith("soundbar: between the struts behind its back no hole of 25")
    assert {one.name for one in frame.passages} == {"tv"}
    assert inspect_frame(frame, wall) == ()
    # Without the finding the inspector misses the hole.
    silent = [one for one in frame.findings if one.rule != "check.cable.passage"]
    faults = inspect_frame(replace(without_alternatives(frame), findings=tuple(silent)), wall)
    assert [fault.what for fault in faults] == ["has no hole for its cable"]


def moved(frame: Frame, **by: int) -> Frame:
    (hole,) = frame.passages
    at = replace(hole.at, **{axis: Tenths(getattr(hole.at, axis) + n) for axis, n in by.items()})
    return replace(without_alternatives(frame), passages=(replace(hole, at=at),))


def to_strut(frame: Frame, hole: Passage) -> int:
    return min((one.box.z - hole.at.z for one in frame.members if one.kind == "strut"), key=abs)


def test_a_hole_on_a_strut_or_off_its_board_is_a_fault() -> None:
    wall, frame = a_wall(tv=a_tv()), framed(tv=a_tv())
    (hole,) = frame.passages

    on_strut = inspect_frame(moved(frame, z=to_strut(frame, hole)), wall)
    outside = inspect_frame(moved(frame, x=20_000), wall)

    assert any("its hole for cables meets strut" in fault.what for fault in on_strut)
    assert any("lies in no one board" in fault.what for fault in outside)


def test_cables_run_between_the_skeletons_past_the_returns() -> None:
    (found,) = told(framed(tv=a_tv()), "check.cable.route")

    # 300 deep, board 12.5 and two timbers of 63: from 63 to 224.5 out.
    assert "63 to 224.5 out" in found.trouble
    assert "notch no timber" in found.remedy
    assert told(framed(), "check.cable.route") == []


def test_two_parts_that_share_no_room_for_a_cable_are_told() -> None:
    breast = a_site(
        projections=(Projection(x=tenths(1_000), width=tenths(1_600), depth=tenths(200)),)
    )
    deep = Step(name="centre", x=tenths(1_000), width=tenths(1_600), depth=tenths(450))
    frame = framed(
        site=breast, steps=(deep,), extent=an_extent(depth=tenths(300)), niches=(a_niche(lit=True),)
    )

    # The alcoves are open from 63 to 224.5 out, what stands before the breast from 263 on.
    found = [one for one in told(frame, "check.cable.route") if one.severity is Severity.WARNING]
    assert len(found) == 2
    assert "share 0 of room" in found[0].trouble


def test_an_accessory_that_the_wall_would_bury_is_told() -> None:
    spot = Accessory(x=tenths(1_000), z=tenths(450))

    (found,) = told(framed(site=a_site(accessories=(spot,))), "check.site.accessory")

    assert found.severity is Severity.WARNING
    assert "site.accessories[0] (x 1000, z 450) lies behind the wall" in found.trouble


def test_an_accessory_beside_or_above_the_wall_stays_in_reach() -> None:
    beside = a_site(accessories=(Accessory(x=tenths(3_500), z=tenths(450)),))
    above = a_site(accessories=(Accessory(x=tenths(1_000), z=tenths(1_500)),))

    narrow = framed(site=beside, extent=an_extent(width=tenths(3_000)))
    low = framed(site=above, extent=an_extent(height=tenths(1_200)))

    assert told(narrow, "check.site.accessory") == []
    assert told(low, "check.site.accessory") == []
