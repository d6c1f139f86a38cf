"""Where joints may fall beside an opening."""

from __future__ import annotations

import pytest

from optimiser.framing.build import frame_wall
from optimiser.inspection.inspect import inspect_frame
from optimiser.units import tenths
from tests.framing.builders import a_fire, a_price_book, a_wall, materials


@pytest.mark.parametrize("layers", [1, 2])
@pytest.mark.parametrize("centre", [1_600, 2_000])
def test_no_joint_falls_where_the_facing_board_stands_out_past_a_fires_timber(
    centre: float, layers: int
) -> None:
    # The hole begins at 1210 or ends at 2390, its timber 35 beyond: a joint at 1200 or 2400 on the
    # centres would hang on nothing beside the fire.
    wall = a_wall(
        fire=a_fire(
            centre=tenths(centre),
            body_width=tenths(800),
            opening_width=tenths(780),
            clearance_side=tenths(25),
        ),
        materials=materials(layers=layers, centres=tenths(400)),
    )

    frame = frame_wall(wall, a_price_book())

    joints = {int(one.box.x) for one in frame.boards if one.face == "front" and one.layer == 1}
    assert not joints & {tenths(1_200 if centre == 1_600 else 2_400)}
    assert inspect_frame(frame, wall) == ()
