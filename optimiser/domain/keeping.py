"""What became of offcuts, and the keep rules that follow from it."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from optimiser.domain.request import Keep
from optimiser.units import Pence, Tenths


@dataclass(frozen=True, slots=True, kw_only=True)
class OffcutLife:
    """One offcut from the day it was racked; `size` is its length, or the sides of a board.

    Days are whole numbers on any one calendar. `ended`: the day it was used or thrown away, None
    while it lies there.
    """

    material: str
    size: tuple[Tenths] | tuple[Tenths, Tenths]
    racked: int
    ended: int | None = None
    used: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class KeepTerms:
    """What keeping a piece takes, in pence, and how long it may wait to be used, in days.

    `usual` is the rule where history says nothing: its credit is the chance and share assumed.
    """

    usual: Keep
    handling: Pence
    horizon: int


@dataclass(frozen=True, slots=True, kw_only=True)
class SizeClass:
    """Pieces from `least` on, up to the next class: length, or the shorter side of a board.

    `lives`: how many whole lives were seen, one still lying there counted by the days it has lain;
    `chance` of being used within the horizon, history and parts to come together; `worth` of one
    such piece in pence, its handling taken off.
    """

    least: Tenths
    lives: Fraction
    used: int
    chance: Fraction
    wanted: bool
    worth: Pence


@dataclass(frozen=True, slots=True, kw_only=True)
class KeepAdvice:
    """A material's keep rule and the classes it comes from; `is_board`: it comes in sheets."""

    material: str
    is_board: bool
    keep: Keep
    classes: tuple[SizeClass, ...]
