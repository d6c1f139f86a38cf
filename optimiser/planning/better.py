"""Which of two plans of one material stands, and with whose proof."""

from __future__ import annotations

from dataclasses import replace

from optimiser.domain.plan import LengthPlan, SheetPlan

EXTRA_SHARE = 400  # one part in so many may be paid for fewer layouts: 0.25 %


def has_fewer_layouts(old: LengthPlan, new: LengthPlan) -> bool:
    """Return whether the new plan is to be preferred where up to 0.25 % may be paid for layouts."""
    least = min(old.money.net, new.money.net)
    near = [plan for plan in (old, new) if plan.money.net <= least + least // EXTRA_SHARE]
    return new in near and (
        old not in near or (len(new.layouts), new.money.net) <= (len(old.layouts), old.money.net)
    )


def better_plan(
    old: LengthPlan | SheetPlan, new: LengthPlan | SheetPlan, *, is_better: bool
) -> LengthPlan | SheetPlan:
    """Take the new plan if it is better, else the old one, with the better proof of the two."""
    plan, other = (new, old) if is_better else (old, new)
    seconds = round(old.seconds + new.seconds, 3)
    if other.bound <= plan.bound:
        return replace(plan, seconds=seconds)
    proven = other.bound == plan.money.net
    if isinstance(plan, LengthPlan) and isinstance(other, LengthPlan):
        return replace(
            plan,
            bound=other.bound,
            certificate=other.certificate,
            proven=proven,
            seconds=seconds,
        )
    assert isinstance(plan, SheetPlan)
    assert isinstance(other, SheetPlan)
    return replace(
        plan, bound=other.bound, certificate=other.certificate, proven=proven, seconds=seconds
    )
