"""What a firm writes down before planning: jobs, walls, price books; and lists of all its things.

Jobs and walls have a version that grows with each change, so that office and van cannot overwrite
each other; a price book's versions are all kept, each with the day from which it holds.
"""

from __future__ import annotations

import json
import secrets
from typing import Any

import sqlalchemy as sa

import optimiser as lib
from api.store.engine import lock_firm, now
from api.store.plans import require_version
from api.store.refusals import Conflict, Missing
from api.store.tables import audit, jobs, price_books, walls
from optimiser import InvalidInput, Problem

MOST_ON_A_PAGE = 200
_LONG = {
    "plans": ("request", "plan", "extra"),
    "orders": ("document", "csv"),
    "runs": ("document", "result"),
    "price_books": ("document",),
}


def note(connection: sa.Connection, firm: str, who: str, action: str, thing: str) -> None:
    """Write one line of the audit log, in the transaction of what it tells of."""
    line = {"firm": firm, "who": who, "at": now(connection), "action": action, "thing": thing}
    connection.execute(sa.insert(audit).values(**line))


def audit_lines(
    connection: sa.Connection, firm: str, *, after: int, most: int
) -> list[sa.Row[Any]]:
    """Return lines of the firm's audit log, oldest first."""
    wanted = sa.select(audit).where(audit.c.firm == firm, audit.c.id > after)
    return list(connection.execute(wanted.order_by(audit.c.id).limit(most)))


def find_one(connection: sa.Connection, table: sa.Table, firm: str, id_: str) -> sa.Row[Any]:
    """Return one row of the firm's. Raises Missing."""
    row = connection.execute(
        sa.select(table).where(table.c.id == id_, table.c.firm == firm)
    ).first()
    if row is None:
        raise Missing(_kind(table), id_)
    return row


def page(
    connection: sa.Connection,
    table: sa.Table,
    firm: str,
    *,
    most: int,
    after: str | None,
    **equal: object,
) -> tuple[list[sa.Row[Any]], str | None]:
    """Return rows of the firm's, newest first, and the id to give as `after` for the next page.

    Filters that are None are left aside. Raises Missing when `after` is unknown.
    """
    # A list shows no documents of plans and orders, and they are most of the store.
    shown = [column for column in table.c if column.name not in _LONG.get(table.name, ())]
    wanted = sa.select(*shown).where(table.c.firm == firm)
    for column, value in equal.items():
        if value is not None:
            wanted = wanted.where(table.c[column] == value)
    if after is not None:
        place = sa.select(table.c.created).where(table.c.firm == firm, table.c.id == after)
        last = connection.execute(place).first()
        if last is None:
            raise Missing(_kind(table), after)
        older = sa.and_(table.c.created == last.created, table.c.id < after)
        wanted = wanted.where(sa.or_(table.c.created < last.created, older))
    wanted = wanted.order_by(table.c.created.desc(), table.c.id.desc()).limit(most + 1)
    rows = list(connection.execute(wanted))
    more = len(rows) > most
    return rows[:most], rows[most - 1].id if more else None


def add_job(connection: sa.Connection, firm: str, name: str, document: dict[str, Any]) -> str:
    """Write a new job down. Raises Conflict when the firm has one of that name."""
    lock_firm(connection, firm)
    if _job_named(connection, firm, name) is not None:
        remedy = "Change the job that is there, or give another name"
        raise Conflict(Problem("name", f"there is a job {name!r} already", remedy))
    return _insert(connection, jobs, firm, document, name=name)


def change_job(
    connection: sa.Connection,
    firm: str,
    id_: str,
    name: str,
    document: dict[str, Any],
    version: int | None,
) -> None:
    """Write a job anew, its name on its walls too. Raises Missing, Stale or Conflict.

    Raises InvalidInput for a name that its walls cannot have.
    """
    lock_firm(connection, firm)
    found = find_one(connection, jobs, firm, id_)
    require_version(found.version, version, id_)
    other = _job_named(connection, firm, name)
    if other not in (None, id_):
        remedy = "Give another name"
        raise Conflict(Problem("name", f"there is a job {name!r} already", remedy))
    _update(connection, jobs, id_, document, name=name)
    if name != found.name:
        # A wall says itself whose it is, and is planned under that name.
        of_job = sa.select(walls).where(walls.c.firm == firm, walls.c.job == id_)
        for wall in connection.execute(of_job).all():
            changed = {**json.loads(wall.document), "job": name}
            lib.wall_from_document(changed, name=f"wall {wall.id}")
            _update(connection, walls, wall.id, changed, job=id_)


def walls_of(connection: sa.Connection, firm: str, job: str) -> list[dict[str, Any]]:
    """Return the walls of a job as they were written, oldest first."""
    wanted = sa.select(walls.c.document).where(walls.c.firm == firm, walls.c.job == job)
    rows = connection.execute(wanted.order_by(walls.c.created, walls.c.id))
    return [json.loads(row.document) for row in rows]


def list_parts(connection: sa.Connection, firm: str, name: str, document: dict[str, Any]) -> str:
    """Write the listed parts of a job down, the job too when the firm has none of that name.

    Raises Conflict when the job has listed parts already: nothing is overwritten by a file.
    """
    lock_firm(connection, firm)
    id_ = _job_for(connection, firm, name)
    kept = json.loads(find_one(connection, jobs, firm, id_).document)
    if kept.get("parts"):
        remedy = "Give the new list another job's name, or take the old list away first"
        raise Conflict(Problem("job", f"{name!r} has a part list already", remedy))
    given = {key: value for key, value in document.items() if value}
    _update(connection, jobs, id_, {**kept, **given}, name=name)
    return id_


def add_wall(connection: sa.Connection, firm: str, job: str, document: dict[str, Any]) -> str:
    """Write a new wall down, under its job, which is made when the firm has none of that name."""
    lock_firm(connection, firm)
    return _insert(connection, walls, firm, document, job=_job_for(connection, firm, job))


def change_wall(
    connection: sa.Connection,
    firm: str,
    id_: str,
    job: str,
    document: dict[str, Any],
    version: int | None,
) -> None:
    """Write a wall anew. Raises Missing or Stale."""
    lock_firm(connection, firm)
    require_version(find_one(connection, walls, firm, id_).version, version, id_)
    _update(connection, walls, id_, document, job=_job_for(connection, firm, job))


def remove_wall(connection: sa.Connection, firm: str, id_: str, version: int | None) -> None:
    """Remove a wall; plans made of it keep their own copy. Raises Missing or Stale."""
    lock_firm(connection, firm)
    require_version(find_one(connection, walls, firm, id_).version, version, id_)
    connection.execute(sa.delete(walls).where(walls.c.id == id_))


def require_book_name(name: str) -> None:
    """Raise InvalidInput for what cannot be the name of a price book."""
    if not name.isprintable() or len(name) > 200:
        remedy = "Give a name of at most 200 letters"
        raise InvalidInput((Problem("name", f"{name[:40]!r} is no name", remedy),))


def add_price_book(
    connection: sa.Connection,
    firm: str,
    name: str,
    valid_from: str,
    document: dict[str, Any],
    *,
    known: int | None = None,
) -> int:
    """Add a version of a price book, which holds from a day on; return its number.

    `known` is the newest version that the caller saw. Raises Stale when there is a newer one.
    """
    lock_firm(connection, firm)
    last = connection.execute(
        sa.select(sa.func.max(price_books.c.version)).where(
            price_books.c.firm == firm, price_books.c.name == name
        )
    ).scalar()
    require_version(last or 0, known, f"price book {name!r}"[:200])
    version = (last or 0) + 1
    connection.execute(
        sa.insert(price_books).values(
            id=f"prices-{secrets.token_hex(8)}",
            firm=firm,
            name=name,
            version=version,
            valid_from=valid_from,
            document=json.dumps(document, ensure_ascii=False),
            created=now(connection),
        )
    )
    return version


def price_book_on(connection: sa.Connection, firm: str, name: str, day: str) -> sa.Row[Any]:
    """Return the version of a price book that holds on a day: of the latest dates the newest.

    Raises Missing when the firm has no such book, InvalidInput when none of it holds yet.
    """
    named = sa.select(price_books).where(price_books.c.firm == firm, price_books.c.name == name)
    row = connection.execute(
        named.where(price_books.c.valid_from <= day)
        .order_by(price_books.c.valid_from.desc(), price_books.c.version.desc())
        .limit(1)
    ).first()
    if row is not None:
        return row
    first = connection.execute(named.order_by(price_books.c.valid_from).limit(1)).first()
    if first is None:
        raise Missing("price book", name)
    trouble = f"{name!r} holds from {first.valid_from} on, not on {day}"
    raise InvalidInput((Problem("price_book", trouble, "Name a later day or add a version"),))


def prices_on(connection: sa.Connection, firm: str, name: str, day: str) -> Any:
    """Return the document of a price book as it holds on a day. Raises as `price_book_on` does."""
    return json.loads(price_book_on(connection, firm, name, day).document)


def _job_named(connection: sa.Connection, firm: str, name: str) -> str | None:
    wanted = sa.select(jobs.c.id).where(jobs.c.firm == firm, jobs.c.name == name)
    return connection.execute(wanted).scalar()


def _job_for(connection: sa.Connection, firm: str, name: str) -> str:
    known = _job_named(connection, firm, name)
    return known or _insert(connection, jobs, firm, {"name": name}, name=name)


def _insert(
    connection: sa.Connection, table: sa.Table, firm: str, document: dict[str, Any], **also: str
) -> str:
    id_, at = f"{_kind(table)}-{secrets.token_hex(8)}", now(connection)
    text = json.dumps(document, ensure_ascii=False)
    connection.execute(
        sa.insert(table).values(
            id=id_, firm=firm, document=text, version=1, created=at, changed=at, **also
        )
    )
    return id_


def _update(
    connection: sa.Connection, table: sa.Table, id_: str, document: dict[str, Any], **also: str
) -> None:
    connection.execute(
        sa.update(table)
        .where(table.c.id == id_)
        .values(
            document=json.dumps(document, ensure_ascii=False),
            version=table.c.version + 1,
            changed=now(connection),
            **also,
        )
    )


def _kind(table: sa.Table) -> str:
    return {"price_books": "price book", "batches": "batch"}.get(
        table.name, table.name.removesuffix("s")
    )
