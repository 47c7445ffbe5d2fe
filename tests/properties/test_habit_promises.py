"""Promises about the habits of several machines."""

from datetime import date

from hypothesis import example, given
from hypothesis import strategies as st

from service.core.model.facts import Machine, Meter
from service.core.worth import habits, use_at_home
from service.data.households import load_demand_shape
from tests.builders import household, setup, tariff
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
