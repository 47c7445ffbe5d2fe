"""What a sound panel must read, by worked cases of the closed formulas.

Form: Isc = Isc0 (G/1000)(1 + alpha dT), Voc = Voc0 (1 + beta dT) + n Ns (kT/q) ln(G/1000) with n = 1.1, as IEC 60891
and the single-diode model have it (Duffie and Beckman, chapter 23; from memory). The worked cases were computed apart
from this service, the voltage a second time with the thermal voltage from 8.6173e-5 V/K; tolerance 5 mV and 0.5 mA, the
rounding of their last digit.
"""

import pytest

from service.core.pickup.expected import (
    expected_current,
    expected_voltage,
    open_circuit_voltage,
    short_circuit_current,
)
from service.core.pickup.facts import Between, Light
from tests.core.pickup.door import ratings

SIXTY = (40.6, -0.30, 9.85, 0.050, 60)
SIXTY_SIX = (45.6, -0.26, 13.9, 0.045, 66)
SEVENTY_TWO = (48.9, -0.28, 11.3, 0.050, 72)
FIFTY_FOUR = (38.2, -0.26, 14.3, 0.045, 54)


@pytest.mark.parametrize(
    ("panel", "w_per_m2", "cell_c", "voc", "isc"),
    [
        (SIXTY, 650, 35, 38.627, 6.4345),
        (SIXTY, 60, 12, 37.621, 0.5872),
        (SIXTY, 700, 40, 38.138, 6.9467),
        (SIXTY_SIX, 820, 38, 43.672, 11.4647),
        (FIFTY_FOUR, 930, 42, 36.395, 13.4007),
        (SEVENTY_TWO, 450, -4, 51.404, 5.0113),
        (FIFTY_FOUR, 900, 62, 34.344, 13.0843),
        (SIXTY, 500, 20, 40.053, 4.9127),
    ],
)
def test_volts_and_amperes_follow_light_and_warmth(panel, w_per_m2, cell_c, voc, isc) -> None:
    rated_v, beta, rated_a, alpha, cells = panel
    assert open_circuit_voltage(rated_v, beta, cells, w_per_m2, cell_c, 1.1) == pytest.approx(voc, abs=0.005)
    assert short_circuit_current(rated_a, alpha, w_per_m2, cell_c) == pytest.approx(isc, abs=0.0005)


def test_at_standard_conditions_the_label_is_what_is_expected() -> None:
    light, warmth = Light(w_per_m2=Between.exactly(1000.0), origin="measured"), Between.exactly(25.0)
    assert expected_voltage(ratings(), light, warmth).likely == pytest.approx(40.6)
    assert expected_current(ratings(), light, warmth).likely == pytest.approx(9.85)


def test_in_the_dark_there_is_nothing() -> None:
    assert open_circuit_voltage(40.6, -0.3, 60, 0.0, 20.0, 1.1) == 0.0
    assert short_circuit_current(9.85, 0.05, 0.0, 20.0) == 0.0


def test_what_is_known_less_well_widens_the_range_and_moves_nothing() -> None:
    sure = Light(w_per_m2=Between.exactly(700.0), origin="measured")
    rough = Light(w_per_m2=Between(low=500.0, likely=700.0, high=900.0), origin="measured")
    warmth = Between.exactly(30.0)
    near, far = (expected_current(ratings(), light, warmth) for light in (sure, rough))
    assert far.likely == near.likely
    assert far.low < near.low
    assert far.high > near.high


def test_the_sure_range_is_label_and_meter_together() -> None:
    """5 % of the label and 2 % of the meter by squares are 5.385 %; nothing else is open here."""
    light, warmth = Light(w_per_m2=Between.exactly(700.0), origin="measured"), Between.exactly(25.0)
    found = expected_current(ratings(), light, warmth)
    assert found.high / found.likely - 1 == pytest.approx(0.05385, abs=0.0001)
    assert 1 - found.low / found.likely == pytest.approx(0.05385, abs=0.0001)


def test_an_old_panel_may_read_less_but_not_more() -> None:
    light, warmth = Light(w_per_m2=Between.exactly(700.0), origin="measured"), Between.exactly(25.0)
    new, old = (
        expected_current(ratings(age_years=Between.exactly(age)), light, warmth) for age in (0.0, 20.0)
    )  # fmt: skip
    assert old.low < new.low
    assert old.high == new.high
