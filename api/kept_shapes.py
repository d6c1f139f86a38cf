"""Schemas of what is kept and answered, by the name that others refer to, each with an example."""

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
    text,
    thing,
    whole,
)

PLAN, RUN, ORDER = "plan-0b52c1f0a9d84e77", "run-5d1f2a3b4c5d6e7f", "order-0b52c1f0a9d84e77"
DELIVERY = "delivery-4d3c2b1a09f8e7d6"
JOB, WALL = "job-3f2e1d0c9b8a7f6e", "wall-9a8b7c6d5e4f3a2b"
ANY_OBJECT: dict[str, Any] = {"type": "object"}

_PROBLEM = thing({"field": text("body"), "trouble": text("is late"), "remedy": text("Ask again")})
CELL = thing(
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
    {"charge": flag(example=False), "material": text("mdf-12")},
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
            "id": text(RUN),
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
            "plan": text(PLAN).or_null().but(None),
            "result": text(f"/v1/deliveries/{RUN}").or_null().but(None),
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
        {**_SIZES, "held_by": text(PLAN).or_null(), "racked": moment().or_null()},
    ),
    "ledger-line": thing(
        {
            "id": whole(1),
            "offcut": text("R14"),
            "kind": one_of("racked", "reserved", "released", "used", "scrapped", "adjusted"),
            "on_rack": whole(1),
            "held": whole(0),
            "plan": text(PLAN).or_null().but(None),
            "who": text("office"),
            "at": moment(),
            "why": text("put up by hand"),
        }
    ),
    "kept-job": thing(
        {
            "id": text(JOB),
            "version": whole(1),
            "created": moment(),
            "changed": moment(),
            "job": Shape(
                schema={**ANY_OBJECT, "required": ["name"]},
                example={"name": "A", "client": "Demo Client", "needed": "2026-12-01"},
            ),
        },
        {
            "state": one_of(
                "planned", "no parts", "new", "planning", "ordered", "part received", "received"
            ),
            "plan": text(PLAN).or_null(),
            "share": money("195.37").or_null(),
            "walls": many(text(WALL)),
            "listed_parts": whole(0),
            "needed": text("2026-12-01"),
            "client": text("Demo Client"),
        },
    ),
    "kept-wall": thing(
        {
            "id": text(WALL),
            "version": whole(1),
            "created": moment(),
            "changed": moment(),
            "wall": named("wall", BATCH_EXAMPLE["walls"][0]),
            "job": text(JOB),
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
    "id": text(PLAN),
    "run": text(RUN),
    "state": one_of("draft", "confirmed", "undone", "dropped", "planning"),
    "version": whole(2),
    "created": moment(),
}
# What only a plan has that goes on from another one.
_GOES_ON = {
    "continues": text(PLAN),
    "finished": many(thing({"part": text("A/N1"), "count": whole(2)})),
    "pieces": thing({"as_planned": whole(1), "filled": whole(0), "changed": whole(1)}),
    "floor": many(
        thing(
            {
                "material": text("c16-38x63"),
                "id": text("L1.1/1b"),
                "layout": whole(1),
                "piece": whole(1),
                "name": text("1b"),
            }
        )
    ),
    "in_hand": many(
        thing(
            {
                "material": text("c16-38x63"),
                "id": text("c16-38x63-2400 in hand"),
                "stock": text("c16-38x63-2400"),
            }
        )
    ),
    "adopted": many(text("R15")),
    # What is racked once it is confirmed: sizes in tenths of a millimetre, as the ledger has them.
    "leaves": many(
        thing(
            {"material": text("c16-38x63")},
            {"length": whole(5940), "width": whole(6100), "height": whole(9000)},
        )
    ),
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
        "merchants": Shape(schema=ANY_OBJECT, example=None).or_null(),
        "shares": many(Shape(schema=ANY_OBJECT, example=None)),
        "comparison": Shape(schema=ANY_OBJECT, example=None).or_null(),
        "walls": many(Shape(schema=ANY_OBJECT, example=None)),
        **_GOES_ON,
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
    "id": text(ORDER),
    "plan": text(PLAN),
    "state": one_of("placed", "draft", "part received", "received", "withdrawn"),
    "version": whole(2),
    "created": moment(),
    "changed": moment(),
}
SHAPES["order-summary"] = thing(_KEPT_ORDER)
SHAPES["kept-order"] = thing(
    {**_KEPT_ORDER, "order": named("order", SHAPES["order"].example)},
)
_COUNTS = {"good": whole(3), "damaged": whole(1), "short": whole(0)}
_CAME_LINE = thing(
    {"line": whole(1)},
    {
        **_COUNTS,
        "note": text("a corner is off"),
        "instead": many(
            thing(
                {"material": text("mdf-12"), "quantity": whole(1)},
                {**_SIZES, "note": text("the merchant had no other")},
            )
        ),
    },
)
_TOUCHED = thing(
    {
        "material": text("mdf-12"),
        "layout": whole(2),
        "stock": text("mdf-12-2440x1220"),
        "pieces": whole(1),
        "kind": one_of("damaged", "short"),
        "jobs": many(text("A")),
        "parts": many(text("A/backboard")),
    }
)
SHAPES["order-line-received"] = thing(
    {
        "line": whole(1),
        "item": text("mdf-12-2440x1220"),
        "description": text("MDF 12, 1220 × 2440 mm"),
        "charge": flag(example=False),
        "ordered": whole(4),
        **_COUNTS,
        "instead": whole(0),
        "to_come": whole(0),
    }
)
SHAPES["kept-delivery"] = thing(
    {
        "id": text(DELIVERY),
        "who": text("office"),
        "written": moment(),
        "came": text("2026-12-01"),
        "delivery_note": text("4711"),
        "note": text(""),
        "lines": many(_CAME_LINE),
        "undoes": text(DELIVERY).or_null().but(None),
        "plan": text(PLAN),
        "touches": many(_TOUCHED),
        "instead": whole(0),
        "promised": many(thing({"offcut": text("R15"), "plan": text(PLAN)}), examples=0),
        "run": text(RUN).or_null().but(None),
        "new_plan": text(PLAN).or_null().but(None),
    },
    {"undone": flag(example=False)},
)
SHAPES["dealt"] = thing(
    {
        "id": text(RUN),
        "cost": money("38.58"),
        "bound": money("38.58"),
        "proven": flag(example=True),
        "proven_by_bound": flag(example=True),
        "one_each": money("77.16"),
        "together": money("38.58").or_null(),
        "batches": whole(3),
        "planned": whole(1),
        "deliveries": many(
            thing(
                {
                    "day": text("2026-12-04"),
                    "jobs": many(text("A")),
                    "goods": money("3.58"),
                    "charge": money("35.00"),
                    "mass_kg": number(2.6),
                    "longest_mm": text("2400"),
                    "request": named("cutting-request", CHECK_EXAMPLE["request"]),
                    "plan": named("cutting-plan", CHECK_EXAMPLE["plan"]),
                }
            )
        ),
    }
)
