"""Brings a database to the tables this version knows: at once when new, else step by step."""

from __future__ import annotations

from pathlib import Path

import sqlalchemy as sa

from api.store.engine import Store
from api.store.tables import metadata
from optimiser import InvalidInput, Problem

_STEPS = Path(__file__).parent / "migrations"
# Any number that nothing else in the database takes: two services may start at once.
_LOCK = 5_226_007


def migrate(store: Store) -> None:
    """Bring the store up to date. Raises InvalidInput when it cannot be opened or is newer.

    A new store gets its tables at once, without Alembic, which takes longer to load than all else;
    tests hold those tables against the ones that the steps lead to.
    """
    try:
        with store.write() as connection:
            if not store.is_sqlite:
                connection.execute(sa.text("SELECT pg_advisory_xact_lock(:n)"), {"n": _LOCK})
            tables = sa.inspect(connection).get_table_names()
            if not tables:
                _make(connection)
            elif not _is_current(connection, tables):
                step_by_step(connection)
    except sa.exc.DBAPIError as fault:
        trouble = f"cannot be opened: {str(fault.orig).splitlines()[0]}"
        remedy = "Check that the database is there, running, and yours to write"
        raise InvalidInput((Problem("--store", trouble, remedy),)) from None


def _newest() -> str:
    return sorted(path.stem.split("_")[0] for path in (_STEPS / "versions").glob("v*.py"))[-1]


def _make(connection: sa.Connection) -> None:
    """Make all tables as they are now, and say so in Alembic's own table."""
    metadata.create_all(connection)
    connection.execute(
        sa.text(
            "CREATE TABLE alembic_version (version_num VARCHAR(32) NOT NULL,"
            " CONSTRAINT alembic_version_pkc PRIMARY KEY (version_num))"
        )
    )
    connection.execute(
        sa.text("INSERT INTO alembic_version (version_num) VALUES (:newest)"),
        {"newest": _newest()},
    )


def _is_current(connection: sa.Connection, tables: list[str]) -> bool:
    if "alembic_version" not in tables:
        return False
    found = connection.execute(sa.text("SELECT version_num FROM alembic_version")).scalar()
    return bool(found == _newest())


def step_by_step(connection: sa.Connection, *, to: str = "head") -> None:
    """Take every step that the database has not taken, up to one; InvalidInput when it is newer."""
    from alembic import command
    from alembic.config import Config
    from alembic.util.exc import CommandError

    config = Config()
    config.set_main_option("script_location", str(_STEPS).replace("%", "%%"))
    config.attributes["connection"] = connection
    try:
        command.upgrade(config, to)
    except CommandError:
        trouble = "was written by a newer version of the program"
        remedy = "Update the program, or restore an older backup"
        raise InvalidInput((Problem("--store", trouble, remedy),)) from None
