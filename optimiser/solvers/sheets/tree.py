"""Layouts as values: read out of the row, put into a standing order, written as real cuts.

A block is a piece of sheet, sizes plus kerf. The pieces of a rip block lie side by side, those of a
crosscut block one above another, and at most one of them is left over; it comes last.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from typing import NamedTuple

from optimiser.solvers.sheets import cells as c
from optimiser.solvers.sheets.problem import Cut, Leaf, Node, SheetsProblem, Way

# Rows longer than this are halved before they are cut piece by piece.
_LONG_ROW = 100


class Block(NamedTuple):
    """One piece of a layout: a part (`part` ≥ 0), left over (−1), or divided into `pieces`."""

    rip: bool
    width: int
    height: int
    part: int
    turned: bool
    pieces: tuple[Block, ...]

    @property
    def is_left(self) -> bool:
        """Return whether the piece is left over."""
        return self.part < 0 and not self.pieces

    @property
    def pieces_in_all(self) -> int:
        """Return how many pieces there are, itself and those in pieces counted."""
        return 1 + sum(piece.pieces_in_all for piece in self.pieces)

    def walk(self) -> Iterator[Block]:
        """Go over the finished pieces."""
        if not self.pieces:
            yield self
        for piece in self.pieces:
            yield from piece.walk()


def left_over(width: int, height: int) -> Block:
    """Return a left-over block."""
    return Block(rip=False, width=width, height=height, part=-1, turned=False, pieces=())


def divided(pieces: list[Block], width: int, height: int, *, rip: bool) -> Block:
    """Return a block of the given pieces in their standing order, what is left over joined."""
    left = [piece for piece in pieces if piece.is_left]
    kept = sorted((piece for piece in pieces if not piece.is_left), key=_order)
    if not kept:
        return left_over(width, height)
    if left:
        kept.append(
            left_over(sum(piece.width for piece in left), height)
            if rip
            else left_over(width, sum(piece.height for piece in left))
        )
    if len(kept) == 1:
        return kept[0]
    flat: list[Block] = []
    for piece in kept:
        flat.extend(piece.pieces if piece.pieces and piece.rip == rip else (piece,))
    if len(flat) > len(kept):
        return divided(flat, width, height, rip=rip)
    return Block(rip=rip, width=width, height=height, part=-1, turned=False, pieces=tuple(kept))


def _order(piece: Block) -> tuple[int, int, int, tuple[int, ...]]:
    parts = tuple(leaf.part for leaf in piece.walk())
    return (-piece.width, -piece.height, -piece.part, parts)


def read_block(mem: list[int], node: int, at_types: int) -> Block:
    """Read the piece at a node of the search's row; parts count from 0."""
    kind, width, height = mem[node + c.KIND], mem[node + c.W], mem[node + c.H]
    if kind == c.LEFTOVER:
        return left_over(width, height)
    if kind == c.PLACED:
        part = mem[node + c.PART]
        return Block(
            rip=False,
            width=width,
            height=height,
            part=(part - at_types) // c.CELLS,
            turned=width != mem[part + c.W],
            pieces=(),
        )
    pieces = []
    child = mem[node + c.FIRST]
    while child:
        pieces.append(read_block(mem, child, at_types))
        child = mem[child + c.NEXT]
    return divided(pieces, width, height, rip=kind == c.RIP)


def without(block: Block, surplus: dict[int, int]) -> Block:
    """Return the block less surplus parts; counts in `surplus` fall as they are taken out."""
    if block.part >= 0 and surplus.get(block.part, 0) > 0:
        surplus[block.part] -= 1
        return left_over(block.width, block.height)
    if not block.pieces:
        return block
    pieces = [without(piece, surplus) for piece in block.pieces]
    return divided(pieces, block.width, block.height, rip=block.rip)


def credit_of(problem: SheetsProblem, block: Block) -> int:
    """Return what the left-over pieces of a layout earn, pence."""
    kerf = problem.kerf
    return sum(
        problem.credit_for(piece.width - kerf, piece.height - kerf)
        for piece in block.walk()
        if piece.is_left and min(piece.width, piece.height) > kerf
    )


def largest_left(problem: SheetsProblem, block: Block) -> int:
    """Return the area of the largest left-over piece that is worth keeping, 0 if there is none."""
    kerf = problem.kerf
    return max(
        (
            (piece.width - kerf) * (piece.height - kerf)
            for piece in block.walk()
            if piece.is_left
            and max(piece.width, piece.height) - kerf >= max(problem.keep)
            and min(piece.width, piece.height) - kerf >= max(1, min(problem.keep))
        ),
        default=0,
    )


def real_cuts(block: Block, kerf: int) -> Node:
    """Write a block as cuts in real sizes, one piece after another from the near edge.

    Parts in the leaves are kinds still, for the caller to name.
    """
    if not block.pieces:
        return Leaf(block.part if block.part >= 0 else None, block.turned)
    return _row_of_cuts(block.pieces, kerf, rip=block.rip)


def _row_of_cuts(pieces: tuple[Block, ...], kerf: int, *, rip: bool) -> Node:
    """Cut one piece after another off; a very long row is halved first, to keep trees shallow."""
    if len(pieces) > _LONG_ROW:
        half = len(pieces) // 2
        near = _row_of_cuts(pieces[:half], kerf, rip=rip)
        far = _row_of_cuts(pieces[half:], kerf, rip=rip)
        return Cut(rip, sum(map(_side(rip=rip), pieces[:half])) - kerf, near, far)
    side = _side(rip=rip)
    sliver = pieces[-1].is_left and side(pieces[-1]) <= kerf
    node: Node | None = None if sliver else real_cuts(pieces[-1], kerf)
    for piece in reversed(pieces[:-1]):
        node = Cut(rip, side(piece) - kerf, real_cuts(piece, kerf), node)
    if node is None:
        raise AssertionError("a row ends in a part, or in what is left beside one")
    return node


def block_of_cuts(
    node: Node, width: int, height: int, kerf: int, kind_of: Mapping[int, int]
) -> Block:
    """Read cuts in real sizes back as a block of the given size, a kerf included.

    `kind_of` says what each part in the leaves is called in the block; whether it is turned is left
    open.
    """
    if not isinstance(node, Cut):
        if node.part is None:
            return left_over(width, height)
        part = kind_of[node.part]
        return Block(rip=False, width=width, height=height, part=part, turned=False, pieces=())
    near = node.at + kerf
    sizes = [(near, height), (width - near, height)]
    if not node.rip:
        sizes = [(width, near), (width, height - near)]
    pieces = [
        block_of_cuts(Leaf() if piece is None else piece, *size, kerf, kind_of)
        for piece, size in zip((node.near, node.far), sizes, strict=True)
        if min(size) > 0
    ]
    return divided(pieces, width, height, rip=node.rip)


def _side(*, rip: bool) -> Callable[[Block], int]:
    """Return what measures a piece along its row."""
    return (lambda piece: piece.width) if rip else (lambda piece: piece.height)


def runs_of(block: Block, runs: int = 0) -> int:
    """Return the most runs of parallel cuts on the way to any finished piece."""
    return max((runs_of(piece, runs + 1) for piece in block.pieces), default=runs)


def begins_well(problem: SheetsProblem, block: Block) -> bool:
    """Return whether the first cut of a layout goes the way the problem asks for."""
    if problem.first_cut is None or not block.pieces:
        return True
    return block.rip == (problem.first_cut is Way.RIP)


def renamed(block: Block, names: list[int]) -> Block:
    """Call the parts of a block by other names: part n becomes names[n]."""
    if block.part >= 0:
        return block._replace(part=names[block.part])
    return block._replace(pieces=tuple(renamed(piece, names) for piece in block.pieces))
