"""A small battery beside the set: what it changes, and whether it ever pays."""

from dataclasses import replace
from datetime import date

import numpy as np
import pytest

from service.core.inverter import curve_through, output_of
from service.core.model.band import SpreadPart
from service.core.model.storage import Storage
from service.core.worth import limited_export, storage_beside, use_at_home, worth
from service.core.worth.box import Box
from service.data.households import load_demand_shape
from tests.builders import household, inverter, money, outlay, setup, tariff
from tests.energy_years import CALENDAR, energy_year, sky_year

SHAPE = load_demand_shape()
AS_OF = date(2026, 11, 25)


def box(**changes):
    base = Storage(
        usable_kwh=1.0, coupling="ac", charge_limit_w=500.0, discharge_limit_w=500.0, max_input_current_a=None,
        round_trip_share=0.8, standby_w=5.0, meter_reader=True, night_feed_w=None, charge_above_w=None,
        ageing_share_per_year=0.02, amount=300.0,
    )  # fmt: skip
    return replace(base, **changes)


def blind(**changes):
    """A box that reads nothing."""
    return box(**{"meter_reader": False, "night_feed_w": 80.0, "charge_above_w": 80.0, **changes})


def ask(storage, energy=None, box_dc_w=None, **changes):
    energy = energy_year() if energy is None else energy
    setting = setup(storage=storage, **changes)
    use = use_at_home(energy, setting, CALENDAR, SHAPE)
    account = worth(energy, use, setting, AS_OF)
    return storage_beside(energy, setting, use, account, AS_OF, box_dc_w=box_dc_w)


def cut_year(limit_w=300.0):
    """A year whose inverter cuts, with the d.c. power that it cannot send out."""
    energy = energy_year()
    setting = inverter(set_limit_w=limit_w)
    curve = curve_through(setting.weighted_efficiency_share, setting.efficiency_weighting)
    out = output_of(energy.dc_w[0], setting.ac_power_w, limit_w, curve)
    return replace(energy, ac_w=out.ac_w), setting, out


def test_without_a_question_there_is_no_answer():
    assert ask(None) is None


def test_one_side_is_the_set_without_it():
    energy, setting = energy_year(), setup(storage=box())
    use = use_at_home(energy, setting, CALENDAR, SHAPE)
    account = worth(energy, use, setting, AS_OF)
    got = storage_beside(energy, setting, use, account, AS_OF)
    assert got.without.self_used_kwh == use.self_used_kwh
    assert got.without.saving_first_year == account.saving_first_year


@pytest.mark.parametrize("storage", [box(), blind()])
def test_the_year_of_the_battery_adds_up(storage):
    got = ask(storage)
    year = got.year
    assert year.charged_kwh == pytest.approx(year.given_kwh + year.lost_kwh + year.standby_kwh)
    assert year.standby_kwh + year.standby_mains_kwh == pytest.approx(5.0 * 8.76)
    assert year.lost_kwh > 0.0
    in_all = got.with_it.self_used_kwh.middle + got.with_it.exported_kwh
    assert in_all == pytest.approx(640.0 - year.charged_kwh + year.given_kwh, rel=1e-6)


def test_all_that_a_reader_gives_is_used_at_home_and_more_than_a_blind_box_brings():
    reading, feeding = ask(box()), ask(blind())
    assert reading.more_self_used_kwh.middle == pytest.approx(reading.year.given_kwh)
    assert feeding.more_self_used_kwh.middle < 0.9 * feeding.year.given_kwh
    assert feeding.more_self_used_kwh.middle < reading.more_self_used_kwh.middle


def test_a_blind_box_that_takes_all_by_day_can_lower_self_use():
    got = ask(blind(charge_above_w=0.0, night_feed_w=400.0, usable_kwh=2.0), household=household(
        demand_kwh_per_year=9000, always_on_w=0.0))  # fmt: skip
    assert got.more_self_used_kwh.middle < 0.0
    assert got.money.outlay_to_pay.middle == 0.0
    assert not got.money.pays


def test_bands_are_ordered():
    got = ask(box(amount=60.0))
    for band in (got.with_it.self_used_kwh, got.more_self_used_kwh, got.with_it.saving_first_year,
                 got.money.gain_first_year, got.money.outlay_to_pay, got.money.net_present_value):  # fmt: skip
        assert band.cautious < band.middle < band.hopeful
    years = got.money.payback_years
    assert years.hopeful < years.middle
    assert years.cautious is None or years.cautious > years.middle


def test_without_loss_standby_and_unpaid_export_each_kwh_more_at_home_saves_its_price():
    got = ask(box(round_trip_share=1.0, standby_w=0.0))
    assert got.money.gain_first_year.middle == pytest.approx(0.34 * got.more_self_used_kwh.middle)
    difference = got.with_it.saving_first_year.middle - got.without.saving_first_year.middle
    assert difference == pytest.approx(got.money.gain_first_year.middle)


def test_standby_from_the_mains_is_paid():
    got = ask(box(round_trip_share=1.0))
    assert got.year.standby_mains_kwh > 0.0
    paid = 0.34 * (got.more_self_used_kwh.middle - got.year.standby_mains_kwh)
    assert got.money.gain_first_year.middle == pytest.approx(paid)


def test_what_is_paid_for_export_is_lost_to_the_battery():
    period = tariff().periods[0]
    paid = tariff(periods=(replace(period, export="paid", export_price_per_kwh=0.08),))
    assert ask(box(), tariff=paid).money.gain_first_year.middle < ask(box()).money.gain_first_year.middle


def test_it_pays_up_to_the_price_that_is_told_and_not_above():
    most = ask(box()).money.outlay_to_pay.middle
    below, above = (ask(box(amount=most * share)).money for share in (0.999, 1.001))
    assert below.pays
    assert not above.pays
    assert below.payback_years.middle <= below.years_kept
    assert above.payback_years.middle is None


def test_the_most_that_it_may_cost_is_a_sum_that_a_pencil_can_check():
    # no interest, no growth, no ageing of anything: so many years times the first one's gain
    plain = money(years=10, discount_rate_share=0.0, price_growth_share=0.0, ageing_share_per_year=0.0)
    got = ask(box(ageing_share_per_year=0.0), money=plain, household=household(stay_years=None)).money
    assert got.outlay_to_pay.middle == pytest.approx(10 * got.gain_first_year.middle)


def test_ageing_makes_it_worth_less():
    values = [ask(box(ageing_share_per_year=share)).money.outlay_to_pay.middle for share in (0.0, 0.03, 0.1)]
    assert values == sorted(values, reverse=True)
    assert values[0] > values[2] * 1.03


def test_a_short_stay_pays_for_less():
    values = [ask(box(), household=household(stay_years=years)).money.outlay_to_pay.middle for years in (2, 6, 12)]
    assert values == sorted(values)


def test_without_its_price_only_the_most_is_told():
    got = ask(box(amount=None)).money
    assert (got.amount, got.payback_years, got.net_present_value, got.pays) == (None, None, None, None)
    assert got.outlay_to_pay.middle > 0.0


def test_without_a_tariff_only_energy_is_told():
    got = ask(box(), tariff=None)
    assert got.money is None
    assert got.with_it.saving_first_year is None
    assert got.more_self_used_kwh.middle > 0.0


def test_a_box_before_the_inverter_saves_what_its_limit_would_cut():
    energy, setting, out = cut_year()
    before, beside = (
        ask(box(coupling=kind, usable_kwh=2.0), energy, inverter=setting) for kind in ("dc", "ac")
    )  # fmt: skip
    assert out.clipped_w.sum() > 10_000
    assert beside.year.unclipped_kwh == 0.0
    assert 0.2 * out.clipped_w.sum() / 1000 < before.year.unclipped_kwh <= out.clipped_w.sum() / 1000


def test_a_box_before_the_inverter_never_sends_more_than_the_inverter_may():
    energy, turned_down, _ = cut_year(limit_w=100.0)
    storage = box(coupling="dc", discharge_limit_w=2000.0)
    setting = setup(storage=storage, inverter=turned_down)
    meter = use_at_home(energy, setting, CALENDAR, SHAPE).meter
    plan = Box.of(meter, setting, storage, None).plan(1.0)
    assert 80.0 < (plan.used_w + plan.used_given_w).max() <= 100.0 + 1e-6
    on_a_socket = Box.of(meter, setting, box(discharge_limit_w=2000.0), None).plan(1.0)
    assert (on_a_socket.used_w + on_a_socket.used_given_w).max() > 150.0


def test_before_the_inverter_its_loss_comes_on_top():
    lossless = {"round_trip_share": 1.0, "standby_w": 0.0}
    ac, dc = (ask(box(coupling=kind, **lossless)) for kind in ("ac", "dc"))
    assert ac.year.lost_kwh == pytest.approx(0.0, abs=1e-6)
    # the d.c. year passes its terminals without loss; more had to be charged there than arrives at home
    assert dc.year.given_kwh == pytest.approx(dc.year.charged_kwh)
    assert 0.85 * dc.year.given_kwh < dc.more_self_used_kwh.middle < 0.97 * dc.year.given_kwh


def test_narrow_inputs_of_the_box_cost_the_set():
    half = energy_year().dc_w[0] * 0.5
    got = ask(box(coupling="dc"), box_dc_w=half)
    assert got.inputs_lost_kwh > 300.0
    assert ask(box(coupling="dc")).inputs_lost_kwh == 0.0
    assert got.with_it.self_used_kwh.middle < ask(box(coupling="dc")).with_it.self_used_kwh.middle


def test_a_surplus_that_may_not_be_sent_out_fills_the_battery_too():
    setting = setup(inverter=inverter(export_limit_w=0.0))
    demand = use_at_home(energy_year(), setting, CALENDAR, SHAPE).meter.demand_w
    limited = limited_export(energy_year(), setting, demand, sky_year())
    got = ask(box(), limited, inverter=inverter(export_limit_w=0.0))
    assert got.with_it.exported_kwh == pytest.approx(0.0, abs=1e-6)
    assert got.more_self_used_kwh.middle == pytest.approx(ask(box()).more_self_used_kwh.middle, rel=1e-6)


def test_a_battery_of_nothing_changes_nothing():
    got = ask(box(usable_kwh=0.0))
    assert got.more_self_used_kwh.middle == pytest.approx(0.0, abs=1e-9)
    assert got.with_it.exported_kwh == pytest.approx(got.without.exported_kwh)
    assert got.money.gain_first_year.middle == pytest.approx(0.0, abs=1e-9)


def test_a_larger_one_never_lowers_self_use():
    gained = [ask(box(usable_kwh=kwh)).more_self_used_kwh.middle for kwh in (0.2, 0.5, 1.0, 3.0)]
    assert gained == sorted(gained)
    assert np.diff(gained)[0] > np.diff(gained)[-1] / 4  # each further kWh brings less


def test_what_faulty_panels_leave_empty_charges_no_battery():
    """Of second-hand panels half prove faulty: three quarters of the places give, and of the gain as much is left."""
    quiet = box(standby_w=0.0, ageing_share_per_year=0.0)
    sound, faulty = (
        ask(quiet, outlay=outlay({"faulty_share": share}, panels=96, inverter=149)).money for share in (None, 0.5)
    )
    assert faulty.gain_first_year.middle == pytest.approx(0.75 * sound.gain_first_year.middle)
    assert faulty.outlay_to_pay.middle == pytest.approx(0.75 * sound.outlay_to_pay.middle)


def test_a_stay_that_ends_within_a_year_counts_its_part_of_it():
    level = money(discount_rate_share=0.0, price_growth_share=0.0, ageing_share_per_year=0.0)
    got = ask(box(ageing_share_per_year=0.0), money=level, household=household(stay_years=2.5)).money
    assert got.years_kept == 2.5
    assert got.outlay_to_pay.middle == pytest.approx(2.5 * got.gain_first_year.middle)


def test_over_the_years_a_battery_is_kept_weather_evens_out():
    """The same spread of one year, as weather and as a lasting doubt: the first is known better over fifteen."""
    weather, lasting = (
        ask(box(), energy_year(640.0, (SpreadPart(of, 0.2),)), household=household(stay_years=None)).money
        for of in ("year_to_year", "model")
    )
    assert weather.gain_first_year.cautious == pytest.approx(lasting.gain_first_year.cautious)
    assert weather.outlay_to_pay.middle == pytest.approx(lasting.outlay_to_pay.middle)
    assert weather.outlay_to_pay.cautious > lasting.outlay_to_pay.cautious


def test_a_price_that_nobody_said_widens_what_the_battery_brings():
    """0.2 as a standard deviation is 0.256 of the gain at the ends, and joins the other causes by squares."""
    energy, setting = energy_year(), setup(storage=box())
    use = use_at_home(energy, setting, CALENDAR, SHAPE)
    known, unknown = (
        storage_beside(energy, setting, use, None, AS_OF, price_unknown_sd_share=share).money for share in (0.0, 0.2)
    )
    for band, wider in ((known.gain_first_year, unknown.gain_first_year), (known.outlay_to_pay, unknown.outlay_to_pay)):
        assert wider.middle == band.middle
    gain = known.gain_first_year
    step = 1.2815516 * 0.2 * gain.middle
    assert gain.middle - unknown.gain_first_year.cautious == pytest.approx(np.hypot(gain.middle - gain.cautious, step))
    assert unknown.outlay_to_pay.cautious < known.outlay_to_pay.cautious


@pytest.mark.parametrize("amount", [0.0, -50.0])
def test_a_box_that_is_left_off_does_not_pay_even_as_a_gift(amount):
    off = ask(blind(night_feed_w=0.0, amount=amount)).money
    assert off.outlay_to_pay.middle == 0
    assert off.pays is False
    assert ask(box(amount=amount)).money.pays is True


@pytest.mark.parametrize(("demand_kwh", "year_kwh"), [(150.0, 640.0), (2500.0, 200.0)])
def test_no_end_of_the_band_uses_more_than_is_needed_or_than_the_battery_leaves_of_what_is_given(demand_kwh, year_kwh):
    home = household(demand_kwh_per_year=demand_kwh, always_on_w=5.0)
    energy = energy_year(year_kwh)
    got = ask(box(usable_kwh=3.0), energy=energy, household=home)
    lost = got.year.charged_kwh - got.year.given_kwh
    most = min(demand_kwh, energy.year_kwh.hopeful - lost)
    assert got.with_it.self_used_kwh.hopeful <= most + 1e-6
    assert got.with_it.self_used_kwh.cautious <= energy.year_kwh.cautious
    assert got.with_it.saving_first_year.hopeful <= 0.34 * most + 1e-6


@pytest.mark.parametrize("usable_kwh", [0.1, 0.4, 1.0])
@pytest.mark.parametrize("demand_kwh", [1500.0, 3500.0, 6000.0])
@pytest.mark.parametrize("year_kwh", [300.0, 640.0])
def test_a_reader_lowers_the_use_at_no_end_and_costs_no_more_than_its_standby(usable_kwh, demand_kwh, year_kwh):
    home = household(demand_kwh_per_year=demand_kwh, always_on_w=40.0)
    got = ask(box(usable_kwh=usable_kwh), energy=energy_year(year_kwh), household=home)
    with_it, without = got.with_it, got.without
    assert got.more_self_used_kwh.cautious >= 0.0
    assert got.money.gain_first_year.cautious >= -5.0 * 8.76 * 0.34 - 1e-9
    for end in ("cautious", "middle", "hopeful"):
        assert getattr(with_it.self_used_kwh, end) >= getattr(without.self_used_kwh, end)
        saved, alone = (getattr(side.saving_first_year, end) for side in (with_it, without))
        assert saved >= alone - 5.0 * 8.76 * 0.34 - 1e-9
