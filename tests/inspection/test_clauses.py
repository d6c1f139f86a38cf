"""Each clause of the inspection has a mutant of its own: its fault is named, not only some fault.

Where one clause is taken out, the test of that clause fails, whatever the others still see.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Any

import pytest

from optimiser.domain.frame import (
    Board,
    Box,
    Edge,
    Edges,
    Frame,
    Member,
    NoScrewBand,
    Solid,
    Toward,
)
from optimiser.domain.parts import CutOut
from optimiser.domain.wall import Accessory, SurveyPoint, Tv, Wall
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
    materials,
)

BOOK = a_price_book()
WALLS: dict[str, Wall] = {
    "plain": a_wall(),
    "fire and TV": a_wall(fire=a_fire(), tv=a_tv()),
    "niche": a_wall(niches=(a_niche(),)),
    "socket": a_wall(site=a_site(accessories=(Accessory(x=tenths(1_000), z=tenths(450)),))),
    "two layers": a_wall(materials=materials(layers=2)),
    "sloping": a_wall(
        site=a_site(
            height_left=None,
            levels=(
                SurveyPoint(x=tenths(0), height=tenths(2_400)),
                SurveyPoint(x=tenths(3_600), height=tenths(2_430)),
            ),
        )
    ),
}
WALLS |= {
    "TV by its diagonal": a_wall(tv=Tv(diagonal=Fraction(65))),
    "fire by its body": a_wall(fire=a_fire(opening_width=None, opening_height=None)),
    "soundbar": a_wall(
        soundbar=a_soundbar(x=tenths(1_000), z=tenths(600), gap=tenths(20)),
    ),
    "sloping niche": replace(WALLS["sloping"], niches=(a_niche(),)),
}
FRAMES = {name: replace(frame_wall(wall, BOOK), alternatives=()) for name, wall in WALLS.items()}
FRONT = tenths(300 - 12.5 - 63)


def moved(item: Any, **by: int) -> Any:
    box = item.box
    sizes = {axis: Tenths(getattr(box, axis) + more) for axis, more in by.items()}
    return replace(item, box=replace(box, **sizes))


def instead(items: Iterable[Any], one: Any, *others: Any) -> tuple[Any, ...]:
    """The items with `one` of them, itself and not its equal, changed for others."""
    found: list[Any] = []
    for item in items:
        found += others if item is one else (item,)
    return tuple(found)


def member(frame: Frame, kind: str, **wanted: int) -> Member:
    return next(
        m
        for m in frame.members
        if m.kind == kind and all(getattr(m.box, axis) == at for axis, at in wanted.items())
    )


def board(frame: Frame, face: str) -> Board:
    return next(one for one in frame.boards if one.face == face)


def with_members(frame: Frame, one: Member, *others: Member) -> Frame:
    return replace(frame, members=instead(frame.members, one, *others))


def with_boards(frame: Frame, one: Board, *others: Board) -> Frame:
    return replace(frame, boards=instead(frame.boards, one, *others))


def of_keep(frame: Frame, name: str, **by: int) -> Frame:
    keep = next(keep for keep in frame.keep_outs if keep.name == name)
    return replace(frame, keep_outs=instead(frame.keep_outs, keep, moved(keep, **by)))


def of_opening(frame: Frame, kind: str, **by: int) -> Frame:
    one = next(one for one in frame.openings if one.kind == kind)
    sizes: dict[str, Any] = {name: Tenths(getattr(one, name) + more) for name, more in by.items()}
    return replace(frame, openings=instead(frame.openings, one, replace(one, **sizes)))


def fixing_at(frame: Frame, into: str, **by: int) -> Frame:
    one = next(one for one in frame.fixings if one.into == into)
    at = replace(
        one.at, **{axis: Tenths(getattr(one.at, axis) + more) for axis, more in by.items()}
    )
    return replace(frame, fixings=instead(frame.fixings, one, replace(one, at=at)))


def taller(frame: Frame, one: Member, by: int) -> Frame:
    changed = replace(moved(one, dz=by), length=Tenths(one.length + by))
    return with_members(frame, one, changed)


def shelf(frame: Frame) -> Board:
    return next(one for one in frame.boards if ".shelf" in one.face)


def cut_out(frame: Frame, cut: CutOut) -> Frame:
    one = board(frame, "front")
    return with_boards(frame, one, replace(one, cut_outs=(*one.cut_outs, cut)))


def stud_in_the_middle(frame: Frame, y: int) -> Member:
    return next(
        m for m in frame.members if m.kind == "upright" and m.box.y == y and m.box.x > 3_000
    )


def without_returns(frame: Frame, x: int, keep: Callable[[Member], bool]) -> Frame:
    return replace(
        frame,
        members=tuple(m for m in frame.members if m.kind != "return" or m.box.x != x or keep(m)),
    )


def narrower(band: NoScrewBand) -> NoScrewBand:
    if not band.name.startswith("up and down"):
        return band
    return replace(band, box=replace(band.box, dx=Tenths(band.box.dx // 2)))


def a_band(frame: Frame) -> Frame:
    at = next(one.at for one in frame.fixings if one.into == "wall")
    box = Box(
        x=Tenths(at.x - 10), y=Tenths(0), z=Tenths(at.z - 10),
        dx=Tenths(20), dy=Tenths(0), dz=Tenths(20),
    )  # fmt: skip
    return replace(frame, bands=(*frame.bands, NoScrewBand(name="a cable", box=box)))


def a_solid(frame: Frame, box: Box) -> Frame:
    return replace(frame, solids=(*frame.solids, Solid(name="a pier", box=box)))


def no_noggins(frame: Frame) -> Frame:
    return replace(frame, members=tuple(m for m in frame.members if m.kind != "noggin"))


def nothing_half_way(frame: Frame) -> Frame:
    kept = (
        m
        for m in frame.members
        if not (m.kind in ("noggin", "return") and 8_000 < m.box.z < 16_000)
    )
    return replace(frame, members=tuple(kept))


def on_another_face(frame: Frame) -> Frame:
    one = board(frame, "front")
    return with_boards(frame, one, replace(one, face="ceiling"))


def in_a_third_layer(frame: Frame) -> Frame:
    one = board(frame, "front")
    return with_boards(frame, one, one, replace(one, layer=3))


def hole_boarded_over(frame: Frame) -> Frame:
    one = next(b for b in frame.boards if b.face == "front" and b.cut_outs)
    return with_boards(frame, one, replace(one, cut_outs=()))


def turned_over(frame: Frame) -> Frame:
    one = board(frame, "front")
    return with_boards(frame, one, replace(one, faces=Toward.BACK, across=Toward.LEFT))


def plate_into_upright(frame: Frame) -> Frame:
    """On a slope, what follows the ceiling meets an upright that reaches into it."""
    return taller(frame, stud_in_the_middle(frame, FRONT), 200)


def joint_upright(frame: Frame) -> Member:
    joint = min(one.box.x for one in frame.boards if one.face == "front" and one.box.x > 0)
    return next(
        m
        for m in frame.members
        if m.kind == "upright" and m.box.y == FRONT and m.box.x < joint <= m.box.x + m.box.dx
    )


def joint_unheld(frame: Frame) -> Frame:
    one = joint_upright(frame)
    return with_members(frame, one, moved(one, x=-100))


def uprights_taken(frame: Frame) -> Frame:
    front = [m for m in frame.members if m.kind == "upright" and m.box.y == FRONT]
    taken = [m for m in front if 4_000 < m.box.x < 9_000]
    return replace(frame, members=tuple(m for m in frame.members if m not in taken))


def head_taken(frame: Frame) -> Frame:
    return with_members(frame, next(m for m in frame.members if m.kind == "head"))


@dataclass(frozen=True, slots=True)
class Clause:
    """What the inspection must say of a wall spoilt in one way."""

    wall: str
    spoil: Callable[[Frame], Frame]
    says: str


CLAUSES: dict[str, Clause] = {
    "a timber in the fire's space": Clause(
        "fire and TV",
        lambda f: of_keep(f, "fire", z=-200, dz=200),
        "sill S2 at 1160, 224.5, 262 stands in the space kept free for it",
    ),
    "a timber in a clear opening": Clause(
        "fire and TV",
        lambda f: of_opening(f, "tv", x=-500, width=1_000),
        "stands in its clear opening",
    ),
    "a board in a clear opening": Clause(
        "fire and TV",
        lambda f: with_boards(f, board(f, "tv.sill"), moved(board(f, "tv.sill"), z=100)),
        "of tv.sill stands in its clear opening",
    ),
    "no opening": Clause(
        "fire and TV", lambda f: replace(f, openings=f.openings[:1]), "has no opening in the frame"
    ),
    "an opening too small": Clause(
        "niche", lambda f: of_opening(f, "niche", width=-10), "was asked for"
    ),
    "an opening aside": Clause(
        "niche",
        lambda f: of_opening(f, "niche", x=-10),
        "does not hold the clear space that was wanted",
    ),
    "no room for the fire": Clause(
        "fire and TV",
        lambda f: of_keep(f, "fire", dz=-10),
        "is not kept free for its body and the maker's clearances",
    ),
    "no room for the TV": Clause(
        "fire and TV", lambda f: of_keep(f, "tv", dx=-10), "is not kept free for the TV"
    ),
    "a shelf missing": Clause(
        "niche", lambda f: with_boards(f, shelf(f)), "has 1 shelf instead of 2"
    ),
    "a shelf too short": Clause(
        "niche",
        lambda f: with_boards(f, shelf(f), replace(moved(shelf(f), dx=-50), width=Tenths(3_450))),
        "does not reach from cheek to cheek",
    ),
    "a shelf too high": Clause(
        "niche", lambda f: with_boards(f, shelf(f), moved(shelf(f), z=300)), "evenly spaced"
    ),
    "no band for a socket": Clause(
        "socket", lambda f: replace(f, bands=()), "has no band kept free of screws"
    ),
    "a band too narrow for a plate": Clause(
        "socket", lambda f: replace(f, bands=tuple(map(narrower, f.bands))), "has no band kept free"
    ),
    "a band across that is missing": Clause(
        "socket",
        lambda f: replace(f, bands=tuple(b for b in f.bands if "across" not in b.name)),
        "has no band kept free",
    ),
    "a screw in air": Clause("plain", lambda f: fixing_at(f, "wall", y=7_000), "meets no timber"),
    "a screw in a band": Clause("plain", a_band, "enters a band where a cable may run"),
    "a board of no face": Clause("plain", on_another_face, "lies on 'ceiling', which is no face"),
    "a layer too many": Clause("two layers", in_a_third_layer, "lies in a layer 3 too many"),
    "a part of another size": Clause(
        "plain",
        lambda f: with_boards(
            f, board(f, "front"), replace(board(f, "front"), height=tenths(2_000))
        ),
        "has another size in its place than as a part",
    ),
    "a cut-out past the edge": Clause(
        "plain",
        lambda f: cut_out(
            f, CutOut(x=tenths(1_190), y=tenths(100), width=tenths(50), height=tenths(9))
        ),
        "has a cut-out that leaves it",
    ),
    "a board turned over": Clause("plain", turned_over, "is turned another way than its face"),
    "a board off its layer": Clause(
        "plain",
        lambda f: with_boards(f, board(f, "front"), moved(board(f, "front"), y=-10)),
        "does not lie in layer 1: 1 off",
    ),
    "a face bare": Clause(
        "plain", lambda f: with_boards(f, board(f, "front")), "0 boards instead of 1"
    ),
    "a face covered twice": Clause(
        "plain",
        lambda f: with_boards(f, board(f, "front"), board(f, "front"), board(f, "front")),
        "2 boards instead of 1",
    ),
    "a board over a hole": Clause("niche", hole_boarded_over, "1 board instead of 0"),
    "a TV by its diagonal in too small a recess": Clause(
        "TV by its diagonal", lambda f: of_opening(f, "tv", width=-601), "was asked for"
    ),
    "no room for a TV by its diagonal": Clause(
        "TV by its diagonal", lambda f: of_keep(f, "tv", dz=-10), "is not kept free for the TV"
    ),
    "no room before the TV": Clause(
        "fire and TV", lambda f: of_keep(f, "tv", dy=-10), "is not kept free for the TV"
    ),
    "no room before the fire": Clause(
        "fire and TV", lambda f: of_keep(f, "fire", dy=-10), "is not kept free for its body"
    ),
    "a fire's hole smaller than its body": Clause(
        "fire by its body", lambda f: of_opening(f, "fire", width=-10), "was asked for"
    ),
    "a slot without the gap chosen": Clause(
        "soundbar", lambda f: of_opening(f, "soundbar", height=-10), "was asked for"
    ),
    "a plate in a clear opening": Clause(
        "sloping niche",
        lambda f: of_opening(f, "niche", height=12_000),
        "head plate P1 at 0, 224.5, 2362 stands in its clear opening",
    ),
    "a joint on air": Clause("plain", joint_unheld, "has too little timber"),
    "a span too wide": Clause("plain", uprights_taken, "its board spans more than 600"),
    "an edge of a hole on air": Clause("niche", head_taken, "has no timber behind"),
    "an upright standing free": Clause("plain", nothing_half_way, "stands free from"),
    "a bay without a noggin": Clause("plain", no_noggins, "has no noggin in the bay at its right"),
    "a foot not joined": Clause(
        "plain",
        lambda f: without_returns(f, 0, lambda m: m.box.z > 3_000),
        "is not joined to the back at its foot",
    ),
    "an upright joined nowhere": Clause(
        "plain",
        lambda f: without_returns(f, 0, lambda _: False),
        "is not joined to the back at its foot",
    ),
    "a head not joined": Clause(
        "plain",
        lambda f: without_returns(f, 0, lambda m: m.box.z < 20_000),
        "is not joined to the back at its head",
    ),
    "a strut without a prop": Clause(
        "fire and TV",
        lambda f: with_members(
            f, next(m for m in f.members if m.rule == "frame.return.strut" and m.box.dy < 1_000)
        ),
        "is not propped from",
    ),
    "a shelf without a bearer": Clause(
        "niche",
        lambda f: replace(f, members=tuple(m for m in f.members if m.rule != "frame.return.shelf")),
        "has no timber at its left end",
    ),
    "a timber in a timber": Clause(
        "plain",
        lambda f: with_members(
            f, member(f, "noggin", x=380), moved(member(f, "noggin", x=380), x=-50)
        ),
        "shares space with noggin",
    ),
    "a plate in an upright": Clause("sloping", plate_into_upright, "shares space with upright"),
    "a timber in a board": Clause(
        "plain",
        lambda f: with_members(
            f, stud_in_the_middle(f, FRONT), moved(stud_in_the_middle(f, FRONT), y=50)
        ),
        "shares space with board",
    ),
    "a board in a board": Clause(
        "plain",
        lambda f: with_boards(f, board(f, "front"), moved(board(f, "front"), x=50)),
        "of front: shares space with board",
    ),
    "a timber outside": Clause(
        "plain",
        lambda f: with_members(
            f, stud_in_the_middle(f, 0), moved(stud_in_the_middle(f, 0), y=-100)
        ),
        "reaches outside the wall",
    ),
    "a board outside": Clause(
        "plain",
        lambda f: with_boards(f, board(f, "front"), moved(board(f, "front"), y=100)),
        "of front: reaches outside the wall",
    ),
    "a timber in the house": Clause(
        "plain",
        lambda f: a_solid(f, stud_in_the_middle(f, 0).box),
        "upright U1 at 381, 0, 38: stands in a pier",
    ),
    "a board in the house": Clause(
        "plain", lambda f: a_solid(f, board(f, "front").box), "of front: stands in a pier"
    ),
    "a length that is not in its place": Clause(
        "plain",
        lambda f: with_members(
            f,
            stud_in_the_middle(f, 0),
            replace(stud_in_the_middle(f, 0), length=tenths(2_318)),
        ),
        "is 2318 long, but not in its place",
    ),
    "an end on air": Clause(
        "plain", lambda f: taller(f, stud_in_the_middle(f, 0), -300), "end bears on nothing"
    ),
}


@pytest.mark.parametrize("name", CLAUSES)
def test_each_clause_names_what_it_sees(name: str) -> None:
    clause = CLAUSES[name]
    frame = FRAMES[clause.wall]

    assert inspect_frame(frame, WALLS[clause.wall]) == ()
    told = [str(fault) for fault in inspect_frame(clause.spoil(frame), WALLS[clause.wall])]

    assert any(clause.says in fault for fault in told), told


@pytest.mark.parametrize(("edge", "held"), [(Edge.FACTORY, True), (Edge.CUT, False)])
def test_a_joint_off_the_middle_of_its_upright_holds_bound_edges_only(
    edge: Edge, *, held: bool
) -> None:
    # 38 of upright, 2 off: 17 and 21 of timber. A bound edge wants 16, a cut one 19.
    frame = FRAMES["plain"]
    one = joint_upright(frame)
    joint = one.box.x + one.box.dx // 2
    moved_by = with_members(frame, one, moved(one, x=20))
    edges = Edges(left=edge, right=edge, bottom=Edge.CUT, top=Edge.CUT)
    boards = tuple(replace(b, edges=edges) if b.face == "front" else b for b in frame.boards)
    assert any(b.box.x == joint for b in boards)

    faults = inspect_frame(replace(moved_by, boards=boards), WALLS["plain"])

    at = f"at {joint / 10:g} has too little timber"
    assert any(at in fault.what for fault in faults) is not held
