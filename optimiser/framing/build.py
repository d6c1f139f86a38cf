"""From a wall to its frame: runs the rules of the trade in their order.

The order is that of setting out on site: choices, openings, board joints, uprights that stand
behind them, everything between, boards, beads, things by the pack, and last what to say about it.
"""

from __future__ import annotations

from dataclasses import dataclass

from optimiser.domain.finding import Finding
from optimiser.domain.frame import Board, Frame, Member, Opening
from optimiser.domain.price_book import PriceBook
from optimiser.domain.wall import ExistingWall, Wall
from optimiser.framing.appliances import fire_findings, soundbar_findings, tv_findings
from optimiser.framing.beads import beads
from optimiser.framing.boarding import ends, front, room, sheet_for
from optimiser.framing.findings import wall_findings
from optimiser.framing.horizontals import Row, ledgers, noggins, plates, sills_and_heads
from optimiser.framing.marks import mark_beads, mark_boards, mark_members
from optimiser.framing.openings import Hole, bring_in_line, check_holes
from optimiser.framing.quantities import Built, quantities
from optimiser.framing.recesses import (
    FireChoice,
    TvChoice,
    niche_holes,
    settle_fire,
    settle_tv,
    soundbar_hole,
)
from optimiser.framing.returns import Level, props, returns, strut_levels, struts
from optimiser.framing.reveals import linings, panel_joints
from optimiser.framing.setting_out import joints, lines
from optimiser.framing.settings import Notes, Settings, settle
from optimiser.framing.uprights import return_edge_uprights, skeleton, upright_members
from optimiser.units import Tenths


@dataclass(frozen=True, slots=True, kw_only=True)
class _Plan:
    """The wall with its openings set out."""

    settings: Settings
    holes: list[Hole]
    fire: FireChoice | None
    tv: TvChoice | None

    def hole(self, kind: str) -> Hole | None:
        return next((hole for hole in self.holes if hole.kind == kind), None)


def frame_wall(wall: Wall, book: PriceBook) -> Frame:
    """Make a wall into members, boards, beads and quantities, with findings.

    Raises InvalidInput, with every fault, for input that contradicts itself or the price book.
    What can be built but will not work is a finding in the frame.
    """
    notes = Notes()
    plan = _set_out(wall, book, notes)
    settings, holes = plan.settings, plan.holes
    layers = _front_joints(settings, holes)
    all_lines = lines(holes, settings, tuple(joint for layer in layers for joint in layer))
    front_frame = skeleton(settings, all_lines, holes, front=True)
    back_frame = skeleton(settings, all_lines, holes, front=False)

    fire_hole = plan.hole("fire")
    boards, rows = _front_boards(settings, holes, layers)
    glass = plan.fire.return_depth if plan.fire is not None else 0
    end_boards, end_joints = ends(settings, fire_hole, glass)
    boards += end_boards
    strutted = [
        (hole, strut_levels(hole, panel_joints(hole, settings), plan.tv, settings))
        for hole in holes
        if hole.lined
    ]
    members: list[Member] = []
    for frame in (front_frame, back_frame):
        members += plates(settings, frame)
        members += upright_members(settings, frame)
        members += sills_and_heads(settings, frame)
    members += return_edge_uprights(settings, fire_hole)
    members += noggins(settings, front_frame, [row for layer in rows for row in layer])
    members += returns(settings, front_frame, strutted, end_joints)
    for hole, levels in strutted:
        members += struts(settings, hole, levels)
        members += props(settings, back_frame, hole, levels)
        boards += linings(settings, hole)
    if wall.site.kind is ExistingWall.STUDS:
        members += ledgers(settings, back_frame)
    marked = mark_members(members)
    marked_boards = mark_boards(boards)
    built = Built(
        settings=settings,
        holes=holes,
        members=marked,
        boards=marked_boards,
        joints=layers[-1],
        rows=tuple(rows[-1]),
    )
    findings = [
        *notes.findings,
        *wall_findings(settings, holes, marked, marked_boards, layers[-1]),
        *_appliance_findings(plan, strutted),
    ]
    return Frame(
        job=wall.job,
        width=Tenths(settings.width),
        depth=Tenths(settings.depth),
        levels=settings.levels.points(),
        left_free=settings.left_free,
        right_free=settings.right_free,
        openings=tuple(map(_opening, holes)),
        members=marked,
        boards=marked_boards,
        beads=mark_beads(beads(settings, holes, plan.fire)),
        quantities=quantities(built),
        findings=tuple(findings),
        defaults=tuple(notes.defaults),
    )


def _set_out(wall: Wall, book: PriceBook, notes: Notes) -> _Plan:
    """Make every choice and place every opening; raises InvalidInput with every fault."""
    settings = settle(wall, book, notes)
    if settings is None:
        notes.refuse()
    assert settings is not None
    holes: list[Hole] = []
    fire = tv = None
    fire_hole = tv_hole = None
    if wall.fire is not None:
        fire, fire_hole = settle_fire(wall.fire, settings, notes)
        holes.append(fire_hole)
    if wall.tv is not None:
        settled = settle_tv(wall.tv, fire_hole, settings, notes)
        if settled is not None:
            tv, tv_hole = settled
            holes.append(tv_hole)
    if wall.soundbar is not None:
        slot = soundbar_hole(wall.soundbar, tv_hole, settings, notes)
        if slot is not None:
            holes.append(slot)
    holes += niche_holes(settings)
    check_holes(holes, settings, notes)
    notes.refuse()
    holes = bring_in_line(holes, settings, notes)
    notes.refuse()
    check_holes(holes, settings, notes)
    notes.refuse()
    return _Plan(settings=settings, holes=holes, fire=fire, tv=tv)


def _front_sheet(settings: Settings) -> tuple[int, int]:
    bottom, top = room(settings, 0, settings.width)
    return sheet_for(settings.board, top - bottom)


def _front_joints(settings: Settings, holes: list[Hole]) -> list[tuple[int, ...]]:
    """Return the vertical joints of each layer of the front."""
    width, _ = _front_sheet(settings)
    layers = [joints(holes, settings, width)]
    if settings.layers == 2:
        layers.append(joints(holes, settings, width, layers[0]))
    return layers


def _front_boards(
    settings: Settings, holes: list[Hole], layers: list[tuple[int, ...]]
) -> tuple[list[Board], list[list[Row]]]:
    _, height = _front_sheet(settings)
    boards: list[Board] = []
    rows: list[list[Row]] = []
    for number, layer_joints in enumerate(layers, start=1):
        under = tuple(rows[0]) if rows else ()
        boarding = front(settings, holes, layer_joints, height, layer=number, under=under)
        boards += boarding.boards
        rows.append(list(boarding.rows))
    return boards, rows


def _appliance_findings(plan: _Plan, strutted: list[tuple[Hole, list[Level]]]) -> list[Finding]:
    found: list[Finding] = []
    fire_hole = plan.hole("fire")
    if plan.fire is not None and fire_hole is not None:
        found += fire_findings(plan.settings, plan.fire, fire_hole)
    for hole, levels in strutted:
        if hole.kind == "tv" and plan.tv is not None:
            found += tv_findings(plan.settings, plan.tv, hole, fire_hole, levels)
        if hole.kind == "soundbar":
            found += soundbar_findings(plan.settings, hole)
    return found


def _opening(hole: Hole) -> Opening:
    return Opening(
        name=hole.name,
        kind=hole.kind,
        x=Tenths(hole.clear.x0),
        z=Tenths(hole.clear.z0),
        width=Tenths(hole.clear.width),
        height=Tenths(hole.clear.height),
        depth=Tenths(hole.depth),
    )
