"""Every shape of wall that is built, and what sets its frame and boards apart."""

from __future__ import annotations

import pytest

from optimiser.domain.finding import Severity
from optimiser.domain.frame import Frame, Member
from optimiser.domain.wall import ExistingWall, Glass, Site, Socket
from optimiser.framing.build import frame_wall
from optimiser.inspection.inspect import inspect_frame
from optimiser.units import Tenths, tenths
from tests.framing.builders import (
    a_fire,
    a_niche,
    a_price_book,
    a_site,
    a_soundbar,
    a_tv,
    a_wall,
    an_extent,
    framed,
    materials,
)

FRONT = tenths(300) - tenths(12.5) - tenths(63)
FREE = an_extent(offset=tenths(500), width=tenths(2_600))


def of_kind(frame: Frame, *kinds: str) -> list[Member]:
    return [m for m in frame.members if m.kind in kinds]


def faces(frame: Frame) -> set[str]:
    return {board.face for board in frame.boards}


def rules(frame: Frame, severity: Severity) -> set[str]:
    return {f.rule for f in frame.findings if f.severity is severity}


def test_a_wall_between_side_walls_has_boards_on_its_front_only() -> None:
    frame = framed()

    assert not frame.left_free
    assert not frame.right_free
    assert faces(frame) == {"front"}


@pytest.mark.parametrize(
    ("offset", "width", "ends"),
    [(0, 2_600, {"right"}), (1_000, 2_600, {"left"}), (500, 2_600, {"left", "right"})],
)
def test_each_free_end_is_boarded_behind_the_front_board(
    offset: int, width: int, ends: set[str]
) -> None:
    frame = framed(extent=an_extent(offset=tenths(offset), width=tenths(width)))

    assert faces(frame) == {"front", *ends}
    for board in frame.boards:
        if board.face != "front":
            assert board.width == frame.depth - tenths(12.5)


def test_timbers_stand_back_from_a_free_end_by_the_board() -> None:
    frame = framed(extent=FREE)

    assert min(m.box.x for m in frame.members) == tenths(12.5)
    assert max(m.box.x + m.box.dx for m in frame.members) == tenths(2_600 - 12.5)


def test_an_opening_has_an_upright_each_side_a_sill_and_a_head() -> None:
    frame = framed(fire=a_fire())
    # Body 1270 with 5 a side, 480 with 10 above, on a base of 300.
    sill = next(m for m in of_kind(frame, "sill") if m.box.y == FRONT)
    head = next(m for m in of_kind(frame, "head") if m.box.y == FRONT)

    assert sill.length == head.length == tenths(1_280)
    assert sill.box.z + sill.box.dz == tenths(300)
    assert head.box.z == tenths(300 + 490)
    sides = {m.box.x for m in of_kind(frame, "upright") if m.box.y == FRONT}
    assert {sill.box.x - tenths(38), sill.box.x + sill.length} <= sides


def test_the_facing_board_slides_under_the_fires_lip() -> None:
    frame = framed(fire=a_fire())
    opening = frame.openings[0]

    assert (opening.width, opening.height) == (tenths(1_250), tenths(450))
    assert opening.z == tenths(300)


def test_cripples_keep_the_centres_under_and_over_an_opening() -> None:
    frame = framed(fire=a_fire())
    inside = [m for m in of_kind(frame, "short upright") if m.box.y == FRONT]

    below = sorted(m.box.x + tenths(19) for m in inside if m.box.z == tenths(38))
    above = sorted(m.box.x + tenths(19) for m in inside if m.box.z > tenths(300))

    # 1200 and 2400 lie 21 from the uprights at its sides, which serve there.
    assert below == above == [tenths(1_600), tenths(2_000)]


def test_a_front_board_is_cut_out_round_an_opening_not_pieced() -> None:
    frame = framed(fire=a_fire(), tv=a_tv())

    fronts = [b for b in frame.boards if b.face == "front"]

    assert len(fronts) == 4
    assert sum(len(b.cut_outs) for b in fronts) >= 4


@pytest.mark.parametrize(
    ("glass", "ends"),
    [(Glass.LEFT, {"left"}), (Glass.RIGHT, {"right"})],
)
def test_a_fire_with_glass_round_one_end_has_no_post_at_that_corner(
    glass: Glass, ends: set[str]
) -> None:
    frame = framed(extent=FREE, fire=a_fire(glass=glass))
    corner = tenths(12.5) if glass is Glass.LEFT else frame.width - tenths(12.5 + 38)
    middle = tenths(500)

    posts = [
        m
        for m in of_kind(frame, "upright", "short upright")
        if m.box.x == corner and m.box.y == FRONT and m.box.z < middle < m.box.z + m.box.dz
    ]

    assert posts == []
    cut = {b.face for b in frame.boards if b.face in ("left", "right") and b.cut_outs}
    assert cut == ends


def test_a_fire_with_glass_round_both_ends_spans_the_whole_front() -> None:
    frame = framed(
        extent=an_extent(offset=tenths(900), width=tenths(1_600)),
        fire=a_fire(body_width=tenths(1_600), opening_width=tenths(1_600), glass=Glass.BOTH),
    )

    assert frame.openings[0].width == frame.width
    assert rules(frame, Severity.STOP) == set()
    assert all(b.cut_outs for b in frame.boards if b.face in ("left", "right"))


def test_glass_round_both_ends_of_a_wall_of_another_width_stops_the_purchase() -> None:
    frame = framed(extent=FREE, fire=a_fire(glass=Glass.BOTH, opening_width=None))

    assert "check.fire.width" in rules(frame, Severity.STOP)


def test_an_existing_stud_wall_takes_ledgers_into_its_studs_and_no_plugs() -> None:
    studs = tuple(tenths(x) for x in range(300, 3_600, 600))
    site = Site(
        clear_width=tenths(3_600),
        height_left=tenths(2_400),
        kind=ExistingWall.STUDS,
        stud_positions=studs,
    )
    frame = framed(site=site)

    ledgers = of_kind(frame, "ledger")

    assert ledgers
    assert all(m.box.y == 0 for m in ledgers)
    for ledger in ledgers:
        assert any(ledger.box.x <= stud <= ledger.box.x + ledger.box.dx for stud in studs)
    assert not any(q.item == "plug-fixing" for q in frame.quantities)


def test_a_solid_wall_takes_plugs_and_no_ledgers() -> None:
    frame = framed()

    assert of_kind(frame, "ledger") == []
    assert any(q.item == "plug-fixing" for q in frame.quantities)


def test_a_stud_wall_whose_studs_are_not_found_stops_the_purchase() -> None:
    frame = framed(site=a_site(kind=ExistingWall.STUDS))

    assert "check.site.studs" in rules(frame, Severity.STOP)


def test_the_backboard_of_12_mdf_spans_the_recess_over_struts() -> None:
    frame = framed(tv=a_tv())
    backboard = next(b for b in frame.boards if b.face == "tv.back")
    struts = of_kind(frame, "strut")

    assert backboard.material == "mdf-12"
    assert {m.length for m in struts} == {backboard.width}
    # Recess 110 deep, board 12, strut 38.
    assert {m.box.y for m in struts} == {tenths(300 - 110 - 12 - 38)}


def test_two_struts_200_apart_take_the_bracket() -> None:
    frame = framed(tv=a_tv(centre_height=tenths(1_200)))

    rows = sorted(m.box.z + tenths(31.5) for m in frame.members if m.rule == "frame.strut.bracket")

    assert rows == [tenths(1_100), tenths(1_300)]


def test_a_socket_is_cut_out_of_the_backboard() -> None:
    socket = Socket(x=tenths(1_300), z=tenths(950), width=tenths(146), height=tenths(86))

    frame = framed(tv=a_tv(sockets=(socket,)))

    backboard = next(b for b in frame.boards if b.face == "tv.back")
    assert [(c.width, c.height) for c in backboard.cut_outs] == [(1_460, 860)]


def test_every_recess_is_lined_on_all_sides() -> None:
    frame = framed(tv=a_tv())

    assert {"tv.soffit", "tv.sill", "tv.left", "tv.right", "tv.back"} <= faces(frame)


def test_a_clear_recess_is_its_frame_less_board_and_skim_each_side() -> None:
    # Calculated: clear = frame − 2 × (board 12.5 + skim 3).
    frame = framed(tv=a_tv())
    head = next(m for m in of_kind(frame, "head") if m.box.y == FRONT)

    assert frame.openings[0].width == head.length - 2 * tenths(15.5)


def test_a_soundbar_has_its_slot_under_the_tv() -> None:
    frame = framed(tv=a_tv(), soundbar=a_soundbar())
    tv, slot = frame.openings

    assert slot.kind == "soundbar"
    assert slot.width == tenths(900 + 20)
    assert slot.z + slot.height < tv.z
    assert abs((2 * slot.x + slot.width) - (2 * tv.x + tv.width)) <= 1


def test_a_tv_over_a_fire_hangs_high_enough_for_the_soundbar_between() -> None:
    frame = framed(fire=a_fire(), tv=a_tv(), soundbar=a_soundbar())

    assert [o.kind for o in frame.openings] == ["fire", "tv", "soundbar"]
    # Fire's frame 40 over its opening, slot 90 and linings 31, four rails 152, lining and gap 45.5.
    assert {d.field: d.value for d in frame.defaults}["tv.above_fire"] == "358.5 mm"


def test_a_niche_has_its_shelves_and_returns_to_hold_them() -> None:
    frame = framed(niches=(a_niche(shelves=2),))

    shelves = [b for b in frame.boards if b.rule == "board.shelf"]

    assert [(b.width, b.height) for b in shelves] == [(tenths(350), tenths(180))] * 2
    assert sum(m.rule == "frame.return.shelf" for m in frame.members) == 4


def test_a_wall_without_a_fire_or_a_tv_is_framed() -> None:
    assert framed(fire=None, tv=None).openings == ()
    assert [o.kind for o in framed(tv=a_tv()).openings] == ["tv"]
    assert [o.kind for o in framed(fire=a_fire()).openings] == ["fire"]


def test_the_second_layer_has_its_joints_off_the_first() -> None:
    frame = framed(materials=materials(layers=2), fire=a_fire())

    joints = [
        {b.x for b in frame.boards if b.face == "front" and b.layer == layer and b.x > 0}
        for layer in (1, 2)
    ]

    assert min(abs(a - b) for a in joints[0] for b in joints[1]) >= tenths(300)


def test_no_joint_runs_up_the_side_of_an_opening_where_that_can_be_avoided() -> None:
    frame = framed(fire=a_fire(), tv=a_tv())

    assert not any(f.rule == "check.board.corner" for f in frame.findings)


def test_a_room_higher_than_the_longest_board_has_noggins_behind_the_joint() -> None:
    frame = framed(
        site=a_site(height_left=tenths(2_600)), materials=materials(board="plasterboard-9.5")
    )

    assert any(m.rule == "frame.noggin.joint" for m in frame.members)


def test_a_plate_longer_than_any_stock_is_joined_over_an_upright() -> None:
    frame = framed(site=a_site(clear_width=tenths(6_000)))
    plates = [m for m in of_kind(frame, "sole plate") if m.box.y == FRONT]
    middles = {m.box.x + m.box.dx // 2 for m in of_kind(frame, "upright")}

    assert len(plates) == 2
    assert max(m.length for m in plates) <= tenths(4_800)
    assert plates[1].box.x in middles


def test_equal_parts_share_a_mark_and_unequal_ones_do_not() -> None:
    frame = framed(fire=a_fire(), tv=a_tv(), site=a_site(floor_fall=100))
    sizes: dict[str, set[int]] = {}
    for member in frame.members:
        sizes.setdefault(member.mark, set()).add(member.length)

    assert all(len(lengths) == 1 for lengths in sizes.values())
    assert {mark[0] for mark in sizes} == set("PUKSNRT")


def test_marks_number_from_the_longest() -> None:
    frame = framed(fire=a_fire(), site=a_site(floor_fall=100))
    uprights = {int(m.mark[1:]): m.length for m in of_kind(frame, "upright")}

    assert [uprights[n] for n in sorted(uprights)] == sorted(uprights.values(), reverse=True)


def test_a_bead_longer_than_stock_is_joined() -> None:
    frame = framed(site=a_site(clear_width=tenths(2_000), height_left=tenths(3_200)))

    stops = [b for b in frame.beads if b.kind == "stop bead"]

    # 3187 high: the stub of 187 is made 300, and the length before it is as much shorter.
    assert {b.length for b in stops} == {tenths(2_887), tenths(300)}
    assert any("(2 of 2)" in b.place for b in stops)


@pytest.mark.parametrize(
    ("height", "pieces"),
    [(3_013, {3_000}), (3_014, {2_701, 300}), (3_312, {2_999, 300}), (3_313, {3_000, 300})],
)
def test_no_piece_of_a_joined_bead_is_a_stub(height: int, pieces: set[int]) -> None:
    # A stop bead of 3000 at each side wall, from 13 over the floor to the ceiling.
    frame = framed(site=a_site(clear_width=tenths(2_000), height_left=tenths(height)))

    assert {b.length for b in frame.beads} == {tenths(one) for one in pieces}


def test_a_wall_that_is_not_skimmed_takes_no_plaster_and_no_stop_bead() -> None:
    frame = framed(materials=materials(skim=False), tv=a_tv())

    assert not any(q.item == "plaster" for q in frame.quantities)
    assert {b.kind for b in frame.beads} == {"corner bead"}


def test_a_second_layer_takes_longer_screws_and_no_fewer() -> None:
    one, two = (
        {q.item: q for q in framed(materials=materials(layers=layers)).quantities}
        for layers in (1, 2)
    )

    assert "drywall-screw-long" not in one
    # 2 × 12.5 and 25 in the timber: mapping of the trade guide, 50 to 55.
    assert "50 long at least" in two["drywall-screw-long"].working
    assert "37.5 long at least" in two["drywall-screw"].working
    assert two["drywall-screw-long"].amount >= 100


def test_every_quantity_shows_its_working() -> None:
    frame = framed(fire=a_fire(), tv=a_tv())

    assert all(any(sign.isdigit() for sign in q.working) for q in frame.quantities)
    assert {q.item for q in frame.quantities} == {
        "screw-80",
        "screw-100",
        "drywall-screw",
        "mdf-screw",
        "adhesive",
        "joint-tape",
        "angle-tape",
        "plaster",
        "primer",
        "plug-fixing",
    }


def test_two_screws_hold_each_end_of_a_member() -> None:
    # NHBC Standards 6.3.9: at least 2 fixings a joint. 10 uprights twice and 9 noggins, 10 × 3
    # returns: 20 + 9 + 30 members of 2 ends.
    frame = framed()
    ends = 2 * sum(not m.kind.endswith("plate") for m in frame.members)

    screws = next(q for q in frame.quantities if q.item == "screw-80")

    assert screws.amount == 2 * ends == 2 * 2 * (20 + 9 + 30)


def test_every_default_taken_is_named() -> None:
    frame = framed(fire=a_fire(), tv=a_tv())
    named = {d.field: d.value for d in frame.defaults}

    assert named["tv.finger_gap"] == "30 mm"
    assert named["fire.base_height"] == "300 mm"
    assert named["materials.timber"] == "c16-38x63"
    assert "wall.depth" not in named


def test_sides_of_openings_nearly_in_line_are_brought_in_line_and_that_is_noted() -> None:
    # The TV's frame is 20 wider a side than the fire's: two uprights of 38 cannot both stand.
    frame = framed(fire=a_fire(), tv=a_tv(recess_width=Tenths(12_800 + 400 - 2 * 155)))
    fronts = [m for m in of_kind(frame, "sill") if m.box.y == FRONT]

    assert len({m.length for m in fronts}) == 1
    assert sum(f.rule == "check.opening.aligned" for f in frame.findings) == 2


@pytest.mark.parametrize("height", [1_140, 1_160, 1_180])
def test_a_shelf_near_a_strut_has_a_return_that_its_screws_find(height: int) -> None:
    # Struts at 450 under a thin board stand as near as 63 to a shelf of these niches.
    wall = a_wall(
        materials=materials(board="plasterboard-9.5", centres=tenths(450)),
        niches=(a_niche(height=tenths(height), shelves=4, z=tenths(500)),),
    )
    assert not inspect_frame(frame_wall(wall, a_price_book()), wall)
