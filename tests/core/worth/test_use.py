"""What of the yield is used at home, and what is sent out."""

import numpy as np
import pytest

from service.core.household import demand_w
from service.core.model.facts import Meter
from service.core.worth import limited_export, use_at_home
from service.data.households import load_demand_shape
from tests.builders import household, inverter, setup, site
from tests.energy_years import CALENDAR, energy_year, sky_year

SHAPE = load_demand_shape()


def use(year_kwh=640.0, **changes):
    return use_at_home(energy_year(year_kwh), setup(**changes), CALENDAR, SHAPE)


def meter(**changes):
    return Meter(**{"counts": "two_way", "sums_phases": True, "netting": "instant", **changes})


def test_self_use_and_export_add_up_to_the_production():
    got = use()
    assert got.self_used_kwh.middle + got.exported_kwh == pytest.approx(640)
    assert got.self_used_share == pytest.approx(got.self_used_kwh.middle / 640)
    assert got.self_used_w.sum() / 1000 == pytest.approx(got.self_used_kwh.middle)
    assert got.covered_share == pytest.approx(got.self_used_kwh.middle / 1900)


def test_less_is_used_than_the_hourly_minimum_promises():
    setting = setup()
    demand = demand_w(setting.household, CALENDAR, SHAPE)
    flattered = np.minimum(energy_year().ac_w, demand).sum() / 1000
    assert use().self_used_kwh.middle < 0.95 * flattered


def test_the_band_is_ordered_and_narrower_than_if_all_bad_cases_met():
    got = use()
    band, cases = got.self_used_kwh, got.cases
    assert band.cautious < band.middle < band.hopeful
    by_energy = band.middle - cases.less_energy.self_used_kwh.sum()
    by_use = band.middle - cases.less_used.self_used_kwh.sum()
    assert max(by_energy, by_use) < band.middle - band.cautious < by_energy + by_use


def test_a_poor_year_is_used_at_home_to_a_larger_share():
    got = use()
    poor, good = got.cases.less_energy, got.cases.more_energy

    def share(home):
        return home.self_used_kwh.sum() / (home.self_used_kwh.sum() + home.exported_kwh.sum())

    assert share(poor) > got.self_used_share > share(good)


def test_a_larger_home_uses_more_of_it():
    shares = [use(household=household(demand_kwh_per_year=kwh)).self_used_share for kwh in (0, 900, 1900, 4500)]
    assert shares == sorted(shares)
    assert shares[0] == 0


def test_a_meter_that_does_not_sum_phases_halves_self_use_or_worse():
    summed, apart = use(), use(meter=meter(sums_phases=False))
    assert apart.self_used_kwh.middle < 0.6 * summed.self_used_kwh.middle
    assert apart.demand_kwh == summed.demand_kwh


def test_a_meter_of_which_nobody_said_is_taken_to_sum():
    assert use(meter=meter(sums_phases=None)).self_used_kwh == use().self_used_kwh


def test_longer_netting_lifts_self_use_a_little():
    used = [use(meter=meter(netting=n)).self_used_kwh.middle for n in ("instant", "quarter_hour", "hour")]
    assert used == sorted(used)
    assert used[2] < 1.2 * used[0]


def test_no_production_is_no_self_use():
    got = use(0.0)
    assert got.self_used_kwh.middle == got.exported_kwh == got.self_used_share == 0


def test_own_hours_make_the_band_narrower():
    own = tuple(demand_w(household(), CALENDAR, SHAPE))
    wide, narrow = use(), use(household=household(values_w=own))
    assert (
        narrow.self_used_kwh.hopeful - narrow.self_used_kwh.cautious
        < wide.self_used_kwh.hopeful - wide.self_used_kwh.cautious
    )


def test_south_of_the_equator_the_home_has_its_winter_in_july():
    north, south = use(), use(site=site(latitude_deg=-35.0))
    assert north.cases.middle.demand_kwh[0] > north.cases.middle.demand_kwh[6]
    assert south.cases.middle.demand_kwh[0] < south.cases.middle.demand_kwh[6]


def limited_use(limit_w, **changes):
    limited = setup(inverter=inverter(export_limit_w=limit_w), **changes)
    shape = load_demand_shape()
    energy = limited_export(energy_year(), limited, demand_w(limited.household, CALENDAR, shape), sky_year())
    return use_at_home(energy, limited, CALENDAR, shape)


def test_a_limit_of_nothing_sends_nothing_out_and_takes_nothing_from_the_home():
    free, bound = use(), limited_use(0)
    assert bound.exported_kwh == pytest.approx(0, abs=1e-6)
    assert bound.self_used_share == pytest.approx(1)
    assert bound.self_used_kwh.middle == pytest.approx(free.self_used_kwh.middle)
    assert bound.cases.less_energy.self_used_kwh == pytest.approx(free.cases.less_energy.self_used_kwh)


def test_a_limit_takes_only_from_what_is_sent_out():
    free = use()
    sent = [limited_use(limit).exported_kwh for limit in (0, 100, 300, 5000)]
    assert sent == sorted(sent)
    assert sent[-1] == pytest.approx(free.exported_kwh)
    for limit in (50, 300):
        assert limited_use(limit).self_used_kwh.middle == pytest.approx(free.self_used_kwh.middle)


def test_the_meters_netting_brings_back_nothing_that_the_limit_took():
    got = limited_use(0, meter=Meter(counts="two_way", sums_phases=True, netting="hour"))
    assert got.exported_kwh == pytest.approx(0, abs=1e-6)
    assert got.self_used_share == pytest.approx(1)
