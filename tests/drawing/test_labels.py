"""Labels step aside no further than they must, fills survive a black-and-white printer."""

from __future__ import annotations

import itertools
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from optimiser.drawing.flags import Flag, Side, flag_row, spread
from optimiser.drawing.hatch import job_marks, slanted
from optimiser.drawing.letters import plain, shorten, text_width, wrap
from optimiser.drawing.scene import Area, Text, scale_for


@given(st.lists(st.floats(0, 100), min_size=1, max_size=20), st.floats(0.5, 6))
def test_spread_labels_keep_their_order_their_distance_and_their_room(
    wanted: list[float], width: float
) -> None:
    ordered = sorted(wanted)

    centres = spread(ordered, [width] * len(ordered), 0, 100)

    if centres is None:
        assert len(ordered) * width + (len(ordered) - 1) * 0.5 > 100 - 1e-6
        return
    assert centres[0] - width / 2 >= -1e-6
    assert centres[-1] + width / 2 <= 100 + 1e-6
    for left, right in itertools.pairwise(centres):
        assert right - left >= width + 0.5 - 1e-6


def test_labels_with_room_stay_where_they_belong() -> None:
    assert spread([10, 50, 90], [5, 5, 5], 0, 100) == (10, 50, 90)


def test_two_labels_for_one_point_step_aside_equally() -> None:
    assert spread([50, 50], [5, 5], 0, 100) == pytest.approx((47.25, 52.75))


def test_two_figures_in_a_row_never_read_as_one() -> None:
    # At −44 and 0 on a plan to 1:15, 2.9 of paper apart: "−44 0" stood there like −440.
    row = flag_row(
        [Flag(50, ("−44",)), Flag(52.9, ("0",))], edge=10, side=Side.BELOW, low=0, high=100
    )

    near, far = (item for item in row.items if isinstance(item, Text))
    assert (near.text, far.text) == ("−44", "0")
    between = (far.x - text_width("0") / 2) - (near.x + text_width("−44") / 2)
    assert between >= text_width("0") - 1e-9


@given(st.text(max_size=60), st.floats(5, 60))
def test_a_shortened_text_fits_its_room(text: str, room: float) -> None:
    assert text_width(shorten(plain(text), room)) <= room


@given(st.text(max_size=200))
def test_wrapped_lines_fit_their_room(text: str) -> None:
    assert all(text_width(line) <= 40 for line in wrap(plain(text), 40))


@given(st.text())
def test_plain_text_has_no_character_that_xml_or_the_reading_direction_minds(text: str) -> None:
    assert plain(text).isprintable()


@pytest.mark.parametrize("rising", [True, False])
def test_a_hatch_stays_inside_its_area_and_covers_it_evenly(rising: bool) -> None:
    area = Area(13.7, 21.3, 40, 25)

    lines = slanted(area, 2, rising=rising)

    assert len(lines) in range(21, 25)  # (40 + 25) / (2 · √2) = 22.98
    for x1, y1, x2, y2 in lines:
        assert area.holds(Area(x1, min(y1, y2), x2 - x1, abs(y2 - y1)))
        assert math.isclose(x2 - x1, abs(y2 - y1), abs_tol=1e-9)
        assert (y2 < y1) is rising


def test_no_two_of_thirty_jobs_look_alike() -> None:
    marks = job_marks(f"job {n}" for n in range(30))

    assert len({(mark.corners, mark.turn, mark.fill) for mark in marks.values()}) == 30
    assert len({mark.letter for mark in marks.values()}) == 30


def test_a_short_job_name_is_its_own_letter_and_no_other_job_takes_it() -> None:
    marks = job_marks(["B", "Ash lounge", "Oak snug"])

    assert marks["B"].letter == "B"
    assert marks["Ash lounge"].letter == "A"
    assert marks["Oak snug"].letter == "C"


def test_the_scale_is_the_largest_usual_one_that_fits() -> None:
    assert scale_for((48_000,), (277,)) == 20
    assert scale_for((48_000, 24_000), (277, 90)) == 30
    assert scale_for((500_000,), (277,)) == 200
