"""Board layouts as DXF, read back by ezdxf and held against the plan."""

from __future__ import annotations

import io
from collections import Counter
from dataclasses import replace
from typing import Any

import ezdxf
import pytest
from ezdxf import recover

from optimiser.documents.dxf import LAYERS, layouts_dxf
from optimiser.errors import InvalidInput
from tests.documents.builders import Planned


@pytest.fixture(scope="module")
def document(planned: Planned) -> Any:
    found, auditor = recover.read(io.BytesIO(layouts_dxf(planned.request, planned.plan)))
    assert not auditor.errors
    assert not auditor.fixes
    return found


def outlines(document: Any, layer: str) -> list[tuple[float, float, float, float]]:
    """Return corner and size of each closed outline of a layer."""
    found = []
    for outline in document.modelspace().query(f'LWPOLYLINE[layer=="{layer}"]'):
        assert outline.closed
        xs, ys = zip(*((x, y) for x, y, *_ in outline), strict=True)
        found.append((min(xs), min(ys), max(xs) - min(xs), max(ys) - min(ys)))
    return found


def sizes(document: Any, layer: str) -> Counter[tuple[float, float]]:
    return Counter((round(w, 1), round(h, 1)) for *_, w, h in outlines(document, layer))


def layouts(planned: Planned) -> list[Any]:
    return [layout for sheets in planned.plan.sheets for layout in sheets.layouts]


def test_the_file_is_in_millimetres_on_the_layers_it_names(document: Any) -> None:
    assert document.units == ezdxf.units.MM
    assert set(LAYERS) <= {layer.dxf.name for layer in document.layers}
    assert {entity.dxf.layer for entity in document.modelspace()} <= set(LAYERS)


def test_each_part_offcut_and_scrap_of_each_layout_is_there_to_the_tenth(
    document: Any, planned: Planned
) -> None:
    for layer, kind in (("PART", "parts"), ("OFFCUT", "offcuts"), ("SCRAP", "scrap")):
        wanted = Counter(
            (piece.width / 10, piece.height / 10)
            for layout in layouts(planned)
            for piece in getattr(layout, kind)
        )
        assert sizes(document, layer) == wanted, layer
    assert len(outlines(document, "SHEET")) == len(layouts(planned))


def test_cut_outs_lie_within_their_parts(document: Any, planned: Planned) -> None:
    holes = {p.id: len(p.cut_outs) for s in planned.request.sheets for p in s.parts}
    wanted = sum(holes[part.part] for layout in layouts(planned) for part in layout.parts)

    found = outlines(document, "CUT-OUT")

    assert len(found) == wanted > 0
    parts = outlines(document, "PART")
    for x, y, w, h in found:
        assert any(
            px - 1e-6 <= x
            and py - 1e-6 <= y
            and x + w <= px + pw + 1e-6
            and y + h <= py + ph + 1e-6
            for px, py, pw, ph in parts
        )


def test_each_cut_is_a_line_within_its_sheet_and_no_two_sheets_meet(
    document: Any, planned: Planned
) -> None:
    lines = list(document.modelspace().query('LINE[layer=="CUT"]'))
    sheets = outlines(document, "SHEET")

    assert len(lines) == sum(len(layout.cuts) for layout in layouts(planned))
    for line in lines:
        start, end = line.dxf.start, line.dxf.end
        assert start.x == end.x or start.y == end.y
        assert any(
            x - 1e-6 <= min(start.x, end.x)
            and max(start.x, end.x) <= x + w + 1e-6
            and y - 1e-6 <= min(start.y, end.y)
            and max(start.y, end.y) <= y + h + 1e-6
            for x, y, w, h in sheets
        )
    for n, (x, y, w, h) in enumerate(sheets):
        for x2, y2, w2, h2 in sheets[n + 1 :]:
            assert x + w <= x2 or x2 + w2 <= x or y + h <= y2 or y2 + h2 <= y


def test_every_part_is_named_on_the_text_layer(document: Any, planned: Planned) -> None:
    texts = Counter(text.dxf.text for text in document.modelspace().query('TEXT[layer=="TEXT"]'))

    wanted = Counter(part.part for layout in layouts(planned) for part in layout.parts)
    assert {name: texts[name] for name in wanted} == wanted


def test_a_plan_without_boards_has_no_layouts_to_draw(planned: Planned) -> None:
    bare = replace(planned.plan, sheets=())

    with pytest.raises(InvalidInput, match="take the booklet"):
        layouts_dxf(replace(planned.request, sheets=()), bare)
