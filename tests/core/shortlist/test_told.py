"""What is taken from a read advert, and why is one left?"""

from dataclasses import replace
from datetime import date
from typing import Any

import pytest

from service.core.shortlist import Left, Market, Offer, Taken, Told, currency_of_most, taken
from tests.shortlist_kinds import AS_OF, inverter_of, panel_of

MARKET = Market(currency="EUR", as_of=AS_OF, panel_of=panel_of, inverter_of=inverter_of)
PANEL = Told(
    advert="a7", kind="panel", pieces=4, price=45.0, currency="EUR", basis="each", condition="used", delivery="pickup",
    panel={"rated_power_w": 395.0, "open_circuit_voltage_v": 36.9, "short_circuit_current_a": 13.7}, km=12.0,
)  # fmt: skip
INVERTER = Told(advert="a9", kind="inverter", pieces=1, price=95.0, inverter={"ac_power_w": 800.0}, km=3.0)


def offered(told: Told) -> Offer | None:
    found = taken(told, replace(MARKET, currency=None))
    return found.offer if isinstance(found, Taken) else None


def most(*adverts: Told) -> str | None:
    return currency_of_most(adverts, offered)


def offer(told: Told) -> Taken:
    found = taken(told, MARKET)
    assert isinstance(found, Taken)
    return found


@pytest.mark.parametrize(
    ("changes", "code"),
    [
        ({"is_offer": False}, "not_an_offer"),
        ({"kind": "other"}, "other_goods"),
        ({"condition": "damaged"}, "damaged"),
        ({"doubts": ("reserved",)}, "reserved"),
        ({"doubts": ("sold",)}, "sold"),
        ({"doubts": ("off_grid_inverter",)}, "off_grid_inverter"),
        ({"price": None}, "no_price"),
        ({"price": 9_999_999.0}, "too_dear"),
        ({"currency": "PLN"}, "other_currency"),
        ({"panel": {}}, "no_rated_power"),
        ({"kind": "inverter"}, "no_ac_power"),
        ({"panel": {"rated_power_w": 400.0, "open_circuit_voltage_v": 4.0}}, "figures_contradict"),
    ],
)
def test_an_advert_that_cannot_be_listed_is_left_with_its_reason(changes: dict[str, Any], code: str) -> None:
    found = taken(replace(PANEL, **changes), MARKET)
    assert isinstance(found, Left)
    assert found.code == code


def test_a_price_without_a_currency_and_an_account_without_one_are_taken_as_they_are() -> None:
    assert isinstance(taken(replace(PANEL, currency=None), MARKET), Taken)
    assert isinstance(taken(replace(PANEL, currency="PLN"), replace(MARKET, currency=None)), Taken)


def test_the_currency_of_most_offers_leaves_the_others_out() -> None:
    adverts = [
        replace(PANEL, currency=one, km=at) for at, one in ((1.0, "PLN"), (9.0, "EUR"), (30.0, "PLN"), (5.0, None))
    ]
    assert most(*adverts) == "PLN"
    found = taken(adverts[1], replace(MARKET, currency="PLN", of_most=True))
    assert isinstance(found, Left)
    assert found.code == "currency_unlike_most"
    assert most(*reversed(adverts[:2])) == most(*adverts[:2]) == "EUR"
    assert most(replace(PANEL, is_offer=False), replace(PANEL, price=None), adverts[3]) is None


@pytest.mark.parametrize(
    "changes",
    [
        {"doubts": ("sold",)}, {"doubts": ("reserved",)}, {"doubts": ("not_photovoltaic",)}, {"kind": "other"},
        {"condition": "damaged"}, {"price": 9e9}, {"panel": {}}, {"price": 0.0}, {"is_offer": False},
        {"km": 12.0, "price": 40.0},  # the same thing three times
    ],
)  # fmt: skip
def test_what_cannot_be_taken_costs_nothing_or_is_told_again_chooses_no_currency(changes: dict[str, Any]) -> None:
    dollars = [replace(PANEL, advert=f"u{at}", currency="USD", km=30.0 * at, price=40.0) for at in (1, 2, 3)]
    euros = [PANEL, replace(PANEL, advert="a8", price=50.0)]
    assert most(*dollars, *euros) == "USD"
    assert most(*(replace(one, **changes) for one in dollars), *euros) == "EUR"


def test_of_several_currencies_in_which_nothing_can_be_taken_none_is_chosen() -> None:
    sold = [replace(PANEL, currency=one, doubts=("sold",)) for one in ("EUR", "EUR", "USD")]
    assert most(*sold, replace(PANEL, currency=None)) is None


def test_the_currency_is_one_in_which_a_set_can_be_put_together_where_there_is_one() -> None:
    dollars = [replace(PANEL, advert=f"u{at}", currency="USD", km=30.0 * at) for at in (1, 2, 3)]
    euros = [PANEL, replace(INVERTER, currency="EUR")]
    assert most(*dollars, *euros) == "EUR"
    for anybodys in (replace(INVERTER, advert="n"), replace(INVERTER, advert="n", currency="PLN", price=0.0)):
        assert most(*dollars, *euros, anybodys) == "USD"
    at_hand = offer(INVERTER).offer
    assert currency_of_most([*dollars, *euros], offered, [at_hand]) == "USD"


def test_what_is_given_away_costs_nothing_in_any_currency_unless_its_sending_is_paid_for() -> None:
    for market in (MARKET, replace(MARKET, of_most=True)):
        gift = replace(PANEL, price=0.0, currency="USD")
        assert isinstance(taken(gift, market), Taken)
        assert isinstance(taken(replace(gift, sending=5.0, shipping_cost=9.0, delivery="shipping"), market), Taken)
        assert isinstance(taken(replace(gift, shipping_cost=9.0, delivery="shipping"), market), Left)
        sent, here = (taken(replace(gift, currency=one, delivery="shipping"), market) for one in ("CZK", "EUR"))
        assert isinstance(sent, Taken)
        assert isinstance(here, Taken)
        assert sent.offer.freight == here.offer.freight


def test_a_price_of_unknown_basis_is_read_as_the_dearer_and_asked_about() -> None:
    found = offer(replace(PANEL, basis="unknown"))
    assert found.offer.goods(2) == 90.0
    assert "price_basis" in found.asks
    assert "price_basis" not in offer(replace(PANEL, basis="unknown", pieces=1)).asks


def test_a_lot_is_bought_whole_and_asked_about() -> None:
    found = offer(replace(PANEL, basis="lot", price=180.0, pieces=6))
    assert (found.offer.goods(2), found.offer.most) == (180.0, 4)
    assert "split_lot" in found.asks
    together = offer(replace(PANEL, basis="lot", price=180.0, pieces=6, least=6, doubts=("minimum_order",)))
    assert not {"split_lot", "minimum_order"} & set(together.asks)


def test_the_fewest_that_are_sold_are_paid_for_though_fewer_be_hung() -> None:
    found = offer(replace(PANEL, pieces=None, least=10, doubts=("minimum_order",)))
    assert [found.offer.goods(count) for count in (1, 2, 12)] == [450.0, 450.0, 540.0]
    assert "minimum_order" not in found.asks
    untold = offer(replace(PANEL, doubts=("minimum_order",)))
    assert untold.offer.goods(1) == 90.0
    assert "minimum_order" in untold.asks


@pytest.mark.parametrize(
    "told", [INVERTER, replace(PANEL, kind="set", basis="set", inverter={"ac_power_w": 800.0}, panels_in_set=2)]
)
def test_the_fewest_that_are_sold_bind_inverters_and_sets_likewise(told: Told) -> None:
    five = offer(replace(told, pieces=5, price=80.0, least=5, doubts=("minimum_order",)))
    assert (five.offer.must_take(1), five.offer.goods(1)) == (5, 400.0)
    only = offer(replace(told, pieces=1, price=80.0, doubts=("minimum_order",)))
    assert (only.offer.least, "two_at_least" in {one.code for one in only.assumed}) == (1, False)
    untold = offer(replace(told, pieces=None, price=80.0, doubts=("minimum_order",)))
    assert (untold.offer.must_take(1), untold.offer.goods(1)) == (2, 160.0)
    assert "minimum_order" in untold.asks
    assert "two_at_least" in {one.code for one in untold.assumed}
    assert offer(replace(told, pieces=1, price=80.0, least=5)).offer.must_take(1) == 1


def test_a_set_of_uncounted_panels_has_one_and_is_asked_about() -> None:
    told = replace(PANEL, kind="set", inverter={"ac_power_w": 800.0})
    assert offer(told).offer.panels_each == 1
    assert "panels_in_set" in offer(told).asks
    assert offer(replace(told, panels_in_set=2)).offer.panels_each == 2


def test_missing_ratings_are_asked_for_and_those_told_are_not() -> None:
    assert not {"open_circuit_voltage_v", "short_circuit_current_a"} & set(offer(PANEL).asks)
    bare = offer(replace(PANEL, panel={"rated_power_w": 395.0}))
    assert {"open_circuit_voltage_v", "short_circuit_current_a"} <= set(bare.asks)
    assert {"max_input_voltage_v", "max_current_a"} <= set(offer(INVERTER).asks)


def test_what_the_caller_says_of_delivery_counts_before_the_text() -> None:
    assert offer(replace(PANEL, sending=7.0)).offer.freight == 7.0
    assert offer(replace(PANEL, delivery="shipping", shipping_cost=9.0)).offer.km is None
    assert offer(replace(PANEL, delivery="pickup", shipping_cost=9.0)).offer.freight is None
    assert offer(replace(PANEL, delivery="shipping", sending=9.0)).offer.freight == 9.0


@pytest.mark.parametrize(
    ("changes", "asked"),
    [
        ({"delivery": "unknown", "km": None}, {"delivery"}),
        ({"delivery": "either", "km": None}, {"delivery"}),
        ({"delivery": "pickup", "km": None}, set()),
        ({"delivery": "shipping"}, {"sending_cost"}),
        ({"delivery": "shipping", "km": None}, {"sending_cost"}),
        ({"delivery": "shipping", "sending": 9.0}, set()),
        ({"delivery": "shipping", "shipping_cost": 9.0, "km": None}, set()),
        ({"delivery": "pickup"}, set()),
        ({"delivery": "unknown"}, set()),
    ],
)
def test_how_it_comes_is_asked_for_by_what_the_advert_leaves_open(changes: dict[str, Any], asked: set[str]) -> None:
    asks = offer(replace(PANEL, **changes)).asks
    assert {"delivery", "sending_cost"} & set(asks) == asked


@pytest.mark.parametrize(
    ("changes", "untold"),
    [
        ({}, False),
        ({"km": None}, True),
        ({"km": None, "delivery": "unknown"}, True),
        ({"km": None, "sending": 9.0}, False),
        ({"km": None, "delivery": "either"}, True),
        ({"km": None, "delivery": "shipping"}, False),
    ],
)
def test_a_way_that_nobody_told_is_asked_of_the_caller(changes: dict[str, Any], untold: bool) -> None:
    assert offer(replace(PANEL, **changes)).way_untold is untold


@pytest.mark.parametrize("km", [None, 1.0, 400.0])
def test_what_is_only_sent_for_nobody_knows_how_much_is_no_drive_and_is_not_free(km: float | None) -> None:
    found = offer(replace(PANEL, delivery="shipping", km=km))
    assert found.offer.km is None
    assert found.getting is not None
    assert found.getting.code == "sending_pallet"
    assert 0 < found.getting.low < found.offer.freight < found.getting.high
    inverter = offer(replace(INVERTER, delivery="shipping", km=km))
    assert inverter.getting is not None
    assert inverter.getting.code == "sending_parcel"
    assert 0 < inverter.offer.freight < found.offer.freight


def test_where_sending_is_one_of_two_ways_the_drive_counts_if_its_length_is_known() -> None:
    near, somewhere = offer(replace(PANEL, delivery="either")), offer(replace(PANEL, delivery="either", km=None))
    assert (near.offer.km, near.offer.freight, near.getting) == (12.0, None, None)
    assert somewhere.getting is not None
    assert somewhere.offer.freight == somewhere.getting.value


@pytest.mark.parametrize("told", [PANEL, INVERTER])
def test_getting_it_is_no_cheaper_for_who_says_less_of_it(told: Told) -> None:
    """Nothing said, sending possible, sending only: the same amount, and the less is said the wider its range."""
    market = replace(MARKET, per_km=0.3)
    unknown, either, sent, fetched = (
        taken(replace(told, km=None, delivery=delivery), market)
        for delivery in ("unknown", "either", "shipping", "pickup")
    )
    offers = [one.offer for one in (unknown, either, sent, fetched) if isinstance(one, Taken)]
    assert offers[0].freight == offers[1].freight == offers[2].freight
    assert offers[0].freight_less == offers[1].freight_less > offers[2].freight_less > 0.0
    assert all(one.freight and one.freight_less < one.freight and one.freight_more for one in offers)
    assert all(isinstance(one, Taken) and one.getting is not None for one in (unknown, either, sent, fetched))


def test_a_way_that_is_not_told_is_a_usual_one_driven_there_and_back_with_its_range() -> None:
    found = taken(replace(PANEL, km=None), replace(MARKET, per_km=0.3))
    assert isinstance(found, Taken)
    assert found.getting is not None
    assert found.getting.low is not None
    assert found.getting.high is not None
    for km, money in (
        (found.getting.value, found.offer.freight), (found.getting.low, found.offer.freight - found.offer.freight_less),
        (found.getting.high, found.offer.freight + found.offer.freight_more),
    ):  # fmt: skip
        assert money == pytest.approx(2 * 0.3 * km)
    free = offer(replace(PANEL, km=None))
    assert free.getting is not None
    assert (free.offer.freight, free.getting.value) == (0.0, 0.0)


def test_what_sending_is_taken_to_cost_is_told_in_the_money_of_the_advert() -> None:
    sent = replace(PANEL, delivery="shipping")
    crowns = taken(replace(sent, currency="CZK"), replace(MARKET, currency="CZK"))
    assert isinstance(crowns, Taken)
    assert crowns.offer.freight > 10 * offer(sent).offer.freight
    strange = taken(replace(sent, currency="XAU"), replace(MARKET, currency=None))
    assert isinstance(strange, Taken)
    assert (strange.offer.freight, strange.offer.km, strange.getting) == (None, None, None)
    assert "sending_cost" in strange.asks


def test_an_old_advert_is_asked_whether_it_still_stands() -> None:
    assert "still_there" in offer(replace(PANEL, posted_on=date(2026, 9, 1))).asks
    assert "still_there" not in offer(replace(PANEL, posted_on=date(2026, 11, 20))).asks


def test_used_panels_have_been_in_use_and_unused_ones_not_unless_told() -> None:
    histories = {
        condition: offer(replace(PANEL, condition=condition)).offer.panel for condition in ("used", "unused", "unknown")
    }
    told = {name: one.given.get("history") for name, one in histories.items() if one is not None}
    assert told == {"used": "roof", "unused": "unused", "unknown": None}


@pytest.mark.parametrize("price", [1.0, 5.0])
def test_a_price_that_is_hardly_meant_is_doubted_and_asked_about_and_still_listed(price: float) -> None:
    for told in (replace(PANEL, price=price), replace(INVERTER, price=price)):
        found = offer(told)
        assert found.doubts == ("too_cheap",)
        assert found.asks[0] == "price_meant"
        assert not found.offer.tricky
    once = offer(replace(PANEL, price=price, doubts=("too_cheap",)))
    assert once.doubts == ("too_cheap",)


def test_what_is_given_away_and_what_is_small_is_not_doubted_for_its_price() -> None:
    small = {**PANEL.panel, "rated_power_w": 20.0, "open_circuit_voltage_v": 21.0, "short_circuit_current_a": 1.3}
    for told in (replace(PANEL, price=0.0), replace(PANEL, price=3.0, panel=small), replace(PANEL, price=6.0)):
        assert "too_cheap" not in offer(told).doubts
        assert "price_meant" not in offer(told).asks
