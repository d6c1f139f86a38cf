"""The OpenAPI document: the library's own schemas, and an example for every body."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from fastapi import APIRouter, FastAPI
from fastapi.openapi.utils import get_openapi
from fastapi.routing import APIRoute

import optimiser as lib
from api.answer_shapes import ANSWERS, COMPONENTS, RUN_INSTEAD
from api.examples import EXAMPLES
from api.problems import MEDIA_TYPE, PROBLEM_SCHEMA
from api.shapes import Shape

_REF = "#/components/schemas/{model}"
_TEXT = {"type": "string"}
# What a query calls a thing of the firm's that must be there.
_NAMES = ("after", "plan", "offcut")
_FILE = {"type": "string", "format": "binary"}


class Routes(APIRouter):
    """A router whose answers are described by `answer_shapes`, not by what functions return.

    So nothing is made of an answer twice, and a service with many routes still starts quickly.
    """

    def add_api_route(self, path: str, endpoint: Callable[..., Any], **options: Any) -> None:
        """Add a route. Any: FastAPI's own options, passed on."""
        options["response_model"] = None
        # Clients made from the document call what a route's function is called.
        options["generate_unique_id_function"] = _name_of
        super().add_api_route(path, endpoint, **options)


def _name_of(route: APIRoute) -> str:
    return route.name


def add_routes(app: FastAPI, *routers: Routes) -> None:
    """Give the app its routes as they stand.

    `include_router` would make each of them a second time, at the first call, which takes longer
    than making the whole app; it is for routes that stand in several places.
    """
    for router in routers:
        app.router.routes.extend(router.routes)


def body_of(name: str) -> dict[str, Any]:
    """Describe a body for one route: its schema by reference, and an example that works."""
    content = {"schema": {"$ref": _REF.format(model=name)}, "example": EXAMPLES[name]}
    return {"requestBody": {"required": True, "content": {"application/json": content}}}


def add_openapi(app: FastAPI, *, public: bool) -> None:
    """Give the app an OpenAPI document with the library's schemas among its components.

    `public`: every call under /v1 needs a key.
    """

    def document() -> dict[str, Any]:
        if app.openapi_schema is None:
            app.openapi_schema = _document(app, public=public)
        return app.openapi_schema

    app.openapi = document  # type: ignore[method-assign]  # FastAPI's documented way to extend it


def _document(app: FastAPI, *, public: bool) -> dict[str, Any]:
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
    _drop_titles(components)
    components["batch"] = {
        "type": "object",
        "additionalProperties": False,
        "properties": {
            "walls": {"type": "array", "minItems": 1, "items": {"$ref": _REF.format(model="wall")}},
            "wall_ids": {"type": "array", "minItems": 1, "items": {"type": "string"}},
            "jobs": {"type": "array", "items": {"type": "object"}},
            "job_ids": {
                "type": "array",
                "minItems": 1,
                "items": {"type": "string"},
                "description": "Kept jobs, with all their walls and listed parts.",
            },
            "prices": {"$ref": _REF.format(model="price-book")},
            "price_book": {
                "type": "string",
                "description": "A kept price book's name; without prices.",
            },
            "merchants": {
                "type": "array",
                "maxItems": 10,
                "items": {"$ref": _REF.format(model="price-book")},
                "description": "Several merchants' price books: the cheapest or two are chosen. "
                "`prices` or `price_book` beside them is one merchant more, the first.",
            },
            "price_books": {
                "type": "array",
                "maxItems": 10,
                "items": {"type": "string"},
                "description": "The names of kept price books, as merchants.",
            },
            "split_saves": {
                "type": "string",
                "pattern": r"^[0-9]+([.,][0-9]{1,2})?$",
                "maxLength": 28,
                "description": "Two merchants are ordered from where that saves more; else 50.00.",
            },
            "rack": {"type": "array", "items": {"$ref": _REF.format(model="rack-offcut")}},
            "keep": {"$ref": _REF.format(model="KeepDocument")},
            "seed": {"type": "integer", "minimum": 0},
            "seconds": {"type": "number", "minimum": 0, "maximum": 600},
            "access": {"type": "array", "items": {"$ref": _REF.format(model="AccessDocument")}},
            "fewer_layouts": {
                "type": "boolean",
                "description": "Up to 0.25 % may be paid for fewer different layouts of lengths.",
            },
            "compare": {"type": "boolean"},
            "keep_by_history": {
                "type": "boolean",
                "description": "Keep rules follow from what became of the rack's offcuts.",
            },
            "coming": {
                "type": "object",
                "additionalProperties": False,
                "properties": {
                    "walls": {"type": "array", "items": {"$ref": _REF.format(model="wall")}},
                    "jobs": {"type": "array", "items": {"type": "object"}},
                },
                "description": "Jobs not bought yet, whose parts make offcuts worth keeping; "
                "with keep_by_history.",
            },
            "coming_job_ids": {
                "type": "array",
                "items": {"type": "string"},
                "description": "Kept jobs as jobs not bought yet, with keep_by_history.",
            },
        },
    }
    components["frame"] = {
        "type": "object",
        "additionalProperties": False,
        "required": ["wall"],
        "properties": {
            "wall": {"$ref": _REF.format(model="wall")},
            "prices": {"$ref": _REF.format(model="price-book")},
            "price_book": {
                "type": "string",
                "description": "A kept price book's name; without prices.",
            },
        },
    }
    given = components["batch"]["properties"]
    shared = ("walls", "wall_ids", "jobs", "job_ids", "prices", "price_book", "keep")
    components["deal"] = {
        "type": "object",
        "additionalProperties": False,
        "required": ["terms"],
        "properties": {
            **{name: given[name] for name in (*shared, "seed", "seconds")},
            "terms": {"$ref": _REF.format(model="delivery-terms")},
            "today": {
                "type": "string",
                "format": "date",
                "description": "The day from which deliveries can come; else today (UTC).",
            },
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
    components["rack"] = {"type": "array", "items": {"$ref": _REF.format(model="rack-offcut")}}
    components["problem"] = PROBLEM_SCHEMA
    components.update({name: shape.schema for name, shape in COMPONENTS.items()})
    for path, methods in document["paths"].items():
        for method, operation in methods.items():
            _describe_answer(operation, ANSWERS.get((method, path)))
            _describe_errors(operation, kept=path.startswith("/v1"), public=public)
    if public:
        schemes = document["components"].setdefault("securitySchemes", {})
        schemes["key"] = {"type": "http", "scheme": "bearer"}
    return document


def _drop_titles(node: Any) -> None:
    """Take the titles off schemas: they say a field's name again, and clients are named by them."""
    if isinstance(node, dict):
        if isinstance(node.get("title"), str):
            del node["title"]
        for value in node.values():
            _drop_titles(value)
    elif isinstance(node, list):
        for value in node:
            _drop_titles(value)


def _describe_answer(operation: dict[str, Any], shape: Shape | None) -> None:
    """Give an operation's answer its schema and example, and its ETag where it has one."""
    responses = operation["responses"]
    if shape is not None:
        answer = next(responses[status] for status in ("200", "201") if status in responses)
        for content in answer["content"].values():
            content |= {"schema": shape.schema, "example": shape.example}
    for status in ("200", "201"):
        for kind, content in responses.get(status, {}).get("content", {}).items():
            if shape is None and kind != "application/json":
                content |= {"schema": _FILE, "example": "(the file)"}
    if "202" in responses:
        run = {"schema": RUN_INSTEAD.schema, "example": RUN_INSTEAD.example}
        responses["202"]["content"] = {"application/json": run}
    named = {parameter["name"].lower() for parameter in operation.get("parameters", ())}
    if named & {"if-none-match", "if-match"}:
        for status in {"200", "201"} & set(responses):
            responses[status]["headers"] = {
                "ETag": {"description": "What this version is called.", "schema": _TEXT}
            }
    if "if-none-match" in named:
        responses["304"] = {"description": "The caller has this version already"}


def _describe_errors(operation: dict[str, Any], *, kept: bool, public: bool) -> None:
    """Name the errors a route can answer, all of them problem details."""
    content = {MEDIA_TYPE: {"schema": {"$ref": _REF.format(model="problem")}}}
    named: dict[str, str] = {}
    given = operation.get("parameters", ())
    if "requestBody" in operation:
        named |= {"413": "The body is too large", "422": "Bad input, or no plan"}
        named |= {"500": "A fault of the program"}
    elif given:
        named |= {"422": "Bad input"}
    names_a_thing = any(
        parameter["in"] == "path" or parameter["name"] in _NAMES for parameter in given
    )
    if names_a_thing or "requestBody" in operation:
        named |= {"404": "The firm has no such thing"}
    if (kept and "200" not in operation["responses"]) or "requestBody" in operation:
        named |= {"409": "Not as things stand"}
    if any(parameter["name"].lower() == "if-match" for parameter in given):
        named |= {"409": "Not as things stand", "412": "Changed by somebody else meanwhile"}
    if kept:
        named |= {"503": "The store does not answer"}
    if kept and public:
        operation["security"] = [{"key": []}]
        named |= {
            "401": "No key",
            "403": "A role is missing",
            "429": "Too many calls, or too much planning",
        }
    for status, words in named.items():
        operation["responses"][status] = {"description": words, "content": content}
