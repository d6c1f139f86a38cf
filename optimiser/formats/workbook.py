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
from xml.parsers import expat

from optimiser.errors import invalid

MOST_UNFOLDED = 50_000_000
MOST_CELLS = 2_000_000
_MOST_MEMBERS = 1_000
_KEPT = re.compile(r"(xl/.*|_rels/.*)\.(xml|rels)|\[Content_Types\]\.xml")
_PLACE = re.compile(r"([A-Z]{1,3})([0-9]{1,7})")
_RESAVE = "Save it as XLSX again, or as CSV in UTF-8"


def read_workbook(content: bytes, *, name: str) -> list[list[str]]:
    """Return the first sheet from its first row on. Raises InvalidInput when it cannot be read."""
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
        cells = max(map(_span, members.values()), default=0)
    except (expat.ExpatError, ValueError, LookupError):  # the last: an encoding nobody knows
        raise invalid(name, "is not a workbook that can be read", _RESAVE) from None
    if cells > MOST_CELLS:
        trouble = f"spans {cells} cells from its first to its last filled one"
        raise invalid(name, trouble, "Take out what stands far from the list")
    return [[_cell(value) for value in row] for row in _rows(_packed(members), name)]


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


def _span(page: bytes) -> int:
    """Return how many cells a page spans.

    Raises ExpatError, ValueError or LookupError if it is no XML.
    """
    extent = _Extent()
    parser = expat.ParserCreate()
    parser.StartElementHandler = extent.start
    parser.StartDoctypeDeclHandler = _refuse_declarations
    parser.Parse(page, True)  # noqa: FBT003 - taken by position only
    return extent.last_row * extent.last_column


def _refuse_declarations(*_: object) -> None:
    raise ValueError("a workbook declares no document type")


def _column_number(letters: str) -> int:
    number = 0
    for letter in letters:
        number = number * 26 + ord(letter) - ord("A") + 1
    return number


def _rows(packed: io.BytesIO, name: str) -> Sequence[Sequence[object]]:
    import python_calamine

    try:
        book = python_calamine.CalamineWorkbook.from_filelike(packed)
        rows: Sequence[Sequence[object]] = book.get_sheet_by_index(0).to_python(
            skip_empty_area=False
        )
    # The reader names its faults by many types of its own; to the person there is only one.
    except Exception:
        raise invalid(name, "is not a workbook that can be read", _RESAVE) from None
    except BaseException as panic:
        # A panic of the reader's compiled part is no Exception; only its name tells it apart.
        if type(panic).__name__ != "PanicException":
            raise
        raise invalid(name, "is not a workbook that can be read", _RESAVE) from None
    return rows


def _cell(value: object) -> str:
    # Spreadsheets keep 15 digits: 0.1 + 0.2 is 0.3 to the person who sees it.
    return f"{value:.15g}" if isinstance(value, float) else str(value)
