"""A body that works for every route that takes one, as the OpenAPI document shows it."""

from __future__ import annotations

from typing import Any

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
                ("screw-70", "each", 100),
                ("screw-80", "each", 200),
                ("screw-100", "each", 100),
                ("drywall-screw", "each", 200),
                ("drywall-screw-long", "each", 200),
                ("mdf-screw", "each", 200),
                ("shelf-screw", "each", 100),
                ("plug-fixing", "each", 50),
                ("hammer-fixing", "each", 50),
                ("packer", "each", 100),
                ("damp-proof-strip", "mm", 30_000),
                ("joint-tape", "mm", 90_000),
                ("angle-tape", "mm", 75_000),
                ("adhesive", "ml", 310),
                ("plaster", "g", 25_000),
                ("primer", "ml", 5_000),
            )
        ],
    },
}

# The plan is the one the library makes of the request; a test checks it.
CHECK_EXAMPLE: dict[str, Any] = {
    "request": {
        "lengths": [
            {
                "material": "c16-38x63",
                "kerf_mm": 3,
                "stock": [{"id": "c16-38x63-2400", "length_mm": 2400, "price": "3.60"}],
                "parts": [{"id": "A/N1", "job": "A", "length_mm": 1000, "quantity": 2}],
            }
        ]
    },
    "plan": {
        "seed": 1,
        "chosen": [],
        "sheets": [],
        "lengths": [
            {
                "material": "c16-38x63",
                "method": "best fit",
                "layouts": [
                    {
                        "stock": "c16-38x63-2400",
                        "offcut": False,
                        "count": 1,
                        "cuts": [{"n": 1, "at_mm": 1000}, {"n": 2, "at_mm": 2003}],
                        "parts": [
                            {"part": "A/N1", "job": "A", "start_mm": 0, "length_mm": 1000},
                            {"part": "A/N1", "job": "A", "start_mm": 1003, "length_mm": 1000},
                        ],
                        "offcuts": [],
                        "scrap": [{"start_mm": 2006, "length_mm": 394}],
                    }
                ],
                "usage": {
                    "part_mm": 2000,
                    "offcut_mm": 0,
                    "scrap_mm": 394,
                    "kerf_mm": 6,
                    "trim_mm": 0,
                },
                "certificate": [{"weights": [65536], "scale": 365}],
                "purchase": "3.60",
                "offcuts_used": "0.00",
                "credit": "0.00",
                "net_cost": "3.60",
                "lower_bound": "3.60",
                "proven": True,
                "seconds": 0.1,
            }
        ],
        "purchase": "3.60",
        "offcuts_used": "0.00",
        "credit": "0.00",
        "net_cost": "3.60",
        "lower_bound": "3.60",
        "proven": True,
        "seconds": 0.1,
    },
}

DEAL_EXAMPLE: dict[str, Any] = {
    "seconds": 1,
    "today": "2026-12-01",
    "jobs": [
        {
            "name": job,
            "needed": day,
            "parts": {
                "lengths": [
                    {
                        "id": f"{job}/U1",
                        "job": job,
                        "name": "upright",
                        "material": "c16-38x63",
                        "length_mm": 1150,
                        "quantity": 1,
                    }
                ]
            },
        }
        for job, day in (("A", "2026-12-04"), ("B", "2026-12-07"))
    ],
    "prices": BATCH_EXAMPLE["prices"],
    "terms": {"charge": "35.00", "free_over": "600.00", "vehicle_mass_kg": 1200},
}

EXAMPLES: dict[str, Any] = {
    "cutting-request": REQUEST_EXAMPLE,
    "batch": BATCH_EXAMPLE,
    "check": CHECK_EXAMPLE,
    "deal": DEAL_EXAMPLE,
    "wall": BATCH_EXAMPLE["walls"][0],
    "price-book": BATCH_EXAMPLE["prices"],
    "rack": BATCH_EXAMPLE["rack"],
    "frame": {"wall": BATCH_EXAMPLE["walls"][0], "prices": BATCH_EXAMPLE["prices"]},
}
