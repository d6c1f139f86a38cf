"""A table as people keep it, CSV or XLSX, read row by row under names the program knows.

Headers may stand in any order and case, carry a unit, and use a usual synonym; a column that nobody
knows is refused rather than ignored. Nothing is ever executed: a formula in a cell is text.
"""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Mapping
from dataclasses import dataclass

from optimiser.errors import InvalidInput, Problem, invalid
from optimiser.units import Tenths, tenths

MOST_BYTES = 10_000_000
MOST_ROWS = 50_000
_UNITS = ("mm", "cm", "m")


@dataclass(frozen=True, slots=True)
class Column:
    """A column of the file: what its header says, the name it is known by, its unit."""

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
    """The rows of one file."""

    name: str
    columns: tuple[Column, ...]
    rows: tuple[Row, ...]

    def where(self, row: Row, column: str) -> str:
        """Name a cell as a person would look for it."""
        header = next((item.header for item in self.columns if item.name == column), column)
        return f"{self.name}: row {row.number}, column {header!r}"

    def has(self, column: str) -> bool:
        """Return whether the file has this column."""
        return any(item.name == column for item in self.columns)

    def size(self, row: Row, column: str) -> Tenths:
        """Read a size above 0. Raises InvalidInput naming row, column, value and remedy."""
        text = row.cells.get(column, "")
        unit = next((item.unit for item in self.columns if item.name == column), "mm")
        if "," in text and "." in text:
            raise invalid(
                self.where(row, column),
                f"{text[:40]!r} has both a comma and a point",
                "Write it with one decimal mark and no thousands, such as 2281.5",
            )
        try:
            size = tenths(text, unit=unit)
        except ValueError as trouble:
            remedy = "Give a size such as 2281.5, in mm unless the header names cm or m"
            raise invalid(self.where(row, column), str(trouble), remedy) from None
        if size == 0:
            raise invalid(self.where(row, column), "is 0", "Give a size above 0")
        return size

    def count(self, row: Row, column: str) -> int:
        """Read a whole number of 1 or more; an empty cell is 1. Raises InvalidInput."""
        text = row.cells.get(column, "") or "1"
        match = re.fullmatch(r"([0-9]{1,7})([.,]0+)?", text)
        if match is None or not 1 <= int(match[1]) <= 1_000_000:
            remedy = "Give a whole number from 1 to 1000000"
            raise invalid(self.where(row, column), f"{text[:40]!r} is no such number", remedy)
        return int(match[1])

    def text(self, row: Row, column: str, *, default: str = "", most: int = 100) -> str:
        """Read a text as it stands. Raises InvalidInput for control characters and long texts."""
        text = row.cells.get(column, "") or default
        if len(text) > most or re.search(r"[\x00-\x1f\x7f]", text):
            remedy = f"Give at most {most} characters in one line"
            raise invalid(self.where(row, column), "is not a line of text", remedy)
        return text


def read_table(content: bytes, *, name: str, known: Mapping[str, tuple[str, ...]]) -> Table:
    """Read CSV (UTF-8) or XLSX (first sheet). `known` maps column names to their synonyms.

    Raises InvalidInput when the file cannot be read, is too large, lacks a header, or has a column
    that is unknown or stands twice.
    """
    if len(content) > MOST_BYTES:
        raise invalid(name, "is larger than 10 MB", "Split the list")
    grid = _xlsx(content, name) if content[:2] == b"PK" else _csv(content, name)
    filled = [(number, row) for number, row in enumerate(grid, start=1) if any(row)]
    if len(filled) < 2:
        raise invalid(name, "has no row below its header", "Give a header and at least one row")
    if len(filled) > MOST_ROWS + 1:
        raise invalid(name, f"has more than {MOST_ROWS} rows", "Split the list")
    columns = _columns(filled[0][1], name, known)
    problems = tuple(
        Problem(
            f"{name}: row {number}",
            f"has {len(row)} cells where the header has {len(columns)}",
            "Quote a text that holds the separator, or take the extra cell out",
        )
        for number, row in filled[1:]
        if len(row) > len(columns) and any(row[len(columns) :])
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
    )


def _columns(
    headers: list[str], name: str, known: Mapping[str, tuple[str, ...]]
) -> tuple[Column, ...]:
    meanings = {plain: key for key, names in known.items() for plain in (key, *names)}
    columns: list[Column] = []
    problems: list[Problem] = []
    while headers and not headers[-1]:
        headers = headers[:-1]
    for header in headers:
        plain, unit = _plain(header)
        if plain not in meanings:
            remedy = f"Use {', '.join(known)}, or take the column out"
            problems.append(Problem(f"{name}: column {header!r}", "is not known", remedy))
            continue
        if any(column.name == meanings[plain] for column in columns):
            problems.append(
                Problem(f"{name}: column {header!r}", "stands twice", "Keep one of the two")
            )
        columns.append(Column(header, meanings[plain], unit))
    if problems:
        raise InvalidInput(tuple(problems))
    return tuple(columns)


def _plain(header: str) -> tuple[str, str]:
    """Return a header without case, marks and unit, and the unit it named (mm if none)."""
    words = re.findall(r"[a-z0-9]+", header.lower())
    unit = words.pop() if len(words) > 1 and words[-1] in _UNITS else "mm"
    return " ".join(words), unit


def _csv(content: bytes, name: str) -> list[list[str]]:
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise invalid(name, "is not text in UTF-8", "Save it as CSV in UTF-8") from None
    if "\x00" in text:
        raise invalid(name, "is not a text file", "Save it as CSV in UTF-8, or as XLSX")
    first = next((line for line in text.splitlines() if line.strip()), "")
    mark = max((";", "\t", ","), key=first.count)
    try:
        rows = list(csv.reader(io.StringIO(text, newline=""), delimiter=mark))
    except csv.Error as trouble:
        raise invalid(name, f"is not CSV: {trouble}", "Save it as CSV again") from None
    return [[cell.strip() for cell in row] for row in rows]


def _xlsx(content: bytes, name: str) -> list[list[str]]:
    import python_calamine

    try:
        book = python_calamine.CalamineWorkbook.from_filelike(io.BytesIO(content))
        rows = book.get_sheet_by_index(0).to_python(skip_empty_area=False)
    # The reader names its faults by many types of its own; to the person there is only one.
    except Exception as trouble:
        raise invalid(name, f"is not a workbook: {trouble}", "Save it as XLSX again") from None
    return [[_cell(value) for value in row] for row in rows]


def _cell(value: object) -> str:
    if isinstance(value, float) and value == int(value):
        return str(int(value))
    return str(value).strip()
