"""What does the wall clock of a site show?"""

from datetime import UTC, datetime
from zoneinfo import ZoneInfo

import numpy as np
import pytest

from service.core.logbook import zone_of


@pytest.mark.parametrize(
    ("name", "longitude"),
    [("Europe/Berlin", 13.4), ("America/Denver", -111.9), ("Australia/Lord_Howe", 159.1), ("Asia/Kolkata", 77.2)],
)
def test_every_hour_of_two_years_is_shown_as_the_standard_library_shows_it(name: str, longitude: float) -> None:
    seconds = 1_700_000_000 + 3600 * np.arange(17_520)
    shown = zone_of(name, longitude, int(seconds[0]), int(seconds[-1])).offset_s(seconds)
    zone = ZoneInfo(name)
    right = [datetime.fromtimestamp(one, UTC).astimezone(zone).utcoffset() for one in seconds.tolist()]
    assert shown.tolist() == [one.total_seconds() for one in right if one is not None]


def test_days_begin_at_local_midnight_on_both_sides_of_summer_time() -> None:
    zone = zone_of("Europe/Berlin", 13.4, 1_740_000_000, 1_770_000_000)
    days = np.array([(datetime(2025, 3, day) - datetime(1970, 1, 1)).days for day in (30, 31)])  # noqa: DTZ001
    begins = zone.midnight_s(days)
    assert (begins[1] - begins[0]) == 23 * 3600
    assert zone.day_of(begins).tolist() == days.tolist()
    assert zone.day_of(begins - 1).tolist() == (days - 1).tolist()
