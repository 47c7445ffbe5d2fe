"""Worked cases of money and self-use: each worked by hand with a second route, from the conventions of engineering
economics (Duffie & Beckman ch. 11; Short, Packey & Holt, NREL/TP-462-5173, 1995; both from memory).

Flows at the year's end, year 1 un-aged and at today's price, outlay at year 0, crossings linear within the year.
True agreement: to the last digit printed in each case.
"""

from dataclasses import replace
from datetime import date

import numpy as np
import pytest

from service.core.household import self_used_w
from service.core.model.band import Band, SpreadPart, band_around, combined_sd_share
from service.core.model.facts import Fetching, InverterSwap, Tariff, TariffPeriod
from service.core.payback import (
    HomeYear,
    cash_flows,
    crossing_years,
    discounted_payback_years,
    internal_rates_of_return,
    levelised_cost_per_kwh,
    net_present_value,
    priced_periods,
    savings,
    simple_payback_years,
    yearly_costs,
)
from service.core.worth import worth_of_energy
from tests.builders import money
from tests.builders import outlay as outlay_of

AS_OF = date(2026, 1, 1)


def level(outlay, saving, years):
    return np.array([-float(outlay)] + [float(saving)] * years)


def tariff(*rows):
    return Tariff(
        currency="EUR",
        periods=tuple(
            TariffPeriod(valid_from=day, import_price_per_kwh=price, export=export, export_price_per_kwh=pay)
            for day, price, export, pay in rows
        ),
    )


def account(kwh, share, outlay, prices, **terms):
    plain = {"inverter_swap": None, "ageing_share_per_year": 0.0, "price_growth_share": 0.0, **terms}
    band = kwh if isinstance(kwh, Band) else Band(kwh, kwh, kwh)
    demand = plain.pop("demand", None)
    return worth_of_energy(
        band, share, prices, outlay_of(set=outlay), money(**plain), AS_OF, demand_kwh_per_year=demand
    )


def test_surplus_that_nobody_pays_for_is_worth_nothing():
    """520 for 380 kWh used and 140 sent out at 0.32: 121.60 a year, 4.2763 years (not 3.125 with every kWh priced)."""
    got = account(520.0, 380 / 520, 520.0, tariff(("2026-01-01", 0.32, "unpaid", 0.0)))
    assert got.saving_first_year.middle == pytest.approx(121.60, abs=5e-3)
    assert got.simple_payback_years.middle == pytest.approx(4.27632, abs=5e-6)


def test_a_level_stream():
    """Annuity factor (1 - 1.05^-20) / 0.05 = 12.46221; IRR by numpy-financial."""
    flows = level(520, 121.6, 20)
    assert net_present_value(0.05, flows) == pytest.approx(995.405, abs=1e-3)
    assert discounted_payback_years(flows, 0.05).first == pytest.approx(4.93215, abs=1e-5)
    assert internal_rates_of_return(flows) == pytest.approx((0.230132,), abs=1e-6)


def test_a_price_rise_and_ageing_multiply():
    """Year y saves 126 (0.995 x 1.03)^(y-1); closed geometric series."""
    got = account(
        450.0, 1.0, 640.0, tariff(("2026-01-01", 0.28, "unpaid", 0.0)),
        price_growth_share=0.03, ageing_share_per_year=0.005, discount_rate_share=0.04, years=18,
    )  # fmt: skip
    assert got.net_present_value.middle == pytest.approx(1290.62, abs=5e-3)
    assert got.internal_rate_of_return_share == pytest.approx(0.212126, abs=1e-6)
    assert got.undiscounted_payback_years.middle == pytest.approx(4.84101, abs=1e-5)


@pytest.mark.parametrize(
    ("export", "pay", "saving"), [("unpaid", 0.0, 129.00), ("paid", 0.08, 152.20), ("netted", 0.0, 216.00)]
)
def test_the_same_energy_under_three_schemes(export, pay, saving):
    """720 kWh made, 430 used, 2600 kWh of demand, 0.30 a kWh."""
    home = HomeYear(self_used_kwh=np.array([430.0]), exported_kwh=np.array([290.0]), demand_kwh=np.array([2600.0]))
    periods = priced_periods(tariff(("2026-01-01", 0.30, export, pay)), AS_OF, 1, 0.0)
    assert savings(home, periods, 0.0, "two_way", "year")[0] == pytest.approx(saving, abs=1e-9)


def test_levelised_cost_with_ageing_upkeep_and_a_swap():
    """Present values 761.308 and 6695.76 kWh; 0.11370 (0.0746 if only the cost were discounted)."""
    cost = yearly_costs(20, 5.0, InverterSwap(year=11, amount=140))
    paid = -cash_flows(610.0, np.zeros(20), cost)
    energy = 540.0 * 0.994 ** np.arange(20)
    assert net_present_value(0.045, paid) == pytest.approx(761.308, abs=1e-3)
    assert net_present_value(0.045, np.concatenate(([0.0], energy))) == pytest.approx(6695.76, abs=1e-2)
    assert levelised_cost_per_kwh(paid, energy, 0.045) == pytest.approx(0.1137, abs=5e-6)


def test_levelised_cost_without_interest():
    """450 / (500 x 15)."""
    assert levelised_cost_per_kwh(level(-450, 0, 15), np.full(15, 500.0), 0.0) == pytest.approx(0.06, abs=1e-12)


def test_upkeep_that_eats_the_saving_never_pays_back():
    """22.50 - 24.00 a year: NPV -322.32, no rate, and no payback of -200 years."""
    got = account(90.0, 1.0, 300.0, tariff(("2026-01-01", 0.25, "unpaid", 0.0)), running_cost_per_year=24, years=20)
    assert got.net_present_value.middle == pytest.approx(-322.316, abs=1e-3)
    assert got.simple_payback_years.middle is None
    assert got.discounted_payback_years.middle is None
    assert got.internal_rates_of_return == ()


def test_payback_beyond_the_years_asked_is_not_within_them():
    """82 x 10 = 820 of 980: 160 short; straight on it would take 11.951 years."""
    got = account(82.0, 1.0, 980.0, tariff(("2026-01-01", 1.0, "unpaid", 0.0)), years=10, discount_rate_share=0.0)
    assert got.simple_payback_years.middle == pytest.approx(11.9512, abs=1e-4)
    assert got.undiscounted_payback_years.middle is None
    assert got.yearly_flows[-1].unpaid == pytest.approx(160.0)


def test_a_rebate_above_the_price():
    """260 less 300, 70 a year for 8 years at 3 %: NPV 531.378, paid back at once, no rate."""
    got = worth_of_energy(
        Band(70.0, 70.0, 70.0), 1.0, tariff(("2026-01-01", 1.0, "unpaid", 0.0)),
        outlay_of(set=260.0, rebate=-300.0),
        money(years=8, inverter_swap=None, ageing_share_per_year=0.0, price_growth_share=0.0), AS_OF,
    )  # fmt: skip
    assert got.outlay == -40
    assert got.net_present_value.middle == pytest.approx(531.378, abs=1e-3)
    assert got.simple_payback_years.middle == 0
    assert got.internal_rates_of_return == ()


def test_self_use_is_counted_hour_by_hour():
    """Five hours without unevenness: 970 of 1450 Wh, not the smaller of the sums."""
    made, needed = np.array([0.0, 300, 600, 450, 100]), np.array([200.0, 250, 180, 700, 90])
    used = self_used_w(made, needed, 0.0, np.inf)
    assert used.sum() == 970
    assert used.sum() / made.sum() == pytest.approx(0.668966, abs=1e-6)
    assert (made - used).sum() == 480
    assert (needed - used).sum() == 450


def test_self_use_within_one_hour():
    """P 520, b 70, m 240 W, k 1.5: 234.143 W by numerical integration of E[min(P, b + X)]."""
    used = self_used_w(np.array([520.0]), np.array([240.0]), 70.0, 1.5)
    assert used[0] == pytest.approx(234.143, abs=5e-4)


def test_the_standing_charge_is_no_part_of_a_saving():
    """A bill of 915 for 2300 kWh with 156 standing: 0.33 a kWh; 350 kWh save 115.50, not 139.24."""
    got = account(350.0, 1.0, 100.0, tariff(("2026-01-01", (915 - 156) / 2300, "unpaid", 0.0)))
    assert got.saving_first_year.middle == pytest.approx(115.50, abs=1e-9)


def test_nominal_flows_at_a_nominal_rate_are_real_flows_at_a_real_rate():
    """1.03 x 1.02 - 1 = 0.0506: 753.173 both ways (967.47 if mixed)."""
    years = np.arange(1, 16)
    nominal = np.concatenate(([-560.0], 110 * 1.02**years))
    assert net_present_value(1.03 * 1.02 - 1, nominal) == pytest.approx(753.173, abs=1e-3)
    assert net_present_value(0.03, level(560, 110, 15)) == pytest.approx(753.173, abs=1e-3)


def test_what_a_second_hand_set_costs_delivered():
    """Two panels at 65, inverter 95, 2 x 42 km at 0.30, mounts, leads, a tenth of the panels for the risk: 325.20."""
    fetched = Fetching(km=42, per_km=0.30, trips=1, hours=0, per_hour=0)
    things = outlay_of(
        {"fetching": fetched, "faulty_share": 0.10}, panels=2 * 65.0, inverter=95.0, mounts=38.0, leads=24.0
    )
    used = replace(things.items[0], second_hand=True)
    paid = replace(things, items=(used, *things.items[1:]))
    got = worth_of_energy(
        Band(600.0, 600.0, 600.0), 0.5, tariff(("2026-01-01", 0.3, "unpaid", 0.0)), paid, money(), AS_OF
    )
    assert got.outlay == pytest.approx(325.20, abs=1e-9)


def test_the_range_is_a_root_of_squares_and_payback_is_not_symmetric():
    """610 kWh, sd 5.6, 4.5, 3 and 5 %: 537.7 to 682.3 kWh; 540 at 0.22 a kWh: 4.565, 4.024, 3.597 years."""
    parts = [SpreadPart(code, sd) for code, sd in (("a", 0.056), ("b", 0.045), ("c", 0.03), ("d", 0.05))]
    assert combined_sd_share(parts) == pytest.approx((0.0925257, 0.0925257), abs=1e-7)
    band = band_around(610.0, parts)
    assert (band.cautious, band.hopeful) == pytest.approx((537.666, 682.334), abs=5e-3)  # worked with z = 1.2816
    got = account(band, 1.0, 540.0, tariff(("2026-01-01", 0.22, "unpaid", 0.0))).simple_payback_years
    assert (got.cautious, got.middle, got.hopeful) == pytest.approx((4.56519, 4.024, 3.59728), abs=5e-4)


def test_export_paid_for_ten_years_only():
    """140.40 a year for ten years, then 104.40: NPV 1052.954, IRR 0.187206, 690 / 140.40 = 4.91453 years."""
    prices = tariff(("2026-01-01", 0.29, "paid", 0.12), ("2036-01-01", 0.29, "unpaid", 0.0))
    got = account(660.0, 360 / 660, 690.0, prices, years=18)
    assert got.net_present_value.middle == pytest.approx(1052.954, abs=1e-3)
    assert got.internal_rate_of_return_share == pytest.approx(0.187206, abs=1e-6)
    assert got.simple_payback_years.middle == pytest.approx(4.91453, abs=1e-5)


def test_a_plain_set():
    """400 for 450 kWh at 0.30, 15 years, 4 %: recomputed independently with year-end flows."""
    flows = level(400, 135, 15)
    assert simple_payback_years(400, 135) == pytest.approx(2.963, abs=5e-4)
    assert discounted_payback_years(flows, 0.04).first == pytest.approx(3.22, abs=5e-3)
    assert net_present_value(0.04, flows) == pytest.approx(1100.98, abs=5e-3)
    assert internal_rates_of_return(flows) == pytest.approx((0.33297,), abs=5e-6)
    assert crossing_years(flows).lasting == pytest.approx(400 / 135)


def test_the_same_set_with_ageing_a_price_rise_and_a_swap():
    """20 years, 0.5 % a year down, 2 % up, 150 in year 12: NPV 1585.22, IRR 0.34777, levelised 0.08408."""
    got = account(
        450.0, 1.0, 400.0, tariff(("2026-01-01", 0.30, "unpaid", 0.0)), years=20, discount_rate_share=0.04,
        ageing_share_per_year=0.005, price_growth_share=0.02, inverter_swap=InverterSwap(year=12, amount=150),
    )  # fmt: skip
    assert got.net_present_value.middle == pytest.approx(1585.22, abs=5e-3)
    assert got.internal_rate_of_return_share == pytest.approx(0.34777, abs=5e-6)
    assert got.levelised_cost_per_kwh == pytest.approx(0.08408, abs=5e-6)


def test_what_to_bid_is_the_annuity_of_the_saving():
    """120 a year at 5 %: (1 - 1.05^-n) / 0.05 = 2.723248, 4.329477, 6.463213, 7.721735, 10.379658 times that."""
    got = account(400.0, 1.0, 500.0, tariff(("2026-01-01", 0.30, "unpaid", 0.0)), discount_rate_share=0.05, years=15)
    bids = {bid.years: bid.worth_up_to.middle for bid in got.break_even}
    assert bids == pytest.approx({3: 326.7898, 5: 519.5372, 8: 775.5855, 10: 926.6082, 15: 1245.5590}, abs=5e-4)


def test_moving_out_after_four_years_with_a_quarter_of_the_things_sold():
    """400 paid, 320 of it for things, 110 a year over 4.5 years: 495 + 80 - 400 = 175."""
    paid = outlay_of({"freight": 30.0, "registration": 50.0}, panels=200.0, inverter=120.0)
    got = worth_of_energy(
        Band(440.0, 440.0, 440.0), 1.0, tariff(("2026-01-01", 0.25, "unpaid", 0.0)), paid,
        money(inverter_swap=None, ageing_share_per_year=0.0, price_growth_share=0.0, resale_share=0.25), AS_OF,
        stay_years=4.5,
    )  # fmt: skip
    assert got.if_moving_after_years.years == 4.5
    assert got.if_moving_after_years.gain.middle == pytest.approx(175.0)
    assert got.yearly_flows[-1].resale == pytest.approx(80.0)


def test_one_panel_in_five_faulty():
    """Panels 150 of 250: 30 more to pay; 96 % of 500 kWh, at 0.30: 144 a year, 280 / 144 = 1.9444 years."""
    things = outlay_of({"faulty_share": 0.2}, panels=150.0, inverter=100.0)
    paid = replace(things, items=(replace(things.items[0], second_hand=True), things.items[1]))
    got = worth_of_energy(
        Band(500.0, 500.0, 500.0), 1.0, tariff(("2026-01-01", 0.30, "unpaid", 0.0)), paid,
        money(inverter_swap=None), AS_OF,
    )  # fmt: skip
    assert got.outlay == pytest.approx(280.0)
    assert got.expected_year_kwh == pytest.approx(480.0)
    assert got.saving_first_year.middle == pytest.approx(144.0)
    assert got.simple_payback_years.middle == pytest.approx(1.94444, abs=5e-6)


def test_a_fifth_more_or_less_of_each_cause():
    """500 for 400 kWh used and 200 paid for at 0.10, 0.30 a kWh: 140 a year, 3.5714 years without interest.

    Price 116 and 164 a year, yield 112 and 168; self-use 80 kWh less or more at a gain of 0.20: 124 and 156.
    """
    got = account(
        600.0, 400 / 600, 500.0, tariff(("2026-01-01", 0.30, "paid", 0.10)), discount_rate_share=0.0, years=15
    )
    years = {(one.of, one.change_share): one.payback_years for one in got.sensitivity}
    assert years == pytest.approx(
        {
            ("price", -0.2): 500 / 116, ("price", 0.2): 500 / 164, ("yield", -0.2): 500 / 112,
            ("yield", 0.2): 500 / 168, ("self_use", -0.2): 500 / 124, ("self_use", 0.2): 500 / 156,
            ("outlay", -0.2): 400 / 140, ("outlay", 0.2): 600 / 140,
        }
    )  # fmt: skip
    assert [(one.of, one.change_share) for one in got.sensitivity][:3] == [
        ("yield", -0.2), ("price", -0.2), ("outlay", 0.2),
    ]  # fmt: skip
