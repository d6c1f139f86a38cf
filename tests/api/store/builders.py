"""Work for the store without solving: plans that use and leave what a test says."""

from __future__ import annotations

import copy
import json
from collections import Counter
from collections.abc import Collection, Iterable
from typing import Any

import sqlalchemy as sa

from api.examples import CHECK_EXAMPLE
from api.store import ledger, plans, runs
from api.store.engine import Store
from api.store.ledger import Entry, Piece
from api.store.plans import Made
from api.store.runs import Asked, Claim, Progress
from api.store.tables import rack_events

WOOD = "c16-38x63"
BY_HAND = Entry(who="tester", why="put there")


def a_length(label: str = "", *, material: str = WOOD, length: int = 11_300) -> Piece:
    return Piece(
        label=label, material=material, length=length, width=None, height=None, place="van"
    )


def rack_up(store: Store, firm: str, found: Iterable[Piece]) -> tuple[str, ...]:
    with store.write() as connection:
        return tuple(piece.label for piece in ledger.put_up(connection, firm, found, BY_HAND))


def an_ask(*, materials: Collection[str] | None = (WOOD,), **changes: Any) -> Asked:
    asked: dict[str, Any] = {
        "kind": "request",
        "document": "{}",
        "body_hash": "h",
        "seconds": 1.0,
        "who": "tester",
    }
    return Asked(**{**asked, "materials": materials, **changes})


def ask(store: Store, firm: str, *, owner: str = "worker", **changes: Any) -> Claim:
    with store.write() as connection:
        _, claim = runs.ask(connection, firm, an_ask(**changes), owner=owner)
    assert claim is not None
    return claim


def held(store: Store, claim: Claim) -> tuple[str, ...]:
    with store.read() as connection:
        found = ledger.held_by(connection, claim.firm, claim.plan)
    return tuple(piece.label for piece in found)


def a_made(*, used: Collection[str] = (), left: int = 1, material: str = WOOD) -> Made:
    """Describe a plan that uses these offcuts and leaves so many new ones of 394 mm."""
    document = copy.deepcopy(CHECK_EXAMPLE["plan"])
    lengths = document["lengths"][0]
    lengths["material"] = material
    lengths["layouts"][0]["count"] = max(left, 1)
    lengths["layouts"][0]["offcuts"] = [{"start_mm": 2006, "length_mm": 394}] if left else []
    return Made(
        request=json.dumps(CHECK_EXAMPLE["request"]),
        plan=json.dumps(document),
        extra="{}",
        pictures=(),
        order=None,
        order_csv=None,
        offcuts_used=frozenset(used),
        progress=Progress(cost=360, bound=360, layouts=1, spent=0.1),
    )


def a_draft(store: Store, firm: str, *, use: int = 1, left: int = 1) -> tuple[str, tuple[str, ...]]:
    """Make a draft that holds `use` of the free offcuts; return its plan and their labels."""
    claim = ask(store, firm)
    used = held(store, claim)[:use]
    plans.finish(store, claim, a_made(used=used, left=left))
    return claim.plan, used


def free(store: Store, firm: str) -> set[str]:
    with store.read() as connection:
        return {piece.label for piece in ledger.pieces(connection, firm) if piece.held_by is None}


def require_balance(store: Store, firm: str) -> None:
    """Add the ledger up line by line: no piece twice on the rack, none held twice or off it."""
    with store.read() as connection:
        lines = connection.execute(
            sa.select(rack_events).where(rack_events.c.firm == firm).order_by(rack_events.c.id)
        ).all()
    on_rack: Counter[str] = Counter()
    held_now: Counter[str] = Counter()
    steps: Counter[str] = Counter()
    holder: dict[str, str] = {}
    for line in lines:
        steps[line.label] += 1
        assert line.seq == steps[line.label]
        if line.kind == "reserved":
            assert line.plan is not None
            holder[line.label] = line.plan
        elif line.kind in ("released", "used"):
            assert holder.pop(line.label) == line.plan, line
        on_rack[line.label] += line.on_rack
        held_now[line.label] += line.held
        assert 0 <= held_now[line.label] <= on_rack[line.label] <= 1, line
        assert held_now[line.label] == (line.label in holder)
