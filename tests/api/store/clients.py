"""Ten clients in one process that all want the same offcuts: `python -m … URL FIRM`.

Each takes one piece at a time and confirms it, until the rack is empty of the first pieces.
"""

from __future__ import annotations

import sys
from concurrent.futures import ThreadPoolExecutor

from api.store import ledger, plans, runs
from api.store.engine import Store
from api.store.ledger import pieces
from tests.api.store.builders import a_made, an_ask

CLIENTS = 10


def client(store: Store, firm: str, name: str) -> list[str]:
    taken: list[str] = []
    while True:
        with store.read() as connection:
            rack = [piece for piece in pieces(connection, firm) if piece.place == "van"]
        if not rack:
            return taken
        with store.write() as connection:
            _, claim = runs.ask(connection, firm, an_ask(who=name), owner=name)
        assert claim is not None
        with store.read() as connection:
            held = ledger.held_by(connection, firm, claim.plan)
        used = [piece.label for piece in held][:1]
        plans.finish(store, claim, a_made(used=used, left=0))
        with store.write() as connection:
            if used:
                plans.confirm(connection, firm, claim.plan, who=name)
            else:
                plans.drop(connection, firm, claim.plan, who=name)
        taken += used


if __name__ == "__main__":
    _, url, firm, process = sys.argv
    store = Store(url)
    with ThreadPoolExecutor(CLIENTS) as pool:
        names = [f"{process}.{number}" for number in range(CLIENTS)]
        for got in pool.map(lambda name: client(store, firm, name), names):
            sys.stdout.write("".join(f"{label}\n" for label in got))
