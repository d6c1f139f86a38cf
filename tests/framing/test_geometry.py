"""The checks on frames see a frame that is wrong: each fault made by hand is found."""

from __future__ import annotations

from dataclasses import replace

from optimiser.domain.frame import Board, Frame, Member
from optimiser.units import Tenths, tenths
from tests.framing import geometry
from tests.framing.builders import a_fire, a_price_book, a_tv, framed

WALL = framed(fire=a_fire(), tv=a_tv())
FRONT = tenths(300) - tenths(12.5) - tenths(63)


def with_member(frame: Frame, number: int, member: Member) -> Frame:
    members = list(frame.members)
    members[number] = member
    return replace(frame, members=tuple(members))


def first(kind: str) -> tuple[int, Member]:
    return next((i, m) for i, m in enumerate(WALL.members) if m.kind == kind)


def moved(member: Member, *, x: int = 0, y: int = 0, z: int = 0) -> Member:
    box = member.box
    there = replace(box, x=Tenths(box.x + x), y=Tenths(box.y + y), z=Tenths(box.z + z))
    return replace(member, box=there)


def joints_on_air(frame: Frame) -> list[tuple[int, float]]:
    return geometry.joints_on_air(frame, front=FRONT, wide=tenths(63), least=tenths(60))


def with_board(frame: Frame, number: int, board: Board) -> Frame:
    boards = list(frame.boards)
    boards[number] = board
    return replace(frame, boards=tuple(boards))


def test_an_upright_moved_into_its_neighbour_shares_space_with_it() -> None:
    number, noggin = first("noggin")

    assert geometry.share_space(with_member(WALL, number, moved(noggin, x=1)))


def test_an_upright_too_long_shares_space_with_the_head_plate() -> None:
    number, upright = first("upright")
    longer = replace(upright.box, dz=Tenths(upright.box.dz + 20))

    assert geometry.share_space(with_member(WALL, number, replace(upright, box=longer)))


def test_a_shortened_noggin_has_a_loose_end() -> None:
    number, noggin = first("noggin")
    shorter = replace(noggin.box, dx=Tenths(noggin.box.dx - 30))
    wall = with_member(
        WALL, number, replace(noggin, box=shorter, length=Tenths(noggin.length - 30))
    )

    assert geometry.loose_ends(wall, fit=10)


def test_a_strut_pushed_forward_stands_in_the_recess() -> None:
    number, strut = first("strut")

    assert geometry.in_openings(with_member(WALL, number, moved(strut, y=300)))


def test_a_plate_pushed_through_the_existing_wall_leaves_the_wall() -> None:
    number, plate = first("sole plate")

    assert geometry.outside(with_member(WALL, number, moved(plate, y=-2_500)))


def test_a_joint_without_its_upright_is_on_air() -> None:
    joint = next(b.x for b in WALL.boards if b.face == "front" and b.x > 0)
    left = tuple(
        m for m in WALL.members if not m.box.x < joint < m.box.x + m.box.dx or m.kind == "noggin"
    )

    assert joints_on_air(WALL) == []
    assert joints_on_air(replace(WALL, members=left))


def test_a_shifted_board_leaves_the_front_uncovered() -> None:
    board = replace(WALL.boards[0], x=Tenths(WALL.boards[0].x + 10))

    assert geometry.front_faults(WALL) == []
    assert geometry.front_faults(with_board(WALL, 0, board))


def test_a_forgotten_cut_out_covers_the_opening() -> None:
    number = next(i for i, b in enumerate(WALL.boards) if b.cut_outs)
    board = replace(WALL.boards[number], cut_outs=())

    assert geometry.front_faults(with_board(WALL, number, board))


def test_a_board_larger_than_any_sheet_is_found() -> None:
    board = replace(WALL.boards[0], width=tenths(1_201), height=tenths(2_500))

    assert geometry.too_large(with_board(WALL, 0, board), a_price_book()) == [board]
