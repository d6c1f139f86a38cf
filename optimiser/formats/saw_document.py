"""A plan as it is cut: each layout with its pieces in their places and its cuts one by one.

Sizes in mm, measured from the lower left corner (of a length: the left end) as bought.
"""

from __future__ import annotations

from typing import Any

from optimiser.domain.plan import CuttingPlan, LengthLayout, SheetLayout
from optimiser.domain.request import CuttingRequest, LengthMaterial, SheetMaterial
from optimiser.drawing.sheet_cuts import cut_lines
from optimiser.drawing.sheets import bought_sheet
from optimiser.drawing.strips import stock_size


def saw_document(request: CuttingRequest, plan: CuttingPlan) -> dict[str, Any]:
    """Write every layout with its cuts in the order of work, what each is set to, what comes off.

    `parts_off` of a cut are the places, from 1, of the parts that it sets free. Raises KeyError for
    a plan that cuts what its request does not list.
    """
    layouts: list[dict[str, Any]] = []
    for lengths, section in zip(plan.lengths, request.lengths, strict=True):
        layouts += [
            {**_head(lengths.material, number, layout), **_length(layout, section)}
            for number, layout in enumerate(lengths.layouts, start=1)
        ]
    for sheets, board in zip(plan.sheets, request.sheets, strict=True):
        layouts += [
            {**_head(sheets.material, number, layout), **_sheet(layout, board)}
            for number, layout in enumerate(sheets.layouts, start=1)
        ]
    return {"layouts": layouts}


def _head(material: str, number: int, layout: LengthLayout | SheetLayout) -> dict[str, Any]:
    stock = layout.stock
    if isinstance(layout, SheetLayout) and layout.cut_out is not None:
        stock = f"cut-out {layout.cut_out + 1} of {stock}"
    return {
        "material": material,
        "layout": number,
        "stock": stock,
        "offcut": layout.offcut,
        "count": layout.count,
    }


def _length(layout: LengthLayout, material: LengthMaterial) -> dict[str, Any]:
    length, trim = stock_size(layout, material)
    names = {part.id: part.name for part in material.parts}
    return {
        "kind": "length",
        "width_mm": _mm(length),
        "height_mm": 0,
        "kerf_mm": _mm(material.kerf),
        "trim_mm": _mm(trim),
        "parts": [
            {
                "part": part.part,
                "job": part.job,
                "name": names.get(part.part, ""),
                **_box(part.start, 0, part.length, 0),
            }
            for part in layout.parts
        ],
        "cuts": [
            {
                "n": cut.n,
                "way": "cross",
                "set_mm": _mm(cut.at),
                "from": "left end",
                "tool": "saw",
                "parts_off": [cut.n] if cut.n <= len(layout.parts) else [],
                "line": _box(cut.at, 0, min(material.kerf, length - cut.at), 0),
            }
            for cut in layout.cuts
        ],
        "left": [
            {"keep": keep, **_box(one.start, 0, one.length, 0)}
            for keep, found in ((True, layout.offcuts), (False, layout.scrap))
            for one in found
        ],
    }


def _sheet(layout: SheetLayout, material: SheetMaterial) -> dict[str, Any]:
    bought = bought_sheet(layout, material)
    names = {part.id: part.name for part in material.parts}
    lines = {line.n: line for line in cut_lines(layout, bought)}
    boxes = {part.piece: place for place, part in enumerate(layout.parts, start=1)}
    trim = bought.trim
    pieces: dict[str, tuple[int, int, int, int]] = {
        "sheet": (trim.left, trim.bottom, *trim.inside(bought.width, bought.height))
    }
    cuts = []
    for cut in layout.cuts:
        x, y, width, height = pieces.pop(cut.of)
        rip = cut.direction == "rip"
        beyond = cut.at + material.kerf
        if rip:
            pieces[f"{cut.n}a"] = (x, y, cut.at, height)
            pieces[f"{cut.n}b"] = (x + beyond, y, max(0, width - beyond), height)
        else:
            pieces[f"{cut.n}a"] = (x, y, width, cut.at)
            pieces[f"{cut.n}b"] = (x, y + beyond, width, max(0, height - beyond))
        line = lines[cut.n]
        cuts.append(
            {
                "n": cut.n,
                "way": cut.direction,
                "set_mm": _mm(cut.at),
                "from": cut.edge or ("left edge" if rip else "lower edge"),
                "tool": cut.tool or "saw",
                "of": cut.of,
                "piece": _box(x, y, width, height),
                "parts_off": sorted(
                    boxes[name] for side in "ab" if (name := f"{cut.n}{side}") in boxes
                ),
                "line": _box(line.x, line.y, line.width, line.height),
            }
        )
    return {
        "kind": "sheet",
        "width_mm": _mm(bought.width),
        "height_mm": _mm(bought.height),
        "kerf_mm": _mm(material.kerf),
        "trim_mm": _mm(max(trim.left, trim.right, trim.bottom, trim.top)),
        "parts": [
            {
                "part": part.part,
                "job": part.job,
                "name": names.get(part.part, ""),
                "turned": part.turned,
                **_box(part.x, part.y, part.width, part.height),
            }
            for part in layout.parts
        ],
        "cuts": cuts,
        "left": [
            {"keep": keep, **_box(one.x, one.y, one.width, one.height)}
            for keep, found in ((True, layout.offcuts), (False, layout.scrap))
            for one in found
        ],
    }


def _box(x: int, y: int, width: int, height: int) -> dict[str, int | float]:
    return {"x": _mm(x), "y": _mm(y), "width": _mm(width), "height": _mm(height)}


def _mm(size: int) -> int | float:
    return size // 10 if size % 10 == 0 else size / 10
