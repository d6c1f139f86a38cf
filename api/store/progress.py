"""How far jobs have come: walls, the newest plan that they are in, and their share of its cost.

Nothing of it is kept: it follows from batches, plans and orders, and so is never out of date.
"""

from __future__ import annotations

import json
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

import sqlalchemy as sa

from api.store.tables import batches, continuations, orders, plans, runs, walls
from optimiser import pence

# Jobs older than this many batches are shown by their walls and parts only.
_MOST_BATCHES = 500
# What a job is called by the state of its plan.
_BY_PLAN = {"draft": "planned", "confirmed": "ordered", "undone": "new", "dropped": "new"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Come:
    """How far a job has come. `share` in pence.

    `state`: new, planning, planned, ordered, part received, or received once nothing more is to
    come for its plan, nor for those that go on from it.
    """

    walls: tuple[str, ...] = ()
    client: str = ""
    needed: str = ""
    state: str = "new"
    plan: str | None = None
    share: int | None = None


def of_jobs(connection: sa.Connection, firm: str, jobs: Iterable[sa.Row[Any]]) -> dict[str, Come]:
    """Return how far each job, a row of the jobs, has come, by its id."""
    rows = list(jobs)
    walls_of = _walls(connection, firm, [row.id for row in rows])
    newest = _newest(connection, firm, {row.name for row in rows})
    came = _came(connection, firm, {plan for state, plan in newest.values() if state == "ordered"})
    shares = _shares(connection, {plan for _, plan in newest.values() if plan is not None})
    come: dict[str, Come] = {}
    for row in rows:
        state, plan = newest.get(row.name, ("new", None))
        own = walls_of.get(row.id, [])
        documents = [json.loads(wall.document) for wall in own]
        come[row.id] = Come(
            walls=tuple(wall.id for wall in own),
            client=next((d["client"] for d in documents if d.get("client")), ""),
            needed=min((d["needed"] for d in documents if d.get("needed")), default=""),
            state=came.get(plan, state),
            plan=plan,
            share=shares.get((plan, row.name)),
        )
    return come


def _walls(connection: sa.Connection, firm: str, ids: list[str]) -> dict[str, list[sa.Row[Any]]]:
    wanted = (
        sa.select(walls.c.id, walls.c.job, walls.c.document)
        .where(walls.c.firm == firm, walls.c.job.in_(ids))
        .order_by(walls.c.created, walls.c.id)
    )
    rows: list[sa.Row[Any]] = list(connection.execute(wanted))
    return {id_: [row for row in rows if row.job == id_] for id_ in ids}


def _newest(
    connection: sa.Connection, firm: str, names: set[str]
) -> dict[str, tuple[str, str | None]]:
    """Return the state that each job is in by name, and its plan: an order beats a later draft."""
    wanted = (
        sa.select(batches.c.jobs, runs.c.state.label("run"), plans.c.id, plans.c.state)
        .join(runs, runs.c.id == batches.c.run)
        .join(plans, plans.c.run == runs.c.id)
        .where(batches.c.firm == firm)
        .order_by(batches.c.created.desc(), batches.c.id.desc())
        .limit(_MOST_BATCHES)
    )
    found: dict[str, tuple[str, str | None]] = {}
    for row in connection.execute(wanted):
        if row.run in ("queued", "running"):
            state, plan = "planning", None
        else:
            state, plan = _BY_PLAN.get(row.state, "new"), row.id
        if state == "new":
            continue
        for name in names.intersection(json.loads(row.jobs)):
            if name not in found or (state == "ordered" and found[name][0] == "planned"):
                found[name] = (state, plan)
    return found


def _came(connection: sa.Connection, firm: str, ids: set[str | None]) -> dict[str | None, str]:
    """Return of each confirmed plan that goods came for whether all came: its jobs' state."""
    root = {plan: plan for plan in ids}
    latest = set(root)
    while latest:
        wanted = (
            sa.select(continuations.c.continues, continuations.c.plan)
            .join(plans, plans.c.id == continuations.c.plan)
            .where(
                continuations.c.firm == firm,
                continuations.c.continues.in_(latest),
                plans.c.state.not_in(("dropped", "undone")),
            )
        )
        following = {row.plan: root[row.continues] for row in connection.execute(wanted)}
        latest = set(following)
        root |= following
    states: dict[str | None, set[str]] = {}
    for row in connection.execute(
        sa.select(orders.c.plan, orders.c.state).where(
            orders.c.firm == firm, orders.c.plan.in_(root), orders.c.state != "withdrawn"
        )
    ):
        states.setdefault(root[row.plan], set()).add(row.state)
    return {
        plan: "received" if found == {"received"} else "part received"
        for plan, found in states.items()
        if found & {"received", "part received"}
    }


def _shares(connection: sa.Connection, ids: set[str]) -> dict[tuple[str | None, str], int]:
    wanted = sa.select(plans.c.id, plans.c.extra).where(plans.c.id.in_(ids))
    return {
        (row.id, share["job"]): pence(share["cost"])
        for row in connection.execute(wanted)
        for share in json.loads(row.extra or "{}").get("shares", ())
    }
