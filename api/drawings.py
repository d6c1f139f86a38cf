"""Every drawing of a plan and its walls, by a file name that is safe anywhere."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from typing import TYPE_CHECKING

import optimiser as lib

if TYPE_CHECKING:
    from optimiser import CuttingPlan, CuttingRequest, Frame, Page


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawing:
    """One drawing: its file name without ending, what it shows, and the page."""

    name: str
    title: str
    page: Page

    @property
    def svg(self) -> str:
        """Return the drawing for paper and desk as SVG text."""
        return lib.svg_text(self.page)

    def drawn(self) -> Drawn:
        """Return the drawing as text, for desk and phone."""
        phone = lib.phone_svg(self.page)
        return Drawn(name=self.name, title=self.title, svg=self.svg, phone=phone)


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """A drawing as SVG text, for desk and paper and for a phone: what goes into a folder."""

    name: str
    title: str
    svg: str
    phone: str


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


@dataclass(frozen=True, slots=True, kw_only=True)
class Sketch:
    """A diagram that is drawn when asked for: a plan can have hundreds, and one is looked at."""

    name: str
    title: str
    material: str
    draw: Callable[[], str]


def cutting_drawings(request: CuttingRequest, plan: CuttingPlan) -> Iterator[Drawing]:
    """Draw one page or more of lengths per section, and of each sheet layout."""
    for sheet in _cutting(request, plan):
        for number, page in enumerate(sheet.pages(), start=1):
            more = f"-more-{number - 1}" if number > 1 else ""
            title = f"{sheet.title}, continued" if number > 1 else sheet.title
            yield Drawing(name=f"{sheet.name}{more}", title=title, page=page)


def cutting_sketches(request: CuttingRequest, plan: CuttingPlan) -> Iterator[Sketch]:
    """Name every cutting diagram of a plan. How many pages lengths take is known when drawn."""
    for sheet in _cutting(request, plan):
        yield Sketch(
            name=sheet.name,
            title=sheet.title,
            material=sheet.material,
            draw=partial(_first, sheet.pages),
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Sheet:
    """A diagram of a plan: the first of its `pages` shows it, the others go on with its cuts."""

    name: str
    title: str
    material: str
    pages: Callable[[], tuple[Page, ...]]


def _first(pages: Callable[[], tuple[Page, ...]]) -> str:
    return lib.svg_text(pages()[0])


def _cutting(request: CuttingRequest, plan: CuttingPlan) -> Iterator[_Sheet]:
    jobs = tuple(dict.fromkeys(part.job for item in request.materials for part in item.parts))
    names = safe_names(item.material for item in plan.materials)
    for lengths, asked in zip(plan.lengths, request.lengths, strict=True):
        pages = lib.length_pages(lengths, asked, title=lengths.material, jobs=jobs)
        for number, page in enumerate(pages, start=1):
            yield _Sheet(
                name=f"{names[lengths.material]}-page-{number}",
                title=f"{lengths.material}, page {number} of {len(pages)}",
                material=lengths.material,
                pages=partial(tuple[lib.Page, ...], (page,)),
            )
    for sheets, board in zip(plan.sheets, request.sheets, strict=True):
        for number, layout in enumerate(sheets.layouts, start=1):
            yield _Sheet(
                name=f"{names[sheets.material]}-layout-{number}",
                title=f"{sheets.material}, layout {number} of {len(sheets.layouts)}",
                material=sheets.material,
                pages=partial(
                    lib.sheet_pages,
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
        groups = safe_names(member.group for member in frame.members)
        for drawing in lib.wall_set(frame, cut_at=cut_at):
            which = groups[drawing.which] if drawing.kind == "box" else drawing.which
            name = "-".join(word for word in (names[frame.job], drawing.kind, which) if word)
            yield Drawing(name=name, title=drawing.page.title, page=drawing.page)


def drawing_files(drawings: Iterable[Drawn], folder: str = "") -> dict[str, str]:
    """Return each drawing by the name of its file, those for a phone in a folder beside it."""
    files: dict[str, str] = {}
    for drawing in drawings:
        files[f"{folder}{drawing.name}.svg"] = drawing.svg
        files[f"{folder}phone/{drawing.name}.svg"] = drawing.phone
    return files


def set_out_sheets(frames: tuple[Frame, ...]) -> dict[str, str]:
    """Write the set-out sheet of each framed wall, by the name of its file."""
    names = safe_names(frame.job for frame in frames)
    return {
        f"{names[frame.job]}-set-out.txt": lib.set_out_text(frame, cautions=lib.CAUTIONS)
        for frame in frames
    }
