"""Jobs dealt to deliveries over the service: at once, or as a run whose result is fetched."""

from __future__ import annotations

import copy
from typing import Any

import pytest

from api.examples import DEAL_EXAMPLE
from api.runner import Runner
from api.store.engine import Store
from tests.api.bodies import Caller, a_service, the_problem
from tests.api.test_runs import ended


def a_body(**changes: Any) -> dict[str, Any]:
    return {**copy.deepcopy(DEAL_EXAMPLE), "seconds": 0.5, **changes}


@pytest.fixture
def service(store_url: str) -> Caller:
    return Caller(a_service(store=store_url))


def test_jobs_that_share_a_length_come_together(service: Caller) -> None:
    answer = service.post("/v1/deliveries", a_body())

    assert answer.status_code == 201, answer.text
    found = answer.json()
    # One length of 3.58 holds both uprights of 1150; 35.00 for each delivery.
    assert (found["cost"], found["one_each"]) == ("38.58", "77.16")
    assert [one["jobs"] for one in found["deliveries"]] == [["A", "B"]]
    again = service.get(answer.headers["location"])
    assert again.json() == found
    tag = again.headers["etag"]
    assert service.get(answer.headers["location"], if_none_match=tag).status_code == 304
    run = service.get(f"/v1/runs/{found['id']}").json()
    assert (run["state"], run["plan"], run["result"]) == (
        "done", None, answer.headers["location"],
    )  # fmt: skip


def test_longer_thought_is_a_run_and_its_result_is_fetched(service: Caller, store_url: str) -> None:
    answer = service.post("/v1/deliveries", a_body(seconds=5))
    assert answer.status_code == 202, answer.text
    run = answer.json()["id"]
    assert answer.json()["result"] is None
    the_problem(service.get(f"/v1/deliveries/{run}"), status=404, kind="http-404")
    runner = Runner(Store(store_url), workers=1)
    runner.start()

    done = ended(service, run)
    runner.stop()

    assert (done["state"], done["net_cost"]) == ("done", "38.58")
    assert service.get(done["result"]).json()["cost"] == "38.58"
    assert service.get("/v1/plans").json()["items"] == []


def test_the_same_call_with_one_key_is_one_run(service: Caller) -> None:
    headers = {"Idempotency-Key": "office-7"}
    answers = [
        service.ask("POST", "/v1/deliveries", json=a_body(), headers=headers) for _ in range(2)
    ]

    assert [one.status_code for one in answers] == [201, 201]
    assert answers[0].json() == answers[1].json()
    assert len(service.get("/v1/runs").json()["items"]) == 1


def test_kept_jobs_and_prices_are_taken_by_their_names(service: Caller) -> None:
    body = a_body()
    assert service.put("/v1/price-books/usual", body["prices"]).status_code == 201
    ids = [service.post("/v1/jobs", job).json()["id"] for job in body["jobs"]]

    found = service.post(
        "/v1/deliveries",
        {
            "seconds": 0.5,
            "today": "2026-12-01",
            "job_ids": ids,
            "price_book": "usual",
            "terms": body["terms"],
        },
    )

    assert found.status_code == 201, found.text
    assert found.json()["cost"] == "38.58"


def test_every_fault_is_named_at_once_and_no_run_is_left(service: Caller) -> None:
    body = a_body(terms={"charge": "much"}, today=5, rack=[], seconds=-1)

    problem = the_problem(service.post("/v1/deliveries", body), status=422, kind="invalid-input")

    fields = " ".join(one["field"] for one in problem["problems"])
    assert all(name in fields for name in ("body.rack", "body.today", "charge", "seconds"))
    assert service.get("/v1/runs").json()["items"] == []


def test_a_day_that_is_past_is_told_with_its_job(service: Caller) -> None:
    answer = service.post("/v1/deliveries", a_body(today="2027-01-01"))

    problem = the_problem(answer, status=422, kind="invalid-input")
    assert "job 'A'" in problem["problems"][0]["field"]
    (run,) = service.get("/v1/runs").json()["items"]
    assert (run["state"], run["result"]) == ("failed", None)


@pytest.mark.parametrize("path", ["/v1/deliveries", "/v1/batches"])
@pytest.mark.parametrize("name", ["walls", "jobs"])
@pytest.mark.parametrize("wrong", [None, True, 5])
def test_kept_jobs_are_added_to_lists_alone(path: str, name: str, wrong: object) -> None:
    service = Caller(a_service())
    body = {**a_body(job_ids=["job-1"]), name: wrong}
    body = body if path == "/v1/deliveries" else {k: body[k] for k in ("job_ids", name, "prices")}

    problem = the_problem(service.post(path, body), status=422, kind="invalid-input")

    assert problem["problems"][0]["field"] == f"body.{name}"
