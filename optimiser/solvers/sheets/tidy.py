"""The same parts from the same sheet, cut in a simpler way or with better remainders.

A layout is rebuilt piece by piece while that gains: what it earns comes first, then fewer runs of
cuts, fewer settings of the fence, a first cut along the sheet, then the largest piece left over.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import TypeAlias

from optimiser.solvers.sheets.engine import Engine
from optimiser.solvers.sheets.pool import Plan, parts_of
from optimiser.solvers.sheets.problem import SheetsProblem
from optimiser.solvers.sheets.table import Kind, kinds_of, new_table
from optimiser.solvers.sheets.tree import (
    Block,
    begins_well,
    credit_of,
    divided,
    largest_left,
    left_over,
    renamed,
    runs_of,
)

# Layouts of at most so many pieces are rebuilt: each try costs a walk over all of them.
_MOST_PIECES = 60
# So many layouts of a plan are laid out anew for fewer runs of cuts: a few milliseconds each.
_MOST_LAID_ANEW = 150

Rank: TypeAlias = tuple[int, int, int, bool, int]


def tidied(problem: SheetsProblem, block: Block) -> Block:
    """Return the layout rebuilt for the better as long as one change at a time gains."""
    most = problem.max_stages
    while sum(1 for _ in block.walk()) <= _MOST_PIECES:
        now = rank_of(problem, block)
        better = [
            (rank_of(problem, other), other)
            for other in (*_flips(block), *_swaps(block))
            if (most is None or runs_of(other) <= most) and begins_well(problem, other)
        ]
        best = max(better, default=None, key=lambda entry: entry[0])
        if best is None or best[0] <= now:
            return block
        block = best[1]
    return block


def rank_of(problem: SheetsProblem, block: Block) -> Rank:
    """Return what makes one way to cut the same parts better than another, more is better."""
    square = block.height == block.width
    along = not block.pieces or square or block.rip == (block.height > block.width)
    return (
        credit_of(problem, block),
        -runs_of(block),
        -len(settings_of(block)),
        along,
        largest_left(problem, block),
    )


def settings_of(block: Block) -> frozenset[tuple[bool, int]]:
    """Return the settings of the fence that a layout needs: each way and size once."""
    found: set[tuple[bool, int]] = set()
    waiting = [block]
    while waiting:
        piece = waiting.pop()
        waiting += piece.pieces
        for cut_off in piece.pieces[:-1]:
            found.add((piece.rip, cut_off.width if piece.rip else cut_off.height))
    return frozenset(found)


def laid_anew(problem: SheetsProblem, kinds: tuple[Kind, ...], plan: Plan) -> Plan:
    """Return the plan with each layout in as few runs of cuts as its parts are found to allow."""
    found: dict[tuple[int, Block], Block] = {}
    for sheet, block in list(dict.fromkeys(plan))[:_MOST_LAID_ANEW]:
        found[sheet, block] = _with_fewer_runs(problem, kinds, sheet, block)
    return tuple((sheet, found.get((sheet, block), block)) for sheet, block in plan)


def _with_fewer_runs(
    problem: SheetsProblem, kinds: tuple[Kind, ...], sheet: int, block: Block
) -> Block:
    """Build the layout's parts anew on its sheet under ever higher limits of runs."""
    counts = parts_of(block)
    if counts.total() > _MOST_PIECES:
        return block
    names = sorted(counts)
    kerf = problem.kerf
    alone = replace(
        problem,
        widths=tuple(kinds[kind].width - kerf for kind in names),
        heights=tuple(kinds[kind].height - kerf for kind in names),
        demands=tuple(counts[kind] for kind in names),
        turns=tuple(kinds[kind].turns for kind in names),
        sheets=(replace(problem.sheets[sheet], available=1),),
    )
    own = kinds_of(alone)
    for runs in range(1, runs_of(block)):
        staged = replace(alone, max_stages=runs)
        engine = Engine(new_table(staged, own, 0))
        best = block
        for number in range(engine.constructions()):
            engine.construct(number)
            if engine.unplaced == 0:
                ((_, other),) = engine.plan()
                other = tidied(staged, renamed(other, [names[kind.parts[0]] for kind in own]))
                if rank_of(problem, other) > rank_of(problem, best):
                    best = other
        if best is not block:
            return best
    return block


def _swaps(block: Block) -> Iterator[Block]:
    """Give the block with a row of strips parted the other way first, where all part alike."""
    for index, piece in enumerate(block.pieces):
        rest = [*block.pieces[:index], *block.pieces[index + 1 :]]
        for other in _swaps(piece):
            yield divided([*rest, other], block.width, block.height, rip=block.rip)
    strips = [piece for piece in block.pieces if piece.pieces]
    if len(block.pieces) < 2 or not strips:
        return
    if any(piece.part >= 0 for piece in block.pieces):
        return
    sizes = {_across(piece, rip=block.rip) for piece in strips[0].pieces}
    for size in sorted(sizes):
        halves = [_parted(piece, size, rip=block.rip) for piece in block.pieces]
        if None in halves:
            continue
        near = [half[0] for half in halves if half is not None]
        far = [half[1] for half in halves if half is not None]
        if block.rip:
            low = divided(near, block.width, size, rip=True)
            high = divided(far, block.width, block.height - size, rip=True)
        else:
            low = divided(near, size, block.height, rip=False)
            high = divided(far, block.width - size, block.height, rip=False)
        yield divided([low, high], block.width, block.height, rip=not block.rip)


def _across(piece: Block, *, rip: bool) -> int:
    """Return what a piece of a strip measures along the strip."""
    return piece.height if rip else piece.width


def _parted(strip: Block, size: int, *, rip: bool) -> tuple[Block, Block] | None:
    """Part a strip of a row in one piece of a size and the rest; None where it has none."""
    if strip.is_left:
        if rip:
            return left_over(strip.width, size), left_over(strip.width, strip.height - size)
        return left_over(size, strip.height), left_over(strip.width - size, strip.height)
    for index, piece in enumerate(strip.pieces):
        if _across(piece, rip=rip) == size:
            rest = [*strip.pieces[:index], *strip.pieces[index + 1 :]]
            if rip:
                return piece, divided(rest, strip.width, strip.height - size, rip=False)
            return piece, divided(rest, strip.width - size, strip.height, rip=True)
    return None


def _flips(block: Block) -> Iterator[Block]:
    """Give the block with one L of left-over pieces cut the other way round."""
    for index, piece in enumerate(block.pieces):
        rest = [*block.pieces[:index], *block.pieces[index + 1 :]]
        for other in _flips(piece):
            yield divided([*rest, other], block.width, block.height, rip=block.rip)
    if not block.pieces or not block.pieces[-1].is_left:
        return
    left = block.pieces[-1]
    for index, strip in enumerate(block.pieces[:-1]):
        if not strip.pieces or not strip.pieces[-1].is_left:
            continue
        rest = [*block.pieces[:index], *block.pieces[index + 1 : -1]]
        turned = _flip(strip, left, rip=block.rip)
        yield divided([*rest, turned], block.width, block.height, rip=block.rip)


def _flip(strip: Block, left: Block, *, rip: bool) -> Block:
    end = strip.pieces[-1]
    if rip:
        width, height = strip.width + left.width, strip.height - end.height
        body = divided(list(strip.pieces[:-1]), strip.width, height, rip=False)
        row = divided([body, left_over(left.width, height)], width, height, rip=True)
        return divided([row, left_over(width, end.height)], width, strip.height, rip=False)
    width, height = strip.width - end.width, strip.height + left.height
    body = divided(list(strip.pieces[:-1]), width, strip.height, rip=True)
    column = divided([body, left_over(width, left.height)], width, height, rip=False)
    return divided([column, left_over(end.width, height)], strip.width, height, rip=True)
