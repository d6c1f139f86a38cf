"""What became of offcuts, as the ledger tells it."""

from __future__ import annotations

from api.store import ledger, plans
from api.store.engine import Store
from api.store.lives import lives_of
from optimiser import day_number
from tests.api.store.builders import BY_HAND, a_draft, a_length, rack_up


def fates(store: Store, firm: str) -> list[tuple[bool, bool]]:
    """Return for each piece whether it is gone and whether it was used."""
    return [(life.ended is not None, life.used) for life in lives_of(store, firm)[0]]


def test_a_piece_lies_there_from_the_day_it_was_racked(store: Store, firm: str) -> None:
    rack_up(store, firm, [a_length("R1")])

    (life,), today = lives_of(store, firm)

    assert (life.racked, life.ended, life.used) == (today, None, False)
    assert day_number("2026-01-01") < today


def test_a_confirmed_plan_used_its_pieces_and_an_undone_one_did_not(
    store: Store, firm: str
) -> None:
    rack_up(store, firm, [a_length("R1")])
    plan, _ = a_draft(store, firm)
    with store.write() as connection:
        plans.confirm(connection, firm, plan, who="tester")
    assert (True, True) in fates(store, firm)

    with store.write() as connection:
        plans.undo(connection, firm, plan, who="tester")
    assert (True, True) not in fates(store, firm)


def test_a_scrapped_piece_is_gone_unused(store: Store, firm: str) -> None:
    rack_up(store, firm, [a_length("R1")])
    with store.write() as connection:
        ledger.correct(connection, firm, "R1", "scrapped", BY_HAND)

    assert fates(store, firm) == [(True, False)]


def test_another_firms_pieces_are_not_told(store: Store, firm: str) -> None:
    rack_up(store, firm, [a_length("R1")])

    assert lives_of(store, "firm-other")[0] == ()
