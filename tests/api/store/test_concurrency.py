"""Fifty clients in five processes want the same offcuts: each is cut once, and none is lost."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import sqlalchemy as sa

from api.store.engine import Store
from api.store.tables import rack_events
from tests.api.store.builders import a_length, rack_up, require_balance
from tests.api.store.clients import CLIENTS

ROOT = Path(__file__).parents[3]
PROCESSES = 5
PIECES = 20


def test_fifty_clients_never_get_the_same_offcut(store: Store, firm: str, store_url: str) -> None:
    assert PROCESSES * CLIENTS == 50
    labels = rack_up(store, firm, [a_length() for _ in range(PIECES)])

    command = [sys.executable, "-m", "tests.api.store.clients", store_url, firm]
    at_work = [
        subprocess.Popen([*command, str(number)], cwd=ROOT, stdout=subprocess.PIPE, text=True)
        for number in range(PROCESSES)
    ]
    taken = [label for process in at_work for label in process.communicate()[0].split()]

    assert [process.returncode for process in at_work] == [0] * PROCESSES
    assert sorted(taken) == sorted(labels)
    with store.read() as connection:
        used = connection.execute(
            sa.select(rack_events.c.label).where(rack_events.c.kind == "used")
        ).scalars()
        assert sorted(used) == sorted(labels)
    require_balance(store, firm)
