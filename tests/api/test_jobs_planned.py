"""Jobs from paper to plan: listed parts are kept, planned with walls, and tell their state."""

from __future__ import annotations

import base64
from typing import Any

import pytest

import optimiser as lib
from tests.api.bodies import Caller, a_batch_body, a_service, the_problem

LIST = b"mark,material,length_mm,qty\nU1,c16-38x63,900,4\nU2,c16-38x63,1200,2\n"


def a_list(job: str = "shelves", content: bytes = LIST) -> dict[str, Any]:
    encoded = base64.b64encode(content).decode()
    return {"name": "parts.csv", "job": job, "content": encoded, "needed": "2026-12-14"}


@pytest.fixture(scope="module")
def caller() -> Caller:
    made = Caller(a_service())
    assert made.put("/v1/price-books/usual", a_batch_body()["prices"]).status_code == 201
    return made


def job_of(caller: Caller, name: str) -> dict[str, Any]:
    (job,) = caller.get(f"/v1/jobs?name={name}").json()["items"]
    assert isinstance(job, dict)
    return job


def test_a_part_list_and_a_wall_are_planned_as_kept_jobs(caller: Caller) -> None:
    (listed,) = caller.post("/v1/part-lists", a_list()).json()["jobs"]
    wall = caller.post("/v1/walls", a_batch_body()["walls"][0]).json()
    before = job_of(caller, "shelves")
    body = {"job_ids": [listed["id"], wall["job"]], "price_book": "usual", "seconds": 0.2}

    plan = caller.post("/v1/batches", body)

    assert plan.status_code == 201, plan.text
    assert (before["state"], before["listed_parts"], before["needed"]) == ("new", 6, "2026-12-14")
    after = job_of(caller, "shelves")
    assert (after["state"], after["plan"]) == ("planned", plan.json()["id"])
    shares = {share["job"]: share["cost"] for share in plan.json()["shares"]}
    assert after["share"] == shares["shelves"]
    assert set(shares) == {"shelves", "A"}
    assert caller.post(f"/v1/plans/{plan.json()['id']}/confirm").status_code == 200
    assert job_of(caller, "shelves")["state"] == "ordered"


def keep_lengths(caller: Caller, body: dict[str, Any]) -> dict[str, float]:
    """Plan, and return from which length each timber's offcuts are kept."""
    answer = caller.post("/v1/batches", body | {"keep_by_history": True})
    assert answer.status_code == 201, answer.text
    request = caller.get(f"/v1/plans/{answer.json()['id']}").json()["request"]
    return {item["material"]: item["keep"]["length_mm"] for item in request["lengths"]}


def test_kept_jobs_not_bought_yet_make_short_offcuts_worth_keeping(caller: Caller) -> None:
    many = LIST.splitlines()[0] + b"\nN1,c16-38x63,320,200\n"
    assert caller.post("/v1/part-lists", a_list("next week", many)).status_code == 201
    job = job_of(caller, "next week")["id"]
    body = a_batch_body(seconds=0.2)

    without = keep_lengths(caller, body)
    with_it = keep_lengths(caller, body | {"coming_job_ids": [job]})

    # 200 noggins of 320 are to come: pieces that hold one are all but sure to be used.
    assert with_it["c16-38x63"] < without["c16-38x63"]
    assert job_of(caller, "next week")["state"] == "new"


def test_parts_to_come_are_refused_without_history_and_for_what_is_planned_now(
    caller: Caller,
) -> None:
    assert caller.post("/v1/part-lists", a_list("now")).status_code == 201
    job = job_of(caller, "now")["id"]
    both = {"job_ids": [job], "coming_job_ids": [job], "price_book": "usual"}

    twice = caller.post("/v1/batches", both | {"keep_by_history": True})
    unasked = caller.post("/v1/batches", a_batch_body(coming_job_ids=[job]))
    odd = caller.post("/v1/batches", a_batch_body(coming=[job], keep_by_history=True))

    for answer, field in (
        (twice, "coming_job_ids"),
        (unasked, "body.coming"),
        (odd, "body.coming"),
    ):
        problems = the_problem(answer, status=422, kind="invalid-input")["problems"]
        assert [one["field"] for one in problems] == [field]


def test_a_second_list_overwrites_nothing(caller: Caller) -> None:
    assert caller.post("/v1/part-lists", a_list("twice")).status_code == 201

    again = caller.post("/v1/part-lists", a_list("twice", LIST.replace(b"900", b"800")))

    the_problem(again, status=409, kind="conflict")
    kept = caller.get(f"/v1/jobs/{job_of(caller, 'twice')['id']}").json()["job"]["parts"]
    assert kept["lengths"][0]["length_mm"] == 900


def test_of_a_list_with_a_broken_cell_nothing_is_kept(caller: Caller) -> None:
    answer = caller.post("/v1/part-lists", a_list("broken", LIST.replace(b"1200", b"long")))

    the_problem(answer, status=422, kind="invalid-input")
    assert caller.get("/v1/jobs?name=broken").json()["items"] == []


def test_a_job_without_parts_cannot_be_planned(caller: Caller) -> None:
    job = caller.post("/v1/jobs", {"name": "empty"}).json()

    answer = caller.post("/v1/batches", {"job_ids": [job["id"]], "price_book": "usual"})

    document = the_problem(answer, status=422, kind="invalid-input")
    assert "no parts yet" in document["problems"][0]["trouble"]
    assert job_of(caller, "empty")["state"] == "no parts"


def test_listed_parts_are_read_as_they_were_written() -> None:
    text = b"mark,material,length,width,height,qty,turn,cut outs,name\n"
    text += b"U1,c16,900.5,,,4,,,post\nB1,mdf,,600,900,2,no,0 0 100 200,back\n"
    parts = lib.read_part_list(text, name="parts.csv", job="A")

    assert lib.part_list_from_document(lib.part_list_document(parts), name="parts") == parts


def test_a_wall_that_is_looked_at_says_where_things_lie(caller: Caller) -> None:
    wall = {**a_batch_body()["walls"][0]}
    wall["tv"] = {**wall["tv"], "mass_kg": 150}

    answer = caller.post(
        "/v1/frames?view=elevation&view=boards", {"wall": wall, "price_book": "usual"}
    )

    found = answer.json()
    stops = [item for item in found["frame"]["findings"] if item["severity"] == "stop"]
    assert stops
    assert all("tv" in item["concerns"] for item in stops)
    names = {member["mark"] for member in found["frame"]["members"]}
    elevation, boards = found["drawings"][:2]
    marks = {place["mark"] for place in elevation["places"]}
    assert "tv" in marks
    assert marks - {"tv"} <= names
    assert {board["mark"] for board in found["frame"]["boards"] if board["face"] == "front"} <= {
        place["mark"] for place in boards["places"]
    }


def test_what_a_piece_of_the_rack_has_lain_for_is_told(caller: Caller) -> None:
    piece = {"id": "L1", "material": "c16-38x63", "length_mm": 900}
    assert caller.post("/v1/rack", [piece]).status_code == 201

    (found,) = [item for item in caller.get("/v1/rack").json()["items"] if item["id"] == "L1"]

    assert found["racked"].endswith("+00:00")


@pytest.mark.parametrize(
    ("field", "given", "trouble"),
    [
        ("wall_ids", "wall-1", "is not a list of texts"),
        ("job_ids", None, "is not a list of texts"),
        ("price_books", ["usual"] * 11, "names 11, and 10 is the most"),
        ("price_book", ["usual"], "is not a text"),
        ("price_book", "usual", "stands beside prices"),
        ("coming_job_ids", [7], "is not a list of texts"),
    ],
)
def test_nothing_that_is_named_is_left_out_unsaid(
    caller: Caller, field: str, given: object, trouble: str
) -> None:
    refused = caller.post("/v1/batches", a_batch_body(**{field: given}))

    problem = the_problem(refused, status=422, kind="invalid-input")
    assert [(one["field"], one["trouble"]) for one in problem["problems"]] == [
        (f"body.{field}", trouble)
    ]


def test_kept_walls_are_planned_with_those_that_are_sent(caller: Caller) -> None:
    sent = a_batch_body(seconds=0.2)
    kept = caller.post("/v1/walls", {**sent["walls"][0], "job": "kept"}).json()

    plan = caller.post("/v1/batches", {**sent, "wall_ids": [kept["id"]]})

    assert plan.status_code == 201, plan.text
    assert {share["job"] for share in plan.json()["shares"]} == {"A", "kept"}


def test_a_batch_of_more_parts_than_one_call_may_ask_for_is_refused(caller: Caller) -> None:
    part = {"id": "U1", "job": "many", "material": "c16-38x63", "length_mm": 400}
    lengths = [{**part, "id": f"U{n}", "quantity": 10_000} for n in range(6)]
    body = a_batch_body(walls=[], jobs=[{"name": "many", "parts": {"lengths": lengths}}])

    refused = caller.post("/v1/batches", body)

    problem = the_problem(refused, status=422, kind="invalid-input")
    assert [one["field"] for one in problem["problems"]] == ["parts"]
