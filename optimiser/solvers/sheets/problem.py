"""The 2D guillotine problem and its answer as plain integers.

All sizes share one unit (tenths of a millimetre here), all costs another (pence). Every cut runs
from edge to edge of the piece it divides and eats `kerf` of it: a near piece of size `at`, then the
kerf, then the far piece. If no more than the kerf lies beyond `at`, there is no far piece.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from fractions import Fraction
from typing import TypeAlias

from optimiser.solvers.protocol import Status


class Way(Enum):
    """The direction of a cut: set across the width, or across the height."""

    RIP = "rip"
    CROSS = "crosscut"


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """One size of sheet, or one rack offcut (available 1). Sizes are usable ones, trims taken."""

    width: int
    height: int
    cost: int
    available: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetsProblem:
    """Cut `demands[i]` parts of `widths[i]` × `heights[i]`, turned only where `turns[i]`.

    A layout costs its sheet's `cost` less, for each left-over piece whose sides reach `keep` (in
    either orientation), ⌊credit · its area⌋. `max_stages` limits the runs of parallel cuts on the
    way from the sheet to any part or left-over piece; None sets no limit. Where `first_cut` is
    given, the first cut made on any sheet goes that way.
    """

    widths: tuple[int, ...]
    heights: tuple[int, ...]
    demands: tuple[int, ...]
    turns: tuple[bool, ...]
    kerf: int
    sheets: tuple[Sheet, ...]
    max_stages: int | None
    keep: tuple[int, int]
    credit: Fraction
    first_cut: Way | None = None

    def credit_for(self, width: int, height: int) -> int:
        """Return what a left-over piece earns: 0 unless it is worth keeping."""
        if max(width, height) < max(self.keep) or min(width, height) < min(self.keep):
            return 0
        return width * height * self.credit.numerator // self.credit.denominator


@dataclass(frozen=True, slots=True)
class Leaf:
    """A finished piece: part type `part` (turned or not), or None for what is left over."""

    part: int | None = None
    turned: bool = False


@dataclass(frozen=True, slots=True)
class Cut:
    """A piece divided: `rip` sets `at` across the width, else across the height.

    `far` is None when no more than the kerf lies beyond `at`.
    """

    rip: bool
    at: int
    near: Node
    far: Node | None


Node: TypeAlias = Leaf | Cut
Table: TypeAlias = tuple[tuple[int, int], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetPattern:
    """`times` equal layouts on sheet index `sheet`, cut as `root` says."""

    sheet: int
    root: Node
    times: int


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetsOutcome:
    """Layouts that meet the demand exactly, and a bound no guillotine plan can beat.

    `rows` prove the bound; each is (across, along), two tables of (size, weight ≥ 0) over the
    distinct sizes of the parts. A part laid as w × h weighs across[w]·along[h], the lesser of both
    ways if it may be turned. With A(x) the most across-weight of any multiset of sizes s that fits,
    Σ(s + kerf) ≤ x + kerf, and B likewise along, a layout on sheet k weighs at most
    V_k = A(width_k)·B(height_k) (by induction over the cuts), so Σ n_k·V_k ≥ D, the weight of all
    parts, and the cost is at least min Σ n_k·(cost_k − credit·area_k) + credit·area of all parts
    over whole n_k ≤ available.
    `weights` prove more: each weighs every part as a whole, and V_k is the most weight that any
    edge-to-edge layout on sheet k yields (an integer dynamic programme over the cuts). The bound is
    the least cost over one set of counts n_k that satisfies every row of both kinds, rounded up.
    `once` are weights like those, but V_k is the most of any layout that cuts no part more often
    than it is wanted.
    `narrowed`, if there are any, rule out every plan that costs less than the bound. By the first
    of them, counted like `weights`, each sheet of such a plan yields nearly as much as it costs;
    each further one is counted over the sets of parts that those before it leave.
    The checker recomputes it from `rows`, `weights`, `once` and `narrowed` alone.
    For IMPOSSIBLE and UNKNOWN there are no layouts and `missing[i]` parts of type i are left out
    of the best attempt.
    """

    status: Status
    patterns: tuple[SheetPattern, ...]
    cost: int
    bound: int
    rows: tuple[tuple[Table, Table], ...]
    weights: tuple[tuple[int, ...], ...]
    once: tuple[tuple[int, ...], ...]
    narrowed: tuple[tuple[int, ...], ...] = ()
    missing: tuple[int, ...]
    method: str
    seconds: float
