"""What a cut list says beside its cuts: the edge measured from, saw or snap, notches of a board.

Worked out again from the request; what the list does not say is not held against it.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from optimiser.domain.request import Cutting

if TYPE_CHECKING:
    from optimiser.domain.parts import BoardPart, CutOut
    from optimiser.domain.plan import CutOutWork, SheetCut, SheetLayout
    from optimiser.domain.request import SheetMaterial

# A narrower strip breaks elsewhere than along its score (common practice, no source).
_SAWN_BELOW = 500


def wrong_tool(cut: SheetCut, extent: int, material: SheetMaterial) -> str | None:
    """Return what is wrong with the tool of a cut through a piece of `extent` tenths."""
    strips = [cut.at, extent - cut.at - material.kerf]
    narrow = any(0 < strip < _SAWN_BELOW for strip in strips)
    tool = "saw" if material.cutting is Cutting.SAW or narrow else "snap"
    if cut.tool in ("", tool):
        return None
    return f"cut {cut.n} says {cut.tool!r} where it must be {tool!r}"


def wrong_edge(cut: SheetCut, edge: str) -> str | None:
    """Return what is wrong with the edge that a cut is measured from."""
    if cut.edge in ("", edge):
        return None
    return f"cut {cut.n} is measured from an edge {cut.edge!r}, which is {edge!r}"


def wrong_cut_outs(layout: SheetLayout, parts: dict[str, BoardPart]) -> Iterator[str]:
    """Name each cut-out whose sides are said to be made in a way that does not free it."""
    for work in layout.cut_outs:
        part = parts.get(work.part)
        holes = () if part is None else part.cut_outs
        if part is None or not 0 <= work.cut_out < len(holes):
            yield f"cut-out {work.cut_out} of {work.part!r} is not asked for"
        elif not _frees(work, part, holes[work.cut_out]):
            yield f"cut-out {work.cut_out} of {work.part!r} is not freed as a {work.shape} so sawn"


def _frees(work: CutOutWork, part: BoardPart, hole: CutOut) -> bool:
    """Return whether every inner side is made once, and the one snapped runs free to an edge.

    A score breaks along a straight line from edge to edge: beside it all must be sawn through, so
    one side at most is snapped, none of a window, and of two sides the longer one.
    """
    long = {
        "left": (hole.height, hole.x > 0),
        "right": (hole.height, hole.x + hole.width < part.width),
        "bottom": (hole.width, hole.y > 0),
        "top": (hole.width, hole.y + hole.height < part.height),
    }
    inner = {side for side, (_, cut) in long.items() if cut}
    shapes = {2: "corner notch", 3: "U-notch", 4: "window"}
    if sorted((*work.saw, *work.snap)) != sorted(inner) or work.shape != shapes.get(len(inner)):
        return False
    if len(work.snap) != (len(inner) < 4):
        return False
    facing = {"left": "right", "right": "left", "bottom": "top", "top": "bottom"}
    for side in work.snap:
        if len(inner) == 3 and facing[side] in inner:
            return False
        if len(inner) == 2 and long[side][0] < min(long[one][0] for one in work.saw):
            return False
    return True
