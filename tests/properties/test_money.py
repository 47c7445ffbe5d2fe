"""Promises about money that hold for every set, price and stay."""

from dataclasses import replace
from datetime import date

import numpy as np
import numpy_financial as npf
import pytest
from hypothesis import assume, example, given
from hypothesis import strategies as st

from service.core.model.band import Band
from service.core.model.facts import InverterSwap, Meter, Tariff, TariffPeriod
from service.core.model.storage import Storage
from service.core.payback import internal_rates_of_return, net_present_value
from service.core.worth import storage_beside, use_at_home, worth, worth_of_energy
from service.data.households import load_demand_shape
from tests.builders import household, money, setup
from tests.builders import outlay as outlay_of
from tests.energy_years import CALENDAR, SPREAD, energy_year, production_w

AS_OF = date(2026, 11, 25)
SHAPE = load_demand_shape()

OUTLAYS = st.floats(1, 3000)
PRICES = st.floats(0.01, 1.0)
SHARES = st.floats(0, 1)
EXPORTS = st.sampled_from(["unpaid", "paid", "netted"])


def flat_tariff(price, export="unpaid", pay=0.0):
    period = TariffPeriod(valid_from="2026-01-01", import_price_per_kwh=price, export=export, export_price_per_kwh=pay)
    return Tariff(currency="EUR", periods=(period,))


ACCOUNTS = st.builds(
    lambda years, rate, growth, ageing, swap, running: money(
        years=years,
        discount_rate_share=rate,
        price_growth_share=growth,
        ageing_share_per_year=ageing,
        inverter_swap=swap,
        running_cost_per_year=running,
    ),
    st.integers(1, 40),
    st.floats(0, 0.15),
    st.floats(-0.05, 0.08),
    st.floats(0, 0.03),
    st.one_of(st.none(), st.builds(lambda y, a: InverterSwap(year=y, amount=a), st.integers(1, 20), st.floats(0, 400))),
    st.floats(0, 20),
)
BANDS = st.builds(
    lambda kwh, reach: Band(kwh * (1 - reach), kwh, kwh * (1 + reach)), st.floats(1, 2000), st.floats(0, 0.4)
)


def plain(band, share, tariff, outlay, account, stay=None):
    return worth_of_energy(band, share, tariff, outlay_of(set=outlay), account, AS_OF, stay_years=stay)


def never_later(sooner, later):
    """Every member of one band of times at or before the other's; None is never."""
    for early, late in zip(times(sooner), times(later), strict=True):
        assert early <= late * (1 + 1e-9) + 1e-9


def times(band):
    return [float("inf") if value is None else value for value in (band.cautious, band.middle, band.hopeful)]


PAYBACKS = ("simple_payback_years", "undiscounted_payback_years", "discounted_payback_years", "lasting_payback_years")


@given(BANDS, SHARES, PRICES, st.floats(1, 3), OUTLAYS, ACCOUNTS)
def test_a_higher_price_never_lengthens_payback(band, share, price, dearer, outlay, account):
    low, high = (plain(band, share, flat_tariff(p), outlay, account) for p in (price, price * dearer))
    for name in PAYBACKS:
        never_later(getattr(high, name), getattr(low, name))


@given(BANDS, SHARES, PRICES, OUTLAYS, SHARES, ACCOUNTS)
def test_a_cheaper_set_never_pays_back_later(band, share, price, outlay, cheaper, account):
    dear, cheap = (plain(band, share, flat_tariff(price), cost, account) for cost in (outlay, outlay * cheaper))
    for name in PAYBACKS:
        never_later(getattr(cheap, name), getattr(dear, name))


@given(BANDS, SHARES, PRICES, OUTLAYS, ACCOUNTS, st.integers(0, 40))
def test_a_shorter_stay_only_cuts(band, share, price, outlay, account, stay):
    """What is paid back within the shorter stay is so at the same time; nothing new is."""
    short, long = (plain(band, share, flat_tariff(price), outlay, account, years) for years in (stay, None))
    for got, whole in zip(times(short.discounted_payback_years), times(long.discounted_payback_years), strict=True):
        assert got == whole or got == float("inf")
        assert got == whole or whole > short.years_kept - 1e-6
    assert short.simple_payback_years == long.simple_payback_years


@given(BANDS, SHARES, PRICES, EXPORTS, st.floats(0, 0.3), OUTLAYS, ACCOUNTS)
def test_bands_are_ordered(band, share, price, export, pay, outlay, account):
    got = plain(band, share, flat_tariff(price, export, pay), outlay, account, 10)
    for rising in (got.saving_first_year, got.net_present_value, got.worth_up_to, got.if_moving_after_years.gain):
        assert rising.cautious <= rising.middle <= rising.hopeful
    for name in PAYBACKS:
        cautious, middle, hopeful = times(getattr(got, name))
        assert cautious >= middle >= hopeful


@given(BANDS, SHARES, PRICES, OUTLAYS, ACCOUNTS, st.floats(0, 5000))
def test_what_is_sent_out_is_never_worth_less_netted_than_unpaid(band, share, price, outlay, account, demand):
    netted, unpaid = (
        worth_of_energy(
            band, share, flat_tariff(price, export), outlay_of(set=outlay), account, AS_OF,
            demand_kwh_per_year=demand,
        )
        for export in ("netted", "unpaid")
    )  # fmt: skip
    assert netted.saving_first_year.middle >= unpaid.saving_first_year.middle
    assert netted.net_present_value.middle >= unpaid.net_present_value.middle - 1e-9


@given(
    st.floats(0, 2000),
    st.floats(0, 8000),
    st.floats(0, 300),
    st.booleans(),
    st.sampled_from(["instant", "month", "year"]),
)
def test_the_whole_way_from_energy_to_money_keeps_its_balances(kwh, demand, always_on, sums_phases, netting):
    setting = setup(
        household=household(demand_kwh_per_year=demand, always_on_w=always_on, stay_years=None),
        meter=Meter(counts="two_way", sums_phases=sums_phases, netting=netting),
    )
    energy = energy_year(kwh, SPREAD)
    use = use_at_home(energy, setting, CALENDAR, SHAPE)
    assert use.self_used_kwh.middle + use.exported_kwh == pytest.approx(kwh, abs=1e-6)
    assert 0 <= use.self_used_kwh.cautious <= use.self_used_kwh.middle <= use.self_used_kwh.hopeful
    assert use.self_used_kwh.middle <= min(kwh, demand) + 1e-6
    got = worth(energy, use, setting, AS_OF)
    assert 0 <= got.saving_first_year.cautious <= got.saving_first_year.middle <= got.saving_first_year.hopeful


@given(
    st.floats(0, 2000),
    st.floats(0, 8000),
    st.floats(0, 300),
    st.one_of(st.none(), st.floats(0, 8000)),
    st.sampled_from(["instant", "quarter_hour", "hour", "month", "year"]),
    EXPORTS,
    st.floats(0, 1),
)
def test_a_meter_that_sums_phases_never_saves_less_than_one_that_does_not(
    kwh, demand, always_on, roof_kwh, netting, export, pay_share
):
    """As long as a kWh sent out is not worth more than one bought."""
    roof = None if roof_kwh is None else production_w(1.0) * roof_kwh
    savings = []
    for sums_phases in (True, False):
        setting = setup(
            household=household(demand_kwh_per_year=demand, always_on_w=always_on),
            meter=Meter(counts="two_way", sums_phases=sums_phases, netting=netting),
            tariff=flat_tariff(0.3, export, 0.3 * pay_share),
        )
        energy = energy_year(kwh, SPREAD)
        use = use_at_home(energy, setting, CALENDAR, SHAPE, roof)
        assert use.self_used_kwh.middle + use.exported_kwh == pytest.approx(kwh, abs=1e-6)
        assert use.self_used_kwh.middle <= use.upper_bound_self_used_kwh + 1e-3
        savings.append(worth(energy, use, setting, AS_OF).saving_first_year.middle)
    assert savings[0] >= savings[1] - 0.01


@given(
    st.floats(0, 2000),
    st.floats(0, 6000),
    st.floats(0, 60),
    st.floats(0, 60),
    st.sampled_from(["two_way", "reversing", "one_way"]),
    EXPORTS,
    st.floats(-0.1, 0.3),
)
def test_more_drawn_by_night_never_saves_more(kwh, demand, watts, more, counts, export, pay):
    saved = []
    for night_w in (watts, watts + more):
        energy = energy_year(kwh, SPREAD)
        dark = np.count_nonzero(energy.dc_w[0] <= 0)
        energy = replace(energy, night_draw_kwh=night_w * dark / 1000)
        setting = setup(
            household=household(demand_kwh_per_year=demand),
            meter=Meter(counts=counts, sums_phases=True, netting="year"),
            tariff=flat_tariff(0.3, export, pay),
        )
        saved.append(worth(energy, use_at_home(energy, setting, CALENDAR, SHAPE), setting, AS_OF))
    for less, most in zip(saved[1].yearly_flows[1:], saved[0].yearly_flows[1:], strict=True):
        assert less.saving <= most.saving + 1e-9
    for end in ("cautious", "middle", "hopeful"):
        assert getattr(saved[1].saving_first_year, end) <= getattr(saved[0].saving_first_year, end) + 1e-9
    never_later(saved[0].discounted_payback_years, saved[1].discounted_payback_years)


@given(
    st.floats(0, 1500), st.floats(0, 6000), st.floats(0.05, 5), st.booleans(), st.sampled_from(["dc", "ac"]),
    st.floats(20, 2000), st.floats(20, 2000), st.floats(0.5, 1), st.floats(0, 40), EXPORTS, st.floats(-0.1, 0.3),
    st.sampled_from(["instant", "hour", "month", "year"]),
)  # fmt: skip
def test_a_battery_creates_no_energy_and_one_that_reads_never_lowers_self_use(  # noqa: PLR0917  drawn in this order
    kwh, demand, usable, reads, coupling, charge, discharge, round_trip, standby, export, pay, netting
):
    box = Storage(
        usable_kwh=usable, coupling=coupling, charge_limit_w=charge, discharge_limit_w=discharge,
        max_input_current_a=None, round_trip_share=round_trip, standby_w=standby, meter_reader=reads,
        night_feed_w=None if reads else min(80.0, discharge), charge_above_w=None if reads else 80.0,
        ageing_share_per_year=0.02, amount=200.0,
    )  # fmt: skip
    energy = energy_year(kwh, SPREAD)
    setting = setup(
        household=household(demand_kwh_per_year=demand, stay_years=None), storage=box,
        meter=Meter(counts="two_way", sums_phases=True, netting=netting), tariff=flat_tariff(0.3, export, pay),
    )  # fmt: skip
    use = use_at_home(energy, setting, CALENDAR, SHAPE)
    got = storage_beside(energy, setting, use, worth(energy, use, setting, AS_OF), AS_OF)
    year, close = got.year, 1e-3 + 1e-5 * demand
    assert year.given_kwh <= year.charged_kwh * round_trip + close
    reached = got.with_it.self_used_kwh.middle + got.with_it.exported_kwh
    assert reached <= kwh + year.unclipped_kwh + close
    if reads:
        assert got.more_self_used_kwh.middle >= -close
        assert got.with_it.self_used_kwh.middle <= demand + close
    for band in (got.with_it.self_used_kwh, got.more_self_used_kwh, got.money.gain_first_year, got.money.outlay_to_pay,
                 got.money.net_present_value, got.with_it.saving_first_year):  # fmt: skip
        assert band.cautious <= band.middle <= band.hopeful


@given(st.floats(1, 1500), st.floats(0, 6000), st.floats(0.05, 0.8), st.floats(1, 3), EXPORTS, st.floats(-0.2, 0.0))
def test_a_dearer_kwh_never_lengthens_payback_where_sending_out_costs(kwh, demand, price, dearer, export, pay):
    def asked(one):
        setting = setup(
            household=household(demand_kwh_per_year=demand, stay_years=None),
            meter=Meter(counts="two_way", sums_phases=True, netting="month"),
            tariff=flat_tariff(one, export, pay),
        )
        energy = replace(energy_year(kwh, SPREAD), night_draw_kwh=0.4)
        return worth(energy, use_at_home(energy, setting, CALENDAR, SHAPE), setting, AS_OF)

    low, high = asked(price), asked(price * dearer)
    never_later(
        Band(*times(high.discounted_payback_years)[1:2] * 3), Band(*times(low.discounted_payback_years)[1:2] * 3)
    )
    for got in (low, high):
        assert got.saving_first_year.cautious <= got.saving_first_year.middle <= got.saving_first_year.hopeful


@given(
    st.floats(1, 1500), st.floats(0, 6000), st.floats(0.05, 0.8), st.floats(1, 3), EXPORTS, st.floats(-0.2, 0.3),
    st.sampled_from(["two_way", "reversing", "one_way"]), st.floats(0, 120), st.floats(-0.05, 0.08), st.floats(0, 0.03),
)  # fmt: skip
@example(640.0, 0.0, 0.3, 1.5, "paid", 0.2, "two_way", 5.0, 0.0, 0.005)
def test_a_dearer_kwh_never_lengthens_payback_unless_the_answer_says_that_it_does(  # noqa: PLR0917  drawn in this order
    kwh, demand, price, dearer, export, pay, counts, night_kwh, growth, ageing
):
    """It does where less is spared than the inverter draws by night, or where what is sent out is billed."""

    def asked(one):
        setting = setup(
            household=household(demand_kwh_per_year=demand, stay_years=None),
            meter=Meter(counts=counts, sums_phases=True, netting="month"),
            tariff=flat_tariff(one, export, pay),
            money=money(price_growth_share=growth, ageing_share_per_year=ageing, inverter_swap=None),
        )
        energy = replace(energy_year(kwh, SPREAD), night_draw_kwh=night_kwh)
        return worth(energy, use_at_home(energy, setting, CALENDAR, SHAPE), setting, AS_OF)

    low, high = asked(price), asked(price * dearer)
    saved = [np.array([flow.saving for flow in got.yearly_flows[1:]]) for got in (low, high)]
    spares = (saved[1] >= saved[0] - 1e-9).all()
    assert high.least_by_import_price == pytest.approx(dearer * low.least_by_import_price, abs=1e-9)
    if low.least_by_import_price < -1e-6:
        assert dearer < 1 + 1e-6 or not spares
        return
    assert spares
    for name in PAYBACKS:
        never_later(Band(*times(getattr(high, name))[1:2] * 3), Band(*times(getattr(low, name))[1:2] * 3))


FLOWS = st.lists(st.floats(-1000, 1000).map(lambda x: round(x, 2)), min_size=2, max_size=25)


@given(FLOWS, st.floats(-0.5, 1.0))
def test_present_values_agree_with_a_general_library(flows, rate):
    """numpy-financial, to 1e-9 of the sum of the terms."""
    terms = np.abs(np.array(flows) / (1 + rate) ** np.arange(len(flows))).sum()
    assert net_present_value(rate, np.array(flows)) == pytest.approx(npf.npv(rate, flows), abs=1e-9 * max(terms, 1e-9))


@given(st.floats(1, 5000), st.lists(st.floats(0.5, 800), min_size=1, max_size=40))
def test_the_one_rate_of_an_outlay_and_its_savings_agrees_with_a_general_library(outlay, saved):
    """numpy-financial, to 1e-9 wherever there is exactly one rate."""
    flows = np.array([-outlay, *saved])
    (rate,) = internal_rates_of_return(flows)
    expected = npf.irr(flows)
    assume(not np.isnan(expected))
    assert rate == pytest.approx(expected, abs=1e-9, rel=1e-9)


@given(FLOWS)
def test_every_rate_found_brings_the_value_to_nought(flows):
    money_flows = np.array(flows)
    for rate in internal_rates_of_return(money_flows):
        terms = money_flows / (1 + rate) ** np.arange(money_flows.size)
        assert abs(terms.sum()) <= 1e-8 * np.abs(terms).sum()
