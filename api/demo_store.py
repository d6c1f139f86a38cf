"""The demo in a store: the invented week as somebody would have typed it in, with its plan.

A store that holds a job is left as it is: what a visitor changed in it is not ours to undo.
"""

from __future__ import annotations

import json
import tomllib
from typing import Any

import sqlalchemy as sa

import optimiser as lib
from api.batch import Batch
from api.demo_run import LISTED, SCENARIO, WALLS
from api.drawings import Drawn
from api.inputs import read_bytes, read_text
from api.solving import made_of_batch
from api.store import ledger, papers, plans, runs
from api.store.engine import Store
from api.store.keys import local_firm
from api.store.ledger import Entry, Piece
from api.store.migrate import migrate
from api.store.plans import Made
from api.store.runs import Asked
from api.store.tables import jobs

BOOKS = {"Demo Merchant": "price-book.toml", "Other Merchant": "other-price-book.toml"}
_WHO = "demo"


def fill_store(url: str, batch: Batch, walls: tuple[Drawn, ...] | None = None) -> bool:
    """Fill a store with the demo's jobs, prices, rack and plan; return whether it was empty.

    `walls` are the drawings of its walls where they have been made.
    """
    store = Store(url)
    migrate(store)
    try:
        with store.write() as connection:
            firm = local_firm(connection)
            if connection.execute(sa.select(jobs.c.id).where(jobs.c.firm == firm)).first():
                return False
            _write_papers(connection, firm)
            pieces = _put_up(connection, firm)
        _keep_plan(store, firm, made_of_batch(batch, pieces, walls), batch)
    finally:
        store.close()
    return True


def _write_papers(connection: sa.Connection, firm: str) -> None:
    for name, file in BOOKS.items():
        book = tomllib.loads(read_text(SCENARIO / file))
        lib.price_book_from_document(book, name=file)
        papers.add_price_book(connection, firm, name, "2026-01-01", book)
    for file in WALLS:
        document = tomllib.loads(read_text(SCENARIO / file))
        papers.add_wall(connection, firm, document["job"], document)
    parts = lib.read_part_list(read_bytes(SCENARIO / LISTED), name=LISTED, job="shelves")
    document = {"needed": "2026-12-14", "parts": lib.part_list_document(parts)}
    papers.list_parts(connection, firm, "shelves", document)


def _put_up(connection: sa.Connection, firm: str) -> tuple[Piece, ...]:
    content = read_bytes(SCENARIO / "rack.csv")
    rack = lib.read_rack(content, name="rack.csv")
    places = dict(line.split(",")[::5] for line in content.decode().splitlines()[1:])
    new = [
        Piece(label=o.id, material=m, length=o.length, width=None, height=None, place=places[o.id])
        for m, o in rack.lengths
    ]
    new += [
        Piece(
            label=o.id,
            material=m,
            length=None,
            width=o.width,
            height=o.height,
            place=places[o.id],
        )
        for m, o in rack.sheets
    ]
    why = Entry(who=_WHO, why="put up by hand")
    return ledger.put_up(connection, firm, new, why)


def _keep_plan(store: Store, firm: str, made: Made, batch: Batch) -> None:
    """Keep the plan that the demo made, as its run would have."""
    asked: dict[str, Any] = {
        "walls": [tomllib.loads(read_text(SCENARIO / file)) for file in WALLS],
        "prices": tomllib.loads(read_text(SCENARIO / BOOKS["Demo Merchant"])),
    }
    materials = [item.material for item in batch.plan.materials]
    with store.write() as connection:
        _, claim = runs.ask(
            connection,
            firm,
            Asked(
                kind="batch",
                document=json.dumps(asked, ensure_ascii=False),
                body_hash="demo",
                seconds=batch.request.seconds,
                who=_WHO,
                materials=materials,
                jobs=tuple(job.name for job in batch.jobs),
            ),
            owner=_WHO,
        )
    assert claim is not None
    plans.finish(store, claim, made)
