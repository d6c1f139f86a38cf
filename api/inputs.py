"""Files from disk to values: the only place where the command line reads."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

import optimiser as lib
from api.batch import SPLIT_SAVES, History, Merchants
from api.framed import WallFile
from optimiser import InvalidInput, Problem

if TYPE_CHECKING:
    from optimiser import PartList, PriceBook, Rack, Wall

MOST_BYTES = 10_000_000


def read_bytes(path: Path) -> bytes:
    """Return a file's content. Raises InvalidInput when it cannot be read or is over 10 MB."""
    try:
        if path.stat().st_size > MOST_BYTES:
            raise InvalidInput((Problem(str(path), "is larger than 10 MB", "Split the file"),))
        return path.read_bytes()
    except OSError as trouble:
        reason = trouble.strerror or "cannot be read"
        remedy = "Check the file's name and that you may read it"
        raise InvalidInput((Problem(str(path), reason, remedy),)) from None


def read_text(path: Path) -> str:
    """Return a file's content as UTF-8 text. Raises InvalidInput when it is not."""
    try:
        return read_bytes(path).decode("utf-8-sig")
    except UnicodeDecodeError:
        remedy = "Save the file as UTF-8"
        raise InvalidInput((Problem(str(path), "is not text in UTF-8", remedy),)) from None


def read_jobs(
    paths: list[Path],
    book: PriceBook | None = None,
) -> tuple[tuple[Wall, ...], tuple[PartList, ...], dict[str, WallFile]]:
    """Read walls (.toml) and part lists (.csv, .xlsx), all faults of all files at once.

    Returned third are the files of the walls, by job. With a price book a wall with fields that are
    not known tells what framing would refuse, too.
    """
    walls: list[Wall] = []
    lists: list[PartList] = []
    files: dict[str, WallFile] = {}
    problems: list[Problem] = []
    for path in paths:
        try:
            match path.suffix.lower():
                case ".toml":
                    file = WallFile(name=path.name, text=read_text(path))
                    walls.append(lib.read_wall(file.text, name=file.name, book=book))
                    files[walls[-1].job] = file
                case ".csv" | ".xlsx":
                    lists.append(
                        lib.read_part_list(read_bytes(path), name=path.name, job=path.stem)
                    )
                case ending:
                    remedy = "Give walls as .toml, part lists as .csv or .xlsx"
                    problems.append(Problem(str(path), f"has the ending {ending!r}", remedy))
        except InvalidInput as fault:
            problems += fault.problems
    if problems:
        raise InvalidInput(tuple(problems))
    return tuple(walls), tuple(lists), files


def read_merchants(paths: list[Path], split_saves: str | None) -> tuple[PriceBook, Merchants]:
    """Read price books, the first and all others, and what a second order must save."""
    books: list[PriceBook] = []
    problems: list[Problem] = []
    for path in paths:
        try:
            books.append(lib.read_price_book(read_text(path), name=path.name))
        except InvalidInput as fault:
            problems += fault.problems
    least = SPLIT_SAVES
    try:
        least = SPLIT_SAVES if split_saves is None else lib.pence(split_saves)
    except ValueError as trouble:
        problems.append(Problem("--split-saves", str(trouble), "Give a sum such as 50.00"))
    if problems:
        raise InvalidInput(tuple(problems))
    first, *others = books
    return first, Merchants(others=tuple(others), split_saves=least)


def read_rack(path: Path | None) -> Rack:
    """Read a rack file, or take an empty rack where there is none."""
    return lib.Rack() if path is None else lib.read_rack(read_bytes(path), name=path.name)


def read_history(path: Path | None, coming: list[Path]) -> History | None:
    """Read what became of offcuts, and the parts of jobs to come; None where no file is named.

    Raises InvalidInput with every fault of the history, or of the part lists.
    """
    if path is None:
        if coming:
            remedy = "Name what became of offcuts with --rack-history, be it a header alone"
            raise InvalidInput((Problem("--coming", "stands without --rack-history", remedy),))
        return None
    lives = lib.read_rack_history(read_bytes(path), name=path.name)
    lists = tuple(
        lib.read_part_list(read_bytes(item), name=item.name, job=item.stem) for item in coming
    )
    return History(lives=lives, coming=lists, today=lib.day_number(own_day()))


def own_day() -> str:
    """Return the firm's own day, by this machine's clock and zone, as an ISO date."""
    return datetime.now().astimezone().date().isoformat()
