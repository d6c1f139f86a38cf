"""Ruin and recreate on guillotine trees, up to a price: the compiled loop of the 2D solver.

The open sheets may never cost more than a cap just below the best plan. Each step takes a few
pieces or strips out and puts the waiting parts back where the left-over pieces lose least, and
late acceptance decides whether it stands. The goal is a state in which no part waits.
Idea: goal-driven ruin and recreate (Gardeyn and Wauters 2022); least loss of squared left-over
area (after Fleszar 2013); late acceptance (Burke and Bykov 2017).
"""

from __future__ import annotations

from optimiser.solvers.compiled import Real, Small, Whole, lean
from optimiser.solvers.sheets import cells as c
from optimiser.solvers.sheets.kernel import (
    begin,
    close_sheet,
    draw,
    in_units,
    open_sheet,
    place,
    put,
    remove,
    undo,
)

# Measured, see benchmarks: at most so many pieces are taken out in one step.
MOST_OUT = 8
# One step in so many empties a whole sheet first.
WHOLE_SHEET = 24
# Two steps in so many lay all parts the same way round: what fits least well alone may stack best.
ONE_WAY = 8
# What a step costs beside the places it looks at, in places.
STEP_WORK = 60
# What a place that fits costs beside, in places.
FIT_WORK = 4


@lean
def runs_needed(mem: Small, leaf: int, cut: int, more: int) -> int:
    """Return the runs of cuts to a part cut from a left-over piece by `cut` and `more` runs."""
    up = mem[leaf + c.UP]
    runs = int(mem[leaf + c.DEPTH])
    if up == 0 or mem[up + c.KIND] != cut:
        runs += 1
    return runs + more


@lean
def best_cut(mem: Small, head: Whole, leaf: int, width: int, height: int) -> tuple[int, float]:
    """Return the first cut that loses least when a part is cut from a piece it fits; 0 if none."""
    stages = head[c.STAGES]
    w = mem[leaf + c.W]
    h = mem[leaf + c.H]
    area = float(w) * float(h)
    whole = area * area
    if width == w and height == h:
        return (c.RIP if mem[leaf + c.DEPTH] <= stages else 0), whole
    only = head[c.FIRST_CUT] if mem[leaf + c.UP] == 0 else 0
    cut = 0
    least = 0.0
    if (
        width < w
        and only != c.CROSS
        and runs_needed(mem, leaf, c.RIP, 1 if height < h else 0) <= stages
    ):
        beside = float(w - width) * float(h)
        above = float(width) * float(h - height)
        cut, least = c.RIP, whole - beside * beside - above * above
    if (
        height < h
        and only != c.RIP
        and runs_needed(mem, leaf, c.CROSS, 1 if width < w else 0) <= stages
    ):
        above = float(w) * float(h - height)
        beside = float(w - width) * float(height)
        loss = whole - above * above - beside * beside
        if cut == 0 or loss < least:
            cut, least = c.CROSS, loss
    return cut, least


@lean
def best_place(mem: Small, head: Whole, kind: int, start: int, stop: int) -> tuple[int, int, int]:
    """Find the left-over piece, way round and first cut that lose least squared left-over area.

    Looks at the open sheets from `start` to before `stop`. Returns (node, turned, cut); node 0 if
    there is none.
    """
    found = 0
    found_turned = 0
    found_cut = 0
    least = 0.0
    may_turn = mem[kind + c.TURNS]
    first_way = 1 if may_turn and head[c.WAYS] == 2 else 0
    last_way = 1 if may_turn and head[c.WAYS] != 1 else 0
    blink = head[c.BLINK]
    short = min(mem[kind + c.W], mem[kind + c.H])
    long = max(mem[kind + c.W], mem[kind + c.H])
    large = in_units(head, short, long)
    looked = (stop - start) // 4
    for k in range(head[c.AT_OPEN] + start, head[c.AT_OPEN] + stop):
        sheet = mem[k]
        if mem[sheet + c.THICK] < short or mem[sheet + c.LARGE] < large:
            continue
        leaf = mem[sheet + c.LEFT]
        while leaf:
            looked += 1
            w = mem[leaf + c.W]
            h = mem[leaf + c.H]
            if min(w, h) < short or max(w, h) < long:
                leaf = mem[leaf + c.BACK]
                continue
            for turned in range(first_way, last_way + 1):
                width = mem[kind + c.H] if turned else mem[kind + c.W]
                height = mem[kind + c.W] if turned else mem[kind + c.H]
                if width > w or height > h:
                    continue
                if blink and draw(head, blink) == 0:
                    continue
                looked += FIT_WORK
                cut, loss = best_cut(mem, head, leaf, width, height)
                if cut and (found == 0 or loss < least):
                    found, found_turned, found_cut, least = leaf, turned, cut, loss
            leaf = mem[leaf + c.BACK]
    head[c.WORK] += looked
    return found, found_turned, found_cut


@lean
def yields(mem: Small, head: Whole, size: int, kind: int) -> bool:
    """Return whether a sheet of this size yields the part at all."""
    only = head[c.FIRST_CUT]
    for turned in range(2 if mem[kind + c.TURNS] else 1):
        width = mem[kind + c.H] if turned else mem[kind + c.W]
        height = mem[kind + c.W] if turned else mem[kind + c.H]
        rips = 1 if width < mem[size + c.W] else 0
        crosses = 1 if height < mem[size + c.H] else 0
        if width > mem[size + c.W] or height > mem[size + c.H]:
            continue
        if (only == c.RIP and rips < crosses) or (only == c.CROSS and crosses < rips):
            continue
        if rips + crosses <= head[c.STAGES]:
            return True
    return False


@lean
def choose_size(mem: Small, head: Whole, kind: int) -> int:
    """Choose the size of a new sheet for a part; 0 if none is affordable, left and large enough.

    RULE 0 takes the least cost per area, 1 the least cost, 2 draws: the least cost per area half
    of the time, else any. RULE 3 + k takes size number k + 1 where it can, else follows rule 0.
    """
    rule = head[c.RULE]
    if rule == 2:
        rule = 0 if draw(head, 2) == 0 else -1
    chosen = 0
    least = 0.0
    seen = 0
    for number in range(head[c.SIZES]):
        size = head[c.AT_SIZES] + number * c.CELLS
        if mem[size + c.COUNT] >= mem[size + c.AVAILABLE]:
            continue
        if head[c.PRICE] + mem[size + c.COST] > head[c.CAP] or not yields(mem, head, size, kind):
            continue
        if number == rule - 3:
            return int(size)
        seen += 1
        if rule == -1:
            if draw(head, seen) == 0:
                chosen = size
            continue
        worth = float(mem[size + c.COST])
        if rule != 1:
            worth /= float(mem[size + c.W]) * float(mem[size + c.H])
        if chosen == 0 or worth < least:
            chosen = size
            least = worth
    return int(chosen)


@lean
def line_up(mem: Small, head: Whole, orders: Small, ranks: Small, order: int, queue: Small) -> int:
    """List the waiting part types by one of `orders`, or by luck if past the last one."""
    at = head[c.AT_WAIT]
    waiting = int(head[c.N_WAIT])
    if order >= orders.shape[0]:
        for k in range(waiting):
            other = draw(head, k + 1)
            queue[k] = queue[other]
            queue[other] = mem[at + k]
        return waiting
    first = head[c.AT_TYPES]
    if waiting * waiting > orders.shape[1]:
        # Many wait: go over all types in order rather than sort those that do.
        filled = 0
        for k in range(orders.shape[1]):
            kind = first + orders[order, k] * c.CELLS
            if mem[kind + c.COUNT]:
                queue[filled] = kind
                filled += 1
        return filled
    for k in range(waiting):
        kind = mem[at + k]
        rank = ranks[order, (kind - first) // c.CELLS]
        place_ = k
        while place_ > 0 and ranks[order, (queue[place_ - 1] - first) // c.CELLS] > rank:
            queue[place_] = queue[place_ - 1]
            place_ -= 1
        queue[place_] = kind
    return waiting


@lean
def recreate(
    mem: Small,
    log: Small,
    head: Whole,
    ratios: Real,
    orders: Small,
    ranks: Small,
    order: int,
    queue: Small,
    sheets: int,
) -> None:
    """Place all waiting parts that can be placed, in an order, on the first `sheets` open sheets.

    A part that fits none of them opens a new sheet if the cap allows; new sheets are looked at too.
    """
    for k in range(line_up(mem, head, orders, ranks, order, queue)):
        kind = queue[k]
        while mem[kind + c.COUNT]:
            leaf, turned, cut = best_place(mem, head, kind, 0, sheets)
            if leaf == 0:
                size = choose_size(mem, head, kind)
                if size == 0:
                    break
                swap_open(mem, log, head, sheets, open_sheet(mem, log, head, ratios, size))
                sheets += 1
                blink, ways = head[c.BLINK], head[c.WAYS]
                head[c.BLINK] = head[c.WAYS] = 0
                leaf, turned, cut = best_place(mem, head, kind, sheets - 1, sheets)
                head[c.BLINK], head[c.WAYS] = blink, ways
            if head[c.FRESH]:
                head[c.LOGGED] = 0
            place(mem, log, head, ratios, leaf, kind, turned, cut)


@lean
def swap_open(mem: Small, log: Small, head: Whole, spot: int, sheet: int) -> None:
    """Move an open sheet to a spot in the list; the one there takes its spot."""
    at = head[c.AT_OPEN]
    other = mem[at + spot]
    left = mem[sheet + c.SPOT]
    put(mem, log, head, at + left, other)
    put(mem, log, head, other + c.SPOT, left)
    put(mem, log, head, at + spot, sheet)
    put(mem, log, head, sheet + c.SPOT, spot)


@lean
def pick_piece(mem: Small, head: Whole, root: int) -> int:
    """Draw a part or strip of a sheet, each with the same chance; the root itself if it is all."""
    seen = 0
    picked = root
    node = mem[root + c.FIRST] if mem[root + c.KIND] >= c.RIP else 0
    while node:
        if mem[node + c.KIND] != c.LEFTOVER:
            seen += 1
            if draw(head, seen) == 0:
                picked = node
        if mem[node + c.KIND] >= c.RIP:
            node = mem[node + c.FIRST]
            continue
        while node != root and mem[node + c.NEXT] == 0:
            node = mem[node + c.UP]
        node = 0 if node == root else mem[node + c.NEXT]
    return int(picked)


@lean
def ruin(mem: Small, log: Small, head: Whole, ratios: Real, most: int) -> None:
    """Take a few pieces, and now and then a whole sheet, out of the sheets looked at."""
    at = head[c.AT_OPEN]
    window = min(most, head[c.N_OPEN])
    if window and draw(head, WHOLE_SHEET) == 0:
        close_sheet(mem, log, head, ratios, mem[at + draw(head, window)])
    for _ in range(1 + draw(head, 1 + draw(head, MOST_OUT))):
        window = min(most, head[c.N_OPEN])
        if window == 0:
            return
        sheet = mem[at + draw(head, window)]
        root = mem[sheet + c.TREE]
        node = pick_piece(mem, head, root)
        if node != root:
            remove(mem, log, head, ratios, node)
        if node == root or mem[root + c.KIND] == c.LEFTOVER:
            close_sheet(mem, log, head, ratios, sheet)


@lean
def shed(mem: Small, log: Small, head: Whole, ratios: Real) -> None:
    """Hand back the sheets with the largest share left over until the cap is kept."""
    while head[c.PRICE] > head[c.CAP]:
        worst = 0
        most = -1.0
        for k in range(head[c.AT_OPEN], head[c.AT_OPEN] + head[c.N_OPEN]):
            sheet = mem[k]
            left = 0.0
            leaf = mem[sheet + c.LEFT]
            while leaf:
                left += float(mem[leaf + c.W]) * float(mem[leaf + c.H])
                leaf = mem[leaf + c.BACK]
            root = mem[sheet + c.TREE]
            share = left / (float(mem[root + c.W]) * float(mem[root + c.H]))
            if share > most:
                worst, most = sheet, share
        begin(head)
        close_sheet(mem, log, head, ratios, worst)
    begin(head)


@lean
def worth_of(head: Whole, ratios: Real) -> float:
    """Return what the search makes small: parts that wait, and the net cost if credit counts."""
    worth = ratios[c.PENALTY] * float(head[c.UNPLACED])
    if head[c.CREDITED]:
        worth += float(head[c.PRICE] - head[c.CREDIT])
    return float(worth)


@lean
def shuffle_window(mem: Small, head: Whole, window: int) -> None:
    """Draw the sheets looked at in this step, if there are more than the window holds."""
    at = head[c.AT_OPEN]
    open_ = head[c.N_OPEN]
    if open_ <= window:
        return
    for k in range(window):
        other = k + draw(head, open_ - k)
        here, there = mem[at + k], mem[at + other]
        mem[at + k], mem[at + other] = there, here
        mem[there + c.SPOT], mem[here + c.SPOT] = k, other


@lean
def search(
    mem: Small,
    log: Small,
    head: Whole,
    ratios: Real,
    orders: Small,
    ranks: Small,
    queue: Small,
    history: Real,
    work: int,
) -> int:
    """Take steps until `work` places were looked at, a plan below the target is found, or a stall.

    Returns FOUND with the plan standing in `mem`, STALLED, or GO_ON.
    """
    stop = head[c.WORK] + work
    while head[c.WORK] < stop:
        head[c.TICK] += 1
        head[c.STEPS] += 1
        head[c.WORK] += STEP_WORK
        most = 2 + draw(head, head[c.WINDOW] - 1)
        shuffle_window(mem, head, most)
        begin(head)
        ruin(mem, log, head, ratios, most)
        window = min(most, head[c.N_OPEN])
        order = draw(head, orders.shape[0] + 1)
        head[c.WAYS] = head[c.ONE_WAY] or max(0, draw(head, ONE_WAY) + 3 - ONE_WAY)
        recreate(mem, log, head, ratios, orders, ranks, order, queue, window)
        worth = worth_of(head, ratios)
        net = float(head[c.PRICE] - head[c.CREDIT])
        if head[c.N_WAIT] == 0 and net < ratios[c.TARGET]:
            return c.FOUND
        slot = head[c.TICK] % history.shape[0]
        if worth <= ratios[c.NOW] or worth <= history[slot] or not undo(mem, log, head):
            ratios[c.NOW] = worth
        history[slot] = ratios[c.NOW]
        if worth < ratios[c.BEST]:
            ratios[c.BEST] = worth
            head[c.LAST] = head[c.TICK]
        if head[c.TICK] - head[c.LAST] > head[c.PATIENCE]:
            return c.STALLED
    return c.GO_ON
