"""What contradicts itself in a body is refused by name: nothing that was said is left out."""

from __future__ import annotations

from typing import Any

import pytest

from api.examples import EXAMPLES
from tests.api.bodies import (
    Caller,
    a_batch_body,
    a_request_body,
    a_service,
    the_problem,
    without_offcuts,
)

PART = {"id": "A/X", "job": "A", "material": "c16-38x63", "length_mm": 900, "quantity": 1}


@pytest.fixture(scope="module")
def service() -> Caller:
    caller = Caller(a_service(workers=0))
    assert caller.put("/v1/price-books/usual", a_batch_body()["prices"]).status_code == 201
    return caller


def a_frame_body(**changes: object) -> dict[str, Any]:
    batch = a_batch_body()
    return {"wall": batch["walls"][0], "prices": batch["prices"], **changes}


def refused(service: Caller, path: str, body: object) -> list[str]:
    problem = the_problem(service.post(path, body), status=422, kind="invalid-input")
    return [one["field"] for one in problem["problems"]]


def test_a_wall_is_not_looked_at_with_two_prices(service: Caller) -> None:
    assert service.post("/v1/frames", a_frame_body()).status_code == 200
    named = a_frame_body(price_book="usual")
    assert refused(service, "/v1/frames", named) == ["body.price_book"]
    del named["prices"]
    assert service.post("/v1/frames", named).status_code == 200
    assert refused(service, "/v1/frames", {**named, "price_book": 3}) == ["body.price_book"]


def test_a_wall_is_not_looked_at_beside_what_means_nothing(service: Caller) -> None:
    assert refused(service, "/v1/frames", a_frame_body(wals=[])) == ["body"]


def test_offcuts_of_a_body_do_not_stand_beside_the_firms_rack(service: Caller) -> None:
    body = a_request_body()
    materials = [item["material"] for item in (*body["lengths"], *body["sheets"])]
    fields = refused(service, "/v1/plans?use_rack=true", body)
    assert fields == [f"body.{name}" for name in materials]
    assert service.post("/v1/plans?use_rack=true", without_offcuts(body)).status_code == 201

    rack = [{"id": "R1", "material": "c16-38x63", "length_mm": 1130}]
    batch = a_batch_body(rack=rack)
    assert refused(service, "/v1/batches?use_rack=true", batch) == ["body.rack"]


def test_a_sum_for_a_split_needs_merchants_to_split_between(service: Caller) -> None:
    batch = a_batch_body(split_saves="5.00")
    assert refused(service, "/v1/batches", batch) == ["body.split_saves"]


def test_a_kept_wall_is_named_once(service: Caller) -> None:
    wall = service.post("/v1/walls", EXAMPLES["wall"]).json()
    twice = {"wall_ids": [wall["id"]] * 2, "price_book": "usual"}
    assert refused(service, "/v1/batches", twice) == ["body.wall_ids"]
    for field in ("job_ids", "coming_job_ids"):
        both = {"wall_ids": [wall["id"]], field: [wall["job"]], "price_book": "usual"}
        assert refused(service, "/v1/batches", both) == ["body.wall_ids"]


@pytest.mark.parametrize("about", [{"neded": "2026-12-01"}, {"needed": 3}, {"client": ["B"]}])
def test_a_job_of_a_batch_says_nothing_that_is_not_heard(
    service: Caller, about: dict[str, object]
) -> None:
    job = {"name": "A", "parts": {"lengths": [PART]}, **about}
    batch = a_batch_body(walls=[], jobs=[job])
    assert refused(service, "/v1/batches", batch) == ["body.jobs[0]"]


def test_a_part_stands_under_its_own_job(service: Caller) -> None:
    job = {"name": "B", "parts": {"lengths": [PART]}}
    batch = a_batch_body(walls=[], jobs=[job])
    assert refused(service, "/v1/batches", batch) == ["body.jobs[0].parts"]
    assert refused(service, "/v1/jobs", job) == ["body.parts"]
    kept = service.post("/v1/jobs", {**job, "name": "A of parts", "parts": {}})
    assert kept.status_code == 201


@pytest.mark.parametrize(
    "tick",
    [
        {"kind": "done", "cut": 1},
        {"kind": "cut", "cut": 1, "part": 1},
        {"kind": "cut", "cut": 1, "undoes": "van-0"},
        {"kind": "damaged", "length_mm": 900},
        {"kind": "undo", "undoes": "van-0", "part": 2},
    ],
)
def test_a_tick_says_nothing_that_its_kind_does_not_mean(
    service: Caller, tick: dict[str, object]
) -> None:
    plan = service.post("/v1/plans", a_request_body()).json()["id"]
    whole = {"tick": "van-1", "phone": "van", "material": "c16-38x63", **tick}
    assert refused(service, f"/v1/plans/{plan}/marks", {"ticks": [whole]}) == ["body.ticks.0"]


def test_undoing_a_delivery_plans_nothing(service: Caller) -> None:
    body = {"undoes": "delivery-1", "replan_seconds": 1}
    assert refused(service, "/v1/orders/order-1/deliveries", body) == ["body"]


def test_a_job_by_another_name_takes_its_walls_along() -> None:
    service = Caller(a_service(workers=0))
    wall = service.post("/v1/walls", EXAMPLES["wall"]).json()
    job = service.get(f"/v1/jobs/{wall['job']}")

    renamed = service.put(
        f"/v1/jobs/{wall['job']}", {"name": "A new"}, if_match=job.headers["etag"]
    )

    assert renamed.status_code == 200
    found = service.get(f"/v1/walls/{wall['id']}")
    assert (found.json()["job"], found.json()["wall"]["job"]) == (wall["job"], "A new")
    stale = service.put(
        f"/v1/walls/{wall['id']}", EXAMPLES["wall"], if_match=f'"{wall["version"]}"'
    )
    the_problem(stale, status=412, kind="stale")
    service.put("/v1/price-books/usual", a_batch_body()["prices"])
    asked = {"job_ids": [wall["job"]], "price_book": "usual", "seconds": 0.1}
    assert service.post("/v1/batches", asked).json()["walls"][0]["job"] == "A new"
    comma = service.put(f"/v1/jobs/{wall['job']}", {"name": "A, newer"})
    the_problem(comma, status=422, kind="invalid-input")
    assert service.get(f"/v1/jobs/{wall['job']}").json()["job"]["name"] == "A new"
