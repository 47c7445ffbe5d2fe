"""Promises about the habits of several machines."""

from dataclasses import replace
from datetime import date

import numpy as np
from hypothesis import example, given
from hypothesis import strategies as st

from service.core.household import demand_w
from service.core.model.facts import Machine, Meter, Rate, Tariff, TariffPeriod
from service.core.payback import priced_hours
from service.core.worth import habits, use_at_home, worth
from service.data.households import load_demand_shape
from tests.builders import household, money, setup, tariff
from tests.energy_years import CALENDAR, energy_year, production_w

AS_OF = date(2026, 11, 25)
SHAPE = load_demand_shape()

MACHINES = st.lists(
    st.builds(
        lambda kwh, runs, hour: Machine(name="m", kwh_a_run=kwh, runs_per_week=runs, usual_hour=hour),
        st.floats(0, 5), st.floats(0, 30), st.integers(0, 23),
    ),
    max_size=8,
).map(tuple)  # fmt: skip
MANY = tuple(Machine(name="m", kwh_a_run=3.0, runs_per_week=14, usual_hour=20) for _ in range(8))


@given(
    MACHINES, st.integers(0, 2000), st.floats(0, 9000), st.floats(0, 300), st.booleans(),
    st.one_of(st.none(), st.floats(0, 6000)), st.booleans(),
)  # fmt: skip
@example(MANY, 640, 9000.0, 40.0, True, None, True)
@example(MANY, 640, 500.0, 0.0, True, None, False)
def test_gains_of_all_machines_are_never_more_than_is_sent_out(
    machines, year_kwh, demand, always_on, sums_phases, roof_kwh, priced
):
    """Of the set, and of a plant on the roof where there is one."""
    setting = setup(
        household=household(demand_kwh_per_year=demand, always_on_w=always_on, machines=machines),
        meter=Meter(counts="two_way", sums_phases=sums_phases, netting="instant"),
        tariff=tariff() if priced else None,
    )
    energy = energy_year(float(year_kwh))
    roof = None if roof_kwh is None else production_w(1.0) * roof_kwh
    use = use_at_home(energy, setting, CALENDAR, SHAPE, roof)
    found = habits(energy, setting, CALENDAR, SHAPE, AS_OF, roof)
    sent = use.exported_kwh
    if use.other_generation is not None:
        sent += use.other_generation.year_kwh - use.other_generation.self_used_kwh
    assert sum(one.gain_kwh_per_year for one in found) <= sent + 1e-3 + 1e-5 * (demand + (roof_kwh or 0.0))
    needed = sum(one.kwh_a_run * one.runs_per_week for one in machines) * 365 / 7
    assert sum(one.gain_kwh_per_year for one in found) <= needed + 1e-6


PRICES = st.floats(-0.05, 0.6)
RATES = st.lists(
    st.builds(
        lambda begin, end, bought, sold: Rate(
            name=None, months=None, days=None, from_clock=f"{begin:02d}:00", to_clock=f"{end:02d}:00",
            import_price_per_kwh=bought, export_price_per_kwh=sold,
        ),
        st.integers(0, 23), st.integers(0, 23), PRICES, st.one_of(st.none(), st.floats(-0.1, 0.3)),
    ).filter(lambda one: one.from_clock != one.to_clock),
    max_size=3,
).map(tuple)  # fmt: skip
METERS = st.builds(
    Meter, counts=st.sampled_from(["two_way", "one_way", "reversing", "not_known"]),
    sums_phases=st.sampled_from([True, False, None]),
    netting=st.sampled_from(["instant", "quarter_hour", "hour", "month", "year"]),
)  # fmt: skip
NOON = Rate(name=None, months=None, days=None, from_clock="10:00", to_clock="15:00", import_price_per_kwh=0.2,
            export_price_per_kwh=None)  # fmt: skip
NIGHT = replace(NOON, from_clock="22:00", to_clock="06:00", import_price_per_kwh=0.15)
WASH = (Machine(name="wash", kwh_a_run=1.0, runs_per_week=7, usual_hour=11),)


@given(
    st.lists(
        st.builds(Machine, name=st.just("m"), kwh_a_run=st.floats(0.1, 3), runs_per_week=st.floats(0.5, 14),
                  usual_hour=st.integers(0, 23)),
        min_size=1, max_size=3,
    ).map(tuple),
    METERS, RATES, st.sampled_from(["unpaid", "paid", "netted"]), st.tuples(PRICES, st.floats(-0.1, 0.3)),
    st.floats(500, 5000), st.floats(0, 3000), st.one_of(st.none(), st.floats(0, 4000)),
)  # fmt: skip
@example(
    WASH, Meter(counts="two_way", sums_phases=True, netting="month"), (NOON, NIGHT), "netted", (0.35, 0.0), 1200.0,
    932.0, None,
)  # fmt: skip
def test_moving_machines_to_the_advised_hours_never_raises_the_services_own_bill(
    machines, meter, rates, export, prices, demand, year_kwh, roof_kwh
):
    """Demand at the prices of its hours, less what the plant on the roof saves alone and what the set saves on top."""
    bought, sold = prices
    period = TariffPeriod(valid_from="2026-01-01", import_price_per_kwh=bought, export=export,
                          export_price_per_kwh=sold, rates=rates)  # fmt: skip
    asked = setup(
        household=household(demand_kwh_per_year=demand, always_on_w=20, machines=machines), meter=meter,
        tariff=Tariff(currency="EUR", periods=(period,)), money=money(price_growth_share=0.0), outlay=None,
    )  # fmt: skip
    energy, roof = energy_year(year_kwh), None if roof_kwh is None else production_w(1.0) * roof_kwh

    def bill(moved):
        setting = replace(asked, household=replace(asked.household, machines=moved))
        drawn = demand_w(setting.household, CALENDAR, SHAPE)
        total = float(drawn @ priced_hours(asked.tariff, 0, CALENDAR)[0]) / 1000.0
        if roof is not None:  # the plant alone is a set without another plant
            plant = replace(energy_year(), ac_w=roof)
            total -= _saved(plant, setting, None)
        return total - _saved(energy, setting, roof)

    found = habits(energy, asked, CALENDAR, SHAPE, AS_OF, roof)
    moved = tuple(
        replace(machine, usual_hour=int(habit.best_start[:2])) for machine, habit in zip(machines, found, strict=True)
    )
    assert bill(moved) <= bill(machines) + 1e-6
    if roof is None or meter.sums_phases is not False:  # a plant stands on all phases, a set on one
        told = sum(habit.gain_per_year for habit in found)
        assert told <= 1.05 * (bill(machines) - bill(moved)) + 1e-6  # what is promised comes
    assert all(np.isfinite(habit.gain_per_year) and habit.gain_per_year >= 0.0 for habit in found)


def _saved(energy, setting, roof):
    return worth(energy, use_at_home(energy, setting, CALENDAR, SHAPE, roof), setting, AS_OF).saving_first_year.middle
