"""Which of two outcomes for one material stands, and with whose proof."""

from __future__ import annotations

from dataclasses import replace
from typing import TypeAlias

from optimiser.solvers.lengths.problem import LengthsOutcome
from optimiser.solvers.protocol import Status
from optimiser.solvers.sheets.problem import SheetsOutcome

Outcome: TypeAlias = LengthsOutcome | SheetsOutcome

EXTRA_SHARE = 400  # one part in so many may be paid for fewer layouts: 0.25 %


def better_outcome(old: Outcome, new: Outcome, *, fewer_layouts: bool = False) -> Outcome:
    """Return the new outcome if it costs no more, else the old one, with the better proof of both.

    With `fewer_layouts` up to 0.25 % may be paid for plans of lengths with fewer layouts.
    """
    if isinstance(old, LengthsOutcome) and isinstance(new, LengthsOutcome):
        is_better = has_fewer_layouts(old, new) if fewer_layouts else new.cost <= old.cost
        lengths, other = (new, old) if is_better else (old, new)
        seconds = old.seconds + new.seconds
        if other.bound <= lengths.bound:
            return replace(lengths, seconds=seconds)
        status = Status.OPTIMAL if other.bound == lengths.cost else lengths.status
        return replace(lengths, bound=other.bound, rows=other.rows, status=status, seconds=seconds)
    assert isinstance(old, SheetsOutcome)
    assert isinstance(new, SheetsOutcome)
    sheets, rest = (new, old) if new.cost <= old.cost else (old, new)
    seconds = old.seconds + new.seconds
    if rest.bound <= sheets.bound:
        return replace(sheets, seconds=seconds)
    return replace(
        sheets,
        bound=rest.bound,
        rows=rest.rows,
        weights=rest.weights,
        once=rest.once,
        narrowed=rest.narrowed,
        status=Status.OPTIMAL if rest.bound == sheets.cost else sheets.status,
        seconds=seconds,
    )


def has_fewer_layouts(old: LengthsOutcome, new: LengthsOutcome) -> bool:
    """Return whether the new plan is to be preferred where up to 0.25 % may be paid for layouts."""
    before, after = _as_taken(old), _as_taken(new)
    least = min(before[1], after[1])
    near = [each for each in (before, after) if each[1] <= least + least // EXTRA_SHARE]
    return after in near and (before not in near or after <= before)


def _as_taken(outcome: LengthsOutcome) -> tuple[int, int]:
    """Return layouts and cost of the plan that is taken where fewer layouts are asked for."""
    if outcome.trade_off is None:
        return len(outcome.patterns), outcome.cost
    patterns, cost = outcome.trade_off
    return len(patterns), cost
