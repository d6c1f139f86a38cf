"""What the fitter is told before he buys: contradictions are refused, the rest are findings."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest

from optimiser.domain.finding import Finding, Severity
from optimiser.domain.wall import End, Glass, Socket, SurveyPoint, Tv
from optimiser.errors import InvalidInput, Problem
from optimiser.framing.cautions import CAUTIONS
from optimiser.framing.rules import RULES
from optimiser.units import Tenths, tenths
from tests.framing.builders import (
    a_fire,
    a_niche,
    a_site,
    a_soundbar,
    a_tv,
    an_extent,
    framed,
    materials,
)


def refused(**changes: object) -> tuple[Problem, ...]:
    with pytest.raises(InvalidInput) as caught:
        framed(**changes)
    return caught.value.problems


def told(rule: str, **changes: object) -> Finding:
    return next(f for f in framed(**changes).findings if f.rule == rule)


def test_all_contradictions_are_told_at_once() -> None:
    problems = refused(
        materials=materials(timber="oak", board="slate"), extent=an_extent(width=tenths(5_000))
    )

    assert {p.field for p in problems} == {"materials.timber", "materials.board", "wall.width"}
    assert all(p.remedy for p in problems)


def test_an_unknown_material_names_those_there_are() -> None:
    (problem,) = refused(materials=materials(timber="oak"))

    assert '"oak"' in problem.trouble
    assert "c16-38x63" in problem.remedy


def test_an_opening_wider_than_the_wall_is_refused_with_both_figures() -> None:
    problem, *_ = refused(fire=a_fire(body_width=tenths(3_700)))

    assert problem.field == "fire.body_width"
    assert "fire.body_width 3700" in problem.trouble
    assert "site.clear_width 3600" in problem.trouble


def test_openings_that_overlap_are_refused() -> None:
    problems = refused(tv=a_tv(), niches=(a_niche(x=tenths(1_200)),))

    assert any("overlap" in p.trouble for p in problems)


def test_glass_round_an_end_that_abuts_is_refused() -> None:
    problems = refused(fire=a_fire(glass=Glass.LEFT))

    assert [p.field for p in problems] == ["fire.glass"]


def test_a_recess_deeper_than_the_wall_is_refused_with_its_sum() -> None:
    (problem,) = refused(tv=a_tv(recess_depth=tenths(280)))

    assert "wall.depth 300" in problem.trouble
    assert "back 12" in problem.trouble


def test_figures_beyond_any_room_are_refused() -> None:
    for changes in (
        {"site": a_site(height_left=tenths(24_000))},
        {"site": a_site(clear_width=tenths(90_000))},
        {"materials": materials(centres=tenths(40))},
        {"niches": (a_niche(depth=tenths(15)),)},
    ):
        assert len(refused(**changes)) == 1


def test_a_wall_too_shallow_for_two_timbers_is_refused() -> None:
    (problem,) = refused(extent=an_extent(depth=tenths(150)))

    assert problem.field == "wall.depth"
    assert "198.5" in problem.remedy


def test_a_base_that_leaves_no_room_for_short_uprights_is_refused() -> None:
    (problem,) = refused(fire=a_fire(base_height=tenths(100)))

    assert problem.field == "fire.base_height"
    assert "136" in problem.remedy


def test_a_fire_deeper_than_the_wall_stops_the_purchase_and_still_gives_parts() -> None:
    frame = framed(fire=a_fire(body_depth=tenths(295)))
    stop = next(f for f in frame.findings if f.rule == "check.fire.depth")

    assert stop.severity is Severity.STOP
    assert "wall.depth 300" in stop.trouble
    assert "fire.body_depth 295" in stop.trouble
    assert "make wall.depth 305" in stop.remedy
    assert frame.members


def test_the_back_frame_goes_round_a_fire_that_reaches_into_it() -> None:
    frame = framed(fire=a_fire(body_depth=tenths(250)))
    sills = [m for m in frame.members if m.kind == "sill"]

    assert {m.box.y for m in sills} == {0, tenths(300 - 12.5 - 63)}
    assert any(f.rule == "check.fire.depth" for f in frame.findings)


@pytest.mark.parametrize(
    ("given", "cleared"),
    [
        # 480 of body + 10 of air - 50: the facing board reaches 50 past its timber, no further.
        ({"opening_height": 400}, {"opening_height": 440}),
        # 1270 of body + 2 × 5 of air - 2 × 50.
        ({"opening_width": 1_100}, {"opening_width": 1_180}),
        (
            {"opening_width": 1_100, "opening_height": 400},
            {"opening_width": 1_180, "opening_height": 440},
        ),
        ({"opening_width": 1_270, "clearance_side": 60}, {"opening_width": 1_290}),
        # Where the glass returns, the hole counts from that end: 1270 of body + 5 of air - 50.
        ({"opening_width": 1_100, "glass": Glass.RIGHT}, {"opening_width": 1_225}),
    ],
)
def test_a_facing_board_too_far_past_its_timber_stops_with_the_smallest_hole_that_clears_it(
    given: dict[str, Any], cleared: dict[str, int]
) -> None:
    # 50: common practice, no source.
    extent = an_extent(
        depth=tenths(400), width=tenths(3_000), right=End.FREE, offset=Tenths(0), left=End.ABUTS
    )

    def stop_for(sizes: dict[str, Any]) -> Finding | None:
        fire = a_fire(**{k: tenths(v) if isinstance(v, int) else v for k, v in sizes.items()})
        found = framed(fire=fire, extent=extent).findings
        return next((f for f in found if f.rule == "check.fire.overhang"), None)

    stop = stop_for(given)

    assert stop is not None
    assert stop.severity is Severity.STOP
    for field, size in cleared.items():
        assert f"fire.{field} {size} at least" in stop.remedy
        assert stop_for(given | cleared | {field: size - 1}) is not None
    assert stop_for(given | cleared) is None


def test_a_hole_that_must_outgrow_the_body_says_so() -> None:
    stop = told("check.fire.overhang", fire=a_fire(clearance_side=tenths(60)))

    assert "20 more than 1270 of body" in stop.remedy


def test_clearances_left_out_warn() -> None:
    warning = told("check.fire.maker", fire=a_fire(clearance_top=None))

    assert warning.severity is Severity.WARNING
    assert "top" in warning.trouble


def test_a_narrow_recess_tells_its_gap_and_the_size_that_gives_the_wanted_one() -> None:
    warning = told("check.tv.gap", tv=a_tv(width=tenths(1_439), recess_width=tenths(1_475)))

    assert warning.severity is Severity.WARNING
    assert "18 left" in warning.trouble
    assert "1499" in warning.remedy


def test_a_recess_smaller_than_the_tv_stops_the_purchase() -> None:
    stop = told("check.tv.gap", tv=a_tv(recess_width=tenths(1_400)))

    assert stop.severity is Severity.STOP


def test_a_tv_deeper_than_its_recess_stands_proud() -> None:
    assert "10 proud" in told("check.tv.depth", tv=a_tv(recess_depth=tenths(40))).trouble


def test_a_socket_behind_the_bracket_stops_the_purchase() -> None:
    socket = Socket(x=tenths(1_750), z=tenths(1_100), width=tenths(146), height=tenths(86))
    tv = a_tv(centre_height=tenths(1_150), sockets=(socket,))

    assert told("check.tv.bracket", tv=tv).severity is Severity.STOP


def test_a_tv_hung_high_warns_of_its_upward_look() -> None:
    # 15° at most: display set-up guide.
    tv = a_tv(centre_height=tenths(1_800), viewing_distance=tenths(2_000))

    assert told("check.tv.angle", tv=tv).severity is Severity.WARNING


def test_a_tv_close_over_a_fire_warns() -> None:
    warning = told("check.fire.tv", fire=a_fire(), tv=a_tv(above_fire=tenths(250)))

    assert "50" in warning.remedy


def test_a_tv_without_its_mass_warns_that_its_bracket_is_not_checked() -> None:
    assert told("check.tv.mass", tv=a_tv(mass=None)).severity is Severity.WARNING


def test_a_soundbar_without_a_tv_must_be_placed() -> None:
    (problem,) = refused(soundbar=a_soundbar())

    assert problem.field == "soundbar.x"


def test_a_room_higher_than_the_longest_stock_stops_the_purchase() -> None:
    stop = told("check.timber.stock", site=a_site(height_left=tenths(5_000)))

    assert stop.severity is Severity.STOP
    assert "4800" in stop.trouble


def test_every_finding_carries_its_rules_source() -> None:
    frame = framed(fire=a_fire(), tv=a_tv())

    assert frame.findings
    assert all(f.source == RULES[f.rule].source and f.remedy for f in frame.findings)


def test_cautions_defer_to_maker_codes_and_qualified_people() -> None:
    # HSE: softwood 5, hardwood and mixtures 3, silica 0.1 mg/m³.
    text = " ".join(CAUTIONS)

    assert all(word in text for word in ("manual governs", "qualified", "Asbestos", "engineer"))
    assert all(limit in text for limit in ("5 mg/m³", "3 mg/m³", "0.1 mg/m³"))


def test_each_thing_over_25_kg_is_lifted_by_two() -> None:
    # HSE INDG143: 25 kg is a guideline, and no safe limit.
    heavy = framed(fire=a_fire(mass=28_000), tv=a_tv(mass=42_000))
    light = framed(fire=a_fire(mass=25_000), tv=a_tv(mass=24_000))

    told = {f.trouble for f in heavy.findings if f.rule == "check.mass.item"}

    assert told == {
        "the fire weighs 28.0 kg, over the 25 kg guideline",
        "the TV weighs 42.0 kg, over the 25 kg guideline",
    }
    assert not any(f.rule == "check.mass.item" for f in light.findings)


@pytest.mark.parametrize(
    ("distance", "said"),
    [(1_900, "nearer than"), (2_000, "between"), (2_600, "between"), (2_700, "further than")],
)
def test_the_seat_is_held_against_the_width_of_the_screen(distance: int, said: str) -> None:
    # 65 in at 16:9 is 1439 wide: 40° from 1977, 30° from 2685 (guides quoting 30° and 40°,
    # calculated by distance = width / 2 / tan(angle / 2)).
    frame = framed(tv=Tv(diagonal=Fraction(65), viewing_distance=tenths(distance)))

    (one,) = [f for f in frame.findings if f.rule == "check.tv.distance"]

    assert f"is {said} the 1977 (40° of the view) to 2685" in one.trouble


def test_the_sheet_that_lines_a_fire_is_weighed_too() -> None:
    # 1.22 × 2.44 m of 10.8 kg/m²: calculated.
    found = framed(fire=a_fire(lining="silicate-12")).findings
    told_of = [f.trouble for f in found if f.rule == "check.mass.sheet"]

    assert any("silicate-12-2440x1220 weighs 32.2 kg, over the 25 kg" in one for one in told_of)


def test_a_floor_that_dips_between_its_ends_is_not_said_to_fall_to_one_of_them() -> None:
    points = ((0, 0), (1_800, -12), (3_600, 0))
    site = a_site(
        height_left=None,
        levels=tuple(
            SurveyPoint(x=tenths(x), height=tenths(2_400), floor=10 * low) for x, low in points
        ),
    )

    assert "falls 12 to a place between its ends" in told("check.site.level", site=site).trouble


def test_nothing_is_counted_in_a_wrong_plural() -> None:
    frame = framed(niches=(a_niche(shelves=1, lit=True),), tv=None)
    working = {one.item: one.working for one in frame.quantities}

    assert working["light-strip"].endswith("of 1 lit niche")
    assert working["shelf-screw"].startswith("4 at each of 1 shelf: 4 through 15.5 of board")
    assert "mdf-screw" not in working
    assert not working["screw-100"].startswith("0 ")
    assert " + 0 " not in working["screw-100"]
    assert (
        "is lit: 1 strip of"
        in told("check.niche.light", niches=(a_niche(shelves=0, lit=True),)).trouble
    )
