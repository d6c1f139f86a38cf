"""What became of the rack's offcuts, told by its ledger."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, Any

import sqlalchemy as sa

import optimiser as lib
from api.store.engine import Store, now
from api.store.tables import offcuts, rack_events
from optimiser import Tenths

if TYPE_CHECKING:
    from optimiser import OffcutLife

_SECONDS_A_DAY = 86_400


def lives_of(store: Store, firm: str) -> tuple[tuple[OffcutLife, ...], int]:
    """Return the lives of a firm's offcuts, and today's day number by the database's clock.

    A piece found again lies there as if it had never left; one lost counts as thrown.
    """
    with store.read() as connection:
        lines = connection.execute(
            sa.select(
                offcuts.c.label,
                offcuts.c.material,
                offcuts.c.length,
                offcuts.c.width,
                offcuts.c.height,
                rack_events.c.kind,
                rack_events.c.on_rack,
                rack_events.c.at,
            )
            .join(
                rack_events,
                sa.and_(
                    rack_events.c.firm == offcuts.c.firm, rack_events.c.label == offcuts.c.label
                ),
            )
            .where(offcuts.c.firm == firm, rack_events.c.on_rack != 0)
            .order_by(offcuts.c.label, rack_events.c.seq)
        ).all()
        today = _day(now(connection))
    return tuple(_lives(lines)), today


def _lives(lines: Sequence[Any]) -> Iterator[OffcutLife]:
    by_label: dict[str, list[Any]] = {}
    for line in lines:
        by_label.setdefault(line.label, []).append(line)
    for moves in by_label.values():
        first, last = moves[0], moves[-1]
        gone = last.on_rack < 0
        yield lib.OffcutLife(
            material=first.material,
            size=(
                (Tenths(first.length),)
                if first.length is not None
                else (Tenths(first.width), Tenths(first.height))
            ),
            racked=_day(first.at),
            ended=_day(last.at) if gone else None,
            used=gone and last.kind == "used",
        )


def _day(at: float) -> int:
    return lib.day_number("1970-01-01") + int(at // _SECONDS_A_DAY)
