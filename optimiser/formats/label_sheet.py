"""A sheet of labels as a document (TOML): its sizes as they are printed on the packet."""

from __future__ import annotations

from typing import Annotated

from pydantic import BeforeValidator, Field

from optimiser.domain.label_sheet import LabelSheet
from optimiser.errors import InvalidInput, Problem
from optimiser.formats.fields import Document, read_document, read_toml

# Below this neither words nor code can be read (our own trials); above it no office printer prints.
_LEAST_WIDTH, _LEAST_HEIGHT, _LARGEST = 30.0, 15.0, 1000.0
_MOST_LABELS = 100
# Makers round to hundredths: sums of them may exceed a page by this much.
_SLACK = 0.05


def _paper(value: object) -> float:
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise ValueError("a size of paper is a number of mm, such as 63.5, without quotes or unit")
    if not 0 <= value <= _LARGEST:
        raise ValueError(f"a size of paper is from 0 to {_LARGEST:g} mm")
    return float(value)


PaperSize = Annotated[
    float,
    BeforeValidator(_paper),
    Field(json_schema_extra={"type": "number", "minimum": 0, "maximum": _LARGEST}),
]
Labels = Annotated[int, Field(ge=1, le=_MOST_LABELS, strict=True)]


class LabelSheetModel(Document):
    """A sheet of labels. Paper left out is A4; gaps left out are none."""

    page_width_mm: PaperSize = 210.0
    page_height_mm: PaperSize = 297.0
    columns: Labels
    rows: Labels
    label_width_mm: PaperSize
    label_height_mm: PaperSize
    left_mm: PaperSize
    top_mm: PaperSize
    gap_across_mm: PaperSize = 0.0
    gap_down_mm: PaperSize = 0.0


def read_label_sheet(text: str, *, name: str) -> LabelSheet:
    """Read a sheet of labels from TOML text. Raises InvalidInput with every fault of it."""
    content = read_toml(text, name=name, smaller="Give one sheet of labels")
    return label_sheet_from_document(content, name=name)


def label_sheet_from_document(content: object, *, name: str) -> LabelSheet:
    """Read a sheet of labels from plain values. Raises InvalidInput with every fault of it."""
    model = read_document(content, LabelSheetModel, name=name)
    problems = [
        Problem(f"{name}: {field}", trouble, remedy) for field, trouble, remedy in _faults(model)
    ]
    if problems:
        raise InvalidInput(tuple(problems))
    return LabelSheet(
        page_width=model.page_width_mm,
        page_height=model.page_height_mm,
        columns=model.columns,
        rows=model.rows,
        label_width=model.label_width_mm,
        label_height=model.label_height_mm,
        left=model.left_mm,
        top=model.top_mm,
        gap_across=model.gap_across_mm,
        gap_down=model.gap_down_mm,
    )


def _faults(model: LabelSheetModel) -> list[tuple[str, str, str]]:
    faults = []
    least = (
        ("label_width_mm", model.label_width_mm, _LEAST_WIDTH),
        ("label_height_mm", model.label_height_mm, _LEAST_HEIGHT),
    )
    for field, size, smallest in least:
        if size < smallest:
            trouble = f"{size:g} mm is too small for words and a code"
            faults.append((field, trouble, f"Use labels of {smallest:g} mm or more"))
    across = _reach(model.left_mm, model.columns, model.label_width_mm, model.gap_across_mm)
    down = _reach(model.top_mm, model.rows, model.label_height_mm, model.gap_down_mm)
    for field, reach, page, margin in (
        ("columns", across, model.page_width_mm, "left_mm"),
        ("rows", down, model.page_height_mm, "top_mm"),
    ):
        if reach > page + _SLACK:
            trouble = f"with margin and gaps they reach {reach:g} mm on a page of {page:g} mm"
            faults.append((field, trouble, f"Check {field}, {margin}, the label and the gaps"))
    return faults


def _reach(margin: float, count: int, size: float, gap: float) -> float:
    return round(margin + count * size + (count - 1) * gap, 3)
