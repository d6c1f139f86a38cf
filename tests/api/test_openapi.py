"""The OpenAPI document tells the truth: references resolve, examples work, errors are named."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest

from api.examples import EXAMPLES
from api.problems import MEDIA_TYPE
from tests.api.bodies import Caller, a_service


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


def test_every_operation_with_a_body_has_its_schema(document: dict[str, Any]) -> None:
    posts = [(path, item) for path, _, item in operations(document) if "requestBody" in item]

    assert {path for path, _ in posts} >= {"/v1/plans", "/v1/batches", "/v1/checks"}
    for path, operation in posts:
        schema = operation["requestBody"]["content"]["application/json"]["schema"]
        assert set(schema) == {"$ref"}, path


def test_every_operation_is_said_in_a_sentence(document: dict[str, Any]) -> None:
    for path, method, operation in operations(document):
        assert operation.get("description", "").endswith("."), (method, path)
