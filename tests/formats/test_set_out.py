"""The set-out sheet: every piece once, in the order of work, from the centre line and the datum."""

from __future__ import annotations

import re
from collections import Counter

from optimiser.domain.frame import Frame
from optimiser.domain.wall import ExistingWall
from optimiser.domain.wall import Step as WallStep
from optimiser.formats.set_out import Step, set_out, set_out_text
from optimiser.units import Tenths, mm, tenths
from tests.framing.builders import a_fire, a_site, a_tv, an_extent, framed, materials


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
        "Beads, tape and skim",
        "The fire",
        "The TV",
    ]


def steps_of(frame: Frame) -> dict[str, Step]:
    return {step.title: step for step in set_out(frame)}


def test_uprights_are_measured_from_the_centre_line_each_side() -> None:
    frame = framed()
    placed = [
        line for line in steps_of(frame)["Uprights, back and front"].lines if "left face" in line
    ]

    places = [place for line in placed for place in re.findall(r"[−+][0-9.]+", line)]

    assert len(places) == sum("upright" in member.kind for member in frame.members)
    # 3600 wide: the first upright's left face is at the end, the last one's a timber short of it.
    assert {"−1800", "+1762"} <= set(places)


def test_every_upright_out_of_level_keeps_its_own_length_and_place() -> None:
    frame = framed(site=a_site(floor_fall=100))
    lines = steps_of(frame)["Uprights, back and front"].lines

    for one in frame.members:
        if "upright" in one.kind:
            where = f"{mm(one.length)} long"
            assert any(line.startswith(f"1 × {one.mark}, {where}") for line in lines) or any(
                f"× {one.mark}, {where}" in line for line in lines
            )


def test_each_screw_at_an_end_of_a_member_is_counted_once() -> None:
    frame = framed(fire=a_fire(), tv=a_tv())
    lines = [line for step in set_out(frame) for line in step.lines]

    counted = sum(
        int(found[1])
        for line in lines
        if (found := re.search(r"at each end.*; (\d+) in all", line))
    )

    ends = sum(f.count for m in frame.members for f in m.fixings if f.end != "along")
    assert counted == ends > 0
    assert any("Returns: 2 × 80 mm screws at each end, aslant" in line for line in lines)


def test_screws_through_plates_are_told_one_by_one() -> None:
    frame = framed()
    steps = steps_of(frame)

    for title, into in (("Base: sole plates", "floor"), ("Head plates", "ceiling")):
        told = [line for line in steps[title].lines if f"into the {into}" in line]
        places = [line.partition(" at ")[2].count(",") + 1 for line in told]
        assert sum(places) == sum(fixing.into == into for fixing in frame.fixings) > 0


def test_a_box_on_another_is_screwed_to_it_and_not_to_the_ceiling_twice() -> None:
    ledge = WallStep(
        name="ledge", x=tenths(0), width=tenths(3_600), depth=tenths(450), height=tenths(1_000)
    )
    steps = steps_of(framed(steps=(ledge,)))
    sole, head = steps["Base: sole plates"].lines, steps["Head plates"].lines

    assert sum("into the box below" in line for line in sole) == 2
    assert sum("into the ceiling" in line for line in head) == 2
    # The ledge's own head plates lie under its top of 12.5.
    assert sum("underside 949.5 up" in line and "screws" not in line for line in head) == 2


def test_plugs_are_told_with_their_heights_and_all_of_them() -> None:
    frame = framed()
    lines = steps_of(frame)["Uprights, back and front"].lines

    told = [line for line in lines if "plugs" in line]

    assert sum(int(line.split(" ")[0]) for line in told) == 50
    assert sum(fixing.into == "wall" for fixing in frame.fixings) == 50


def test_screws_into_existing_studs_are_told_where_they_go() -> None:
    studs = tuple(tenths(x) for x in range(300, 3_600, 600))
    frame = framed(site=a_site(kind=ExistingWall.STUDS, stud_positions=studs))
    lines = steps_of(frame)["Ledgers on the existing wall"].lines

    told = sum(
        int(count) for line in lines for count in re.findall(r"; (\d+) × 100 mm screws", line)
    )

    assert told == sum(fixing.into == "stud" for fixing in frame.fixings) > 0
    assert any("into the stud at −1500" in line for line in lines)


def test_what_can_hurt_is_said_at_its_step() -> None:
    frame = framed(fire=a_fire(), tv=a_tv())
    steps = steps_of(frame)

    for title, word in (
        ("Centre line and datum", "cables"),
        ("Head plates", "Two people"),
        ("Uprights, back and front", "silica"),
        ("Check before boarding", "qualified electrician"),
        ("Boards", "Two people"),
        ("The fire", "manual"),
        ("The TV", "falling"),
    ):
        assert any(word in caution for caution in steps[title].cautions), title
    text = set_out_text(frame, cautions=())
    assert all(f"! {caution}" in text for step in steps.values() for caution in step.cautions)


def test_the_tv_and_its_bracket_are_placed() -> None:
    frame = framed(tv=a_tv(centre_height=tenths(1_200)))
    lines = steps_of(frame)["The TV"].lines

    # Struts 200 apart round the middle of the TV, which is 1450 × 830.
    assert any("1100 and 1300 up" in line for line in lines)
    assert any("left side at −725" in line and "underside 785 up" in line for line in lines)


def test_the_ease_of_uprights_is_told() -> None:
    for fit in (10, 20):
        lines = steps_of(framed(materials=materials(fit=Tenths(fit))))[
            "Uprights, back and front"
        ].lines
        assert any(f"{mm(fit)} shorter than the space" in line for line in lines)


def test_beads_are_listed_with_their_places() -> None:
    frame = framed(fire=a_fire(), tv=a_tv())
    lines = steps_of(frame)["Beads, tape and skim"].lines

    told = [line for line in lines if " bead " in line]

    assert len(told) == len(frame.beads)
    assert all(any(bead.place in line for line in told) for bead in frame.beads)


def test_openings_are_checked_by_their_clear_size() -> None:
    frame = framed(fire=a_fire())
    lines = steps_of(frame)["Check before boarding"].lines

    assert any("1250 × 450 clear" in line for line in lines)


def test_every_board_is_placed_once() -> None:
    frame = framed(extent=an_extent(offset=tenths(300), width=tenths(3_000)))
    lines = [line for line in steps_of(frame)["Boards"].lines if ", layer " in line]

    named = Counter(line.split(": ")[1].split(",")[0] for line in lines)

    assert named == Counter(board.mark for board in frame.boards)


def test_cautions_come_before_the_first_step() -> None:
    text = set_out_text(framed(), cautions=("Mind the cables.",))

    assert text.index("Mind the cables.") < text.index("1. Centre line and datum")


def test_edges_from_the_factory_and_cut_ones_are_counted() -> None:
    # 3600 between side walls in three boards of 1200: the long edges are the sheets' own but for
    # those of the last, which is cut 3 narrower to go in.
    frame = framed()
    lines = steps_of(frame)["Boards"].lines

    assert [b.width for b in frame.boards] == [tenths(1_200), tenths(1_200), tenths(1_197)]
    assert any(
        line.startswith("4 edges from the factory") and "8 cut ones" in line for line in lines
    )
    assert sum("factory edge left and right" in line for line in lines) == 2
    assert sum("the closing piece: 3 narrower than its place" in line for line in lines) == 1
