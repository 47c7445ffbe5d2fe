"""The home's bill with a machine at one hour and at another, by hand."""

from dataclasses import replace
from datetime import date

import numpy as np
import pytest

from service.core.household import demand_w
from service.core.model.facts import Machine, Meter, Rate, Tariff, TariffPeriod
from service.core.worth import habits
from service.data.households import load_demand_shape
from tests.builders import household, setup
from tests.energy_years import CALENDAR, energy_year, production_w

AS_OF = date(2026, 1, 1)
SHAPE = load_demand_shape()
NOON, NIGHT, REST = 0.20, 0.15, 0.35
TIMES = (("10:00", "15:00", NOON), ("22:00", "06:00", NIGHT))
THREE_RATES = Tariff(
    currency="EUR",
    periods=(
        TariffPeriod(
            valid_from="2026-01-01", import_price_per_kwh=REST, export="netted", export_price_per_kwh=0.0,
            rates=tuple(
                Rate(name=None, months=None, days=None, from_clock=begin, to_clock=end, import_price_per_kwh=price,
                     export_price_per_kwh=None) for begin, end, price in TIMES
            ),
        ),
    ),
)  # fmt: skip


def wash(hour):
    return Machine(name="wash", kwh_a_run=1.0, runs_per_week=7, usual_hour=hour)


def asked(hour, netting, demand_kwh, tariff=THREE_RATES):
    home = household(demand_kwh_per_year=demand_kwh, always_on_w=40, machines=(wash(hour),))
    return setup(household=home, tariff=tariff, meter=Meter(counts="two_way", sums_phases=True, netting=netting))


def by_hand(hour, netting, demand_kwh, own_w):
    """Each register of each netting period on its own: what it needs above what is produced, at its price."""
    demand = demand_w(asked(hour, netting, demand_kwh).household, CALENDAR, SHAPE)
    clock = CALENDAR.clock_h
    noon, night = (clock >= 10) & (clock < 15), (clock >= 22) | (clock < 6)
    total = 0.0
    for rows, price in ((noon, NOON), (night, NIGHT), (~noon & ~night, REST)):
        months = np.bincount((CALENDAR.month - 1)[rows], weights=(demand - own_w)[rows], minlength=12) / 1000
        needs = months if netting == "month" else months.sum(keepdims=True)
        total += price * np.maximum(needs, 0).sum()
    return total


@pytest.mark.parametrize("netting", ["month", "year"])
@pytest.mark.parametrize(("demand", "year_kwh"), [(1200, 932.0), (900, 1800.0)])
@pytest.mark.parametrize("usual", [0, 11, 19])
@pytest.mark.parametrize("roof_kwh", [None, 500.0])
def test_the_advice_is_the_least_bill_and_gains_what_the_bill_falls(netting, demand, year_kwh, usual, roof_kwh):
    roof = None if roof_kwh is None else production_w(roof_kwh)
    own_w = production_w(year_kwh) + (0.0 if roof is None else roof)
    habit = habits(energy_year(year_kwh), asked(usual, netting, demand), CALENDAR, SHAPE, AS_OF, roof)[0]
    best = int(habit.best_start[:2])
    bills = [by_hand(hour, netting, demand, own_w) for hour in range(24)]
    assert bills[best] <= bills[usual] + 1e-9
    assert bills[best] == pytest.approx(min(bills), abs=0.5)
    assert habit.gain_per_year == pytest.approx(bills[usual] - bills[best], abs=0.5)


def test_surplus_left_over_at_noon_is_no_reason_to_wash_by_night():
    """From ten to three 484 kWh are left over and worth nothing: the wash's 365 kWh at 0.35 are free there, by night
    they would cost 0.15."""
    habit = habits(energy_year(1500.0), asked(19, "year", 2000), CALENDAR, SHAPE, AS_OF)[0]
    assert 10 <= int(habit.best_start[:2]) <= 13
    assert habit.gain_per_year == pytest.approx(365 * REST)
    there = habits(energy_year(1500.0), asked(11, "year", 2000), CALENDAR, SHAPE, AS_OF)[0]
    assert (there.best_start, there.gain_per_year) == ("11:00", 0)


def test_beside_a_plant_that_leaves_much_over_flat_netting_still_makes_no_hour_better():
    flat = replace(THREE_RATES, periods=(replace(THREE_RATES.periods[0], rates=()),))
    habit = habits(energy_year(640.0), asked(19, "year", 1200, flat), CALENDAR, SHAPE, AS_OF, production_w(3427.0))[0]
    assert (habit.best_start, habit.gain_per_year) == ("19:00", 0)
