"""Where the money of the stock goes: every penny once, however it is dealt out."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

import pytest

import optimiser as lib
from optimiser.domain.charted import CostBar, RackMoment
from optimiser.domain.plan import CuttingPlan
from optimiser.domain.request import CuttingRequest
from optimiser.drawing.charts import draw_costs, draw_spent
from optimiser.drawing.rack_chart import draw_rack
from optimiser.planning.spent import spent_by_job, spent_by_material
from optimiser.units import Pence
from tests.drawing.reading import ALLOWED, Drawing


def planned(parts: Sequence[tuple[str, float, int]]) -> tuple[CuttingRequest, CuttingPlan]:
    """Plan lengths of 1000 at 10.00 each, kerf 0: what is used and wasted is seen at a glance."""
    asked = [
        {"id": f"{job}/{n}", "job": job, "length_mm": length, "quantity": quantity}
        for n, (job, length, quantity) in enumerate(parts)
    ]
    stock = [{"id": "s", "length_mm": 1000, "price": "10.00"}]
    section = {"material": "m", "kerf_mm": 0, "stock": stock, "parts": asked}
    keep = {"length_mm": 300, "width_mm": 300, "height_mm": 300, "credit": "0.5"}
    request = lib.request_from_document(
        {"seconds": 0.05, "keep": keep, "lengths": [section]}, name="request"
    )
    return request, lib.plan_cutting(request)


def test_a_layouts_waste_is_shared_in_the_measure_of_the_parts() -> None:
    request, plan = planned([("A", 600, 1), ("B", 200, 1)])

    a, b = spent_by_job(request, plan)

    assert [int(x) for x in (a.parts, b.parts)] == [600, 200]
    assert [int(x) for x in (a.scrap, b.scrap)] == [150, 50]
    assert [int(x) for x in (a.waste, a.total)] == [150, 750]


def test_what_is_kept_is_no_waste() -> None:
    request, plan = planned([("A", 600, 1)])

    (material,) = spent_by_material(request, plan)

    assert [int(x) for x in (material.parts, material.kept, material.waste)] == [600, 400, 0]


@pytest.mark.parametrize(("used", "parts", "scrap"), [(False, 750, 250), (True, 1_000, 0)])
def test_what_is_cut_out_of_a_part_is_scrap_unless_parts_are_cut_from_it(
    used: bool, parts: int, scrap: int
) -> None:
    window = {"x_mm": 250, "y_mm": 250, "width_mm": 500, "height_mm": 500}
    asked = [{"id": "front", "job": "A", "width_mm": 1000, "height_mm": 1000, "cut_outs": [window]}]
    if used:
        asked.append({"id": "shelf", "job": "B", "width_mm": 400, "height_mm": 400})
    board = {
        "material": "m",
        "kerf_mm": 0,
        "use_cut_outs": used,
        "stock": [{"id": "s", "width_mm": 1000, "height_mm": 1000, "price": "10.00"}],
        "parts": asked,
    }
    request = lib.request_from_document({"seconds": 0.2, "sheets": [board]}, name="request")

    plan = lib.plan_cutting(request)
    (material,) = spent_by_material(request, plan)

    assert plan.money.purchase == 1_000  # one sheet
    assert (int(material.parts), int(material.scrap)) == (parts, scrap)
    assert [item.name for item in spent_by_job(request, plan)] == ["A"]


@pytest.mark.parametrize("seed", range(4))
def test_materials_and_jobs_sum_to_the_same_money_and_to_the_plans(seed: int) -> None:
    parts = [("ABC"[n % 3], 100 + (37 * n * (seed + 1)) % 600, 1 + n % 3) for n in range(7)]
    request, plan = planned(parts)

    by_material, by_job = spent_by_material(request, plan), spent_by_job(request, plan)

    whole = plan.money.purchase + plan.money.offcuts_used
    assert sum(item.total for item in by_material) == whole
    assert sum(item.total for item in by_job) == whole
    lengths = Counter({job: 0 for job, *_ in parts})
    for job, length, quantity in parts:
        lengths[job] += length * quantity
    assert {item.name: item.parts for item in by_job} == lengths
    assert all(min(i.parts, i.kept, i.scrap, i.saw) >= 0 for i in by_job)


def test_charts_say_their_figures_and_stay_on_their_page() -> None:
    request, plan = planned([("A", 600, 1), ("B", 200, 1)])

    spent = Drawing(
        draw_spent(spent_by_material(request, plan), spent_by_job(request, plan), title="Stock")
    )
    bars = [
        CostBar(name="m", cost=Pence(1000), bound=Pence(900)),
        CostBar(name="long name " * 9, cost=Pence(500), bound=Pence(500)),
    ]
    costs = Drawing(draw_costs(bars, title="Money"))

    assert "10.00, wasted 2.00 (20.0 %)" in spent.words
    assert "7.50, wasted 1.50 (20.0 %)" in spent.words
    assert "10.00, bound 9.00" in costs.words
    assert "5.00, proven" in costs.words
    for chart in (spent, costs, Drawing(draw_costs([], title="None"))):
        assert chart.outside() == []
        assert chart.tags <= ALLOWED


def test_a_bar_is_as_long_as_its_money() -> None:
    bars = [CostBar(name=str(n), cost=Pence(n), bound=Pence(n)) for n in (1000, 250)]

    wide = sorted(
        float(rect["width"]) for rect in Drawing(draw_costs(bars, title="x")).rects
        if abs(float(rect["height"]) - 6.0) < 1e-6 and rect["fill"] != "none"
    )  # fmt: skip

    assert wide[-1] / wide[0] == pytest.approx(4.0, abs=0.01)


def moment(at: float, length: int) -> RackMoment:
    return RackMoment(
        at=at, lengths=1, boards=0, length=length, area=0, held_length=length // 2, held_area=0
    )


def test_the_rack_over_time_steps_at_its_moments() -> None:
    chart = Drawing(
        draw_rack(
            [moment(0, 20_000), moment(50, 40_000)],
            until=100,
            marks=((50, "noon"),),
            title="Rack",
        )
    )

    line = next(e for e in chart.root if e.tag.endswith("polyline"))
    points = [tuple(map(float, p.split(","))) for p in line.attrib["points"].split()]
    (x0, y0), (x1, y1), (x2, y2), (x3, y3) = points
    assert (y0, y2) == (y1, y3)
    assert x1 == x2 == pytest.approx((x0 + x3) / 2)
    assert "now 1 length, 4.00 m" in chart.words
    assert "noon" in chart.words
    assert chart.outside() == []


def test_a_rack_over_time_needs_a_moment() -> None:
    with pytest.raises(ValueError, match="needs a moment"):
        draw_rack([], until=1.0, marks=(), title="x")


def test_no_money_at_all_is_drawn_too() -> None:
    assert Drawing(draw_spent((), (), title="x")).outside() == []
