"""Floor and ceiling as surveyed: where they are at any place along the wall."""

from __future__ import annotations

from optimiser.framing.levels import levels_of
from optimiser.units import Tenths, tenths
from tests.framing.builders import a_site, framed


def test_the_datum_is_the_highest_floor_under_the_wall() -> None:
    site = a_site(floor_fall=120)

    levels = levels_of(site, offset=0, width=tenths(3_600))

    assert levels.floor(0) == 0
    assert levels.floor(tenths(3_600)) == -120
    assert levels.ceiling(tenths(3_600)) == tenths(2_400) - 120


def test_a_floor_that_rises_to_the_right_has_its_datum_there() -> None:
    levels = levels_of(a_site(floor_fall=-120), offset=0, width=tenths(3_600))

    assert (levels.floor(0), levels.floor(tenths(3_600))) == (-120, 0)


def test_a_wall_set_off_from_the_side_takes_its_own_part_of_the_fall() -> None:
    levels = levels_of(a_site(floor_fall=120), offset=tenths(1_800), width=tenths(1_800))

    assert (levels.floor(0), levels.floor(tenths(1_800))) == (0, -60)


def test_heights_run_straight_from_left_to_middle_to_right() -> None:
    site = a_site(height_middle=tenths(2_420), height_right=tenths(2_380))

    levels = levels_of(site, offset=0, width=tenths(3_600))

    places = [tenths(x) for x in (0, 900, 1_800, 2_700, 3_600)]
    assert [levels.ceiling(x) for x in places] == [24_000, 24_100, 24_200, 24_000, 23_800]
    assert levels.highest_ceiling(0, tenths(3_600)) == tenths(2_420)
    assert levels.lowest_ceiling(0, tenths(3_600)) == tenths(2_380)


def test_a_level_between_tenths_is_rounded_down() -> None:
    levels = levels_of(a_site(height_right=Tenths(24_001)), offset=0, width=tenths(3_600))

    assert levels.ceiling(tenths(1_799)) == 24_000


def test_each_upright_is_cut_to_the_ceiling_over_it() -> None:
    # A ceiling that rises 36 over 3600 is 1 higher each 100; plates 2 × 38, cut 1 short.
    frame = framed(site=a_site(height_middle=tenths(2_418), height_right=tenths(2_436)))
    front = frame.depth - tenths(12.5) - tenths(63)

    uprights = [m for m in frame.members if m.kind == "upright" and m.box.y == front]

    assert len({m.length for m in uprights}) == len(uprights)
    for upright in uprights:
        assert upright.length == tenths(2_400) + upright.box.x // 100 - 2 * tenths(38) - tenths(1)


def test_a_low_floor_is_packed_and_the_packing_named() -> None:
    frame = framed(site=a_site(floor_fall=150))

    assert all(m.box.z == 0 for m in frame.members if m.kind == "sole plate")
    note = next(f for f in frame.findings if f.rule == "check.site.level")
    assert "15 to the right" in note.trouble
