"""One job as the planner sees it: what must be cut for it, what else it takes, and by when."""

from __future__ import annotations

from dataclasses import dataclass

from optimiser.domain.frame import Quantity
from optimiser.domain.part_list import PartList
from optimiser.domain.request import Choice


@dataclass(frozen=True, slots=True, kw_only=True)
class Job:
    """`needed` is an ISO date or "". `quantities` are the things bought by pack.

    Of each of its `choices` exactly one option is cut; parts in none are cut in any case.
    """

    name: str
    client: str
    needed: str
    parts: PartList
    quantities: tuple[Quantity, ...] = ()
    choices: tuple[Choice, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class JobShare:
    """What one job takes of a plan: net lengths and areas by material, and its share of the cost.

    `lengths` in tenths, `areas` in square tenths; the costs of all jobs sum to the plan's net cost.
    """

    job: str
    lengths: tuple[tuple[str, int], ...]
    areas: tuple[tuple[str, int], ...]
    cost: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Outlay:
    """What one way of planning takes: money in pence, stock bought by number, length and area."""

    purchase: int
    net: int
    lengths: int
    sheets: int
    length: int
    area: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Comparison:
    """The same jobs planned one at a time, together, and together with the rack.

    Where there are choices, also together without the rack in two poorer ways of deciding them:
    `first_options`, each choice in its first option that can be carried in, and `decided_alone`,
    each as the plan of its job alone has it.
    """

    one_by_one: Outlay
    together: Outlay
    with_rack: Outlay
    first_options: Outlay | None = None
    decided_alone: Outlay | None = None
