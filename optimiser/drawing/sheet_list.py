"""The cut list beside a sheet: cuts by setting of the fence, edges measured from, notches.

Cuts in a row at one setting stand together: the setting is written once, "same" below it.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from optimiser.domain.parts import BoardPart, CutOut
from optimiser.domain.plan import CutOutWork, SheetCut, SheetLayout
from optimiser.domain.request import Cutting, SheetMaterial
from optimiser.domain.stock import NO_EDGE_TRIM, EdgeTrim
from optimiser.drawing.letters import plain
from optimiser.drawing.page import text_entry
from optimiser.drawing.scene import Entry
from optimiser.drawing.table import Cell, Row, paragraph
from optimiser.units import mm

_HEADS = (("cut", 6.0, "end"), ("piece", 7.5, "start"), ("how", 15.3, "start"))
_SIDES = {"rip": "left", "crosscut": "lower"}


def trim_text(trim: EdgeTrim) -> str:
    """Write an edge trim: one size if all edges are alike, else each trimmed edge by name."""
    edges = {"left": trim.left, "right": trim.right, "bottom": trim.bottom, "top": trim.top}
    if len(set(edges.values())) == 1:
        return mm(trim.left)
    return ", ".join(f"{edge} {mm(size)}" for edge, size in edges.items() if size)


def cut_rows(layout: SheetLayout, material: SheetMaterial, trim: EdgeTrim) -> list[Row]:
    """Return the cuts in the order of work, a rule above each change of the fence's setting."""
    cells = [Cell(at, text, anchor, bold=True) for text, at, anchor in _HEADS]
    rows = [Row((*cells, Cell(37.7, "set at", "end", bold=True), Cell(38.6, "from", bold=True)))]
    if trim != NO_EDGE_TRIM:
        rows[-1] = Row(rows[-1].cells, ruled=True)
        rows.append(Row((Cell(6, "0", "end", bold=True), Cell(7.5, "trim first, see below"))))
    setting: tuple[str, int] | None = None
    knife = material.cutting is Cutting.KNIFE
    for cut in layout.cuts:
        own = (cut.direction, int(cut.at))
        if own != setting:
            rows[-1] = Row(rows[-1].cells, ruled=True)
        how = "saw" if knife and cut.tool == "saw" else cut.direction
        rows.append(
            Row(
                (
                    Cell(6, str(cut.n), "end", bold=True),
                    Cell(7.5, plain(cut.of)),
                    Cell(15.3, how, bold=how != cut.direction),
                    Cell(
                        37.7, "same" if own == setting else mm(cut.at), "end", bold=own != setting
                    ),
                    Cell(38.6, edge_text(cut)),
                )
            )
        )
        setting = own
    return rows


def edge_text(cut: SheetCut) -> str:
    """Return the edge that a cut is measured from: its side, and what made it if that is said."""
    side = _SIDES.get(cut.direction, "")
    return f"{side}, {cut.edge}" if cut.edge else side


def cut_out_rows(layout: SheetLayout, material: SheetMaterial, width: float) -> list[Row]:
    """Return how the cut-outs of a snapped board are made, in rows of at most `width` mm."""
    parts = {part.id: part for part in material.parts}
    works = [work for work in layout.cut_outs if work.part in parts]
    if not works:
        return []
    rows = [Row(()), Row((Cell(0, "Cut-outs: saw first, then snap", bold=True),), ruled=True)]
    for work in works:
        rows += paragraph(cut_out_text(work, parts[work.part]), width)
    return rows


def used_cut_outs(
    layout: SheetLayout, layouts: Iterable[SheetLayout]
) -> dict[tuple[str, int], int]:
    """Count how often each cut-out of the parts on a layout is cut further in others."""
    here = {placed.part for placed in layout.parts}
    used: dict[tuple[str, int], int] = {}
    for other in layouts:
        if other.cut_out is not None and other.stock in here:
            key = (other.stock, other.cut_out)
            used[key] = used.get(key, 0) + other.count
    return used


def used_rows(
    used: Mapping[tuple[str, int], int], material: SheetMaterial, width: float
) -> list[Row]:
    """Return which cut-outs are wanted whole, with the way to free them, in rows of `width` mm."""
    if not used:
        return []
    parts = {part.id: part for part in material.parts}
    head = Cell(0, "Keep whole: parts come from it", bold=True)
    rows = [Row(()), Row((head,), ruled=True)]
    for (part, index), count in used.items():
        donor = parts[part]
        hole = donor.cut_outs[index]
        inside = hole.x > 0 and hole.y > 0
        inside = inside and hole.x + hole.width < donor.width
        window = inside and hole.y + hole.height < donor.height
        how = "plunge in and saw round inside its lines" if window else "saw inside its lines"
        rows += paragraph(
            f"{plain(part)}: cut-out {index + 1}, {mm(hole.width)} × {mm(hole.height)}, "
            f"{count} ×: {how}",
            width,
        )
    return rows


def cut_out_text(work: CutOutWork, part: BoardPart) -> str:
    """Say which sides of a cut-out are sawn and snapped, by their sizes: they hold as it lies."""
    hole = part.cut_outs[work.cut_out]
    name = f"{plain(part.id)}: {work.shape} {mm(hole.width)} × {mm(hole.height)}"
    if work.shape == "window":
        return f"{name}: saw all sides"
    sawn, snapped = _size(hole, work.saw[0]), _size(hole, work.snap[0])
    if work.shape == "U-notch":
        return f"{name}: saw both {sawn} legs, snap the {snapped} base"
    if sawn == snapped:
        return f"{name}: saw one leg, snap the other"
    return f"{name}: saw the {sawn} leg, snap the {snapped} one"


def _size(hole: CutOut, side: str) -> str:
    return mm(hole.height if side in ("left", "right") else hole.width)


def list_entries(layout: SheetLayout, material: SheetMaterial) -> list[Entry]:
    """Return what the legend says of the list: numbers, settings, edges, and what is sawn."""
    entries = [
        text_entry("cut number, and its setting on the piece", "3 | 610"),
        text_entry("near and far piece of cut 3", "3a 3b", bold=False),
    ]
    edges = {cut.edge for cut in layout.cuts}
    if any(edge.startswith("cut ") for edge in edges):
        entries.append(text_entry("measured from the edge that cut 3 made", "cut 3", bold=False))
    if material.cutting is Cutting.KNIFE and any(cut.tool == "saw" for cut in layout.cuts):
        entries.append(text_entry("strip under 50: saw, do not snap", "saw"))
    return entries
