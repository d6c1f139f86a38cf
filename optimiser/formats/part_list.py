"""A part list as a table: one row a part, timber by length, boards by width and height."""

from __future__ import annotations

from collections import Counter

from optimiser.domain.part_list import PartList
from optimiser.domain.parts import BoardPart, CutOut, LengthPart
from optimiser.errors import InvalidInput, Problem, invalid
from optimiser.formats.table import Row, Table, read_table
from optimiser.units import tenths

_COLUMNS = {
    "mark": ("part", "id", "part id", "part no", "ref"),
    "job": ("job name", "job no"),
    "material": ("section", "board", "stuff"),
    "length": ("len", "l"),
    "width": ("w",),
    "height": ("h",),
    "quantity": ("qty", "number", "no", "pcs", "count"),
    "name": ("description", "what"),
    "turn": ("may turn", "turnable"),
    "cut outs": ("cutouts", "cut out"),
}
_YES = {"": True, "yes": True, "y": True, "true": True, "1": True}
_NO = {"no": False, "n": False, "false": False, "0": False}


def read_part_list(content: bytes, *, name: str, job: str = "") -> PartList:
    """Read a part list from CSV or XLSX; `job` is whose parts they are where no column says.

    Raises InvalidInput with every fault of every row; nothing is imported by half.
    """
    table = read_table(content, name=name, known=_COLUMNS)
    if not table.has("material"):
        raise invalid(name, "has no column 'material'", "Add it")
    lengths: list[tuple[str, LengthPart]] = []
    boards: list[tuple[str, BoardPart]] = []
    problems: list[Problem] = []
    for row in table.rows:
        try:
            material = table.text(row, "material")
            if not material:
                raise invalid(table.where(row, "material"), "is empty", "Name the material")
            if row.cells.get("length"):
                lengths.append((material, _length(table, row, job)))
            else:
                boards.append((material, _board(table, row, job)))
        except InvalidInput as fault:
            problems += fault.problems
    ids = [part.id for _, part in lengths] + [part.id for _, part in boards]
    problems += [
        Problem(f"{name}: part {id_!r}", f"stands {count} times", "Give each its own mark")
        for id_, count in Counter(ids).items()
        if count > 1
    ]
    if problems:
        raise InvalidInput(tuple(problems))
    return PartList(lengths=tuple(lengths), boards=tuple(boards))


def _names(table: Table, row: Row, job: str) -> tuple[str, str]:
    """Return the part's id and its job."""
    owner = table.text(row, "job", default=job or "job")
    mark = table.text(row, "mark", default=f"row-{row.number}")
    return (mark if mark.startswith(f"{owner}/") else f"{owner}/{mark}"), owner


def _length(table: Table, row: Row, job: str) -> LengthPart:
    if row.cells.get("width") or row.cells.get("height"):
        trouble = "has a length as well as a width or height"
        remedy = "Give length for timber, or width and height for a board"
        raise invalid(f"{table.name}: row {row.number}", trouble, remedy)
    id_, owner = _names(table, row, job)
    return LengthPart(
        id=id_,
        job=owner,
        length=table.size(row, "length"),
        quantity=table.count(row, "quantity"),
        name=table.text(row, "name", most=200),
    )


def _board(table: Table, row: Row, job: str) -> BoardPart:
    if not (row.cells.get("width") and row.cells.get("height")):
        trouble = "has neither a length nor a width and a height"
        remedy = "Give length for timber, or width and height for a board"
        raise invalid(f"{table.name}: row {row.number}", trouble, remedy)
    id_, owner = _names(table, row, job)
    return BoardPart(
        id=id_,
        job=owner,
        width=table.size(row, "width"),
        height=table.size(row, "height"),
        quantity=table.count(row, "quantity"),
        turn=_turn(table, row),
        cut_outs=_cut_outs(table, row),
        name=table.text(row, "name", most=200),
    )


def _turn(table: Table, row: Row) -> bool:
    text = row.cells.get("turn", "").lower()
    answer = {**_YES, **_NO}.get(text)
    if answer is None:
        raise invalid(table.where(row, "turn"), f"{text[:40]!r} is not an answer", "Say yes or no")
    return answer


def _cut_outs(table: Table, row: Row) -> tuple[CutOut, ...]:
    text = row.cells.get("cut outs", "")
    cut_outs = []
    for rectangle in filter(None, (part.strip() for part in text.split(";"))):
        numbers = rectangle.split()
        try:
            x, y, width, height = (tenths(number) for number in numbers)
        except ValueError:
            raise invalid(
                table.where(row, "cut outs"),
                f"{rectangle[:40]!r} is not a rectangle",
                "Give x y width height in mm, rectangles parted by semicolons",
            ) from None
        cut_outs.append(CutOut(x=x, y=y, width=width, height=height))
    return tuple(cut_outs)
