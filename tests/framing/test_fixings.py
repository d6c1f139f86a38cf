"""Screws that join uprights, and what is bought for under the sole plates.

The counts are worked out here by hand from the sizes of the wall.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from optimiser.domain.frame import Frame, Member
from optimiser.domain.wall import Floor, Step
from optimiser.errors import InvalidInput
from optimiser.formats.set_out import set_out_text
from optimiser.framing.build import frame_wall
from optimiser.framing.fixing import flat_screw, screws_between
from optimiser.inspection.inspect import inspect_frame
from optimiser.planning.jobs import job_of_frame
from optimiser.planning.order import cost_of_packs
from optimiser.units import Tenths, tenths
from tests.framing.builders import a_price_book, a_site, a_wall, an_extent, framed, materials

DEEPER = Step(name="centre", x=tenths(1_000), width=tenths(1_600), depth=tenths(450))
STEPPED = {"steps": (DEEPER,), "extent": an_extent(depth=tenths(300))}


def amount(frame: Frame, item: str) -> int:
    return sum(one.amount for one in frame.quantities if one.item == item)


def flat_pairs(frame: Frame) -> list[tuple[Member, Member]]:
    ups = [one for one in frame.members if "upright" in one.kind]
    return [
        (one, other)
        for one in ups
        for other in ups
        if one.box.x + one.box.dx == other.box.x
        and (one.box.y, one.box.dy) == (other.box.y, other.box.dy)
        and min(one.box.z + one.box.dz, other.box.z + other.box.dz) > max(one.box.z, other.box.z)
    ]


@pytest.mark.parametrize(
    ("common", "screws"),
    [(0, 0), (90, 1), (100, 1), (101, 2), (600, 2), (601, 3), (2_323, 5)],
)
def test_uprights_flat_against_each_other_are_screwed_at_600_at_most(
    common: int, screws: int
) -> None:
    assert screws_between(tenths(common)) == screws


def test_a_screw_through_two_timbers_stays_within_both() -> None:
    # 38 + 38 = 76: a screw of 80 comes out, one of 70 does not (calculated). 47 + 47 takes 80.
    assert flat_screw(380) == ("screw-70", 700)
    assert flat_screw(400) == ("screw-70", 700)
    assert flat_screw(470) == ("screw-80", 800)


def test_the_uprights_of_two_boxes_side_by_side_are_joined_and_their_screws_bought() -> None:
    frame = framed(**STEPPED)

    # Back uprights of 2323 (2400 less two plates of 38 and 1) meet at both sides of the centre:
    # 4 spaces of 600 at most make 5 screws each.
    pairs = [one.box.x + one.box.dx for one, other in flat_pairs(frame) if one.group != other.group]
    assert sorted(pairs) == [10_000 + 125, 26_000 - 125]
    assert amount(frame, "screw-70") == sum(
        fixing.count for one in frame.members for fixing in one.fixings if fixing.item == "screw-70"
    )
    assert amount(frame, "screw-70") == 5 * len(flat_pairs(frame))


def test_the_set_out_sheet_says_where_uprights_are_screwed_together() -> None:
    said = set_out_text(framed(**STEPPED), cautions=())

    assert "5 × 70 mm screws join the uprights 0 out that meet at −787.5, +787.5" in said


def test_uprights_without_screws_between_them_are_a_fault() -> None:
    wall = a_wall(**STEPPED)
    frame = framed(**STEPPED)
    one, _ = flat_pairs(frame)[0]
    fewer = tuple(
        replace(fixing, count=fixing.count - 1) if fixing.end == "along" else fixing
        for fixing in one.fixings
    )
    changed = [replace(m, fixings=fewer) if m is one else m for m in frame.members]

    assert inspect_frame(frame, wall) == ()
    faults = inspect_frame(replace(frame, members=tuple(changed), alternatives=()), wall)

    assert [fault.what for fault in faults] == ["is not screwed to the upright it stands against"]


def test_screws_that_come_out_of_the_upright_beside_are_a_fault() -> None:
    wall, frame = a_wall(**STEPPED), framed(**STEPPED)
    one, _ = flat_pairs(frame)[0]
    longer = tuple(
        replace(fixing, length=tenths(80)) if fixing.end == "along" else fixing
        for fixing in one.fixings
    )
    changed = [replace(m, fixings=longer) if m is one else m for m in frame.members]

    faults = inspect_frame(replace(frame, members=tuple(changed), alternatives=()), wall)

    assert [fault.what for fault in faults] == ["has screws that come out of the upright beside it"]


def test_a_book_without_the_pack_says_which_one_to_add() -> None:
    frame = framed(**STEPPED)
    job = job_of_frame(frame)

    with pytest.raises(InvalidInput) as refused:
        cost_of_packs((job,), a_price_book())

    said = [str(one) for one in refused.value.problems if "'screw-70'" in str(one)]
    assert len(said) == 1
    assert 'Add [[packs]] with item = "screw-70" and unit = "each"' in said[0]


def test_a_solid_floor_takes_hammer_fixings_and_a_damp_proof_strip() -> None:
    frame = framed(site=a_site(floor=Floor.SOLID))

    # Two sole plates of 3600: 6 spaces of 600, 7 fixings each; and 100 of strip more for each.
    # Between them returns of 161.5 at the foot of each of 10 uprights: 300 - 12.5 - 2 x 63.
    assert amount(frame, "hammer-fixing") == 14
    assert amount(frame, "damp-proof-strip") == 2 * (3_600 + 100) + 1_615
    assert {one.item for one in frame.fixings if one.into == "floor"} == {"hammer-fixing"}
    assert amount(frame, "screw-100") == 14  # the head plates' own
    said = set_out_text(frame, cautions=())
    assert "7 × hammer fixings of 100 into the floor" in said
    assert "Damp-proof strip: 7.20 m under 2 sole plates + 100 for each, to lap, and 1.62 m" in said
    assert "under 10 returns; 63 wide at least" in said


def test_a_timber_floor_takes_neither_and_is_named_as_taken() -> None:
    frame = framed()

    assert amount(frame, "hammer-fixing") == amount(frame, "damp-proof-strip") == 0
    assert amount(frame, "screw-100") == 28
    assert ("site.floor", "timber") in [(one.field, one.value) for one in frame.defaults]


def test_packers_are_bought_for_each_upright_over_a_low_floor() -> None:
    frame = framed(site=a_site(floor_fall=tenths(12)), materials=materials(centres=tenths(600)))

    # 12 lower at the right: 6 reach half the wall, then two packers of 6 are needed.
    heights = [one.height for one in frame.packing]
    wanted = sum(2 if height > 60 else 1 for height in heights if height >= 5)
    assert amount(frame, "packer") == wanted
    assert max(heights) > 60
    assert amount(framed(), "packer") == 0


def test_a_top_of_its_own_needs_no_screws_into_a_ceiling() -> None:
    frame = framed(extent=an_extent(height=tenths(1_200)))

    # Only the two sole plates are screwed down; nothing is over the head plates.
    assert amount(frame, "screw-100") == 14
    assert not [one for one in frame.fixings if one.into == "ceiling"]


def upper(depth: float) -> Step:
    return Step(
        name="upper", x=tenths(0), width=tenths(3_600), depth=tenths(depth), z=tenths(1_000)
    )


def test_a_sole_plate_over_air_has_no_screws_and_one_over_returns_is_screwed_to_those() -> None:
    # Built out 120 further, the upper front plate lies before the lower frame: nothing under it.
    out = framed(steps=(upper(420),))
    [front] = [one for one in out.members if one.kind == "sole plate" and one.box.y > 3_000]
    into = [one for one in out.fixings if one.into == "box below"]

    assert front.fixings == ()
    assert len(into) == 7
    assert {int(one.at.y) for one in into} == {315}
    # Set back, it crosses the returns at the ends of the lower part: one screw into each.
    back = framed(steps=(upper(200),))
    uppers = [one for one in back.members if one.kind == "sole plate" and one.box.z > 1_000]
    [front] = [one for one in uppers if one.box.y > 0]
    into = [one for one in back.fixings if one.into == "box below"]
    assert [one.count for one in front.fixings] == [2]
    assert [int(one.at.x) for one in into if one.at.y > 315] == [190, 35_810]


def test_a_screw_into_the_air_under_a_part_built_out_is_a_fault() -> None:
    wall = a_wall(steps=(upper(420),))
    frame = replace(frame_wall(wall, a_price_book()), alternatives=(), choices=())
    [front] = [one for one in frame.members if one.kind == "sole plate" and one.box.y > 3_000]
    [one, *_] = [one for one in frame.fixings if one.into == "box below"]
    at = replace(one.at, y=Tenths(front.box.y + 315))
    spoilt = replace(frame, fixings=(*frame.fixings, replace(one, at=at, member=front.mark)))

    assert not inspect_frame(frame, wall)
    assert any("no timber of the part below" in f.what for f in inspect_frame(spoilt, wall))
