"""Documents of parts to parts: the same in a cutting request and in a part list."""

from __future__ import annotations

from optimiser.domain.parts import BoardPart, CutOut, LengthPart
from optimiser.formats.request_documents import (
    BoardPartDocument,
    LengthPartDocument,
    dimensions_from,
)
from optimiser.units import Tenths


def length_part(part: LengthPartDocument) -> LengthPart:
    """Return a part cut to length as its document says."""
    return LengthPart(
        id=part.id,
        job=part.job,
        length=Tenths(part.length_mm),
        quantity=part.quantity,
        name=part.name,
        ease=Tenths(part.ease_mm),
        dimension_from=dimensions_from(part.dimension_from),
    )


def board_part(part: BoardPartDocument) -> BoardPart:
    """Return a part cut from a board, with its cut-outs, as its document says."""
    return BoardPart(
        id=part.id,
        job=part.job,
        width=Tenths(part.width_mm),
        height=Tenths(part.height_mm),
        quantity=part.quantity,
        turn=part.turn,
        cut_outs=tuple(
            CutOut(
                x=Tenths(hole.x_mm),
                y=Tenths(hole.y_mm),
                width=Tenths(hole.width_mm),
                height=Tenths(hole.height_mm),
            )
            for hole in part.cut_outs
        ),
        name=part.name,
        ease=Tenths(part.ease_mm),
        dimension_from=dimensions_from(part.dimension_from),
    )
