"""A table as people keep it, CSV or XLSX, read row by row under names the program knows.

Headers may stand in any order and case, carry a unit, and use a usual synonym; a column that nobody
knows is refused rather than ignored. Nothing is ever executed: a formula in a cell is text.
"""

from __future__ import annotations

import csv
import io
import re
import unicodedata
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from optimiser.errors import InvalidInput, Problem, invalid
from optimiser.formats.workbook import Sheet, read_workbook
from optimiser.units import Tenths, tenths

MOST_BYTES = 10_000_000
MOST_ROWS = 50_000
MOST_COUNT = 1_000_000
# No name, size or list of cut-outs needs more, and no number of so few digits overflows.
MOST_SIGNS = 10_000
# The columns whose header may say what a bare number below it means.
SIZES = ("length", "width", "height")
_UNITS = ("mm", "cm", "m")
_BETWEEN_WORDS = re.compile(r"[\s_\-./:()\[\]]+")
# Three digits after the only mark: 2,400 may be 2400 or 2.4. With metres it can only be 2.4.
_THOUSANDS = re.compile(r"[1-9][0-9]{0,2}[.,][0-9]{3}\s*(mm|cm|m)?", re.IGNORECASE)
# Signs that turn the direction of writing make a text read otherwise than it stands.
_TURNING = frozenset("\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")


@dataclass(frozen=True, slots=True)
class Column:
    """A column of the file: its letter, what its header says, the known name, its unit."""

    letter: str
    header: str
    name: str
    unit: str


@dataclass(frozen=True, slots=True)
class Row:
    """One filled row: its number as the person sees it, and its cells by known name."""

    number: int
    cells: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Table:
    """The rows of one file. `formulas`: rows and columns (from 1) of cells worked out elsewhere."""

    name: str
    columns: tuple[Column, ...]
    rows: tuple[Row, ...]
    formulas: tuple[tuple[int, int], ...] = ()

    def has(self, column: str) -> bool:
        """Return whether the file has this column."""
        return any(item.name == column for item in self.columns)

    def require(self, *columns: str) -> None:
        """Raise InvalidInput naming every one of these columns that the file has not."""
        missing = [column for column in columns if not self.has(column)]
        if missing:
            raise InvalidInput(
                tuple(Problem(self.name, f"has no column {c!r}", "Add it") for c in missing)
            )

    def where(self, row: Row, column: str) -> str:
        """Name a cell as a person would look for it."""
        for item in self.columns:
            if item.name == column:
                header = _short(item.header)
                return f"{self.name}: row {row.number}, column {item.letter} {header}"
        return f"{self.name}: row {row.number}, column {column!r}"

    def letter(self, column: str) -> str | None:
        """Return the letter of a column, None where the file has no such column."""
        return next((item.letter for item in self.columns if item.name == column), None)

    def unit(self, column: str) -> str:
        """Return what a bare number in this column means."""
        return next((item.unit for item in self.columns if item.name == column), "mm")


@dataclass(frozen=True, slots=True)
class Cells:
    """One row being read: every broken cell adds to `problems`, and a stand-in is returned."""

    table: Table
    row: Row
    problems: list[Problem] = field(default_factory=list)

    def filled(self, column: str) -> bool:
        """Return whether the cell holds anything."""
        return bool(self.row.cells.get(column))

    def fault(self, column: str, trouble: str, remedy: str) -> None:
        """Note what is wrong with one cell."""
        where, letter = self.table.where(self.row, column), self.table.letter(column)
        self.problems.append(Problem(where, trouble, remedy, self.row.number, letter))

    def row_fault(self, trouble: str, remedy: str) -> None:
        """Note what is wrong with the row as a whole."""
        where = f"{self.table.name}: row {self.row.number}"
        self.problems.append(Problem(where, trouble, remedy, self.row.number))

    def size(self, column: str) -> Tenths:
        """Read a size above 0; a number that names no unit has the header's."""
        text, unit = self.row.cells.get(column, ""), self.table.unit(column)
        if trouble := _two_meanings(text, unit):
            remedy = "Write it with one decimal mark and no thousands, such as 2281.5"
            self.fault(column, f"{_short(text)} {trouble}", remedy)
            return Tenths(0)
        try:
            size = tenths(text, unit=unit)
        except ValueError as trouble_found:
            remedy = "Give a size such as 2281.5, in mm unless the header names cm or m"
            self.fault(column, str(trouble_found), remedy)
            return Tenths(0)
        if size == 0:
            self.fault(column, f"{_short(text)} is no size", "Give a size above 0")
        return size

    def count(self, column: str) -> int:
        """Read a whole number of 1 or more; 1 where the file has no such column.

        An empty cell below the header is refused: a number forgotten is no number given.
        """
        if not self.table.has(column):
            return 1
        text = self.row.cells.get(column, "")
        match = re.fullmatch(r"([0-9]{1,7})([.,]0{1,2})?", text)
        if match is None or not 1 <= int(match[1]) <= MOST_COUNT:
            remedy = f"Give a whole number from 1 to {MOST_COUNT}"
            self.fault(column, f"{_short(text)} is no such number", remedy)
            return 1
        return int(match[1])

    def text(self, column: str, *, default: str = "", most: int = 100) -> str:
        """Read a line of text as it stands."""
        text = self.row.cells.get(column, "") or default
        if len(text) > most:
            remedy = f"Give at most {most} characters"
            self.fault(column, f"{_short(text)} has {len(text)} characters", remedy)
        elif not _is_line(text):
            remedy = "Type it again, in one line"
            self.fault(column, f"{_short(text)} holds signs that cannot be printed", remedy)
        return text

    def needed(self, column: str, *, most: int = 120) -> str:
        """Read a line of text that may not be empty."""
        if not self.filled(column):
            self.fault(column, "is empty", "Fill it in")
        return self.text(column, most=most)


def read_table(
    content: bytes, *, name: str, known: Mapping[str, tuple[str, ...]], least: int = 1
) -> Table:
    """Read CSV (UTF-8) or XLSX (first sheet). `known` maps column names to their synonyms.

    Raises InvalidInput when the file cannot be read, is too large, lacks a header, has fewer rows
    than `least`, or has a column that is unknown or stands twice.
    """
    if len(content) > MOST_BYTES:
        raise invalid(name, "is larger than 10 MB", "Split the list")
    formulas: tuple[tuple[int, int], ...] = ()
    if content[:2] == b"PK":
        sheet = read_workbook(content, name=name)
        _refuse_merged(sheet, name)
        grid, formulas = sheet.rows, sheet.formulas
    else:
        grid = _csv(content, name)
    # Only blanks are taken off: other signs at an end of a cell are for `text` to refuse.
    grid = [[cell.strip(" \t\xa0") for cell in row] for row in grid]
    filled = [(number, row) for number, row in enumerate(grid, start=1) if any(row)]
    if not filled:
        raise invalid(name, "is empty", "Give a header, and a row for each piece")
    if len(filled) < 1 + least:
        raise invalid(name, "has no row below its header", "Give a header and at least one row")
    if len(filled) > MOST_ROWS + 1:
        raise invalid(name, f"has more than {MOST_ROWS} rows", "Split the list")
    problems = tuple(
        Problem(
            f"{name}: row {number}, column {column_letter(index)}",
            f"has {len(cell)} characters",
            f"Give at most {MOST_SIGNS} characters",
            number,
            column_letter(index),
        )
        for number, row in filled
        for index, cell in enumerate(row)
        if len(cell) > MOST_SIGNS
    )
    columns = _columns(filled[0][1], name, known)
    problems += tuple(
        Problem(
            f"{name}: row {number}",
            "has a cell to the right of the last header, "
            f"in column {column_letter(len(columns))} on",
            "Quote a text that holds the separator, or take the extra cell out",
            number,
            column_letter(len(columns)),
        )
        for number, row in filled[1:]
        if any(row[len(columns) :])
    )
    if problems:
        raise InvalidInput(problems)
    return Table(
        name,
        columns,
        tuple(
            Row(number, {column.name: cell for column, cell in zip(columns, row, strict=False)})
            for number, row in filled[1:]
        ),
        formulas,
    )


def _refuse_merged(sheet: Sheet, name: str) -> None:
    """Raise InvalidInput for cells made one: which row such a value is for, nobody can tell."""
    last = max((number for number, row in enumerate(sheet.rows, start=1) if any(row)), default=0)
    problems = tuple(
        Problem(
            f"{name}: row {first[0]}, column {column_letter(first[1] - 1)}",
            f"is merged with the cells to row {end[0]}, column {column_letter(end[1] - 1)}",
            "Unmerge them, and fill in every row",
            first[0],
            column_letter(first[1] - 1),
        )
        for first, end in sheet.merged
        if first[0] <= last
    )
    if problems:
        raise InvalidInput(problems)


def _columns(
    headers: list[str], name: str, known: Mapping[str, tuple[str, ...]]
) -> tuple[Column, ...]:
    meanings = {plain: key for key, names in known.items() for plain in (key, *names)}
    columns: list[Column] = []
    problems: list[Problem] = []
    while headers and not headers[-1]:
        headers = headers[:-1]
    for index, header in enumerate(headers):
        letter = column_letter(index)
        where = f"{name}: column {letter} {_short(header)}"
        meaning, unit = _meaning(header, meanings)
        if not meaning:
            remedy = f"Use {', '.join(known)}, or take the column out"
            problems.append(Problem(where, "is not known", remedy, column=letter))
        elif any(column.name == meaning for column in columns):
            trouble = f"is a second column for {meaning}"
            problems.append(Problem(where, trouble, "Keep one of the two", column=letter))
        else:
            columns.append(Column(letter, header, meaning, unit))
    if problems:
        raise InvalidInput(tuple(problems))
    return tuple(columns)


def _meaning(header: str, meanings: Mapping[str, str]) -> tuple[str, str]:
    """Return the known name of a header ("" if none) and the unit it named (mm if none)."""
    words = [word for word in _BETWEEN_WORDS.split(header.casefold()) if word]
    meaning = meanings.get(" ".join(words), "")
    if not meaning and words and words[-1] in _UNITS:
        meaning = meanings.get(" ".join(words[:-1]), "")
        return (meaning, words[-1]) if meaning in SIZES else ("", "mm")
    return meaning, "mm"


def _csv(content: bytes, name: str) -> list[list[str]]:
    if content[:2] in (b"\xff\xfe", b"\xfe\xff"):
        raise invalid(name, "is text in UTF-16", "Save it as CSV in UTF-8")
    # Bytes that are no UTF-8 are kept as lone surrogates, so that their cells can be named.
    text = content.decode("utf-8-sig", "surrogateescape")
    if "\x00" in text:
        raise invalid(name, "is not a text file", "Save it as CSV in UTF-8, or as XLSX")
    first = next((line for line in text.splitlines() if line.strip()), "")
    mark = max((";", "\t", ","), key=re.sub(r'"[^"]*"', "", first).count)
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=mark, strict=True)
    rows: list[list[str]] = []
    try:
        # Strict, as a quote left open would swallow the rest of the list into one cell.
        rows.extend(reader)
    except csv.Error as trouble:
        where = f"{name}: row {len(rows) + 1}"
        remedy = "Close the quotes of that row, or save the file as CSV again"
        raise invalid(where, f"is not CSV: {trouble}", remedy) from None
    if problems := tuple(_undecoded(rows, name)):
        raise InvalidInput(problems)
    return rows


def _undecoded(rows: list[list[str]], name: str) -> Iterator[Problem]:
    for number, row in enumerate(rows, start=1):
        for index, cell in enumerate(row):
            signs = [sign for sign in cell if "\udc80" <= sign <= "\udcff"]
            if signs:
                where = f"{name}: row {number}, column {column_letter(index)}"
                trouble = f"is not text in UTF-8: it holds the byte {ord(signs[0]) - 0xDC00:#04x}"
                remedy = "Save it as CSV in UTF-8"
                yield Problem(where, trouble, remedy, number, column_letter(index))


def _two_meanings(text: str, unit: str) -> str:
    """Return why a number can be read in two ways, or "" if it cannot."""
    if "," in text and "." in text:
        return "has both a comma and a point"
    match = _THOUSANDS.fullmatch(text)
    if match is not None and (match[1] or unit).lower() != "m":
        return "may be meant in thousands or in decimals"
    return ""


def _is_line(text: str) -> bool:
    return not any(
        unicodedata.category(sign) in ("Cc", "Cs", "Zl", "Zp") or sign in _TURNING for sign in text
    )


def _short(text: str) -> str:
    return repr(text[:40])


def column_letter(index: int) -> str:
    """Return the letters of a column as a spreadsheet shows them; the first is A."""
    letters = ""
    index += 1
    while index:
        index, place = divmod(index - 1, 26)
        letters = chr(ord("A") + place) + letters
    return letters
