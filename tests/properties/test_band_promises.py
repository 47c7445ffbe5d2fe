"""The band: what lies before the limits is scaled, and the limits hold at both of its ends, in every hour."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.core.energy import energy_year
from service.core.energy.spread import REAR_SD_OF_GAIN
from service.core.household import demand_w
from service.core.model.assumption import Assumptions
from service.core.model.band import Z_90
from service.core.model.facts import Meter
from service.core.model.place import Plane
from service.core.worth import limited_export, use_at_home
from service.data.households import load_demand_shape
from tests.builders import array, household, panel, setup
from tests.climates import climate
from tests.properties.strategies import sets
from tests.skies import mixed_year

SKY = mixed_year(54.2, 12.3)
SHAPE = load_demand_shape()
HAIR_W = 1e-6
SPREADS = st.floats(0, 0.3)


def year(request, sd_share=0.05):
    return energy_year(request, SKY, climate(climate_sd_share=sd_share), Assumptions.of(()))


@given(sets(), SPREADS)
def test_no_hour_of_either_end_is_above_the_limit(request, sd_share):
    one = year(request, sd_share)
    limit = min(request.inverter.set_limit_w, request.inverter.ac_power_w)
    for end in one.light_ends():
        assert np.all(one.ac_at(end) >= 0)
        assert np.all(one.ac_at(end) <= limit + HAIR_W)
    assert one.year_kwh.hopeful <= limit * 8.76 + 1e-9


@given(sets(), SPREADS)
def test_the_ends_are_those_of_the_band_and_stand_around_the_middle(request, sd_share):
    one = year(request, sd_share)
    low, high = one.light_ends()
    assert one.kwh_at(low) == pytest.approx(one.year_kwh.cautious, abs=1e-6)
    assert one.kwh_at(high) == pytest.approx(one.year_kwh.hopeful, abs=1e-6)
    assert np.all(one.ac_at(low) <= one.ac_w + HAIR_W)
    assert np.all(one.ac_w <= one.ac_at(high) + HAIR_W)
    assert one.year_kwh.cautious <= one.year_kwh.middle <= one.year_kwh.hopeful


@given(sets(), st.floats(0, 2))
def test_the_same_light_gives_the_same_year_and_more_never_less(request, scale):
    one = year(request)
    np.testing.assert_allclose(one.ac_at(1.0 + 1e-15), one.ac_w, atol=HAIR_W)
    assert np.all(one.ac_at(scale) <= one.ac_at(scale * 1.1) + HAIR_W)


@given(sets(), SPREADS)
def test_a_set_that_nothing_cuts_keeps_the_band_of_its_spread(request, sd_share):
    """An inverter without losses and limits far off: the year goes with the light, to rounding."""
    wide = tuple(
        replace(one, max_current_a=1e4, max_input_power_w=None, tracking_min_v=1, tracking_max_v=1e4, start_voltage_v=1)
        for one in request.inverter.inputs
    )
    ideal = replace(request.inverter, ac_power_w=2e4, set_limit_w=2e4, inputs=wide, weighted_efficiency_share=1.0)
    one = year(replace(request, inverter=ideal), sd_share)
    low, high = one.light_ends()
    assert one.year_kwh.cautious == pytest.approx(low * one.year_kwh.middle, rel=1e-6, abs=1e-9)
    assert one.year_kwh.hopeful == pytest.approx(high * one.year_kwh.middle, rel=1e-6)


@given(sets(), st.floats(0.02, 0.3))
def test_a_lower_limit_never_widens_the_band(request, share):
    """In kWh: what the limit cuts is cut at the hopeful end first."""
    inverter = request.inverter
    hard = replace(request, inverter=replace(inverter, set_limit_w=inverter.ac_power_w * share))
    wide, narrow = (
        one.year_kwh.hopeful - one.year_kwh.cautious
        for one in (year(replace(request, inverter=replace(inverter, set_limit_w=inverter.ac_power_w))), year(hard))
    )
    assert narrow <= wide + 1e-9


@given(sets(), st.none() | st.floats(0, 400), st.booleans(), SPREADS)
def test_neither_use_nor_what_is_sent_out_breaks_the_limits_at_either_end(request, export_limit_w, sums, sd_share):
    setting = replace(
        request,
        inverter=replace(request.inverter, export_limit_w=export_limit_w),
        meter=Meter(counts="two_way", sums_phases=sums, netting="instant"),
    )
    demand = demand_w(household(), SKY.calendar, SHAPE)
    free = year(setting, sd_share)
    one = limited_export(free, setting, demand, SKY)
    use = use_at_home(one, setting, SKY.calendar, SHAPE)
    limit = min(setting.inverter.set_limit_w, setting.inverter.ac_power_w)
    for end, home in zip(one.light_ends(), (use.cases.less_energy, use.cases.more_energy), strict=True):
        hourly, _ = use.meter.used(end)
        assert np.all(hourly <= np.minimum(limit, demand) + HAIR_W)
        sent = use.meter.left_w(one.ac_at(end)) - hourly
        assert np.all(sent <= limit + HAIR_W)
        assert home.self_used_kwh.sum() == pytest.approx(hourly.sum() / 1000, abs=1e-6)
        assert home.exported_kwh.sum() == pytest.approx(np.maximum(sent, 0).sum() / 1000, abs=1e-6)
    assert one.year_kwh.cautious <= one.year_kwh.middle <= one.year_kwh.hopeful
    assert one.year_kwh.hopeful <= free.year_kwh.hopeful + 1e-9


@given(azimuth=st.floats(0, 359), tilt=st.floats(60, 90), two_sided=st.floats(0.3, 0.95))
def test_light_on_the_rear_only_adds_however_little_the_front_sees(azimuth, tilt, two_sided):
    """The doubt of the rear is of what it adds; a fence that looks north has nearly all of its light from there."""
    fence = array(
        mount="fence", plane=Plane(tilt_deg=tilt, azimuth_deg=azimuth), panel=panel(bifaciality_share=two_sided)
    )
    request = setup(arrays=[fence])
    alone, both = (year(replace(request, arrays=(replace(fence, count_rear_light=on),))) for on in (False, True))
    assert both.year_kwh.cautious >= alone.year_kwh.cautious
    rear_kwh = both.year_kwh.middle - alone.year_kwh.middle
    happier = both.year_kwh.hopeful / alone.year_kwh.hopeful
    assert 1 <= happier <= 1 + (1 + Z_90 * REAR_SD_OF_GAIN) * rear_kwh / alone.year_kwh.middle
