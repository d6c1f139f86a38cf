"""Stores, each on SQLite and on PostgreSQL; and kernels compiled once, outside small budgets."""

from __future__ import annotations

import itertools
import shutil
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
        # The SQLite half runs everywhere; .ci/run installs the server for this one.
        pytest.skip(HOW)
    with postgres_server(programs) as folder:
        yield folder


@pytest.fixture(scope="session")
def migrated_file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Bring one file up to date; each test takes a copy, which is much quicker."""
    file = tmp_path_factory.mktemp("migrated") / "store.db"
    _migrate(f"sqlite:///{file}")
    return file


@pytest.fixture(scope="session")
def migrated_database(postgres: Path) -> str:
    """Bring one database up to date; each test takes a copy."""
    _migrate(new_database(postgres, "migrated"))
    return "migrated"


def _migrate(url: str) -> None:
    store = Store(url)
    migrate(store)
    store.close()


@pytest.fixture(params=["sqlite", "postgresql"])
def store_url(request: pytest.FixtureRequest, tmp_path: Path) -> str:
    if request.param == "sqlite":
        shutil.copy(request.getfixturevalue("migrated_file"), tmp_path / "store.db")
        return f"sqlite:///{tmp_path / 'store.db'}"
    template = request.getfixturevalue("migrated_database")
    folder = request.getfixturevalue("postgres")
    return new_database(folder, f"test{next(_numbers)}", template=template)


@pytest.fixture
def store(store_url: str) -> Iterator[Store]:
    made = Store(store_url)
    yield made
    made.close()


@pytest.fixture
def firm(store: Store) -> str:
    with store.write() as connection:
        return local_firm(connection)
