"""Labels on sheets of the user's own size: one for each part as it is cut, or each offcut racked.

Each label holds a QR code, what the piece is, its size, and where it comes from, within the label
and clear of its edges by a margin, since printers feed paper by a millimetre or so off.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from urllib.parse import quote

from optimiser.documents.flow import broken
from optimiser.documents.pdf import pdf_bytes
from optimiser.documents.placed import Placed, placed_parts
from optimiser.documents.qr import qr_code
from optimiser.domain.label_sheet import LabelSheet
from optimiser.domain.plan import CuttingPlan
from optimiser.domain.request import CuttingRequest
from optimiser.drawing.hatch import MARK_SIZE, JobMark, job_marks, job_symbol
from optimiser.drawing.letters import plain, shorten, text_width
from optimiser.drawing.scene import Area, Item, Page, Text
from optimiser.errors import invalid
from optimiser.units import mm

# What printers and their feeds are off by, kept free inside each label's edge: common practice,
# no source.
_INSIDE = 2.0
_GAP = 1.5
_LARGE, _SIZE, _SMALL = 4.2, 3.6, 2.3
# The least height at which a label's words and code are still read by people and phones.
LEAST_HEIGHT, LEAST_WIDTH = 15.0, 30.0


@dataclass(frozen=True, slots=True, kw_only=True)
class RackLabel:
    """An offcut to be labelled; `size` and `place` as people write them."""

    label: str
    material: str
    size: str
    place: str = ""


@dataclass(frozen=True, slots=True)
class _Label:
    """What stands on one label: its code, a line in bold, its size, further lines, a job's mark."""

    code: str
    name: str
    size: str
    more: tuple[str, ...]
    mark: JobMark | None = None


def part_labels_pdf(
    request: CuttingRequest,
    plan: CuttingPlan,
    sheet: LabelSheet,
    *,
    title: str,
    first: int = 1,
    saw_address: str = "",
) -> bytes:
    """Return a label for each part of a plan, in the order of cutting, as PDF.

    `first` is the label on the first sheet that is still there, counted from 1 along the rows. The
    codes hold the part's id and job, or the `saw_address` with the material and layout behind "#".
    Raises InvalidInput when the sheet has no such label, or the plan has no part.
    """
    jobs = {part.job for item in request.materials for part in item.parts}
    marks = job_marks(jobs)
    labels = [
        _Label(
            code=part_code(item, saw_address),
            name=item.part,
            size=item.size,
            more=(
                *((item.name,) if item.name else ()),
                f"job {item.job}" + (f" · {item.number} of {item.of} alike" if item.of > 1 else ""),
                item.material,
                f"layout {item.layout}" + (f", piece {item.copy}" if item.copy > 1 else ""),
            ),
            mark=marks[item.job],
        )
        for item in placed_parts(request, plan)
    ]
    return _sheets(labels, sheet, title=title, first=first)


def rack_labels_pdf(
    offcuts: Iterable[RackLabel], sheet: LabelSheet, *, title: str, first: int = 1
) -> bytes:
    """Return a label for each offcut as PDF; its code is the offcut's own label and nothing else.

    Raises InvalidInput when the sheet has no label number `first`, or there is no offcut.
    """
    labels = [
        _Label(
            code=item.label,
            name=item.label,
            size=item.size,
            more=(item.material, *((f"place {item.place}",) if item.place else ()), "offcut"),
        )
        for item in offcuts
    ]
    return _sheets(labels, sheet, title=title, first=first)


def part_code(part: Placed, saw_address: str = "") -> str:
    """Return what a part's code says: its id and job, or the address of its layout at the saw."""
    if saw_address:
        return f"{saw_address}#{quote(part.material, safe='')}-{part.layout}"
    return f"{part.part}\njob {part.job}"


def _sheets(labels: Sequence[_Label], sheet: LabelSheet, *, title: str, first: int) -> bytes:
    if not 1 <= first <= sheet.count:
        trouble = f"{first} is not on a sheet of {sheet.count} labels"
        raise invalid("first label", trouble, f"Give a number from 1 to {sheet.count}")
    if not labels:
        raise invalid("labels", "there is nothing to label", "Print labels once there is")
    pages: list[list[Item]] = []
    for place, label in enumerate(labels, start=first - 1):
        number, on_sheet = divmod(place, sheet.count)
        if number == len(pages):
            pages.append([])
        x, y = sheet.corner(on_sheet)
        pages[-1] += _draw(label, Area(x, y, sheet.label_width, sheet.label_height))
    size = sheet.page_width, sheet.page_height
    return pdf_bytes([Page(*size, title, tuple(items)) for items in pages], title=title)


def _draw(label: _Label, area: Area) -> tuple[Item, ...]:
    room = area.grown(-_INSIDE)
    # The quiet zone is part of the code's area, so it may reach to the margin.
    side = min(room.height, room.width * 0.42)
    code = qr_code(label.code, Area(room.x, room.y, side, side))
    x = room.x + side + _GAP
    return (*code, *_words(label, Area(x, room.y, room.right - x, room.height)))


def _words(label: _Label, room: Area) -> list[Item]:
    """Draw as many lines as the label is high, the most telling first."""
    items: list[Item] = []
    y = room.y
    left = room.x
    if label.mark is not None:
        items += job_symbol(label.mark, left + MARK_SIZE / 2, y + MARK_SIZE / 2 + 0.2)
        left += MARK_SIZE + 1.2
    name = plain(label.name)
    size = next((s for s in (_LARGE, 3.6, 3.0, 2.6) if _wide(name, s) <= room.right - left), _SMALL)
    lines = broken(name, room.right - left, size, bold=True)
    for line in lines[:2]:
        items.append(Text(left, y + max(size, 3.4), line, size, bold=True))
        y += max(size, 3.4) * 1.25
    y = max(y, room.y + MARK_SIZE + 0.8)
    figure = next((s for s in (_SIZE, 3.0, 2.6) if _wide(label.size, s) <= room.width), _SMALL)
    items.append(Text(room.x, y + figure, label.size, figure, bold=True))
    y += figure * 1.4
    for line in label.more:
        if y + _SMALL > room.bottom + 0.1:
            break
        items.append(Text(room.x, y + _SMALL, shorten(plain(line), room.width, _SMALL), _SMALL))
        y += _SMALL * 1.35
    return items


def _wide(text: str, size: float) -> float:
    return text_width(text, size, bold=True)


def offcut_size(length: int | None, width: int | None, height: int | None) -> str:
    """Write the size of an offcut, a length or a board, as people do."""
    if length is not None:
        return mm(length)
    return f"{mm(width or 0)} × {mm(height or 0)}"
