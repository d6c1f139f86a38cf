"""The firm's plots: its rack by day from the ledger, the cost of its plans beside their bounds."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import UTC, datetime, timedelta
from typing import TYPE_CHECKING

import optimiser as lib
from api.store.history import PlanCost, RackStep

if TYPE_CHECKING:
    from optimiser import RackMoment

_MOST_MARKS = 7
_NOTHING = (0, 0, 0, 0, 0, 0)


def rack_svg(steps: Sequence[RackStep], *, now: float) -> str:
    """Draw the rack from its first step to `now`, in seconds since 1970; empty where none is."""
    moments = rack_moments(steps) or (_moment(now, _NOTHING),)
    until = max(now, moments[-1].at)
    marks = time_marks(moments[0].at, until)
    return lib.draw_rack(moments, until=until, marks=marks, title="The rack over time")


def rack_moments(steps: Sequence[RackStep]) -> tuple[RackMoment, ...]:
    """Add the ledger's steps up: what lay on the rack after each, one moment for each second."""
    moments: list[RackMoment] = []
    sums = list(_NOTHING)
    for step in steps:
        is_length = step.length is not None
        size = step.length if step.length is not None else (step.width or 0) * (step.height or 0)
        place = 0 if is_length else 1
        sums[place] += step.on_rack
        sums[2 + place] += step.on_rack * size
        sums[4 + place] += step.held * size
        moment = _moment(step.at, sums)
        if moments and moments[-1].at == step.at:
            moments[-1] = moment
        else:
            moments.append(moment)
    return tuple(moments)


def _moment(at: float, sums: Sequence[int]) -> RackMoment:
    return lib.RackMoment(
        at=at,
        lengths=sums[0],
        boards=sums[1],
        length=sums[2],
        area=sums[3],
        held_length=sums[4],
        held_area=sums[5],
    )


def time_marks(start: float, until: float) -> tuple[tuple[float, str], ...]:
    """Return at most seven round times between two, each with its name: days, or hours in UTC."""
    first, last = (datetime.fromtimestamp(at, UTC) for at in (start, until))
    span = last - first
    if span < timedelta(days=2):
        step = timedelta(hours=max(1, -(-int(span.total_seconds()) // 3600 // _MOST_MARKS)))
        at = first.replace(minute=0, second=0, microsecond=0) + timedelta(hours=1)
        shape = "%H:%M"
    else:
        step = timedelta(days=max(1, -(-span.days // _MOST_MARKS)))
        at = first.replace(hour=0, minute=0, second=0, microsecond=0) + timedelta(days=1)
        shape = "%d %b"
    marks: list[tuple[float, str]] = []
    while at <= last and len(marks) < _MOST_MARKS:
        marks.append((at.timestamp(), at.strftime(shape)))
        at += step
    return tuple(marks)


def batches_svg(costs: Sequence[PlanCost]) -> str:
    """Draw the net cost of each plan beside its bound, oldest first."""
    bars = [
        lib.CostBar(
            name=f"{datetime.fromtimestamp(item.created, UTC):%d %b} {item.id[-6:]}",
            cost=lib.Pence(item.cost),
            bound=lib.Pence(item.bound),
        )
        for item in costs
    ]
    return lib.draw_costs(bars, title="Cost and proven bound of each plan")
