"""Do the year's hours carry the right clock, whatever the zone does?"""

import numpy as np
import pytest

from service.core.sky.calendar import calendar_of


@pytest.mark.parametrize(
    ("zone", "longitude", "first_hour_utc"),
    [
        ("Europe/Berlin", 13.4, "2024-12-31T23:00"),
        ("Europe/Dublin", -6.2, "2025-01-01T00:00"),  # the database calls its summer time standard
        ("Africa/Casablanca", -7.6, "2025-01-01T00:00"),  # an hour ahead all year but in Ramadan
        ("Asia/Kolkata", 77.2, "2024-12-31T18:30"),
        ("America/St_Johns", -52.7, "2025-01-01T03:30"),
        ("Pacific/Chatham", -176.5, "2024-12-31T11:15"),
        ("Pacific/Kiritimati", -157.4, "2024-12-31T10:00"),
        ("Australia/Sydney", 151.2, "2024-12-31T14:00"),
        ("Europe/Madrid", -8.5, "2024-12-31T23:00"),
    ],
)
def test_the_year_begins_at_midnight_of_standard_time(zone: str, longitude: float, first_hour_utc: str) -> None:
    assert calendar_of(zone, longitude).utc[0] == np.datetime64(first_hour_utc, "s")


def test_rows_are_whole_hours_apart_and_do_not_move_with_summer_time() -> None:
    calendar = calendar_of("Europe/Berlin", 13.4)
    assert np.all(np.diff(calendar.utc) == np.timedelta64(3600, "s"))
    assert np.array_equal(calendar.day_of_year, np.arange(8760) // 24 + 1)


def test_the_wall_clock_jumps_on_the_last_sundays_of_march_and_october() -> None:
    calendar = calendar_of("Europe/Berlin", 13.4)
    step = np.diff(calendar.clock_h) % 24.0
    jumps = np.nonzero(step != 1.0)[0]
    assert [str(calendar.utc[row + 1]) for row in jumps] == ["2025-03-30T01:00:00", "2025-10-26T01:00:00"]
    assert step[jumps].tolist() == [2.0, 0.0]


def test_half_an_hour_of_summer_time_is_kept() -> None:
    calendar = calendar_of("Australia/Lord_Howe", 159.1)
    assert set(np.unique(calendar.clock_h % 1.0)) == {0.0, 0.5}


def test_weekdays_and_months_are_those_of_the_wall_clock() -> None:
    calendar = calendar_of("Europe/Berlin", 13.4)
    assert calendar.weekday[0] == 2  # 1 January 2025 was a Wednesday
    last_hour_of_june = int(np.nonzero(calendar.utc == np.datetime64("2025-06-30T22:00", "s"))[0][0])
    assert calendar.month[last_hour_of_june] == 7  # midnight of summer time
    assert calendar.month[last_hour_of_june - 1] == 6


def test_every_hour_of_a_zone_without_summer_time_is_plain() -> None:
    calendar = calendar_of("Asia/Tokyo", 139.7)
    assert np.array_equal(calendar.clock_h, np.arange(8760) % 24)


def test_the_arrays_cannot_be_written_to() -> None:
    with pytest.raises(ValueError, match="read-only"):
        calendar_of("UTC", 0.0).clock_h[0] = 5.0


def test_places_of_one_standard_time_share_their_calendar_and_others_do_not():
    """Some 350 kB a place, were each to have its own."""
    assert calendar_of("Europe/Berlin", 13.4) is calendar_of("Europe/Berlin", 7.0)
    assert calendar_of("Europe/Berlin", 13.4) is not calendar_of("Europe/Warsaw", 21.0)
