"""Take-off as published guides work it: rounding is up, never to the nearest.

What the guides reckon besides, and the program does not:

- Two more studs at each corner of a room (estimating textbook, example 13-12): a feature wall turns
  no corner; its free ends are boxes, whose uprights are all drawn.
- Boards taken off for doors and windows, three quarters and one each (drywall guide): openings are
  cut out of boards that are planned one by one.
- 156 hours a year for four trips of 45 minutes a week (trade press): one order serves all jobs;
  what a trip costs is the firm's to say.
- 5 to 15 % of plasterboard wasted, 12 % of what is delivered (trade bodies): what is wasted is
  planned and shown sheet by sheet, never added as a percentage.
- 29 cubic feet of plaster on 100 square yards of lath (estimating textbook, example 16-5): no wall
  here has lath; skim is reckoned by area on board.
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
