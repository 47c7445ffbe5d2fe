"""Promises about self-use that hold for every home and every set."""

import numpy as np
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from service.core.household import demand_w, on_one_phase_w, self_used_w, used_beside_w, with_allowance_w
from service.core.model.facts import AtHome, Machine
from service.data.households import load_demand_shape
from tests.builders import household
from tests.energy_years import CALENDAR

SHAPE = load_demand_shape()
POWERS = arrays(np.float64, st.sampled_from([1, 7, 600]), elements=st.floats(0, 5000))
ALWAYS_ON = st.floats(0, 500)
UNEVENNESS = st.floats(0.2, 50)
SPANS = st.lists(st.tuples(st.floats(0, 24), st.floats(0, 24)), max_size=3).map(tuple)


@st.composite
def hours(draw):
    """Production and demand of the same hours."""
    production = draw(POWERS)
    demand = draw(arrays(np.float64, production.size, elements=st.floats(0, 5000)))
    return production, demand


@given(hours(), ALWAYS_ON, UNEVENNESS)
def test_no_more_is_used_than_made_or_needed(pair, always_on, k):
    production, demand = pair
    used = self_used_w(production, demand, always_on, k)
    assert (used >= 0).all()
    assert (used <= np.minimum(production, demand) * (1 + 1e-12)).all()


@given(hours(), ALWAYS_ON, UNEVENNESS, st.floats(1, 3))
def test_a_larger_set_never_has_less_used_at_home(pair, always_on, k, more):
    production, demand = pair
    small, large = (self_used_w(production * scale, demand, always_on, k) for scale in (1.0, more))
    assert (large >= small - 1e-5 * demand).all()


@given(hours(), ALWAYS_ON, UNEVENNESS)
def test_a_meter_that_sums_phases_never_sees_less_self_use(pair, always_on, k):
    production, demand = pair
    phase, on_phase = on_one_phase_w(demand, always_on)
    apart = self_used_w(production, phase, on_phase, k)
    assert (apart <= self_used_w(production, demand, always_on, k) + 1e-5 * demand + 1e-9).all()


@st.composite
def hours_with_roof(draw):
    """Production, demand and a plant on the roof in the same hours."""
    production, demand = draw(hours())
    return production, demand, draw(arrays(np.float64, production.size, elements=st.floats(0, 20000)))


def beside(production, demand, always_on, k, other):
    return used_beside_w(production, demand, always_on, k, other, self_used_w(other, demand, always_on, k))


@given(hours_with_roof(), ALWAYS_ON, UNEVENNESS)
def test_a_set_meets_only_what_a_plant_on_the_roof_leaves(three, always_on, k):
    production, demand, other = three
    used = beside(production, demand, always_on, k, other)
    left = demand - self_used_w(other, demand, always_on, k)
    assert (used >= 0).all()
    assert (used <= np.minimum(production, left) + 1e-9).all()
    assert (used <= self_used_w(production, demand, always_on, k) + 2e-5 * demand + 1e-9).all()


@given(hours_with_roof(), ALWAYS_ON, UNEVENNESS)
def test_a_meter_that_sums_phases_never_sees_less_beside_a_plant_on_the_roof(three, always_on, k):
    production, demand, other = three
    phase, on_phase = on_one_phase_w(demand, always_on)
    apart = beside(production, phase, on_phase, k, other / 3)
    assert (apart <= beside(production, demand, always_on, k, other) + 2e-5 * demand + 1e-9).all()


@given(hours(), ALWAYS_ON, UNEVENNESS, st.floats(0, 5000))
def test_an_export_limit_leaves_between_self_use_and_production(pair, always_on, k, limit):
    production, demand = pair
    left = with_allowance_w(production, demand, always_on, k, limit)
    assert (left <= production + 1e-9).all()
    assert (left >= self_used_w(production, demand, always_on, k) - 1e-5 * demand - 1e-9).all()
    assert (left >= np.minimum(production, limit) - 1e-9).all()


@given(
    st.floats(0, 20000),
    ALWAYS_ON,
    st.one_of(st.none(), st.builds(lambda w, e: AtHome(weekday=w, weekend=e), SPANS, SPANS)),
    st.lists(
        st.builds(
            lambda kwh, runs, hour: Machine(name="m", kwh_a_run=kwh, runs_per_week=runs, usual_hour=hour),
            st.floats(0, 5),
            st.floats(0, 30),
            st.integers(0, 23),
        ),
        max_size=3,
    ).map(tuple),
    st.booleans(),
)
def test_habits_move_demand_and_never_change_the_year(kwh, always_on, at_home, machines, southern):
    home = household(demand_kwh_per_year=kwh, always_on_w=always_on, at_home=at_home, machines=machines)
    demand = demand_w(home, CALENDAR, SHAPE, southern=southern)
    assert np.isclose(demand.sum() / 1000, kwh, rtol=1e-9, atol=1e-9)
    assert (demand >= min(always_on, kwh * 1000 / 8760) * (1 - 1e-12)).all()


@given(hours(), ALWAYS_ON, UNEVENNESS, st.lists(st.floats(0, 3), min_size=1, max_size=4))
def test_several_productions_at_once_are_used_as_each_alone(pair, always_on, k, scales):
    production, demand = pair
    several = self_used_w(np.array([production * scale for scale in scales]), demand, always_on, k)
    alone = [self_used_w(production * scale, demand, always_on, k) for scale in scales]
    # few hours are reckoned without the table, which is within one part in a million
    np.testing.assert_allclose(several, alone, rtol=0, atol=2e-6 * demand.max(initial=0.0) + 1e-12)
    limited = with_allowance_w(np.array([production * scale for scale in scales]), demand, always_on, k, 300.0)
    alone = [with_allowance_w(production * scale, demand, always_on, k, 300.0) for scale in scales]
    np.testing.assert_allclose(limited, alone, rtol=0, atol=2e-6 * demand.max(initial=0.0) + 1e-12)
