"""A framed wall: every member, board, bead and quantity, where it sits and why it is there.

Coordinates as on site: x along the wall from its left end, y out from the existing wall, z up from
the highest point of the floor. Tenths of a millimetre throughout. Timbers are cut square, boards
are flat and square to the axes; only what follows the ceiling is not level (see `Member`, `Face`).
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from optimiser.domain.finding import Finding
from optimiser.domain.parts import CutOut, DimensionFrom
from optimiser.units import Tenths


@dataclass(frozen=True, slots=True, kw_only=True)
class Box:
    """An upright box: its corner nearest the origin and its extent along each axis."""

    x: Tenths
    y: Tenths
    z: Tenths
    dx: Tenths
    dy: Tenths
    dz: Tenths


@dataclass(frozen=True, slots=True, kw_only=True)
class Point:
    """A point of the wall."""

    x: Tenths
    y: Tenths
    z: Tenths


ORIGIN = Point(x=Tenths(0), y=Tenths(0), z=Tenths(0))
NOT_EASED = Tenths(0)
NOWHERE = Box(x=Tenths(0), y=Tenths(0), z=Tenths(0), dx=Tenths(0), dy=Tenths(0), dz=Tenths(0))


class Toward(Enum):
    """A direction along an axis: where a board's face looks, where its width or height runs."""

    LEFT = "-x"
    RIGHT = "+x"
    BACK = "-y"
    FRONT = "+y"
    DOWN = "-z"
    UP = "+z"


class Edge(Enum):
    """A board's edge as bought (bound by paper, or straight from the press), or cut on site."""

    FACTORY = "factory"
    CUT = "cut"


@dataclass(frozen=True, slots=True, kw_only=True)
class Edges:
    """The four edges of a board, of its whole rectangle, as it lies on its face."""

    left: Edge = Edge.CUT
    right: Edge = Edge.CUT
    bottom: Edge = Edge.CUT
    top: Edge = Edge.CUT


@dataclass(frozen=True, slots=True, kw_only=True)
class Fixing:
    """Screws of one kind in one place of a member.

    `end` is "start" (the end nearer the origin), "end", or "along" for screws spread over its
    length. `item` is the name in the price book, `through` how many timbers the screw passes
    before the one that holds it: 1 for single depth, 2 for double.
    """

    end: str
    item: str
    length: Tenths
    count: int
    through: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Member:
    """One timber part in its place. Equal parts of a kind share a `mark`, such as "N2".

    A member that `follows_ceiling` is bent along it: at each x its top is the ceiling there, and
    its box lies level at the lowest point of its run. `group` names the box of the wall that it
    belongs to, such as "left pier". `dimension_from`: what of the wall's file its length is from.
    """

    mark: str
    kind: str
    material: str
    length: Tenths
    box: Box
    rule: str
    follows_ceiling: bool = False
    group: str = ""
    fixings: tuple[Fixing, ...] = ()
    dimension_from: tuple[DimensionFrom, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Board:
    """One board part in its place.

    `x`, `z` place its lower left corner on its face as seen from in front of that face (for the
    front: wall coordinates). `turn` says whether it may lie either way on the sheet.

    `box` is the same piece in space, its thickness included (a box of no size where a board was
    made without a place). Its width runs `across`, its height `up`, its visible face looks
    `faces`; cut-outs are measured from the corner that both run from. Where the ceiling slopes it
    is as high as the highest point over it, to be trimmed on site. `edges` are those of the part
    as it must come from the sheet at the least: a factory edge is only promised where the part is
    as wide as the sheet. `dimension_from`: what of the wall's file its width and height come from.
    `reaction_to_fire` is the class of its material by EN 13501-1, "" where that is not known.
    `eased` is by how much it is narrower than its place at the far end of that, to go in.
    """

    mark: str
    face: str
    layer: int
    material: str
    x: Tenths
    z: Tenths
    width: Tenths
    height: Tenths
    turn: bool
    cut_outs: tuple[CutOut, ...]
    rule: str
    box: Box = NOWHERE
    across: Toward = Toward.RIGHT
    up: Toward = Toward.UP
    faces: Toward = Toward.FRONT
    edges: Edges = Edges()
    dimension_from: tuple[DimensionFrom, ...] = ()
    reaction_to_fire: str = ""
    eased: Tenths = NOT_EASED


@dataclass(frozen=True, slots=True, kw_only=True)
class Face:
    """A surface to be boarded, once per layer: what the boards of that `name` must cover.

    `box` is flat: no size along the way it `faces`; it lies in the outermost layer's visible face
    (layer n from the timber out has its visible face (layers - n) boards behind it). `holes` are
    left open, measured like cut-outs from the corner that `across` and `up` run from. A face that
    `follows_ceiling` ends at the ceiling along its top, and its box at the highest point of that.
    `limit` is the widest span of its board between timbers. A face inside an opening lies behind
    the boards of the front. Its last boards across end `eased` short of its far end.
    """

    name: str
    box: Box
    across: Toward
    up: Toward
    faces: Toward
    layers: int
    thickness: Tenths
    limit: Tenths
    holes: tuple[CutOut, ...] = ()
    follows_ceiling: bool = False
    eased: Tenths = NOT_EASED


@dataclass(frozen=True, slots=True, kw_only=True)
class Bead:
    """One length of bead in its place: where it runs, from where to where, and why."""

    mark: str
    kind: str
    material: str
    length: Tenths
    place: str
    rule: str
    start: Point = ORIGIN
    end: Point = ORIGIN
    dimension_from: tuple[DimensionFrom, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Tape:
    """One run of tape: `kind` is the item bought, "joint-tape" or "angle-tape"."""

    kind: str
    start: Point
    end: Point
    rule: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Quantity:
    """How much of a thing bought by pack: `amount` in whole `unit`s (each, mm, mm², ml, g)."""

    item: str
    amount: int
    unit: str
    working: str
    rule: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Opening:
    """A hole in the front, clear of linings: fire, TV recess, slot or niche.

    `front` is the y of the face that it opens in, `depth` its clear depth from there. `wanted` is
    the clear space that was asked for, which it must hold. `open_left`, `open_right`: it runs out
    at that end of the wall.
    """

    name: str
    kind: str
    x: Tenths
    z: Tenths
    width: Tenths
    height: Tenths
    depth: Tenths
    front: Tenths | None = None
    wanted: Box | None = None
    open_left: bool = False
    open_right: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class KeepOut:
    """Space in which nothing of the wall may stand, and why: a fire with its air, a TV."""

    name: str
    box: Box
    reason: str


@dataclass(frozen=True, slots=True, kw_only=True)
class NoScrewBand:
    """A part of the existing wall where a cable may run: no screw enters it. Flat, at its face."""

    name: str
    box: Box


@dataclass(frozen=True, slots=True, kw_only=True)
class Passage:
    """A round hole for cables through the back of an opening: its middle on the visible face."""

    name: str
    face: str
    at: Point
    diameter: Tenths


@dataclass(frozen=True, slots=True, kw_only=True)
class WallFixing:
    """One screw from a member into the house: `into` is "stud", "wall", "floor", "ceiling"..."""

    at: Point
    into: str
    item: str
    member: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Packing:
    """What goes under the sole plates at an upright: `height` at the middle of it."""

    x: Tenths
    y: Tenths
    height: Tenths


@dataclass(frozen=True, slots=True, kw_only=True)
class Solid:
    """Something of the house that stands in the way: a chimney breast, a pier."""

    name: str
    box: Box


@dataclass(frozen=True, slots=True, kw_only=True)
class Default:
    """A choice that the fitter left out, and what was taken for it."""

    field: str
    value: str


@dataclass(frozen=True, slots=True, kw_only=True)
class LevelPoint:
    """Floor and ceiling level at `x`, both above the highest point of the floor."""

    x: Tenths
    floor: Tenths
    ceiling: Tenths


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """One way to make some pieces of a wall, and all of the frame that changes with it.

    `within` names the whole frames (`Frame.boarding`) in which these pieces stand so. `quantities`
    of another way of plates or of an end are what it needs more, or less, than the first.
    """

    name: str
    within: tuple[str, ...]
    members: tuple[Member, ...] = ()
    boards: tuple[Board, ...] = ()
    beads: tuple[Bead, ...] = ()
    faces: tuple[Face, ...] = ()
    tapes: tuple[Tape, ...] = ()
    fixings: tuple[WallFixing, ...] = ()
    packing: tuple[Packing, ...] = ()
    quantities: tuple[Quantity, ...] = ()
    findings: tuple[Finding, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class FrameChoice:
    """Pieces that may be made in any of the `ways`, whatever is chosen elsewhere in the wall.

    `name` is "boarding", "plates", "left end" or "right end", of the `box` of that name.
    """

    name: str
    box: str
    ways: tuple[Way, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """A wall made into parts, boarded in one way, which `boarding` names.

    `width`, `depth`: outer size of the feature wall. `levels` describe floor and ceiling along it.
    `choices` hold every piece of the wall, in all the ways in which it may be made: the frame
    itself takes the first of each, and the cutting plan may take any. `alternatives` are whole
    frames, as good to build as this one, in which between them each way stands once; they have no
    choices or alternatives of their own. Without alternatives there is nothing to choose.
    `studs` are the middles of the existing studs behind it, in wall coordinates.
    """

    job: str
    width: Tenths
    depth: Tenths
    levels: tuple[LevelPoint, ...]
    left_free: bool
    right_free: bool
    openings: tuple[Opening, ...]
    members: tuple[Member, ...]
    boards: tuple[Board, ...]
    beads: tuple[Bead, ...]
    quantities: tuple[Quantity, ...]
    findings: tuple[Finding, ...]
    defaults: tuple[Default, ...]
    boarding: str = ""
    alternatives: tuple[Frame, ...] = ()
    choices: tuple[FrameChoice, ...] = ()
    faces: tuple[Face, ...] = ()
    tapes: tuple[Tape, ...] = ()
    keep_outs: tuple[KeepOut, ...] = ()
    bands: tuple[NoScrewBand, ...] = ()
    solids: tuple[Solid, ...] = ()
    studs: tuple[Tenths, ...] = ()
    passages: tuple[Passage, ...] = ()
    fixings: tuple[WallFixing, ...] = ()
    packing: tuple[Packing, ...] = ()
