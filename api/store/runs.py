"""Runs: work that was asked for, from the queue to its one end.

Whoever works on a run has a lease on it and must renew it; a lease that runs out puts the run back
in the queue. Ending a run asks for the lease in the same transaction that writes its results, so
that a run ends once however many workers were killed over it.
"""

from __future__ import annotations

import json
import secrets
from collections.abc import Collection
from dataclasses import dataclass
from typing import Any

import sqlalchemy as sa

from api.store.continuations import continue_from
from api.store.engine import Store, lock_firm, now
from api.store.ledger import release, reserve
from api.store.refusals import Missing
from api.store.repeats import known_run
from api.store.tables import batches, firms, plans, runs
from optimiser import Problem

LEASE_SECONDS = 10.0
# A run that has taken this many workers with it would take the next as well.
MOST_ATTEMPTS = 5
# Runs of this kind find something else than a plan.
WITHOUT_PLAN = "deliveries"
ENDED = ("done", "cancelled", "failed")


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What a caller asks to be planned. `materials`: whose rack offcuts it may use; None: none.

    `continues`: the plan that it goes on from, its last tick, and the offcuts that plan racked.
    """

    kind: str
    document: str
    body_hash: str
    seconds: float
    who: str
    idempotency_key: str | None = None
    deadline_seconds: float | None = None
    materials: Collection[str] | None = None
    jobs: tuple[str, ...] = ()
    continues: tuple[str, int, tuple[str, ...]] | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Claim:
    """A worker's right to work on a run, for as long as it renews its lease.

    `plan` is "" where the run makes none.
    """

    run: str
    firm: str
    plan: str
    kind: str
    document: str
    takes_rack: bool
    owner: str
    attempt: int
    who: str
    deadline: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Progress:
    """How far a run is: pence, different layouts, seconds."""

    cost: int | None = None
    bound: int | None = None
    layouts: int | None = None
    spent: float | None = None


class LeaseLost(Exception):
    """Another worker has the run now; whoever meets this stops and writes nothing."""


def ask(
    connection: sa.Connection, firm: str, asked: Asked, *, owner: str | None = None
) -> tuple[str, Claim | None]:
    """Write a run down, with its plan to be and its hold on the rack; return its id.

    The same idempotency key with the same content is the same run. With an `owner` the caller works
    on it at once, and gets the claim.
    """
    lock_firm(connection, firm)
    known = known_run(connection, firm, asked.idempotency_key, asked.body_hash)
    if known is not None:
        return known, None
    run, plan, at = f"run-{secrets.token_hex(8)}", f"plan-{secrets.token_hex(8)}", now(connection)
    deadline = None if asked.deadline_seconds is None else at + asked.deadline_seconds
    connection.execute(
        sa.insert(runs).values(
            id=run,
            firm=firm,
            kind=asked.kind,
            state="queued" if owner is None else "running",
            who=asked.who,
            document=asked.document,
            idempotency_key=asked.idempotency_key,
            body_hash=asked.body_hash,
            takes_rack=asked.materials is not None or asked.continues is not None,
            seconds=asked.seconds,
            created=at,
            started=None if owner is None else at,
            deadline=deadline,
            lease_owner=owner,
            lease_until=None if owner is None else at + LEASE_SECONDS,
            attempt=0 if owner is None else 1,
        )
    )
    if asked.kind != WITHOUT_PLAN:
        connection.execute(
            sa.insert(plans).values(
                id=plan, firm=firm, run=run, state="planning", version=1, created=at, changed=at
            )
        )
    if asked.kind == "batch":
        connection.execute(
            sa.insert(batches).values(
                id=f"batch-{secrets.token_hex(8)}",
                firm=firm,
                run=run,
                jobs=json.dumps(asked.jobs, ensure_ascii=False),
                created=at,
            )
        )
    if asked.materials is not None:
        reserve(connection, firm, plan, asked.materials, asked.who)
    if asked.continues is not None:
        continue_from(connection, firm, plan, asked.continues, asked.who)
    return run, None if owner is None else claim_of(connection, run)


def claim_of(connection: sa.Connection, run: str) -> Claim:
    """Read the claim on a run that is being worked on."""
    row = connection.execute(
        sa.select(runs, plans.c.id.label("plan"))
        .outerjoin(plans, plans.c.run == runs.c.id)
        .where(runs.c.id == run)
    ).one()
    return Claim(
        run=row.id,
        firm=row.firm,
        plan=row.plan or "",
        kind=row.kind,
        document=row.document,
        takes_rack=row.takes_rack,
        owner=row.lease_owner,
        attempt=row.attempt,
        who=row.who,
        deadline=row.deadline,
    )


def claim_next(store: Store, owner: str) -> Claim | None:
    """Take the next run from the queue, if there is one.

    The firm with the fewest runs under way goes first, then the one served longest ago; within a
    firm the oldest run. So a firm that submits a thousand runs delays another's by one at most.
    """
    with store.read() as connection:
        if not _something_to_do(connection):
            return None
    _recover(store)
    with store.write() as connection:
        busy = (
            sa.select(runs.c.firm, sa.func.count().label("number"))
            .where(runs.c.state == "running")
            .group_by(runs.c.firm)
            .subquery()
        )
        wanted = (
            sa.select(runs.c.id, runs.c.firm)
            .join(firms, firms.c.id == runs.c.firm)
            .outerjoin(busy, busy.c.firm == runs.c.firm)
            .where(runs.c.state == "queued")
            .order_by(
                sa.func.coalesce(busy.c.number, 0), firms.c.last_turn, runs.c.created, runs.c.id
            )
            .limit(1)
        )
        row = connection.execute(wanted).first()
        if row is None:
            return None
        lock_firm(connection, row.firm)
        at = now(connection)
        taken = connection.execute(
            sa.update(runs)
            .where(runs.c.id == row.id, runs.c.state == "queued")
            .values(
                state="running",
                lease_owner=owner,
                lease_until=at + LEASE_SECONDS,
                attempt=runs.c.attempt + 1,
                started=sa.func.coalesce(runs.c.started, at),
            )
        )
        if taken.rowcount == 0:  # another worker was quicker; the caller asks again
            return None
        turn = sa.select(sa.func.max(firms.c.last_turn) + 1).scalar_subquery()
        connection.execute(sa.update(firms).where(firms.c.id == row.firm).values(last_turn=turn))
        return claim_of(connection, row.id)


def _something_to_do(connection: sa.Connection) -> bool:
    """Look without the write lock: workers ask often, and mostly for nothing."""
    ripe = sa.or_(runs.c.state == "queued", _is_forsaken(now(connection)))
    return connection.execute(sa.select(runs.c.id).where(ripe).limit(1)).first() is not None


def _recover(store: Store) -> None:
    """Put runs whose worker is gone back in the queue, or end them after too many attempts."""
    with store.read() as connection:
        ripe = sa.select(runs.c.id, runs.c.firm).where(_is_forsaken(now(connection)))
        gone = connection.execute(ripe).all()
    for row in gone:
        with store.write() as connection:
            lock_firm(connection, row.firm)
            freed = connection.execute(
                sa.update(runs)
                .where(runs.c.id == row.id, _is_forsaken(now(connection)))
                .values(state="queued", lease_owner=None, lease_until=None)
                .returning(runs.c.attempt, runs.c.cancel)
            ).first()
            if freed is None:
                continue
            if freed.cancel:
                problem = Problem(f"run {row.id}", "was cancelled, its worker lost", "Ask again")
                _end(connection, claim_of(connection, row.id), "cancelled", problem=problem)
            elif freed.attempt >= MOST_ATTEMPTS:
                problem = Problem(
                    f"run {row.id}",
                    f"ended {freed.attempt} workers without a result",
                    "Split it into smaller runs, and tell whoever keeps the service",
                )
                _end(connection, claim_of(connection, row.id), "failed", problem=problem)


def _is_forsaken(at: float) -> sa.ColumnElement[bool]:
    return sa.and_(runs.c.state == "running", runs.c.lease_until < at)


def renew(connection: sa.Connection, claim: Claim, progress: Progress) -> bool:
    """Keep the lease and tell how far the run is; return whether it shall stop.

    Raises LeaseLost when another worker has it.
    """
    at = now(connection)
    said = {
        name: value
        for name in ("cost", "bound", "layouts", "spent")
        if (value := getattr(progress, name)) is not None
    }
    row = connection.execute(
        sa.update(runs)
        .where(*_ours(claim))
        .values(lease_until=at + LEASE_SECONDS, **said)
        .returning(runs.c.cancel, runs.c.deadline)
    ).first()
    if row is None:
        raise LeaseLost(claim.run)
    return bool(row.cancel) or (row.deadline is not None and at >= row.deadline)


def end_without_plan(store: Store, claim: Claim, problems: tuple[Problem, ...]) -> None:
    """End a run that cannot have a plan, and let go of the rack. Raises LeaseLost."""
    with store.write() as connection:
        lock_firm(connection, claim.firm)
        require_lease(connection, claim)
        _end(connection, claim, "failed", problem=problems)


def hand_back(store: Store, claim: Claim) -> None:
    """Put a run back in the queue, unharmed: its worker is being shut down."""
    with store.write() as connection:
        connection.execute(
            sa.update(runs)
            .where(*_ours(claim))
            .values(state="queued", lease_owner=None, lease_until=None, attempt=runs.c.attempt - 1)
        )


def forsake(store: Store, claim: Claim) -> None:
    """Let a lease run out now: its worker is known to be dead."""
    with store.write() as connection:
        connection.execute(sa.update(runs).where(*_ours(claim)).values(lease_until=0.0))


def cancel(connection: sa.Connection, firm: str, run: str, *, who: str) -> None:
    """Stop a run: one in the queue ends at once, one under way keeps its best plan.

    Cancelling a run that has ended changes nothing. Raises Missing.
    """
    lock_firm(connection, firm)
    row = connection.execute(
        sa.select(runs.c.state).where(runs.c.id == run, runs.c.firm == firm).with_for_update()
    ).first()
    if row is None:
        raise Missing("run", run)
    if row.state == "queued":
        problem = Problem(f"run {run}", f"was cancelled by {who} before it began", "Ask again")
        _end(connection, claim_of(connection, run), "cancelled", problem=problem)
    elif row.state == "running":
        connection.execute(sa.update(runs).where(runs.c.id == run).values(cancel=True))


def require_lease(connection: sa.Connection, claim: Claim) -> bool:
    """Hold the run's row to the end of the transaction; return whether it was cancelled.

    Raises LeaseLost when another worker has it.
    """
    row = connection.execute(sa.select(runs.c.cancel).where(*_ours(claim)).with_for_update())
    found = row.first()
    if found is None:
        raise LeaseLost(claim.run)
    return bool(found.cancel)


def end_with_plan(
    connection: sa.Connection, claim: Claim, *, cancelled: bool, progress: Progress
) -> None:
    """Mark a run as ended; its plan is written in the same transaction."""
    connection.execute(
        sa.update(runs)
        .where(runs.c.id == claim.run)
        .values(
            state="cancelled" if cancelled else "done",
            ended=now(connection),
            lease_owner=None,
            lease_until=None,
            cost=progress.cost,
            bound=progress.bound,
            layouts=progress.layouts,
            spent=progress.spent,
        )
    )


def plans_made(connection: sa.Connection, of_runs: list[str]) -> dict[str, str]:
    """Return the plans of runs that have made theirs."""
    wanted = sa.select(plans.c.run, plans.c.id).where(
        plans.c.run.in_(of_runs), plans.c.plan.is_not(None)
    )
    return {row.run: row.id for row in connection.execute(wanted)}


def _end(
    connection: sa.Connection,
    claim: Claim,
    state: str,
    *,
    problem: Problem | tuple[Problem, ...],
) -> None:
    problems = problem if isinstance(problem, tuple) else (problem,)
    written: list[dict[str, Any]] = [
        {"field": item.field, "trouble": item.trouble, "remedy": item.remedy} for item in problems
    ]
    at = now(connection)
    connection.execute(
        sa.update(runs)
        .where(runs.c.id == claim.run)
        .values(
            state=state,
            ended=at,
            lease_owner=None,
            lease_until=None,
            problem=json.dumps(written, ensure_ascii=False),
        )
    )
    connection.execute(
        sa.update(plans)
        .where(plans.c.id == claim.plan)
        .values(state="dropped", version=plans.c.version + 1, changed=at)
    )
    release(connection, claim.firm, claim.plan, who=claim.who, why="no plan was made")


def _ours(claim: Claim) -> tuple[sa.ColumnElement[bool], ...]:
    return (
        runs.c.id == claim.run,
        runs.c.state == "running",
        runs.c.lease_owner == claim.owner,
        runs.c.attempt == claim.attempt,
    )
