"""Volts that destroy an input, told where nothing else of the fit is: the same finding as the whole check's."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.core.compatibility import over_voltage
from service.core.model.assumption import Assumptions
from tests.builders import array, inverter, one_input, panel, setup, site
from tests.core.compatibility.ask import answer, assumed

NOTHING = Assumptions.of(())


def of(*arrays, limit_v=60.0, **changes):
    box = inverter(inputs=(one_input(max_input_voltage_v=limit_v),) * 2)
    return setup(arrays=arrays, inverter=box, **changes)


def cold(found):
    return [one for one in found if one.code == "cold_voltage"]


def test_three_in_series_give_three_times_the_volts_and_that_is_told_with_the_figure_of_the_check():
    """3 x 39.4 V x (1 + 0.0026 x (25 + 14)) = 130.2 V."""
    (found,) = over_voltage(of(array(count=3)), NOTHING)
    assert found.verdict == "does_not_fit"
    assert found.measured == pytest.approx(3 * 39.4 * (1 + 0.0026 * 39))
    assert (found.limit, found.about, found.input) == (60.0, "/arrays/0", 1)


@pytest.mark.parametrize(
    ("arrays", "limit_v"),
    [
        ((array(),), 60.0),
        ((array(count=3, joined="parallel"),), 60.0),
        ((array(), array(name="right")), 60.0),  # side by side on one input
        ((array(count=3),), 131.0),
        ((array(count=3),), None),  # nobody said what it survives
    ],
)
def test_what_stays_below_the_limit_or_has_none_tells_nothing(arrays, limit_v):
    assert over_voltage(of(*arrays, limit_v=limit_v), NOTHING) == ()


def test_arrays_of_one_string_add_their_volts_and_on_two_inputs_they_do_not():
    left, right = (array(name=name, joined="one_string") for name in ("left", "right"))
    assert [one.measured for one in over_voltage(of(left, right), NOTHING)] == [pytest.approx(2 * 43.395, abs=0.01)] * 2
    assert over_voltage(of(left, replace(right, input=2)), NOTHING) == ()


def test_the_cold_alone_can_do_it_and_an_assumed_limit_proves_nothing():
    two = array(count=2)
    assert over_voltage(of(two, limit_v=82.0, site=site(coldest_air_c=10)), NOTHING) == ()
    assert len(over_voltage(of(two, limit_v=82.0), NOTHING)) == 1
    guess = assumed("/inverter/inputs/0/max_input_voltage_v", 60, 40, 100)
    (found,) = over_voltage(of(two), Assumptions.of([guess]))
    assert (found.verdict, found.limit) == ("not_known", None)


def test_what_only_the_worst_of_a_class_would_exceed_is_left_to_the_whole_check():
    """39.4 V at -0.27 %/K gives 43.5 V, and 44.8 V at the class's worst."""
    spread = Assumptions.of([assumed("/arrays/0/panel/voc_coefficient_pct_per_k", -0.27, -0.35, -0.24)])
    one = array(panel=panel(voc_coefficient_pct_per_k=-0.27))
    assert over_voltage(of(one, limit_v=44.0), spread) == ()
    (found,) = over_voltage(of(one, limit_v=43.3), spread)
    assert (found.verdict, found.likely) == ("not_known", "does_not_fit")


@given(
    count=st.integers(1, 4),
    joined=st.sampled_from(["series", "parallel", "one_string"]),
    volts=st.floats(20, 80),
    limit_v=st.floats(20, 200),
    coldest_c=st.floats(-40, 20),
)
def test_whatever_the_check_refuses_for_its_volts_is_told(count, joined, volts, limit_v, coldest_c):
    label = panel(open_circuit_voltage_v=volts, max_power_voltage_v=0.83 * volts)
    arrays = tuple(array(name=name, count=count, joined=joined, panel=label) for name in ("left", "right"))
    asked = of(*arrays, limit_v=limit_v, site=site(coldest_air_c=coldest_c))
    whole = answer(arrays=arrays, inverter=asked.inverter, site=asked.site)
    refused = sorted((one for one in cold(whole.findings) if one.verdict != "fits"), key=lambda one: one.about)
    told = over_voltage(asked, NOTHING)
    figures = [[(one.about, one.verdict, one.measured, one.limit) for one in found] for found in (refused, told)]
    assert figures[0] == figures[1]
