"""The rack's ledger: the rack is the sum of its events, and a piece is held by one plan at most."""

from __future__ import annotations

import pytest
import sqlalchemy as sa

from api.store import ledger, plans
from api.store.engine import Store
from api.store.ledger import Entry
from api.store.refusals import Conflict, Missing, Stale
from api.store.tables import rack_events
from tests.api.store.builders import (
    BY_HAND,
    WOOD,
    a_draft,
    a_length,
    a_made,
    ask,
    free,
    held,
    rack_up,
    require_balance,
)


def kinds(store: Store, firm: str, label: str) -> list[str]:
    with store.read() as connection:
        return [line.kind for line in ledger.events(connection, firm, label=label)]


def test_a_piece_without_a_label_gets_the_next_that_was_never_used(store: Store, firm: str) -> None:
    rack_up(store, firm, [a_length("R2")])

    assert rack_up(store, firm, [a_length(), a_length()]) == ("R1", "R3")


def test_a_label_is_never_used_twice_even_when_its_piece_is_gone(store: Store, firm: str) -> None:
    rack_up(store, firm, [a_length("R14")])
    with store.write() as connection:
        ledger.correct(connection, firm, "R14", "scrapped", BY_HAND)

    with pytest.raises(Conflict, match="R14 was on the rack before"):
        rack_up(store, firm, [a_length("A"), a_length("R14")])
    assert free(store, firm) == set()


def test_each_event_says_who_when_why_and_for_which_plan(store: Store, firm: str) -> None:
    rack_up(store, firm, [a_length("R1")])
    plan, _ = a_draft(store, firm)

    with store.read() as connection:
        racked, reserved = ledger.events(connection, firm, label="R1")

    assert (racked.who, racked.why, racked.plan) == ("tester", "put there", None)
    assert (reserved.kind, reserved.plan, reserved.why) == ("reserved", plan, "to be planned")
    assert 0 < racked.at <= reserved.at


def test_what_one_plan_holds_no_other_is_offered(store: Store, firm: str) -> None:
    rack_up(store, firm, [a_length("R1"), a_length("R2")])
    first = ask(store, firm)

    second = ask(store, firm)

    assert (held(store, first), held(store, second)) == (("R1", "R2"), ())


def test_a_plan_is_offered_pieces_of_its_own_materials_only(store: Store, firm: str) -> None:
    rack_up(store, firm, [a_length("R1"), a_length("R2", material="mdf")])

    assert held(store, ask(store, firm, materials=("mdf", "pine"))) == ("R2",)


def test_a_finished_plan_lets_go_of_what_it_does_not_use(store: Store, firm: str) -> None:
    rack_up(store, firm, [a_length("R1"), a_length("R2")])

    plan, used = a_draft(store, firm, use=1)

    assert used == ("R1",)
    assert free(store, firm) == {"R2"}
    with store.read() as connection:
        assert [piece.label for piece in ledger.held_by(connection, firm, plan)] == ["R1"]
    require_balance(store, firm)


def test_confirming_uses_the_offcuts_and_racks_the_new_ones(store: Store, firm: str) -> None:
    rack_up(store, firm, [a_length("A")])
    plan, _ = a_draft(store, firm, left=2)

    with store.write() as connection:
        new = plans.confirm(connection, firm, plan, who="fitter", place="shelf 3")

    assert [(piece.label, piece.length, piece.place) for piece in new] == [
        ("R1", 3940, "shelf 3"),
        ("R2", 3940, "shelf 3"),
    ]
    assert free(store, firm) == {"R1", "R2"}
    assert kinds(store, firm, "A") == ["racked", "reserved", "used"]
    require_balance(store, firm)


def test_undoing_reverses_by_events_and_forgets_nothing(store: Store, firm: str) -> None:
    rack_up(store, firm, [a_length("A")])
    plan, _ = a_draft(store, firm)
    with store.write() as connection:
        plans.confirm(connection, firm, plan, who="fitter")

    with store.write() as connection:
        plans.undo(connection, firm, plan, who="office")

    assert free(store, firm) == {"A"}
    assert kinds(store, firm, "A") == ["racked", "reserved", "used", "adjusted"]
    assert kinds(store, firm, "R1") == ["racked", "adjusted"]
    require_balance(store, firm)


def test_a_plan_whose_new_offcuts_are_in_use_is_not_undone(store: Store, firm: str) -> None:
    rack_up(store, firm, [a_length("A")])
    plan, _ = a_draft(store, firm)
    with store.write() as connection:
        plans.confirm(connection, firm, plan, who="fitter")
    a_draft(store, firm, use=1)

    with pytest.raises(Conflict, match="R1: is held by a plan"), store.write() as connection:
        plans.undo(connection, firm, plan, who="office")

    assert free(store, firm) == set()
    require_balance(store, firm)


@pytest.mark.parametrize("step", ["confirm", "undo", "drop"])
def test_a_plan_takes_no_step_twice(store: Store, firm: str, step: str) -> None:
    rack_up(store, firm, [a_length("A")])
    plan, _ = a_draft(store, firm)
    act = getattr(plans, step)
    with store.write() as connection:
        if step == "undo":
            plans.confirm(connection, firm, plan, who="fitter")
        act(connection, firm, plan, who="fitter")

    with pytest.raises(Conflict, match="Only a plan that is"), store.write() as connection:
        act(connection, firm, plan, who="fitter")
    require_balance(store, firm)


def test_a_change_made_on_an_older_version_is_refused(store: Store, firm: str) -> None:
    rack_up(store, firm, [a_length("A")])
    plan, _ = a_draft(store, firm)

    with pytest.raises(Stale, match="version 1 of"), store.write() as connection:
        plans.confirm(connection, firm, plan, who="van", version=1)


def test_dropping_a_draft_frees_its_offcuts(store: Store, firm: str) -> None:
    rack_up(store, firm, [a_length("A")])
    plan, _ = a_draft(store, firm)

    with store.write() as connection:
        plans.drop(connection, firm, plan, who="office")

    assert free(store, firm) == {"A"}
    require_balance(store, firm)


@pytest.mark.parametrize(
    ("before", "kind", "trouble"),
    [
        ((), "found", "is on the rack already"),
        (("scrapped",), "scrapped", "is no longer on the rack"),
        (("lost",), "scrapped", "is no longer on the rack"),
    ],
)
def test_a_correction_that_cannot_be_is_refused(
    store: Store, firm: str, before: tuple[str, ...], kind: str, trouble: str
) -> None:
    rack_up(store, firm, [a_length("A")])
    for earlier in before:
        with store.write() as connection:
            ledger.correct(connection, firm, "A", earlier, BY_HAND)

    with pytest.raises(Conflict, match=trouble), store.write() as connection:
        ledger.correct(connection, firm, "A", kind, BY_HAND)
    require_balance(store, firm)


def test_a_piece_that_a_plan_holds_cannot_be_scrapped(store: Store, firm: str) -> None:
    rack_up(store, firm, [a_length("A")])
    a_draft(store, firm)

    with pytest.raises(Conflict, match="is held by a plan"), store.write() as connection:
        ledger.correct(connection, firm, "A", "scrapped", BY_HAND)


def test_what_was_lost_can_be_found_again(store: Store, firm: str) -> None:
    rack_up(store, firm, [a_length("A")])
    for kind in ("lost", "found"):
        with store.write() as connection:
            ledger.correct(connection, firm, "A", kind, Entry(who="yard", why="stock-taking"))

    assert free(store, firm) == {"A"}
    assert kinds(store, firm, "A") == ["racked", "adjusted", "adjusted"]


def test_an_unknown_label_is_missing(store: Store, firm: str) -> None:
    with pytest.raises(Missing, match="no offcut 'X'"), store.write() as connection:
        ledger.correct(connection, firm, "X", "lost", BY_HAND)


def test_the_database_itself_refuses_two_events_with_one_number(store: Store, firm: str) -> None:
    rack_up(store, firm, [a_length("A")])
    line = {"firm": firm, "label": "A", "seq": 1, "kind": "scrapped", "on_rack": -1, "held": 0}

    with pytest.raises(sa.exc.IntegrityError), store.write() as connection:
        connection.execute(sa.insert(rack_events).values(**line, who="x", at=1.0, why="x"))


def test_a_rack_of_more_pieces_than_one_statement_takes_is_held_whole(
    store: Store, firm: str
) -> None:
    rack_up(store, firm, [a_length() for _ in range(900)])

    claim = ask(store, firm)
    assert len(held(store, claim)) == 900
    plans.finish(store, claim, a_made())

    assert len(free(store, firm)) == 900
    require_balance(store, firm)


def test_the_ledgers_pieces_are_a_rack_that_the_planner_takes(store: Store, firm: str) -> None:
    rack_up(store, firm, [a_length("A", length=11_305)])

    with store.read() as connection:
        rack = ledger.as_rack(ledger.pieces(connection, firm))

    assert [(name, piece.id, piece.length) for name, piece in rack.lengths] == [(WOOD, "A", 11_305)]
