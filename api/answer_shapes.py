"""What each route answers when all is well: schemas among the components, and an example."""

from __future__ import annotations

from typing import Any

from api.examples import BATCH_EXAMPLE, CHECK_EXAMPLE, EXAMPLES
from api.shapes import (
    Shape,
    flag,
    many,
    moment,
    money,
    named,
    number,
    one_of,
    page,
    text,
    thing,
    whole,
)

_PLAN, _RUN, _ORDER = "plan-0b52c1f0a9d84e77", "run-5d1f2a3b4c5d6e7f", "order-0b52c1f0a9d84e77"
_JOB, _WALL = "job-3f2e1d0c9b8a7f6e", "wall-9a8b7c6d5e4f3a2b"
_ANY_OBJECT: dict[str, Any] = {"type": "object"}

_PROBLEM = thing({"field": text("body"), "trouble": text("is late"), "remedy": text("Ask again")})
_CELL = thing(
    {
        "row": whole(2).or_null(),
        "column": text("A").or_null(),
        "field": text("parts.csv, row 2, column A (mark)"),
        "trouble": text("is empty"),
        "remedy": text("Give the part a mark"),
    }
)
_LINE = thing(
    {
        "item": text("mdf-12-2440x1220"),
        "description": text("MDF 12, 1220 × 2440 mm"),
        "quantity": whole(1),
        "unit_price": money("24.00"),
        "line_total": money("24.00"),
        "jobs": many(text("A")),
        "needed_by": text("2026-12-07"),
    },
    {"charge": flag(example=False)},
)
_SIZES = {
    "length_mm": number(1130),
    "width_mm": number(610),
    "height_mm": number(900),
}

# Schemas of their own, by the name that others refer to.
SHAPES: dict[str, Shape] = {
    "run": thing(
        {
            "id": text(_RUN),
            "kind": text("request"),
            "state": one_of("queued", "running", "done", "cancelled", "failed"),
            "created": moment(),
            "started": moment().or_null().but(None),
            "ended": moment().or_null().but(None),
            "deadline": moment().or_null().but(None),
            "seconds_asked": number(60),
            "seconds": number(0).or_null().but(None),
            "net_cost": money("0.00").or_null().but(None),
            "lower_bound": money("0.00").or_null().but(None),
            "layouts": whole(0).or_null().but(None),
            "attempt": whole(0),
            "cancel_asked": flag(example=False),
            "plan": text(_PLAN).or_null().but(None),
            "problems": many(_PROBLEM, examples=0),
        }
    ),
    "order": thing(
        {
            "merchant": text("Demo Merchant"),
            "currency": text("GBP"),
            "lines": many(_LINE),
            "net": money("24.00"),
            "vat_percent": number(20),
            "vat": money("4.80"),
            "total": money("28.80"),
        }
    ),
    "rack-piece": thing(
        {
            "id": text("R14"),
            "material": text("c16-38x63"),
            "place": text("lengths"),
        },
        {**_SIZES, "held_by": text(_PLAN).or_null(), "racked": moment().or_null()},
    ),
    "ledger-line": thing(
        {
            "id": whole(1),
            "offcut": text("R14"),
            "kind": one_of("racked", "reserved", "released", "used", "scrapped", "adjusted"),
            "on_rack": whole(1),
            "held": whole(0),
            "plan": text(_PLAN).or_null().but(None),
            "who": text("office"),
            "at": moment(),
            "why": text("put up by hand"),
        }
    ),
    "kept-job": thing(
        {
            "id": text(_JOB),
            "version": whole(1),
            "created": moment(),
            "changed": moment(),
            "job": Shape(
                schema={**_ANY_OBJECT, "required": ["name"]},
                example={"name": "A", "client": "Demo Client", "needed": "2026-12-01"},
            ),
        },
        {
            "state": text("planned"),
            "plan": text(_PLAN).or_null(),
            "share": money("195.37").or_null(),
            "walls": many(text(_WALL)),
            "listed_parts": whole(0),
            "needed": text("2026-12-01"),
            "client": text("Demo Client"),
        },
    ),
    "kept-wall": thing(
        {
            "id": text(_WALL),
            "version": whole(1),
            "created": moment(),
            "changed": moment(),
            "wall": named("wall", BATCH_EXAMPLE["walls"][0]),
            "job": text(_JOB),
        }
    ),
    "price-book-version": thing(
        {
            "id": text("prices-1a2b3c4d5e6f7a8b"),
            "name": text("usual"),
            "version": whole(1),
            "valid_from": text("2026-11-26"),
            "created": moment(),
        },
        {"prices": named("price-book", EXAMPLES["price-book"])},
    ),
}
_KEPT_PLAN = {
    "id": text(_PLAN),
    "run": text(_RUN),
    "state": one_of("draft", "confirmed", "undone", "dropped", "planning"),
    "version": whole(2),
    "created": moment(),
}
SHAPES["made-plan"] = thing(
    {
        **_KEPT_PLAN,
        "request": named("cutting-request", CHECK_EXAMPLE["request"]),
        "plan": named("cutting-plan", CHECK_EXAMPLE["plan"]),
        "order": named("order", SHAPES["order"].example).or_null().but(None),
    },
    {
        "orders": many(named("order", None)),
        "merchants": Shape(schema=_ANY_OBJECT, example=None).or_null(),
        "shares": many(Shape(schema=_ANY_OBJECT, example=None)),
        "comparison": Shape(schema=_ANY_OBJECT, example=None).or_null(),
        "walls": many(Shape(schema=_ANY_OBJECT, example=None)),
    },
)
SHAPES["plan-summary"] = thing(
    {
        **_KEPT_PLAN,
        "net_cost": money("31.20").or_null(),
        "lower_bound": money("31.20").or_null(),
    }
)
_KEPT_ORDER = {
    "id": text(_ORDER),
    "plan": text(_PLAN),
    "state": one_of("draft", "placed", "withdrawn"),
    "created": moment(),
    "changed": moment(),
}
SHAPES["order-summary"] = thing(_KEPT_ORDER)
SHAPES["kept-order"] = thing(
    {**_KEPT_ORDER, "order": named("order", SHAPES["order"].example)},
)


def _of(name: str) -> Shape:
    return named(name, SHAPES[name].example)


def _list(of: Shape) -> Shape:
    return thing({"items": many(of)})


_STATE = {"id": text(_PLAN), "state": text("confirmed")}
# By method and path: what a 200 or 201 answers.
ANSWERS: dict[tuple[str, str], Shape] = {
    ("post", "/v1/plans"): _of("made-plan"),
    ("get", "/v1/plans"): page(_of("plan-summary")),
    ("post", "/v1/batches"): _of("made-plan"),
    ("get", "/v1/batches"): page(
        thing(
            {
                "id": text("batch-1a2b3c4d5e6f7a8b"),
                "run": text(_RUN),
                "jobs": many(text("A")),
                "created": moment(),
            }
        )
    ),
    ("post", "/v1/checks"): thing(
        {
            "sound": flag(example=True),
            "faults": many(
                thing({"where": text("lengths"), "what": text("too short")}), examples=0
            ),
        }
    ),
    ("get", "/v1/plans/{plan_id}"): _of("made-plan"),
    ("delete", "/v1/plans/{plan_id}"): thing({**_STATE, "state": text("dropped")}),
    ("post", "/v1/plans/{plan_id}/confirm"): thing({**_STATE, "racked": many(_of("rack-piece"))}),
    ("post", "/v1/plans/{plan_id}/undo"): thing({**_STATE, "state": text("undone")}),
    ("get", "/v1/plans/{plan_id}/diagrams"): thing(
        {
            "diagrams": many(
                thing(
                    {
                        "name": text("mdf-12-1"),
                        "title": text("MDF 12, layout 1"),
                        "href": text(f"/v1/plans/{_PLAN}/diagrams/mdf-12-1.svg"),
                    }
                )
            )
        }
    ),
    ("get", "/v1/plans/{plan_id}/diagrams/{name}.svg"): text('<svg viewBox="0 0 10 10"/>'),
    ("get", "/v1/plans/{plan_id}/order"): _of("order"),
    ("get", "/v1/plans/{plan_id}/order.csv"): text("line,item,description,quantity\r\n"),
    ("get", "/v1/orders"): page(_of("order-summary")),
    ("get", "/v1/orders/{order_id}"): _of("kept-order"),
    ("get", "/v1/orders/{order_id}/order.csv"): text("line,item,description,quantity\r\n"),
    ("get", "/v1/orders/{order_id}/order.xml"): text('<?xml version="1.0" encoding="UTF-8"?>'),
    ("get", "/v1/runs"): page(_of("run")),
    ("get", "/v1/runs/{run_id}"): _of("run"),
    ("post", "/v1/runs/{run_id}/cancel"): _of("run"),
    ("get", "/v1/runs/{run_id}/events"): text('event: run\ndata: {"id": "run-5d1f"}\n\n'),
    ("get", "/v1/rack"): page(_of("rack-piece")),
    ("post", "/v1/rack"): thing({"racked": many(_of("rack-piece"))}),
    ("post", "/v1/rack/{label}/corrections"): _of("ledger-line"),
    ("get", "/v1/rack/{label}/events"): _list(_of("ledger-line")),
    ("get", "/v1/ledger"): _list(_of("ledger-line")),
    ("get", "/v1/audit"): _list(
        thing(
            {
                "id": whole(1),
                "at": moment(),
                "who": text("office"),
                "action": text("add job"),
                "thing": text(_JOB),
            }
        )
    ),
    ("get", "/v1/jobs"): page(_of("kept-job")),
    ("post", "/v1/jobs"): _of("kept-job"),
    ("get", "/v1/jobs/{job_id}"): _of("kept-job"),
    ("put", "/v1/jobs/{job_id}"): _of("kept-job"),
    ("get", "/v1/walls"): page(_of("kept-wall")),
    ("post", "/v1/walls"): _of("kept-wall"),
    ("get", "/v1/walls/{wall_id}"): _of("kept-wall"),
    ("put", "/v1/walls/{wall_id}"): _of("kept-wall"),
    ("get", "/v1/price-books"): page(_of("price-book-version")),
    ("put", "/v1/price-books/{name}"): thing(
        {"name": text("usual"), "version": whole(1), "valid_from": text("2026-11-26")}
    ),
    ("get", "/v1/price-books/{name}"): _of("price-book-version"),
    ("post", "/v1/part-lists"): thing(
        {"jobs": many(thing({"id": text(_JOB), "name": text("shelves")}))}
    ),
    ("post", "/v1/frames"): thing(
        {
            "frame": Shape(schema=_ANY_OBJECT, example={"job": "A", "findings": []}),
            "drawings": many(
                thing(
                    {
                        "name": text("elevation"),
                        "title": text("Job A: frame"),
                        "svg": text('<svg viewBox="0 0 297 210"/>'),
                        "places": many(
                            thing(
                                {
                                    "mark": text("U1"),
                                    "x": number(21),
                                    "y": number(30),
                                    "width": number(1.9),
                                    "height": number(119.5),
                                }
                            )
                        ),
                    }
                )
            ),
        }
    ),
    ("post", "/v1/part-lists/preview"): thing(
        {
            "sound": flag(example=True),
            "rows": whole(1),
            "columns": many(
                thing(
                    {
                        "column": text("A"),
                        "header": text("mark"),
                        "read_as": text("part").or_null(),
                        "unit": text("mm").or_null().but(None),
                    }
                )
            ),
            "understood": whole(1),
            "parts": many(
                thing(
                    {
                        "row": whole(2),
                        "id": text("U1"),
                        "job": text("shelves"),
                        "name": text("upright"),
                        "material": text("c16-38x63"),
                        "quantity": whole(1),
                    },
                    {
                        "length_mm": text("900"),
                        "width_mm": text("900"),
                        "height_mm": text("900"),
                        "turn": flag(example=True),
                        "cut_outs": whole(0),
                    },
                )
            ),
            "faults": whole(0),
            "problems": many(_CELL, examples=0),
            "remarks": whole(0),
            "notes": many(_CELL, examples=0),
        }
    ),
    ("get", "/v1/plans/{plan_id}/saw"): thing({"id": text(_PLAN)}),
    ("get", "/v1/plans/{plan_id}/marks"): Shape(schema=_ANY_OBJECT, example={"ticks": []}),
    ("post", "/v1/plans/{plan_id}/marks"): thing({"new": whole(1)}),
    ("post", "/v1/plans/{plan_id}/replan"): _of("made-plan"),
    ("post", "/v1/plans/{plan_id}/near-misses"): Shape(schema=_ANY_OBJECT, example={}),
    ("post", "/v1/plans/{plan_id}/spares"): Shape(schema=_ANY_OBJECT, example={}),
    ("get", "/health"): thing({"status": text("ok")}),
    ("get", "/ready"): thing({"status": text("ready")}),
    ("get", "/metrics"): text('scantling_runs{state="queued"} 0\n'),
}
# A run is answered instead where the work is longer.
RUN_INSTEAD = _of("run")
