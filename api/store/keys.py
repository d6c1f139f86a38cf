"""Firms and their keys. A key is shown once, when it is made; only its hash is kept."""

from __future__ import annotations

import hashlib
import secrets
from collections.abc import Collection
from dataclasses import dataclass

import sqlalchemy as sa

from api.store.engine import now
from api.store.refusals import Missing
from api.store.tables import firms, keys
from optimiser import InvalidInput, Problem

ROLES = ("read", "plan", "order", "admin")
LOCAL_FIRM = "firm-local"


@dataclass(frozen=True, slots=True, kw_only=True)
class Key:
    """Who calls: a key's id, name, firm and roles. Never the key itself."""

    id: str
    firm: str
    firm_name: str
    name: str
    roles: frozenset[str]
    created: float
    revoked: float | None


def local_firm(connection: sa.Connection) -> str:
    """Return the one firm of a machine that asks for no keys, made when first needed."""
    known = connection.execute(sa.select(firms.c.id).where(firms.c.id == LOCAL_FIRM)).scalar()
    if known is None:
        # Two services may start at once on one database.
        connection.execute(
            sa.text(
                "INSERT INTO firms (id, name, created) VALUES (:id, 'this machine', :created)"
                " ON CONFLICT DO NOTHING"
            ),
            {"id": LOCAL_FIRM, "created": now(connection)},
        )
    return LOCAL_FIRM


def firm_name(connection: sa.Connection, firm: str) -> str:
    """Return what a firm is called."""
    found = connection.execute(sa.select(firms.c.name).where(firms.c.id == firm)).scalar_one()
    return str(found)


def make_key(connection: sa.Connection, *, firm: str, name: str, roles: Collection[str]) -> str:
    """Make a key for a firm, named by its name and made when new; return the key."""
    problems = [
        Problem("--roles", f"{role!r} is not a role", f"Give some of {', '.join(ROLES)}")
        for role in roles
        if role not in ROLES
    ]
    for field, text in (("--firm", firm), ("--name", name)):
        if not text.strip() or len(text) > 200 or not text.isprintable():
            problems.append(Problem(field, f"{text!r} is no name", "Give 1 to 200 letters"))
    if not roles:
        problems.append(Problem("--roles", "is empty", f"Give some of {', '.join(ROLES)}"))
    if problems:
        raise InvalidInput(tuple(problems))
    id_ = connection.execute(sa.select(firms.c.id).where(firms.c.name == firm)).scalar()
    if id_ is None:
        id_ = f"firm-{secrets.token_hex(8)}"
        connection.execute(sa.insert(firms).values(id=id_, name=firm, created=now(connection)))
    key = f"sk_{secrets.token_urlsafe(32)}"
    connection.execute(
        sa.insert(keys).values(
            id=f"key-{secrets.token_hex(4)}",
            firm=id_,
            name=name,
            hash=_hash(key),
            roles=",".join(role for role in ROLES if role in roles),
            created=now(connection),
        )
    )
    return key


def list_keys(connection: sa.Connection) -> tuple[Key, ...]:
    """Return all keys of all firms, revoked ones too."""
    rows = connection.execute(_known().order_by(firms.c.name, keys.c.created))
    return tuple(map(_key, rows))


def revoke_key(connection: sa.Connection, id_: str) -> None:
    """Make a key worthless from now on. Raises Missing."""
    done = connection.execute(
        sa.update(keys)
        .where(keys.c.id == id_)
        .values(revoked=sa.func.coalesce(keys.c.revoked, now(connection)))
    )
    if done.rowcount == 0:
        raise Missing("key", id_)


def key_of(connection: sa.Connection, key: str) -> Key | None:
    """Return who a key belongs to; None when it is unknown or revoked."""
    # A key has 256 random bits: a plain hash cannot be guessed back, and can be looked up.
    row = connection.execute(
        _known().where(keys.c.hash == _hash(key), keys.c.revoked.is_(None))
    ).first()
    return None if row is None else _key(row)


def _known() -> sa.Select[tuple[object, ...]]:
    return sa.select(keys, firms.c.name.label("firm_name")).join(firms, firms.c.id == keys.c.firm)


def _key(row: sa.Row[tuple[object, ...]]) -> Key:
    return Key(
        id=row.id,
        firm=row.firm,
        firm_name=row.firm_name,
        name=row.name,
        roles=frozenset(row.roles.split(",")),
        created=row.created,
        revoked=row.revoked,
    )


def _hash(key: str) -> str:
    return hashlib.sha256(key.encode()).hexdigest()
