"""A framed wall: every member, board, bead and quantity, where it sits and why it is there.

Coordinates as on site: x along the wall from its left end, y out from the existing wall, z up from
the highest point of the floor. Tenths of a millimetre throughout.
"""

from __future__ import annotations

from dataclasses import dataclass

from optimiser.domain.finding import Finding
from optimiser.domain.parts import CutOut
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
class Member:
    """One timber part in its place. Equal parts of a kind share a `mark`, such as "N2".

    A member that `follows_ceiling` is bent along it: at each x its top is the ceiling there, and
    its box lies level at the lowest point of its run.
    """

    mark: str
    kind: str
    material: str
    length: Tenths
    box: Box
    rule: str
    follows_ceiling: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Board:
    """One board part in its place.

    `x`, `z` place its lower left corner on its face as seen from in front of that face (for the
    front: wall coordinates). `turn` says whether it may lie either way on the sheet.
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


@dataclass(frozen=True, slots=True, kw_only=True)
class Bead:
    """One length of bead in its place: where it runs, and why."""

    mark: str
    kind: str
    material: str
    length: Tenths
    place: str
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
    """A hole in the front, clear of linings: fire, TV recess, slot or niche."""

    name: str
    kind: str
    x: Tenths
    z: Tenths
    width: Tenths
    height: Tenths
    depth: Tenths


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
class Frame:
    """A wall made into parts. `boards` holds the first option of every boarding choice.

    `width`, `depth`: outer size of the feature wall. `levels` describe floor and ceiling along it.
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
