"""A plant on the roof beside the set: what is saved is the bill with the plant alone less the bill with both."""

from dataclasses import replace
from datetime import date

import numpy as np
import pytest

from service.core.household import demand_w
from service.core.model.band import Band
from service.core.model.facts import HourlyPrices, Meter, Rate, Tariff, TariffPeriod
from service.core.worth import use_at_home, worth, worth_of_energy
from service.data.households import load_demand_shape
from tests.builders import household, money, outlay, setup
from tests.energy_years import CALENDAR, energy_year, production_w

AS_OF = date(2026, 1, 1)
SHAPE = load_demand_shape()
FLAT_MONEY = money(years=10, price_growth_share=0.0, ageing_share_per_year=0.0, inverter_swap=None)
BOUGHT, SOLD = 0.30, 0.06


def netted(**changes):
    period = {"valid_from": "2026-01-01", "import_price_per_kwh": BOUGHT, "export": "netted",
              "export_price_per_kwh": SOLD}  # fmt: skip
    return Tariff(currency="EUR", periods=(TariffPeriod(**period | changes),))


def meter(**changes):
    return Meter(**{"counts": "two_way", "sums_phases": True, "netting": "year"} | changes)


def account(roof_kwh, tariff, of_meter, demand_kwh=1200.0, year_kwh=640.0, **of_money):
    home = household(demand_kwh_per_year=demand_kwh, always_on_w=40, stay_years=None)
    asked = setup(household=home, tariff=tariff, meter=of_meter, money=replace(FLAT_MONEY, **of_money),
                  outlay=outlay(set=300))  # fmt: skip
    energy = energy_year(year_kwh)
    roof = production_w(roof_kwh) if roof_kwh else None
    use = use_at_home(energy, asked, CALENDAR, SHAPE, roof)
    return use, worth(energy, use, asked, AS_OF), demand_w(home, CALENDAR, SHAPE)


def saved(*args, **changes):
    return account(*args, **changes)[1].saving_first_year.middle


def bill(need_kwh, sold=SOLD):
    return float(np.where(need_kwh > 0, need_kwh * BOUGHT, need_kwh * sold).sum())


@pytest.mark.parametrize("roof_kwh", [300.0, 914.0, 3427.0])
def test_over_a_year_it_is_the_two_bills_by_hand(roof_kwh):
    """Of 1200 kWh needed: 3427 from the roof leave -2227 kWh, with 640 more -2867; the set earns 640 x 0.06."""
    by_hand = bill(np.array([1200 - roof_kwh])) - bill(np.array([1200 - roof_kwh - 640]))
    assert saved(roof_kwh, netted(), meter()) == pytest.approx(by_hand, rel=1e-9)


def test_a_reversing_meter_that_stands_below_nought_already_gains_nothing():
    assert saved(3427.0, netted(), meter(counts="reversing")) == pytest.approx(0, abs=1e-9)
    part = saved(914.0, netted(), meter(counts="reversing"))
    assert part == pytest.approx((1200 - 914) * BOUGHT)


@pytest.mark.parametrize("roof_kwh", [300.0, 914.0, 3427.0])
@pytest.mark.parametrize("sums_phases", [True, False])
def test_over_months_each_month_has_its_two_bills(roof_kwh, sums_phases):
    found = saved(roof_kwh, netted(), meter(netting="month", sums_phases=sums_phases))
    demand = account(roof_kwh, netted(), meter())[2]
    need, roof, own = (
        np.bincount(CALENDAR.month - 1, weights=power) / 1000
        for power in (demand, production_w(roof_kwh), production_w())
    )
    assert found == pytest.approx(bill(need - roof) - bill(need - roof - own), rel=1e-9)


def test_each_register_has_its_two_bills():
    night = Rate(name=None, months=None, days=None, from_clock="22:00", to_clock="10:00", import_price_per_kwh=0.2,
                 export_price_per_kwh=None)  # fmt: skip
    found = saved(914.0, netted(rates=(night,)), meter())
    demand = account(914.0, netted(), meter())[2]
    dear = (CALENDAR.clock_h >= 10) & (CALENDAR.clock_h < 22)
    by_hand = 0.0
    for rows, price in ((dear, BOUGHT), (~dear, 0.2)):
        need, roof, own = (power[rows].sum() / 1000 for power in (demand, production_w(914.0), production_w()))
        bills = [one * (price if one > 0 else SOLD) for one in (need - roof, need - roof - own)]
        by_hand += bills[0] - bills[1]
    assert found == pytest.approx(by_hand, rel=1e-9)


def test_a_year_of_hourly_prices_of_one_price_is_the_flat_tariff():
    hourly = HourlyPrices(import_prices_per_kwh=(BOUGHT,) * 8760, export_prices_per_kwh=None)
    found, flat = (saved(914.0, netted(**more), meter()) for more in ({"hourly": hourly}, {}))
    assert found == pytest.approx(flat, rel=1e-9)


def test_the_plant_does_not_age_and_the_set_does():
    """The tenth year: 0.9^9 of 640 kWh, beside the 914 kWh of the roof."""
    told = account(914.0, netted(), meter(), ageing_share_per_year=0.1)[1]
    left = 640 * 0.9**9
    by_hand = bill(np.array([1200 - 914])) - bill(np.array([1200 - 914 - left]))
    assert told.yearly_flows[10].saving == pytest.approx(by_hand, rel=1e-9)


@pytest.mark.parametrize("export", ["unpaid", "paid"])
@pytest.mark.parametrize("counts", ["two_way", "one_way"])
def test_what_is_not_netted_is_the_use_in_the_moment(export, counts):
    use, told, _ = account(914.0, netted(export=export), meter(counts=counts))
    price = -BOUGHT if counts == "one_way" else SOLD if export == "paid" else 0.0
    by_hand = use.self_used_kwh.middle * BOUGHT + use.exported_kwh * price
    assert told.saving_first_year.middle == pytest.approx(by_hand)


def test_tax_is_what_more_is_taxed():
    """What is sent out after noon earns 0.10 and costs 0.05 before: the plant is taxed either way, the set on top."""
    prices = tuple(-0.05 if hour < 12 else 0.10 for hour in range(24))
    hourly = HourlyPrices(import_prices_per_kwh=(BOUGHT,) * 24, export_prices_per_kwh=prices)
    free, taxed = (
        saved(3427.0, netted(export="paid", hourly=hourly, export_tax_share=tax), meter()) for tax in (None, 0.5)
    )
    use = account(3427.0, netted(), meter())[0]
    earned = free - use.self_used_kwh.middle * BOUGHT
    assert earned > 0
    assert taxed == pytest.approx(free - 0.5 * earned)


@pytest.mark.parametrize("roof_kwh", [300.0, 914.0, 3427.0])
def test_energy_and_use_pasted_with_the_plant_are_the_same_account(roof_kwh):
    use, told, _ = account(roof_kwh, netted(), meter())
    plant = use.other_generation
    pasted = worth_of_energy(
        Band(600.0, 640.0, 680.0), use.self_used_share, netted(), None, FLAT_MONEY, AS_OF, meter=meter(),
        demand_kwh_per_year=1200.0, plant_kwh=(plant.year_kwh, plant.self_used_kwh),
    )  # fmt: skip
    assert pasted.saving_first_year.middle == pytest.approx(told.saving_first_year.middle)


def unlike_hours(seed=0, cheap=0.12, dear=0.45):
    """Cheap in the morning, dear after it, and no week as the one before."""
    step = 0.001 * np.random.default_rng(seed).integers(0, 5, 8760)
    return np.where(np.arange(8760) % 24 < 13, cheap, dear) + step


def beside_a_west_roof(prices, set_kwh, netting, roof_kwh=2000.0, demand_kwh=1000.0):
    """An east set beside a roof that gives in the afternoon, netted at these prices, surplus unpaid."""
    hourly = HourlyPrices(import_prices_per_kwh=tuple(prices.tolist()), export_prices_per_kwh=None)
    home = household(demand_kwh_per_year=demand_kwh, always_on_w=40, stay_years=None)
    asked = setup(household=home, tariff=netted(hourly=hourly, export_price_per_kwh=0.0), money=FLAT_MONEY,
                  meter=meter(netting=netting))  # fmt: skip
    energy = replace(energy_year(set_kwh), ac_w=np.roll(production_w(set_kwh), -3))
    roof = np.roll(production_w(roof_kwh), 3)
    told = worth(energy, use_at_home(energy, asked, CALENDAR, SHAPE, roof), asked, AS_OF).saving_first_year.middle
    return told, [float(prices @ power) / 1000 for power in (demand_w(home, CALENDAR, SHAPE), roof, energy.ac_w)]


@pytest.mark.parametrize("netting", ["month", "year"])
@pytest.mark.parametrize("demand_kwh", [400.0, 1000.0, 1500.0])
@pytest.mark.parametrize("seed", [1, 2])
def test_more_surplus_never_raises_a_bill_of_unlike_hours(netting, demand_kwh, seed):
    """A cheap kWh takes no dear one's place, neither beside the plant nor beside the set's own."""
    prices = unlike_hours(seed, *np.sort(np.random.default_rng(seed).uniform(0.05, 0.6, 2)))
    found = [beside_a_west_roof(prices, kwh, netting, demand_kwh=demand_kwh)[0] for kwh in (1.0, 300.0, 800.0, 1600.0)]
    assert min(found) >= -1e-9
    assert (np.diff(found) >= -1e-9).all()


@pytest.mark.parametrize("demand_kwh", [600.0, 1000.0, 3000.0])
def test_a_year_of_unlike_hours_is_netted_in_money_until_the_bill_is_nought(demand_kwh):
    told, (need, roof, own) = beside_a_west_roof(unlike_hours(), 700.0, "year", 1200.0, demand_kwh)
    assert told == pytest.approx(max(need - roof, 0.0) - max(need - roof - own, 0.0), abs=1e-9)
