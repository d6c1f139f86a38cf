"""Cutting diagrams of timber and bead: a strip to scale for each layout, several to a page."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from typing import TypeAlias

from optimiser.domain.plan import LengthLayout, LengthPlan
from optimiser.domain.request import LengthMaterial
from optimiser.drawing.hatch import Fill, JobMark, job_marks
from optimiser.drawing.page import (
    HEADER,
    MARGIN,
    NO_NAMES,
    OFFCUT_PEN,
    SAW_CAUTION,
    SCRAP_PEN,
    facts_of,
    fill_entry,
    footer,
    inside,
    job_entry,
    set_page,
    solid_entry,
    text_entry,
)
from optimiser.drawing.scene import (
    GREY,
    INK,
    Area,
    Entry,
    Item,
    Page,
    Paper,
    Told,
    scale_for,
    scale_text,
)
from optimiser.drawing.strips import Looks, Strip, draw_strip, stock_size
from optimiser.drawing.svg import svg_text
from optimiser.units import mm

# Paper between two strips in a row, and what labels may reach past a strip's end, in mm.
_BETWEEN, _PAST = 10.0, 6.0
# Layouts with their numbers that stand beside each other.
_Row: TypeAlias = tuple[tuple[int, LengthLayout], ...]
# A strip with all its labels, and the paper that it has to itself.
_Placed: TypeAlias = tuple[Area, tuple[Item, ...]]


def draw_length_plan(
    plan: LengthPlan,
    request_material: LengthMaterial,
    *,
    title: str,
    names: Mapping[str, str] = NO_NAMES,
    jobs: Iterable[str] = (),
) -> tuple[str, ...]:
    """Return A4 landscape pages (SVG, mm) with a strip for each layout, all at one scale.

    Strips that take less than half the paper stand two in a row.

    `names` says what people call a part, by its id, where the request does not. `jobs` lists all
    jobs of the batch, so that a job has the same mark on every drawing of it.
    Raises KeyError if a layout cuts stock or an offcut that `request_material` does not list.
    """
    pages = length_pages(plan, request_material, title=title, names=names, jobs=jobs)
    return tuple(svg_text(page) for page in pages)


def length_pages(
    plan: LengthPlan,
    request_material: LengthMaterial,
    *,
    title: str,
    names: Mapping[str, str] = NO_NAMES,
    jobs: Iterable[str] = (),
    paper: Paper = Paper.A4,
) -> tuple[Page, ...]:
    """Return the pages of `draw_length_plan` on `paper`, held level."""
    page = inside(*paper.level)
    looks = _looks(plan.layouts, request_material, names, jobs, page)
    scale = _scale(plan.layouts, request_material, page)
    _, foot = footer(_legend(plan.layouts, request_material, looks), SAW_CAUTION, page)
    room = page.height - HEADER - foot
    groups = _paginate(plan.layouts, request_material, looks, page, scale, room)
    pages = []
    for index, group in enumerate(groups, start=1):
        strips = _strips(group, request_material, looks, page, scale)
        layouts = [layout for row in group for _, layout in row]
        note = f"page {index} of {len(groups)}"
        pages.append(_page(layouts, strips, request_material, looks, page, scale, title, note))
    return tuple(pages)


def draw_length_layout(
    layout: LengthLayout,
    material: LengthMaterial,
    *,
    number: int,
    of: int,
    title: str,
    names: Mapping[str, str] = NO_NAMES,
    jobs: Iterable[str] = (),
) -> str:
    """Return one layout as SVG, as wide as A4 landscape and only as high as it needs.

    `number` and `of` count the layouts of the plan. Otherwise as `draw_length_plan`.
    """
    wide = inside(*Paper.A4.level)
    looks = _looks((layout,), material, names, jobs, wide)
    scale = _scale((layout,), material, wide)
    strip = draw_strip(
        layout, material, looks, number=number, left=wide.x, top=wide.y + HEADER, scale=scale
    )
    _, foot = footer(_legend((layout,), material, looks), SAW_CAUTION, wide)
    page = Area(wide.x, wide.y, wide.width, HEADER + strip.height + foot)
    note = f"layout {number} of {of}"
    room = Area(page.x - _PAST, page.y + HEADER, page.width + 2 * _PAST, strip.height)
    placed = [(room, strip.items)]
    return svg_text(_page((layout,), placed, material, looks, page, scale, title, note))


def _looks(
    layouts: Sequence[LengthLayout],
    material: LengthMaterial,
    names: Mapping[str, str],
    jobs: Iterable[str],
    page: Area,
) -> Looks:
    known = {part.id: part.name for part in material.parts if part.name}
    placed = {part.job for layout in layouts for part in layout.parts}
    marks = job_marks({*jobs, *placed, *(part.job for part in material.parts)})
    return Looks(marks, {**known, **names}, page.x, page.right)


def _scale(layouts: Sequence[LengthLayout], material: LengthMaterial, page: Area) -> float:
    longest = max((stock_size(layout, material)[0] for layout in layouts), default=1)
    return scale_for((longest,), (page.width,))


def _paginate(
    layouts: Sequence[LengthLayout],
    material: LengthMaterial,
    looks: Looks,
    page: Area,
    scale: float,
    room: float,
) -> list[list[_Row]]:
    groups: list[list[_Row]] = [[]]
    used = 0.0
    for row in _rows(layouts, material, page, scale):
        height = max(
            strip.height for strip in _row_strips(row, material, looks, page, 0.0, scale=scale)
        )
        if groups[-1] and used + height > room:
            groups.append([])
            used = 0
        groups[-1].append(row)
        used += height
    return groups


def _rows(
    layouts: Sequence[LengthLayout], material: LengthMaterial, page: Area, scale: float
) -> Iterator[_Row]:
    """Yield the layouts in rows: two beside each other where both take less than half the paper."""
    rest = list(enumerate(layouts, start=1))
    half = (page.width - _BETWEEN) / 2
    while rest:
        short = [
            stock_size(layout, material)[0] / 10 / scale <= half - _PAST for _, layout in rest[:2]
        ]
        taken = 2 if len(short) == 2 and all(short) else 1
        yield tuple(rest[:taken])
        del rest[:taken]


def _row_strips(
    row: _Row,
    material: LengthMaterial,
    looks: Looks,
    page: Area,
    top: float,
    *,
    scale: float,
) -> Iterator[Strip]:
    half = (page.width - _BETWEEN) / 2
    for place, (number, layout) in enumerate(row):
        left = page.x + place * (half + _BETWEEN)
        right = page.right if len(row) == 1 else left + half
        own = replace(looks, low=left, high=right)
        yield draw_strip(layout, material, own, number=number, left=left, top=top, scale=scale)


def _strips(
    group: Sequence[_Row],
    material: LengthMaterial,
    looks: Looks,
    page: Area,
    scale: float,
) -> list[_Placed]:
    placed: list[_Placed] = []
    top = page.y + HEADER
    for row in group:
        strips = list(_row_strips(row, material, looks, page, top, scale=scale))
        high = max(strip.height for strip in strips)
        step = page.width / len(strips)
        for place, strip in enumerate(strips):
            # Its first place is written under the end of the stock, half of it beyond.
            room = Area(page.x - _PAST + place * step, top, step + 2 * _PAST, high)
            placed.append((room, strip.items))
        top += high
    return placed


def _page(
    layouts: Sequence[LengthLayout],
    strips: Sequence[_Placed],
    material: LengthMaterial,
    looks: Looks,
    page: Area,
    scale: float,
    title: str,
    note: str,
) -> Page:
    jobs = sorted({part.job for layout in layouts for part in layout.parts})
    facts = facts_of(material.material, jobs, scale_text(scale), f"kerf {mm(material.kerf)}", "mm")
    told = Told(
        heading=title,
        facts=facts,
        note=note,
        entries=_legend(layouts, material, looks),
        caution=SAW_CAUTION,
        items=tuple(item for _, items in strips for item in items),
        views=tuple(area for area, _ in strips),
    )
    size = page.width + 2 * MARGIN, page.height + 2 * MARGIN
    return set_page(size, f"{title}, {note}", told)


def _legend(
    layouts: Sequence[LengthLayout], material: LengthMaterial, looks: Looks
) -> tuple[Entry, ...]:
    """List the symbols that these layouts use, and no others."""
    jobs = sorted({part.job for layout in layouts for part in layout.parts})
    marks: list[JobMark] = [looks.marks[job] for job in jobs]
    entries = [job_entry(mark) for mark in marks]
    if any(layout.offcuts for layout in layouts):
        entries.append(fill_entry("offcut, keep", Fill.NONE, OFFCUT_PEN))
    if any(layout.scrap for layout in layouts):
        entries.append(fill_entry("scrap", Fill.CROSSED, SCRAP_PEN))
    trims = {stock_size(layout, material)[1] for layout in layouts} - {0}
    if trims:
        sizes = ", ".join(mm(trim) for trim in sorted(trims))
        entries.append(solid_entry(f"end trim {sizes}", GREY))
    if any(layout.cuts for layout in layouts):
        entries.append(solid_entry(f"kerf {mm(material.kerf)}", INK))
        entries.append(text_entry("cut number, and its place from the left end", "3 | 610"))
    return tuple(entries)
