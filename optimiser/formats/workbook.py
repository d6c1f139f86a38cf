"""A workbook's first sheet as rows of text, with nothing in the file able to exhaust the machine.

A workbook is a ZIP of XML: ten megabytes of it can unfold to ten gigabytes, and two cells in
opposite corners span more places than memory has. So it is unfolded under a limit, every page of it
is measured, and only what was measured is handed to the reader.
"""

from __future__ import annotations

import io
import re
import zipfile
import zlib
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from xml.parsers import expat

from optimiser.errors import invalid

MOST_UNFOLDED = 50_000_000
MOST_CELLS = 2_000_000
_MOST_MEMBERS = 1_000
_KEPT = re.compile(r"(xl/.*|_rels/.*)\.(xml|rels)|\[Content_Types\]\.xml")
_PLACE = re.compile(r"([A-Z]{1,3})([0-9]{1,7})")
# The page is handed over whole; the parser takes that by position.
_WHOLE = True
_RESAVE = "Save it as XLSX again, or as CSV in UTF-8"


@dataclass(frozen=True, slots=True)
class Sheet:
    """The first sheet from its first row on. `formulas`: row and column, counted from 1, of cells
    that show what a formula gave when the file was saved. `merged`: first and last cell of each
    group of cells that were made one.
    """

    rows: list[list[str]]
    formulas: tuple[tuple[int, int], ...]
    merged: tuple[tuple[tuple[int, int], tuple[int, int]], ...]


def read_workbook(content: bytes, *, name: str) -> Sheet:
    """Read the first sheet. Raises InvalidInput when it cannot be read."""
    try:
        members = dict(_members(content))
    # What a broken or locked ZIP makes the standard library say; RuntimeError is a password.
    except (
        zipfile.BadZipFile,
        zlib.error,
        RuntimeError,
        NotImplementedError,
        EOFError,
        OSError,
        ValueError,
    ):
        raise invalid(name, "is not a workbook that can be read", _RESAVE) from None
    if sum(map(len, members.values())) > MOST_UNFOLDED:
        raise invalid(name, "unfolds to more than 50 MB", "Keep the list alone, and save it as CSV")
    try:
        extents = {path: _extent(page) for path, page in members.items()}
    except (expat.ExpatError, ValueError, LookupError):  # the last: an encoding nobody knows
        raise invalid(name, "is not a workbook that can be read", _RESAVE) from None
    cells = max((found.last_row * found.last_column for found in extents.values()), default=0)
    if cells > MOST_CELLS:
        trouble = f"spans {cells} cells from its first to its last filled one"
        raise invalid(name, trouble, "Take out what stands far from the list")
    rows, merged = _rows(_packed(members), name)
    first = extents.get(_first_page(members))
    return Sheet(
        rows=[[_cell(value) for value in row] for row in rows],
        formulas=() if first is None else tuple(first.formulas),
        merged=merged,
    )


def _first_page(members: dict[str, bytes]) -> str:
    """Return the path of the first sheet's page, or "" where the workbook does not say."""
    found: dict[str, list[dict[str, str]]] = {"sheet": [], "Relationship": []}

    def start(element: str, attributes: dict[str, str]) -> None:
        found.get(element.rsplit(":", 1)[-1], []).append(attributes)

    for path in ("xl/workbook.xml", "xl/_rels/workbook.xml.rels"):
        parser = expat.ParserCreate()
        parser.StartElementHandler = start
        parser.Parse(members.get(path, b"<none/>"), _WHOLE)
    names = [key for key in (found["sheet"] or [{}])[0] if key.rsplit(":", 1)[-1] == "id"]
    wanted = found["sheet"][0][names[0]] if names else ""
    for relation in found["Relationship"]:
        if relation.get("Id") == wanted:
            target = relation.get("Target", "").removeprefix("/")
            return target if target.startswith("xl/") else f"xl/{target}"
    return ""


def _members(content: bytes) -> Iterator[tuple[str, bytes]]:
    """Yield the pages that a table needs, until they pass the limit."""
    left = MOST_UNFOLDED + 1
    with zipfile.ZipFile(io.BytesIO(content)) as archive:
        infos = archive.infolist()
        if len(infos) > _MOST_MEMBERS:
            raise ValueError("more pages than any workbook of lists")
        for info in infos:
            if _KEPT.fullmatch(info.filename) and left > 0:
                with archive.open(info) as member:
                    page = member.read(left)
                left -= len(page)
                yield info.filename, page


def _packed(members: dict[str, bytes]) -> io.BytesIO:
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w") as archive:
        for path, page in members.items():
            archive.writestr(zipfile.ZipInfo(path), page)
    packed.seek(0)
    return packed


class _Extent:
    """How far the filled cells of one page reach; a cell that is only coloured does not count."""

    def __init__(self) -> None:
        self.row = self.column = self.last_row = self.last_column = 0
        self.formulas: list[tuple[int, int]] = []

    def start(self, element: str, attributes: dict[str, str]) -> None:
        """Follow one opening tag."""
        tag = element.rsplit(":", 1)[-1]
        if tag == "row":
            self.row = int(attributes.get("r", self.row + 1))
            self.column = 0
        elif tag == "c":
            self.column += 1
            place = _PLACE.fullmatch(attributes.get("r", "").upper())
            if place is not None:
                self.column, self.row = _column_number(place[1]), int(place[2])
        elif tag in ("v", "is", "f"):
            self.last_row = max(self.last_row, self.row)
            self.last_column = max(self.last_column, self.column)
            if tag == "f":
                self.formulas.append((self.row, self.column))


def _extent(page: bytes) -> _Extent:
    """Return how far a page reaches.

    Raises ExpatError, ValueError or LookupError if it is no XML.
    """
    extent = _Extent()
    parser = expat.ParserCreate()
    parser.StartElementHandler = extent.start
    parser.StartDoctypeDeclHandler = _refuse_declarations
    parser.Parse(page, _WHOLE)
    return extent


def _refuse_declarations(*_: object) -> None:
    raise ValueError("a workbook declares no document type")


def _column_number(letters: str) -> int:
    number = 0
    for letter in letters:
        number = number * 26 + ord(letter) - ord("A") + 1
    return number


def _rows(
    packed: io.BytesIO, name: str
) -> tuple[Sequence[Sequence[object]], tuple[tuple[tuple[int, int], tuple[int, int]], ...]]:
    import python_calamine

    try:
        book = python_calamine.CalamineWorkbook.from_filelike(packed)
        sheet = book.get_sheet_by_index(0)
        rows: Sequence[Sequence[object]] = sheet.to_python(skip_empty_area=False)
        merged = tuple(
            ((top + 1, left + 1), (bottom + 1, right + 1))
            for (top, left), (bottom, right) in sheet.merged_cell_ranges or ()
        )
    # The reader names its faults by many types of its own; to the person there is only one.
    except Exception:
        raise invalid(name, "is not a workbook that can be read", _RESAVE) from None
    except BaseException as panic:
        # A panic of the reader's compiled part is no Exception; only its name tells it apart.
        if type(panic).__name__ != "PanicException":
            raise
        raise invalid(name, "is not a workbook that can be read", _RESAVE) from None
    return rows, merged


def _cell(value: object) -> str:
    # Spreadsheets keep 15 digits: 0.1 + 0.2 is 0.3 to the person who sees it.
    return f"{value:.15g}" if isinstance(value, float) else str(value)
