"""One box of a wall, framed and boarded in one way: what everything said about it rests on."""

from __future__ import annotations

from dataclasses import dataclass

from optimiser.domain.frame import Bead, Board, Face, Member, NoScrewBand, Tape
from optimiser.framing.layout import Layer
from optimiser.framing.placing import Placed
from optimiser.framing.serving import Level
from optimiser.framing.settings import Settings
from optimiser.framing.uprights import Skeleton


@dataclass(frozen=True, slots=True, kw_only=True)
class Framed:
    """One box of the wall, boarded in one way.

    `bands` are those of the whole wall that no screw enters. `levels` are those of the struts, by
    opening; `skeletons` the front and the back one, by the y of the wall at which they begin.
    """

    placed: Placed
    settings: Settings
    layers: tuple[Layer, ...]
    members: tuple[Member, ...]
    boards: tuple[Board, ...]
    faces: tuple[Face, ...]
    beads: tuple[Bead, ...]
    tapes: tuple[Tape, ...]
    levels: dict[str, list[Level]]
    skeletons: dict[int, Skeleton]
    bands: tuple[NoScrewBand, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class EndWays:
    """A bare end of a box boarded in one way, and joined in height from shorter sheets.

    `name` is "left end" or "right end"; `first` and `joined` hold only what the two do not share.
    """

    name: str
    first: Framed
    joined: Framed
