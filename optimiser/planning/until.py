"""A plan that need only be good enough: planning ends once the question behind it is answered."""

from __future__ import annotations

from dataclasses import replace

from optimiser.domain.plan import CuttingPlan
from optimiser.domain.request import CuttingRequest
from optimiser.planning.plan import plan_cutting
from optimiser.planning.progress import PlanProgress


def plan_until(request: CuttingRequest, seconds: float, enough: int) -> CuttingPlan:
    """Plan until the net cost is `enough` pence or less, or proven to be more, or time is up.

    Returns the best plan so far, checked; raises what `plan_cutting` raises. `enough` below 0 plans
    for all the seconds unless proven before.
    """
    answered = False

    def hear(progress: PlanProgress) -> None:
        nonlocal answered
        answered = answered or progress.cost <= enough or progress.bound > enough >= 0

    def see(plan: CuttingPlan) -> None:
        nonlocal answered
        answered = answered or plan.money.net <= enough or plan.bound > enough >= 0

    return plan_cutting(
        replace(request, seconds=seconds), watch=see, tell=hear, cancelled=lambda: answered
    )
