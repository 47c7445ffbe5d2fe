"""Do outlays of many offers at once come to what each set costs by itself?"""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from service.core.shortlist import Bought, Offer, OwnCosts, PanelKind
from service.core.shortlist.paid import Paid
from tests.shortlist_kinds import INVERTER, SHEET, inverter_of, panel_of

PANEL: PanelKind = panel_of(SHEET)
OFFERS = st.builds(
    Offer,
    advert=st.sampled_from([None, "a", "b", "c", "d"]),
    panel=st.just(PANEL),
    pieces=st.sampled_from([None, 1, 2, 3, 9]),
    least=st.sampled_from([1, 1, 2, 3]),
    each=st.integers(0, 200).map(float),
    lot=st.sampled_from([None, None, 0.0, 120.0]),
    freight=st.sampled_from([None, 0.0, 12.0]),
    km=st.sampled_from([None, 0.0, 7.0, 40.0]),
    trip=st.sampled_from([None, "port", "mole"]),
    second_hand=st.booleans(),
)
INVERTERS = st.builds(
    Offer, advert=st.sampled_from([None, "v"]), inverter=st.just(inverter_of(INVERTER)), panels_each=st.just(0),
    each=st.integers(0, 200).map(float), km=st.sampled_from([None, 9.0]), freight=st.sampled_from([None, 8.0]),
    trip=st.sampled_from([None, "port"]), second_hand=st.booleans(),
)  # fmt: skip
COSTS = st.builds(
    OwnCosts, items=st.just((("brackets", 58.0),)), freight=st.sampled_from([0.0, 5.0]),
    registration=st.sampled_from([0.0, 20.0]), per_km=st.sampled_from([0.0, 0.3]),
    faulty_share=st.sampled_from([0.0, 0.1]),
)  # fmt: skip


@settings(max_examples=80, deadline=None)
@given(st.lists(OFFERS, min_size=1, max_size=5), INVERTERS, COSTS, st.integers(1, 4))
def test_many_offers_with_an_inverter_cost_what_each_set_costs(
    panels: list[Offer], inverter: Offer, costs: OwnCosts, count: int
) -> None:
    paid = Paid(costs, panels, range(1, 5))
    for one, outlay in zip(panels, paid.with_inverter(inverter, count).tolist(), strict=True):
        if count > one.most:
            assert outlay == float("inf")
        else:
            assert outlay == pytest.approx(paid.outlay((Bought(one, count),), inverter))


@settings(max_examples=80, deadline=None)
@given(OFFERS, OFFERS, INVERTERS, COSTS)
def test_two_offers_that_a_trip_joins_cost_what_their_set_costs(
    one: Offer, other: Offer, inverter: Offer, costs: OwnCosts
) -> None:
    other = replace(other, advert="another")
    paid = Paid(costs, [one, other], range(1, 5))
    apart = paid.apart[1][[0]] + paid.apart[1][[1]] + paid.own(inverter)
    found = paid.of_two([(one, other)], (1, 1), inverter, apart)
    assert found.tolist() == pytest.approx([paid.outlay((Bought(one, 1), Bought(other, 1)), inverter)])
