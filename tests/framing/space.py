"""What tests of framing ask of boxes in space; the inspector's own tests prove the rest."""

from __future__ import annotations

from collections.abc import Iterator

from optimiser.domain.frame import Board, Box, Frame, Toward
from optimiser.domain.price_book import PriceBook

Corner = tuple[int, int, int]
Span = tuple[Corner, Corner]


def span_of(box: Box) -> Span:
    return (box.x, box.y, box.z), (box.x + box.dx, box.y + box.dy, box.z + box.dz)


def shares(one: Span, other: Span) -> bool:
    return all(max(one[0][i], other[0][i]) < min(one[1][i], other[1][i]) for i in range(3))


def faces_looking(frame: Frame, toward: Toward) -> set[str]:
    return {face.name for face in frame.faces if face.faces is toward}


def too_large(frame: Frame, book: PriceBook) -> Iterator[Board]:
    """Yield the boards that no sheet of the book gives, either way round."""
    sheets = {item.material: item.stock for item in book.sheets}
    for board in frame.boards:
        sides = sorted((board.width, board.height))
        fitting = (sorted((one.width, one.height)) for one in sheets[board.material])
        if not any(sides[0] <= one[0] and sides[1] <= one[1] for one in fitting):
            yield board
