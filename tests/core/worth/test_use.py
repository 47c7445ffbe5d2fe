"""What of the yield is used at home, and what is sent out."""

from dataclasses import replace

import numpy as np
import pytest

from service.core.household import demand_w, self_use_sd_share
from service.core.model import facts
from service.core.model.facts import Meter
from service.core.worth import AtTheMeter, limited_export, use_at_home
from service.data.households import load_demand_shape
from tests.builders import household, inverter, setup, site, tariff
from tests.energy_years import CALENDAR, energy_year, production_w, sky_year

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


def test_a_log_of_one_day_is_no_surer_than_a_yearly_figure_and_gaps_widen_the_band():
    hours = tuple(np.random.default_rng(1).gamma(0.8, 270.0, 8760).round(1))

    def width(**known):
        band = use(household=household(**known)).self_used_kwh
        return (band.hopeful - band.cautious) / band.middle

    widths = [width(values_w=hours, values_kind="own_hours", filled_share=f) for f in (0.0, 0.2, 0.5, 0.997)]
    assert widths == sorted(set(widths))
    assert widths[-1] > 0.9 * width()


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


def test_the_hourly_minimum_is_shown_as_an_upper_bound_and_lies_above():
    setting = setup()
    demand = demand_w(setting.household, CALENDAR, SHAPE)
    got = use()
    assert got.upper_bound_self_used_kwh == pytest.approx(np.minimum(energy_year().ac_w, demand).sum() / 1000)
    assert got.self_used_kwh.middle < got.upper_bound_self_used_kwh


def beside_roof(roof_kwh, year_kwh=640.0, **changes):
    roof = production_w(roof_kwh) if roof_kwh else np.zeros(8760)
    return use_at_home(energy_year(year_kwh), setup(**changes), CALENDAR, SHAPE, roof)


def test_a_plant_on_the_roof_takes_its_share_first_and_it_is_said_how_much():
    free, beside = use(), beside_roof(3000.0)
    share = beside.other_generation
    assert free.other_generation is None
    assert share.year_kwh == pytest.approx(3000)
    assert share.set_alone_self_used_kwh == pytest.approx(free.self_used_kwh.middle)
    assert share.displaced_kwh == pytest.approx(free.self_used_kwh.middle - beside.self_used_kwh.middle)
    assert beside.self_used_kwh.middle < 0.3 * free.self_used_kwh.middle
    assert beside.self_used_kwh.middle + share.self_used_kwh < 1900
    assert beside.self_used_kwh.middle + beside.exported_kwh == pytest.approx(640)
    assert beside.self_used_kwh.middle <= beside.upper_bound_self_used_kwh < free.upper_bound_self_used_kwh


def test_both_plants_together_are_used_as_one_of_their_size():
    both = use(640.0 + 3000.0).self_used_kwh.middle
    beside = beside_roof(3000.0)
    assert beside.self_used_kwh.middle + beside.other_generation.self_used_kwh == pytest.approx(both, rel=1e-3)


def test_a_plant_that_gives_nothing_changes_nothing():
    free, beside = use(), beside_roof(0.0)
    assert beside.self_used_kwh == free.self_used_kwh
    assert beside.other_generation.displaced_kwh == pytest.approx(0, abs=1e-9)


def test_only_what_the_plant_leaves_can_be_netted():
    free, beside = use(), beside_roof(3000.0)
    taken = free.cases.middle.demand_kwh.sum() - beside.cases.middle.demand_kwh.sum()
    assert taken == pytest.approx(beside.other_generation.self_used_kwh)


def test_an_export_limit_is_taken_up_by_the_roofs_surplus_first():
    setting = setup(inverter=inverter(export_limit_w=300))
    demand, roof = demand_w(setting.household, CALENDAR, SHAPE), production_w(3000.0)
    alone, beside = (
        limited_export(energy_year(), setting, demand, sky_year(), other).year_kwh.middle for other in (None, roof)
    )
    assert beside < alone < 640


def test_a_meter_of_single_phases_sees_a_third_of_the_roof_too():
    apart = beside_roof(3000.0, meter=meter(sums_phases=False))
    summed = beside_roof(3000.0)
    assert apart.self_used_kwh.middle < summed.self_used_kwh.middle
    assert apart.other_generation.self_used_kwh == pytest.approx(summed.other_generation.self_used_kwh, rel=1e-3)


def test_no_production_is_no_self_use():
    got = use(0.0)
    assert got.self_used_kwh.middle == got.exported_kwh == got.self_used_share == 0


def limited(limit_w, **changes):
    setting = setup(inverter=inverter(export_limit_w=limit_w), **changes)
    energy = limited_export(energy_year(), setting, demand_w(setting.household, CALENDAR, SHAPE), sky_year())
    return use_at_home(energy, setting, CALENDAR, SHAPE), energy


def test_a_set_that_may_send_nothing_out_is_used_at_home_whole():
    got, energy = limited(0)
    assert got.exported_kwh == pytest.approx(0, abs=1e-9)
    assert got.self_used_share == pytest.approx(1)
    assert energy.lost_kwh["export_limit"] == pytest.approx(640 - got.self_used_kwh.middle)


@pytest.mark.parametrize("limit_w", [0, 60, 250])
def test_a_limit_on_what_is_sent_out_takes_nothing_off_self_use(limit_w):
    got, energy = limited(limit_w)
    free = use()
    assert got.self_used_kwh == free.self_used_kwh
    assert got.self_used_kwh.middle + got.exported_kwh == pytest.approx(energy.year_kwh.middle)
    for name in ("less_energy", "more_energy", "less_used", "more_used"):
        bound, loose = (getattr(one.cases, name) for one in (got, free))
        np.testing.assert_allclose(bound.self_used_kwh, loose.self_used_kwh)
        assert (bound.exported_kwh <= loose.exported_kwh + 1e-9).all()


def test_what_a_limit_cuts_off_earns_nothing_at_any_hour():
    one_price = facts.Rate(
        name=None, months=None, days=None, from_clock="08:00", to_clock="20:00", import_price_per_kwh=0.3,
        export_price_per_kwh=0.1,
    )  # fmt: skip
    always = replace(one_price, from_clock="20:00", to_clock="08:00")
    period = replace(tariff().periods[0], export="paid", rates=(one_price, always))
    got, _ = limited(60, tariff=tariff(periods=(period,)))
    for case in (got.cases.middle, got.cases.less_energy, got.cases.less_used, got.cases.more_used):
        np.testing.assert_allclose(case.at[0].exported[1], case.exported_kwh * 0.1)
        np.testing.assert_allclose(case.at[0].self_used[0], case.self_used_kwh * 0.3)


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
    energy = limited_export(energy_year(), limited, demand_w(limited.household, CALENDAR, SHAPE), sky_year())
    return use_at_home(energy, limited, CALENDAR, SHAPE)


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


def test_a_log_of_quarter_hours_is_met_within_its_quarters_and_not_within_the_hours_it_makes():
    """A heater of 1600 W for one quarter of each hour: a mean of 400 W, and 800 W are met for a quarter."""
    heater = (1600.0, 0.0, 0.0, 0.0) * 8760
    steady = replace(energy_year(), ac_w=np.full(8760, 800.0))
    as_logged, by_hour = (
        use_at_home(steady, setup(household=home), CALENDAR, SHAPE)
        for home in (
            household(values_w=heater, values_kind="own_hours", always_on_w=0.0),
            household(values_w=(400.0,) * 8760, values_kind="own_hours", always_on_w=0.0),
        )
    )
    truth_kwh = 200.0 * 8.76  # 800 W for a quarter of the time
    assert as_logged.self_used_kwh.middle == pytest.approx(truth_kwh, rel=0.05)
    assert by_hour.self_used_kwh.middle > 1.5 * truth_kwh
    assert as_logged.demand_kwh == by_hour.demand_kwh


@pytest.mark.parametrize(("netting", "kwh"), [("quarter_hour", 200.0 * 8.76), ("hour", 400.0 * 8.76)])
def test_a_log_of_quarter_hours_is_netted_over_what_the_meter_nets(netting, kwh):
    home = household(values_w=(1600.0, 0.0, 0.0, 0.0) * 8760, values_kind="own_hours", always_on_w=0.0)
    steady = replace(energy_year(), ac_w=np.full(8760, 800.0))
    got = use_at_home(steady, setup(household=home, meter=meter(netting=netting)), CALENDAR, SHAPE)
    assert got.self_used_kwh.middle == pytest.approx(kwh)


def test_beside_a_plant_and_on_one_phase_quarter_hours_add_up_too():
    home = household(values_w=tuple(np.random.default_rng(2).gamma(0.5, 700.0, 35040)), values_kind="own_hours")
    other = production_w() * 2.0
    got = use_at_home(energy_year(), setup(household=home, meter=meter(sums_phases=False)), CALENDAR, SHAPE, other)
    assert 0 < got.self_used_kwh.middle < got.upper_bound_self_used_kwh
    assert got.self_used_w.shape == (8760,)
    assert got.other_generation.displaced_kwh > 0


def test_the_band_of_use_is_that_of_the_habits_where_the_yield_is_sure():
    """Nine homes in ten use more than 1.28 standard deviations below the middle (normal quantile, 10 %);
    to a hundredth, as no month uses more than it gives."""
    sure = use_at_home(energy_year(640.0, spread=()), setup(), CALENDAR, SHAPE)
    step = 1.28155 * self_use_sd_share(setup().household)
    assert sure.self_used_kwh.cautious == pytest.approx(sure.self_used_kwh.middle * (1 - step), rel=0.01)
    assert sure.self_used_kwh.hopeful == pytest.approx(sure.self_used_kwh.middle * (1 + step), rel=0.01)


def test_a_demand_that_nobody_said_widens_the_band_to_what_its_ends_would_use():
    setting = setup()
    demand = setting.household.demand_kwh_per_year

    def of(scale):
        home = replace(
            setting.household, demand_kwh_per_year=scale * demand, always_on_w=scale * setting.household.always_on_w
        )
        return use(household=home).self_used_kwh

    known = use().self_used_kwh
    open_ = use_at_home(energy_year(640.0), setting, CALENDAR, SHAPE, demand_range_kwh=(0.6 * demand, 1.6 * demand))
    band = open_.self_used_kwh
    assert band.middle == known.middle
    assert band.cautious < known.cautious
    assert band.hopeful > known.hopeful
    less, more = (of(1 + 1.28155 / 1.95996 * (end - 1)).middle for end in (0.6, 1.6))
    sure_less, sure_more = known.middle - known.cautious, known.hopeful - known.middle
    assert band.cautious == pytest.approx(known.middle - np.hypot(sure_less, known.middle - less), rel=0.01)
    assert band.hopeful == pytest.approx(known.middle + np.hypot(sure_more, more - known.middle), rel=0.01)


@pytest.mark.parametrize("values", [None, 8760, 35040])
@pytest.mark.parametrize("beside", [False, True])
def test_some_hours_asked_alone_use_what_they_use_among_all(values, beside):
    log = None if values is None else tuple(np.random.default_rng(3).gamma(0.5, 700.0, values))
    home = household(values_w=log, values_kind=None if log is None else "own_hours")
    setting = setup(household=home, meter=meter(sums_phases=False), inverter=inverter(export_limit_w=200.0))
    other = production_w() * 2.0 if beside else None
    demand = demand_w(home, CALENDAR, SHAPE)
    limited = limited_export(energy_year(), setting, demand, sky_year(), other)
    whole = AtTheMeter.of(limited, setting, CALENDAR, SHAPE, other)
    rows = np.flatnonzero(production_w() > 0)[::3]
    some, power = whole.in_hours(rows), production_w()
    assert some.used_w(power[rows]) == pytest.approx(whole.used_w(power)[rows], rel=1e-5, abs=1e-3)
    assert some.left_w(power[rows]) == pytest.approx(whole.left_w(power)[rows], rel=1e-5, abs=1e-3)


RATES = (
    facts.Rate(name=None, months=(6, 7), days="weekend", from_clock="11:00", to_clock="15:00",
               import_price_per_kwh=0.1, export_price_per_kwh=0.02),
)  # fmt: skip
NETTED_BY_RATES = facts.Tariff(
    currency="EUR",
    periods=(
        facts.TariffPeriod(valid_from="2026-01-01", import_price_per_kwh=0.34, export="netted",
                           export_price_per_kwh=0.08, rates=RATES),
        facts.TariffPeriod(valid_from="2028-05-01", import_price_per_kwh=0.34, export="unpaid",
                           export_price_per_kwh=0.0),
    ),
)  # fmt: skip
QUARTERS = tuple(np.random.default_rng(2).gamma(0.8, 270.0, 35040).round(1))


@pytest.mark.parametrize(
    "changes",
    [
        {},
        {"tariff": NETTED_BY_RATES},
        {"meter": meter(sums_phases=False)},
        {"household": household(values_w=QUARTERS)},
        {"inverter": inverter(export_limit_w=100)},
        {"inverter": inverter(export_limit_w=100), "tariff": NETTED_BY_RATES},
    ],
)
@pytest.mark.parametrize("roof_kwh", [0.0, 900.0])
def test_the_years_of_several_powers_are_those_of_each_alone(changes, roof_kwh):
    asked, roof = setup(**changes), production_w(roof_kwh) if roof_kwh else None
    energy = energy_year()
    demand = demand_w(asked.household, CALENDAR, SHAPE)
    energy = limited_export(energy, asked, demand, sky_year(), roof)
    at_meter = AtTheMeter.of(energy, asked, CALENDAR, SHAPE, roof)
    powers = np.array([production_w(kwh) for kwh in (640.0, 500.0, 1500.0)])
    hourly, years = at_meter.years(powers)
    for power, used, year in zip(powers, hourly, years, strict=True):
        [alone], [year_alone] = at_meter.years(power[np.newaxis])
        np.testing.assert_allclose(used, alone, rtol=1e-12)
        left = at_meter.left_w(power)
        plain = at_meter.home(np.minimum(at_meter.used_w(power), left), left)
        for one in (year, year_alone):
            for name in ("self_used_kwh", "exported_kwh", "demand_kwh"):
                np.testing.assert_allclose(getattr(one, name), getattr(plain, name), rtol=1e-12, atol=1e-12)
            assert [at is None for at in one.at] == [at is None for at in plain.at]
            for priced, plainly in zip(one.at, plain.at, strict=True):
                if priced is not None:
                    np.testing.assert_allclose(priced.self_used, plainly.self_used, rtol=1e-12, atol=1e-12)
                    np.testing.assert_allclose(priced.exported, plainly.exported, rtol=1e-12, atol=1e-12)
