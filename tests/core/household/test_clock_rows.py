"""The wall clock of the rows of a year."""

import numpy as np
import pytest

from service.core.household import clock_rows
from service.core.sky import calendar_of

ZONES = [("Europe/Berlin", 12.3), ("Australia/Sydney", 151.2), ("Asia/Kolkata", 77.2)]


@pytest.mark.parametrize("zone", ZONES)
def test_rows_are_those_of_the_calendar(zone: tuple[str, float]) -> None:
    calendar = calendar_of(*zone)
    rows = clock_rows(calendar)
    assert (rows.hour == np.floor(calendar.clock_h)).all()
    weekend = rows.hour_of_kind >= 24
    assert (weekend == (calendar.weekday >= 5)).all()
    assert (rows.hour_of_kind % 24 == rows.hour).all()
    assert rows.rows_of_hour.sum() == 8760


@pytest.mark.parametrize("zone", ZONES)
def test_means_by_the_clock_are_those_of_the_plain_way(zone: tuple[str, float]) -> None:
    rows = clock_rows(calendar_of(*zone))
    powers = np.random.default_rng(3).random(8760) * (np.arange(8760) % 24 > 8)
    plain = [powers[rows.hour == hour].mean() for hour in range(24)]
    np.testing.assert_allclose(rows.means(powers), plain, rtol=1e-12)
    lit = np.flatnonzero(powers)
    np.testing.assert_allclose(rows.means(powers[lit], lit), plain, rtol=1e-12)
