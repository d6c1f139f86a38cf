"""Whatever order things are done in, the rack is what a simple list of it would say."""

from __future__ import annotations

import secrets
from dataclasses import dataclass, field

import pytest
import sqlalchemy as sa
from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import (
    RuleBasedStateMachine,
    invariant,
    precondition,
    rule,
    run_state_machine_as_test,
)

from api.store import ledger, plans, runs
from api.store.engine import Store
from api.store.refusals import Conflict
from api.store.runs import Claim
from api.store.tables import firms
from tests.api.store.builders import (
    BY_HAND,
    a_length,
    a_made,
    an_ask,
    ask,
    held,
    rack_up,
    require_balance,
)


@dataclass
class Kept:
    """What the simple list knows of a plan."""

    state: str
    holds: set[str] = field(default_factory=set)
    used: set[str] = field(default_factory=set)
    made: set[str] = field(default_factory=set)


class Yard(RuleBasedStateMachine):
    """One firm: its pieces by label with their holder, its plans, its runs under way."""

    store: Store

    def __init__(self) -> None:
        super().__init__()
        self.firm = secrets.token_hex(8)
        with self.store.write() as connection:
            made = sa.insert(firms).values(id=self.firm, name=self.firm, created=0.0)
            connection.execute(made)
        self.rack: dict[str, str | None] = {}
        self.gone: set[str] = set()
        self.plans: dict[str, Kept] = {}
        self.claims: list[Claim] = []

    @rule(number=st.integers(1, 3))
    def put_up(self, number: int) -> None:
        labels = rack_up(self.store, self.firm, [a_length() for _ in range(number)])
        assert not set(labels) & (set(self.rack) | self.gone)
        self.rack |= dict.fromkeys(labels)

    @rule()
    def begin(self) -> None:
        claim = ask(self.store, self.firm)
        free = {label for label, holder in self.rack.items() if holder is None}
        assert set(held(self.store, claim)) == free
        self.rack |= dict.fromkeys(free, claim.plan)
        self.plans[claim.plan] = Kept("planning", holds=free)
        self.claims.append(claim)

    @precondition(lambda self: self.claims)
    @rule(data=st.data(), left=st.integers(0, 2))
    def finish(self, data: st.DataObject, left: int) -> None:
        claim = self.claims.pop(data.draw(st.integers(0, len(self.claims) - 1)))
        kept = self.plans[claim.plan]
        used = data.draw(st.sets(st.sampled_from(sorted(kept.holds)))) if kept.holds else set()
        plans.finish(self.store, claim, a_made(used=used, left=left))
        self.rack |= dict.fromkeys(kept.holds - used)
        self.plans[claim.plan] = Kept("draft", holds=used)

    @precondition(lambda self: self.claims)
    @rule()
    def fail(self) -> None:
        claim = self.claims.pop()
        runs.end_without_plan(self.store, claim, ())
        kept = self.plans.pop(claim.plan)
        self.rack |= dict.fromkeys(kept.holds)

    @rule()
    def cancel_in_the_queue(self) -> None:
        with self.store.write() as connection:
            run, _ = runs.ask(connection, self.firm, an_ask())
            runs.cancel(connection, self.firm, run, who="office")

    @precondition(lambda self: self.plans)
    @rule(data=st.data(), step=st.sampled_from(["confirm", "undo", "drop"]))
    def step(self, data: st.DataObject, step: str) -> None:
        plan = data.draw(st.sampled_from(sorted(self.plans)))
        kept = self.plans[plan]
        wanted = "confirmed" if step == "undo" else "draft"
        in_use = any(self.rack.get(label, "gone") is not None for label in kept.made)
        allowed = kept.state == wanted and not (step == "undo" and in_use)
        try:
            with self.store.write() as connection:
                new = getattr(plans, step)(connection, self.firm, plan, who="tester")
        except Conflict:
            assert not allowed
            return
        assert allowed
        if step == "confirm":
            made = {piece.label for piece in new}
            self._take(kept.holds)
            self.rack |= dict.fromkeys(made)
            self.plans[plan] = Kept("confirmed", used=kept.holds, made=made)
        elif step == "undo":
            self._take(kept.made)
            self.rack |= dict.fromkeys(kept.used)
            self.gone -= kept.used
            del self.plans[plan]
        else:
            self.rack |= dict.fromkeys(kept.holds)
            del self.plans[plan]

    @precondition(lambda self: self.rack)
    @rule(data=st.data(), kind=st.sampled_from(["scrapped", "lost"]))
    def take_away(self, data: st.DataObject, kind: str) -> None:
        label = data.draw(st.sampled_from(sorted(self.rack)))
        try:
            with self.store.write() as connection:
                ledger.correct(connection, self.firm, label, kind, BY_HAND)
        except Conflict:
            assert self.rack[label] is not None
            return
        assert self.rack[label] is None
        self._take({label})

    def _take(self, labels: set[str]) -> None:
        self.gone |= labels
        for label in labels:
            del self.rack[label]

    @invariant()
    def the_rack_is_what_the_list_says(self) -> None:
        with self.store.read() as connection:
            found = ledger.pieces(connection, self.firm)
        assert {piece.label: piece.held_by for piece in found} == self.rack

    @invariant()
    def the_books_balance(self) -> None:
        require_balance(self.store, self.firm)


def test_the_rack_is_the_sum_of_its_events_in_any_order(store: Store) -> None:
    machine = type("AYard", (Yard,), {"store": store})

    run_state_machine_as_test(machine, settings=settings(max_examples=20, stateful_step_count=20))


def test_the_list_would_notice_a_ledger_that_forgets_to_let_go(
    store: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Show that the comparison above can fail."""
    machine = type("AYard", (Yard,), {"store": store})()
    machine.put_up(number=2)
    machine.begin()
    (claim,) = machine.claims
    monkeypatch.setattr("api.store.plans.release", lambda *_, **__: None)

    plans.finish(store, claim, a_made())
    machine.rack |= dict.fromkeys(machine.plans[claim.plan].holds)

    with pytest.raises(AssertionError):
        machine.the_rack_is_what_the_list_says()
