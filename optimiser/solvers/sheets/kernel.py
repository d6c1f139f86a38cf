"""Guillotine trees in one table of whole numbers: divide a piece, take parts out, take it all back.

Everything here is compiled, since the search takes these steps hundreds of thousands of times a
second; `twin.py` runs the same lines as plain Python, and tests compare the two. Every state is a
guillotine plan by construction: a left-over piece is only ever divided edge to edge. No node has
two left-over pieces among its own, so there is never a cut between two of them.
"""

from __future__ import annotations

from optimiser.solvers.sheets import cells as c
from optimiser.solvers.sheets.compiled import Real, Whole, compiled


@compiled
def draw(head: Whole, below: int) -> int:
    """Return a whole number from 0 to below - 1; xorshift on 32 bits (Marsaglia 2003)."""
    luck = head[c.LUCK]
    luck ^= (luck << 13) & 0xFFFFFFFF
    luck ^= luck >> 17
    luck ^= (luck << 5) & 0xFFFFFFFF
    head[c.LUCK] = luck
    return int((luck * below) >> 32)


@compiled
def put(mem: Whole, log: Whole, head: Whole, row: int, column: int, value: int) -> None:
    """Write a cell, and note what it held, so that `undo` can put it back."""
    entry = head[c.LOGGED]
    if entry < log.shape[0]:
        log[entry, 0] = row
        log[entry, 1] = column
        log[entry, 2] = mem[row, column]
    head[c.LOGGED] = entry + 1
    mem[row, column] = value


@compiled
def undo(mem: Whole, log: Whole, head: Whole) -> bool:
    """Take back all that was written since the log was emptied; False if it ran over."""
    entry = head[c.LOGGED]
    if entry > log.shape[0]:
        return False
    while entry > 0:
        entry -= 1
        mem[log[entry, 0], log[entry, 1]] = log[entry, 2]
    head[c.LOGGED] = 0
    return True


@compiled
def credit_of(mem: Whole, head: Whole, ratios: Real, node: int) -> int:
    """Return the whole pence that a left-over piece would earn."""
    if ratios[c.RATE] <= 0.0:
        return 0
    width = mem[node, c.W] - head[c.KERF]
    height = mem[node, c.H] - head[c.KERF]
    if max(width, height) < head[c.KEEP_LONG] or min(width, height) < head[c.KEEP_SHORT]:
        return 0
    if min(width, height) <= 0:
        return 0
    return int(ratios[c.RATE] * width * height)


@compiled
def link(mem: Whole, log: Whole, head: Whole, ratios: Real, node: int) -> None:
    """Make a node a left-over piece, first in its sheet's list."""
    root = mem[node, c.ROOT]
    first = mem[root, c.LEFT]
    put(mem, log, head, node, c.KIND, c.LEFTOVER)
    put(mem, log, head, node, c.FORE, 0)
    put(mem, log, head, node, c.BACK, first)
    if first:
        put(mem, log, head, first, c.FORE, node)
    put(mem, log, head, root, c.LEFT, node)
    earned = credit_of(mem, head, ratios, node)
    if earned:
        put(mem, log, head, 0, c.CREDIT, mem[0, c.CREDIT] + earned)


@compiled
def unlink(mem: Whole, log: Whole, head: Whole, ratios: Real, node: int) -> None:
    """Take a node out of its sheet's list of left-over pieces."""
    fore = mem[node, c.FORE]
    back = mem[node, c.BACK]
    if fore:
        put(mem, log, head, fore, c.BACK, back)
    else:
        put(mem, log, head, mem[node, c.ROOT], c.LEFT, back)
    if back:
        put(mem, log, head, back, c.FORE, fore)
    earned = credit_of(mem, head, ratios, node)
    if earned:
        put(mem, log, head, 0, c.CREDIT, mem[0, c.CREDIT] - earned)


@compiled
def resize(
    mem: Whole, log: Whole, head: Whole, ratios: Real, node: int, width: int, height: int
) -> None:
    """Change the size of a left-over piece."""
    before = credit_of(mem, head, ratios, node)
    put(mem, log, head, node, c.W, width)
    put(mem, log, head, node, c.H, height)
    after = credit_of(mem, head, ratios, node)
    if after != before:
        put(mem, log, head, 0, c.CREDIT, mem[0, c.CREDIT] + after - before)


@compiled
def new_row(mem: Whole, log: Whole, head: Whole, width: int, height: int) -> int:
    """Take a free row for a node of the given size."""
    node = mem[0, c.FREE_ROW]
    put(mem, log, head, 0, c.FREE_ROW, mem[node, c.NEXT])
    put(mem, log, head, node, c.W, width)
    put(mem, log, head, node, c.H, height)
    put(mem, log, head, node, c.FIRST, 0)
    return int(node)


@compiled
def free_row(mem: Whole, log: Whole, head: Whole, node: int) -> None:
    """Give a row back."""
    put(mem, log, head, node, c.KIND, c.FREE)
    put(mem, log, head, node, c.NEXT, mem[0, c.FREE_ROW])
    put(mem, log, head, 0, c.FREE_ROW, node)


@compiled
def hang(mem: Whole, log: Whole, head: Whole, node: int, up: int) -> None:
    """Make a new node the first piece of `up`."""
    first = mem[up, c.FIRST]
    put(mem, log, head, node, c.UP, up)
    put(mem, log, head, node, c.ROOT, mem[up, c.ROOT])
    put(mem, log, head, node, c.DEPTH, mem[up, c.DEPTH] + 1)
    put(mem, log, head, node, c.PREV, 0)
    put(mem, log, head, node, c.NEXT, first)
    if first:
        put(mem, log, head, first, c.PREV, node)
    put(mem, log, head, up, c.FIRST, node)


@compiled
def detach(mem: Whole, log: Whole, head: Whole, node: int) -> None:
    """Take a node out from among its neighbours, and free its row."""
    before = mem[node, c.PREV]
    after = mem[node, c.NEXT]
    if before:
        put(mem, log, head, before, c.NEXT, after)
    else:
        put(mem, log, head, mem[node, c.UP], c.FIRST, after)
    if after:
        put(mem, log, head, after, c.PREV, before)
    free_row(mem, log, head, node)


@compiled
def set_waiting(mem: Whole, log: Whole, head: Whole, kind: int) -> None:
    """Let one more copy of a part type wait."""
    count = mem[kind, c.COUNT]
    if count == 0:
        place = mem[0, c.N_WAIT]
        put(mem, log, head, place, c.WAIT, kind)
        put(mem, log, head, kind, c.POS, place)
        put(mem, log, head, 0, c.N_WAIT, place + 1)
    put(mem, log, head, kind, c.COUNT, count + 1)
    area = mem[kind, c.W] * mem[kind, c.H]
    put(mem, log, head, 0, c.UNPLACED, mem[0, c.UNPLACED] + area)


@compiled
def set_served(mem: Whole, log: Whole, head: Whole, kind: int) -> None:
    """Let one copy fewer of a part type wait."""
    count = mem[kind, c.COUNT] - 1
    put(mem, log, head, kind, c.COUNT, count)
    if count == 0:
        last = mem[0, c.N_WAIT] - 1
        moved = mem[last, c.WAIT]
        place = mem[kind, c.POS]
        put(mem, log, head, place, c.WAIT, moved)
        put(mem, log, head, moved, c.POS, place)
        put(mem, log, head, 0, c.N_WAIT, last)
    area = mem[kind, c.W] * mem[kind, c.H]
    put(mem, log, head, 0, c.UNPLACED, mem[0, c.UNPLACED] - area)


@compiled
def open_sheet(mem: Whole, log: Whole, head: Whole, ratios: Real, size: int) -> int:
    """Open one more sheet of a size, all of it left over."""
    root = new_row(mem, log, head, mem[size, c.W], mem[size, c.H])
    put(mem, log, head, root, c.UP, 0)
    put(mem, log, head, root, c.NEXT, 0)
    put(mem, log, head, root, c.PREV, 0)
    put(mem, log, head, root, c.DEPTH, 0)
    put(mem, log, head, root, c.ROOT, root)
    put(mem, log, head, root, c.LEFT, 0)
    put(mem, log, head, root, c.SIZE, size)
    place = mem[0, c.N_OPEN]
    put(mem, log, head, place, c.OPEN, root)
    put(mem, log, head, root, c.POS, place)
    put(mem, log, head, 0, c.N_OPEN, place + 1)
    put(mem, log, head, 0, c.PRICE, mem[0, c.PRICE] + mem[size, c.COST])
    put(mem, log, head, size, c.COUNT, mem[size, c.COUNT] + 1)
    link(mem, log, head, ratios, root)
    return root


@compiled
def close_sheet(mem: Whole, log: Whole, head: Whole, ratios: Real, root: int) -> None:
    """Hand a sheet back; the parts on it wait again."""
    empty(mem, log, head, ratios, root)
    size = mem[root, c.SIZE]
    last = mem[0, c.N_OPEN] - 1
    moved = mem[last, c.OPEN]
    place = mem[root, c.POS]
    put(mem, log, head, place, c.OPEN, moved)
    put(mem, log, head, moved, c.POS, place)
    put(mem, log, head, 0, c.N_OPEN, last)
    put(mem, log, head, 0, c.PRICE, mem[0, c.PRICE] - mem[size, c.COST])
    put(mem, log, head, size, c.COUNT, mem[size, c.COUNT] - 1)
    free_row(mem, log, head, root)


@compiled
def empty(mem: Whole, log: Whole, head: Whole, ratios: Real, node: int) -> None:
    """Take out of a node all that it holds; the node is then of no kind until told."""
    if mem[node, c.KIND] == c.PLACED:
        set_waiting(mem, log, head, mem[node, c.PART])
        return
    if mem[node, c.KIND] == c.LEFTOVER:
        unlink(mem, log, head, ratios, node)
        return
    child = mem[node, c.FIRST]
    while child:
        while mem[child, c.KIND] >= c.RIP:
            child = mem[child, c.FIRST]
        if mem[child, c.KIND] == c.PLACED:
            set_waiting(mem, log, head, mem[child, c.PART])
        else:
            unlink(mem, log, head, ratios, child)
        after = mem[child, c.NEXT]
        up = mem[child, c.UP]
        free_row(mem, log, head, child)
        while after == 0 and up != node:
            child = up
            after = mem[child, c.NEXT]
            up = mem[child, c.UP]
            free_row(mem, log, head, child)
        child = after
    put(mem, log, head, node, c.FIRST, 0)


@compiled
def remove(mem: Whole, log: Whole, head: Whole, ratios: Real, node: int) -> None:
    """Take a part or a whole strip out; what becomes free is joined to what is left beside it."""
    empty(mem, log, head, ratios, node)
    while mem[node, c.UP]:
        up = mem[node, c.UP]
        other = mem[up, c.FIRST]
        while other and (other == node or mem[other, c.KIND] != c.LEFTOVER):
            other = mem[other, c.NEXT]
        if other:
            along = c.W if mem[up, c.KIND] == c.RIP else c.H
            put(mem, log, head, node, along, mem[node, along] + mem[other, along])
            unlink(mem, log, head, ratios, other)
            detach(mem, log, head, other)
        if mem[up, c.FIRST] != node or mem[node, c.NEXT] != 0:
            break
        detach(mem, log, head, node)
        node = up
    link(mem, log, head, ratios, node)


@compiled
def place(
    mem: Whole, log: Whole, head: Whole, ratios: Real, leaf: int, kind: int, turned: int, cut: int
) -> None:
    """Cut a part out of a left-over piece; the first cut is a RIP or a CROSS.

    The part lies at the near corner. A dimension that fits exactly needs no cut, and the caller
    names the other one.
    """
    width = mem[kind, c.H] if turned else mem[kind, c.W]
    height = mem[kind, c.W] if turned else mem[kind, c.H]
    set_served(mem, log, head, kind)
    full_width = mem[leaf, c.W]
    full_height = mem[leaf, c.H]
    node = leaf
    if width == full_width and height == full_height:
        unlink(mem, log, head, ratios, leaf)
    else:
        strip_width = width if cut == c.RIP else full_width
        strip_height = full_height if cut == c.RIP else height
        rest_width = full_width - width if cut == c.RIP else full_width
        rest_height = full_height if cut == c.RIP else full_height - height
        up = mem[leaf, c.UP]
        if up and mem[up, c.KIND] == cut:
            resize(mem, log, head, ratios, leaf, rest_width, rest_height)
        else:
            unlink(mem, log, head, ratios, leaf)
            put(mem, log, head, leaf, c.KIND, cut)
            put(mem, log, head, leaf, c.FIRST, 0)
            up = leaf
            rest = new_row(mem, log, head, rest_width, rest_height)
            hang(mem, log, head, rest, up)
            link(mem, log, head, ratios, rest)
        node = new_row(mem, log, head, strip_width, strip_height)
        hang(mem, log, head, node, up)
        if strip_width != width or strip_height != height:
            put(mem, log, head, node, c.KIND, c.CROSS if cut == c.RIP else c.RIP)
            beyond_width = width if cut == c.RIP else full_width - width
            beyond_height = full_height - height if cut == c.RIP else height
            rest = new_row(mem, log, head, beyond_width, beyond_height)
            hang(mem, log, head, rest, node)
            link(mem, log, head, ratios, rest)
            strip = node
            node = new_row(mem, log, head, width, height)
            hang(mem, log, head, node, strip)
    put(mem, log, head, node, c.KIND, c.PLACED)
    put(mem, log, head, node, c.PART, kind)
    put(mem, log, head, node, c.TURNED, turned)
