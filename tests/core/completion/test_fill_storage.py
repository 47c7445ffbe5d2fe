"""What is taken for a battery of which little was said, and what is refused."""

import pytest

from service.core.completion.fill_storage import storage_of
from service.core.completion.node import Node
from service.core.errors import ContradictionError
from tests.builders import household, inverter


def filled(**given):
    log = []
    storage = storage_of(Node(given, "/storage", log), inverter(), household(always_on_w=60))
    return storage, {one.pointer.rpartition("/")[2]: one for one in log}


def test_nobody_asked():
    assert storage_of(None, inverter(), household()) is None


def test_all_but_the_capacity_is_assumed_and_written_down():
    storage, noted = filled(usable_kwh=1.0)
    assert set(noted) == {
        "coupling", "charge_limit_w", "discharge_limit_w", "max_input_current_a", "round_trip_share", "standby_w",
        "meter_reader", "night_feed_w", "charge_above_w", "ageing_share_per_year",
    }  # fmt: skip
    assert all(one.source for one in noted.values())
    assert not storage.meter_reader
    assert storage.amount is None


def test_a_box_without_a_reader_feeds_what_is_always_on():
    storage, _ = filled(usable_kwh=1.0)
    assert (storage.night_feed_w, storage.charge_above_w) == (60, 60)
    assert filled(usable_kwh=1.0, night_feed_w=150)[0].charge_above_w == 150


def test_a_box_with_a_reader_feeds_no_fixed_power():
    storage, noted = filled(usable_kwh=1.0, meter_reader=True)
    assert storage.night_feed_w is None
    assert storage.charge_above_w is None
    assert "night_feed_w" not in noted


def test_a_box_on_a_socket_of_its_own_loses_more_and_has_no_inputs():
    before, beside = (filled(usable_kwh=1.0, coupling=kind) for kind in ("dc", "ac"))
    assert beside[0].round_trip_share < before[0].round_trip_share
    assert "max_input_current_a" not in beside[1]


def test_power_follows_capacity_and_the_inverter():
    assert filled(usable_kwh=1.0)[0].charge_limit_w == 500
    assert filled(usable_kwh=0.2)[0].charge_limit_w == 200
    assert filled(usable_kwh=4.0)[0].discharge_limit_w == inverter().set_limit_w
    assert filled(usable_kwh=4.0, coupling="ac")[0].discharge_limit_w == 2000


@pytest.mark.parametrize(
    ("given", "where"),
    [
        ({"meter_reader": True, "night_feed_w": 100}, "/storage/night_feed_w"),
        ({"meter_reader": True, "charge_above_w": 100}, "/storage/charge_above_w"),
        ({"coupling": "ac", "max_input_current_a": 12}, "/storage/max_input_current_a"),
        ({"coupling": "ac", "max_input_voltage_v": 60}, "/storage/max_input_voltage_v"),
        ({"coupling": "ac", "max_short_circuit_current_a": 20}, "/storage/max_short_circuit_current_a"),
        ({"night_feed_w": 400, "discharge_limit_w": 300}, "/storage/night_feed_w"),
    ],
)
def test_parts_that_cannot_both_hold_are_refused_where_they_stand(given, where):
    with pytest.raises(ContradictionError) as refused:
        filled(usable_kwh=1.0, **given)
    assert refused.value.pointer == where
    assert refused.value.accepted
