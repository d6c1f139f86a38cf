"""No dealing of goods to sellers costs a penny less than the one found, held against all."""

from __future__ import annotations

from itertools import product

from hypothesis import given, settings
from hypothesis import strategies as st

from optimiser.solvers.dealing import Offer, Seller, deal, to_pay

OFFERS = st.none() | st.builds(Offer, cost=st.integers(0, 400), extra=st.sampled_from([0, 0, 30]))
SELLERS = st.builds(
    Seller,
    vat=st.sampled_from([0, 500, 2000]),
    minimum=st.sampled_from([0, 0, 150, 500]),
    small_order=st.none() | st.integers(0, 60),
    charge=st.integers(0, 90),
    free_over=st.none() | st.integers(0, 700),
)


@settings(max_examples=120, deadline=None)
@given(data=st.data(), sellers=st.lists(SELLERS, min_size=1, max_size=3).map(tuple))
def test_no_other_dealing_costs_a_penny_less(
    data: st.DataObject, sellers: tuple[Seller, ...]
) -> None:
    groups = tuple(
        tuple(data.draw(OFFERS) for _ in sellers) for _ in range(data.draw(st.integers(1, 4)))
    )
    for most in (1, 2):
        every = [
            paid
            for dealt in product(range(len(sellers)), repeat=len(groups))
            if len(set(dealt)) <= most and (paid := to_pay(groups, sellers, dealt)) is not None
        ]

        found = deal(groups, sellers, most=most)

        assert (None if found is None else found.total) == min(every, default=None)
        assert found is None or (found.proven and len(set(found.sellers)) <= most)


def test_a_second_order_is_worth_it_only_beyond_its_delivery() -> None:
    # By hand, VAT 20 %: all at the first 100 + 100 + 10 = 210 net, 252 with VAT; the second group
    # at the second seller saves 40 and costs a delivery of 30: 200 net, 240 with VAT.
    groups = ((Offer(cost=100), Offer(cost=120)), (Offer(cost=100), Offer(cost=60)))
    sellers = (Seller(vat=2000, charge=10), Seller(vat=2000, charge=30))

    both = deal(groups, sellers, most=2)
    dearer = deal(groups, (sellers[0], Seller(vat=2000, charge=51)), most=2)

    assert both is not None
    assert (both.sellers, both.total) == ((0, 1), 240)
    assert dearer is not None
    assert (dearer.sellers, dearer.total) == ((0, 0), 252)


def test_goods_move_to_reach_free_delivery() -> None:
    # By hand: the second group costs 5 more at the first seller and saves it a delivery of 20.
    groups = ((Offer(cost=90), None), (Offer(cost=15), Offer(cost=10)))
    sellers = (Seller(charge=20, free_over=100), Seller())

    found = deal(groups, sellers, most=2)

    assert found is not None
    assert (found.sellers, found.total) == ((0, 0), 105)


def test_half_a_penny_of_vat_decides() -> None:
    # Calculated: 10 p at 5 % is 10.5 p and rounds up to 11, as much as 11 p without VAT; 9 p is 9.
    assert to_pay(((Offer(cost=10),),), (Seller(vat=500),), (0,)) == 11
    assert to_pay(((Offer(cost=9),),), (Seller(vat=500),), (0,)) == 9
