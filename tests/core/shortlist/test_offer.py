"""What do pieces of an offer cost, delivered?"""

from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.core.shortlist import Bought, Offer, delivery_of


def test_the_cheaper_of_sending_and_fetching_is_taken() -> None:
    near, far = Offer(advert="a", km=10.0, freight=9.0), Offer(advert="a", km=40.0, freight=9.0)
    assert delivery_of([Bought(near)], 0.3).cost(0.3) == pytest.approx(6.0)
    assert delivery_of([Bought(far)], 0.3).cost(0.3) == pytest.approx(9.0)


def test_offers_that_the_caller_puts_on_one_trip_are_fetched_on_one_drive() -> None:
    one, other = Offer(advert="a", km=20.0, trip="port"), Offer(advert="b", km=15.0, trip="port")
    apart = Offer(advert="b", km=15.0)
    assert delivery_of([Bought(one), Bought(other)], 0.5).km == pytest.approx(20.0)
    assert delivery_of([Bought(one), Bought(apart)], 0.5).km == pytest.approx(35.0)


def test_what_would_be_sent_comes_along_where_the_longer_drive_costs_less() -> None:
    one = Offer(advert="a", km=20.0, trip="port")
    along, sent = (Offer(advert="b", km=km, freight=5.0, trip="port") for km in (22.0, 60.0))
    assert delivery_of([Bought(one), Bought(along)], 0.3).cost(0.3) == pytest.approx(2 * 22 * 0.3)
    assert delivery_of([Bought(one), Bought(sent)], 0.3).cost(0.3) == pytest.approx(2 * 20 * 0.3 + 5.0)


def test_what_is_at_hand_costs_nothing_to_get_and_an_offer_that_nobody_can_get_is_named() -> None:
    found = delivery_of([Bought(Offer(advert=None, km=500.0)), Bought(Offer(advert="a"))], 0.3)
    assert (found.cost(0.3), found.unknown) == (0.0, ("a",))


def test_the_order_of_what_is_bought_does_not_matter() -> None:
    offers = [
        Offer(advert=name, km=km, freight=f, trip="t") for name, km, f in (("a", 9, 4), ("b", 12, 3), ("c", 5, 9))
    ]
    bought = [Bought(one) for one in offers]
    costs = {delivery_of(order, 0.2).cost(0.2) for order in (bought, bought[::-1], [bought[1], bought[2], bought[0]])}
    assert len(costs) == 1


def test_a_lot_is_paid_for_whole_however_many_are_used() -> None:
    lot = Offer(advert="a", pieces=6, each=20.0, lot=120.0)
    assert [lot.goods(count) for count in (1, 4)] == [120.0, 120.0]
    assert Offer(advert="a", each=20.0).goods(3) == 60.0


@st.composite
def some_offers(draw: st.DrawFn) -> list[Offer]:
    """Up to three that can be had, some of them on one trip."""
    return [
        Offer(advert=f"a{at}", km=draw(st.sampled_from([5.0, 12.0, 40.0])), trip=draw(st.sampled_from([None, "port"])),
              freight=draw(st.sampled_from([None, 0.0, 4.0, 23.0, 25.0])))
        for at in range(draw(st.integers(1, 3)))
    ]  # fmt: skip


@given(some_offers(), st.sampled_from([0.0, 0.3]))
def test_no_other_choice_of_what_is_sent_and_what_is_fetched_costs_less(offers: list[Offer], per_km: float) -> None:
    costs = []
    for sends in product((False, True), repeat=len(offers)):
        if any(sent and one.freight is None for one, sent in zip(offers, sends, strict=True)):
            continue
        drives: dict[str | None, float] = {}
        for one, sent in zip(offers, sends, strict=True):
            if not sent:
                trip = one.trip or one.advert
                drives[trip] = max(drives.get(trip, 0.0), one.km or 0.0)
        sending = sum(one.freight or 0.0 for one, sent in zip(offers, sends, strict=True) if sent)
        costs.append(2.0 * per_km * sum(drives.values()) + sending)
    found = delivery_of([Bought(one) for one in offers], per_km).cost(per_km)
    assert found == pytest.approx(min(costs))
