"""The 1D problem and its answer as plain integers.

All sizes share one unit (tenths of a millimetre in this program), all costs another (pence). A
pattern of n parts with sum s on a usable length u needs s + kerf·(n−1) ≤ u. What is left over is
max(0, u − s − kerf·n): the cut that frees it costs one more kerf.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from optimiser.solvers.protocol import Status


@dataclass(frozen=True, slots=True, kw_only=True)
class Stock:
    """One size of stock, or one rack offcut (available 1). `usable` is its length after trims."""

    usable: int
    cost: int
    available: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class LengthsProblem:
    """Cut `demands[i]` parts of `sizes[i]` at the least net cost.

    A layout costs its stock's `cost` less ⌊credit · left over⌋ where the left over is at least
    `keep` long. Sizes need not differ from each other, demands may be 0.
    """

    sizes: tuple[int, ...]
    demands: tuple[int, ...]
    kerf: int
    stocks: tuple[Stock, ...]
    keep: int
    credit: Fraction

    def left_over(self, stock: int, counts: tuple[int, ...]) -> int:
        """Return what a pattern leaves of a stock as one piece, 0 or more."""
        used = sum(n * (size + self.kerf) for n, size in zip(counts, self.sizes, strict=True) if n)
        return max(0, self.stocks[stock].usable - used)

    def cost(self, stock: int, counts: tuple[int, ...]) -> int:
        """Return the net cost of one layout."""
        left = self.left_over(stock, counts)
        earned = left * self.credit.numerator // self.credit.denominator if left >= self.keep else 0
        return self.stocks[stock].cost - earned


@dataclass(frozen=True, slots=True, kw_only=True)
class Pattern:
    """`times` equal layouts on `stock` (an index) with `counts[i]` parts of size i."""

    stock: int
    counts: tuple[int, ...]
    times: int


@dataclass(frozen=True, slots=True, kw_only=True)
class LengthsOutcome:
    """Patterns that meet the demand exactly, and a bound no plan can beat.

    `rows` prove the bound; each is (weights, scale), whole numbers: weights ≥ 0 one per size,
    scale > 0. Let n_k be how many pieces of stock k a plan uses (0 ≤ n_k ≤ available, and no more
    than there are parts), D = weights·demands, and let patterns p hold each size at most `demands`
    times and one part at least. A row says, with V_k = max over p on k of weights·p and
    W_k = max over p on k of (weights·p + scale·credit earned by p):
    - Σ n_k·V_k ≥ D;
    - scale·cost ≥ D + Σ n_k·(scale·cost_k − W_k).
    Besides, cost ≥ Σ n_k·(cost_k − credit·usable_k) + credit·sizes·demands. The bound is the least
    cost for which some whole n agree with all of this. The checker works it out from `rows` alone.
    `exhausted`: every pattern that a cheaper plan could use was listed, and the integer program saw
    no such plan. It works in floats, so this ends the search but proves nothing.
    `trade_off` is a plan with fewer different layouts and its cost, up to 0.25 % more, if any.
    For IMPOSSIBLE and UNKNOWN there are no patterns and `missing[i]` parts of size i are left out
    of the best attempt.
    """

    status: Status
    patterns: tuple[Pattern, ...]
    cost: int
    bound: int
    rows: tuple[tuple[tuple[int, ...], int], ...]
    missing: tuple[int, ...]
    method: str
    seconds: float
    exhausted: bool = False
    trade_off: tuple[tuple[Pattern, ...], int] | None = None
