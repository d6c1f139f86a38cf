"""From a wall to its frame: runs the rules of the trade in their order.

The order is that of setting out on site: choices, boxes, openings, board joints, uprights that
stand behind them, everything between, boards, beads, things by the pack, and last what to say
about it. Each way to board the wall is a whole frame; parts are marked over all of them at once.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from dataclasses import replace

from optimiser.domain.finding import Severity
from optimiser.domain.frame import Box, Frame, Member, NoScrewBand
from optimiser.domain.price_book import PriceBook
from optimiser.domain.wall import ExistingWall, Wall
from optimiser.framing.beads import beads
from optimiser.framing.boarding import ends, front, front_face, levels_boarded
from optimiser.framing.boxes import boxes
from optimiser.framing.cables import passages
from optimiser.framing.choosing import choices_of, without
from optimiser.framing.end_ways import end_ways, may_be_joined
from optimiser.framing.fixing import fixed, no_screw_bands
from optimiser.framing.framed import EndWays, Framed
from optimiser.framing.groups import groups_of
from optimiser.framing.horizontals import back_noggins, ledgers, noggins, plates, sills_and_heads
from optimiser.framing.layout import Layer, lay_out
from optimiser.framing.level_shares import LevelShares
from optimiser.framing.levels_held import level_members, lining_members
from optimiser.framing.marks import mark_beads, mark_boards, mark_members
from optimiser.framing.notes import Notes
from optimiser.framing.openings import Hole
from optimiser.framing.origins import Known, Origins
from optimiser.framing.placing import Placed, place_openings
from optimiser.framing.remarks import early_stops
from optimiser.framing.returns import (
    props,
    rests_on_plates,
    returns,
    returns_beside_glass,
    strut_levels,
    struts,
)
from optimiser.framing.reveals import fire_linings, linings, panel_joints
from optimiser.framing.serving import Level
from optimiser.framing.setting_out import lines
from optimiser.framing.settings import Settings, settle
from optimiser.framing.spaces import keep_outs, opening_of, solids
from optimiser.framing.styles import Style, joined_plate, styles
from optimiser.framing.taping import tapes
from optimiser.framing.uprights import (
    end_posts,
    end_uprights,
    return_edge_uprights,
    skeleton,
    timbers_below,
    upright_members,
)
from optimiser.framing.ways import frame_of
from optimiser.units import Tenths


def frame_wall(wall: Wall, book: PriceBook) -> Frame:
    """Make a wall into members, boards, beads and quantities, with findings.

    Raises InvalidInput, with every fault, for input that contradicts itself or the price book.
    What can be built but will not work is a finding in the frame.
    """
    notes = Notes()
    whole = settle(wall, book, notes)
    # Faults do not end the search for more, as long as there is a box to look for them in.
    parted, faulty = boxes(whole, notes) if whole is not None else ([], set())
    placed = place_openings(parted, faulty, notes) if parted else []
    if notes.problems and whole is not None:
        for stop in early_stops(whole, placed):
            field = stop.change[0].field if stop.change else stop.rule
            notes.problem(field, stop.trouble, stop.remedy)
    notes.refuse()
    assert whole is not None
    bands = no_screw_bands(whole)
    for box in placed:
        box.against = tuple(_against(box, placed))
        box.below = tuple(_below(box, placed))
        box.others = tuple(other.settings for other in placed if other is not box)
    boarded: list[tuple[Style, list[Framed]]] = []
    known: list[dict[tuple[Layer, ...], Framed]] = [{} for _ in placed]
    for style in styles(whole):
        firsts = [one.layers for one in boarded[0][1]] if boarded else [()] * len(placed)
        way = [
            _framed(box, style, first, done, bands)
            for box, first, done in zip(placed, firsts, known, strict=True)
        ]
        if all(way != other for _, other in boarded):
            boarded.append((style, way))
    joined = [_joined(list(done.values())) for done in known]
    first = boarded[0][1]
    ended = [
        _built(one.placed, one.settings, one.layers, bands, short_ends=True)
        if may_be_joined(one.settings)
        else one
        for one in first
    ]
    *ways, joined, ended = _marked([*(way for _, way in boarded), joined, ended])
    names = [style.name for style, _ in boarded]
    end_choices = [
        end_ways([way[number] for way in ways], short) if short is not ways[0][number] else []
        for number, short in enumerate(ended)
    ]
    return _frame(whole, names, ways, joined, end_choices, bands, notes)


def _against(box: Placed, placed: list[Placed]) -> Iterator[Box]:
    """Yield the end uprights of other boxes that the right end of a box touches."""
    for other in placed:
        if other.settings.left == box.settings.right:
            yield from end_posts(other.settings, other.holes, other.settings.left)


def _below(box: Placed, placed: list[Placed]) -> Iterator[Box]:
    """Yield the timbers under a box that lie alike in every way of the boxes that it stands on."""
    for other in placed:
        settings = other.settings
        beside = settings.end <= box.settings.start or box.settings.end <= settings.start
        if settings.levels.flat_ceiling == box.settings.base and not beside:
            yield from timbers_below(settings, other.holes)


def _framed(
    box: Placed,
    style: Style,
    first: tuple[Layer, ...],
    known: dict[tuple[Layer, ...], Framed],
    bands: tuple[NoScrewBand, ...],
) -> Framed:
    """Frame and board one box of the wall in one way, unless an earlier way laid it out alike."""
    layers = lay_out(box.settings, box.holes, style, first)
    if layers not in known:
        known[layers] = _built(box, box.settings, layers, bands)
    return known[layers]


def _joined(ways: list[Framed]) -> Framed:
    """Return the first way of a box with its plates joined, where one length would do too.

    Plates are cut to length over uprights that stand there in every way, so that joined plates
    serve each of them; without such uprights nothing is joined.
    """
    one = ways[0]
    longest = joined_plate(one.settings)
    if longest is None:
        return one
    settings = replace(one.settings, plate_limit=longest)
    members: list[Member] = []
    for y, run in itertools.groupby(
        one.members, lambda m: m.box.y if m.kind.endswith("plate") else None
    ):
        if y is None:
            members += run
            continue
        shared = set.intersection(*({line.x for line in way.skeletons[y].lines} for way in ways))
        skeleton = one.skeletons[y]
        lines = tuple(line for line in skeleton.lines if line.x in shared)
        made = plates(settings, replace(skeleton, lines=lines))
        if max(part.length for part in made) > longest:
            return one
        over = {settings.left, *(line.x + settings.thick // 2 for line in lines)}
        if any(part.box.x not in over for part in made):
            return one
        groups = groups_of(made, settings, one.placed.holes)
        members += fixed(made, settings, groups, below=one.placed.below)
    return replace(one, settings=settings, members=tuple(members))


def _built(
    box: Placed,
    settings: Settings,
    layers: tuple[Layer, ...],
    bands: tuple[NoScrewBand, ...],
    *,
    short_ends: bool = False,
) -> Framed:
    """Frame and board one box of the wall; `short_ends`: its bare ends are joined in height."""
    holes = box.holes
    all_lines = lines(holes, settings, tuple(j for layer in layers for j in layer.joints))
    front_frame = skeleton(settings, all_lines, holes, front=True)
    back_frame = skeleton(settings, all_lines, holes, front=False)

    fire_hole = box.hole("fire")
    glass = box.fire.return_depth if box.fire is not None else 0
    end_boards, end_faces, end_joints = ends(settings, fire_hole, glass, short=short_ends)
    strutted = [
        (hole, strut_levels(hole, panel_joints(hole, settings), box.tv, settings))
        for hole in holes
        if hole.lined
    ]
    members: list[Member] = []
    for frame in (front_frame, back_frame):
        members += plates(settings, frame)
        members += upright_members(settings, frame)
        members += sills_and_heads(settings, frame)
    members += return_edge_uprights(settings, fire_hole)
    members += noggins(settings, front_frame, [row for layer in layers for row in layer.rows])
    lined_fire = [(fire_hole, _cheek_levels(fire_hole, settings))] if fire_hole else []
    members += returns(settings, front_frame, [*strutted, *lined_fire], end_joints)
    members += returns_beside_glass(settings, fire_hole)
    members += rests_on_plates(settings, fire_hole)
    members += level_members(settings, front_frame, members)
    behind = [one for hole, levels in strutted for one in struts(settings, hole, levels)]
    members += lining_members(settings, [*members, *behind], fire_hole)
    members += end_uprights(settings, front_frame, members)
    boards = front(settings, holes, layers) + end_boards
    faces = [front_face(settings, holes), *end_faces]
    level_boards, level_faces = levels_boarded(settings, members)
    boards += level_boards
    faces += level_faces
    for hole, levels in strutted:
        members += struts(settings, hole, levels)
        members += props(settings, back_frame, hole, levels)
        lined, lined_faces = linings(settings, hole)
        boards += lined
        faces += lined_faces
    if fire_hole is not None:
        lined, lined_faces = fire_linings(settings, fire_hole, members)
        boards += lined
        faces += lined_faces
    if settings.wall.site.kind is ExistingWall.STUDS and settings.base == 0:
        members += ledgers(settings, back_frame)
    members += back_noggins(settings, back_frame, members)
    groups = groups_of(members, settings, holes)
    members = fixed(members, settings, groups, box.against, box.below)
    return Framed(
        placed=box,
        settings=settings,
        layers=layers,
        members=tuple(members),
        boards=tuple(boards),
        faces=tuple(faces),
        beads=tuple(beads(settings, holes, box.fire, box.others)),
        tapes=tuple(tapes(settings, holes, layers[-1], boards, box.others)),
        levels={hole.name: levels for hole, levels in strutted},
        skeletons={settings.back + one.y: one for one in (front_frame, back_frame)},
        bands=bands,
    )


def _cheek_levels(fire: Hole, settings: Settings) -> list[Level]:
    """Return where returns hold the lining beside a fire: at its foot, its head and over it."""
    if settings.fire_lining is None:
        return []
    rule = "frame.return.reveal"
    return [(fire.frame.z0, rule), (fire.frame.z1 - settings.wide, rule), (fire.frame.z1, rule)]


def _frame(
    whole: Settings,
    names: list[str],
    ways: list[list[Framed]],
    joined: list[Framed],
    ended: list[list[EndWays]],
    bands: tuple[NoScrewBand, ...],
    notes: Notes,
) -> Frame:
    """Return the frame in its first way, with all ways of its boxes, and as whole frames."""
    placed = [one.placed for one in ways[0]]
    site = whole.wall.site
    shell = Frame(
        job=whole.wall.job,
        width=Tenths(whole.width),
        depth=Tenths(max(box.settings.back + box.settings.depth for box in placed)),
        levels=whole.levels.points(),
        left_free=whole.left_free,
        right_free=whole.right_free,
        openings=tuple(opening_of(hole, box.settings) for box in placed for hole in box.holes),
        members=(),
        boards=(),
        beads=(),
        quantities=(),
        findings=tuple(notes.findings),
        defaults=tuple(notes.defaults),
        keep_outs=tuple(space for box in placed for space in keep_outs(box)),
        bands=bands,
        passages=tuple(one for box in placed for one in passages(box)),
        solids=solids(whole),
        studs=tuple(
            Tenths(stud - whole.offset)
            for stud in site.stud_positions
            if 0 <= stud - whole.offset <= whole.width
        ),
    )
    choices, others = choices_of(whole, names, ways, joined, ended, bands)
    first = frame_of(shell, choices, [0] * len(choices))
    frames = [
        replace(frame_of(shell, choices, taken), boarding=name) for name, taken in others.items()
    ]
    # A way that a check stops is no alternative to one that it does not.
    sound = [frame for frame in frames if _stops(frame) <= _stops(first)]
    choices = without(choices, {f.boarding for f in frames} - {f.boarding for f in sound})
    return replace(first, alternatives=tuple(sound), choices=choices)


def _stops(frame: Frame) -> set[str]:
    return {found.rule for found in frame.findings if found.severity is Severity.STOP}


def _marked(ways: list[list[Framed]]) -> list[list[Framed]]:
    """Mark equal parts alike over all ways to board the wall, and say where each size is from."""
    every = list({id(one): one for way in ways for one in way}.values())
    levels = {id(one.placed): LevelShares(one.settings) for one in every}
    known: Known = {}
    traced = [(one, Origins(one, levels[id(one.placed)], known)) for one in every]
    members = iter(mark_members((m, by.of_member(m)) for one, by in traced for m in one.members))
    boards = iter(mark_boards((b, by.of_board(b)) for one, by in traced for b in one.boards))
    runs = iter(mark_beads((b, by.of_bead(b)) for one, by in traced for b in one.beads))
    marked = {
        id(one): replace(
            one,
            members=tuple(next(members) for _ in one.members),
            boards=tuple(next(boards) for _ in one.boards),
            beads=tuple(next(runs) for _ in one.beads),
        )
        for one in every
    }
    return [[marked[id(one)] for one in way] for way in ways]
