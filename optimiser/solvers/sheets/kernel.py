"""Guillotine trees in one row of whole numbers: divide a piece, take parts out, take it all back.

Everything here is compiled, since the search takes these steps hundreds of thousands of times a
second; `twin.py` runs the same lines as plain Python, and tests compare the two. Every state is a
guillotine plan by construction: a left-over piece is only ever divided edge to edge. No node has
two left-over pieces among its own, so there is never a cut between two of them.
"""

from __future__ import annotations

from optimiser.solvers.compiled import Real, Small, Whole, lean
from optimiser.solvers.sheets import cells as c


@lean
def draw(head: Whole, below: int) -> int:
    """Return a whole number from 0 to below - 1; xorshift on 32 bits (Marsaglia 2003)."""
    luck = head[c.LUCK]
    luck ^= (luck << 13) & 0xFFFFFFFF
    luck ^= luck >> 17
    luck ^= (luck << 5) & 0xFFFFFFFF
    head[c.LUCK] = luck
    return int((luck * below) >> 32)


@lean
def put(mem: Small, log: Small, head: Whole, cell: int, value: int) -> None:
    """Write a cell, and note what it held, so that `undo` can put it back."""
    entry = head[c.LOGGED]
    if entry < log.shape[0]:
        log[entry, 0] = cell
        log[entry, 1] = mem[cell]
    head[c.LOGGED] = entry + 1
    mem[cell] = value


@lean
def begin(head: Whole) -> None:
    """Start a step that can be taken back."""
    head[c.LOGGED] = 0
    for counter in range(c.COUNTERS):
        head[c.BEFORE + counter] = head[counter]


@lean
def undo(mem: Small, log: Small, head: Whole) -> bool:
    """Take back all that was done since the step began; False if the log ran over."""
    entry = head[c.LOGGED]
    if entry > log.shape[0]:
        return False
    while entry > 0:
        entry -= 1
        mem[log[entry, 0]] = log[entry, 1]
    head[c.LOGGED] = 0
    for counter in range(c.COUNTERS):
        head[counter] = head[c.BEFORE + counter]
    return True


@lean
def credit_of(mem: Small, head: Whole, ratios: Real, node: int) -> int:
    """Return the whole pence that a left-over piece would earn."""
    if ratios[c.RATE] <= 0.0:
        return 0
    width = mem[node + c.W] - head[c.KERF]
    height = mem[node + c.H] - head[c.KERF]
    if max(width, height) < head[c.KEEP_LONG] or min(width, height) < head[c.KEEP_SHORT]:
        return 0
    if min(width, height) <= 0:
        return 0
    return int(ratios[c.RATE] * width * height)


@lean
def in_units(head: Whole, width: int, height: int) -> int:
    """Return an area in the units that fit a cell, rounded down."""
    return int((int(width) * int(height)) >> head[c.SHIFT])


@lean
def raise_largest(mem: Small, log: Small, head: Whole, node: int) -> None:
    """Let a sheet know of a left-over piece thicker or larger than all it had."""
    sheet = mem[node + c.SHEET]
    thick = min(mem[node + c.W], mem[node + c.H])
    large = in_units(head, mem[node + c.W], mem[node + c.H])
    if thick > mem[sheet + c.THICK]:
        put(mem, log, head, sheet + c.THICK, thick)
    if large > mem[sheet + c.LARGE]:
        put(mem, log, head, sheet + c.LARGE, large)


@lean
def lower_largest(mem: Small, log: Small, head: Whole, sheet: int, width: int, height: int) -> None:
    """Measure the left-over pieces of a sheet anew if the one that went was a largest one."""
    if (
        min(width, height) < mem[sheet + c.THICK]
        and in_units(head, width, height) < mem[sheet + c.LARGE]
    ):
        return
    thick = 0
    large = 0
    leaf = mem[sheet + c.LEFT]
    while leaf:
        thick = max(thick, min(mem[leaf + c.W], mem[leaf + c.H]))
        large = max(large, in_units(head, mem[leaf + c.W], mem[leaf + c.H]))
        leaf = mem[leaf + c.BACK]
    if thick != mem[sheet + c.THICK]:
        put(mem, log, head, sheet + c.THICK, thick)
    if large != mem[sheet + c.LARGE]:
        put(mem, log, head, sheet + c.LARGE, large)


@lean
def link(mem: Small, log: Small, head: Whole, ratios: Real, node: int) -> None:
    """Make a node a left-over piece, first in its sheet's list."""
    sheet = mem[node + c.SHEET]
    first = mem[sheet + c.LEFT]
    put(mem, log, head, node + c.KIND, c.LEFTOVER)
    put(mem, log, head, node + c.FORE, 0)
    put(mem, log, head, node + c.BACK, first)
    if first:
        put(mem, log, head, first + c.FORE, node)
    put(mem, log, head, sheet + c.LEFT, node)
    raise_largest(mem, log, head, node)
    head[c.CREDIT] += credit_of(mem, head, ratios, node)


@lean
def unlink(mem: Small, log: Small, head: Whole, ratios: Real, node: int) -> None:
    """Take a node out of its sheet's list of left-over pieces."""
    sheet = mem[node + c.SHEET]
    fore = mem[node + c.FORE]
    back = mem[node + c.BACK]
    if fore:
        put(mem, log, head, fore + c.BACK, back)
    else:
        put(mem, log, head, sheet + c.LEFT, back)
    if back:
        put(mem, log, head, back + c.FORE, fore)
    lower_largest(mem, log, head, sheet, mem[node + c.W], mem[node + c.H])
    head[c.CREDIT] -= credit_of(mem, head, ratios, node)


@lean
def shrink(
    mem: Small, log: Small, head: Whole, ratios: Real, node: int, width: int, height: int
) -> None:
    """Make a left-over piece smaller."""
    head[c.CREDIT] -= credit_of(mem, head, ratios, node)
    old_width = mem[node + c.W]
    old_height = mem[node + c.H]
    put(mem, log, head, node + c.W, width)
    put(mem, log, head, node + c.H, height)
    lower_largest(mem, log, head, mem[node + c.SHEET], old_width, old_height)
    head[c.CREDIT] += credit_of(mem, head, ratios, node)


@lean
def new_node(mem: Small, log: Small, head: Whole, width: int, height: int) -> int:
    """Take a free record for a node of the given size."""
    node = head[c.FREE_NODE]
    head[c.FREE_NODE] = mem[node + c.NEXT]
    put(mem, log, head, node + c.W, width)
    put(mem, log, head, node + c.H, height)
    return int(node)


@lean
def free_node(mem: Small, log: Small, head: Whole, node: int) -> None:
    """Give a record back."""
    put(mem, log, head, node + c.KIND, c.FREE)
    put(mem, log, head, node + c.NEXT, head[c.FREE_NODE])
    head[c.FREE_NODE] = node


@lean
def hang(mem: Small, log: Small, head: Whole, node: int, up: int) -> None:
    """Make a new node the first piece of `up`."""
    first = mem[up + c.FIRST]
    put(mem, log, head, node + c.UP, up)
    put(mem, log, head, node + c.SHEET, mem[up + c.SHEET])
    put(mem, log, head, node + c.DEPTH, mem[up + c.DEPTH] + 1)
    put(mem, log, head, node + c.PREV, 0)
    put(mem, log, head, node + c.NEXT, first)
    if first:
        put(mem, log, head, first + c.PREV, node)
    put(mem, log, head, up + c.FIRST, node)


@lean
def detach(mem: Small, log: Small, head: Whole, node: int) -> None:
    """Take a node out from among its neighbours, and free its record."""
    before = mem[node + c.PREV]
    after = mem[node + c.NEXT]
    if before:
        put(mem, log, head, before + c.NEXT, after)
    else:
        put(mem, log, head, mem[node + c.UP] + c.FIRST, after)
    if after:
        put(mem, log, head, after + c.PREV, before)
    free_node(mem, log, head, node)


@lean
def set_waiting(mem: Small, log: Small, head: Whole, kind: int) -> None:
    """Let one more copy of a part type wait."""
    count = mem[kind + c.COUNT]
    if count == 0:
        place = head[c.N_WAIT]
        put(mem, log, head, head[c.AT_WAIT] + place, kind)
        put(mem, log, head, kind + c.PLACE, place)
        head[c.N_WAIT] = place + 1
    put(mem, log, head, kind + c.COUNT, count + 1)
    head[c.UNPLACED] += int(mem[kind + c.W]) * int(mem[kind + c.H])


@lean
def set_served(mem: Small, log: Small, head: Whole, kind: int) -> None:
    """Let one copy fewer of a part type wait."""
    count = mem[kind + c.COUNT] - 1
    put(mem, log, head, kind + c.COUNT, count)
    if count == 0:
        last = head[c.N_WAIT] - 1
        moved = mem[head[c.AT_WAIT] + last]
        place = mem[kind + c.PLACE]
        put(mem, log, head, head[c.AT_WAIT] + place, moved)
        put(mem, log, head, moved + c.PLACE, place)
        head[c.N_WAIT] = last
    head[c.UNPLACED] -= int(mem[kind + c.W]) * int(mem[kind + c.H])


@lean
def open_sheet(mem: Small, log: Small, head: Whole, ratios: Real, size: int) -> int:
    """Open one more sheet of a size, all of it left over."""
    sheet = head[c.FREE_SHEET]
    head[c.FREE_SHEET] = mem[sheet + c.SPOT]
    root = new_node(mem, log, head, mem[size + c.W], mem[size + c.H])
    put(mem, log, head, root + c.UP, 0)
    put(mem, log, head, root + c.NEXT, 0)
    put(mem, log, head, root + c.PREV, 0)
    put(mem, log, head, root + c.DEPTH, 0)
    put(mem, log, head, root + c.SHEET, sheet)
    put(mem, log, head, sheet + c.TREE, root)
    put(mem, log, head, sheet + c.SIZE, size)
    put(mem, log, head, sheet + c.LEFT, 0)
    put(mem, log, head, sheet + c.THICK, 0)
    put(mem, log, head, sheet + c.LARGE, 0)
    place = head[c.N_OPEN]
    put(mem, log, head, head[c.AT_OPEN] + place, sheet)
    put(mem, log, head, sheet + c.SPOT, place)
    head[c.N_OPEN] = place + 1
    head[c.PRICE] += mem[size + c.COST]
    put(mem, log, head, size + c.COUNT, mem[size + c.COUNT] + 1)
    link(mem, log, head, ratios, root)
    return int(sheet)


@lean
def close_sheet(mem: Small, log: Small, head: Whole, ratios: Real, sheet: int) -> None:
    """Hand a sheet back; the parts on it wait again."""
    root = mem[sheet + c.TREE]
    empty(mem, log, head, ratios, root)
    size = mem[sheet + c.SIZE]
    last = head[c.N_OPEN] - 1
    moved = mem[head[c.AT_OPEN] + last]
    place = mem[sheet + c.SPOT]
    put(mem, log, head, head[c.AT_OPEN] + place, moved)
    put(mem, log, head, moved + c.SPOT, place)
    head[c.N_OPEN] = last
    head[c.PRICE] -= mem[size + c.COST]
    put(mem, log, head, size + c.COUNT, mem[size + c.COUNT] - 1)
    free_node(mem, log, head, root)
    put(mem, log, head, sheet + c.SPOT, head[c.FREE_SHEET])
    head[c.FREE_SHEET] = sheet


@lean
def empty(mem: Small, log: Small, head: Whole, ratios: Real, node: int) -> None:
    """Take out of a node all that it holds; the node is then of no kind until told."""
    if mem[node + c.KIND] == c.PLACED:
        set_waiting(mem, log, head, mem[node + c.PART])
        return
    if mem[node + c.KIND] == c.LEFTOVER:
        unlink(mem, log, head, ratios, node)
        return
    child = mem[node + c.FIRST]
    while child:
        while mem[child + c.KIND] >= c.RIP:
            child = mem[child + c.FIRST]
        if mem[child + c.KIND] == c.PLACED:
            set_waiting(mem, log, head, mem[child + c.PART])
        else:
            unlink(mem, log, head, ratios, child)
        after = mem[child + c.NEXT]
        up = mem[child + c.UP]
        free_node(mem, log, head, child)
        while after == 0 and up != node:
            child = up
            after = mem[child + c.NEXT]
            up = mem[child + c.UP]
            free_node(mem, log, head, child)
        child = after


@lean
def remove(mem: Small, log: Small, head: Whole, ratios: Real, node: int) -> None:
    """Take a part or a whole strip out; what becomes free is joined to what is left beside it."""
    empty(mem, log, head, ratios, node)
    while mem[node + c.UP]:
        up = mem[node + c.UP]
        other = mem[up + c.FIRST]
        while other and (other == node or mem[other + c.KIND] != c.LEFTOVER):
            other = mem[other + c.NEXT]
        if other:
            along = c.W if mem[up + c.KIND] == c.RIP else c.H
            put(mem, log, head, node + along, mem[node + along] + mem[other + along])
            unlink(mem, log, head, ratios, other)
            detach(mem, log, head, other)
        if mem[up + c.FIRST] != node or mem[node + c.NEXT] != 0:
            break
        detach(mem, log, head, node)
        node = up
    link(mem, log, head, ratios, node)


@lean
def place(
    mem: Small, log: Small, head: Whole, ratios: Real, leaf: int, kind: int, turned: int, cut: int
) -> None:
    """Cut a part out of a left-over piece; the first cut is a RIP or a CROSS.

    The part lies at the near corner. A dimension that fits exactly needs no cut, and the caller
    names the other one.
    """
    width = mem[kind + c.H] if turned else mem[kind + c.W]
    height = mem[kind + c.W] if turned else mem[kind + c.H]
    set_served(mem, log, head, kind)
    full_width = mem[leaf + c.W]
    full_height = mem[leaf + c.H]
    node = leaf
    if width == full_width and height == full_height:
        unlink(mem, log, head, ratios, leaf)
    else:
        strip_width = width if cut == c.RIP else full_width
        strip_height = full_height if cut == c.RIP else height
        rest_width = full_width - width if cut == c.RIP else full_width
        rest_height = full_height if cut == c.RIP else full_height - height
        up = mem[leaf + c.UP]
        if up and mem[up + c.KIND] == cut:
            shrink(mem, log, head, ratios, leaf, rest_width, rest_height)
        else:
            unlink(mem, log, head, ratios, leaf)
            put(mem, log, head, leaf + c.KIND, cut)
            put(mem, log, head, leaf + c.FIRST, 0)
            up = leaf
            rest = new_node(mem, log, head, rest_width, rest_height)
            hang(mem, log, head, rest, up)
            link(mem, log, head, ratios, rest)
        node = new_node(mem, log, head, strip_width, strip_height)
        hang(mem, log, head, node, up)
        if strip_width != width or strip_height != height:
            put(mem, log, head, node + c.KIND, c.CROSS if cut == c.RIP else c.RIP)
            put(mem, log, head, node + c.FIRST, 0)
            beyond_width = width if cut == c.RIP else full_width - width
            beyond_height = full_height - height if cut == c.RIP else height
            rest = new_node(mem, log, head, beyond_width, beyond_height)
            hang(mem, log, head, rest, node)
            link(mem, log, head, ratios, rest)
            strip = node
            node = new_node(mem, log, head, width, height)
            hang(mem, log, head, node, strip)
    put(mem, log, head, node + c.KIND, c.PLACED)
    put(mem, log, head, node + c.PART, kind)
