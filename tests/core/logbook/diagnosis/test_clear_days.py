"""Which days of a log were without clouds?"""

from dataclasses import replace

import numpy as np

from service.core.logbook.diagnosis.clear_days import day_courses
from tests.made_logs import cloudless_log


def test_days_without_a_cloud_are_all_clear() -> None:
    frame, power = cloudless_log()
    assert day_courses(frame, power).clear.tolist() == list(range(1, 13))  # day 0 ends at the sun's first midnight


def test_a_day_of_broken_cloud_is_not_clear() -> None:
    frame, power = cloudless_log()
    broken = power.copy()
    broken[frame.day == 5] *= np.where(np.arange(np.count_nonzero(frame.day == 5)) % 3 == 0, 0.4, 1.0)
    found = day_courses(replace(frame, power_w=broken), power)
    assert 5 not in found.clear
    assert found.clear.size == 11


def test_a_set_that_gives_half_all_the_time_still_has_clear_days() -> None:
    frame, power = cloudless_log()
    found = day_courses(replace(frame, power_w=power / 2), power)
    assert found.clear.size == 12
    assert np.allclose(found.index[1:], 0.5)


def test_a_day_that_was_hardly_logged_is_no_clear_day() -> None:
    frame, power = cloudless_log()
    holes = power.copy()
    holes[(frame.day == 3) & (np.arange(power.size) % 96 > 45)] = np.nan
    assert 3 not in day_courses(replace(frame, power_w=holes), power).clear


def test_without_any_clear_day_the_smoothest_are_taken_and_it_is_said() -> None:
    frame, power = cloudless_log()
    rng = np.random.default_rng(4)
    found = day_courses(replace(frame, power_w=power * rng.uniform(0.1, 1.0, power.size)), power)
    assert not found.sure
    assert 0 < found.clear.size <= 3
