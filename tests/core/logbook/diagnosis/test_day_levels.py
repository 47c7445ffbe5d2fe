"""How does what the set gives go from day to day: one level, a step, a drift with leaps?"""

import numpy as np
import pytest

from service.core.logbook.diagnosis.day_levels import DayLevels, level_evidence, pattern_evidence, usable
from service.core.logbook.diagnosis.dirt_drift import drift_evidence, staircases
from service.core.logbook.diagnosis.fast_ageing import ageing_evidence
from service.core.model.hours import Floats

HALF = float(np.log(0.5))


def days(log: Floats, every: int = 1) -> DayLevels:
    """Levels of days from their logarithms, with a little unrest."""
    noise = 0.02 * np.random.default_rng(3).normal(size=log.size)
    return usable(np.exp(log + noise), every * np.arange(log.size), np.ones(log.size))


def test_a_fall_to_half_is_a_sure_step_where_it_happened() -> None:
    log = np.zeros(40)
    log[25:] = HALF
    found = level_evidence(days(log))
    assert found["level_step"] == pytest.approx(HALF, abs=0.03)
    assert found["level_step_sureness"] == 12.0
    assert found["step_at_share"] == pytest.approx(25 / 40, abs=0.03)


def test_days_at_one_level_show_no_sure_step() -> None:
    found = level_evidence(days(np.zeros(40)))
    assert abs(found["level_step"]) < 0.05
    assert found["level_step_sureness"] < 4.0


def test_single_days_at_half_are_told_from_a_fall_for_good() -> None:
    log = np.where(np.arange(40) % 3 == 0, HALF, 0.0)
    found = pattern_evidence(days(log), HALF)
    assert found["mixed_gain"] > found["step_gain"] + 0.5
    assert found["mixed_share"] == pytest.approx(14 / 40, abs=0.03)
    assert found["mixed_base"] == pytest.approx(0.0, abs=0.03)


def test_a_fall_for_good_is_explained_by_its_own_depth_alone() -> None:
    log = np.zeros(40)
    log[25:] = HALF
    assert pattern_evidence(days(log), HALF)["step_gain"] > 1.0
    assert pattern_evidence(days(log), HALF)["step_when"] == pytest.approx(25 / 40, abs=0.04)
    assert pattern_evidence(days(np.zeros(40)), HALF)["step_gain"] < 0.1


def test_dirt_that_rain_washes_off_is_a_drift_with_leaps_up() -> None:
    found = drift_evidence(days(-0.009 * (np.arange(90) % 17)))
    assert found["drift_gain"] > 0.3
    assert 0.006 <= found["drift_rate_per_day"] <= 0.011
    assert found["drift_up_share"] > 0.7


@pytest.mark.parametrize("kind", ["level", "step", "single days"])
def test_what_does_not_sink_day_by_day_is_no_drift(kind: str) -> None:
    log = np.zeros(90)
    if kind == "step":
        log[40:] = -0.3
    if kind == "single days":
        log[::5] = HALF
    assert drift_evidence(days(log))["drift_gain"] < 0.1


def test_the_cheapest_staircase_costs_no_more_than_any_that_is_tried_by_hand() -> None:
    rng = np.random.default_rng(2)
    values = rng.normal(size=(1, 8))
    cost, _ = staircases(values, np.ones(8), 0.4)
    for cut in range(1, 8):
        left, right = values[0, :cut], values[0, cut:]
        by_hand = float(((left - left.mean()) ** 2).sum() + ((right - right.mean()) ** 2).sum()) + 0.4
        assert cost[0] <= by_hand + 1e-12
    assert cost[0] <= float(((values - values.mean()) ** 2).sum()) + 1e-12


def test_a_year_s_trend_is_told_from_its_season() -> None:
    day = np.arange(0, 365, 4)
    season = 0.05 * np.cos(2 * np.pi * day / 365.25)
    found = ageing_evidence(usable(np.exp(season - 0.12 * day / 365.25), day, np.ones(day.size)))
    assert found["trend_per_year"] == pytest.approx(-0.12, abs=0.02)
    assert found["trend_sureness"] < -5.0


def test_three_months_say_nothing_of_ageing() -> None:
    assert ageing_evidence(days(-0.001 * np.arange(90)))["trend_sureness"] == 0.0


def test_a_year_has_more_days_than_points_and_still_shows_its_drift() -> None:
    found = drift_evidence(days(-0.005 * (np.arange(365) % 40)))
    assert found["drift_gain"] > 0.3
