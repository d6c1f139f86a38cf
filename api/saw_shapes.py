"""Schemas of what is answered at the saw, of near misses and of spares, each with an example."""

from __future__ import annotations

from api.examples import CHECK_EXAMPLE
from api.kept_shapes import PLAN
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

_BOX = {"x": number(10), "y": number(0), "width": number(900), "height": number(0)}
_CUT = thing(
    {
        "n": whole(1),
        "way": one_of("cross", "rip", "crosscut"),
        "set_mm": number(910),
        "from": text("left end"),
        "tool": text("saw"),
        "parts_off": many(whole(1)),
        "line": thing(_BOX),
    },
    {"of": text("sheet"), "piece": thing(_BOX)},
)
_LAYOUT = thing(
    {
        "material": text("c16-38x63"),
        "layout": whole(1),
        "stock": text("c16-38x63-2400"),
        "offcut": flag(example=False),
        "count": whole(2),
        "kind": one_of("length", "sheet"),
        "width_mm": number(2400),
        "height_mm": number(0),
        "kerf_mm": number(3),
        "trim_mm": number(10),
        "parts": many(
            thing(
                {"part": text("A/N1"), "job": text("A"), "name": text("noggin"), **_BOX},
                {"turned": flag(example=False)},
            )
        ),
        "cuts": many(_CUT),
        "left": many(thing({"keep": flag(example=True), **_BOX})),
    }
)
_KINDS = ("cut", "done", "spoiled", "damaged", "short", "floor", "undo")
_SIZE = number(600).or_null()
_TICK = thing(
    {
        "tick": text("van-1"),
        "phone": text("van"),
        "kind": one_of(*_KINDS),
        "seq": whole(1),
        "who": text("van"),
        "came": moment(),
    },
    {
        "material": text("c16-38x63"),
        "layout": whole(1),
        "piece": whole(1),
        "cut": whole(1),
        "part": whole(1),
        "undoes": text("van-0"),
        "length_mm": _SIZE,
        "width_mm": _SIZE,
        "height_mm": _SIZE,
        "at": text("2026-12-01T09:30:00Z"),
    },
)
_PIECE = {"material": text("c16-38x63"), "layout": whole(1), "piece": whole(1)}
_MARKS = {
    "plan": text(PLAN),
    "state": one_of("confirmed", "draft", "undone", "dropped"),
    "continues": text(PLAN).or_null().but(None),
    "continued_by": text(PLAN).or_null().but(None),
    "too_late": whole(0),
    "ticks": many(_TICK),
    "pieces": many(
        thing(
            {
                **_PIECE,
                "cuts": whole(1),
                "done": flag(example=False),
                "spoiled": many(whole(1), examples=0),
                "lost": one_of("", "damaged", "short"),
            }
        )
    ),
    "contradictions": many(
        thing(
            {
                **_PIECE,
                "trouble": text("cut 1 is ticked by 2 phones: it counts once"),
                "remedy": text("If each cut a piece of its own, tick the other piece as well"),
                "ticks": many(text("van-1")),
            }
        ),
        examples=0,
    ),
}
_SHARE = Shape(schema={"type": "number", "minimum": 0, "maximum": 1}, example=0.05)
SAW_SHAPES: dict[str, Shape] = {
    "saw-document": thing({"id": text(PLAN), "layouts": many(_LAYOUT)}),
    "marks": thing(_MARKS),
    "marks-taken": thing({"new": whole(1), **_MARKS}),
    "near-misses": thing(
        {
            "items": many(
                thing(
                    {
                        "material": text("c16-38x63"),
                        "saving": money("3.60"),
                        "purchase": money("7.20"),
                        "eased_mm": text("1.5"),
                        "certain": flag(example=True),
                        "fewest": flag(example=True),
                        "easings": many(
                            thing(
                                {
                                    "part": text("A/N1"),
                                    "job": text("A"),
                                    "name": text("noggin"),
                                    "dimension": one_of("length", "width", "height"),
                                    "asked_mm": text("1200"),
                                    "eased_mm": text("1198.5"),
                                    "fields": many(text("walls[0].niches.0.width_mm"), examples=0),
                                }
                            )
                        ),
                        "told": many(
                            text(
                                "job A: length of A/N1 (noggin) 1200 -> 1198.5 (1.5 less), "
                                "from a part list"
                            )
                        ),
                        "request": named("cutting-request", CHECK_EXAMPLE["request"]),
                        "plan": named("cutting-plan", CHECK_EXAMPLE["plan"]),
                    }
                )
            )
        }
    ),
    "spares": thing(
        {
            "chance_without": _SHARE,
            "exposures": many(
                thing(
                    {
                        "material": text("mdf-12"),
                        "stock": text("mdf-12-2440x1220"),
                        "pieces": whole(3),
                        "large_parts": whole(2),
                        "small_parts": whole(9),
                        "from_offcuts": whole(4),
                        "parts_of_a_spare": whole(1),
                        "piece_rate": _SHARE.but(0.02),
                        "part_rate": _SHARE.but(0.01),
                    }
                )
            ),
            "levels": many(
                thing(
                    {
                        "level": _SHARE,
                        "reached": flag(example=True),
                        "chance": _SHARE.but(0.031),
                        "cost": money("24.00"),
                        "spares": many(
                            thing(
                                {
                                    "material": text("mdf-12"),
                                    "stock": text("mdf-12-2440x1220"),
                                    "count": whole(1),
                                }
                            )
                        ),
                    }
                )
            ),
            "chart_svg": text('<svg viewBox="0 0 297 210"/>'),
        }
    ),
}
