"""Part lists as documents: what was read from a table, kept and read again; sizes in mm."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from typing import Any

from pydantic import Field

from optimiser.domain.part_list import PartList
from optimiser.errors import InvalidInput, Problem
from optimiser.formats.fields import Document, Id, read_document
from optimiser.formats.part_documents import board_part, length_part
from optimiser.formats.request_documents import (
    BoardPartDocument,
    CutOutDocument,
    LengthPartDocument,
    dimensions_document,
)

_MOST = 50_000


class ListedLengthDocument(LengthPartDocument):
    """Equal lengths of one job, with the section they are cut from."""

    material: Id


class ListedBoardDocument(BoardPartDocument):
    """Equal board parts of one job, with the board they are cut from."""

    material: Id


class PartListDocument(Document):
    """The parts of one job or more."""

    lengths: tuple[ListedLengthDocument, ...] = Field(default=(), max_length=_MOST)
    boards: tuple[ListedBoardDocument, ...] = Field(default=(), max_length=_MOST)


def part_list_document(parts: PartList) -> dict[str, Any]:
    """Write a part list as plain values, ready for JSON; `part_list_from_document` reads it."""
    # model_construct: the values are whole already, so nothing is read from millimetres again.
    return PartListDocument.model_construct(
        lengths=tuple(
            ListedLengthDocument.model_construct(
                material=material,
                id=part.id,
                job=part.job,
                length_mm=part.length,
                quantity=part.quantity,
                name=part.name,
                ease_mm=part.ease,
                dimension_from=dimensions_document(part.dimension_from),
            )
            for material, part in parts.lengths
        ),
        boards=tuple(
            ListedBoardDocument.model_construct(
                material=material,
                id=part.id,
                job=part.job,
                width_mm=part.width,
                height_mm=part.height,
                quantity=part.quantity,
                turn=part.turn,
                cut_outs=tuple(
                    CutOutDocument.model_construct(
                        x_mm=hole.x, y_mm=hole.y, width_mm=hole.width, height_mm=hole.height
                    )
                    for hole in part.cut_outs
                ),
                name=part.name,
                ease_mm=part.ease,
                dimension_from=dimensions_document(part.dimension_from),
            )
            for material, part in parts.boards
        ),
    ).model_dump(mode="json")


def part_list_from_document(content: object, *, name: str) -> PartList:
    """Read a part list from plain values. Raises InvalidInput with every fault of it."""
    document = read_document(content, PartListDocument, name=name)
    ids = [part.id for part in document.lengths] + [part.id for part in document.boards]
    problems = tuple(
        Problem(f"{name}: part {id_!r}", "stands twice", "Give each part its own id")
        for id_ in _twice(ids)
    )
    if problems:
        raise InvalidInput(problems)
    return PartList(
        lengths=tuple((part.material, length_part(part)) for part in document.lengths),
        boards=tuple((part.material, board_part(part)) for part in document.boards),
    )


def _twice(ids: Iterable[str]) -> list[str]:
    return [id_ for id_, count in Counter(ids).items() if count > 1]
