"""What came for an order: counted line by line, and the plan's rest planned from what came."""

from __future__ import annotations

from typing import Any

import httpx
import pytest

from api.examples import EXAMPLES
from api.store import runs
from api.store.engine import Store
from api.working import work_on
from tests.api.bodies import Caller, a_service, the_problem
from tests.api.store.builders import require_balance

WOOD = "c16-38x63"
PRICES = {
    **EXAMPLES["price-book"],
    "lengths": [
        {
            "material": WOOD,
            "description": "Studwork timber 38 × 63, C16",
            "thickness_mm": 38,
            "width_mm": 63,
            "grade": "C16",
            "mass_kg_per_m": 1.1,
            "stock": [{"id": "2400", "length_mm": 2400, "price": "3.60"}],
        }
    ],
    "sheets": [
        {
            "material": "mdf-12",
            "description": "MDF 12",
            "thickness_mm": 12,
            "cutting": "saw",
            "mass_kg_per_m2": 9,
            "stock": [{"id": "m", "width_mm": 1220, "height_mm": 2440, "price": "24.00"}],
        }
    ],
    "packs": [],
}
JOB = {
    "name": "A",
    "needed": "2026-12-07",
    "parts": {
        # Two of 1100 to a length of 2400: four lengths.
        "lengths": [
            {"id": "N1", "job": "A", "name": "noggin", "material": WOOD}
            | {"length_mm": 1100, "quantity": 8}
        ],
        # One to a sheet: three sheets.
        "boards": [
            {
                "id": "B1",
                "job": "A",
                "name": "back",
                "material": "mdf-12",
                "width_mm": 1100,
                "height_mm": 1300,
                "quantity": 3,
            }
        ],
    },
}


@pytest.fixture
def service(store_url: str) -> Caller:
    return Caller(a_service(store=store_url))


class Ordered:
    """An order that was placed, its plan, and deliveries for it."""

    def __init__(self, service: Caller) -> None:
        self.service = service
        body = {"seconds": 0.2, "jobs": [JOB], "prices": PRICES}
        made = service.post("/v1/batches", body)
        assert made.status_code == 201, made.text
        self.plan = made.json()["id"]
        (order,) = service.get(f"/v1/orders?plan={self.plan}").json()["items"]
        self.id = order["id"]
        self.lines = service.get(f"/v1/orders/{self.id}").json()["order"]["lines"]

    def confirmed(self) -> Ordered:
        assert self.service.post(f"/v1/plans/{self.plan}/confirm").status_code == 200
        return self

    def line(self, item: str) -> int:
        return next(n for n, line in enumerate(self.lines, start=1) if line["item"] == item)

    def send(self, *lines: dict[str, Any], **more: Any) -> httpx.Response:
        headers = {"Idempotency-Key": more.pop("key")} if "key" in more else {}
        if "if_match" in more:
            headers["If-Match"] = more.pop("if_match")
        body = {**more, **({"lines": list(lines)} if lines else {})}
        path = f"/v1/orders/{self.id}/deliveries"
        return self.service.ask("POST", path, json=body, headers=headers)

    def came(self, *lines: dict[str, Any], **more: Any) -> dict[str, Any]:
        answer = self.send(*lines, **more)
        assert answer.status_code == 201, answer.text
        found = answer.json()
        assert isinstance(found, dict)
        return found

    def state(self) -> str:
        return str(self.service.get(f"/v1/orders/{self.id}").json()["state"])

    def pieces(self, plan: str | None = None) -> list[dict[str, Any]]:
        found = self.service.get(f"/v1/plans/{plan or self.plan}/marks").json()["pieces"]
        assert isinstance(found, list)
        return found


@pytest.fixture
def order(service: Caller) -> Ordered:
    return Ordered(service).confirmed()


def test_the_order_is_what_the_other_tests_take_it_for(order: Ordered) -> None:
    goods = {(line["item"], line["quantity"]) for line in order.lines if not line["charge"]}
    assert goods == {("2400", 4), ("m", 3)}
    assert {line["material"] for line in order.lines if not line["charge"]} == {WOOD, "mdf-12"}


def test_an_order_is_part_received_and_then_received(order: Ordered) -> None:
    wood, board = order.line("2400"), order.line("m")
    assert order.state() == "placed"

    first = order.came({"line": wood, "good": 3}, came="2026-12-01", delivery_note="4711")
    assert (first["state"], first["delivery"]["touches"], first["run"]) == (
        "part received", [], None,
    )  # fmt: skip
    second = order.came({"line": wood, "good": 1}, {"line": board, "good": 3})

    assert second["state"] == order.state() == "received"
    kept = order.service.get(f"/v1/orders/{order.id}/deliveries").json()
    assert [one["delivery_note"] for one in kept["deliveries"]] == ["4711", ""]
    assert all(line["to_come"] == 0 for line in kept["lines"])
    assert order.pieces() == []


def test_a_job_is_received_once_all_came_for_its_plan_and_what_goes_on_from_it(
    order: Ordered,
) -> None:
    wood, board = order.line("2400"), order.line("m")
    kept = order.service.post("/v1/jobs", {"name": JOB["name"], "needed": JOB["needed"]})
    tag = kept.headers["etag"]

    def state() -> str:
        (job,) = order.service.get(f"/v1/jobs?name={JOB['name']}").json()["items"]
        return str(job["state"])

    assert state() == "ordered"
    order.came({"line": wood, "good": 4})
    assert state() == "part received"
    again = order.came({"line": board, "good": 2, "damaged": 1}, replan_seconds=0.2)
    assert again["state"] == "received"
    assert state() == "part received"  # a board more is planned, and not here yet
    new = again["run"]["plan"]
    assert order.service.post(f"/v1/plans/{new}/confirm").status_code == 200
    (more,) = order.service.get(f"/v1/orders?plan={new}").json()["items"]
    path = f"/v1/orders/{more['id']}/deliveries"
    assert order.service.post(path, {"lines": [{"line": 1, "good": 1}]}).status_code == 201
    assert state() == "received"
    # The job itself is as it was written down: whoever changes it changes that version.
    job = order.service.get(f"/v1/jobs/{kept.json()['id']}", if_none_match=tag)
    assert job.status_code == 304


def test_a_short_and_a_damaged_piece_are_missing_from_the_plan(order: Ordered) -> None:
    wood, board = order.line("2400"), order.line("m")

    answer = order.came(
        {"line": wood, "good": 3, "short": 1}, {"line": board, "good": 2, "damaged": 1}
    )

    assert answer["state"] == "received"
    told = {(one["material"], one["kind"], one["pieces"]) for one in answer["delivery"]["touches"]}
    assert told == {(WOOD, "short", 1), ("mdf-12", "damaged", 1)}
    assert {tuple(one["jobs"]) for one in answer["delivery"]["touches"]} == {("A",)}
    assert sorted(piece["lost"] for piece in order.pieces()) == ["damaged", "short"]


def test_the_rest_is_planned_anew_and_buys_what_is_missing(
    order: Ordered, store: Store, firm: str
) -> None:
    board = order.line("m")

    answer = order.came({"line": board, "good": 2, "damaged": 1}, replan_seconds=0.2)

    assert answer["run"]["state"] == "done"
    new = order.service.get(f"/v1/plans/{answer['run']['plan']}").json()
    assert new["continues"] == order.plan
    assert new["plan"]["purchase"] == "24.00"
    (kept,) = order.service.get(f"/v1/orders/{order.id}/deliveries").json()["deliveries"]
    assert kept["new_plan"] == answer["delivery"]["new_plan"] == new["id"]
    (again,) = order.service.get(f"/v1/orders?plan={new['id']}").json()["items"]
    lines = order.service.get(f"/v1/orders/{again['id']}").json()["order"]["lines"]
    assert [(line["item"], line["quantity"]) for line in lines] == [("m", 1)]
    assert order.service.post(f"/v1/plans/{new['id']}/confirm").status_code == 200
    require_balance(store, firm)


def test_another_size_that_came_is_cut_instead(order: Ordered) -> None:
    board = order.line("m")
    other = {"material": "mdf-12", "width_mm": 1220, "height_mm": 3050, "quantity": 1}

    answer = order.came(
        {"line": board, "good": 2, "instead": [{**other, "note": "no 2440 left"}]},
        replan_seconds=0.2,
    )

    new = order.service.get(f"/v1/plans/{answer['run']['plan']}").json()
    assert new["plan"]["purchase"] == "0.00"
    offcuts = {one["id"] for item in new["request"]["sheets"] for one in item["offcuts"]}
    used = {
        layout["stock"]
        for item in new["plan"]["sheets"]
        for layout in item["layouts"]
        if layout["offcut"]
    }
    assert used & offcuts
    assert answer["delivery"]["lines"][0]["instead"][0]["note"] == "no 2440 left"


def test_another_material_is_written_down_and_the_plan_goes_without(order: Ordered) -> None:
    board = order.line("m")
    other = {"material": "ply-12", "width_mm": 1220, "height_mm": 2440, "quantity": 1}

    answer = order.came({"line": board, "good": 2, "instead": [other]}, replan_seconds=0.2)

    assert answer["delivery"]["instead"] == 0
    new = order.service.get(f"/v1/plans/{answer['run']['plan']}").json()
    assert new["plan"]["purchase"] == "24.00"


def test_a_piece_that_the_saw_ticked_as_short_is_not_lost_twice(order: Ordered) -> None:
    saw = order.service.get(f"/v1/plans/{order.plan}/saw").json()
    layout = next(one for one in saw["layouts"] if one["material"] == "mdf-12")
    tick = {"tick": "van-1", "phone": "van", "kind": "short", "material": "mdf-12"}
    body = {"ticks": [{**tick, "layout": layout["layout"], "piece": 1}]}
    assert order.service.post(f"/v1/plans/{order.plan}/marks", body).status_code == 200

    answer = order.came({"line": order.line("m"), "good": 2, "short": 1})

    assert answer["delivery"]["touches"] == []
    assert [piece["lost"] for piece in order.pieces()] == ["short"]


def test_more_missing_than_is_still_whole_is_refused(order: Ordered) -> None:
    saw = order.service.get(f"/v1/plans/{order.plan}/saw").json()
    ticks = [
        {"tick": f"van-{layout['layout']}-{piece}", "phone": "van", "kind": "done",
         "material": "mdf-12", "layout": layout["layout"], "piece": piece}
        for layout in saw["layouts"]
        if layout["material"] == "mdf-12"
        for piece in range(1, layout["count"] + 1)
    ]  # fmt: skip
    order.service.post(f"/v1/plans/{order.plan}/marks", {"ticks": ticks})

    refused = order.send({"line": order.line("m"), "good": 2, "short": 1})

    problem = the_problem(refused, status=422, kind="invalid-input")
    assert "ticked as cut" in problem["problems"][0]["trouble"]
    assert order.state() == "placed"


def test_what_the_order_has_no_room_for_is_refused_together(order: Ordered) -> None:
    board = order.line("m")

    refused = order.send(
        {"line": board, "good": 4}, {"line": board, "good": 1}, {"line": 99, "good": 1},
        {"line": order.line("2400")},
    )  # fmt: skip

    problem = the_problem(refused, status=422, kind="invalid-input")
    fields = [one["field"] for one in problem["problems"]]
    assert fields == ["lines[0]", "lines[1].line", "lines[2].line", "lines[3]"]
    assert "speaks of 4, and 3 of 3" in problem["problems"][0]["trouble"]
    assert order.state() == "placed"
    the_problem(order.send(), status=422, kind="invalid-input")
    sizeless = {"line": board, "instead": [{"material": "mdf-12", "quantity": 1}]}
    the_problem(order.send(sizeless), status=422, kind="invalid-input")
    mixed = {"material": "mdf-12", "quantity": 1, "length_mm": 900, "width_mm": 300}
    sent = order.send({"line": board, "instead": [mixed]})
    the_problem(sent, status=422, kind="invalid-input")


def test_the_same_delivery_sent_twice_is_one(order: Ordered) -> None:
    line = {"line": order.line("m"), "good": 2, "short": 1}

    answers = [order.came(line, key="office-1", replan_seconds=0.1) for _ in range(2)]

    assert answers[0]["delivery"]["id"] == answers[1]["delivery"]["id"]
    assert answers[0]["run"]["plan"] == answers[1]["run"]["plan"]
    kept = order.service.get(f"/v1/orders/{order.id}/deliveries").json()
    assert len(kept["deliveries"]) == 1
    other = order.send({"line": order.line("2400"), "good": 1}, key="office-1")
    the_problem(other, status=409, kind="conflict")


def test_of_two_who_saw_the_same_order_one_is_told(order: Ordered) -> None:
    tag = order.service.get(f"/v1/orders/{order.id}").headers["etag"]
    line = {"line": order.line("m"), "good": 1}
    path = f"/v1/orders/{order.id}/deliveries"
    assert order.service.get(path).headers["etag"] == tag

    assert order.send(line, if_match=tag).status_code == 201
    the_problem(order.send(line, if_match=tag), status=412, kind="stale")

    assert order.service.get(path, if_none_match=tag).status_code == 200
    tag = order.service.get(path).headers["etag"]
    assert order.service.get(path, if_none_match=tag).status_code == 304


def test_a_plan_made_after_its_delivery_changes_the_answers_tag(order: Ordered) -> None:
    path = f"/v1/orders/{order.id}/deliveries"
    answer = order.came({"line": order.line("m"), "good": 2, "short": 1}, replan_seconds=3)
    before = order.service.get(path)
    assert (answer["run"]["state"], before.json()["deliveries"][0]["new_plan"]) == ("queued", None)
    tag = before.headers["etag"]
    assert order.service.get(path, if_none_match=tag).status_code == 304

    claim = runs.claim_next(order.service.app.state.store, "worker")
    assert claim is not None
    work_on(order.service.app.state.store, claim)

    after = order.service.get(path, if_none_match=tag)
    assert after.status_code == 200
    assert after.json()["deliveries"][0]["new_plan"] is not None
    line = {"line": order.line("2400"), "good": 1}
    assert order.send(line, if_match=after.headers["etag"]).status_code == 201


def test_a_delivery_typed_wrong_is_taken_back_by_another(order: Ordered) -> None:
    wrong = order.came({"line": order.line("m"), "short": 3})["delivery"]["id"]
    assert len(order.pieces()) > 0

    after = order.came(undoes=wrong, note="it was the other order")

    assert after["state"] == order.state() == "placed"
    assert order.pieces() == []
    kept = order.service.get(f"/v1/orders/{order.id}/deliveries").json()["deliveries"]
    assert [one["undone"] for one in kept] == [True, False]
    the_problem(order.send(undoes=wrong), status=404, kind="http-404")


def test_a_delivery_that_a_plan_was_made_from_is_not_taken_back(order: Ordered) -> None:
    answer = order.came({"line": order.line("m"), "good": 2, "short": 1}, replan_seconds=0.1)

    refused = order.send(undoes=answer["delivery"]["id"])

    problem = the_problem(refused, status=409, kind="conflict")
    assert answer["run"]["plan"] in problem["problems"][0]["trouble"]
    assert order.service.ask("DELETE", f"/v1/plans/{answer['run']['plan']}").status_code == 200
    assert order.send(undoes=answer["delivery"]["id"]).status_code == 201


def test_a_later_delivery_counts_on_the_plan_that_goes_on(
    order: Ordered, store: Store, firm: str
) -> None:
    wood, board = order.line("2400"), order.line("m")
    first = order.came({"line": board, "good": 2, "short": 1}, replan_seconds=0.2)
    new = first["run"]["plan"]
    the_problem(order.send({"line": wood, "good": 3, "short": 1}), status=409, kind="conflict")
    assert order.service.post(f"/v1/plans/{new}/confirm").status_code == 200

    second = order.came({"line": wood, "good": 3, "short": 1}, replan_seconds=0.2)

    assert (second["delivery"]["plan"], second["state"]) == (new, "received")
    assert [piece["material"] for piece in order.pieces(new)] == [WOOD]
    third = order.service.get(f"/v1/plans/{second['run']['plan']}").json()
    assert third["continues"] == new
    assert third["plan"]["purchase"] == "3.60"
    require_balance(store, firm)


def test_nothing_comes_for_an_order_that_is_not_placed(service: Caller) -> None:
    draft = Ordered(service)
    line = {"line": draft.line("m"), "good": 1}
    the_problem(draft.send(line), status=409, kind="conflict")
    draft.confirmed()
    draft.came(line)

    undone = service.post(f"/v1/plans/{draft.plan}/undo")

    assert "have come" in the_problem(undone, status=409, kind="conflict")["problems"][0]["trouble"]


def test_a_plan_that_cannot_be_made_leaves_the_delivery_written_down(service: Caller) -> None:
    (sheet,) = PRICES["sheets"]
    (stock,) = sheet["stock"]
    few = {**PRICES, "sheets": [{**sheet, "stock": [{**stock, "available": 3}]}]}
    body = {"seconds": 0.2, "jobs": [JOB], "prices": few}
    plan = service.post("/v1/batches", body).json()["id"]
    service.post(f"/v1/plans/{plan}/confirm")
    (order,) = service.get(f"/v1/orders?plan={plan}").json()["items"]
    lines = service.get(f"/v1/orders/{order['id']}").json()["order"]["lines"]
    board = next(n for n, line in enumerate(lines, start=1) if line["item"] == "m")

    answer = service.post(
        f"/v1/orders/{order['id']}/deliveries",
        {"lines": [{"line": board, "good": 2, "short": 1}], "replan_seconds": 0.2},
    )

    assert answer.status_code == 201, answer.text
    run = answer.json()["run"]
    assert (run["state"], run["plan"]) == ("failed", None)
    assert run["problems"]
    assert len(service.get(f"/v1/orders/{order['id']}/deliveries").json()["deliveries"]) == 1
