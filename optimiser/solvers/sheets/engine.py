"""The search as it runs: caps on the price, stalls, restarts; one short call of the kernel each.

All choices depend on the seed and on the work done, never on the clock, which the caller holds.
"""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np

from optimiser.solvers.compiled import Real
from optimiser.solvers.sheets import cells as c
from optimiser.solvers.sheets.kernel import (
    begin,
    hang,
    link,
    new_node,
    open_sheet,
    set_served,
    unlink,
)
from optimiser.solvers.sheets.pool import Plan
from optimiser.solvers.sheets.search import recreate, search, shed
from optimiser.solvers.sheets.table import State, Table
from optimiser.solvers.sheets.tree import Block, read_block

# Measured, see benchmarks. Places looked at in one call of the kernel: 10 to 20 ms.
SLICE = 800_000
# A step looks at 2 to so many sheets: all of them took longer and found less (decision 054).
_WINDOW = 6
_BLINK = 100
# Late acceptance: steps remembered at the first level; twice as many at each further one.
_HISTORY = 30
_LEVELS = 3
_PATIENCE = 20_000
_ORDERS = 5
# Of eight stalls in a row, those after which parts lie one way only: as listed, or turned.
_ONE_WAY = {1: 1, 4: 2}
_NO_CAP = 1 << 40
_RULES = 2


@dataclass(slots=True)
class Engine:
    """One search over one table."""

    table: Table
    saved: State = field(init=False)
    start: State = field(init=False)
    price: int = 0
    net: int | None = None
    level: int = 0
    stalls: int = 0
    floor: int = 0
    stride: int = 0
    dearest: int = field(init=False)
    _memory: Real = field(init=False)
    _running: bool = False

    def __post_init__(self) -> None:
        self.start = self.saved = self.table.saved()
        self.dearest = max(
            int(self.table.mem[self.table.size_at(size) + c.COST]) for size in range(self.sizes)
        )
        self.stride = self.dearest // 8
        self._memory = np.zeros(_HISTORY)

    @property
    def waiting(self) -> tuple[int, ...]:
        """Return how many copies of each kind wait."""
        table = self.table
        return tuple(
            int(table.mem[table.type_at(kind) + c.COUNT]) for kind in range(table.head[c.TYPES])
        )

    @property
    def unplaced(self) -> int:
        """Return the area that waits."""
        return int(self.table.head[c.UNPLACED])

    @property
    def net_cost(self) -> int:
        """Return what the open sheets cost less the credit, pence."""
        return int(self.table.head[c.PRICE] - self.table.head[c.CREDIT])

    @property
    def sheets(self) -> int:
        """Return the number of open sheets."""
        return int(self.table.head[c.N_OPEN])

    @property
    def work(self) -> int:
        """Return how many places were looked at since the start."""
        return int(self.table.head[c.WORK])

    def restore(self) -> None:
        """Go back to the state last kept."""
        self.table.reset(self.saved)
        self._running = False

    def load(self, plan: Plan, net: int) -> bool:
        """Write a plan into the table and keep it; False, and nothing done, if it has no room."""
        table = self.table
        if sum(block.pieces_in_all for _, block in plan) > table.room:
            return False
        table.reset(self.start)
        for sheet, block in plan:
            begin(table.head)
            opened = open_sheet(
                table.mem, table.log, table.head, table.ratios, table.size_at(sheet)
            )
            root = int(table.mem[opened + c.TREE])
            unlink(table.mem, table.log, table.head, table.ratios, root)
            self._write(root, block)
        self.keep(net)
        return True

    def _write(self, node: int, block: Block) -> None:
        table = self.table
        mem, log, head = table.mem, table.log, table.head
        head[c.LOGGED] = 0
        if block.is_left:
            link(mem, log, head, table.ratios, node)
        elif block.part >= 0:
            kind = table.type_at(block.part)
            set_served(mem, log, head, kind)
            mem[node + c.KIND], mem[node + c.PART] = c.PLACED, kind
        else:
            mem[node + c.KIND], mem[node + c.FIRST] = (c.RIP if block.rip else c.CROSS), 0
            for piece in block.pieces:
                below = new_node(mem, log, head, piece.width, piece.height)
                hang(mem, log, head, below, node)
                self._write(below, piece)

    def constructions(self) -> int:
        """Return how many first plans can be built."""
        return _ORDERS * (_RULES + min(6, self.sizes if self.sizes > 1 else 0))

    @property
    def sizes(self) -> int:
        """Return the number of sheet sizes."""
        return int(self.table.head[c.SIZES])

    def construct(self, number: int) -> None:
        """Build first plan number `number`: one of the orders, one of the rules for new sheets."""
        table = self.table
        rule, order = divmod(number, _ORDERS)
        table.reset(self.start)
        table.head[c.CAP] = _NO_CAP
        table.head[c.RULE] = rule if rule < _RULES else rule + 2
        table.head[c.BLINK] = 0
        table.head[c.FRESH] = 1
        table.head[c.WAYS] = 0
        table.head[c.LOGGED] = 0
        recreate(
            table.mem,
            table.log,
            table.head,
            table.ratios,
            table.orders,
            table.ranks,
            order,
            table.queue,
            0,
        )
        table.head[c.FRESH] = 0

    def plan(self) -> Plan:
        """Read the layouts of the present state."""
        mem, head = self.table.mem.tolist(), self.table.head
        first = int(head[c.AT_OPEN])
        at_sizes, at_types = int(head[c.AT_SIZES]), int(head[c.AT_TYPES])
        return tuple(
            (
                (mem[sheet + c.SIZE] - at_sizes) // c.CELLS,
                read_block(mem, mem[sheet + c.TREE], at_types),
            )
            for sheet in mem[first : first + int(head[c.N_OPEN])]
        )

    def keep(self, net: int | None) -> None:
        """Remember the present state as the best; `net` None while parts wait."""
        self.saved = self.table.saved()
        if self.net is not None and net is not None and net < self.net:
            # A gain: be bolder, but no bolder than a third of what there is to gain at most.
            most = max(1, (net - self.floor) // 3)
            self.stride = min(max(2 * (self.net - net), self.stride), most)
        self.net = net
        self.price = int(self.table.head[c.PRICE])
        self.level = 0
        self._running = False

    def step(self) -> int:
        """Search for one slice; say FOUND, STALLED or GO_ON."""
        table = self.table
        if not self._running:
            self._begin()
        said: int = search(
            table.mem,
            table.log,
            table.head,
            table.ratios,
            table.orders,
            table.ranks,
            table.queue,
            self._memory,
            SLICE,
        )
        if said == c.STALLED:
            self.level = (self.level + 1) % _LEVELS
            self.stride //= 3
            self.stalls += 1
            table.reset(self.saved)
        if said != c.GO_ON:
            self._running = False
        return said

    def _begin(self) -> None:
        """Set cap, target and history for the present level, and hand sheets back to the cap."""
        table, head, ratios = self.table, self.table.head, self.table.ratios
        credited = table.credited and self.net is not None and self.stalls % 2 == 0
        head[c.CREDITED] = credited
        head[c.CAP] = self._cap(credited=credited)
        head[c.WINDOW] = _WINDOW
        head[c.RULE] = 2
        head[c.ONE_WAY] = _ONE_WAY.get(self.stalls % 8, 0)
        head[c.BLINK] = _BLINK
        head[c.TICK] = head[c.LAST] = 0
        head[c.PATIENCE] = _PATIENCE << self.level
        head[c.LOGGED] = 0
        ratios[c.TARGET] = np.inf if self.net is None else self.net
        shed(table.mem, table.log, head, ratios)
        worth = ratios[c.PENALTY] * float(head[c.UNPLACED])
        if credited:
            worth += float(head[c.PRICE] - head[c.CREDIT])
        ratios[c.NOW] = ratios[c.BEST] = worth
        self._memory = np.full(_HISTORY << self.level, worth)
        self._running = True

    def _cap(self, *, credited: bool) -> int:
        """Return what the open sheets may cost while looking for a better plan."""
        if self.net is None:
            return _NO_CAP
        if credited:
            # A dearer sheet may leave a piece that earns more than it costs.
            return self.price + self.dearest
        # A floor may be below nothing where the rest of a plan has used up the goal already.
        return max(self.price - max(1, self.stride), self.floor, 0)
