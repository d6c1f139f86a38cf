"""A part list as a table: one row a part, timber by length, boards by width and height."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from optimiser.domain.part_list import PartList
from optimiser.domain.parts import NO_EASE, BoardPart, CutOut, LengthPart
from optimiser.errors import InvalidInput, Problem, invalid
from optimiser.formats.table import Cells, Column, Table, column_letter, read_table
from optimiser.units import Tenths, mm, tenths

_COLUMNS = {
    "mark": ("part", "id", "part id", "part no", "part mark", "ref"),
    "job": ("job name", "job no"),
    "material": ("section", "board", "stuff"),
    "length": ("len", "l"),
    "width": ("w",),
    "height": ("h",),
    "quantity": ("qty", "number", "no", "pcs", "pieces", "count"),
    "name": ("description", "what"),
    "turn": ("may turn", "turnable"),
    "grain": ("grain matters",),
    "ease": ("may be shorter", "may be smaller", "shorter by"),
    "cut outs": ("cutouts", "cut out", "cut outs mm"),
}
_ANSWERS = {"yes": True, "y": True, "true": True, "1": True}
_ANSWERS |= {"no": False, "n": False, "false": False, "0": False}
# What a request takes as the id of a part.
_MOST_ID = 120
_MOST_CUT_OUTS = 100
_ZERO = re.compile(r"0+([.,]0*)?( ?mm)?")
_TEXTS = ("mark", "job", "material", "name")
# What makes a spreadsheet work a cell out, and what makes a browser run a text.
_CALCULATED = ("=", "+", "@")
_MARKUP = re.compile(r"<\s*/?[a-z!]|javascript:", re.IGNORECASE)
_TIMBER_OR_BOARD = "Give length for timber, or width and height for a board"


@dataclass(frozen=True, slots=True, kw_only=True)
class ListReading:
    """A part list as far as it could be read: the parts of sound rows, and every fault.

    `row_of` gives the row of each part by its id. `notes` are not faults: cells that look like
    something that runs, and were read as plain text or figures.
    """

    columns: tuple[Column, ...] = ()
    rows: int = 0
    parts: PartList = field(default_factory=PartList)
    row_of: Mapping[str, int] = field(default_factory=dict)
    problems: tuple[Problem, ...] = ()
    notes: tuple[Problem, ...] = ()


def read_part_list(content: bytes, *, name: str, job: str = "") -> PartList:
    """Read a part list from CSV or XLSX; `job` is whose parts they are where no column says.

    A part's id is its job, a slash and its mark, or the row's number where it has no mark.
    Raises InvalidInput with every fault of every row; nothing is imported by half.
    """
    found = look_through_part_list(content, name=name, job=job)
    if found.problems:
        raise InvalidInput(found.problems)
    return found.parts


def look_through_part_list(content: bytes, *, name: str, job: str = "") -> ListReading:
    """Read a part list as far as it goes: what was understood, what was not, and what to know.

    Nothing is raised for a file that cannot be read: that is among the problems.
    """
    try:
        return _look_through(content, name, job)
    except InvalidInput as refusal:
        return ListReading(problems=refusal.problems)


def _look_through(content: bytes, name: str, job: str) -> ListReading:
    table = read_table(content, name=name, known=_COLUMNS)
    table.require("material")
    if table.has("turn") and table.has("grain"):
        trouble = "has a column for turn as well as one for grain"
        raise invalid(name, trouble, "Keep one of the two: grain yes is turn no")
    lengths: list[tuple[str, LengthPart]] = []
    boards: list[tuple[str, BoardPart]] = []
    problems: list[Problem] = []
    ids: Counter[str] = Counter()
    rows: dict[str, int] = {}
    for row in table.rows:
        cells = Cells(table, row)
        material = cells.needed("material")
        part = _length(cells, job) if _is_timber(cells) else _board(cells, job)
        ids[part.id] += 1
        problems += cells.problems
        if cells.problems:
            continue
        rows[part.id] = row.number
        if isinstance(part, LengthPart):
            lengths.append((material, part))
        else:
            boards.append((material, part))
    problems += _same_ids(table, ids)
    return ListReading(
        columns=table.columns,
        rows=len(table.rows),
        parts=PartList(lengths=tuple(lengths), boards=tuple(boards)),
        row_of=rows,
        problems=tuple(problems),
        notes=tuple(_notes(table)),
    )


def _notes(table: Table) -> Iterator[Problem]:
    """Say which cells are not what they look like; they are read all the same."""
    known = {column.letter: column for column in table.columns}
    last = max((row.number for row in table.rows), default=0)
    for number, place in table.formulas:
        column = known.get(column_letter(place - 1))
        if column is not None and 1 < number <= last:
            where = f"{table.name}: row {number}, column {column.letter} {column.header[:40]!r}"
            trouble = "holds a formula: what it showed when the file was saved is taken"
            yield Problem(where, trouble, "Check the figure", number, column.letter)
    for row in table.rows:
        for name in _TEXTS:
            text = row.cells.get(name, "")
            if text[:1] in _CALCULATED or _MARKUP.search(text):
                trouble = (
                    f"{text[:40]!r} looks like a formula or a script: it is kept as plain text"
                )
                remedy = "Leave it, or write a plain name"
                where = table.where(row, name)
                yield Problem(where, trouble, remedy, row.number, table.letter(name))


def _same_ids(table: Table, ids: Counter[str]) -> list[Problem]:
    return [
        Problem(f"{table.name}: part {id_!r}", f"stands {count} times", "Give each its own mark")
        for id_, count in ids.items()
        if count > 1
    ]


def _is_timber(cells: Cells) -> bool:
    """Return whether the row is timber; note when it is neither timber nor board, or both."""
    length, width, height = (cells.filled(column) for column in ("length", "width", "height"))
    if length and (width or height):
        cells.row_fault("has a length as well as a width or height", _TIMBER_OR_BOARD)
    elif not length and not (width or height):
        cells.row_fault("has neither a length nor a width and a height", _TIMBER_OR_BOARD)
    elif width != height:
        cells.row_fault(f"has no {'height' if width else 'width'}", _TIMBER_OR_BOARD)
    return length


def _names(cells: Cells, job: str) -> tuple[str, str]:
    """Return the part's id and its job."""
    owner = cells.text("job", default=job or "job")
    mark = cells.text("mark", default=f"row-{cells.row.number}")
    id_ = mark if mark.startswith(f"{owner}/") else f"{owner}/{mark}"
    if len(id_) > _MOST_ID:
        trouble = f"{mark[:40]!r} is too long with its job before it"
        cells.fault("mark", trouble, f"Keep job and mark within {_MOST_ID} characters together")
    return id_, owner


def _length(cells: Cells, job: str) -> LengthPart:
    id_, owner = _names(cells, job)
    if cells.filled("cut outs"):
        cells.fault("cut outs", "stands beside a length", "Only a board part has cut-outs")
    return LengthPart(
        id=id_,
        job=owner,
        length=cells.size("length"),
        quantity=cells.count("quantity"),
        name=cells.text("name", most=200),
        ease=_ease(cells, "length"),
    )


def _board(cells: Cells, job: str) -> BoardPart:
    id_, owner = _names(cells, job)
    # An empty cell is noted with its row already.
    width, height = (
        cells.size(column) if cells.filled(column) else None for column in ("width", "height")
    )
    return BoardPart(
        id=id_,
        job=owner,
        width=width or tenths(0),
        height=height or tenths(0),
        quantity=cells.count("quantity"),
        turn=_turn(cells),
        cut_outs=_cut_outs(cells, width, height),
        name=cells.text("name", most=200),
        ease=_ease(cells, "width", "height"),
    )


def _ease(cells: Cells, *sides: str) -> Tenths:
    """Read by how much a part may be smaller without harm: empty or 0 says not at all."""
    text = cells.row.cells.get("ease", "")
    if not text or _ZERO.fullmatch(text):
        return NO_EASE
    before = len(cells.problems)
    ease = cells.size("ease")
    if len(cells.problems) == before:
        for side in sides:
            if cells.filled(side) and ease >= cells.size(side):
                trouble = f"{mm(ease)} is not below the {side}"
                cells.fault("ease", trouble, "Give by how many mm the part may be smaller, e.g. 3")
                break
    return ease


def _turn(cells: Cells) -> bool:
    """Return whether the part may be turned: empty says it may."""
    return _answer(cells, "turn", default=True) and not _answer(cells, "grain", default=False)


def _answer(cells: Cells, column: str, *, default: bool) -> bool:
    text = cells.row.cells.get(column, "")
    if not text:
        return default
    answer = _ANSWERS.get(text.casefold())
    if answer is None:
        cells.fault(column, f"{text[:40]!r} is not an answer", "Say yes or no")
        return default
    return answer


def _cut_outs(cells: Cells, width: int | None, height: int | None) -> tuple[CutOut, ...]:
    """Read "x y width height; x y width height" in mm, from the part's lower left corner."""
    texts = [part.strip() for part in cells.row.cells.get("cut outs", "").split(";")]
    cut_outs: list[CutOut] = []
    for text in filter(None, texts):
        try:
            x, y, wide, high = (tenths(number) for number in text.split())
        except ValueError:
            remedy = "Give x y width height in mm, rectangles parted by semicolons"
            cells.fault("cut outs", f"{text[:40]!r} is not a rectangle", remedy)
            continue
        if wide == 0 or high == 0:
            remedy = "Give a width and a height above 0"
            cells.fault("cut outs", f"{text[:40]!r} removes nothing", remedy)
        elif (width and x + wide > width) or (height and y + high > height):
            remedy = "Keep the cut-out within the part's width and height"
            cells.fault("cut outs", f"{text[:40]!r} reaches beyond the part", remedy)
        cut_outs.append(CutOut(x=x, y=y, width=wide, height=high))
    if len(cut_outs) > _MOST_CUT_OUTS:
        remedy = f"Give at most {_MOST_CUT_OUTS}"
        cells.fault("cut outs", f"has {len(cut_outs)} rectangles", remedy)
    return tuple(cut_outs)
