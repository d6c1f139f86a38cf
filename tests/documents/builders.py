"""What the tests of documents are made of: a request with all that a plan can hold."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from optimiser.domain.order import Order, OrderLine
from optimiser.domain.parts import BoardPart, LengthPart
from optimiser.domain.plan import CuttingPlan, LengthLayout, SheetLayout
from optimiser.domain.request import CuttingRequest
from optimiser.units import Pence


@dataclass(frozen=True)
class Planned:
    request: CuttingRequest
    plan: CuttingPlan

    @property
    def parts(self) -> list[LengthPart | BoardPart]:
        """Return every part that is asked for."""
        return [
            *(part for item in self.request.lengths for part in item.parts),
            *(part for item in self.request.sheets for part in item.parts),
        ]

    @property
    def layouts(self) -> list[tuple[str, int, LengthLayout | SheetLayout]]:
        """Return every layout with its material and its number."""
        return [
            *((p.material, n, x) for p in self.plan.lengths for n, x in enumerate(p.layouts, 1)),
            *((p.material, n, x) for p in self.plan.sheets for n, x in enumerate(p.layouts, 1)),
        ]


def a_request(**more: Any) -> dict[str, Any]:
    """Timber and two boards for jobs A and B: equal layouts, a rack offcut, cut-outs, tenths."""
    return {
        "seed": 1,
        "seconds": 0.2,
        "lengths": [
            {
                "material": "c16-38x63",
                "kerf_mm": 3,
                "end_trim_mm": 10,
                "stock": [{"id": "c16-38x63-2400", "length_mm": 2400, "price": "3.60"}],
                "offcuts": [{"id": "R14", "length_mm": 1130}],
                "parts": [
                    _bar("A/U1", "A", 2281.5, 5, "upright"),
                    _bar("A/N1", "A", 562, 6, "noggin"),
                    _bar("B/T1", "B", 340.7, 5, "strut"),
                ],
            }
        ],
        "sheets": [
            {
                "material": "mdf-12",
                "kerf_mm": 3,
                "edge_trim_mm": 5,
                "cutting": "saw",
                "stock": [
                    {"id": "mdf-12-a", "width_mm": 1220, "height_mm": 2440, "price": "24.00"}
                ],
                "offcuts": [{"id": "R3", "width_mm": 610, "height_mm": 900}],
                "parts": [
                    _board("A/back", "A", 1500, 900, 1, cut_outs=[(0, 0, 200, 300)]),
                    _board("A/shelf", "A", 280, 600, 4),
                    _board("B/back", "B", 1180.5, 1200, 2),
                ],
            },
            {
                "material": "plasterboard-12.5",
                "kerf_mm": 0,
                "cutting": "knife",
                "stock": [{"id": "pb-2400", "width_mm": 1200, "height_mm": 2400, "price": "8.95"}],
                "parts": [
                    _board("A/front", "A", 600, 2390, 3, cut_outs=[(100, 100, 150, 80)]),
                    _board("B/front", "B", 800, 1210.4, 2),
                ],
            },
        ],
        **more,
    }


def _bar(id_: str, job: str, length: float, quantity: int, name: str) -> dict[str, Any]:
    return {"id": id_, "job": job, "length_mm": length, "quantity": quantity, "name": name}


def _board(
    id_: str,
    job: str,
    width: float,
    height: float,
    quantity: int,
    *,
    cut_outs: list[tuple[float, float, float, float]] | None = None,
) -> dict[str, Any]:
    holes = [{"x_mm": x, "y_mm": y, "width_mm": w, "height_mm": h} for x, y, w, h in cut_outs or ()]
    size = {"width_mm": width, "height_mm": height}
    return {"id": id_, "job": job, **size, "quantity": quantity, "cut_outs": holes}


def an_order(*, merchant: str = "Demo Merchant", description: str = "Timber 38 × 63") -> Order:
    lines = (
        OrderLine(
            item="c16-38x63-2400",
            description=description,
            quantity=7,
            price=Pence(358),
            jobs=("A", "B"),
            needed="2026-12-07",
        ),
        OrderLine(
            item="screw-80-200",
            description="Screws 5.0 × 80, box of 200",
            quantity=2,
            price=Pence(1190),
            jobs=("A",),
            needed="",
        ),
    )
    net = sum(line.total for line in lines)
    return Order(
        merchant=merchant,
        currency="GBP",
        lines=lines,
        net=Pence(net),
        vat_rate=2000,
        vat=Pence(net // 5),
        total=Pence(net + net // 5),
    )
