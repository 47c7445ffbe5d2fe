"""Hours that are alike, taken together: nothing is lost, and a group's hours are near each other."""

import numpy as np
import pytest

from service.core.energy.kernel import like_hours, place_record
from tests.kernel_cases import PLACES, flickering, typical
from tests.skies import mixed_year

YEARS = pytest.mark.parametrize("year", [mixed_year, flickering, typical])


@YEARS
def test_each_hour_is_in_one_group_and_all_light_is_kept(year):
    record = place_record(year(*PLACES[0]))
    alike = like_hours(record)
    whole, short = record.daylight, alike.record.daylight
    assert 900 < alike.hours.size < 1700
    assert alike.group.shape == whole.rows.shape
    assert np.bincount(alike.group) == pytest.approx(alike.hours)
    for name in ("ghi_w_per_m2", "from_sun_w_per_m2", "even_sky_w_per_m2"):
        assert getattr(short, name) @ alike.hours == pytest.approx(getattr(whole, name).sum(), rel=1e-6)
    # As seen from any plane: the beam by its direction, too.
    assert (short.from_sun_w_per_m2 * short.sun) @ alike.hours == pytest.approx(
        (whole.from_sun_w_per_m2 * whole.sun).sum(axis=1), abs=1e-3 * whole.from_sun_w_per_m2.sum()
    )


@YEARS
def test_a_groups_hours_are_of_one_hour_of_the_day_with_the_sun_within_three_degrees_of_their_mean(year):
    record = place_record(year(*PLACES[0]))
    alike = like_hours(record)
    rows = record.daylight.rows
    chosen = alike.record.daylight.rows[alike.group]
    assert (rows % 24 == chosen % 24).all()
    apart = np.degrees(
        np.arccos(np.clip((record.daylight.sun * alike.record.daylight.sun[:, alike.group]).sum(0), -1, 1))
    )
    lit = record.daylight.from_sun_w_per_m2 > 50.0
    assert apart[lit].max() < 3.0
    assert np.linalg.norm(alike.record.sun[:3], axis=0) == pytest.approx(1.0, abs=1e-6)


def test_a_groups_mean_is_that_of_its_hours():
    record = place_record(mixed_year(*PLACES[0]))
    alike = like_hours(record)
    values = np.random.default_rng(1).normal(size=(alike.group.size, 3))
    found = alike.mean(values)
    for one in (0, 17, alike.hours.size - 1):
        assert found[one] == pytest.approx(values[alike.group == one].mean(axis=0))


def test_of_the_hours_of_some_days_the_dull_ones_are_apart_from_the_bright_ones():
    record = place_record(mixed_year(*PLACES[0]))
    alike = like_hours(record)
    spread = np.std(record.daylight.ghi_w_per_m2)
    within = record.daylight.ghi_w_per_m2 - alike.record.daylight.ghi_w_per_m2[alike.group]
    assert np.std(within) < 0.4 * spread
