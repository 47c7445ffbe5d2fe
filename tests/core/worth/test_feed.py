"""The fixed powers of a box that reads nothing: tried, chosen, and never worse than leaving it off."""

from dataclasses import replace
from datetime import date

import pytest

from service.core.model.bounds import BOUNDS
from service.core.model.storage import Storage
from service.core.worth import chosen_feed, left_off, storage_beside, use_at_home, worth
from service.core.worth.feed import NEVER_W
from service.data.households import load_demand_shape
from tests.builders import household, setup
from tests.energy_years import CALENDAR, energy_year

SHAPE = load_demand_shape()
AS_OF = date(2026, 11, 25)


def blind(**changes):
    base = Storage(
        usable_kwh=1.0, coupling="ac", charge_limit_w=500.0, discharge_limit_w=500.0, max_input_current_a=None,
        round_trip_share=0.8, standby_w=5.0, meter_reader=False, night_feed_w=60.0, charge_above_w=60.0,
        ageing_share_per_year=0.02, amount=300.0,
    )  # fmt: skip
    return replace(base, **changes)


def asked(storage, *, open_at="both", year_kwh=640.0, **changes):
    """The use without it, what was chosen, and both sides."""
    energy, setting = energy_year(year_kwh), setup(storage=storage, **changes)
    use = use_at_home(energy, setting, CALENDAR, SHAPE)
    opened = {"both": (True, True), "feed": (True, False), "threshold": (False, True), "none": (False, False)}[open_at]
    chosen = chosen_feed(use, setting, feed_open=opened[0], threshold_open=opened[1])
    account = worth(energy, use, setting, AS_OF)
    return chosen, storage_beside(energy, setting, use, account, AS_OF, chosen=chosen)


BUSY = household(demand_kwh_per_year=9000, always_on_w=0.0)


def test_the_setting_with_the_most_use_at_home_is_taken_and_the_year_is_run_with_it():
    chosen, beside = asked(blind())
    assert chosen.tried[0].more_self_used_kwh == max(one.more_self_used_kwh for one in chosen.tried) > 20.0
    taken = (chosen.storage.night_feed_w, chosen.storage.charge_above_w)
    assert taken == (chosen.tried[0].night_feed_w, chosen.tried[0].charge_above_w)
    assert beside.more_self_used_kwh.middle == pytest.approx(chosen.tried[0].more_self_used_kwh, abs=1e-6)
    assert beside.tried == chosen.tried
    given = asked(replace(blind(), night_feed_w=taken[0], charge_above_w=taken[1]), open_at="none")[1]
    assert given.more_self_used_kwh == beside.more_self_used_kwh
    assert given.tried == ()


def test_a_chosen_setting_brings_more_than_feeding_and_passing_what_is_always_on():
    fixed = asked(blind(), open_at="none")[1].more_self_used_kwh.middle
    assert asked(blind())[1].more_self_used_kwh.middle > 1.2 * fixed


def test_leaving_it_off_is_among_the_settings_tried():
    for open_at, off in (("both", (0.0, 0.0)), ("feed", (0.0, 60.0)), ("threshold", (60.0, NEVER_W))):
        chosen, _ = asked(blind(), open_at=open_at)
        (one,) = (one for one in chosen.tried if left_off(blind(night_feed_w=one.night_feed_w,
                                                                charge_above_w=one.charge_above_w)))  # fmt: skip
        assert (one.night_feed_w, one.charge_above_w) == off
        assert one.more_self_used_kwh == 0.0


@pytest.mark.parametrize("open_at", ["both", "feed", "threshold"])
def test_where_nothing_adds_to_the_use_at_home_it_is_left_off_and_changes_nothing(open_at):
    """A home that draws a kilowatt all day takes all of a small set: a detour through a battery only loses."""
    chosen, beside = asked(blind(amount=100.0), open_at=open_at, year_kwh=100.0, household=BUSY)
    assert left_off(chosen.storage)
    assert beside.more_self_used_kwh.middle == beside.more_self_used_kwh.cautious == 0.0
    assert beside.with_it.self_used_kwh == beside.without.self_used_kwh
    assert beside.with_it.exported_kwh == beside.without.exported_kwh
    assert (beside.year.charged_kwh, beside.year.standby_mains_kwh, beside.year.full_cycles) == (0.0, 0.0, 0.0)
    assert beside.money.gain_first_year.middle == 0.0
    assert not beside.money.pays


def test_the_powers_that_a_caller_fixed_stay_fixed():
    assert asked(blind(night_feed_w=123.0), open_at="threshold")[0].storage.night_feed_w == 123.0
    assert asked(blind(charge_above_w=77.0), open_at="feed")[0].storage.charge_above_w == 77.0


def test_powers_that_lower_self_use_come_with_settings_that_do_not():
    bad = blind(charge_above_w=0.0, night_feed_w=400.0, usable_kwh=2.0)
    chosen, beside = asked(bad, open_at="none", household=household(demand_kwh_per_year=5000, always_on_w=100.0))
    assert chosen is None
    assert beside.more_self_used_kwh.middle < 0.0
    assert beside.tried[0].more_self_used_kwh > 0.0


def test_inputs_that_cost_more_than_the_box_brings_leave_it_out():
    energy, setting = energy_year(), setup(storage=blind(coupling="dc"))
    use = use_at_home(energy, setting, CALENDAR, SHAPE)
    fifth = energy.dc_w[0] * 0.2
    chosen = chosen_feed(use, setting, box_dc_w=fifth)
    assert left_off(chosen.storage)
    beside = storage_beside(energy, setting, use, None, AS_OF, box_dc_w=fifth, chosen=chosen)
    assert beside.inputs_lost_kwh == 0.0
    assert beside.with_it.self_used_kwh.middle == beside.without.self_used_kwh.middle


def test_no_power_that_is_tried_is_above_what_the_box_gives():
    chosen, _ = asked(blind(discharge_limit_w=41.7))
    assert max(one.night_feed_w for one in chosen.tried) == 41.0


def test_a_reader_or_nothing_left_open_leaves_nothing_to_choose():
    assert asked(blind(), open_at="none")[0] is None
    assert asked(blind(meter_reader=True, night_feed_w=None, charge_above_w=None))[0] is None
    assert asked(None)[0] is None
    assert asked(blind(night_feed_w=0.0), open_at="threshold")[0] is None
    assert asked(blind(charge_above_w=NEVER_W), open_at="feed")[0] is None


def test_never_is_the_greatest_threshold_that_may_be_sent():
    assert BOUNDS["charge_above_w"].high == NEVER_W
