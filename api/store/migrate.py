"""Brings a database to the tables this version knows, step by step (Alembic)."""

from __future__ import annotations

from pathlib import Path

import sqlalchemy as sa

from api.store.engine import Store
from optimiser import InvalidInput, Problem

_STEPS = Path(__file__).parent / "migrations"
# Any number that nothing else in the database takes: two services may start at once.
_LOCK = 5_226_007


def migrate(store: Store) -> None:
    """Bring the store up to date. Raises InvalidInput when it cannot be opened or is newer."""
    from alembic.util.exc import CommandError

    try:
        with store.write() as connection:
            if not store.is_sqlite:
                connection.execute(sa.text("SELECT pg_advisory_xact_lock(:n)"), {"n": _LOCK})
            if _is_current(connection):
                return
            _upgrade(connection)
    except CommandError:
        trouble = "was written by a newer version of the program"
        remedy = "Update the program, or restore an older backup"
        raise InvalidInput((Problem("--store", trouble, remedy),)) from None
    except sa.exc.DBAPIError as fault:
        trouble = f"cannot be opened: {str(fault.orig).splitlines()[0]}"
        remedy = "Check that the database is there, running, and yours to write"
        raise InvalidInput((Problem("--store", trouble, remedy),)) from None


def _is_current(connection: sa.Connection) -> bool:
    """Look without Alembic's set-up, so that starting on a current store is quick."""
    newest = sorted(path.stem.split("_")[0] for path in (_STEPS / "versions").glob("v*.py"))[-1]
    if not sa.inspect(connection).has_table("alembic_version"):
        return False
    found = connection.execute(sa.text("SELECT version_num FROM alembic_version")).scalar()
    return bool(found == newest)


def _upgrade(connection: sa.Connection) -> None:
    from alembic import command
    from alembic.config import Config

    config = Config()
    config.set_main_option("script_location", str(_STEPS).replace("%", "%%"))
    config.attributes["connection"] = connection
    command.upgrade(config, "head")
