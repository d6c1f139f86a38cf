"""The OpenAPI document: the library's own schemas, and an example for every body."""

from __future__ import annotations

from typing import Any

from fastapi import FastAPI
from fastapi.openapi.utils import get_openapi

import optimiser as lib
from api.problems import MEDIA_TYPE, PROBLEM_SCHEMA

_REF = "#/components/schemas/{model}"

REQUEST_EXAMPLE: dict[str, Any] = {
    "seed": 1,
    "seconds": 2,
    "keep": {"length_mm": 600, "width_mm": 300, "height_mm": 300, "credit": "0.5"},
    "lengths": [
        {
            "material": "c16-38x63",
            "kerf_mm": 3,
            "end_trim_mm": 10,
            "stock": [
                {"id": "c16-38x63-2400", "length_mm": 2400, "price": "3.60", "available": None}
            ],
            "offcuts": [{"id": "R14", "length_mm": 1130}],
            "parts": [{"id": "A/upright-1", "job": "A", "length_mm": 2281.5, "quantity": 4}],
        }
    ],
    "sheets": [
        {
            "material": "mdf-12",
            "kerf_mm": 3,
            "edge_trim_mm": 5,
            "max_stages": None,
            "cutting": "saw",
            "stock": [
                {
                    "id": "mdf-12-2440x1220",
                    "width_mm": 1220,
                    "height_mm": 2440,
                    "price": "24.00",
                    "available": 10,
                }
            ],
            "offcuts": [{"id": "R3", "width_mm": 610, "height_mm": 900}],
            "parts": [
                {
                    "id": "A/backboard",
                    "job": "A",
                    "width_mm": 1500,
                    "height_mm": 900,
                    "quantity": 1,
                    "turn": True,
                    "cut_outs": [{"x_mm": 0, "y_mm": 0, "width_mm": 200, "height_mm": 300}],
                }
            ],
        }
    ],
    "choices": [],
}
BATCH_EXAMPLE: dict[str, Any] = {
    "seconds": 2,
    "walls": [
        {
            "job": "A",
            "site": {"clear_width_mm": 2400, "height_left_mm": 2400},
            "wall": {"depth_mm": 300},
            "tv": {"diagonal_in": 50, "depth_mm": 60, "mass_kg": 14, "recess_depth_mm": 110},
        }
    ],
    "rack": [{"id": "R1", "material": "c16-38x63", "length_mm": 1790}],
    "prices": {
        "merchant": "Demo Merchant",
        "currency": "GBP",
        "vat_percent": 20,
        "lengths": [
            {
                "material": "c16-38x63",
                "description": "Studwork timber 38 × 63, C16",
                "thickness_mm": 38,
                "width_mm": 63,
                "grade": "C16",
                "mass_kg_per_m": 1.1,
                "stock": [{"id": "c16-38x63-2400", "length_mm": 2400, "price": "3.58"}],
            },
            {
                "material": "corner-bead",
                "description": "Thin-coat corner bead",
                "thickness_mm": 3,
                "width_mm": 25,
                "mass_kg_per_m": 0.1,
                "kerf_mm": 1,
                "stock": [{"id": "corner-bead-2400", "length_mm": 2400, "price": "1.46"}],
            },
            {
                "material": "stop-bead",
                "description": "Thin-coat stop bead",
                "thickness_mm": 3,
                "width_mm": 20,
                "mass_kg_per_m": 0.1,
                "kerf_mm": 1,
                "stock": [{"id": "stop-bead-3000", "length_mm": 3000, "price": "1.72"}],
            },
        ],
        "sheets": [
            {
                "material": "plasterboard-12.5",
                "description": "Plasterboard 12.5",
                "thickness_mm": 12.5,
                "mass_kg_per_m2": 8.0,
                "cutting": "knife",
                "stock": [{"id": "pb-2400", "width_mm": 1200, "height_mm": 2400, "price": "8.95"}],
            },
            {
                "material": "mdf-12",
                "description": "MDF 12",
                "thickness_mm": 12,
                "mass_kg_per_m2": 8.6,
                "cutting": "saw",
                "kerf_mm": 3,
                "stock": [
                    {"id": "mdf-12-2440", "width_mm": 1220, "height_mm": 2440, "price": "24.00"}
                ],
            },
        ],
        "packs": [
            {
                "item": item,
                "unit": unit,
                "packs": [
                    {"id": f"{item}-pack", "description": item, "size": size, "price": "9.80"}
                ],
            }
            for item, unit, size in (
                ("screw-80", "each", 200),
                ("screw-100", "each", 100),
                ("drywall-screw", "each", 200),
                ("mdf-screw", "each", 200),
                ("plug-fixing", "each", 50),
                ("joint-tape", "mm", 90_000),
                ("angle-tape", "mm", 75_000),
                ("adhesive", "ml", 310),
                ("plaster", "g", 25_000),
            )
        ],
    },
}


def body_of(name: str) -> dict[str, Any]:
    """Describe a body for one route: its schema by reference, and an example that works."""
    example = {"cutting-request": REQUEST_EXAMPLE, "batch": BATCH_EXAMPLE}.get(name)
    content: dict[str, Any] = {"schema": {"$ref": _REF.format(model=name)}}
    if example is not None:
        content["example"] = example
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
