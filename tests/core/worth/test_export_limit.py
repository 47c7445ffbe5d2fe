"""What is lost where only so much may be sent out."""

import numpy as np
import pytest

from service.core.energy import energy_year as real_year
from service.core.household import demand_w, k_of, self_used_w
from service.core.model.assumption import Assumptions
from service.core.model.place import Plane
from service.core.worth import limited_export
from service.data.households import load_demand_shape
from tests.builders import array, household, inverter, one_input, setup
from tests.climates import climate
from tests.energy_years import CALENDAR, energy_year, sky_year
from tests.skies import mixed_year

DEMAND = demand_w(household(), CALENDAR, load_demand_shape())


def limited(limit_w, year_kwh=640.0):
    return limited_export(energy_year(year_kwh), setup(inverter=inverter(export_limit_w=limit_w)), DEMAND, sky_year())


def test_without_a_limit_nothing_changes():
    energy = energy_year()
    assert limited_export(energy, setup(), DEMAND, sky_year()) is energy


def test_a_limit_above_the_peak_costs_nothing():
    assert limited(5000).year_kwh.middle == pytest.approx(640)


def test_nothing_sent_out_leaves_just_the_self_use():
    used = self_used_w(energy_year().ac_w, DEMAND, 60.0, k_of(household()))
    np.testing.assert_allclose(limited(0).ac_w, used)


def test_a_lower_limit_never_leaves_more():
    years = [limited(limit).year_kwh.middle for limit in (0, 100, 300, 600)]
    assert years == sorted(years)


def test_the_account_still_adds_up():
    got = limited(100)
    assert got.lost_kwh["export_limit"] > 0
    assert got.light_kwh - sum(got.lost_kwh.values()) == pytest.approx(got.year_kwh.middle)
    assert sum(got.months_kwh) == pytest.approx(got.year_kwh.middle)
    assert sum(array.year_kwh for array in got.arrays) == pytest.approx(got.year_kwh.middle)
    assert got.ac_w.sum() / 1000 == pytest.approx(got.year_kwh.middle)


def test_the_typical_days_show_the_limit():
    free, bound = limited(5000), limited(0)
    assert max(max(day.ac_w) for day in bound.day_kinds) < max(max(day.ac_w) for day in free.day_kinds)


def test_the_limit_takes_more_from_a_good_year_than_from_a_poor_one():
    got, free = limited(50), energy_year()
    assert got.year_kwh.cautious < got.year_kwh.middle < got.year_kwh.hopeful
    assert got.year_kwh.hopeful / free.year_kwh.hopeful < got.year_kwh.cautious / free.year_kwh.cautious


def test_no_production_stays_none():
    assert limited(100, 0.0).year_kwh.middle == 0


def test_an_end_of_the_band_is_the_limited_power_of_a_set_at_its_limit():
    """880 Wp on 50 W: a limit on export that never binds leaves the band as it was, narrow as the limit makes it."""
    sky = mixed_year(54.2, 12.3)
    wide = (one_input(tracking_min_v=5, tracking_max_v=200, start_voltage_v=5, max_current_a=60),) * 2
    south = array(count=2, joined="parallel", plane=Plane(tilt_deg=35, azimuth_deg=180))
    setting = setup(arrays=(south,), inverter=inverter(set_limit_w=50, inputs=wide, export_limit_w=600))
    free = real_year(setting, sky, climate(), Assumptions.of(()))
    limited = limited_export(free, setting, demand_w(household(), sky.calendar, load_demand_shape()), sky)
    assert limited.year_kwh.hopeful == pytest.approx(free.year_kwh.hopeful, rel=1e-6)
    assert limited.year_kwh.cautious == pytest.approx(free.year_kwh.cautious, rel=1e-6)
