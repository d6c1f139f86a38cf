"""What became of offcuts, as a table (CSV or XLSX): one row an offcut."""

from __future__ import annotations

from optimiser.domain.keeping import OffcutLife
from optimiser.errors import InvalidInput, Problem
from optimiser.formats.table import Cells, read_table
from optimiser.planning.days import day_number
from optimiser.units import Tenths

_COLUMNS = {
    "id": ("offcut", "mark", "label"),
    "material": ("section", "board"),
    "length": ("len", "l"),
    "width": ("w",),
    "height": ("h",),
    "racked": ("put up", "since", "from"),
    "ended": ("until", "gone", "to"),
    "fate": ("what became of it", "end"),
}
_FATES = ("used", "thrown")


def read_rack_history(content: bytes, *, name: str) -> tuple[OffcutLife, ...]:
    """Read lives of offcuts: material, sizes in mm, ISO dates of racking and end, and the fate.

    `fate` is "used" or "thrown", and left empty with `ended` while the piece lies there. Raises
    InvalidInput with every fault of every row.
    """
    table = read_table(content, name=name, known=_COLUMNS, least=0)
    table.require("material", "racked")
    problems: list[Problem] = []
    lives = [_life(Cells(table, row, problems)) for row in table.rows]
    if problems:
        raise InvalidInput(tuple(problems))
    return tuple(lives)


def _life(cells: Cells) -> OffcutLife:
    material = cells.needed("material")
    fate = cells.text("fate").lower()
    ended = _day(cells, "ended") if cells.filled("ended") else None
    if fate and fate not in _FATES:
        cells.fault("fate", f"{fate!r} is neither", "Write used or thrown, or leave it empty")
    elif bool(fate) != (ended is not None):
        cells.row_fault("has one of ended and fate", "Give both, or none while it lies there")
    return OffcutLife(
        material=material,
        size=_size(cells),
        racked=_day(cells, "racked"),
        ended=ended,
        used=fate == "used",
    )


def _size(cells: Cells) -> tuple[Tenths] | tuple[Tenths, Tenths]:
    given = [column for column in ("length", "width", "height") if cells.filled(column)]
    if given == ["length"]:
        return (cells.size("length"),)
    if given == ["width", "height"]:
        return (cells.size("width"), cells.size("height"))
    remedy = "Give length for timber, or width and height for a board"
    cells.row_fault("has not either a length or a width and a height", remedy)
    return (Tenths(1),)


def _day(cells: Cells, column: str) -> int:
    if not cells.filled(column):
        cells.fault(column, "is empty", "Give a date such as 2026-12-01")
        return 0
    try:
        return day_number(cells.text(column))
    except ValueError as trouble:
        cells.fault(column, str(trouble), "Give a date such as 2026-12-01")
        return 0
