"""The whole store as one file of lines, taken in one transaction; the same for every database.

So a backup of SQLite can be restored to PostgreSQL, and the other way round: that is also how a
firm moves.
"""

from __future__ import annotations

import base64
import gzip
import json
from pathlib import Path
from typing import Any

import sqlalchemy as sa

from api.store.engine import Store
from api.store.tables import metadata
from optimiser import InvalidInput, Problem

_FORM = "scantling backup 1"
_AT_ONCE = 500


def back_up(store: Store, file: Path) -> int:
    """Write every row of every table; return how many. Never over a file that is there."""
    rows = 0
    part = file.with_name(file.name + ".part")
    if file.exists():
        remedy = "Give another name, or move the file away first"
        raise InvalidInput((Problem(str(file), "is there already", remedy),))
    with gzip.open(part, "wt", encoding="utf-8") as text, store.read(as_one=True) as connection:
        text.write(json.dumps({"form": _FORM, "version": _version(connection)}) + "\n")
        for table in metadata.sorted_tables:
            wanted = sa.select(table).order_by(*table.primary_key.columns)
            for row in connection.execute(wanted).mappings():
                text.write(json.dumps({"table": table.name, "row": _plain(dict(row))}) + "\n")
                rows += 1
        # Without this last line the file was cut off.
        text.write(json.dumps({"rows": rows}) + "\n")
    part.replace(file)
    return rows


def restore(store: Store, file: Path) -> int:
    """Fill an empty store from a backup, all of it or nothing; return the number of rows.

    Raises InvalidInput when the store is not empty or the file is no whole backup.
    """
    try:
        with gzip.open(file, "rt", encoding="utf-8") as text:
            head, *lines = [json.loads(line) for line in text]
            rows = int(lines[-1]["rows"])
        if head["form"] != _FORM or rows != len(lines) - 1:
            raise KeyError
    except (EOFError, gzip.BadGzipFile, ValueError, KeyError, IndexError, TypeError):
        remedy = "Take a file that backup wrote to its end"
        raise InvalidInput((Problem(str(file), "is no whole backup", remedy),)) from None
    with store.write() as connection:
        _require_room(connection, head["version"], str(file))
        for table in metadata.sorted_tables:
            found = [_typed(line["row"]) for line in lines[:-1] if line["table"] == table.name]
            for start in range(0, len(found), _AT_ONCE):
                connection.execute(sa.insert(table), found[start : start + _AT_ONCE])
        if not store.is_sqlite:
            _count_on(connection)
    return rows


def _require_room(connection: sa.Connection, version: str, file: str) -> None:
    if version != _version(connection):
        remedy = "Restore it with the version of the program that wrote it, then update"
        raise InvalidInput((Problem(file, f"is of another version ({version})", remedy),))
    for table in metadata.sorted_tables:
        if connection.execute(sa.select(sa.func.count()).select_from(table)).scalar_one():
            remedy = "Restore to a new store; the one in use is never written over"
            raise InvalidInput((Problem("--store", "is not empty", remedy),))


def _count_on(connection: sa.Connection) -> None:
    """Let PostgreSQL's counters go on after the numbers that were restored."""
    for name in ("rack_events", "audit"):
        connection.execute(
            sa.text(
                f"SELECT setval(pg_get_serial_sequence('{name}', 'id'),"
                f" (SELECT coalesce(max(id), 0) + 1 FROM {name}), false)"
            )
        )


def _version(connection: sa.Connection) -> str:
    return str(connection.execute(sa.text("SELECT version_num FROM alembic_version")).scalar_one())


def _plain(row: dict[str, Any]) -> dict[str, Any]:
    return {
        name: {"base64": base64.b64encode(value).decode()} if isinstance(value, bytes) else value
        for name, value in row.items()
    }


def _typed(row: dict[str, Any]) -> dict[str, Any]:
    return {
        name: base64.b64decode(value["base64"]) if isinstance(value, dict) else value
        for name, value in row.items()
    }
