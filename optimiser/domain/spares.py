"""Spares by risk: how often things break, and what it costs to be spared a second trip."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from fractions import Fraction

from optimiser.units import Pence


class Handling(Enum):
    """How stock gets to the saw and parts to their place."""

    CAREFUL = "careful"
    USUAL = "usual"
    ROUGH = "rough"


@dataclass(frozen=True, slots=True, kw_only=True)
class Breakage:
    """How often stock of a material breaks before it is cut, and parts are spoiled afterwards.

    `piece` is the chance for each stock piece, `part` for each part; both from 0 to below 1.
    """

    material: str
    piece: Fraction
    part: Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class Exposure:
    """What one stock of the plan stands to lose, and what a loss takes.

    `pieces` of it are cut, into `large` parts that need a new piece when spoiled and `small` ones
    of which any `from_offcuts` can come from offcuts the plan keeps. A spare yields `yields` of
    the largest part.
    """

    material: str
    stock: str
    price: Pence
    pieces: int
    large: int
    small: int
    from_offcuts: int
    yields: int
    breakage: Breakage


@dataclass(frozen=True, slots=True, kw_only=True)
class SpareLevel:
    """The least money for spares that keeps the chance of a second trip within `level`.

    `chance` is what these spares leave, never stated too low; `spares` are material, stock and
    count. `reached` is False where no number of spares that was tried keeps the level.
    """

    level: Fraction
    chance: float
    cost: Pence
    spares: tuple[tuple[str, str, int], ...]
    reached: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class SparesTable:
    """The levels asked for, widest first, beside the chance without any spare."""

    chance_without: float
    exposures: tuple[Exposure, ...]
    levels: tuple[SpareLevel, ...]
