"""What netting leaves over, by hand."""

from datetime import date

import numpy as np
import pytest

from service.core.model.facts import Rate, Tariff, TariffPeriod
from service.core.payback import meter_sums, priced_periods, savings
from service.core.payback.netting import NettedYears, by_register_and_month
from tests.energy_years import CALENDAR


def years(produced, exported, needed, share=None, age=(1.0,)):
    produced, exported, needed = (np.array([one], dtype=float) for one in (produced, exported, needed))
    held = np.ones((len(age), produced.shape[-1])) if share is None else np.array([share], dtype=float)
    return NettedYears(produced=produced, exported=exported, needed=needed, share=held, age=np.array(age))


def test_a_month_leaves_what_it_gives_more_than_it_needs():
    left = years([10, 50], [8, 40], [30, 20]).left(by_month=True)
    np.testing.assert_allclose(left, [[[0, 30]]])


def test_a_year_leaves_the_same_share_of_what_its_months_leave():
    """20 + 60 over in two months, 40 short in the third: half of each is left."""
    left = years([50, 80, 0], [40, 70, 0], [30, 20, 40]).left(by_month=False)
    np.testing.assert_allclose(left, [[[10, 30, 0]]])


def test_a_year_that_needs_as_much_as_it_gives_leaves_nothing():
    assert years([50, 80], [40, 70], [30, 100]).left(by_month=False) is None


def test_an_older_set_leaves_less():
    """At 0.8 of 100 kWh against 60 needed 20 are left, which are 25 of the year that has not aged."""
    left = years([100], [100], [60], age=(1.0, 0.8)).left(by_month=False)
    np.testing.assert_allclose(left[0, :, 0], [40, 25])


def test_only_what_the_tariff_period_holds_is_netted():
    left = years([50, 80], [40, 70], [30, 20], share=[0.5, 0]).left(by_month=False)
    np.testing.assert_allclose(left, [[[10, 0]]])


def test_no_more_is_left_than_was_sent_out():
    """Whoever names a demand below the own use of it."""
    np.testing.assert_allclose(years([100], [5], [60]).left(by_month=False), [[[5]]])
    np.testing.assert_allclose(years([100], [5], [60]).left(by_month=True), [[[5]]])


def test_cells_are_summed_to_the_registers_of_the_period():
    cells = np.arange(36.0)
    told = by_register_and_month(cells, np.repeat([0, 1, 0], 12))
    np.testing.assert_allclose(told, [np.arange(12) + np.arange(24, 36), np.arange(12, 24)])
    np.testing.assert_allclose(by_register_and_month(cells, None), [cells.reshape(3, 12).sum(axis=0)])
    np.testing.assert_allclose(by_register_and_month(cells, np.repeat([0, 1, 2], 12)), cells.reshape(3, 12))


NIGHT, NOON = (CALENDAR.clock_h == 20.0), (CALENDAR.clock_h == 12.0)


@pytest.mark.parametrize("used_at_noon_w", [0.0, 300.0, 600.0])
def test_what_a_season_leaves_has_its_price_however_much_was_used_at_once(used_at_noon_w):
    """Each day 1 kWh is made at noon, 0.6 kWh needed then and 0.2 kWh at eight: 0.2 kWh are over.

    Summer has 245 days at 0.20, winter 120 at 0.40; what is met counts at the price of its season:
    0.8 x (245 x 0.20 + 120 x 0.40) = 77.60.
    """
    winter = Rate(name=None, months=(1, 2, 11, 12), days=None, from_clock=None, to_clock=None,
                  import_price_per_kwh=0.40, export_price_per_kwh=None)  # fmt: skip
    period = TariffPeriod(valid_from="2026-01-01", import_price_per_kwh=0.20, export="netted",
                          export_price_per_kwh=0.0, rates=(winter,))  # fmt: skip
    tariff = Tariff(currency="EUR", periods=(period,))
    sums = meter_sums(tariff, CALENDAR)
    needed = 600.0 * NOON + 200.0 * NIGHT
    home = sums.home(used_at_noon_w * NOON, 1000.0 * NOON, sums.by_first(needed))
    saved = savings(home, priced_periods(tariff, date(2026, 1, 1), 1, 0.0), 0.0, "two_way", "year")
    assert saved[0] == pytest.approx(77.60, abs=5e-3)
