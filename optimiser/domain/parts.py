"""What must be cut: timber parts (lengths) and board parts (rectangles, possibly with cut-outs)."""

from __future__ import annotations

from dataclasses import dataclass

from optimiser.units import Tenths

NO_EASE = Tenths(0)


@dataclass(frozen=True, slots=True, kw_only=True)
class CutOut:
    """A rectangle removed from a board part, measured from the part's lower left corner."""

    x: Tenths
    y: Tenths
    width: Tenths
    height: Tenths


@dataclass(frozen=True, slots=True, kw_only=True)
class DimensionFrom:
    """Which fields of a wall's file one dimension of a part comes from, such as "wall.width".

    `dimension` is "length", "width" or "height". The field that counts for most stands first.
    """

    dimension: str
    fields: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class LengthPart:
    """`quantity` equal lengths of one section for one job. `name` is what the fitter calls it.

    `ease` is how much shorter all of them may be without harm. `dimension_from` says what of the
    wall the length comes from, where that is known.
    """

    id: str
    job: str
    length: Tenths
    quantity: int
    name: str = ""
    ease: Tenths = NO_EASE
    dimension_from: tuple[DimensionFrom, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardPart:
    """`quantity` equal board parts for one job.

    `height` lies along the sheet's height (its grain) unless `turn` allows a quarter turn.
    Either side may be `ease` shorter without harm. `dimension_from` says what of the wall each side
    comes from, where that is known.
    """

    id: str
    job: str
    width: Tenths
    height: Tenths
    quantity: int
    turn: bool = True
    cut_outs: tuple[CutOut, ...] = ()
    name: str = ""
    ease: Tenths = NO_EASE
    dimension_from: tuple[DimensionFrom, ...] = ()

    @property
    def area(self) -> int:
        """Return the rectangle's area in square tenths, cut-outs included."""
        return self.width * self.height
