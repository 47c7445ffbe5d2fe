"""A battery of which only the capacity was told never lowers what is used at home, and no battery creates energy."""

from dataclasses import replace
from datetime import date

import numpy as np
import pytest
from hypothesis import event, given
from hypothesis import strategies as st

from service.core.inverter import curve_through, output_of
from service.core.model.facts import Meter
from service.core.model.storage import Storage
from service.core.worth import chosen_feed, left_off, limited_export, storage_beside, use_at_home, worth
from service.core.worth.box import Box
from service.data.households import load_demand_shape
from tests.builders import household, inverter, setup
from tests.energy_years import CALENDAR, energy_year, sky_year

SHAPE = load_demand_shape()
AS_OF = date(2026, 11, 25)


@st.composite
def boxes(draw, reader=None):
    """Any box; the powers of one that reads nothing as the caller fixed them."""
    discharge = draw(st.floats(20, 2400))
    reads = draw(st.booleans()) if reader is None else reader
    return Storage(
        usable_kwh=draw(st.floats(0.05, 5)),
        coupling=draw(st.sampled_from(["dc", "ac"])),
        charge_limit_w=draw(st.floats(20, 2400)),
        discharge_limit_w=discharge,
        max_input_current_a=None,
        round_trip_share=draw(st.floats(0.5, 1)),
        standby_w=draw(st.floats(0, 40)),
        meter_reader=reads,
        night_feed_w=None if reads else draw(st.floats(0, discharge)),
        charge_above_w=None if reads else draw(st.floats(0, 1500)),
        ageing_share_per_year=0.02,
        amount=200.0,
    )


def through(machine, energy):
    """The made-up year through this inverter, as a box before it would find it."""
    curve = curve_through(machine.weighted_efficiency_share, machine.efficiency_weighting)
    out = output_of(energy.dc_w[0], machine.ac_power_w, machine.set_limit_w, curve)
    return replace(energy, ac_w=out.ac_w)


@st.composite
def homes(draw, box):
    """A year of production, the setup and the use at home without the battery."""
    machine = inverter(set_limit_w=draw(st.sampled_from([800.0, 800.0, 300.0])))
    energy = through(machine, energy_year(draw(st.floats(0, 1500))))
    limit = draw(st.sampled_from([None, None, 0.0, 200.0]))
    values = draw(st.sampled_from([None, tuple(np.tile([90.0] * 18 + [900.0] * 3 + [200.0] * 3, 365))]))
    setting = setup(
        household=household(
            demand_kwh_per_year=draw(st.floats(0, 9000)), always_on_w=draw(st.floats(0, 400)), values_w=values
        ),
        storage=box,
        downtime_days_per_year=0,
        inverter=replace(machine, export_limit_w=limit),
        meter=Meter(
            counts="two_way", sums_phases=draw(st.booleans()), netting=draw(st.sampled_from(["instant", "hour"]))
        ),
    )
    if limit is not None:
        demand = use_at_home(energy, setting, CALENDAR, SHAPE).meter.demand_w
        energy = limited_export(energy, setting, demand, sky_year())
    return energy, setting, use_at_home(energy, setting, CALENDAR, SHAPE)


@given(st.data(), boxes(reader=False), st.sampled_from([(True, True), (True, False), (False, True)]))
def test_a_setting_that_nobody_gave_never_lowers_self_use(data, box, opened):
    energy, setting, use = data.draw(homes(box))
    inputs = data.draw(st.sampled_from([None, None, 0.5]))
    box_dc = None if inputs is None or box.coupling == "ac" else energy.dc_w[0] * inputs
    chosen = chosen_feed(use, setting, feed_open=opened[0], threshold_open=opened[1], box_dc_w=box_dc)
    got = storage_beside(energy, setting, use, None, AS_OF, box_dc_w=box_dc, chosen=chosen)
    taken = box if chosen is None else chosen.storage  # None: left off by the power that the caller fixed
    event("left off" if left_off(taken) else "helps")
    assert got.more_self_used_kwh.middle >= 0.0
    assert got.with_it.self_used_kwh.middle >= use.self_used_kwh.middle
    assert taken.night_feed_w <= box.discharge_limit_w


@given(st.data(), boxes())
def test_what_the_caller_fixed_is_told_honestly_where_it_lowers_self_use(data, box):
    energy, setting, use = data.draw(homes(box))
    got = storage_beside(energy, setting, use, None, AS_OF)
    more = got.more_self_used_kwh.middle
    assert got.with_it.self_used_kwh.middle == pytest.approx(use.self_used_kwh.middle + more)
    if box.meter_reader:
        assert more >= -1e-3 - 1e-5 * use.demand_kwh
    elif more < -0.01:
        event("lowers")
        assert got.tried[0].more_self_used_kwh >= 0.0


@given(st.data(), boxes())
def test_each_end_of_the_band_keeps_to_what_is_given_lost_and_needed_then(data, box):
    """What a battery loses at that end is no more there to be used, and the money saved is that of so many kWh."""
    energy, setting, use = data.draw(homes(box))
    got = storage_beside(energy, setting, use, worth(energy, use, setting, AS_OF), AS_OF)
    stands = Box.of(use.meter, setting, box, None)
    less, more = stands.years([(stands.plan(end), 1.0) for end in energy.light_ends()])
    used, price = got.with_it.self_used_kwh, setting.tariff.periods[0].import_price_per_kwh
    assert used.hopeful <= use.demand_kwh + 1e-6
    if setting.inverter.export_limit_w is None:
        assert used.cautious <= reaching_kwh(less) + 1e-6
        assert used.hopeful <= max(reaching_kwh(more), used.middle) + 1e-6
        assert got.with_it.saving_first_year.hopeful <= price * max(reaching_kwh(more), used.middle) + 1e-6
    assert got.with_it.saving_first_year.hopeful <= price * use.demand_kwh + 1e-6
    assert used.cautious <= used.middle <= used.hopeful
    if box.meter_reader:
        less = -1e-3 - 1e-5 * use.demand_kwh
        assert got.more_self_used_kwh.cautious >= less
        assert used.cautious >= use.self_used_kwh.cautious + less
        assert used.hopeful >= use.self_used_kwh.hopeful + less


def reaching_kwh(year):
    """What of a year with a battery reaches the home or the grid."""
    return float((year.home.self_used_kwh + year.home.exported_kwh).sum())


@given(st.data(), boxes())
def test_every_hour_with_a_battery_closes(data, box):
    _, setting, use = data.draw(homes(box))
    stands = Box.of(use.meter, setting, box, None)
    plan = stands.plan(1.0)
    (year,) = stands.years([(plan, 1.0)])
    hour, stored = year.with_box, year.stored
    came = plan.used_w + plan.sent_w + hour.unclipped_w + stored.given_w[0] * stands.out_share
    went = hour.used_w + hour.sent_w + stored.charged_w[0] * stands.into_share
    kept = setting.inverter.export_limit_w is None
    close = 1e-3 + 1e-5 * float(use.meter.demand_w.max())
    if kept:
        assert went == pytest.approx(came, abs=close)
    else:  # what may not be sent out is lost, and a battery may save it
        produced = stands.produced_w + hour.unclipped_w + stored.given_w[0] * stands.out_share
        assert (went <= produced + close).all()
    sums = year.year(box)
    assert sums.charged_kwh == pytest.approx(sums.given_kwh + sums.lost_kwh + sums.standby_kwh)
    assert sums.given_kwh <= sums.charged_kwh * box.round_trip_share + 1e-6
