"""Holes at high output, and mornings that begin late."""

from dataclasses import replace

import numpy as np
import pytest

from service.core.logbook.diagnosis.clear_stretches import stretch_levels
from service.core.logbook.diagnosis.grid_trips import holes_of, trip_evidence, without_dips
from service.core.logbook.diagnosis.wet_trips import wet_evidence
from service.core.logbook.series import LoggedSeries
from service.core.model.hours import Floats
from tests.made_logs import cloudless_log


def five_minutes(power_w: Floats) -> LoggedSeries:
    """A log of mean powers."""
    return LoggedSeries(
        start_s=300 * np.arange(power_w.size), step_s=300, energy_wh=power_w / 12.0, time_zone="Europe/Berlin"
    )


def bell(days: int = 5) -> Floats:
    """Clear days of 600 W."""
    return np.tile(600.0 * np.maximum(np.sin(np.linspace(-np.pi / 2, 3 * np.pi / 2, 288)), 0.0), days)


def test_a_hole_of_ten_minutes_at_noon_is_found_and_counted() -> None:
    power = bell()
    for day in range(5):
        power[288 * day + 140 : 288 * day + 142] = 0.0
    holes = holes_of(five_minutes(power))
    assert np.count_nonzero(holes.hole) == 10
    every = np.ones(power.size, dtype=np.bool_)
    found = trip_evidence(holes, 300, every, every)
    high_hours = np.count_nonzero(bell() > 300.0) / 12.0
    assert found["holes_per_h"] == pytest.approx(5 / high_hours, rel=0.05)
    assert found["dip_depth"] == pytest.approx(1.0)
    assert np.isnan(without_dips(five_minutes(power), holes)[140])


def test_clear_days_have_no_holes() -> None:
    holes = holes_of(five_minutes(bell()))
    assert not holes.dip.any()


def test_hours_are_too_long_to_see_holes() -> None:
    hourly = replace(five_minutes(bell()), step_s=3600)
    assert not holes_of(hourly).dip.any()


def test_mornings_that_begin_hours_late_are_counted() -> None:
    frame, power = cloudless_log()
    late = power.copy()
    hour = (frame.start_s / 3600.0 + 11.6 / 15.0) % 24.0
    late[(frame.day % 2 == 0) & (hour < 11.0)] = 0.0
    found = wet_evidence(replace(frame, power_w=late), power)
    assert found["late_days_share"] == pytest.approx(0.5, abs=0.06)
    assert found["late_h"] > 1.5
    assert wet_evidence(frame, power)["late_days_share"] == 0.0


def test_an_evening_off_is_no_late_morning() -> None:
    frame, power = cloudless_log()
    hour = (frame.start_s / 3600.0 + 11.6 / 15.0) % 24.0
    off = np.where(hour > 14.0, 0.0, power)
    assert wet_evidence(replace(frame, power_w=off), power)["late_days_share"] == 0.0


def test_a_clear_forenoon_tells_the_day_s_level() -> None:
    frame, power = cloudless_log()
    rng = np.random.default_rng(2)
    hour = (frame.start_s / 3600.0 + 11.6 / 15.0) % 24.0
    clouded = 0.8 * np.where(hour > 12.5, power * rng.uniform(0.2, 1.0, power.size), power)
    found = stretch_levels(replace(frame, power_w=clouded), power)
    assert found.day.size == 12
    assert np.allclose(found.level, 0.8, atol=0.01)


def test_broken_cloud_all_day_tells_no_level() -> None:
    frame, power = cloudless_log()
    rng = np.random.default_rng(2)
    found = stretch_levels(replace(frame, power_w=power * rng.uniform(0.2, 1.0, power.size)), power)
    assert found.day.size <= 1
