"""What a saw asks for, against every way of cutting tried out: trims, first cut, stages.

The trial knows nothing of the solver: it cuts at every whole size, holds every rule itself, and
deals the parts to as few sheets as can be.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from itertools import count, product
from random import Random
from typing import Any

import pytest

from optimiser.domain.request import Direction, SheetMaterial
from optimiser.domain.stock import EdgeTrim
from optimiser.planning.plan import plan_cutting
from optimiser.planning.sheets import sheets_problem
from optimiser.solvers.protocol import Budget
from optimiser.solvers.sheets.solve import solve
from optimiser.units import Tenths
from optimiser.verify.check import check_plan
from tests.cutting_builders import (
    a_board_part,
    a_keep,
    a_request,
    a_sheet_material,
    a_stock_sheet,
)

Counts = tuple[int, ...]


class Trial:
    """Tries all that can be cut from a sheet under the rules of a material."""

    def __init__(self, material: SheetMaterial) -> None:
        self.ways = [
            {(int(part.width), int(part.height))}
            | ({(int(part.height), int(part.width))} if part.turn else set())
            for part in material.parts
        ]
        self.kerf = int(material.kerf)
        self.most = material.max_stages
        self.first = material.first_cut
        trim, stock = material.edge_trim, material.stock[0]
        self.inner = (
            stock.width - trim.left - trim.right,
            stock.height - trim.bottom - trim.top,
        )
        self.frees = cache(self._frees)

    def fewest(self, wanted: Counts) -> int:
        """Return the fewest sheets; as many as there are parts and more if it cannot be done."""

        @cache
        def least(left: Counts) -> int:
            if not any(left):
                return 0
            best = sum(wanted) + 1
            for some in _parts_of(left):
                if any(some) and self.frees(*self.inner, some, 0, ""):
                    rest = tuple(a - b for a, b in zip(left, some, strict=True))
                    best = min(best, 1 + least(rest))
            return best

        return least(wanted)

    def _frees(self, width: int, height: int, parts: Counts, stage: int, last: str) -> bool:
        """Return whether a piece yields the parts, what else comes off being left over."""
        if not any(parts):
            return True
        if sum(parts) == 1 and (width, height) in self.ways[parts.index(1)]:
            return True
        for direction in ("rip", "crosscut"):
            deeper = stage + (direction != last)
            if self.most is not None and deeper > self.most:
                continue
            if not last and self.first is not None and direction != self.first.value:
                continue
            extent = width if direction == "rip" else height
            for at, near in product(range(1, extent), _parts_of(parts)):
                far = tuple(a - b for a, b in zip(parts, near, strict=True))
                beyond = extent - at - self.kerf
                if beyond <= 0 and any(far):
                    continue
                first = (at, height) if direction == "rip" else (width, at)
                second = (beyond, height) if direction == "rip" else (width, beyond)
                if self.frees(*first, near, deeper, direction) and (
                    beyond <= 0 or self.frees(*second, far, deeper, direction)
                ):
                    return True
        return False


def _parts_of(counts: Counts) -> Iterator[Counts]:
    return product(*(range(count + 1) for count in counts))


def material_of(seed: int) -> SheetMaterial:
    luck = Random(seed)
    return replace(
        a_sheet_material(
            *(
                a_board_part(
                    f"p{n}",
                    luck.randint(1, 5),
                    luck.randint(1, 5),
                    luck.randint(1, 2),
                    turn=luck.random() < 0.5,
                )
                for n in range(3)
            ),
            stock=[a_stock_sheet("s", luck.randint(7, 9), luck.randint(7, 9), 10)],
            kerf=luck.randint(0, 1),
        ),
        edge_trim=EdgeTrim(
            left=Tenths(luck.randint(0, 1)),
            right=Tenths(luck.randint(0, 1)),
            bottom=Tenths(luck.randint(0, 1)),
            top=Tenths(luck.randint(0, 1)),
        ),
    )


RULES: dict[str, dict[str, Any]] = {
    "free": {},
    "two stages": {"max_stages": 2},
    "three stages": {"max_stages": 3},
    "rip first": {"first_cut": Direction.RIP},
    "crosscut first": {"first_cut": Direction.CROSSCUT},
    "rip first, two stages": {"first_cut": Direction.RIP, "max_stages": 2},
}


def sheets_planned(material: SheetMaterial) -> int | None:
    quantities = {part.id: part.quantity for part in material.parts}
    problem = sheets_problem(material, a_keep(), quantities)
    outcome = solve(problem, budget=Budget(40.0, count().__next__, 0.0), seed=1)
    return sum(pattern.times for pattern in outcome.patterns) or None


@pytest.mark.parametrize("rule", RULES)
# Orders where the rules cost a sheet, among others.
@pytest.mark.parametrize("seed", [3, 5, 8, 11])
def test_no_way_of_cutting_under_the_rules_takes_fewer_sheets(seed: int, rule: str) -> None:
    material = replace(material_of(seed), **RULES[rule])
    wanted = tuple(part.quantity for part in material.parts)

    least = Trial(material).fewest(wanted)

    # None where the rules free a part from no sheet at all.
    assert sheets_planned(material) == (least if least <= sum(wanted) else None)


@pytest.mark.parametrize(
    ("rule", "said"),
    [
        ({"first_cut": Direction.RIP}, "begins with a crosscut"),
        ({"max_stages": 1}, "needs 2 stages"),
        ({"edge_trim": EdgeTrim(left=Tenths(1))}, "is not the size or in the place"),
        ({"edge_trim": EdgeTrim(right=Tenths(1))}, "is not the size or in the place"),
        ({"edge_trim": EdgeTrim(bottom=Tenths(1))}, "is not the size or in the place"),
        ({"edge_trim": EdgeTrim(top=Tenths(1))}, "is not the size or in the place"),
    ],
)
def test_the_checker_refuses_a_sheet_cut_without_the_rule(rule: dict[str, Any], said: str) -> None:
    # Two across in the lower half, one above: it begins with a crosscut and takes two stages.
    free = a_sheet_material(
        a_board_part("half", 50, 20, 2, turn=False),
        a_board_part("whole", 100, 30, turn=False),
        stock=[a_stock_sheet("s", 100, 50)],
    )
    request = a_request(free, seconds=0.2)
    plan = plan_cutting(request)
    assert check_plan(request, plan) == ()

    faults = check_plan(a_request(replace(free, **rule), seconds=0.2), plan)

    assert any(said in fault.what for fault in faults), faults
