"""What each route answers when all is well: schemas among the components, and an example."""

from __future__ import annotations

from api.kept_shapes import ANY_OBJECT, CELL, JOB, ORDER, PLAN, RUN, SHAPES
from api.saw_shapes import SAW_SHAPES
from api.shapes import (
    Shape,
    flag,
    many,
    moment,
    named,
    number,
    one_of,
    page,
    text,
    thing,
    whole,
)

# Every schema that has a name of its own among the components.
COMPONENTS = {**SHAPES, **SAW_SHAPES}


def _of(name: str) -> Shape:
    return named(name, COMPONENTS[name].example)


def _list(of: Shape) -> Shape:
    return thing({"items": many(of)})


_RECEIVED_STATE = one_of("received", "placed", "part received", "draft", "withdrawn")
_STATE = {"id": text(PLAN), "state": text("confirmed")}
# By method and path: what a 200 or 201 answers.
ANSWERS: dict[tuple[str, str], Shape] = {
    ("post", "/v1/plans"): _of("made-plan"),
    ("get", "/v1/plans"): page(_of("plan-summary")),
    ("post", "/v1/batches"): _of("made-plan"),
    ("get", "/v1/batches"): page(
        thing(
            {
                "id": text("batch-1a2b3c4d5e6f7a8b"),
                "run": text(RUN),
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
                        "material": text("mdf-12").or_null(),
                        "href": text(f"/v1/plans/{PLAN}/diagrams/mdf-12-1.svg"),
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
    ("get", "/v1/orders/{order_id}/deliveries"): thing(
        {
            "order": text(ORDER),
            "state": _RECEIVED_STATE,
            "lines": many(_of("order-line-received")),
            "deliveries": many(_of("kept-delivery")),
        }
    ),
    ("post", "/v1/orders/{order_id}/deliveries"): thing(
        {
            "order": text(ORDER),
            "state": _RECEIVED_STATE,
            "lines": many(_of("order-line-received")),
            "delivery": _of("kept-delivery"),
            "run": _of("run").or_null().but(None),
        }
    ),
    ("post", "/v1/deliveries"): _of("dealt"),
    ("get", "/v1/deliveries/{run_id}"): _of("dealt"),
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
                "thing": text(JOB),
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
    ("put", "/v1/price-books/{name}/file"): thing(
        {
            "name": text("usual"),
            "version": whole(1),
            "valid_from": text("2026-11-26"),
            "merchant": text("Demo Merchant"),
            "lengths": whole(1),
            "sheets": whole(0),
            "packs": whole(0),
        }
    ),
    ("get", "/v1/price-books/{name}"): _of("price-book-version"),
    ("post", "/v1/part-lists"): thing(
        {"jobs": many(thing({"id": text(JOB), "name": text("shelves")}))}
    ),
    ("post", "/v1/frames"): thing(
        {
            "frame": Shape(schema=ANY_OBJECT, example={"job": "A", "findings": []}),
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
            "problems": many(CELL, examples=0),
            "remarks": whole(0),
            "notes": many(CELL, examples=0),
        }
    ),
    ("get", "/v1/plans/{plan_id}/saw"): _of("saw-document"),
    ("get", "/v1/plans/{plan_id}/marks"): _of("marks"),
    ("post", "/v1/plans/{plan_id}/marks"): _of("marks-taken"),
    ("post", "/v1/plans/{plan_id}/replan"): _of("made-plan"),
    ("post", "/v1/plans/{plan_id}/near-misses"): _of("near-misses"),
    ("post", "/v1/plans/{plan_id}/spares"): _of("spares"),
    ("get", "/health"): thing({"status": text("ok")}),
    ("get", "/ready"): thing({"status": text("ready")}),
    ("get", "/metrics"): text('scantling_runs{state="queued"} 0\n'),
}
# A run is answered instead where the work is longer.
RUN_INSTEAD = _of("run")
