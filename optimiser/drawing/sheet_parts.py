"""What lies on a sheet: parts with their cut-outs, offcuts and scrap, and all their labels.

A part too small for its label gets a small letter, explained beside the sheet. Cut-outs belong to
the part's own frame; `lying` is the one place that knows how a quarter turn moves them.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from optimiser.domain.parts import BoardPart, CutOut
from optimiser.domain.plan import Leftover, PlacedBoard, SheetLayout
from optimiser.drawing.flags import Flag
from optimiser.drawing.hatch import Fill, JobMark, filled, job_symbol, part_tag
from optimiser.drawing.labels import Block, Glyph, Placed, fit, turn_glyph
from optimiser.drawing.letters import plain, shorten
from optimiser.drawing.page import OFFCUT_PEN, SCRAP_PEN
from optimiser.drawing.scene import (
    FINE,
    GREY,
    INK,
    PAPER,
    THIN,
    Area,
    Item,
    Line,
    Pen,
    Rect,
    Strokes,
    View,
)
from optimiser.units import Tenths, mm

_ROOM_FOR_SHORTENED = 16.0


@dataclass(slots=True)
class Contents:
    """All that lies on the sheet: grounds first, labels above them.

    Not frozen, as it is filled label by label: each must know where the ones before it stand.
    """

    grounds: list[Item] = field(default_factory=list)
    labels: list[Item] = field(default_factory=list)
    taken: list[Area] = field(default_factory=list)
    led_out: list[Flag] = field(default_factory=list)
    key: dict[str, str] = field(default_factory=dict)
    unlabelled: list[str] = field(default_factory=list)

    def key_for(self, text: str) -> str:
        """Return the small letter that stands for `text`, the same for equal parts."""
        return self.key.setdefault(text, small_letter(len(self.key)))

    def add(self, placed: Placed) -> None:
        """Add a label and keep its room clear of others."""
        self.labels += placed.items
        self.taken.append(placed.area)


def lying(cut_out: CutOut, part: BoardPart, *, turned: bool) -> CutOut:
    """Return a cut-out as it lies on the sheet, from the lower left corner of the placed part.

    A turned part lies a quarter turn anticlockwise: what was its left edge is now its lower edge.
    The cut-out at (x, y) of size w × h then lies at (part height − (y + h), x) with size h × w.
    """
    if not turned:
        return cut_out
    return CutOut(
        x=Tenths(part.height - (cut_out.y + cut_out.height)),
        y=cut_out.x,
        width=cut_out.height,
        height=cut_out.width,
    )


def small_letter(index: int) -> str:
    """Return a, b, … z, aa, ab …: never to be taken for the number of a cut."""
    tens, ones = divmod(index, 26)
    return (small_letter(tens - 1) if tens else "") + chr(97 + ones)


def size_text(width: int, height: int) -> str:
    """Write a size as it lies: across × up."""
    return f"{mm(width)} × {mm(height)}"


def contents(
    layout: SheetLayout,
    parts: Mapping[str, BoardPart],
    marks: Mapping[str, JobMark],
    names: Mapping[str, str],
    view: View,
    *,
    width: int,
) -> Contents:
    """Return what lies on a sheet `width` tenths wide. Raises KeyError for an unknown part."""
    found = Contents()
    for scrap in layout.scrap:
        _add_ground(found, view.area(scrap.x, scrap.y, scrap.width, scrap.height), "scrap")
    for offcut in layout.offcuts:
        _add_ground(found, view.area(offcut.x, offcut.y, offcut.width, offcut.height), "offcut")
    holes = [_add_part(found, placed, parts[placed.part], marks, view) for placed in layout.parts]
    # Offcuts first: what is kept must be told from scrap at a glance.
    for offcut in layout.offcuts:
        _label_leftover(found, offcut, "offcut", view)
    for placed, areas in sorted(
        zip(layout.parts, holes, strict=True), key=lambda pair: -pair[0].width * pair[0].height
    ):
        _label_part(found, placed, areas, marks[placed.job], names, view, edge=view.x(width))
    for placed, areas in zip(layout.parts, holes, strict=True):
        _label_cut_outs(found, placed, parts[placed.part], areas)
    for scrap in layout.scrap:
        _label_leftover(found, scrap, "scrap", view)
    return found


def draw_cut_out(area: Area) -> tuple[Item, ...]:
    """Return a cut-out: white, outlined, with both diagonals."""
    diagonals = (
        (area.x, area.y, area.right, area.bottom),
        (area.x, area.bottom, area.right, area.y),
    )
    return (Rect(area, PAPER, Pen(INK, THIN)), Strokes(diagonals, Pen(GREY, FINE)))


def _add_ground(found: Contents, area: Area, kind: str) -> None:
    if kind == "scrap":
        found.grounds += (*filled(area, Fill.CROSSED), Rect(area, "none", SCRAP_PEN))
    else:
        inset = min(0.4, area.width / 4, area.height / 4)
        found.grounds += (
            *filled(area, Fill.NONE),
            Rect(area.grown(-inset), "none", OFFCUT_PEN),
        )


def _add_part(
    found: Contents,
    placed: PlacedBoard,
    part: BoardPart,
    marks: Mapping[str, JobMark],
    view: View,
) -> list[Area]:
    """Draw a part and its cut-outs; return where the cut-outs lie."""
    area = view.area(placed.x, placed.y, placed.width, placed.height)
    found.grounds += filled(area, marks[placed.job].fill)
    found.grounds.append(Rect(area, "none", Pen(INK, THIN)))
    holes = []
    for cut_out in part.cut_outs:
        hole = lying(cut_out, part, turned=placed.turned)
        place = placed.x + hole.x, placed.y + hole.y
        holes.append(view.area(*place, hole.width, hole.height))
        found.grounds += draw_cut_out(holes[-1])
    return holes


def _label_part(
    found: Contents,
    placed: PlacedBoard,
    holes: Sequence[Area],
    mark: JobMark,
    names: Mapping[str, str],
    view: View,
    *,
    edge: float,
) -> None:
    area = view.area(placed.x, placed.y, placed.width, placed.height)
    taken = [*found.taken, *holes]
    name = plain(names.get(placed.part, ""))
    label = fit(_part_blocks(placed, mark, name, area), area.grown(-0.1), taken)
    if label:
        found.add(label)
        return
    tag = part_tag(placed.part, mark)
    size = size_text(placed.width, placed.height)
    turned = ", turned" if placed.turned else ""
    key = found.key_for(" ".join(word for word in (tag, name, size + turned) if word))
    # A lone small letter keeps clear of the edges even where its line would not.
    label = fit([Block((key,))], area.grown(0.2), taken)
    if label:
        found.add(label)
        return
    x, y = area.middle
    found.grounds.append(Line(x, y, edge, y, Pen(INK, FINE)))
    found.led_out.append(Flag(y, (f"part {key}",)))


def _part_blocks(placed: PlacedBoard, mark: JobMark, name: str, area: Area) -> list[Block]:
    identity = plain(placed.part)
    size = size_text(placed.width, placed.height)
    tag = part_tag(placed.part, mark)

    def symbol(x: float, y: float) -> tuple[Item, ...]:
        return job_symbol(mark, x, y)

    turn: tuple[Glyph, ...] = (turn_glyph,) if placed.turned else ()
    marked: tuple[Glyph, ...] = (symbol, *turn)
    blocks = [Block((identity, name, size), marked, (2,))] if name else []
    blocks += [Block((f"{identity} {name}", size), marked, (1,))] if name else []
    blocks += [
        Block((identity, size), marked, (1,)),
        Block((f"{identity} {size}",), marked),
        Block((tag, size), turn, (1,)),
        Block((f"{tag} {size}",), turn),
        # Without the turn sign: the sizes are written as they lie, so nothing is lost at the saw.
        Block((tag, size), bold=(1,)),
        Block((f"{tag} {size}",)),
    ]
    room = max(area.width, area.height) - 2
    if room >= _ROOM_FOR_SHORTENED:
        blocks.append(Block((shorten(tag, room), size), turn, (1,)))
    return blocks


def _label_cut_outs(
    found: Contents, placed: PlacedBoard, part: BoardPart, holes: Sequence[Area]
) -> None:
    for cut_out, area in zip(part.cut_outs, holes, strict=True):
        hole = lying(cut_out, part, turned=placed.turned)
        size = size_text(hole.width, hole.height)
        place = f"at {mm(hole.x)}, {mm(hole.y)}"
        blocks = [Block((size, place)), Block((f"{size} {place}",))]
        label = fit(blocks, area.grown(-0.2), found.taken)
        if label:
            found.add(label)
        else:
            found.unlabelled.append(f"{plain(placed.part)}: cut-out {size} {place}")


def _label_leftover(found: Contents, leftover: Leftover, kind: str, view: View) -> None:
    area = view.area(leftover.x, leftover.y, leftover.width, leftover.height)
    size = size_text(leftover.width, leftover.height)
    bold = (0, 1) if kind == "offcut" else ()
    blocks = [Block((kind, size), bold=bold), Block((f"{kind} {size}",), bold=bold[:1])]
    label = fit(blocks, area.grown(-0.6), found.taken)
    if label is None:
        label = fit([Block((kind,), bold=bold[:1])], area, found.taken)
    if label:
        found.add(label)
