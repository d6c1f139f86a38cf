"""What must hold of members and boards in space: flat pieces and boxes that share none of it."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations, pairwise

from optimiser.domain.frame import Board, Box, Face, Frame, Toward
from optimiser.domain.parts import CutOut
from optimiser.domain.price_book import PriceBook

Corner = tuple[int, int, int]
Span = tuple[Corner, Corner]


def span_of(box: Box) -> Span:
    return (box.x, box.y, box.z), (box.x + box.dx, box.y + box.dy, box.z + box.dz)


def shares(one: Span, other: Span) -> bool:
    return all(max(one[0][i], other[0][i]) < min(one[1][i], other[1][i]) for i in range(3))


def hole_in_space(piece: Board | Face, cut: CutOut) -> Span:
    """A cut-out of a board, or a hole of a face, as a box as thick as the wall is deep."""
    low, high = (list(corner) for corner in span_of(piece.box))
    for toward, start, size in (
        (piece.across, cut.x, cut.width),
        (piece.up, cut.y, cut.height),
    ):
        axis = "xyz".index(toward.value[1])
        if toward.value[0] == "+":
            low[axis], high[axis] = low[axis] + start, low[axis] + start + size
        else:
            low[axis], high[axis] = high[axis] - start - size, high[axis] - start
    axis = "xyz".index(piece.faces.value[1])
    low[axis], high[axis] = -1_000_000, 1_000_000
    return (low[0], low[1], low[2]), (high[0], high[1], high[2])


def _in_a_cut_out(board: Board, other: Span) -> bool:
    """Whether what another piece takes of a board's box lies in one of its cut-outs."""
    box = span_of(board.box)
    low = [max(box[0][i], other[0][i]) for i in range(3)]
    high = [min(box[1][i], other[1][i]) for i in range(3)]
    return any(
        all(hole[0][i] <= low[i] and high[i] <= hole[1][i] for i in range(3))
        for hole in (hole_in_space(board, cut) for cut in board.cut_outs)
    )


def overlaps(frame: Frame) -> Iterator[tuple[str, str]]:
    """Yield every two pieces that stand in one another; what follows the ceiling is left out."""
    members = [(m.rule, span_of(m.box)) for m in frame.members if not m.follows_ceiling]
    boards = [(b, span_of(b.box)) for b in frame.boards]
    for (one, a), (other, b) in combinations(members, 2):
        if shares(a, b):
            yield one, other
    for board, a in boards:
        for rule, b in members:
            if shares(a, b) and not _in_a_cut_out(board, b):
                yield board.face, rule
    for (first, a), (second, b) in combinations(boards, 2):
        if shares(a, b) and not _in_a_cut_out(first, b) and not _in_a_cut_out(second, a):
            yield first.face, second.face


def in_the_way(frame: Frame) -> Iterator[tuple[str, str]]:
    """Yield every member that stands where fire or TV need the room."""
    for space in frame.keep_outs:
        for one in frame.members:
            if not one.follows_ceiling and shares(span_of(space.box), span_of(one.box)):
                yield space.name, one.rule


def uncovered(frame: Frame) -> Iterator[tuple[str, int, Corner]]:
    """Yield each spot of a face that its boards do not cover exactly once in each layer."""
    for face in frame.faces:
        boards = [board for board in frame.boards if board.face == face.name]
        boards = [board for board in boards if _over(board, face)]
        for layer in range(1, face.layers + 1):
            of_layer = [board for board in boards if board.layer == layer]
            for spot in _spots(face, of_layer):
                times = sum(_covers(board, spot) for board in of_layer)
                is_open = any(_inside(hole_in_space(face, hole), spot) for hole in face.holes)
                if times != (0 if is_open else 1):
                    yield face.name, layer, spot


def _over(board: Board, face: Face) -> bool:
    """A face of a name may have several stretches: only boards before this one count."""
    axis = "xyz".index(face.faces.value[1])
    a, b = span_of(board.box), span_of(face.box)
    return all(a[0][i] < b[1][i] and b[0][i] < a[1][i] for i in range(3) if i != axis)


def _spots(face: Face, boards: list[Board]) -> Iterator[Corner]:
    low, high = span_of(face.box)
    axis = "xyz".index(face.faces.value[1])
    cuts: list[set[int]] = [{low[i], high[i]} for i in range(3)]
    spans = [span_of(board.box) for board in boards]
    spans += [hole_in_space(board, cut) for board in boards for cut in board.cut_outs]
    spans += [hole_in_space(face, hole) for hole in face.holes]
    for span in spans:
        for i in range(3):
            cuts[i] |= {at for at in (span[0][i], span[1][i]) if low[i] < at < high[i]}
    middles = [
        [low[i]] if i == axis else [(a + b) // 2 for a, b in pairwise(sorted(cuts[i])) if b - a > 1]
        for i in range(3)
    ]
    for x in middles[0]:
        for y in middles[1]:
            for z in middles[2]:
                yield x, y, z


def _covers(board: Board, spot: Corner) -> bool:
    axis = "xyz".index(board.faces.value[1])
    low, high = span_of(board.box)
    inside = all(low[i] <= spot[i] <= high[i] for i in range(3) if i != axis)
    return inside and not any(_inside(hole_in_space(board, cut), spot) for cut in board.cut_outs)


def _inside(span: Span, spot: Corner) -> bool:
    return all(span[0][i] <= spot[i] <= span[1][i] for i in range(3))


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
