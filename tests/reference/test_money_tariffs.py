"""Worked cases of meters and tariffs, each by hand with a second route, from how bills are made up.

What a kWh used at home saves is the price by the kWh of its hour; standing charges are paid either way; two rates
count on two registers; a netting rule holds until its date (Netherlands: yearly netting until 31 December 2026, from
the dated rule card). The home: 200 W at every hour; the set: 500 W from 10 to 14 o'clock of the wall clock on every
day, so that each day 0.8 kWh are used and 1.2 kWh sent out of it: 292 and 438 kWh a year, of 1752 kWh needed. True
agreement: to the last digit printed in each case.
"""

from datetime import date

import numpy as np
import pytest

from service.core.model.band import Band
from service.core.model.facts import HourlyPrices, Rate, Tariff, TariffPeriod
from service.core.payback import meter_sums, priced_periods, savings, yearly_fees
from service.core.worth import worth_of_energy
from tests.builders import money, outlay
from tests.energy_years import CALENDAR

AS_OF = date(2026, 1, 1)
NEEDED = np.full(8760, 200.0)
MADE = np.where((CALENDAR.clock_h >= 10) & (CALENDAR.clock_h < 14), 500.0, 0.0)


def rate(price=None, pay=None, **when):
    always = {"name": None, "months": None, "days": None, "from_clock": None, "to_clock": None}
    return Rate(**{**always, **when}, import_price_per_kwh=price, export_price_per_kwh=pay)


def period(price, *rates, export="unpaid", pay=0.0, day="2026-01-01", **more):
    return TariffPeriod(
        valid_from=day, import_price_per_kwh=price, export=export, export_price_per_kwh=pay, rates=rates, **more
    )


def saved(*periods, netting="year", counts="two_way", made=MADE, as_of=AS_OF, years=1):
    """Savings of the first years, the home taken as steady within each hour."""
    tariff = Tariff(currency="EUR", periods=periods)
    sums = meter_sums(tariff, CALENDAR, reversing=counts == "reversing")
    home = sums.home(np.minimum(made, NEEDED), made, sums.by_first(NEEDED))
    return savings(home, priced_periods(tariff, as_of, years, 0.0), 0.0, counts, netting)


DAY_AND_NIGHT = (0.35, rate(0.20, from_clock="22:00", to_clock="07:00"))


def test_two_rates_without_pay():
    """All sun falls into the dear hours: 292 x 0.35 = 102.20."""
    assert saved(period(*DAY_AND_NIGHT))[0] == pytest.approx(102.20, abs=5e-3)


def test_two_rates_netted_over_the_year():
    """By day 15 h x 0.2 - 0.8 = 2.2 kWh are drawn, 1.2 sent out: all met, (292 + 438) x 0.35 = 255.50."""
    assert saved(period(*DAY_AND_NIGHT, export="netted"))[0] == pytest.approx(255.50, abs=5e-3)
    assert saved(period(*DAY_AND_NIGHT, export="netted"), counts="reversing")[0] == pytest.approx(255.50, abs=5e-3)


def test_a_cheap_rate_at_noon_leaves_nothing_to_net():
    """Its register draws nothing: 292 x 0.15 + 438 x 0.05 = 65.70, not 730 kWh at any price."""
    noon = period(0.35, rate(0.15, from_clock="10:00", to_clock="14:00"), export="netted", pay=0.05)
    assert saved(noon)[0] == pytest.approx(65.70, abs=5e-3)


def test_a_winter_price():
    """120 days of November to February at 0.40, 245 at 0.30: 0.8 x (120 x 0.40 + 245 x 0.30) = 97.20."""
    assert saved(period(0.30, rate(0.40, months=(11, 12, 1, 2))))[0] == pytest.approx(97.20, abs=5e-3)


def test_a_weekend_rate():
    """104 days at 0.25, 261 at 0.35: 0.8 x (26.00 + 91.35) = 93.88."""
    assert saved(period(0.35, rate(0.25, days="weekend")))[0] == pytest.approx(93.88, abs=5e-3)


def test_hourly_prices_with_a_negative_one_for_what_is_sent_out():
    """Used: 0.2 x (0.10 + 0.11 + 0.12 + 0.13) x 365 = 33.58; sent out: 0.3 x (3 x 0.05 - 0.02) x 365 = 14.235."""
    hourly = HourlyPrices(
        import_prices_per_kwh=tuple(hour / 100 for hour in range(24)),
        export_prices_per_kwh=tuple(-0.02 if hour == 12 else 0.05 for hour in range(24)),
    )
    assert saved(period(0.115, export="paid", hourly=hourly))[0] == pytest.approx(47.815, abs=5e-4)
    assert saved(period(0.115, hourly=hourly))[0] == pytest.approx(33.58, abs=5e-4)


JULY = np.where(CALENDAR.month == 7, 1000.0, 0.0)


@pytest.mark.parametrize(("netting", "saving"), [("hour", 44.64), ("month", 44.64), ("year", 223.20)])
def test_a_set_that_runs_in_july_only(netting, saving):
    """744 kWh made, 148.8 used, nothing else drawn in July, 1603.2 kWh over the year: 595.2 kWh net or do not."""
    assert saved(period(0.30, export="netted"), netting=netting, made=JULY)[0] == pytest.approx(saving, abs=5e-3)


def test_netting_that_ends_within_the_first_year():
    """From 1 July 184 of 365 days net: 87.60 + 438 x (0.30 x 184 + 0.05 x 181) / 365 = 164.70, then 109.50."""
    ends = (period(0.30, export="netted"), period(0.30, export="paid", pay=0.05, day="2027-01-01"))
    first, second = saved(*ends, as_of=date(2026, 7, 1), years=2)
    assert first == pytest.approx(164.70, abs=5e-3)
    assert second == pytest.approx(109.50, abs=5e-3)


def test_a_register_that_only_goes_up():
    """(292 - 438) x 0.30 = -43.80: the set costs money each year."""
    assert saved(period(0.30), counts="one_way")[0] == pytest.approx(-43.80, abs=5e-3)


def test_fees_by_the_year_and_by_the_kva():
    """720 kWh at 0.30 with all netted: 216 a year less 24 + 0.8 kVA x 60 = 72; 400 / 144 = 2.7778 years."""
    netted = period(0.30, export="netted", fee_per_year=24.0, fee_per_kva_year=60.0)
    tariff = Tariff(currency="EUR", periods=(netted,))
    assert yearly_fees(priced_periods(tariff, AS_OF, 2, 0.03), 800.0).tolist() == [72, 72]
    got = worth_of_energy(
        Band(720.0, 720.0, 720.0), 430 / 720, tariff, outlay(set=400.0), money(inverter_swap=None), AS_OF,
        demand_kwh_per_year=2600.0, ac_power_w=800.0,
    )  # fmt: skip
    assert got.saving_first_year.middle == pytest.approx(216.00)
    assert got.yearly_flows[1].cost == pytest.approx(72.00)
    assert got.simple_payback_years.middle == pytest.approx(2.77778, abs=5e-6)


def test_tax_on_what_the_surplus_earns():
    """430 x 0.30 + 290 x 0.08 x 0.75 = 146.40."""
    taxed = period(0.30, export="paid", pay=0.08, export_tax_share=0.25)
    got = worth_of_energy(
        Band(720.0, 720.0, 720.0), 430 / 720, Tariff(currency="EUR", periods=(taxed,)), None, money(), AS_OF
    )
    assert got.saving_first_year.middle == pytest.approx(146.40)
