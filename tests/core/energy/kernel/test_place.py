"""The record of a place."""

import numpy as np
import pytest

from service.core.energy.kernel import place_record
from tests.skies import mixed_year


def test_the_record_holds_the_hours_with_light_and_all_of_their_light():
    sky = mixed_year(54.2, 12.3)
    record = place_record(sky)
    assert 4000 < record.air_c.size < 4700
    assert record.ghi_w_per_m2.sum() == pytest.approx(sky.ghi_w_per_m2.sum(), rel=1e-5)


def test_the_sun_has_length_one():
    sun = place_record(mixed_year(54.2, 12.3)).sun
    assert np.linalg.norm(sun[:3], axis=0) == pytest.approx(1, abs=1e-5)
    assert np.all(sun[3] == 1)


def test_each_stretch_of_light_begins_after_a_night():
    record = place_record(mixed_year(54.2, 12.3))
    begins = np.flatnonzero(record.first_of_day == np.arange(record.first_of_day.size))
    assert 360 <= begins.size <= 367
    assert np.all(np.diff(record.daylight.rows)[begins[1:] - 1] > 1)
