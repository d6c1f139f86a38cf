"""Deliveries: a merchant's terms, and which jobs are bought and brought together."""

from __future__ import annotations

from dataclasses import dataclass

from optimiser.domain.plan import CuttingPlan
from optimiser.domain.request import CuttingRequest
from optimiser.units import Pence, Tenths


@dataclass(frozen=True, slots=True, kw_only=True)
class Terms:
    """What a delivery costs, what a vehicle takes, and how long stock may wait at the site.

    `free_over`: goods for this much or more are brought for nothing (but for their length).
    `by_length`: for a longest item above so long, so much more; the dearest that applies counts.
    `mass` in grams; None sets no limit. `weekdays` from 0 (Monday) to 6 are when the merchant
    drives. A delivery may come up to `storage_days` before the day a job is needed.
    """

    charge: Pence
    free_over: Pence | None
    by_length: tuple[tuple[Tenths, Pence], ...]
    mass: int | None
    length: Tenths | None
    weekdays: tuple[int, ...]
    storage_days: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Delivery:
    """Jobs that come together on one day (ISO). `goods` is stock and packs, without VAT.

    `mass` in grams, of lengths and sheets alone; `longest` item on the vehicle.
    """

    day: str
    jobs: tuple[str, ...]
    goods: Pence
    charge: Pence
    mass: int
    longest: Tenths
    request: CuttingRequest
    plan: CuttingPlan

    @property
    def cost(self) -> Pence:
        """Return goods and charge."""
        return Pence(self.goods + self.charge)


@dataclass(frozen=True, slots=True, kw_only=True)
class Deliveries:
    """The cheapest deliveries found, in order of day, and what no others can beat.

    `proven`: no way to deal these jobs to deliveries costs less as the batches are planned here.
    `bound` holds however well they are planned. `one_each` and `together` are the cost of one
    delivery for each job and of one for all; None where the latter cannot be. `batches` counts
    the batches of jobs that may come together, `planned` those that had to be planned.
    """

    deliveries: tuple[Delivery, ...]
    cost: Pence
    bound: Pence
    proven: bool
    one_each: Pence
    together: Pence | None
    batches: int
    planned: int
