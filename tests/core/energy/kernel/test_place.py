"""The record of a place."""

from dataclasses import replace

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


@pytest.mark.parametrize("brighter_than", [0.0, 5.0, 40.0])
def test_the_brightest_hours_are_kept_and_their_number_is_a_multiple_of_sixteen(brighter_than):
    sky = mixed_year(54.2, 12.3)
    light = sky.dni_w_per_m2 + sky.dhi_w_per_m2
    kept = np.zeros(8760, bool)
    kept[place_record(sky, brighter_than).daylight.rows] = True
    assert kept.sum() % 16 == 0
    assert light[kept].min() >= light[~kept].max() > 0
    assert light[~kept].max() <= max(brighter_than, 1.0)
    assert abs(int(kept.sum()) - int((light > brighter_than).sum())) < 16


def test_of_a_few_bright_hours_none_is_left_out():
    sky = mixed_year(54.2, 12.3)
    day = np.zeros(8760)
    day[4000:4011] = 1.0
    short = replace(sky, ghi_w_per_m2=day * 300, dni_w_per_m2=day * 0, dhi_w_per_m2=day * 300)
    assert place_record(short).daylight.rows.tolist() == list(range(4000, 4011))


def test_a_dark_hour_by_day_does_not_end_the_day():
    sky = mixed_year(54.2, 12.3)
    noon = 8760 // 2 + 6
    gloom = np.ones(8760)
    gloom[noon] = 1e-4
    dark = replace(
        sky, **{name: getattr(sky, name) * gloom for name in ("ghi_w_per_m2", "dni_w_per_m2", "dhi_w_per_m2")}
    )
    record = place_record(dark, 5.0)
    rows = record.daylight.rows
    assert noon not in rows
    after = int(np.searchsorted(rows, noon))
    assert rows[after - 1 : after + 1].tolist() == [noon - 1, noon + 1]
    assert record.first_of_day[after - 1] == record.first_of_day[after]


def test_each_stretch_of_light_begins_after_a_night():
    record = place_record(mixed_year(54.2, 12.3))
    begins = np.flatnonzero(record.first_of_day == np.arange(record.first_of_day.size))
    assert 360 <= begins.size <= 367
    assert np.all(np.diff(record.daylight.rows)[begins[1:] - 1] > 1)
