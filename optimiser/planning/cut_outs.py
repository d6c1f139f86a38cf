"""Cut-outs as stock: what is cut out of one part may hold smaller ones.

A cut-out is smaller than its part and larger than what it holds, so no chain of cut-outs comes back
to where it began, and whatever is cut first by size is there when it is needed.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from optimiser.domain.parts import BoardPart, CutOut
from optimiser.domain.plan import SheetLayout
from optimiser.domain.request import SheetMaterial
from optimiser.domain.stock import EdgeTrim


@dataclass(frozen=True, slots=True)
class Freed:
    """Cut-out `index` of `part` as a piece: its size as given, and what its sawn sides lose."""

    part: BoardPart
    index: int
    hole: CutOut
    trim: EdgeTrim

    @property
    def inside(self) -> tuple[int, int]:
        """Return the usable width and height."""
        return self.trim.inside(self.hole.width, self.hole.height)


def freed_from(material: SheetMaterial, part: BoardPart, index: int) -> Freed:
    """Return a cut-out as a piece. A side on the edge of its part was not sawn out and is kept."""
    hole = part.cut_outs[index]
    return Freed(part, index, hole, material.trim_of_cut_out(part, hole))


def freed_pieces(material: SheetMaterial) -> tuple[Freed, ...]:
    """List the cut-outs that may hold a part, in the request's order; none where not allowed.

    A part that may be turned may lie either way on its sheet, and so may the grain of what is cut
    out of it: that serves only where every part of the board may be turned.
    """
    if not material.use_cut_outs:
        return ()
    all_turn = all(part.turn for part in material.parts)
    found = (
        freed_from(material, part, index)
        for part in material.parts
        if all_turn or not part.turn
        for index in range(len(part.cut_outs))
    )
    return tuple(piece for piece in found if _holds_any(material, piece))


def _holds_any(material: SheetMaterial, piece: Freed) -> bool:
    width, height = piece.inside
    return any(
        (part.width <= width and part.height <= height)
        or (part.turn and part.height <= width and part.width <= height)
        for part in material.parts
    )


def in_order(layouts: Iterable[SheetLayout], material: SheetMaterial) -> tuple[SheetLayout, ...]:
    """Put cut-outs after what they come from: sheets first, then the largest cut-out first."""
    parts = {part.id: part for part in material.parts}

    def size(layout: SheetLayout) -> int:
        if layout.cut_out is None:
            return 0
        hole = parts[layout.stock].cut_outs[layout.cut_out]
        return -hole.width * hole.height

    return tuple(sorted(layouts, key=lambda one: (one.cut_out is not None, size(one))))
