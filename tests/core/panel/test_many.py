"""Do many panels asked at once give what each gives alone?"""

import numpy as np
import pytest

from service.core.panel import Branch, Panels, diode_of, max_power, running_power_w
from service.core.panel.curve import curve_at, curves_at, full_sun_power_w
from tests.builders import one_input, panel

DIODES = (
    diode_of(panel()),
    diode_of(panel(open_circuit_voltage_v=38.9, short_circuit_current_a=14.02, max_power_voltage_v=32.4,
                   max_power_current_a=13.43, voc_coefficient_pct_per_k=-0.25)),
    diode_of(panel(open_circuit_voltage_v=40, short_circuit_current_a=10, max_power_voltage_v=28,
                   max_power_current_a=8.2, cells_in_series=60, voc_coefficient_pct_per_k=-0.3)),
) * 9  # fmt: skip
LIGHT, CELL_C = (part.ravel() for part in np.meshgrid([2.0, 150.0, 600.0, 1100.0] * 60, [-10.0, 20.0, 65.0]))
MANY = Panels(DIODES, LIGHT, CELL_C)
STRINGS = np.linspace(0.8, 2.0, len(DIODES))


def test_their_curves_are_those_of_each() -> None:
    together = curves_at(DIODES[:3], LIGHT, CELL_C)
    for at, diode in enumerate(DIODES[:3]):
        rows = np.arange(at * LIGHT.size, (at + 1) * LIGHT.size)
        own, alone = together.at(rows), curve_at(diode, LIGHT, CELL_C)
        for name in ("light_a", "log_saturation", "scale_v", "shunt_s", "series_ohm"):
            np.testing.assert_allclose(getattr(own, name), getattr(alone, name), rtol=1e-12)


def test_their_most_power_is_that_of_each_within_a_millionth() -> None:
    best = MANY.max_power()
    assert best.power_w.shape == (len(DIODES), LIGHT.size)
    for at, diode in enumerate(DIODES):
        alone = max_power(diode, LIGHT, CELL_C)
        np.testing.assert_allclose(best.power_w[at], alone.power_w, rtol=1e-6)
        np.testing.assert_allclose(best.voltage_v[at] * best.current_a[at], alone.power_w, rtol=1e-6)


@pytest.mark.parametrize(
    "limits",
    [
        one_input(max_current_a=9.0),
        one_input(tracking_min_v=16.0, tracking_max_v=28.0, max_input_power_w=300.0),
        one_input(tracking_min_v=36.0),
    ],
    ids=["little current", "narrow window and little power", "high window"],
)
def test_what_an_input_draws_of_them_is_what_it_draws_of_each(limits) -> None:
    power = MANY.running_power_w(1, STRINGS, limits)
    for at, diode in enumerate(DIODES):
        branch = Branch(diode=diode, irradiance_w_per_m2=LIGHT, cell_c=CELL_C, in_series=1, strings=float(STRINGS[at]))
        np.testing.assert_allclose(power[at], running_power_w(branch, limits), rtol=1e-9, atol=1e-9)


def test_no_panels_give_nothing() -> None:
    assert Panels((), LIGHT, CELL_C).max_power().power_w.shape == (0, LIGHT.size)
    assert Panels((), LIGHT, CELL_C).running_power_w(1, np.zeros(0), one_input()).shape == (0, LIGHT.size)


@pytest.mark.parametrize("cell_c", [-20.0, 25.0, 45.0, 65.0, 120.0])
def test_the_power_in_full_sun_on_plain_numbers_is_that_of_rows(cell_c: float) -> None:
    for diode in DIODES[:3]:
        by_rows = float(max_power(diode, 1000.0, cell_c).power_w[0])
        assert full_sun_power_w(diode, cell_c) == pytest.approx(by_rows, rel=1e-12)
