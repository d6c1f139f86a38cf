"""The rack as a table (CSV or XLSX) or as plain values: one row an offcut."""

from __future__ import annotations

import csv
import io
from collections import Counter
from collections.abc import Sequence

from pydantic import Field, RootModel

from optimiser.domain.rack import Rack
from optimiser.domain.stock import LengthOffcut, SheetOffcut
from optimiser.errors import InvalidInput, Problem
from optimiser.formats.fields import Document, Id, Size, read_document
from optimiser.formats.table import Cells, read_table
from optimiser.units import Tenths, mm

_COLUMNS = {
    "id": ("offcut", "mark", "label"),
    "material": ("section", "board"),
    "length": ("len", "l"),
    "width": ("w",),
    "height": ("h",),
    "place": ("where", "notes", "note"),
}


# A spreadsheet takes a cell that begins with one of these for a formula; the quote stops it. The
# quote itself is in the list, so that a text which begins with one comes back as it was.
_FORMULA = ("=", "+", "-", "@", "'")


class RackOffcutModel(Document):
    """One offcut: a length, or a board by width and height."""

    id: Id
    material: Id
    length_mm: Size | None = None
    width_mm: Size | None = None
    height_mm: Size | None = None


class _RackModel(RootModel[tuple[RackOffcutModel, ...]]):
    root: tuple[RackOffcutModel, ...] = Field(max_length=50_000)


def read_rack(content: bytes, *, name: str) -> Rack:
    """Read a rack from CSV or XLSX; a column for the place is taken and left aside.

    A header with nothing below it is an empty rack.
    Raises InvalidInput with every fault of every row.
    """
    table = read_table(content, name=name, known=_COLUMNS, least=0)
    table.require("id", "material")
    problems: list[Problem] = []
    offcuts = [_offcut(Cells(table, row, problems)) for row in table.rows]
    problems += _problems(offcuts, name)
    if problems:
        raise InvalidInput(tuple(problems))
    return _rack(offcuts)


def _offcut(cells: Cells) -> RackOffcutModel:
    # The sizes are tenths already: nothing is to be read from millimetres again.
    return RackOffcutModel.model_construct(
        id=_read_text(cells.needed("id")),
        material=_read_text(cells.needed("material")),
        length_mm=_size(cells, "length"),
        width_mm=_size(cells, "width"),
        height_mm=_size(cells, "height"),
    )


def _size(cells: Cells, column: str) -> Tenths | None:
    return cells.size(column) if cells.filled(column) else None


def rack_from_document(content: object, *, name: str) -> Rack:
    """Read a rack from a list of plain values. Raises InvalidInput with every fault of it."""
    return rack_of_models(read_document(content, _RackModel, name=name).root, name=name)


def rack_of_models(offcuts: Sequence[RackOffcutModel], *, name: str) -> Rack:
    """Turn offcuts that have been read into a rack. Raises InvalidInput with every fault."""
    problems = _problems(offcuts, name)
    if problems:
        raise InvalidInput(problems)
    return _rack(offcuts)


def write_rack_csv(rack: Rack) -> str:
    """Write a rack as CSV that `read_rack` reads back equal: lengths first, sizes in mm.

    Blanks at the ends of an id or a material are not kept, as a table does not show them.
    """
    text = io.StringIO(newline="")
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(("id", "material", "length_mm", "width_mm", "height_mm"))
    for material, length in rack.lengths:
        writer.writerow((_written(length.id), _written(material), mm(length.length), "", ""))
    for material, sheet in rack.sheets:
        writer.writerow(
            (_written(sheet.id), _written(material), "", mm(sheet.width), mm(sheet.height))
        )
    return text.getvalue()


def _written(text: str) -> str:
    return f"'{text}" if text.startswith(_FORMULA) else text


def _read_text(text: str) -> str:
    return text[1:] if text.startswith("'") and text[1:].startswith(_FORMULA) else text


def _problems(offcuts: Sequence[RackOffcutModel], name: str) -> tuple[Problem, ...]:
    neither = tuple(
        Problem(
            f"{name}: offcut {offcut.id!r}",
            "has not either a length or a width and a height",
            "Give length for timber, or width and height for a board",
        )
        for offcut in offcuts
        if not (_is_length(offcut) or _is_sheet(offcut))
    )
    twice = tuple(
        Problem(f"{name}: offcut {id_!r}", f"stands {count} times", "Each offcut is one piece")
        for id_, count in Counter(offcut.id for offcut in offcuts if offcut.id).items()
        if count > 1
    )
    return neither + twice


def _is_length(offcut: RackOffcutModel) -> bool:
    return offcut.length_mm is not None and offcut.width_mm is None and offcut.height_mm is None


def _is_sheet(offcut: RackOffcutModel) -> bool:
    return offcut.length_mm is None and offcut.width_mm is not None and offcut.height_mm is not None


def _rack(offcuts: Sequence[RackOffcutModel]) -> Rack:
    return Rack(
        lengths=tuple(
            (offcut.material, LengthOffcut(id=offcut.id, length=Tenths(offcut.length_mm)))
            for offcut in offcuts
            if offcut.length_mm is not None
        ),
        sheets=tuple(
            (
                offcut.material,
                SheetOffcut(
                    id=offcut.id, width=Tenths(offcut.width_mm), height=Tenths(offcut.height_mm)
                ),
            )
            for offcut in offcuts
            if offcut.width_mm is not None and offcut.height_mm is not None
        ),
    )
