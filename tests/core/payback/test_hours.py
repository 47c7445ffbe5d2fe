"""What a kWh costs in each hour of the year, and how the hours are summed."""

from datetime import date

import numpy as np
import pytest

from service.core.errors import ContradictionError
from service.core.model.facts import HourlyPrices, Rate, Tariff, TariffPeriod
from service.core.payback import meter_sums, priced_hours, rate_of_minute
from service.core.sky import calendar_of
from tests.energy_years import CALENDAR, production_w

PRODUCED = production_w(640.0)
USED = np.minimum(PRODUCED, 90.0 + 60.0 * np.sin(np.arange(8760)) ** 2)
DEMAND = USED + 70.0


def rate(**changes):
    base = {"name": None, "months": None, "days": None, "from_clock": None, "to_clock": None,
            "import_price_per_kwh": None, "export_price_per_kwh": None}  # fmt: skip
    return Rate(**{**base, **changes})


def period(*rates, **changes):
    base = {"valid_from": "2026-01-01", "import_price_per_kwh": 0.30, "export": "paid", "export_price_per_kwh": 0.08}
    return TariffPeriod(**{**base, "rates": rates, **changes})


def tariff(*periods):
    return Tariff(currency="EUR", periods=periods)


def hourly(bought, sold=None, **changes):
    prices = HourlyPrices(
        import_prices_per_kwh=tuple(bought), export_prices_per_kwh=None if sold is None else tuple(sold)
    )
    return period(hourly=prices, **changes)


def import_prices(*rates, **changes):
    return priced_hours(tariff(period(*rates, **changes)), 0, CALENDAR)[0]


def at(month, day, hour):
    """Row of a wall-clock hour outside summer time, in the plain year of the rows."""
    return ((date(2025, month, day) - date(2025, 1, 1)).days) * 24 + hour


NIGHT = rate(from_clock="22:00", to_clock="06:00", import_price_per_kwh=0.20)


def test_a_night_rate_spans_midnight():
    prices = import_prices(NIGHT)
    assert [prices[at(1, 15, hour)] for hour in (0, 5, 6, 21, 22, 23)] == [0.2, 0.2, 0.3, 0.3, 0.2, 0.2]


def test_rates_go_by_the_wall_clock_in_summer_too():
    row = at(7, 15, 20)  # 20:00 of standard time is 21:00 on the wall
    prices = import_prices(NIGHT)
    assert CALENDAR.clock_h[row] == 21
    assert (prices[row], prices[row + 1]) == (0.3, 0.2)


def test_a_weekend_rate_holds_on_saturday_and_sunday():
    prices = import_prices(rate(days="weekend", import_price_per_kwh=0.25))
    assert [prices[at(1, day, 12)] for day in (17, 18, 19, 20)] == [0.3, 0.25, 0.25, 0.3]  # Friday to Monday


def test_a_seasonal_rate_holds_in_its_months():
    prices = import_prices(rate(months=(6, 7, 8), import_price_per_kwh=0.22))
    assert set(prices[CALENDAR.month == 7]) == {0.22}
    assert set(prices[CALENDAR.month == 9]) == {0.3}


def test_the_first_rate_that_holds_counts():
    peak = rate(days="weekday", from_clock="17:00", to_clock="20:00", import_price_per_kwh=0.5)
    all_day = rate(import_price_per_kwh=0.4)
    assert import_prices(peak, all_day)[at(1, 15, 18)] == 0.5
    assert import_prices(all_day, peak)[at(1, 15, 18)] == 0.4


def test_a_rate_that_begins_within_an_hour_counts_by_its_part():
    prices = import_prices(rate(from_clock="06:30", to_clock="07:15", import_price_per_kwh=0.4))
    assert prices[at(1, 15, 6)] == pytest.approx(0.35)
    assert prices[at(1, 15, 7)] == pytest.approx(0.3 + 0.25 * 0.1)


def test_a_rate_without_an_import_price_changes_only_what_is_sent_out():
    bought, sold = priced_hours(tariff(period(rate(from_clock="11:00", to_clock="15:00", export_price_per_kwh=-0.02))),
                                0, CALENDAR)  # fmt: skip
    assert set(bought) == {0.30}
    assert sold[at(1, 15, 12)] == -0.02
    assert sold[at(1, 15, 15)] == 0.08


def test_hourly_prices_repeat_by_day_or_week_or_are_a_whole_year():
    day = np.arange(24) / 100
    week = np.arange(168) / 1000
    year = np.arange(8760) / 10000
    row = at(1, 15, 13)  # a Wednesday
    assert priced_hours(tariff(hourly(day)), 0, CALENDAR)[0][row] == 0.13
    assert priced_hours(tariff(hourly(week)), 0, CALENDAR)[0][row] == pytest.approx((48 + 13) / 1000)
    assert priced_hours(tariff(hourly(year)), 0, CALENDAR)[0][row] == year[row]


def test_hourly_prices_of_a_day_go_by_the_wall_clock_and_a_year_by_its_rows():
    row = at(7, 15, 13)
    assert priced_hours(tariff(hourly(np.arange(24) / 100)), 0, CALENDAR)[0][row] == 0.14
    assert priced_hours(tariff(hourly(np.arange(8760.0))), 0, CALENDAR)[0][row] == row


@pytest.mark.parametrize("length", [23, 25, 169, 8784])
def test_hourly_prices_of_another_length_are_refused(length):
    with pytest.raises(ContradictionError) as error:
        meter_sums(tariff(period(), hourly([0.3] * length, valid_from="2027-01-01")), CALENDAR)
    assert error.value.pointer == "/tariff/periods/1/hourly/import_prices_per_kwh"


RANDOM = np.random.default_rng(7)
SCHEMES = {
    "clock": (period(NIGHT, rate(days="weekend", import_price_per_kwh=0.25, export_price_per_kwh=0.05)),),
    "seasons": (period(rate(months=(11, 12, 1, 2), import_price_per_kwh=0.37)),),
    "a year of hours": (hourly(RANDOM.uniform(0.1, 0.5, 8760), RANDOM.uniform(-0.05, 0.2, 8760)),),
    "a week of hours": (hourly(RANDOM.uniform(0.1, 0.5, 168)),),
    "clock, then hours": (
        period(NIGHT, export="netted"),
        hourly(RANDOM.uniform(0.1, 0.5, 8760), valid_from="2028-01-01"),
    ),
    "flat, then a day of hours": (period(), hourly(RANDOM.uniform(0.1, 0.5, 24), valid_from="2028-01-01")),
}  # fmt: skip


@pytest.mark.parametrize("scheme", SCHEMES)
def test_summing_first_changes_nothing(scheme):
    """Every period's money is what a sum over the hours gives, at that hour's price."""
    prices = tariff(*SCHEMES[scheme])
    sums = meter_sums(prices, CALENDAR)
    home = sums.home(USED, PRODUCED, sums.by_first(DEMAND))
    sent = PRODUCED - USED
    for energy, by_cell in ((USED, home.self_used_kwh), (sent, home.exported_kwh), (DEMAND, home.demand_kwh)):
        assert by_cell.sum() == pytest.approx(energy.sum() / 1000)
    for number, one in enumerate(home.at):
        if one is None:
            assert not prices.periods[number].rates
            continue
        bought, sold = priced_hours(prices, number, CALENDAR)
        for energy, row in ((USED, one.self_used), (sent, one.exported)):
            assert row[0].sum() == pytest.approx((energy * bought).sum() / 1000)
            assert row[1].sum() == pytest.approx((energy * sold).sum() / 1000)


def test_cells_are_months_of_one_register_where_nothing_is_netted():
    sums = meter_sums(tariff(period(NIGHT)), CALENDAR)
    assert sums.cells == 12
    july = np.where(CALENDAR.month == 7, 1000.0, 0.0)
    by_month = sums.home(july, july, sums.by_first(july)).demand_kwh
    assert by_month[6] == 31 * 24
    assert by_month.sum() == 31 * 24


def registers(*rates, **changes):
    return meter_sums(tariff(period(*rates, export="netted", **changes)), CALENDAR).cells // 12


def test_a_two_rate_tariff_that_nets_has_two_registers():
    assert registers(NIGHT) == 2
    assert registers(NIGHT, rate(days="weekend", import_price_per_kwh=0.20)) == 2  # one price, one register
    assert registers(NIGHT, rate(days="weekend", import_price_per_kwh=0.25)) == 3


def test_rates_that_repeat_the_base_price_and_seasons_need_no_register_of_their_own():
    assert registers(rate(from_clock="22:00", to_clock="06:00", import_price_per_kwh=0.30)) == 1
    assert registers(rate(months=(1, 2, 12), import_price_per_kwh=0.40)) == 1


def test_a_rate_that_holds_in_some_months_only_has_a_register_all_year():
    assert registers(rate(months=(6, 7), from_clock="11:00", to_clock="14:00", import_price_per_kwh=0.15)) == 2
    assert registers(rate(from_clock="11:00", to_clock="14:00", export_price_per_kwh=0.01)) == 2


def test_a_meter_that_runs_backwards_has_registers_whatever_was_agreed():
    unpaid = tariff(period(NIGHT, export="unpaid", export_price_per_kwh=0.0))
    assert meter_sums(unpaid, CALENDAR).cells == 12
    assert meter_sums(unpaid, CALENDAR, reversing=True).cells == 24


def test_periods_with_other_rates_are_told_apart_as_finely_as_any_does():
    lunch = rate(from_clock="11:00", to_clock="14:00", import_price_per_kwh=0.15)
    both = tariff(period(NIGHT, export="netted"), period(lunch, export="netted", valid_from="2028-01-01"))
    sums = meter_sums(both, CALENDAR)
    assert sums.cells == 36
    night, midday = sums.registers
    assert set(night) == set(midday) == {0, 1}
    assert len(set(zip(night, midday, strict=True))) == 3


def test_without_a_tariff_the_months_are_summed():
    assert meter_sums(None, CALENDAR).cells == 12


def test_a_rate_of_one_day_holds_on_that_day_alone():
    days = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
    for number, day in enumerate(days):
        held = rate_of_minute((_of_day(day),))
        assert (held[:, number] == 0).all()
        assert (np.delete(held, number, axis=1) == -1).all()


def test_the_price_of_a_saturday_is_paid_on_saturdays():
    cheap = TariffPeriod(valid_from="2026-01-01", import_price_per_kwh=0.3, export="unpaid", export_price_per_kwh=0.0,
                         rates=(_of_day("saturday"),))  # fmt: skip
    dated = Tariff(currency="EUR", periods=(cheap,))
    bought, _ = priced_hours(dated, 0, CALENDAR)
    np.testing.assert_array_equal(bought, np.where(CALENDAR.weekday == 5, 0.1, 0.3))
    power = np.random.default_rng(3).uniform(0, 400, 8760)
    sums = meter_sums(dated, CALENDAR)
    home = sums.home(power, power, sums.by_first(power))
    assert home.at[0].self_used[0].sum() == pytest.approx((power * bought).sum() / 1000)


def _of_day(day):
    return Rate(name=None, months=None, days=day, from_clock=None, to_clock=None, import_price_per_kwh=0.1,
                export_price_per_kwh=None)  # fmt: skip


@pytest.mark.parametrize(("zone", "longitude_deg"), [("Europe/Berlin", 13.0), ("Pacific/Auckland", 174.8)])
def test_months_are_summed_by_the_wall_clock_on_either_side_of_the_equator(zone: str, longitude_deg: float) -> None:
    calendar = calendar_of(zone, longitude_deg)
    power_w = np.random.default_rng(7).uniform(0.0, 800.0, 8760)
    by_month = [power_w[calendar.month == month].sum() / 1000.0 for month in range(1, 13)]
    assert meter_sums(None, calendar).by_first(power_w) == pytest.approx(by_month, rel=1e-12)


@pytest.mark.parametrize("zone", [("Europe/Berlin", 12.3), ("Australia/Sydney", 151.2)])
def test_months_of_one_price_are_the_same_with_rates_that_change_nothing(zone) -> None:
    calendar = calendar_of(*zone)
    flat, told_apart = (
        meter_sums(tariff(period(*rates)), calendar)
        for rates in ((), (rate(from_clock="22:00", to_clock="06:00", import_price_per_kwh=0.30),))
    )
    for used, given in ((USED, PRODUCED), (np.zeros(8760), PRODUCED), (PRODUCED, PRODUCED)):
        plain = flat.home(used, given, flat.by_first(DEMAND))
        long_way = told_apart.home(used, given, told_apart.by_first(DEMAND))
        assert [one is None for one in plain.at] != [one is None for one in long_way.at]
        for name in ("self_used_kwh", "exported_kwh", "demand_kwh"):
            np.testing.assert_allclose(getattr(plain, name), getattr(long_way, name), rtol=1e-9, atol=1e-9)
    several = np.array([USED, PRODUCED])
    for sums in (flat, told_apart):
        np.testing.assert_allclose(sums.by_first(several), [sums.by_first(one) for one in several], rtol=1e-12)
