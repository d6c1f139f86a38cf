"""What the service refuses, each as problem details (RFC 9457) that say how to mend it."""

from __future__ import annotations

import json
from collections.abc import AsyncIterator
from typing import Any

import pytest

import optimiser as lib
from tests.api.bodies import Caller, a_batch_body, a_request_body, a_service, the_problem

JSON = "application/json"
BODIES = ("/v1/plans", "/v1/batches", "/v1/checks")


@pytest.fixture(scope="module")
def service() -> Caller:
    return Caller(a_service())


@pytest.mark.parametrize("path", BODIES)
@pytest.mark.parametrize(
    "content",
    [
        "",
        "{",
        "[1,",
        '{"a": 1} {',
        "[]",
        "3",
        "null",
        "[" * 100_000,
        '{"seed": ' + "9" * 5000 + "}",
    ],
    ids=["empty", "open", "broken", "two", "list", "number", "null", "deep", "long number"],
)
def test_a_body_that_is_no_json_object_is_refused(service: Caller, path: str, content: str) -> None:
    answer = service.ask("POST", path, content=content)

    assert the_problem(answer, status=422, kind="invalid-input")["problems"]


@pytest.mark.parametrize("path", BODIES)
@pytest.mark.parametrize("content", [b'{"seed": "\xe9"}', b"\xff\xfe\x00"], ids=["latin", "other"])
def test_a_body_that_is_not_utf_8_is_refused(service: Caller, path: str, content: bytes) -> None:
    answer = service.ask("POST", path, content=content)

    assert the_problem(answer, status=422, kind="invalid-input")["problems"]


@pytest.mark.parametrize(
    ("content", "said"),
    [(b'{"name": "\xe9"}', "not text in UTF-8"), (b"[" * 200_000, "nested too deeply")],
    ids=["latin", "deep"],
)
@pytest.mark.parametrize("path", ["/v1/part-lists/preview", "/v1/plans/plan-1/spares"])
def test_a_body_that_a_form_cannot_be_read_from_is_refused_alike(
    service: Caller, path: str, content: bytes, said: str
) -> None:
    answer = service.ask("POST", path, content=content, headers={"Content-Type": JSON})

    problem = the_problem(answer, status=422, kind="invalid-input")
    assert said in problem["problems"][0]["trouble"]


@pytest.mark.parametrize("path", BODIES)
def test_a_field_that_nobody_knows_is_named(service: Caller, path: str) -> None:
    answer = service.post(path, {"colour": "blue"})

    assert "colour" in json.dumps(the_problem(answer, status=422, kind="invalid-input")["problems"])


def refused(service: Caller, body: dict[str, Any], path: str = "/v1/plans") -> list[dict[str, str]]:
    content = json.dumps(body)
    document = the_problem(
        service.ask("POST", path, content=content), status=422, kind="invalid-input"
    )
    problems = document["problems"]
    assert isinstance(problems, list)
    return problems


@pytest.mark.parametrize(
    ("length", "trouble"),
    [
        ("94 in", "94 in"),
        ("2281.5", "without quotes"),
        (2281.55, "0.1 mm"),
        (-5, "-5"),
        (float("nan"), "nan"),
        (float("inf"), "inf"),
        (True, "True"),
    ],
)
def test_a_length_that_is_no_size_is_refused_at_its_place(
    service: Caller, length: object, trouble: str
) -> None:
    body = a_request_body()
    body["lengths"][0]["parts"][0]["length_mm"] = length

    (problem,) = refused(service, body)

    assert problem["field"].endswith("lengths[0].parts[0].length_mm")
    assert trouble in problem["trouble"]


def test_an_unknown_field_of_a_part_is_named_at_its_place(service: Caller) -> None:
    body = a_request_body()
    body["lengths"][0]["parts"][0]["length_inch"] = 90

    (problem,) = refused(service, body)

    assert problem["field"].endswith("lengths[0].parts[0].length_inch")


def test_all_faults_of_a_batch_are_told_at_once(service: Caller) -> None:
    body = a_batch_body(seconds=float("nan"), compare="yes", rack=[{"id": "R1"}])
    body["walls"][0]["site"]["clear_width_mm"] = "wide"
    body["prices"]["lengths"][0]["stock"][0]["price"] = 3.58

    fields = " ".join(problem["field"] for problem in refused(service, body, "/v1/batches"))

    for place in ("seconds", "compare", "rack", "clear_width_mm", "price"):
        assert place in fields


def test_a_batch_without_walls_is_refused(service: Caller) -> None:
    (problem,) = refused(service, a_batch_body(walls=[]), "/v1/batches")

    assert problem["field"] == "body.walls"


@pytest.mark.parametrize(
    ("path", "body"), [("/v1/plans", a_request_body), ("/v1/batches", a_batch_body)]
)
def test_more_seconds_than_the_service_gives_are_refused_not_cut(
    service: Caller, path: str, body: Any
) -> None:
    (problem,) = refused(service, body(seconds=600.5), path)

    assert problem["field"] == "seconds"
    assert "600.5 is more than 600" in problem["trouble"]


def test_a_part_longer_than_all_stock_is_named(service: Caller) -> None:
    body = a_request_body()
    body["lengths"][0]["parts"][0]["length_mm"] = 2391

    (problem,) = refused(service, body)

    assert "A/upright-1" in problem["field"]
    assert "2391" in problem["trouble"]


def test_a_board_larger_than_all_sheets_is_named(service: Caller) -> None:
    body = a_request_body()
    body["sheets"][0]["parts"][0]["width_mm"] = 2500

    (problem,) = refused(service, body)

    assert "A/backboard" in problem["field"]


def test_a_shortage_is_no_plan_and_names_what_is_missing(service: Caller) -> None:
    body = a_request_body()
    body["lengths"][0]["stock"][0]["available"] = 3

    document = the_problem(service.post("/v1/plans", body), status=422, kind="no-plan")

    enough, problem = document["problems"]
    assert "the stock is short of 1 piece" in enough["trouble"]
    assert "A/upright-1" in problem["field"]
    assert problem["trouble"].startswith("1 of 4 × 2281.5")


def test_a_wall_with_a_finding_that_stops_it_has_no_plan(service: Caller) -> None:
    body = a_batch_body()
    # So heavy at the end of its bracket that the top screws pull out.
    body["walls"][0]["tv"]["mass_kg"] = 200

    document = the_problem(service.post("/v1/batches", body), status=422, kind="no-plan")

    assert all(problem["field"].startswith("job A, ") for problem in document["problems"])


def test_two_walls_of_one_job_are_refused(service: Caller) -> None:
    body = a_batch_body()
    body["walls"] *= 2

    (problem,) = refused(service, body, "/v1/batches")

    assert problem["field"] == "job 'A'"


@pytest.mark.parametrize("path", BODIES)
def test_a_body_over_the_limit_is_refused_by_its_declared_size(service: Caller, path: str) -> None:
    answer = service.ask("POST", path, content=b" " * 10_000_000)

    assert "5000000" in the_problem(answer, status=413, kind="too-large")["detail"]


@pytest.mark.parametrize("path", BODIES)
def test_a_body_over_the_limit_is_refused_when_sent_in_pieces(service: Caller, path: str) -> None:
    sent = 0

    async def pieces() -> AsyncIterator[bytes]:
        nonlocal sent
        for _ in range(100):
            sent += 1
            yield b" " * 100_000

    the_problem(service.ask("POST", path, content=pieces()), status=413, kind="too-large")
    # It stops reading at the limit.
    assert sent < 60


def test_a_body_just_within_the_limit_is_read() -> None:
    content = json.dumps(a_request_body()).encode()
    enough, one_too_few = (Caller(a_service(most_bytes=len(content) - few)) for few in (0, 1))

    assert enough.ask("POST", "/v1/plans", content=content).status_code == 201
    the_problem(one_too_few.ask("POST", "/v1/plans", content=content), status=413, kind="too-large")


def test_a_fault_of_the_program_is_told_without_its_inside(
    service: Caller, monkeypatch: pytest.MonkeyPatch
) -> None:
    def broken(*_: object, **__: object) -> None:
        raise RuntimeError("inside of the program")

    monkeypatch.setattr(lib, "plan_cutting", broken, raising=False)

    answer = service.post("/v1/plans", a_request_body())

    the_problem(answer, status=500, kind="our-fault")
    assert "inside" not in answer.text
    assert "RuntimeError" not in answer.text


def test_a_plan_that_fails_its_check_is_never_handed_out(
    service: Caller, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refused_plan(*_: object, **__: object) -> None:
        problem = lib.Problem("lengths[0]", "a part is missing", "Report it")
        raise lib.PlanRefused((problem,))

    monkeypatch.setattr(lib, "plan_cutting", refused_plan, raising=False)

    document = the_problem(
        service.post("/v1/plans", a_request_body()), status=500, kind="plan-refused"
    )

    assert "plan" not in document
