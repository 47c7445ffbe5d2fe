"""What a set costs delivered."""

from dataclasses import replace

import pytest

from service.core.model.facts import Fetching, OutlayItem
from service.core.payback import fetching_cost, outlay_parts, sound_share
from tests.builders import outlay

TRIP = Fetching(km=42, per_km=0.30, trips=1, hours=0, per_hour=0)


def second_hand(amount, **changes):
    items = (OutlayItem(what="panels", amount=amount, second_hand=True), OutlayItem(what="inverter", amount=95))
    return outlay({"items": items, **changes})


def test_a_trip_goes_there_and_back():
    assert fetching_cost(TRIP) == pytest.approx(25.20)
    assert fetching_cost(replace(TRIP, trips=3)) == pytest.approx(3 * 25.20)


def test_own_hours_count_where_they_have_a_price():
    assert fetching_cost(replace(TRIP, hours=2.5, per_hour=12)) == pytest.approx(25.20 + 30)
    assert fetching_cost(replace(TRIP, hours=2.5)) == pytest.approx(25.20)


def test_the_parts_add_up_to_the_outlay():
    parts = outlay_parts(second_hand(130, freight=39, fetching=TRIP, registration=15, faulty_share=0.1))
    assert (parts.things, parts.freight, parts.registration) == (225, 39, 15)
    assert parts.total == pytest.approx(225 + 39 + 25.20 + 15 + 13)


def test_faults_cost_the_share_of_the_second_hand_panels_alone():
    assert outlay_parts(second_hand(130, faulty_share=0.2)).second_hand_risk == pytest.approx(26)
    assert outlay_parts(outlay({"faulty_share": 0.2}, panels=130)).second_hand_risk == 0


def test_a_rebate_on_panels_beyond_their_price_is_no_negative_risk():
    assert outlay_parts(second_hand(-20, faulty_share=0.2)).second_hand_risk == 0


def test_a_place_stays_empty_where_the_replacement_is_faulty_too():
    """Enumerated: sound at once 0.8, faulty then sound 0.2 x 0.8, faulty twice 0.04."""
    assert sound_share(0.2) == pytest.approx(0.8 + 0.2 * 0.8)
    assert sound_share(0.0) == 1
