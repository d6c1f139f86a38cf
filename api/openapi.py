"""The OpenAPI document: the library's own schemas, and an example for every body."""

from __future__ import annotations

from typing import Any

from fastapi import FastAPI
from fastapi.openapi.utils import get_openapi

import optimiser as lib
from api.examples import EXAMPLES
from api.problems import MEDIA_TYPE, PROBLEM_SCHEMA

_REF = "#/components/schemas/{model}"


def body_of(name: str) -> dict[str, Any]:
    """Describe a body for one route: its schema by reference, and an example that works."""
    content = {"schema": {"$ref": _REF.format(model=name)}, "example": EXAMPLES[name]}
    return {"requestBody": {"required": True, "content": {"application/json": content}}}


def add_openapi(app: FastAPI) -> None:
    """Give the app an OpenAPI document with the library's schemas among its components."""

    def document() -> dict[str, Any]:
        if app.openapi_schema is None:
            app.openapi_schema = _document(app)
        return app.openapi_schema

    app.openapi = document  # type: ignore[method-assign]  # FastAPI's documented way to extend it


def _document(app: FastAPI) -> dict[str, Any]:
    document = get_openapi(
        title=app.title,
        version=app.version,
        summary=app.summary,
        description=app.description,
        routes=app.routes,
    )
    components = document.setdefault("components", {}).setdefault("schemas", {})
    for name, schema in lib.schemas(ref_template=_REF).items():
        components.update(schema.pop("$defs", {}))
        components[name] = schema
    components["batch"] = {
        "type": "object",
        "additionalProperties": False,
        "required": ["walls", "prices"],
        "properties": {
            "walls": {"type": "array", "minItems": 1, "items": {"$ref": _REF.format(model="wall")}},
            "prices": {"$ref": _REF.format(model="price-book")},
            "rack": {"type": "array", "items": {"$ref": _REF.format(model="rack-offcut")}},
            "keep": {"$ref": _REF.format(model="KeepDocument")},
            "seed": {"type": "integer", "minimum": 0},
            "seconds": {"type": "number", "minimum": 0, "maximum": 30},
            "compare": {"type": "boolean"},
        },
    }
    components["check"] = {
        "type": "object",
        "additionalProperties": False,
        "required": ["request", "plan"],
        "properties": {
            "request": {"$ref": _REF.format(model="cutting-request")},
            "plan": {"$ref": _REF.format(model="cutting-plan")},
        },
    }
    components["problem"] = PROBLEM_SCHEMA
    for path in document["paths"].values():
        for operation in path.values():
            _describe_errors(operation)
    return document


def _describe_errors(operation: dict[str, Any]) -> None:
    """Name the errors a route can answer, all of them problem details."""
    content = {MEDIA_TYPE: {"schema": {"$ref": _REF.format(model="problem")}}}
    responses = operation["responses"]
    if "requestBody" in operation:
        responses["413"] = {"description": "The body is too large", "content": content}
        responses["422"] = {"description": "Bad input, or no plan", "content": content}
        responses["500"] = {"description": "A fault of the program", "content": content}
    elif any(parameter["in"] == "path" for parameter in operation.get("parameters", ())):
        responses["404"] = {"description": "Not found, or no longer kept", "content": content}
        responses["422"] = {"description": "Bad input", "content": content}
