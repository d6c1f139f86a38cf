"""What the fitter surveyed and chose for one job: the only thing that framing starts from.

Lengths are tenths of a millimetre, masses grams. A choice that may be left out is None here;
`optimiser.framing.settings` takes a default for it and names that default in the frame.
Positions along the site are measured from its left side wall, positions along the feature wall
from the feature wall's own left end, heights from the highest point of the floor under it.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from fractions import Fraction

from optimiser.units import Tenths


class ExistingWall(Enum):
    """What stands behind: masonry to plug into, or studs behind board to find and screw into."""

    SOLID = "solid"
    STUDS = "studs"


class Floor(Enum):
    """What the sole plates are screwed to: boards on joists, or concrete and the like."""

    TIMBER = "timber"
    SOLID = "solid"


class End(Enum):
    """An end of the feature wall meets a side wall, or stands free and is boarded."""

    ABUTS = "abuts"
    FREE = "free"


class Glass(Enum):
    """Where the glass of the fire is: at the front only, or returning round an end of the wall."""

    FRONT = "front"
    LEFT = "left"
    RIGHT = "right"
    BOTH = "both"


@dataclass(frozen=True, slots=True, kw_only=True)
class SurveyPoint:
    """Floor and ceiling at one place: `x` from the left side wall, `floor` above any level line
    (below 0 when under it), `height` from floor to ceiling."""

    x: Tenths
    height: Tenths
    floor: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Projection:
    """A chimney breast or a pier of the existing wall: `x` of its left side on the site."""

    x: Tenths
    width: Tenths
    depth: Tenths


@dataclass(frozen=True, slots=True, kw_only=True)
class Accessory:
    """A socket or switch on the existing wall, its middle: `x` on the site, `z` above the datum."""

    x: Tenths
    z: Tenths


@dataclass(frozen=True, slots=True, kw_only=True)
class Site:
    """The existing wall and the room before it.

    `clear_width` lies between the side walls. `stud_positions` are the middles of the existing
    studs from the left side wall. Heights run from floor to ceiling. `floor_fall` is how much lower
    the floor is at the right side wall than at the left one, below 0 when it is higher there.
    `levels`, two or more places, stand in for the three heights and the fall. `lean_*` is how far
    a side wall leans into the room at the ceiling, below 0 when away. A skirting of
    `skirting` thickness is kept, and the frame stands before it.
    """

    clear_width: Tenths
    height_left: Tenths | None = None
    height_middle: Tenths | None = None
    height_right: Tenths | None = None
    floor_fall: int = 0
    kind: ExistingWall | None = None
    floor: Floor | None = None
    stud_positions: tuple[Tenths, ...] = ()
    levels: tuple[SurveyPoint, ...] = ()
    lean_left: int = 0
    lean_right: int = 0
    skirting: Tenths | None = None
    plug_spacing: Tenths | None = None
    projections: tuple[Projection, ...] = ()
    accessories: tuple[Accessory, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Extent:
    """How far the feature wall reaches: its outer size over the boards, without skim.

    `height` is its top above the datum where it stops short of the ceiling.
    """

    depth: Tenths
    height: Tenths | None = None
    offset: Tenths | None = None
    width: Tenths | None = None
    left: End | None = None
    right: End | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """A part of the front that stands at another depth from the existing wall: 0 where nothing is
    built. `x`, `z` is its lower left corner; without a height it runs up to the wall's top."""

    name: str
    x: Tenths
    width: Tenths
    depth: Tenths
    z: Tenths | None = None
    height: Tenths | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Fire:
    """An inset electric fire. The clearances are the maker's, to timber.

    `opening_*` is the hole in the facing board, which slides under the fire's lip. `base_height` is
    where its body stands. `return_depth` is the glass at the end of the wall, from the front.
    `lining` is the board of the price book that lines its timbers where the maker asks for one.
    `power` is what it draws, in watts.
    """

    body_width: Tenths
    body_height: Tenths
    body_depth: Tenths
    opening_width: Tenths | None = None
    opening_height: Tenths | None = None
    base_height: Tenths | None = None
    clearance_top: Tenths | None = None
    clearance_side: Tenths | None = None
    clearance_back: Tenths | None = None
    mass: int | None = None
    glass: Glass | None = None
    centre: Tenths | None = None
    return_depth: Tenths | None = None
    lining: str | None = None
    power: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Socket:
    """A hole in the backboard for a socket: its lower left corner and size, in wall coordinates."""

    x: Tenths
    z: Tenths
    width: Tenths
    height: Tenths


@dataclass(frozen=True, slots=True, kw_only=True)
class Tv:
    """A TV in a recess. Its size is given as measured, or by the diagonal in inches at 16:9."""

    width: Tenths | None = None
    height: Tenths | None = None
    depth: Tenths | None = None
    mass: int | None = None
    diagonal: Fraction | None = None
    centre: Tenths | None = None
    centre_height: Tenths | None = None
    above_fire: Tenths | None = None
    finger_gap: Tenths | None = None
    recess_width: Tenths | None = None
    recess_height: Tenths | None = None
    recess_depth: Tenths | None = None
    bracket_reach: Tenths | None = None
    bracket_mass: int | None = None
    bracket_width: Tenths | None = None
    bracket_height: Tenths | None = None
    eye_height: Tenths | None = None
    viewing_distance: Tenths | None = None
    sockets: tuple[Socket, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Soundbar:
    """A soundbar in a slot: under the TV, unless the slot's lower left corner is given."""

    width: Tenths
    height: Tenths
    depth: Tenths
    gap: Tenths | None = None
    x: Tenths | None = None
    z: Tenths | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Niche:
    """A niche, clear of linings: `x`, `z` is its lower left corner. `lit`: a strip of light in it,
    with a cable from behind."""

    name: str
    x: Tenths
    z: Tenths
    width: Tenths
    height: Tenths
    depth: Tenths
    shelves: int = 0
    lit: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Materials:
    """Ids of the price book, and how they are used. `fit` is what uprights are cut short."""

    timber: str | None = None
    board: str | None = None
    backboard: str | None = None
    corner_bead: str | None = None
    stop_bead: str | None = None
    layers: int | None = None
    centres: Tenths | None = None
    skim: bool | None = None
    fit: Tenths | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Wall:
    """One job: the survey and the choices. `needed` is an ISO date, or "" when it is open."""

    job: str
    site: Site
    extent: Extent
    client: str = ""
    needed: str = ""
    fire: Fire | None = None
    tv: Tv | None = None
    soundbar: Soundbar | None = None
    steps: tuple[Step, ...] = ()
    niches: tuple[Niche, ...] = ()
    materials: Materials = Materials()
