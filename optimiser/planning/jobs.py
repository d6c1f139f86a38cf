"""Several jobs into one cutting request: framed walls and part lists, price book, rack, rules."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TypeVar

from optimiser.domain.frame import Bead, Board, Frame, Member
from optimiser.domain.job import Job
from optimiser.domain.part_list import PartList
from optimiser.domain.parts import BoardPart, LengthPart
from optimiser.domain.price_book import LengthItem, PriceBook, SheetItem
from optimiser.domain.rack import Rack
from optimiser.domain.request import CuttingRequest, Keep, LengthMaterial, SheetMaterial
from optimiser.errors import InvalidInput, Problem

PieceT = TypeVar("PieceT")


def job_of_frame(frame: Frame, *, client: str = "", needed: str = "") -> Job:
    """Gather a framed wall's equal members, beads and boards, by their marks, into parts to cut."""
    lengths: dict[str, list[Member | Bead]] = {}
    pieces: tuple[Member | Bead, ...] = (*frame.members, *frame.beads)
    for piece in pieces:
        lengths.setdefault(piece.mark, []).append(piece)
    boards: dict[str, list[Board]] = {}
    for board in frame.boards:
        boards.setdefault(board.mark, []).append(board)
    return Job(
        name=frame.job,
        client=client,
        needed=needed,
        parts=PartList(
            lengths=tuple(
                (
                    same[0].material,
                    LengthPart(
                        id=f"{frame.job}/{mark}",
                        job=frame.job,
                        length=same[0].length,
                        quantity=len(same),
                        name=_name_of_all(piece.kind for piece in same),
                    ),
                )
                for mark, same in lengths.items()
            ),
            boards=tuple(
                (
                    alike[0].material,
                    BoardPart(
                        id=f"{frame.job}/{mark}",
                        job=frame.job,
                        width=alike[0].width,
                        height=alike[0].height,
                        quantity=len(alike),
                        turn=alike[0].turn,
                        cut_outs=alike[0].cut_outs,
                        name=_name_of_all(board.face for board in alike),
                    ),
                )
                for mark, alike in boards.items()
            ),
        ),
        quantities=frame.quantities,
    )


def _name_of_all(names: Iterable[str]) -> str:
    """Name what equal parts are for: one name, or the first and how many others there are."""
    first, *others = dict.fromkeys(names)
    return f"{first} and {len(others)} more" if len(others) > 1 else ", ".join((first, *others))


def request_for_jobs(
    jobs: tuple[Job, ...], book: PriceBook, rack: Rack, *, keep: Keep, seed: int, seconds: float
) -> CuttingRequest:
    """Put the parts of all jobs on the stock of one price book and the rack.

    Materials come in the price book's order; those that no part needs are left out. Raises
    InvalidInput for two jobs of one name and for a material the price book does not sell.
    """
    problems = tuple(_problems(jobs, book, rack))
    if problems:
        raise InvalidInput(problems)
    lengths = [pair for job in jobs for pair in job.parts.lengths]
    boards = [pair for job in jobs for pair in job.parts.boards]
    return CuttingRequest(
        seed=seed,
        seconds=seconds,
        keep=keep,
        lengths=tuple(
            _length_material(item, _of(item.material, lengths), rack)
            for item in book.lengths
            if _of(item.material, lengths)
        ),
        sheets=tuple(
            _sheet_material(item, _of(item.material, boards), rack)
            for item in book.sheets
            if _of(item.material, boards)
        ),
    )


def _problems(jobs: tuple[Job, ...], book: PriceBook, rack: Rack) -> Iterator[Problem]:
    names = [job.name for job in jobs]
    for name in sorted({name for name in names if names.count(name) > 1}):
        yield Problem(f"job {name!r}", "stands twice in the batch", "Give each job its own name")
    sold_by_length = {item.material for item in book.lengths}
    sold_by_sheet = {item.material for item in book.sheets}
    remedy = "Use a material of the price book, or add it there"
    for job in jobs:
        for kind, pairs, sold in (
            ("lengths", job.parts.lengths, sold_by_length),
            ("sheets", job.parts.boards, sold_by_sheet),
        ):
            for material in sorted({material for material, _ in pairs} - sold):
                example = next(part.id for found, part in pairs if found == material)
                yield Problem(
                    f"material {material!r} of part {example!r}",
                    f"is not among the {kind} that {book.merchant} sells",
                    remedy,
                )
    known = sold_by_length | sold_by_sheet
    racked = [(material, offcut.id) for material, offcut in rack.lengths]
    racked += [(material, offcut.id) for material, offcut in rack.sheets]
    for material, id_ in racked:
        if material not in known:
            yield Problem(f"rack offcut {id_!r}", f"is of unknown material {material!r}", remedy)


def _of(material: str, pairs: Iterable[tuple[str, PieceT]]) -> tuple[PieceT, ...]:
    return tuple(piece for found, piece in pairs if found == material)


def _length_material(item: LengthItem, parts: tuple[LengthPart, ...], rack: Rack) -> LengthMaterial:
    return LengthMaterial(
        material=item.material,
        kerf=item.kerf,
        end_trim=item.end_trim,
        stock=item.stock,
        offcuts=_of(item.material, rack.lengths),
        parts=parts,
    )


def _sheet_material(item: SheetItem, parts: tuple[BoardPart, ...], rack: Rack) -> SheetMaterial:
    return SheetMaterial(
        material=item.material,
        kerf=item.kerf,
        edge_trim=item.edge_trim,
        max_stages=None,
        cutting=item.cutting,
        stock=item.stock,
        offcuts=_of(item.material, rack.sheets),
        parts=parts,
    )
