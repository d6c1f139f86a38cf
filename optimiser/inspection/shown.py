"""Whether all that shows of a wall is there to be boarded, read from the wall's own figures.

The boards of each face are looked at elsewhere; here nobody takes the frame's word for which faces
there are. The front is divided by its steps and by what of the house stands behind it; where one
part stands further out than what is beside it, its end, top or underside shows.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from optimiser.domain.fault import Fault
from optimiser.domain.frame import Frame, Toward
from optimiser.domain.wall import End, Wall
from optimiser.inspection.space import Block, block_of, ceilings

# Above any ceiling, in tenths.
_SKY = 10_000_000
# So far in from an edge that it shows a face, and no rounding.
_INSIDE = 10
# Boards end this far above the floor at most, with what it may be out of level: common practice,
# no source.
_FLOOR = 400

_Point = tuple[int, int, int]


@dataclass(frozen=True, slots=True)
class _Part:
    """A rectangle of the front: how far out it stands, 0 where nothing is built, and how far out
    what of the house stands behind it."""

    x0: int
    x1: int
    z0: int
    z1: int
    depth: int
    behind: int

    @property
    def out(self) -> int:
        """How far out anything stands there."""
        return max(self.depth, self.behind)


def faults_of_surfaces(frame: Frame, wall: Wall) -> Iterator[Fault]:
    """Yield each part of the front, each end, top and underside that shows, by the wall's figures,
    where the frame has no face to board."""
    skin = max((f.layers * f.thickness for f in frame.faces if f.name.endswith("front")), default=0)
    faces: dict[Toward, list[Block]] = {}
    for face in frame.faces:
        faces.setdefault(face.faces, []).append(block_of(face.box))
    told: set[str] = set()
    for what, toward, at in _shown(frame, wall, int(skin) + _INSIDE):
        if what not in told and not any(_holds(one, at) for one in faces.get(toward, [])):
            told.add(what)
            place = ", ".join(f"{one / 10:g}" for one in at)
            yield Fault(what, f"shows at {place}, and has no face there")


def _holds(one: Block, at: _Point) -> bool:
    return all(a <= b <= c for a, b, c in zip(one.low, at, one.high, strict=True))


def _shown(frame: Frame, wall: Wall, edge: int) -> Iterator[tuple[str, Toward, _Point]]:
    """Yield points that show, each with what shows there and which way it faces.

    `edge`: so far from its edges a face may be lapped by the next one's boards.
    """
    width = int(frame.width)
    parts = list(_parts(wall, width))
    for part in parts:
        low, high = _upright(frame, part, part.x0, part.x1, edge)
        if not part.depth or low >= high:
            continue
        name = f"front from {part.x0 / 10:g} along, {part.z0 / 10:g} up"
        for x in (part.x0 + edge, part.x1 - edge):
            for z in (low, high):
                yield name, Toward.FRONT, (x, part.depth, z)
        yield from _ends(frame, wall, part, parts, edge)
        yield from _levels(part, parts, edge)


def _upright(frame: Frame, part: _Part, x0: int, x1: int, edge: int) -> tuple[int, int]:
    """Return the lowest and highest place of a part between two x that a face must hold."""
    roof = int(ceilings(frame.levels, x0, x1)[0]) - _INSIDE
    return max(part.z0, _FLOOR) + edge, min(part.z1, roof) - edge


def _ends(
    frame: Frame, wall: Wall, part: _Part, parts: list[_Part], edge: int
) -> Iterator[tuple[str, Toward, _Point]]:
    for toward, x in ((Toward.LEFT, part.x0), (Toward.RIGHT, part.x1)):
        left = toward is Toward.LEFT
        beside = next((p for p in parts if p.z0 == part.z0 and (p.x1, p.x0)[not left] == x), None)
        if beside is None and not _is_free(wall, left=left):
            continue
        covered = beside.out if beside is not None else _outside(wall, x, left=left)
        low, high = _upright(frame, part, x, x, edge)
        near, far = max(covered, part.behind) + _INSIDE, part.depth - edge
        if near < far and low < high:
            side = "left" if left else "right"
            for y in (near, far):
                for z in (low, high):
                    yield f"{side} end at {x / 10:g} along, {part.z0 / 10:g} up", toward, (x, y, z)


def _levels(part: _Part, parts: list[_Part], edge: int) -> Iterator[tuple[str, Toward, _Point]]:
    for toward, z in ((Toward.UP, part.z1), (Toward.DOWN, part.z0)):
        if z in (0, _SKY):
            continue
        up = toward is Toward.UP
        beside = next((p for p in parts if p.x0 == part.x0 and (p.z1, p.z0)[up] == z), None)
        covered = max(beside.depth if beside is not None else 0, part.behind)
        near, far = covered + _INSIDE, part.depth - edge
        if near < far:
            name = f"{'top' if up else 'underside'} from {part.x0 / 10:g} along at {z / 10:g} up"
            for x in (part.x0 + edge, part.x1 - edge):
                for y in (near, far):
                    yield name, toward, (x, y, z)


def _is_free(wall: Wall, *, left: bool) -> bool:
    chosen = wall.extent.left if left else wall.extent.right
    if chosen is not None:
        return chosen is End.FREE
    offset, width = int(wall.extent.offset or 0), wall.extent.width
    return offset > 0 if left else width is not None and offset + width < wall.site.clear_width


def _outside(wall: Wall, x: int, *, left: bool) -> int:
    """Return how far a breast stands out just past an end of the wall."""
    at = int(wall.extent.offset or 0) + x
    return max(
        (
            int(one.depth)
            for one in wall.site.projections
            if (one.x < at <= one.x + one.width if left else one.x <= at < one.x + one.width)
        ),
        default=0,
    )


def _parts(wall: Wall, width: int) -> Iterator[_Part]:
    """Yield the front divided at every side of a step and of a breast, and at every level."""
    offset = int(wall.extent.offset or 0)
    top = int(wall.extent.height or _SKY)
    steps = [
        (
            (int(step.x), int(step.x + step.width)),
            (int(step.z or 0), int((step.z or 0) + step.height) if step.height else top),
            int(step.depth),
        )
        for step in wall.steps
    ]
    breasts = [
        (int(one.x) - offset, int(one.x + one.width) - offset, int(one.depth))
        for one in wall.site.projections
    ]
    sides = {0, width, *(x for xs, _, _ in steps for x in xs), *(x for b in breasts for x in b[:2])}
    levels = sorted({0, top, *(z for _, zs, _ in steps for z in zs)})
    for x0, x1 in pairwise(sorted(x for x in sides if 0 <= x <= width)):
        behind = max((d for a, b, d in breasts if a <= x0 and x1 <= b), default=0)
        for z0, z1 in pairwise(levels):
            # Where steps lie over one another the last one counts.
            over = [
                out
                for (a, b), (low, high), out in steps
                if a <= x0 and x1 <= b and low <= z0 and z1 <= high
            ]
            depth = over[-1] if over else int(wall.extent.depth)
            yield _Part(x0, x1, z0, z1, depth, behind)
