"""Is a panel that is read between forty cells what it is in each cell, whatever its sheet and the weather?"""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from service.core.panel import diode_of, max_power
from service.core.shortlist.few_cells import few_cells
from tests.builders import panel
from tests.properties.strategies import sheets

FULL_SUN_W_PER_M2, COOL_C = 1000.0, 25.0


@settings(deadline=None)
@given(
    st.lists(sheets(), min_size=1, max_size=3),
    st.lists(st.tuples(st.floats(0.05, 1300), st.floats(-30, 80)), min_size=1, max_size=60),
)
def test_each_cell_is_within_a_ten_thousandth_of_full_sun_of_its_own_solution(drawn, cells):
    light, cell_c = np.array(cells).T
    diodes = tuple(diode_of(one) for one in drawn)
    volts, amperes = few_cells(light, cell_c).at_most_power(diodes)
    for diode, volt, ampere in zip(diodes, volts, amperes, strict=True):
        alone = max_power(diode, light, cell_c)
        full = max_power(diode, FULL_SUN_W_PER_M2, COOL_C)
        assert volt * ampere == pytest.approx(alone.power_w, abs=1e-4 * full.power_w[0])
        bright = light > 50.0
        assert volt[bright] == pytest.approx(alone.voltage_v[bright], abs=1e-3 * full.voltage_v[0])
        assert ampere == pytest.approx(alone.current_a, abs=1e-3 * full.current_a[0])


def test_no_cells_and_no_panels_are_nothing_and_cells_that_are_alike_are_read_too():
    nothing = np.zeros(0)
    assert few_cells(nothing, nothing).weights.shape[1] == 0
    light, cell_c = np.full(3, 800.0), np.full(3, 40.0)
    volts, amperes = few_cells(light, cell_c).at_most_power((diode_of(panel()),))
    assert volts * amperes == pytest.approx(max_power(diode_of(panel()), 800.0, 40.0).power_w[0], rel=1e-6)
    assert few_cells(light, cell_c).at_most_power(())[0].shape == (0, 3)
