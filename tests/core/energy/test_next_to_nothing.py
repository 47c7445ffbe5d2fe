"""Why does next to nothing come of an array or a set? It is told; and nothing is told of what yields."""

from collections.abc import Callable, Mapping

import numpy as np
import pytest

from service.core.energy import EnergyYear, energy_year, next_to_nothing
from service.core.energy.next_to_nothing import little_of
from service.core.model.assumption import Assumptions
from service.core.model.hours import Bools
from service.core.model.place import SkylinePoint
from tests.builders import array, inverter, one_input, setup
from tests.climates import climate
from tests.skies import mixed_year

SKY = mixed_year(54.2, 12.3)
COURT = tuple(SkylinePoint(azimuth_deg=at, height_deg=85) for at in (0, 90, 180, 270))
MONTHS = SKY.calendar.month
LIGHT_W = np.full(MONTHS.shape, 100.0)
LIT = np.ones(MONTHS.shape, dtype=np.bool_)


def year(**changes: object) -> EnergyYear:
    return energy_year(setup(**changes), SKY, climate(), Assumptions.of(()))


def test_nothing_is_told_of_a_set_that_yields() -> None:
    assert not next_to_nothing(year())


def test_an_array_in_a_deep_court_is_told_beside_one_that_stands_free() -> None:
    found = next_to_nothing(year(arrays=(array(), array(name="court", input=2, skyline=COURT))))
    assert [(one.about, one.facts["because"], one.facts["from_month"]) for one in found] == [
        ("/arrays/1", "skyline", None)
    ]
    assert found[0].facts["taken_kwh"] > 0.9 * found[0].facts["light_kwh"]


def test_a_start_voltage_out_of_reach_is_told_with_its_hours() -> None:
    out_of_reach = one_input(start_voltage_v=48.0)
    energy = year(arrays=(array(),), inverter=inverter(inputs=(out_of_reach, out_of_reach)))
    assert energy.year_kwh.middle == pytest.approx(0.0)
    (found,) = next_to_nothing(energy)
    assert found.facts["because"] == "voltage_window"
    assert found.facts["hours_not_started"] == energy.arrays[0].hours_not_started > 4000


def test_a_set_that_is_off_all_year_is_told_once_of_the_set() -> None:
    arrays = (array(), array(name="right", input=2))
    (found,) = next_to_nothing(year(arrays=arrays, downtime_days_per_year=365))
    assert (found.about, found.facts["because"]) == ("/inverter", "downtime")


def taken_in(light_w: np.ndarray, dc_w: np.ndarray) -> Callable[[Bools], Mapping[str, float]]:
    """An account in which the skyline takes all that is missing but for a kWh of heat."""
    return lambda within: {"skyline": float((light_w - dc_w)[within].sum()) / 1000 - 1.0, "heat_and_light": 1.0}


def test_a_lit_half_year_without_yield_is_told_with_its_months_and_what_takes_most_in_them() -> None:
    winter = (MONTHS >= 10) | (MONTHS <= 3)
    dc_w = np.where(winter, 0.0, 80.0)
    little = little_of(LIGHT_W, dc_w, winter, MONTHS, taken_in(LIGHT_W, dc_w), {"heat_and_light": 1e9})
    assert little is not None
    assert (little.from_month, little.to_month, little.because) == (10, 3, "skyline")
    assert little.hours_not_started == np.count_nonzero(winter)
    assert little.light_kwh == pytest.approx(LIGHT_W[winter].sum() / 1000)
    assert little.taken_kwh == pytest.approx(little.light_kwh - 1.0)


def test_a_half_year_that_is_dark_by_itself_is_no_finding() -> None:
    winter = (MONTHS >= 10) | (MONTHS <= 3)
    light_w, dc_w = np.where(winter, 5.0, 100.0), np.where(winter, 0.0, 80.0)
    assert little_of(light_w, dc_w, winter, MONTHS, taken_in(light_w, dc_w), {}) is None


def test_no_light_at_all_is_no_finding() -> None:
    nothing = np.zeros(MONTHS.shape)
    assert little_of(nothing, nothing, ~LIT, MONTHS, taken_in(nothing, nothing), {}) is None
