"""The only module that knows ezdxf: board layouts as DXF in millimetres, one beside the other.

Each layout stands once, in its own rectangle as bought, with its number, stock and count below.
Layers part what is cut from what is left. The file's own ids and dates differ each time it is
written; what is drawn does not.
"""

from __future__ import annotations

import io
from collections.abc import Mapping
from typing import TYPE_CHECKING

from optimiser.documents.placed import stock_name
from optimiser.domain.parts import BoardPart
from optimiser.domain.plan import CuttingPlan, SheetLayout
from optimiser.domain.request import CuttingRequest
from optimiser.drawing.letters import plain
from optimiser.drawing.sheet_cuts import Bought, cut_lines
from optimiser.drawing.sheet_parts import lying
from optimiser.drawing.sheets import bought_sheet
from optimiser.errors import invalid
from optimiser.units import mm

if TYPE_CHECKING:
    from ezdxf.document import Drawing
    from ezdxf.layouts.layout import Modelspace

# Layer and its colour by number, as any reader of DXF shows them: black-and-white
# first, so that a plot without colours loses nothing.
LAYERS = {
    "SHEET": 7,
    "TRIM": 8,
    "PART": 7,
    "CUT-OUT": 1,
    "CUT": 5,
    "OFFCUT": 3,
    "SCRAP": 8,
    "TEXT": 7,
}
_BETWEEN = 600.0
_IN_A_ROW = 10
_TEXT_HEIGHT = 30.0
_CAPTION = 60.0


def layouts_dxf(request: CuttingRequest, plan: CuttingPlan) -> bytes:
    """Return all board layouts of a plan as DXF (R2010), millimetres.

    A cut is a line where the near side of the blade runs, from edge to edge of what it divides.
    Raises InvalidInput when the plan cuts no board.
    """
    if not any(sheets.layouts for sheets in plan.sheets):
        raise invalid("plan", "cuts no board", "DXF is for boards: take the booklet for lengths")
    document = _empty()
    space = document.modelspace()
    y = 0.0
    for sheets, asked in zip(plan.sheets, request.sheets, strict=True):
        parts = {part.id: part for part in asked.parts}
        x, highest = 0.0, 0.0
        for number, layout in enumerate(sheets.layouts, start=1):
            bought = bought_sheet(layout, asked)
            if (number - 1) % _IN_A_ROW == 0 and number > 1:
                y -= highest + _BETWEEN
                x, highest = 0.0, 0.0
            height = bought.height / 10
            _draw(space, layout, parts, bought, (x, y - height))
            stock = stock_name(layout)
            size = f"{mm(bought.width)} x {mm(bought.height)}"
            caption = (
                f"{sheets.material}, layout {number} of {len(sheets.layouts)}, x {layout.count}"
            )
            _text(space, caption, x, y - height - _CAPTION, _TEXT_HEIGHT * 1.3)
            _text(space, f"{stock}, {size}", x, y - height - 2 * _CAPTION, _TEXT_HEIGHT)
            x += bought.width / 10 + _BETWEEN
            highest = max(highest, height)
        y -= highest + 2 * _BETWEEN
    text = io.StringIO()
    document.write(text)
    return text.getvalue().encode("utf-8")


def _empty() -> Drawing:
    from ezdxf import units
    from ezdxf.filemanagement import new

    document = new("R2010", units=units.MM)
    document.header["$MEASUREMENT"] = 1
    for name, colour in LAYERS.items():
        document.layers.add(name, color=colour)
    return document


def _draw(
    space: Modelspace,
    layout: SheetLayout,
    parts: Mapping[str, BoardPart],
    bought: Bought,
    corner: tuple[float, float],
) -> None:
    _rectangle(space, "SHEET", corner, 0, 0, bought.width, bought.height)
    trim = bought.trim
    if trim.across or trim.along:
        inner = bought.width - trim.across, bought.height - trim.along
        _rectangle(space, "TRIM", corner, trim.left, trim.bottom, *inner)
    for part in layout.parts:
        _rectangle(space, "PART", corner, part.x, part.y, part.width, part.height)
        for hole in parts[part.part].cut_outs:
            lies = lying(hole, parts[part.part], turned=part.turned)
            place = part.x + lies.x, part.y + lies.y
            _rectangle(space, "CUT-OUT", corner, *place, lies.width, lies.height)
        high = min(_TEXT_HEIGHT, part.height / 40, part.width / 10 / max(4, len(part.part)))
        x, y = corner[0] + part.x / 10 + high / 2, corner[1] + part.y / 10 + high / 2
        _text(space, part.part, x, y, high)
    for kind, rectangles in (("OFFCUT", layout.offcuts), ("SCRAP", layout.scrap)):
        for rest in rectangles:
            _rectangle(space, kind, corner, rest.x, rest.y, rest.width, rest.height)
    for cut in cut_lines(layout, bought):
        start = corner[0] + cut.x / 10, corner[1] + cut.y / 10
        along = (0.0, cut.height / 10) if cut.rip else (cut.width / 10, 0.0)
        end = start[0] + along[0], start[1] + along[1]
        space.add_line(start, end, dxfattribs={"layer": "CUT"})


def _rectangle(
    space: Modelspace,
    layer: str,
    corner: tuple[float, float],
    x: int,
    y: int,
    width: int,
    height: int,
) -> None:
    left, low = corner[0] + x / 10, corner[1] + y / 10
    right, top = left + width / 10, low + height / 10
    points = [(left, low), (right, low), (right, top), (left, top)]
    space.add_lwpolyline(points, close=True, dxfattribs={"layer": layer})


def _text(space: Modelspace, text: str, x: float, y: float, height: float) -> None:
    attributes = {"layer": "TEXT", "height": height, "insert": (x, y)}
    space.add_text(plain(text), dxfattribs=attributes)
