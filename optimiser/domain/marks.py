"""What has happened at the saw since a plan was made: marks on its layouts, and what lies about."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from optimiser.domain.rack import Rack

NOTHING = Rack()


class State(Enum):
    """How far pieces of a layout are: all cut, cut in part, or no use as they came."""

    CUT = "cut"
    STARTED = "started"
    DAMAGED = "damaged"


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """How far `pieces` of a layout's equal pieces are; what no mark names is not cut.

    `layout` counts from 1 as the diagrams do. `cuts` is the number of the last cut made in a
    started piece. `spoiled` names parts that came off and are no use, one name for each.
    """

    material: str
    layout: int
    state: State
    pieces: int = 1
    cuts: int = 0
    spoiled: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Marks:
    """All marks on one plan. `floor`: other pieces that lie there, such as halves of a sheet."""

    marks: tuple[Mark, ...]
    floor: Rack = NOTHING
