"""Rectangles on a face, and where that face lies in space.

A face has coordinates of its own, as seen from before it; a surface turns a rectangle on it, at
some distance out from the timber, into a box of the wall.
"""

from __future__ import annotations

from dataclasses import dataclass

from optimiser.domain.frame import Box, Toward
from optimiser.units import Tenths


@dataclass(frozen=True, slots=True)
class Rect:
    """A rectangle on the front: from (x0, z0) to (x1, z1)."""

    x0: int
    z0: int
    x1: int
    z1: int

    @property
    def width(self) -> int:
        """Its extent along the wall."""
        return self.x1 - self.x0

    @property
    def height(self) -> int:
        """Its extent upwards."""
        return self.z1 - self.z0

    def meets(self, other: Rect) -> bool:
        """Return whether they share any area: two that only touch do not."""
        along = self.x0 < other.x1 and other.x0 < self.x1
        return along and self.z0 < other.z1 and other.z0 < self.z1

    def grown(self, by: int) -> Rect:
        """Return it with every side moved outwards by `by`, inwards when below 0."""
        return Rect(self.x0 - by, self.z0 - by, self.x1 + by, self.z1 + by)


@dataclass(frozen=True, slots=True, kw_only=True)
class Surface:
    """A plane of timber to be boarded: `origin` is where its coordinates begin, on the timber."""

    name: str
    origin: tuple[int, int, int]
    across: Toward
    up: Toward
    faces: Toward

    def box(self, place: Rect, out: int, thickness: int) -> Box:
        """Return the box of a piece whose back is `out` from the timber."""
        low = list(self.origin)
        size = [0, 0, 0]
        for toward, a, b in (
            (self.across, place.x0, place.x1),
            (self.up, place.z0, place.z1),
            (self.faces, out, out + thickness),
        ):
            axis = "xyz".index(toward.value[1])
            low[axis] += a if toward.value[0] == "+" else -b
            size[axis] = b - a
        return Box(
            x=Tenths(low[0]),
            y=Tenths(low[1]),
            z=Tenths(low[2]),
            dx=Tenths(size[0]),
            dy=Tenths(size[1]),
            dz=Tenths(size[2]),
        )
