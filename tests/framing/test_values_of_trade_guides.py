"""Take-off as published guides work it: rounding is up, never to the nearest.

The guides' other values (what a second trip costs, waste by percentage, plaster by volume) are not
what the program reckons with: it counts boards part by part and plaster by area.
"""

from __future__ import annotations

import math
from fractions import Fraction

from tests.framing.builders import framed


def test_a_wall_takes_no_fewer_front_boards_than_its_width_by_the_published_rule() -> None:
    # D7, drywall guide: the perimeter over the board's width, rounded up. 3600 in 1200s gives 3.
    frame = framed()

    fronts = [board for board in frame.boards if board.face == "front"]

    assert len(fronts) >= math.ceil(Fraction(int(frame.width), 12_000)) == 3
