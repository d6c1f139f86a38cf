"""The rack as a table (CSV or XLSX) or as plain values: one row an offcut."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable

from pydantic import Field, RootModel

from optimiser.domain.rack import Rack
from optimiser.domain.stock import LengthOffcut, SheetOffcut
from optimiser.errors import InvalidInput, Problem, invalid
from optimiser.formats.fields import Document, Id, Size, read_document
from optimiser.formats.table import Row, Table, read_table
from optimiser.units import Tenths

_COLUMNS = {
    "id": ("offcut", "mark", "label"),
    "material": ("section", "board"),
    "length": ("len", "l"),
    "width": ("w",),
    "height": ("h",),
    "place": ("where", "notes", "note"),
}


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
    """Read a rack from CSV or XLSX. Raises InvalidInput with every fault of every row."""
    table = read_table(content, name=name, known=_COLUMNS)
    problems: list[Problem] = []
    offcuts: list[RackOffcutModel] = []
    for row in table.rows:
        try:
            offcuts.append(_offcut(table, row))
        except InvalidInput as fault:
            problems += fault.problems
    if problems:
        raise InvalidInput(tuple(problems))
    return _rack(offcuts, name)


def _offcut(table: Table, row: Row) -> RackOffcutModel:
    for column in ("id", "material"):
        if not table.text(row, column):
            raise invalid(table.where(row, column), "is empty", "Fill it in")
    # The sizes are tenths already: nothing is to be read from millimetres again.
    return RackOffcutModel.model_construct(
        id=table.text(row, "id"),
        material=table.text(row, "material"),
        length_mm=_size(table, row, "length"),
        width_mm=_size(table, row, "width"),
        height_mm=_size(table, row, "height"),
    )


def _size(table: Table, row: Row, column: str) -> Tenths | None:
    return table.size(row, column) if row.cells.get(column) else None


def rack_from_document(content: object, *, name: str) -> Rack:
    """Read a rack from a list of plain values. Raises InvalidInput with every fault of it."""
    return _rack(read_document(content, _RackModel, name=name).root, name)


def _rack(offcuts: Iterable[RackOffcutModel], name: str) -> Rack:
    lengths: list[tuple[str, LengthOffcut]] = []
    sheets: list[tuple[str, SheetOffcut]] = []
    problems: list[Problem] = []
    for offcut in offcuts:
        length, width, height = offcut.length_mm, offcut.width_mm, offcut.height_mm
        if length is not None and width is None and height is None:
            item = LengthOffcut(id=offcut.id, length=Tenths(length))
            lengths.append((offcut.material, item))
        elif length is None and width is not None and height is not None:
            board = SheetOffcut(id=offcut.id, width=Tenths(width), height=Tenths(height))
            sheets.append((offcut.material, board))
        else:
            problems.append(
                Problem(
                    f"{name}: offcut {offcut.id!r}",
                    "has not either a length or a width and a height",
                    "Give length for timber, or width and height for a board",
                )
            )
    ids = Counter([item.id for _, item in lengths] + [item.id for _, item in sheets])
    problems += [
        Problem(f"{name}: offcut {id_!r}", f"stands {count} times", "Each offcut is one piece")
        for id_, count in ids.items()
        if count > 1
    ]
    if problems:
        raise InvalidInput(tuple(problems))
    return Rack(lengths=tuple(lengths), sheets=tuple(sheets))
