"""Every drawing of a plan and its walls, by a file name that is safe anywhere."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

import optimiser as lib
from optimiser import CuttingPlan, CuttingRequest, Frame


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawing:
    """One SVG: its file name without ending, and what it shows."""

    name: str
    title: str
    svg: str


def safe_name(text: str) -> str:
    """Make a file name of any text: lower case, digits and hyphens."""
    return re.sub(r"[^a-z0-9.]+", "-", text.lower()).strip("-.") or "unnamed"


def safe_names(texts: Iterable[str]) -> dict[str, str]:
    """Name each text for files; texts that would share a name get a number behind it."""
    names: dict[str, str] = {}
    for text in dict.fromkeys(texts):
        name = base = safe_name(text)
        number = 1
        while name in names.values():
            number += 1
            name = f"{base}-{number}"
        names[text] = name
    return names


def cutting_drawings(request: CuttingRequest, plan: CuttingPlan) -> Iterator[Drawing]:
    """Draw one page or more of lengths per section, and one page per sheet layout."""
    jobs = tuple(dict.fromkeys(part.job for item in request.materials for part in item.parts))
    names = safe_names(item.material for item in plan.materials)
    for lengths, asked in zip(plan.lengths, request.lengths, strict=True):
        pages = lib.draw_length_plan(lengths, asked, title=lengths.material, jobs=jobs)
        for number, svg in enumerate(pages, start=1):
            yield Drawing(
                name=f"{names[lengths.material]}-page-{number}",
                title=f"{lengths.material}, page {number} of {len(pages)}",
                svg=svg,
            )
    for sheets, board in zip(plan.sheets, request.sheets, strict=True):
        for number, layout in enumerate(sheets.layouts, start=1):
            title = f"{sheets.material}, layout {number} of {len(sheets.layouts)}"
            yield Drawing(
                name=f"{names[sheets.material]}-layout-{number}",
                title=title,
                svg=lib.draw_sheet_layout(
                    layout,
                    board,
                    number=number,
                    of=len(sheets.layouts),
                    title=sheets.material,
                    jobs=jobs,
                    layouts=sheets.layouts,
                ),
            )


def wall_drawings(frames: tuple[Frame, ...], cut_at: Sequence[int] = ()) -> Iterator[Drawing]:
    """Draw each framed wall: its members, the boards of each layer, the frame in space, its boxes.

    `cut_at` are heights in tenths above the floor datum for plans beside those of the openings.
    """
    names = safe_names(frame.job for frame in frames)
    for frame in frames:
        name = names[frame.job]
        yield Drawing(
            name=f"{name}-frame",
            title=f"Job {frame.job}: frame",
            svg=lib.draw_elevation(frame, title=f"Job {frame.job}: frame"),
        )
        layers = lib.front_layers(frame)
        for layer in layers:
            title = f"Job {frame.job}: boards" + (f", layer {layer}" if len(layers) > 1 else "")
            yield Drawing(
                name=f"{name}-boards-{layer}",
                title=title,
                svg=lib.draw_boarding(frame, title=title, layer=layer),
            )
        yield from _sections(frame, name, cut_at)
        title = f"Job {frame.job}: pictorial view of the frame"
        yield Drawing(
            name=f"{name}-pictorial", title=title, svg=lib.draw_pictorial(frame, title=title)
        )
        groups = tuple(dict.fromkeys(member.group for member in frame.members))
        parts = safe_names(groups)
        for group in groups:
            title = f"Job {frame.job}: {group}"
            svg = lib.draw_box(frame, group, title=title)
            yield Drawing(name=f"{name}-box-{parts[group]}", title=title, svg=svg)


def _sections(frame: Frame, name: str, cut_at: Sequence[int]) -> Iterator[Drawing]:
    """Cut the wall level and upright through the middle of each opening, or of a plain wall."""
    heights = {opening.z + opening.height // 2 for opening in frame.openings} or {10_000}
    heights |= set(cut_at)
    places = {opening.x + opening.width // 2 for opening in frame.openings} or {frame.width // 2}
    for number, height in enumerate(sorted(heights), start=1):
        title = f"Job {frame.job}: plan {lib.mm(height)} above the floor datum"
        svg = lib.draw_plan_section(frame, height=height, title=title)
        yield Drawing(name=f"{name}-plan-{number}", title=title, svg=svg)
    for number, place in enumerate(sorted(places), start=1):
        title = f"Job {frame.job}: upright section {lib.mm(place)} from the left end"
        svg = lib.draw_upright_section(frame, place=place, title=title)
        yield Drawing(name=f"{name}-section-{number}", title=title, svg=svg)


def set_out_sheets(frames: tuple[Frame, ...]) -> dict[str, str]:
    """Write the set-out sheet of each framed wall, by the name of its file."""
    names = safe_names(frame.job for frame in frames)
    return {
        f"{names[frame.job]}-set-out.txt": lib.set_out_text(frame, cautions=lib.CAUTIONS)
        for frame in frames
    }
