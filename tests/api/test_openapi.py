"""The OpenAPI document tells the truth: references resolve, examples work, errors are named."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

import pytest
from jsonschema_rs import Draft202012Validator

from api.bodies import BATCH_FIELDS
from api.examples import EXAMPLES
from api.problems import MEDIA_TYPE
from tests.api.bodies import Caller, a_batch_body, a_service

PARAMETER = re.compile(r"{(\w+)}")


@pytest.fixture(scope="module")
def service() -> Caller:
    return Caller(a_service())


@pytest.fixture(scope="module")
def document(service: Caller) -> dict[str, Any]:
    found = service.get("/openapi.json").json()
    assert isinstance(found, dict)
    return found


def references(node: object) -> Iterator[str]:
    if isinstance(node, dict):
        for key, value in node.items():
            if key == "$ref":
                yield value
            else:
                yield from references(value)
    elif isinstance(node, list):
        for item in node:
            yield from references(item)


def operations(document: dict[str, Any]) -> Iterator[tuple[str, str, dict[str, Any]]]:
    for path, methods in document["paths"].items():
        for method, operation in methods.items():
            yield path, method, operation


def test_every_reference_leads_to_something(document: dict[str, Any]) -> None:
    found = set(references(document))

    assert "#/components/schemas/cutting-request" in found
    for reference in found:
        assert reference.startswith("#/"), reference
        node: Any = document
        for step in reference[2:].split("/"):
            assert step in node, reference
            node = node[step]


def example_of(document: dict[str, Any], operation: dict[str, Any]) -> Any:
    """Return the example of an operation's body, from the body or from its schema."""
    body = operation["requestBody"]["content"]["application/json"]
    if "example" in body:
        return body["example"]
    schema = document["components"]["schemas"][body["schema"]["$ref"].rpartition("/")[2]]
    return schema["examples"][0]


def test_every_example_of_a_body_is_accepted(service: Caller, document: dict[str, Any]) -> None:
    document = closed(document)
    rack = service.post("/v1/rack", [{"id": "R99", "material": "m", "length_mm": 900}]).json()
    wall = service.post("/v1/walls", EXAMPLES["wall"]).json()
    # Nothing is kept, so that no label of the example rack is taken.
    none = {"length_mm": 9000, "width_mm": 9000, "height_mm": 9000, "credit": "0"}
    plan = service.post(
        "/v1/plans", {**EXAMPLES["cutting-request"], "seconds": 0.1, "keep": none}
    ).json()
    service.post(f"/v1/plans/{plan['id']}/confirm")
    kept = {"wall_id": wall["id"], "job_id": wall["job"], "label": rack["racked"][0]["id"]}
    kept["plan_id"] = plan["id"]
    batch = service.post("/v1/batches", a_batch_body(keep=none)).json()["id"]
    service.post(f"/v1/plans/{batch}/confirm")
    kept["order_id"] = service.get(f"/v1/orders?plan={batch}").json()["items"][0]["id"]
    tried = []
    for path, method, operation in operations(document):
        if "requestBody" in operation:
            tried.append(path)
            example = example_of(document, operation)
            if path in ("/v1/plans", "/v1/batches"):
                example = {**example, "seconds": 0.1}
            if (method, path) == ("post", "/v1/jobs"):
                example = {**example, "name": "another"}
            filled = path.format(name="usual", **kept)
            answer = service.ask(method.upper(), filled, json=example)
            assert answer.status_code in (200, 201), (path, answer.text)
            assert answer.json().get("sound", True)
            responses = operation["responses"]
            told = next(responses[status] for status in ("200", "201") if status in responses)
            schema = told["content"]["application/json"]["schema"]
            assert faults_of(document, schema, answer.json()) == [], path

    assert {"/v1/plans", "/v1/batches", "/v1/checks", "/v1/rack", "/v1/walls"} <= set(tried)


def test_every_operation_names_its_errors_as_problem_details(document: dict[str, Any]) -> None:
    problem = {MEDIA_TYPE: {"schema": {"$ref": "#/components/schemas/problem"}}}
    for path, _, operation in operations(document):
        expected = []
        if "requestBody" in operation:
            expected += ["413", "422"]
        if "{" in path:
            expected += ["404", "422"]
        for status in expected:
            assert operation["responses"][status]["content"] == problem, (path, status)
        named = {status for status in operation["responses"] if not status.startswith("2")}
        assert named >= set(expected)


def test_a_thing_that_a_query_names_may_be_missing(document: dict[str, Any]) -> None:
    for path in ("/v1/rack/labels.pdf", "/v1/plans"):
        assert "404" in document["paths"][path]["get"]["responses"]


def test_every_operation_with_a_body_has_its_schema(document: dict[str, Any]) -> None:
    posts = [(path, item) for path, _, item in operations(document) if "requestBody" in item]

    assert {path for path, _ in posts} >= {"/v1/plans", "/v1/batches", "/v1/checks"}
    for path, operation in posts:
        schema = operation["requestBody"]["content"]["application/json"]["schema"]
        assert set(schema) == {"$ref"}, path


def test_every_operation_is_said_in_a_sentence(document: dict[str, Any]) -> None:
    for path, method, operation in operations(document):
        assert operation.get("description", "").endswith("."), (method, path)


def test_every_operation_has_an_answer_with_schema_and_example(document: dict[str, Any]) -> None:
    for path, method, operation in operations(document):
        answers = operation["responses"]
        if "204" in answers:
            continue
        (content,) = answers["200" if "200" in answers else "201"]["content"].values()
        assert content["schema"], f"{method} {path}: describe it in api/answer_shapes.py"
        assert "example" in content, f"{method} {path}: describe it in api/answer_shapes.py"


def test_every_example_of_an_answer_is_valid(document: dict[str, Any]) -> None:
    for path, method, operation in operations(document):
        for answer in operation["responses"].values():
            for kind, content in answer.get("content", {}).items():
                if kind == "application/json":
                    faults = faults_of(document, content["schema"], content["example"])
                    assert faults == [], (method, path)


def faults_of(document: dict[str, Any], schema: dict[str, Any], thing: object) -> list[str]:
    whole = {**schema, "components": document["components"]}
    found = Draft202012Validator(whole, validate_formats=False).iter_errors(thing)
    return [f"{list(fault.instance_path)}: {fault.message[:300]}" for fault in found]


def closed(node: Any) -> Any:
    """Return schemas in which what is answered has no field beside those described.

    A caller may not count on that, as answers get new fields; our own description must have all.
    """
    if isinstance(node, list):
        return [closed(item) for item in node]
    if not isinstance(node, dict):
        return node
    found = {name: closed(value) for name, value in node.items()}
    if node.get("type") == "object" and "properties" in node:
        found.setdefault("additionalProperties", False)
    return found


def test_all_that_a_batch_may_say_is_described(document: dict[str, Any]) -> None:
    told = document["components"]["schemas"]["batch"]["properties"]

    assert set(told) >= set(BATCH_FIELDS)


def test_real_answers_are_as_described(service: Caller, document: dict[str, Any]) -> None:
    document = closed(document)
    rack = service.post("/v1/rack", [{"id": "R77", "material": "mdf-12", "length_mm": 900}]).json()
    wall = service.post("/v1/walls", EXAMPLES["wall"]).json()
    service.put("/v1/price-books/kept", EXAMPLES["price-book"])
    plan = service.post("/v1/batches", {**EXAMPLES["batch"], "seconds": 0.1}).json()
    run = service.post("/v1/plans", {**EXAMPLES["cutting-request"], "seconds": 0.1}).json()["run"]
    (order,) = service.get(f"/v1/orders?plan={plan['id']}").json()["items"]
    kept = {
        "wall_id": wall["id"],
        "job_id": wall["job"],
        "label": rack["racked"][0]["id"],
        "name": "kept",
        "plan_id": plan["id"],
        "run_id": run,
        "order_id": order["id"],
    }
    dealt = service.post("/v1/deliveries", {**EXAMPLES["deal"], "seconds": 0.1}).json()["id"]
    looked = 0
    for path, method, operation in operations(document):
        content = operation["responses"].get("200", {}).get("content", {})
        known = all(f"{{{step}}}" not in path or step in kept for step in PARAMETER.findall(path))
        if method == "get" and "application/json" in content and known:
            own = {"run_id": dealt} if path.startswith("/v1/deliveries") else {}
            answer = service.get(path.format(**{**kept, **own}))
            assert answer.status_code == 200, (path, answer.text)
            schema = content["application/json"]["schema"]
            assert faults_of(document, schema, answer.json()) == [], path
            looked += 1
    assert looked > 20


def test_what_changes_has_an_etag_and_can_be_asked_for_conditionally(
    document: dict[str, Any],
) -> None:
    """Whatever is changed by PUT, DELETE or a step of its own takes If-Match; GET tells its ETag.

    Not so the rack: its ledger is only added to, and refuses what does not follow from it. And not
    a run's cancelling, which changes nothing the second time; ticks are only added, each once; and
    what is only worked out changes nothing.
    """
    without = {("post", "/v1/runs/{run_id}/cancel"), ("post", "/v1/rack/{label}/corrections")}
    steps = ("marks", "replan", "near-misses", "spares")
    without |= {("post", f"/v1/plans/{{plan_id}}/{step}") for step in steps}
    for path, method, operation in operations(document):
        given = {parameter["name"].lower() for parameter in operation.get("parameters", ())}
        is_one = "{" in path
        if method in ("put", "delete") or (method == "post" and is_one):
            assert ("if-match" in given) is ((method, path) not in without), (method, path)
        elif path.endswith("_id}") or path == "/v1/price-books/{name}":
            assert "if-none-match" in given, (method, path)
            assert "ETag" in operation["responses"]["200"]["headers"]


def test_a_version_that_the_caller_has_is_not_sent_again(service: Caller) -> None:
    made = service.post("/v1/plans", {**EXAMPLES["cutting-request"], "seconds": 0.1}).json()
    for path in (f"/v1/plans/{made['id']}", f"/v1/runs/{made['run']}"):
        tag = service.get(path).headers["etag"]
        again = service.get(path, if_none_match=f'"other", W/{tag}')
        assert (again.status_code, again.content, again.headers["etag"]) == (304, b"", tag)
        assert service.get(path, if_none_match='"other"').status_code == 200


def test_a_price_book_that_somebody_else_added_to_is_not_passed_over(service: Caller) -> None:
    path, book = "/v1/price-books/contested", EXAMPLES["price-book"]
    first = service.put(path, book).headers["etag"]
    second = service.put(path, book, if_match=first)
    late = service.put(path, book, if_match=first)

    assert (second.status_code, late.status_code) == (201, 412)
    assert service.get(path).headers["etag"] == second.headers["etag"]


def test_each_step_of_a_plan_tells_the_etag_of_the_next(service: Caller) -> None:
    made = service.post("/v1/plans", {**EXAMPLES["cutting-request"], "seconds": 0.1})
    path = f"/v1/plans/{made.json()['id']}"
    confirmed = service.post(f"{path}/confirm", if_match=made.headers["etag"])
    stale = service.post(f"{path}/undo", if_match=made.headers["etag"])
    undone = service.post(f"{path}/undo", if_match=confirmed.headers["etag"])

    assert (confirmed.status_code, stale.status_code, undone.status_code) == (200, 412, 200)
    assert service.get(path).headers["etag"] == undone.headers["etag"]
