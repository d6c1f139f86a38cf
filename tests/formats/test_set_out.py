"""The set-out sheet: every piece once, in the order of work, from the centre line and the datum."""

from __future__ import annotations

from collections import Counter

from optimiser.formats.set_out import set_out, set_out_text
from optimiser.units import tenths
from tests.framing.builders import a_fire, a_tv, an_extent, framed


def test_the_order_of_work_is_that_of_the_site() -> None:
    titles = [step.title for step in set_out(framed(fire=a_fire(), tv=a_tv()))]

    assert titles == [
        "Centre line and datum",
        "Base: sole plates",
        "Head plates",
        "Uprights, back and front",
        "Rails of the openings",
        "Noggins, returns and struts",
        "Check before boarding",
        "Boards",
    ]


def test_uprights_are_measured_from_the_centre_line_each_side() -> None:
    frame = framed()
    steps = {step.title: step.lines for step in set_out(frame)}

    lines = steps["Uprights, back and front"]

    assert len(lines) == sum("upright" in member.kind for member in frame.members)
    # 3600 wide: the first upright's left face is at the end, the last one's a timber short of it.
    assert any("left face at −1800" in line for line in lines)
    assert any("left face at +1762" in line for line in lines)


def test_openings_are_checked_by_their_clear_size() -> None:
    frame = framed(fire=a_fire())
    steps = {step.title: step.lines for step in set_out(frame)}

    assert any("1250 × 450 clear" in line for line in steps["Check before boarding"])


def test_every_board_is_placed_once() -> None:
    frame = framed(extent=an_extent(offset=tenths(300), width=tenths(3_000)))
    lines = next(step.lines for step in set_out(frame) if step.title == "Boards")

    named = Counter(line.split(": ")[1].split(",")[0] for line in lines)

    assert named == Counter(board.mark for board in frame.boards)


def test_cautions_come_before_the_first_step() -> None:
    text = set_out_text(framed(), cautions=("Mind the cables.",))

    assert text.index("Mind the cables.") < text.index("1. Centre line and datum")
