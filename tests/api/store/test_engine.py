"""A read asks PostgreSQL for nothing but what it wants to know; dead connections are replaced."""

from __future__ import annotations

from pathlib import Path

import psycopg
import pytest
import sqlalchemy as sa

from api.store import engine
from api.store.engine import Store

only_postgresql = pytest.mark.parametrize("store_url", ["postgresql"], indirect=True)


def ask(store: Store, question: str = "SELECT 1", *, as_one: bool = False) -> object:
    with store.read(as_one=as_one) as connection:
        return connection.execute(sa.text(question)).scalar_one()


def trips(store: Store, log: Path, *, as_one: bool = False) -> int:
    """Count how often a read of one question waits for the server, as the driver's own trace says.

    The server ends each of its turns with ReadyForQuery (PostgreSQL's manual, Message Flow).
    """
    ask(store)
    with store.read() as connection:
        held = connection.connection.driver_connection
    assert isinstance(held, psycopg.Connection)
    with log.open("w", encoding="utf-8") as file:
        held.pgconn.trace(file.fileno())
        ask(store, as_one=as_one)
        held.pgconn.untrace()
    return log.read_text(encoding="utf-8").count("ReadyForQuery")


@only_postgresql
def test_a_read_of_one_question_is_one_way_there_and_back(store: Store, tmp_path: Path) -> None:
    assert trips(store, tmp_path / "trace") == 1


@only_postgresql
def test_a_read_of_one_state_of_everything_is_a_transaction(store: Store, tmp_path: Path) -> None:
    assert trips(store, tmp_path / "trace", as_one=True) == 3
    assert ask(store, "SHOW transaction_isolation", as_one=True) == "repeatable read"
    assert ask(store, "SHOW transaction_isolation") == "read committed"


@only_postgresql
def test_what_is_read_as_one_does_not_change_meanwhile(store: Store) -> None:
    with store.write() as connection:
        connection.execute(sa.text("CREATE TABLE counted (n int)"))
    with store.read(as_one=True) as connection:
        count = sa.text("SELECT count(*) FROM counted")
        assert connection.execute(count).scalar_one() == 0
        with store.write() as other:
            other.execute(sa.text("INSERT INTO counted VALUES (1)"))
        assert connection.execute(count).scalar_one() == 0
    assert ask(store, "SELECT count(*) FROM counted") == 1


@only_postgresql
def test_a_write_after_reads_is_still_all_or_nothing(store: Store) -> None:
    ask(store)
    both = sa.text("CREATE TABLE half (n int)"), sa.text("SELECT 1 / 0")
    with pytest.raises(sa.exc.DataError), store.write() as connection:
        list(map(connection.execute, both))
    assert ask(store, "SELECT to_regclass('half') IS NULL") is True


@only_postgresql
def test_connections_that_were_cut_off_while_idle_are_replaced_unseen(
    store: Store, store_url: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(engine, "FRESH_SECONDS", 0.0)
    with store.read(), store.read():
        pass  # two of them now lie idle
    url = sa.make_url(store_url)
    with psycopg.connect(f"host={url.query['host']} user=postgres", autocommit=True) as server:
        server.execute(
            "SELECT pg_terminate_backend(pid, 5000) FROM pg_stat_activity WHERE datname = %s",
            (url.database,),
        )

    with store.read() as one, store.read() as other:
        assert one.execute(sa.text("SELECT 1")).scalar_one() == 1
        assert other.execute(sa.text("SELECT 2")).scalar_one() == 2
