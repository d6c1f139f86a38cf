"""Stores, each on SQLite and on PostgreSQL; and kernels compiled once, outside small budgets."""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from pathlib import Path

import pytest

from api.store.engine import Store
from api.store.keys import local_firm
from api.store.migrate import migrate
from optimiser.solvers.warm import warm
from tests.api.databases import HOW, new_database, postgres_programs, postgres_server

_numbers = itertools.count()


@pytest.fixture(scope="session", autouse=True)
def _warm_kernels() -> None:
    warm()


@pytest.fixture(scope="session")
def postgres() -> Iterator[Path]:
    programs = postgres_programs()
    if programs is None:
        pytest.skip(HOW)
    with postgres_server(programs) as folder:
        yield folder


@pytest.fixture(params=["sqlite", "postgresql"])
def store_url(request: pytest.FixtureRequest, tmp_path: Path) -> str:
    if request.param == "sqlite":
        return f"sqlite:///{tmp_path / 'store.db'}"
    return new_database(request.getfixturevalue("postgres"), f"test{next(_numbers)}")


@pytest.fixture
def store(store_url: str) -> Iterator[Store]:
    made = Store(store_url)
    migrate(made)
    yield made
    made.close()


@pytest.fixture
def firm(store: Store) -> str:
    with store.write() as connection:
        return local_firm(connection)
