"""Ticks from phones, each once; and after a mishap a plan that goes on, with the books balanced."""

from __future__ import annotations

from typing import Any

import pytest

from api.store.engine import Store
from tests.api.bodies import Caller, a_batch_body, a_service, the_problem
from tests.api.store.builders import require_balance

WOOD = "c16-38x63"


def a_body(**changes: Any) -> dict[str, Any]:
    """Ask for three lengths of 2400 with two parts of 900 each, which leave 594 each."""
    section = {
        "material": WOOD,
        "kerf_mm": 3,
        "stock": [{"id": "2400", "length_mm": 2400, "price": "3.60"}],
        "parts": [{"id": "A/N1", "job": "A", "length_mm": 900, "quantity": 6}],
        **changes,
    }
    keep = {"length_mm": 500, "width_mm": 300, "height_mm": 300, "credit": "0.5"}
    return {"seconds": 0.1, "keep": keep, "lengths": [section]}


@pytest.fixture
def service(store_url: str) -> Caller:
    return Caller(a_service(store=store_url))


def confirmed(service: Caller, body: dict[str, Any]) -> str:
    made = service.post("/v1/plans", body)
    assert made.status_code == 201, made.text
    plan = str(made.json()["id"])
    assert service.post(f"/v1/plans/{plan}/confirm").status_code == 200
    return plan


def tick(name: str, kind: str = "cut", **more: Any) -> dict[str, Any]:
    at = {} if kind == "undo" else {"material": WOOD, "layout": 1, "piece": 1}
    return {"tick": name, "phone": name.split("-")[0], "kind": kind, **at, **more}


def send(service: Caller, plan: str, *ticks: dict[str, Any]) -> dict[str, Any]:
    answer = service.post(f"/v1/plans/{plan}/marks", {"ticks": list(ticks)})
    assert answer.status_code == 200, answer.text
    found = answer.json()
    assert isinstance(found, dict)
    return found


def rack(service: Caller) -> list[tuple[str, str | None]]:
    return [(one["id"], one["held_by"]) for one in service.get("/v1/rack").json()["items"]]


def test_a_tick_sent_twice_is_one(service: Caller) -> None:
    plan = confirmed(service, a_body())
    first = send(service, plan, tick("van-1", cut=1))
    tag = service.get(f"/v1/plans/{plan}/marks").headers["etag"]

    again = send(service, plan, tick("van-1", cut=1), tick("van-2", cut=2), tick("van-2", cut=2))

    assert (first["new"], again["new"]) == (1, 1)
    assert [one["tick"] for one in again["ticks"]] == ["van-1", "van-2"]
    (piece,) = again["pieces"]
    assert (piece["cuts"], piece["done"], piece["spoiled"]) == (2, True, [])
    assert service.get(f"/v1/plans/{plan}/marks", if_none_match=tag).status_code == 200
    tag = service.get(f"/v1/plans/{plan}/marks").headers["etag"]
    assert service.get(f"/v1/plans/{plan}/marks", if_none_match=tag).status_code == 304


def test_an_undo_takes_back_the_tick_it_names_whichever_comes_first(service: Caller) -> None:
    plan = confirmed(service, a_body())

    send(service, plan, tick("van-9", "undo", undoes="van-1"))
    found = send(service, plan, tick("van-1", cut=1), tick("office-1", cut=1))

    assert found["pieces"][0]["cuts"] == 1  # the office's still stands
    found = send(service, plan, tick("office-2", "undo", undoes="office-1"))
    assert found["pieces"] == []


def test_of_ticks_that_contradict_the_worse_news_counts_and_is_shown(service: Caller) -> None:
    plan = confirmed(service, a_body())

    found = send(
        service,
        plan,
        tick("van-1", cut=1),
        tick("office-1", cut=1),
        tick("office-2", "damaged"),
        tick("van-2", cut=2, piece=2),
        tick("van-3", "spoiled", part=1, piece=2),
    )

    said = " / ".join(one["trouble"] for one in found["contradictions"])
    assert "cut 1 is ticked by 2 phones" in said
    assert "as cut and as damaged" in said
    assert "cut 2 is ticked and cut 1 is not: 0 cuts count" in said
    assert "has not come off" in said
    assert [(one["cuts"], one["lost"]) for one in found["pieces"]] == [(1, "damaged"), (0, "")]


def test_ticks_that_name_what_the_plan_has_not_are_refused_together(service: Caller) -> None:
    plan = confirmed(service, a_body())
    wrong = [tick("van-1", cut=1), tick("van-2", cut=7), tick("van-3", "done", layout=9)]

    answer = service.post(f"/v1/plans/{plan}/marks", {"ticks": wrong})

    problem = the_problem(answer, status=422, kind="invalid-input")
    assert [one["field"] for one in problem["problems"]] == ["ticks[1].cut", "ticks[2].layout"]
    assert service.get(f"/v1/plans/{plan}/marks").json()["ticks"] == []
    no_cut = service.post(f"/v1/plans/{plan}/marks", {"ticks": [tick("van-1")]})
    the_problem(no_cut, status=422, kind="invalid-input")


def test_one_cut_that_counts_is_told_as_one(service: Caller) -> None:
    parts = [{"id": "A/N1", "job": "A", "length_mm": 550, "quantity": 4}]
    plan = confirmed(service, a_body(parts=parts))

    found = send(service, plan, tick("van-1", cut=1), tick("van-2", cut=3))

    (told,) = found["contradictions"]
    assert told["trouble"] == "cut 3 is ticked and cut 2 is not: 1 cut counts"


def test_a_piece_on_the_floor_has_the_sizes_of_one_piece_of_its_material(service: Caller) -> None:
    plan = confirmed(service, a_body())
    both = tick("van-1", "floor", length_mm=900, width_mm=300, height_mm=300)
    mixed = tick("van-1", "floor", length_mm=900, width_mm=300)
    board = tick("van-1", "floor", width_mm=300, height_mm=300)

    for wrong in (both, mixed, board):
        answer = service.post(f"/v1/plans/{plan}/marks", {"ticks": [wrong]})
        the_problem(answer, status=422, kind="invalid-input")
    problem = the_problem(answer, status=422, kind="invalid-input")["problems"][0]
    assert (problem["field"], problem["remedy"]) == ("ticks[0].length_mm", "Give length_mm")
    assert send(service, plan, tick("van-1", "floor", length_mm=900))["new"] == 1


def test_a_spoiled_part_is_cut_from_an_offcut_and_the_books_balance(
    service: Caller, store: Store, firm: str
) -> None:
    plan = confirmed(service, a_body(parts=[
        {"id": "A/N1", "job": "A", "length_mm": 900, "quantity": 4},
        {"id": "A/N2", "job": "A", "length_mm": 550, "quantity": 1},
    ]))  # fmt: skip
    before = rack(service)
    assert before
    layouts = service.get(f"/v1/plans/{plan}/saw").json()["layouts"]
    place = next(
        (one["layout"], part)
        for one in layouts
        for part, placed in enumerate(one["parts"], start=1)
        if placed["part"] == "A/N2"
    )
    send(
        service,
        plan,
        tick("van-0", "done", layout=place[0]),
        tick("van-1", "spoiled", layout=place[0], part=place[1]),
        tick("van-2", "done", layout=3 - place[0]),
    )

    made = service.post(f"/v1/plans/{plan}/replan", {"seconds": 0.2})

    assert made.status_code == 201, made.text
    new = made.json()
    assert new["plan"]["purchase"] == "0.00"
    assert [one["id"] for one in new["request"]["lengths"][0]["parts"]] == ["A/N2"]
    assert service.get(f"/v1/plans/{plan}/marks").json()["continued_by"] == new["id"]
    assert {held for _, held in rack(service)} <= {new["id"], None}
    assert new["id"] in {held for _, held in rack(service)}
    require_balance(store, firm)

    # Neither twice, nor undone under its feet.
    the_problem(
        service.post(f"/v1/plans/{plan}/replan", {"seconds": 0.2}), status=409, kind="conflict"
    )
    the_problem(service.post(f"/v1/plans/{plan}/undo"), status=409, kind="conflict")

    # Dropped, all is as it was; made again and confirmed, the offcut is cut.
    assert service.ask("DELETE", f"/v1/plans/{new['id']}").status_code == 200
    assert rack(service) == before
    again = service.post(f"/v1/plans/{plan}/replan", {"seconds": 0.2}).json()
    assert service.post(f"/v1/plans/{again['id']}/confirm").status_code == 200
    require_balance(store, firm)
    assert len(rack(service)) < len(before) or rack(service) != before
    assert service.post(f"/v1/plans/{again['id']}/undo").status_code == 200
    assert rack(service) == before
    assert service.get(f"/v1/plans/{plan}/marks").json()["continued_by"] is None


def test_an_offcut_of_the_same_size_keeps_its_label(
    service: Caller, store: Store, firm: str
) -> None:
    plan = confirmed(service, a_body())
    assert [label for label, _ in rack(service)] == ["R1", "R2", "R3"]
    send(service, plan, tick("van-1", "done"), tick("van-2", "damaged", piece=2))

    new = service.post(f"/v1/plans/{plan}/replan", {"seconds": 0.2}).json()

    # A whole new length is bought for the damaged one; it leaves what that would have left.
    assert new["plan"]["purchase"] == "3.60"
    assert new["adopted"] == ["R1", "R2", "R3"]
    service.post(f"/v1/plans/{new['id']}/confirm")
    assert rack(service) == [("R1", None), ("R2", None), ("R3", None)]
    require_balance(store, firm)

    # The new plan meets with a mishap too: its layouts are those that are left.
    send(service, new["id"], tick("van-3", "damaged"))
    third = service.post(f"/v1/plans/{new['id']}/replan", {"seconds": 0.2})
    assert third.status_code == 201, third.text
    service.post(f"/v1/plans/{third.json()['id']}/confirm")
    assert rack(service) == [("R1", None), ("R2", None), ("R3", None)]
    require_balance(store, firm)


def test_an_offcut_promised_to_another_plan_is_not_cut_from_under_it(service: Caller) -> None:
    plan = confirmed(service, a_body(parts=[
        {"id": "A/N1", "job": "A", "length_mm": 900, "quantity": 1},
        {"id": "A/N2", "job": "A", "length_mm": 550, "quantity": 1},
    ]))  # fmt: skip
    other = service.post(
        "/v1/plans?use_rack=true",
        a_body(parts=[{"id": "B/X", "job": "B", "length_mm": 580, "quantity": 1}]),
    ).json()
    assert rack(service)[0][1] == other["id"]
    send(service, plan, tick("van-1", "done"), tick("van-2", "spoiled", part=2))

    answer = service.post(f"/v1/plans/{plan}/replan", {"seconds": 0.2})

    problem = the_problem(answer, status=422, kind="no-plan")
    assert "R1" in problem["problems"][0]["field"]
    assert service.get(f"/v1/plans/{plan}/marks").json()["continued_by"] is None
    service.ask("DELETE", f"/v1/plans/{other['id']}")
    assert service.post(f"/v1/plans/{plan}/replan", {"seconds": 0.2}).status_code == 201


def test_only_a_confirmed_plan_with_ticks_is_planned_anew(service: Caller) -> None:
    draft = service.post("/v1/plans", a_body()).json()["id"]
    the_problem(service.post(f"/v1/plans/{draft}/replan", {}), status=409, kind="conflict")
    plan = confirmed(service, a_body())
    the_problem(service.post(f"/v1/plans/{plan}/replan", {}), status=409, kind="conflict")
    send(service, plan, *(tick(f"van-{n}", "done", piece=n) for n in (1, 2, 3)))

    answer = service.post(f"/v1/plans/{plan}/replan", {"seconds": 0})

    assert (
        "every part is cut"
        in the_problem(answer, status=422, kind="invalid-input")["problems"][0]["trouble"]
    )


def test_ticks_that_come_after_the_rest_was_planned_are_told_and_count_when_it_is_dropped(
    service: Caller,
) -> None:
    plan = confirmed(service, a_body())
    assert send(service, plan, tick("van-1", "damaged"))["too_late"] == 0
    new = service.post(f"/v1/plans/{plan}/replan", {"seconds": 0.1}).json()

    # A phone that was out of signal when the office planned anew.
    late = send(service, plan, tick("phone-1", "done", piece=2), tick("phone-2", "done", piece=3))

    assert (late["too_late"], late["continued_by"]) == (2, new["id"])
    assert service.get(f"/v1/plans/{plan}/marks").json()["too_late"] == 2
    assert len(new["request"]["lengths"][0]["parts"]) == 1
    assert new["request"]["lengths"][0]["parts"][0]["quantity"] == 6
    service.ask("DELETE", f"/v1/plans/{new['id']}")
    again = service.post(f"/v1/plans/{plan}/replan", {"seconds": 0.1}).json()
    assert again["request"]["lengths"][0]["parts"][0]["quantity"] == 2
    assert service.get(f"/v1/plans/{plan}/marks").json()["too_late"] == 0


def test_the_same_replan_sent_twice_is_one(service: Caller) -> None:
    plan = confirmed(service, a_body())
    send(service, plan, tick("van-1", "damaged"))
    headers = {"Idempotency-Key": "van-replan-1"}

    answers = [
        service.ask("POST", f"/v1/plans/{plan}/replan", json={"seconds": 0.1}, headers=headers)
        for _ in range(2)
    ]

    assert [one.status_code for one in answers] == [201, 201]
    assert answers[0].json()["id"] == answers[1].json()["id"]


def test_what_a_batch_must_buy_more_is_ordered(service: Caller, store: Store, firm: str) -> None:
    made = service.post("/v1/batches", a_batch_body())
    plan = made.json()["id"]
    service.post(f"/v1/plans/{plan}/confirm")
    layout = next(
        one
        for one in service.get(f"/v1/plans/{plan}/saw").json()["layouts"]
        if one["kind"] == "sheet" and not one["offcut"]
    )
    lost = tick("van-1", "damaged", material=layout["material"], layout=layout["layout"])
    send(service, plan, lost)

    new = service.post(f"/v1/plans/{plan}/replan", {"seconds": 0.5}).json()

    (order,) = service.get(f"/v1/orders?plan={new['id']}").json()["items"]
    lines = service.get(f"/v1/orders/{order['id']}").json()["order"]["lines"]
    assert [(line["item"], line["quantity"]) for line in lines] == [(layout["stock"], 1)]
    service.post(f"/v1/plans/{new['id']}/confirm")
    assert service.get(f"/v1/orders/{order['id']}").json()["state"] == "placed"
    require_balance(store, firm)


def test_near_misses_and_spares_of_a_kept_plan(service: Caller) -> None:
    parts = [{"id": "A/N1", "job": "A", "length_mm": 1200, "quantity": 2}]
    plan = confirmed(service, a_body(parts=parts))

    misses = service.post(f"/v1/plans/{plan}/near-misses", {"ease": {"A/*": 3}, "seconds": 1})
    spares = service.post(f"/v1/plans/{plan}/spares", {"levels_percent": [5]})

    assert misses.status_code == 200, misses.text
    assert misses.json()["items"][0]["saving"] == "3.60"
    assert spares.json()["levels"][0]["level"] == 0.05
    assert "<svg" in spares.json()["chart_svg"]
    nobody = service.post(f"/v1/plans/{plan}/near-misses", {"ease": {"Z/*": 3}})
    assert the_problem(nobody, status=422, kind="invalid-input")["problems"][0]["field"] == (
        "ease.Z/*"
    )
    fine = service.post(f"/v1/plans/{plan}/near-misses", {"ease": {"A/*": 2.55}})
    (problem,) = the_problem(fine, status=422, kind="invalid-input")["problems"]
    assert (problem["field"], problem["trouble"]) == ("ease.A/*", "'2.55' is finer than 0.1 mm")
    strange = service.post(f"/v1/plans/{plan}/spares", {"rates_percent": {"oak": [1, 1]}})
    assert "oak" in the_problem(strange, status=422, kind="invalid-input")["problems"][0]["field"]
