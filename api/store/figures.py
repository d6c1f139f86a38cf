"""Figures over all firms, read from the database, so that any number of services say the same."""

from __future__ import annotations

from collections.abc import Iterator

import sqlalchemy as sa

from api.store.tables import RUN_STATES, plans, rack_events, runs


def figures(connection: sa.Connection) -> Iterator[str]:
    """Write lines in Prometheus' text format."""
    counted = connection.execute(sa.select(runs.c.state, sa.func.count()).group_by(runs.c.state))
    states: dict[str, int] = {state: number for state, number in counted}
    yield from _head("scantling_runs", "gauge", "Runs by state")
    for state in RUN_STATES:
        yield f'scantling_runs{{state="{state}"}} {states.get(state, 0)}\n'
    spent, number = connection.execute(
        sa.select(
            sa.func.coalesce(sa.func.sum(runs.c.spent), 0), sa.func.count(runs.c.spent)
        ).where(runs.c.state.in_(("done", "cancelled")))
    ).one()
    yield from _head("scantling_solve_seconds", "summary", "Seconds of planning of ended runs")
    yield f"scantling_solve_seconds_sum {spent:.3f}\nscantling_solve_seconds_count {number}\n"
    cost, gap = connection.execute(
        sa.select(
            sa.func.coalesce(sa.func.sum(plans.c.cost), 0),
            sa.func.coalesce(sa.func.sum(plans.c.cost - plans.c.bound), 0),
        ).where(plans.c.cost.is_not(None))
    ).one()
    yield from _head("scantling_gap_ratio", "gauge", "Gap at return, over the money of all plans")
    yield f"scantling_gap_ratio {float(gap) / float(cost) if cost else 0.0:.6f}\n"
    on_rack, held = connection.execute(
        sa.select(
            sa.func.coalesce(sa.func.sum(rack_events.c.on_rack), 0),
            sa.func.coalesce(sa.func.sum(rack_events.c.held), 0),
        )
    ).one()
    yield from _head("scantling_rack_pieces", "gauge", "Offcuts on all racks")
    yield f"scantling_rack_pieces {on_rack}\n"
    yield from _head("scantling_rack_held", "gauge", "Of them held by plans")
    yield f"scantling_rack_held {held}\n"


def _head(name: str, kind: str, words: str) -> Iterator[str]:
    yield f"# HELP {name} {words}.\n# TYPE {name} {kind}\n"
