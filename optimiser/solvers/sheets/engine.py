"""The search as it runs: caps on the price, stalls, restarts; one short call of the kernel each.

All choices depend on the seed and on the work done, never on the clock, which the caller holds.
"""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np

from optimiser.solvers.sheets import cells as c
from optimiser.solvers.sheets.compiled import Real, Whole
from optimiser.solvers.sheets.kernel import hang, link, new_row, open_sheet, set_served, unlink
from optimiser.solvers.sheets.pool import Plan
from optimiser.solvers.sheets.search import recreate, search, shed
from optimiser.solvers.sheets.table import Table
from optimiser.solvers.sheets.tree import Block, read_block

# Measured, see benchmarks. Places looked at in one call of the kernel: 10 to 20 ms.
SLICE = 1_000_000
_WINDOW = 40
_BLINK = 100
# Late acceptance: steps remembered at the first level; twice as many at each further one.
_HISTORY = 30
_LEVELS = 3
_PATIENCE = 6000
_ORDERS = 5
# Of eight stalls in a row, those after which parts lie one way only: as listed, or turned.
_ONE_WAY = {1: 1, 4: 2}
_NO_CAP = 1 << 40
_RULES = 2


@dataclass(slots=True)
class Engine:
    """One search over one table."""

    table: Table
    saved: Whole = field(init=False)
    start: Whole = field(init=False)
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
        self.start = self.table.mem.copy()
        self.dearest = int(self.start[1 : self.sizes + 1, c.COST].max())
        self.stride = self.dearest // 8
        self.saved = self.start.copy()
        self._memory = np.zeros(_HISTORY)

    @property
    def waiting(self) -> tuple[int, ...]:
        """Return how many copies of each kind wait."""
        first = self.table.first_kind
        count = int(self.table.head[c.TYPES])
        return tuple(int(n) for n in self.table.mem[first : first + count, c.COUNT])

    @property
    def unplaced(self) -> int:
        """Return the area that waits."""
        return int(self.table.mem[0, c.UNPLACED])

    @property
    def net_cost(self) -> int:
        """Return what the open sheets cost less the credit, pence."""
        return int(self.table.mem[0, c.PRICE] - self.table.mem[0, c.CREDIT])

    @property
    def sheets(self) -> int:
        """Return the number of open sheets."""
        return int(self.table.mem[0, c.N_OPEN])

    @property
    def work(self) -> int:
        """Return how many places were looked at since the start."""
        return int(self.table.head[c.WORK])

    def restore(self) -> None:
        """Go back to the state last kept."""
        self.table.reset(self.saved)
        self._running = False

    def load(self, plan: Plan, net: int) -> None:
        """Write a plan into the table and keep it."""
        table = self.table
        table.reset(self.start)
        for sheet, block in plan:
            table.head[c.LOGGED] = 0
            root = open_sheet(table.mem, table.log, table.head, table.ratios, sheet + 1)
            unlink(table.mem, table.log, table.head, table.ratios, root)
            self._write(root, block)
        self.keep(net)

    def _write(self, node: int, block: Block) -> None:
        table = self.table
        mem, log, head = table.mem, table.log, table.head
        head[c.LOGGED] = 0
        if block.is_left:
            link(mem, log, head, table.ratios, node)
        elif block.part >= 0:
            kind = table.first_kind + block.part
            set_served(mem, log, head, kind)
            mem[node, c.KIND], mem[node, c.PART], mem[node, c.TURNED] = (
                c.PLACED,
                kind,
                block.turned,
            )
        else:
            mem[node, c.KIND], mem[node, c.FIRST] = (c.RIP if block.rip else c.CROSS), 0
            for piece in block.pieces:
                row = new_row(mem, log, head, piece.width, piece.height)
                hang(mem, log, head, row, node)
                self._write(row, piece)

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
        recreate(table.mem, table.log, table.head, table.ratios, table.ranks, order, table.queue, 0)
        table.head[c.FRESH] = 0

    def plan(self) -> Plan:
        """Read the layouts of the present state."""
        rows = self.table.mem.tolist()
        roots = [rows[k][c.OPEN] for k in range(rows[0][c.N_OPEN])]
        return tuple(
            (rows[root][c.SIZE] - 1, read_block(rows, root, self.table.first_kind))
            for root in roots
        )

    def keep(self, net: int | None) -> None:
        """Remember the present state as the best; `net` None while parts wait."""
        self.saved = self.table.mem.copy()
        if self.net is not None and net is not None and net < self.net:
            # A gain: be bolder, but no bolder than a third of what there is to gain at most.
            most = max(1, (net - self.floor) // 3)
            self.stride = min(max(2 * (self.net - net), self.stride), most)
        self.net = net
        self.price = int(self.table.mem[0, c.PRICE])
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
        worth = ratios[c.PENALTY] * float(table.mem[0, c.UNPLACED])
        if credited:
            worth += float(table.mem[0, c.PRICE] - table.mem[0, c.CREDIT])
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
        return max(self.price - max(1, self.stride), self.floor)
