"""Promises about meters and tariffs that hold for every home, price and rule."""

from dataclasses import replace
from datetime import date

import numpy as np
import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from service.core.household import demand_w
from service.core.model.facts import HourlyPrices, Meter, Rate, Tariff, TariffPeriod
from service.core.payback import meter_sums, priced_hours, priced_periods, savings
from service.core.worth import use_at_home, worth
from service.data.households import load_demand_shape
from tests.builders import household, money, setup
from tests.builders import outlay as outlay_of
from tests.energy_years import CALENDAR, energy_year, production_w

AS_OF = date(2026, 11, 25)
SHAPE = load_demand_shape()
ENERGY = energy_year(640.0)


def year_of(kwh):
    return ENERGY if kwh == 640 else energy_year(float(kwh))


CLOCKS = st.builds("{:02d}:{:02d}".format, st.integers(0, 23), st.sampled_from([0, 0, 0, 15, 30, 50]))
NETTINGS = st.sampled_from(["instant", "quarter_hour", "hour", "month", "year"])
COUNTS = st.sampled_from(["two_way", "reversing", "one_way", "not_known"])
LEVEL = {"inverter_swap": None, "price_growth_share": 0.0, "ageing_share_per_year": 0.005, "years": 12}


@st.composite
def rates(draw):
    begin = draw(CLOCKS)
    end = draw(CLOCKS.filter(lambda clock: clock != begin))
    all_day = draw(st.booleans())
    return Rate(
        name=None,
        months=draw(st.one_of(st.none(), st.lists(st.integers(1, 12), min_size=1, max_size=6, unique=True).map(tuple))),
        days=draw(st.sampled_from([None, "all", "weekday", "weekend", "monday", "saturday", "sunday"])),
        from_clock=None if all_day else begin,
        to_clock=None if all_day else end,
        import_price_per_kwh=draw(st.floats(0.05, 0.6)),
        export_price_per_kwh=None,
    )


PERIODS = st.builds(
    lambda day, price, export, pay, some: TariffPeriod(
        valid_from=day.isoformat(), import_price_per_kwh=price, export=export,
        export_price_per_kwh=0.0 if export == "unpaid" else pay, rates=tuple(some),
    ),
    st.dates(date(2024, 1, 1), date(2034, 1, 1)), st.floats(0.05, 0.6), st.sampled_from(["unpaid", "paid", "netted"]),
    st.floats(0, 0.05), st.lists(rates(), max_size=3),
)  # fmt: skip
TARIFFS = st.lists(PERIODS, min_size=1, max_size=3, unique_by=lambda p: p.valid_from).map(
    lambda some: Tariff(currency="EUR", periods=tuple(some))
)
HOMES = st.builds(
    lambda kwh, always_on: household(demand_kwh_per_year=kwh, always_on_w=always_on, stay_years=None),
    st.floats(0, 6000),
    st.floats(0, 200),
)


def account(tariff, home, *, netting="year", counts="two_way", sums_phases=True, paid=400.0, kwh=640, **terms):
    setting = setup(
        household=home,
        tariff=tariff,
        meter=Meter(counts=counts, sums_phases=sums_phases, netting=netting),
        outlay=outlay_of(set=paid),
        money=money(**{**LEVEL, **terms}),
    )
    energy = year_of(kwh)
    use = use_at_home(energy, setting, CALENDAR, SHAPE)
    return use, worth(energy, use, setting, AS_OF)


def with_periods(tariff, change):
    return replace(tariff, periods=tuple(change(period) for period in tariff.periods))


def yearly(got):
    return np.array([flow.saving for flow in got.yearly_flows[1:]])


@given(TARIFFS, HOMES, NETTINGS, COUNTS)
def test_every_kwh_is_used_or_sent_out_whatever_the_tariff(tariff, home, netting, counts):
    use, _ = account(tariff, home, netting=netting, counts=counts)
    for case in (use.cases.middle, use.cases.less_used, use.cases.more_used):
        assert (case.self_used_kwh >= -1e-9).all()
        assert (case.exported_kwh >= -1e-9).all()
        assert case.self_used_kwh.sum() + case.exported_kwh.sum() == pytest.approx(640.0)
    flat, _ = account(None, home, netting=netting, counts=counts)
    assert use.self_used_kwh.middle == pytest.approx(flat.self_used_kwh.middle)


@given(TARIFFS, HOMES, NETTINGS, COUNTS)
def test_bands_are_ordered_whatever_the_tariff(tariff, home, netting, counts):
    _, got = account(tariff, home, netting=netting, counts=counts)
    for band in (got.saving_first_year, got.net_present_value, got.worth_up_to):
        assert band.cautious <= band.middle <= band.hopeful


@given(TARIFFS, HOMES, NETTINGS, st.randoms(use_true_random=False))
def test_the_order_of_periods_does_not_matter(tariff, home, netting, chance):
    shuffled = list(tariff.periods)
    chance.shuffle(shuffled)
    one, other = (account(t, home, netting=netting)[1] for t in (tariff, replace(tariff, periods=tuple(shuffled))))
    assert one == other


@given(TARIFFS, HOMES, NETTINGS, COUNTS)
def test_rates_that_all_cost_the_base_price_change_nothing(tariff, home, netting, counts):
    def level(period):
        same = tuple(replace(rate, import_price_per_kwh=period.import_price_per_kwh) for rate in period.rates)
        return replace(period, rates=same)

    levelled, plain = with_periods(tariff, level), with_periods(tariff, lambda p: replace(p, rates=()))
    one, other = (yearly(account(t, home, netting=netting, counts=counts)[1]) for t in (levelled, plain))
    np.testing.assert_allclose(one, other, rtol=1e-9, atol=1e-9)


def _by_season(price, *months):
    dear = Rate(name=None, months=months, days=None, from_clock=None, to_clock=None, import_price_per_kwh=price,
                export_price_per_kwh=None)  # fmt: skip
    period = TariffPeriod(valid_from="2026-01-01", import_price_per_kwh=0.2, export="netted",
                          export_price_per_kwh=0.0, rates=(dear,))  # fmt: skip
    return Tariff(currency="EUR", periods=(period,))


WINTER_IS_DEAR, SUMMER_IS_DEAR = _by_season(0.45, 11, 12, 1, 2), _by_season(0.45, 5, 6, 7, 8)
LONGER = ("quarter_hour", "hour", "month", "year")


def not_above_import(period):
    """Each hour's export price at no more than its import price."""
    rates = tuple(
        replace(r, export_price_per_kwh=min(period.export_price_per_kwh, r.import_price_per_kwh)) for r in period.rates
    )
    own = min(period.export_price_per_kwh, period.import_price_per_kwh)
    return replace(period, rates=rates, export_price_per_kwh=own)


@given(TARIFFS, HOMES, st.booleans(), st.integers(0, 2), st.integers(0, 4000))
@example(SUMMER_IS_DEAR, household(demand_kwh_per_year=700, always_on_w=20, stay_years=None), True, 2, 640)
def test_netting_over_a_longer_time_never_saves_less(tariff, home, sums_phases, at, kwh):
    """Whatever the hours cost, seasons and rates that begin within the hour among them."""
    netted = with_periods(tariff, lambda p: replace(not_above_import(p), export="netted"))
    short, long = (
        yearly(account(netted, home, netting=one, sums_phases=sums_phases, kwh=kwh)[1]) for one in LONGER[at : at + 2]
    )
    assert (long >= short - 1e-6).all()


@given(TARIFFS, HOMES, NETTINGS)
def test_what_is_sent_out_is_never_worth_less_netted_than_unpaid_at_any_hour(tariff, home, netting):
    netted, unpaid = (with_periods(tariff, lambda p, e=e: replace(p, export=e)) for e in ("netted", "unpaid"))
    saved, without = (yearly(account(t, home, netting=netting)[1]) for t in (netted, unpaid))
    assert (saved >= without - 1e-9).all()


@given(TARIFFS, HOMES, NETTINGS, COUNTS, st.integers(0, 4000))
@example(WINTER_IS_DEAR, household(demand_kwh_per_year=400, always_on_w=20, stay_years=None), "year", "two_way", 640)
def test_a_meter_that_sums_phases_never_saves_less(tariff, home, netting, counts, kwh):
    """At export prices that are not above the import prices of their hour; seasons and broken hours among them."""
    bound = with_periods(tariff, not_above_import)
    summed, apart = (
        yearly(account(bound, home, netting=netting, counts=counts, sums_phases=sums, kwh=kwh)[1])
        for sums in (True, False)
    )
    assert (summed >= apart - 1e-9).all()


HOURLY = st.builds(
    lambda seed, size, share, export, pay: TariffPeriod(
        valid_from="2026-01-01", import_price_per_kwh=0.3, export=export, export_price_per_kwh=pay,
        hourly=_hours(np.random.default_rng(seed), size, share),
    ),
    st.integers(0, 2**32 - 1), st.sampled_from([24, 168, 8760]), st.floats(0, 1), st.sampled_from(["paid", "netted"]),
    st.floats(0, 0.05),
)  # fmt: skip


def _hours(rng, size, share):
    """Import prices of 0.05 to 0.60, export prices of a share of them."""
    bought = rng.uniform(0.05, 0.6, size)
    return HourlyPrices(import_prices_per_kwh=tuple(bought), export_prices_per_kwh=tuple(share * bought))


@given(HOURLY, TARIFFS, HOMES, NETTINGS, COUNTS, st.integers(0, 4000))
def test_a_meter_that_sums_phases_never_saves_less_by_hourly_prices(period, later, home, netting, counts, kwh):
    """Alone, and before periods with rates of their own; a set that gives more than the home needs among them."""
    after = tuple(replace(p, valid_from=f"20{30 + at}-05-17") for at, p in enumerate(later.periods))
    dated = with_periods(Tariff(currency="EUR", periods=(period, *after)), not_above_import_by_rates)
    summed, apart = (
        yearly(account(dated, home, netting=netting, counts=counts, sums_phases=sums, kwh=kwh)[1])
        for sums in (True, False)
    )
    assert (summed >= apart - 1e-9).all()


def not_above_import_by_rates(period):
    return period if period.hourly else not_above_import(period)


@given(HOURLY, HOMES, st.integers(0, 4000))
def test_over_the_year_it_is_all_one_what_was_used_in_the_same_moment(period, home, kwh):
    """What is netted over the year hangs on production and need alone."""
    netted = Tariff(currency="EUR", periods=(replace(period, export="netted"),))
    summed, apart = (
        yearly(account(netted, home, netting="year", sums_phases=sums, kwh=kwh)[1]) for sums in (True, False)
    )
    np.testing.assert_allclose(summed, apart, rtol=1e-9, atol=1e-9)


def bill_of(tariff, home):
    """All of the demand bought, by hand from the price of every hour; of a tariff with one period."""
    return float(demand_w(home, CALENDAR, SHAPE, southern=False) @ priced_hours(tariff, 0, CALENDAR)[0]) / 1000.0


@given(st.one_of(PERIODS, HOURLY), HOMES, NETTINGS, st.sampled_from(["two_way", "reversing"]), st.integers(0, 4000))
@example(SUMMER_IS_DEAR.periods[0], household(demand_kwh_per_year=700, always_on_w=20, stay_years=None), "year",
         "two_way", 640)  # fmt: skip
def test_with_surplus_unpaid_no_more_is_saved_than_the_home_would_pay(period, home, netting, counts, kwh):
    """Seasons, broken hours and any hourly prices among them, in every year and at the hopeful end."""
    hourly = period.hourly and replace(period.hourly, export_prices_per_kwh=None)
    if hourly and counts == "reversing":
        return
    unpaid = replace(period, export="netted", export_price_per_kwh=0.0, hourly=hourly)
    tariff = Tariff(currency="EUR", periods=(unpaid,))
    _, got = account(tariff, home, netting=netting, counts=counts, kwh=kwh)
    bill = bill_of(tariff, home)
    assert (yearly(got) <= bill * (1 + 1e-9) + 1e-9).all()
    assert got.saving_first_year.hopeful <= bill * (1 + 1e-9) + 1e-9


@given(HOURLY, HOMES, NETTINGS, st.integers(0, 4000))
def test_what_is_paid_for_surplus_is_all_that_comes_on_top_of_the_bill(period, home, netting, kwh):
    tariff = Tariff(currency="EUR", periods=(replace(period, export="netted"),))
    _, got = account(tariff, home, netting=netting, kwh=kwh)
    paid = float(year_of(kwh).ac_w @ priced_hours(tariff, 0, CALENDAR)[1]) / 1000.0
    assert yearly(got)[0] <= (bill_of(tariff, home) + paid) * (1 + 1e-9) + 1e-9


BANDED = st.lists(st.sampled_from([0.15, 0.25, 0.3, 0.4]), min_size=24, max_size=24)


@given(BANDED, HOMES, NETTINGS, st.sampled_from([24, 168, 8760]), st.integers(0, 4000), st.floats(0, 0.1))
def test_one_tariff_as_rates_or_as_hourly_prices_saves_the_same(day, home, netting, size, kwh, pay):
    """A day of prices, a week of it, or a year of it by the wall clock."""
    clock = CALENDAR.clock_h.astype(int)
    prices = np.array(day)[clock] if size == 8760 else np.resize(day, size)
    hourly = TariffPeriod(
        valid_from="2026-01-01", import_price_per_kwh=float(prices.mean()), export="netted", export_price_per_kwh=pay,
        hourly=HourlyPrices(import_prices_per_kwh=tuple(prices), export_prices_per_kwh=None),
    )  # fmt: skip
    rates = tuple(
        Rate(name=None, months=None, days=None, from_clock=f"{hour:02d}:00", to_clock=f"{(hour + 1) % 24:02d}:00",
             import_price_per_kwh=price, export_price_per_kwh=None)
        for hour, price in enumerate(day)
    )  # fmt: skip
    one, other = (
        yearly(account(Tariff(currency="EUR", periods=(period,)), home, netting=netting, kwh=kwh)[1])
        for period in (hourly, replace(hourly, hourly=None, rates=rates))
    )
    np.testing.assert_allclose(one, other, rtol=1e-9, atol=1e-9)


def times(band):
    return [float("inf") if value is None else value for value in (band.cautious, band.middle, band.hopeful)]


@given(TARIFFS, HOMES, NETTINGS, st.floats(1.0, 3.0))
def test_dearer_hours_never_lengthen_payback(tariff, home, netting, dearer):
    """All import prices dearer by one share, nothing else."""

    def rise(period):
        risen = tuple(replace(r, import_price_per_kwh=r.import_price_per_kwh * dearer) for r in period.rates)
        return replace(period, import_price_per_kwh=period.import_price_per_kwh * dearer, rates=risen)

    risen = with_periods(tariff, rise)
    before, after = (account(t, home, netting=netting)[1] for t in (tariff, risen))
    for name in ("simple_payback_years", "undiscounted_payback_years", "discounted_payback_years"):
        for sooner, later in zip(times(getattr(after, name)), times(getattr(before, name)), strict=True):
            assert sooner <= later * (1 + 1e-9) + 1e-9


@given(TARIFFS, HOMES, st.floats(0, 100), st.floats(0, 100), st.floats(0, 1))
def test_fees_and_tax_never_shorten_payback(tariff, home, by_year, by_kva, tax):
    paid = with_periods(tariff, lambda p: replace(p, export="paid"))
    burdened = with_periods(
        paid, lambda p: replace(p, fee_per_year=by_year, fee_per_kva_year=by_kva, export_tax_share=tax)
    )
    free, bound = (account(t, home)[1] for t in (paid, burdened))
    for sooner, later in zip(times(free.discounted_payback_years), times(bound.discounted_payback_years), strict=True):
        assert sooner <= later + 1e-9


HOURS = st.integers(0, 2**32 - 1).map(lambda seed: np.random.default_rng(seed).uniform(-0.05, 0.6, (2, 8760)))


@given(HOURS, HOMES, st.sampled_from(["unpaid", "paid"]))
def test_a_year_of_hourly_prices_is_the_sum_over_its_hours(prices, home, export):
    """Against the plain sum of kWh times price, hour by hour."""
    hourly = HourlyPrices(import_prices_per_kwh=tuple(prices[0]), export_prices_per_kwh=tuple(prices[1]))
    period = TariffPeriod(
        valid_from="2026-01-01", import_price_per_kwh=0.3, export=export, export_price_per_kwh=0.0, hourly=hourly
    )
    use, got = account(Tariff(currency="EUR", periods=(period,)), home)
    used, made = use.self_used_w, ENERGY.ac_w
    expected = (used * prices[0]).sum() + (0.0 if export == "unpaid" else ((made - used) * prices[1]).sum())
    assert got.yearly_flows[1].saving == pytest.approx(expected / 1000, abs=1e-9)


@given(TARIFFS, st.floats(0, 3000), st.floats(0, 1))
def test_prices_by_the_clock_are_the_sum_over_the_hours_too(tariff, demand, share):
    produced = production_w(640.0)
    used = produced * share
    sums = meter_sums(tariff, CALENDAR)
    home = sums.home(used, produced, sums.by_first(np.full(8760, demand / 8.76)))
    saved = savings(home, priced_periods(tariff, AS_OF, 3, 0.0), 0.0, "two_way", "hour")
    ordered = sorted(tariff.periods, key=lambda p: p.valid_from)
    expected = np.zeros(3)
    for one in priced_periods(tariff, AS_OF, 3, 0.0):
        bought, sold = priced_hours(tariff, one.number, CALENDAR)
        earns = 0.0 if ordered[one.number].export == "unpaid" else 1.0
        months = (
            np.repeat(one.share_of_year[:, np.newaxis], 12, 1) if one.share_of_month is None else one.share_of_month
        )
        expected += months[:, CALENDAR.month - 1] @ (used * bought + earns * (produced - used) * sold) / 1000
    np.testing.assert_allclose(saved, expected, rtol=1e-9, atol=1e-9)
