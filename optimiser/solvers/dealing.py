"""Deals groups of goods to sellers so that all that is to be paid is least: integers in and out.

A whole-number programme (CP-SAT): thresholds, charges and the rounding of VAT are exact, so that
no other dealing costs a penny less. Knows no wood: a group is what it costs at each seller.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from ortools.sat.python import cp_model

# Work, not seconds, so that the same question gets the same answer; a dozen sellers and fifty
# groups take a hundredth of it.
_MOST_WORK = 20.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Seller:
    """What one seller asks of an order, in pence; `vat` in basis points.

    Below `minimum` it sells for `small_order` more, or not at all where that is None. `free_over`
    None: the charge is always paid.
    """

    vat: int = 0
    minimum: int = 0
    small_order: int | None = None
    charge: int = 0
    free_over: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Offer:
    """One group at one seller: what it costs, and what bringing so long a thing costs more."""

    cost: int
    extra: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Dealt:
    """The seller of each group, and all that is to be paid with VAT. `proven`: none is cheaper."""

    sellers: tuple[int, ...]
    total: int
    proven: bool


def to_pay(
    groups: tuple[tuple[Offer | None, ...], ...],
    sellers: tuple[Seller, ...],
    dealt: tuple[int, ...],
) -> int | None:
    """Return what a dealing costs with VAT, or None when a seller would not sell so."""
    total = 0
    for number, seller in enumerate(sellers):
        offers = [group[number] for group, at in zip(groups, dealt, strict=True) if at == number]
        if not offers:
            continue
        worth = extra = 0
        for offer in offers:
            if offer is None:
                return None
            worth, extra = worth + offer.cost, max(extra, offer.extra)
        net = worth + extra
        if worth < seller.minimum:
            if seller.small_order is None:
                return None
            net += seller.small_order
        if seller.free_over is None or worth < seller.free_over:
            net += seller.charge
        total += net + (2 * net * seller.vat + 10_000) // 20_000
    return total


def deal(
    groups: tuple[tuple[Offer | None, ...], ...], sellers: tuple[Seller, ...], *, most: int
) -> Dealt | None:
    """Return the cheapest dealing to `most` sellers at most; None when there is none.

    `groups` hold an offer, or None, for every seller. At equal money fewer sellers, then earlier
    ones.
    """
    from ortools.sat.python import cp_model

    model = cp_model.CpModel()
    takes = [
        [model.new_bool_var("") if offer is not None else model.new_constant(0) for offer in group]
        for group in groups
    ]
    for row in takes:
        model.add_exactly_one(row)
    used = [model.new_bool_var("") for _ in sellers]
    model.add(sum(used) <= most)
    totals = []
    for number, seller in enumerate(sellers):
        column = [row[number] for row in takes]
        offers = [group[number] or Offer(cost=0) for group in groups]
        for take in column:
            model.add_implication(take, used[number])
        totals.append(_total(model, seller, offers, column, used[number]))
    ties = sum(number * take for row in takes for number, take in enumerate(row)) + len(
        groups
    ) * len(sellers) * sum(used)
    most_ties = len(groups) * len(sellers) * (len(sellers) + 1) + 1
    model.minimize(most_ties * sum(totals) + ties)
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.max_deterministic_time = _MOST_WORK
    solver.parameters.catch_sigint_signal = False
    status = solver.solve(model)
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return None
    dealt = tuple(
        next(number for number, take in enumerate(row) if solver.boolean_value(take))
        for row in takes
    )
    total = to_pay(groups, sellers, dealt)
    assert total is not None
    return Dealt(sellers=dealt, total=total, proven=status == cp_model.OPTIMAL)


def _total(
    model: cp_model.CpModel,
    seller: Seller,
    offers: list[Offer],
    takes: list[cp_model.IntVar],
    used: cp_model.IntVar,
) -> cp_model.IntVar:
    """Return what is paid to one seller: goods, charges, and VAT rounded half up."""
    worth = sum(offer.cost * take for offer, take in zip(offers, takes, strict=True))
    most = sum(offer.cost for offer in offers)
    most_extra = max((offer.extra for offer in offers), default=0)
    extra = model.new_int_var(0, most_extra, "")
    for offer, take in zip(offers, takes, strict=True):
        if offer.extra:
            model.add(extra >= offer.extra * take)
    charges = [seller.charge * used, extra]
    if seller.free_over is not None:
        is_free = model.new_bool_var("")
        model.add(worth >= seller.free_over).only_enforce_if(is_free)
        model.add_implication(is_free, used)
        charges.append(-seller.charge * is_free)
    if seller.minimum:
        is_small = model.new_bool_var("")
        model.add(worth >= seller.minimum).only_enforce_if([used, is_small.negated()])
        if seller.small_order is None:
            model.add(is_small == 0)
        charges.append((seller.small_order or 0) * is_small)
    ceiling = most + seller.charge + most_extra + (seller.small_order or 0)
    ceiling += (2 * ceiling * seller.vat + 10_000) // 20_000 + 1
    net = worth + sum(charges)
    # Rounded half up: the least whole number of pence above the VAT less half a penny.
    vat = model.new_int_var(0, ceiling, "")
    model.add(20_000 * vat >= 2 * seller.vat * net + 10_000 - 19_999)
    total = model.new_int_var(0, 2 * ceiling, "")
    model.add(total == net + vat)
    return total
