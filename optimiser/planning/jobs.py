"""Several jobs into one cutting request: framed walls and part lists, price book, rack, rules."""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Iterator
from dataclasses import replace
from string import ascii_lowercase
from typing import TypeVar

from optimiser.domain.frame import Bead, Board, Frame, FrameChoice, Member, Way
from optimiser.domain.job import Job
from optimiser.domain.part_list import PartList
from optimiser.domain.parts import BoardPart, DimensionFrom, LengthPart
from optimiser.domain.plan import CuttingPlan
from optimiser.domain.price_book import LengthItem, PriceBook, SheetItem
from optimiser.domain.rack import Rack
from optimiser.domain.request import Choice, CuttingRequest, Keep, LengthMaterial, SheetMaterial
from optimiser.errors import InvalidInput, Problem
from optimiser.framing.ways import frame_of
from optimiser.units import mm

PieceT = TypeVar("PieceT")


def job_of_frame(frame: Frame, *, client: str = "", needed: str = "") -> Job:
    """Gather a framed wall's equal members, beads and boards, by their marks, into parts to cut.

    What every way of a choice needs is cut whichever is taken; the rest of each way is one option
    of that choice, its parts' ids ending in "+a", "+b" and so on.
    """
    choices = [[_pieces(way) for way in choice.ways] for choice in _open(frame)]
    fixed = [_pieces(way) for choice in _closed(frame) for way in choice.ways[:1]]
    if not frame.alternatives:
        fixed = [_pieces(frame)]
    options: list[list[list[str]]] = [[[] for _ in ways] for ways in choices]
    dealt = list(_dealt(frame.job, fixed, choices, options))
    return Job(
        name=frame.job,
        client=client,
        needed=needed,
        parts=PartList(
            lengths=tuple(
                (alike[0].material, _length_part(frame.job, id_, alike))
                for id_, pieces in dealt
                if (alike := [one for one in pieces if not isinstance(one, Board)])
            ),
            boards=tuple(
                (flat[0].material, _board_part(frame.job, id_, flat))
                for id_, pieces in dealt
                if (flat := [one for one in pieces if isinstance(one, Board)])
            ),
        ),
        quantities=frame.quantities,
        choices=tuple(
            Choice(id=_choice_id(frame.job, choice), options=tuple(map(tuple, ids)))
            for choice, ids in zip(_open(frame), options, strict=True)
        ),
    )


def _open(frame: Frame) -> list[FrameChoice]:
    """Return what may be chosen."""
    return [one for one in frame.choices if len(one.ways) > 1] if frame.alternatives else []


def _closed(frame: Frame) -> list[FrameChoice]:
    return [one for one in frame.choices if len(one.ways) == 1]


def _choice_id(job: str, choice: FrameChoice) -> str:
    return f"{job}/{choice.name} of {choice.box}" if choice.box else f"{job}/{choice.name}"


Pieces = dict[str, list[Member | Bead | Board]]


def _pieces(way: Frame | Way) -> Pieces:
    """Return the pieces by their marks, lengths before boards."""
    found: Pieces = {}
    pieces: tuple[Member | Bead | Board, ...] = (*way.members, *way.beads, *way.boards)
    for piece in pieces:
        found.setdefault(piece.mark, []).append(piece)
    return found


def _dealt(
    job: str, fixed: list[Pieces], choices: list[list[Pieces]], options: list[list[list[str]]]
) -> Iterator[tuple[str, list[Member | Bead | Board]]]:
    """Yield each part's id and its pieces: those cut in any case, then what one way needs more."""
    every = [*fixed, *(way for ways in choices for way in ways)]
    for mark in dict.fromkeys(mark for way in every for mark in way):
        always = [piece for way in fixed for piece in way.get(mark, ())]
        more: list[tuple[str, list[str], list[Member | Bead | Board]]] = []
        letters = _letters()
        for ways, ids in zip(choices, options, strict=True):
            common = min(len(way.get(mark, ())) for way in ways)
            always += next((way[mark] for way in ways if mark in way), [])[:common]
            for way, option in zip(ways, ids, strict=True):
                more.append((next(letters), option, way.get(mark, [])[common:]))
        if always:
            yield f"{job}/{mark}", always
        for letter, option, pieces in more:
            if pieces:
                id_ = f"{job}/{mark}+{letter}"
                option.append(id_)
                yield id_, pieces


def _letters() -> Iterator[str]:
    """Yield a, b, … z, then aa, ab and so on."""
    for length in itertools.count(1):
        yield from map("".join, itertools.product(ascii_lowercase, repeat=length))


def _length_part(job: str, id_: str, same: list[Member | Bead]) -> LengthPart:
    return LengthPart(
        id=id_,
        job=job,
        length=same[0].length,
        quantity=len(same),
        name=_name_of_all(piece.kind for piece in same),
        dimension_from=_dimensions_from(same),
    )


def _board_part(job: str, id_: str, alike: list[Board]) -> BoardPart:
    return BoardPart(
        id=id_,
        job=job,
        width=alike[0].width,
        height=alike[0].height,
        quantity=len(alike),
        turn=alike[0].turn,
        cut_outs=alike[0].cut_outs,
        name=_name_of_all(_called(board) for board in alike),
        dimension_from=_dimensions_from(alike),
    )


def _called(board: Board) -> str:
    """Say where a board goes, and what was taken off it to go in."""
    return f"{board.face}, {mm(board.eased)} narrower to go in" if board.eased else board.face


def _dimensions_from(pieces: Iterable[Member | Bead | Board]) -> tuple[DimensionFrom, ...]:
    """Gather where the dimensions of equal pieces come from: the fields of each of them."""
    found: dict[str, dict[str, None]] = {}
    for one in dict.fromkeys(one for piece in pieces for one in piece.dimension_from):
        found.setdefault(one.dimension, {}).update(dict.fromkeys(one.fields))
    return tuple(
        DimensionFrom(dimension=dimension, fields=tuple(fields))
        for dimension, fields in found.items()
    )


def frame_as_planned(frame: Frame, plan: CuttingPlan) -> Frame:
    """Return the wall made in the ways that a plan chose, without the other ways."""
    chosen = {one.choice: one.option for one in plan.chosen}
    taken = {id(one): chosen.get(_choice_id(frame.job, one), 0) for one in _open(frame)}
    if not any(taken.values()):
        return replace(frame, alternatives=(), choices=())
    return frame_of(frame, frame.choices, [taken.get(id(one), 0) for one in frame.choices])


def job_as_planned(job: Job, frame: Frame, plan: CuttingPlan) -> Job:
    """Return a wall's job with the parts and quantities of the way that a plan chose."""
    chosen = {one.choice: one.option for one in plan.chosen}
    optional = {id_ for choice in job.choices for option in choice.options for id_ in option}
    wanted = {id_ for one in job.choices for id_ in one.options[chosen.get(one.id, 0)]}
    left_out = optional - wanted
    parts = PartList(
        lengths=tuple(pair for pair in job.parts.lengths if pair[1].id not in left_out),
        boards=tuple(pair for pair in job.parts.boards if pair[1].id not in left_out),
    )
    quantities = frame_as_planned(frame, plan).quantities
    return replace(job, parts=parts, quantities=quantities, choices=())


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
        choices=tuple(choice for job in jobs for choice in job.choices),
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
        max_stages=item.max_stages,
        first_cut=item.first_cut,
        use_cut_outs=item.use_cut_outs,
        cut_out_trim=item.cut_out_trim,
        cutting=item.cutting,
        stock=item.stock,
        offcuts=_of(item.material, rack.sheets),
        parts=parts,
    )
