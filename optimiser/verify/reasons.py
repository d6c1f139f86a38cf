"""What a certificate says of one material before anybody has chosen between options.

Each reason is a line or a need of counts.py whose amount depends on the options taken. Told which
they are, the least cost follows; told nothing, every reason takes the least option of each choice.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from optimiser.verify.counts import Line, Need, least_cost
from optimiser.verify.weighing import Amount


@dataclass(frozen=True, slots=True)
class OpenLine:
    """cost · scale ≥ base + Σ count_k · each_k, whatever is chosen."""

    base: Amount
    each: tuple[int, ...]
    scale: int


@dataclass(frozen=True, slots=True)
class OpenNeed:
    """Σ count_k · holds_k ≥ demand, whatever is chosen."""

    holds: tuple[int, ...]
    demand: Amount


@dataclass(frozen=True, slots=True)
class Reasons:
    """All that a certificate says of one material; `limits` are the most of each stock.

    There is one line at least; without any, nothing is proven but 0.
    """

    limits: tuple[int, ...] = ()
    lines: tuple[OpenLine, ...] = ()
    needs: tuple[OpenNeed, ...] = ()

    def least(self) -> int:
        """Return the least net cost in pence whatever is chosen, 0 if nothing is proven."""
        return self._least(lambda amount: amount.least, None)

    def least_of(self, chosen: Sequence[int], boxes: int | None = None) -> int:
        """Return the least net cost in pence with these options."""
        return self._least(lambda amount: amount.of(chosen), boxes)

    def fewest(self, chosen: Sequence[int]) -> int:
        """Return how many pieces of stock these options take at least."""
        _, needs = self.settled(lambda amount: amount.of(chosen))
        if not needs:
            return 0
        each = Line(0, (1,) * len(self.limits), 1)
        return max(0, least_cost(self.limits, [each], needs) or 0)

    def settled(self, value: Callable[[Amount], int]) -> tuple[list[Line], list[Need]]:
        """Return the reasons with each amount as `value` has it."""
        return (
            [Line(value(line.base), line.each, line.scale) for line in self.lines],
            [Need(need.holds, value(need.demand)) for need in self.needs],
        )

    def _least(self, value: Callable[[Amount], int], boxes: int | None) -> int:
        if not self.lines:
            return 0
        lines, needs = self.settled(value)
        return max(0, least_cost(self.limits, lines, needs, boxes) or 0)
