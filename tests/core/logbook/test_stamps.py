"""Which moments do time stamps name?"""

from datetime import UTC, datetime, timedelta, timezone

import numpy as np
import pytest

from service.core.logbook import StampError, moments_of

BERLIN = ("Europe/Berlin", 13.4)


def instants(*texts: str) -> list[str]:
    found = moments_of(texts, *BERLIN).seconds
    return [datetime.fromtimestamp(one, UTC).isoformat() for one in found.tolist()]


def test_an_offset_is_taken_off_whatever_the_site() -> None:
    assert instants("2026-05-01T10:00:00+02:00", "2026-05-01T10:00Z", "2026-05-01T10:00:00-07:30") == [
        "2026-05-01T08:00:00+00:00", "2026-05-01T10:00:00+00:00", "2026-05-01T17:30:00+00:00",
    ]  # fmt: skip


@pytest.mark.parametrize(
    "text",
    ["2026-05-01T10:00", "2026-05-01 10:00:00", "01.05.2026 10:00", "01.05.2026 10:00:00", "2026-05-01T10:00:00.4"],
)
def test_without_an_offset_it_is_the_wall_clock_of_the_site(text: str) -> None:
    assert instants(text) == ["2026-05-01T08:00:00+00:00"]


def test_a_date_alone_is_its_local_midnight() -> None:
    assert instants("2026-05-01", "2026-01-01") == ["2026-04-30T22:00:00+00:00", "2025-12-31T23:00:00+00:00"]


def test_in_the_hour_that_comes_twice_the_second_of_two_stamps_is_the_later_one() -> None:
    found = moments_of(["2025-10-26T02:30", "2025-10-26T03:30", "2025-10-26T02:30"], *BERLIN)
    assert (found.seconds - found.seconds[0]).tolist() == [0, 7200, 3600]
    assert found.twice == 2


def test_a_log_that_names_an_hour_which_the_clock_skips_keeps_standard_time() -> None:
    found = moments_of(["2025-03-30T01:30", "2025-03-30T02:30", "2025-07-01T12:00"], *BERLIN)
    assert found.keeps_standard_time
    assert np.diff(found.seconds)[0] == 3600
    assert datetime.fromtimestamp(int(found.seconds[2]), UTC).hour == 11


@pytest.mark.parametrize(
    "text", ["", "yesterday", "2025-02-30T00:00Z", "2025-01-01T25:00Z", "2025-13-01", "1889-01-01T00:00Z", "é" * 16]
)
def test_what_names_no_moment_is_told_by_its_place(text: str) -> None:
    with pytest.raises(StampError) as told:
        moments_of(["2025-01-01T00:00Z", text], *BERLIN)
    assert told.value.at == 1


def test_a_year_of_stamps_is_read_as_the_standard_library_reads_it() -> None:
    first = datetime(2024, 1, 1, tzinfo=timezone(timedelta(hours=-7)))
    moments = [first + timedelta(minutes=7 * at) for at in range(80_000)]
    found = moments_of([moment.isoformat() for moment in moments], *BERLIN)
    assert found.seconds.tolist() == [round(moment.timestamp()) for moment in moments]


def test_days_read_once_say_nothing_of_the_clock() -> None:
    days = [f"2025-03-{day:02d}" for day in range(10, 32)] + [f"2025-04-{day:02d}" for day in range(1, 20)]
    assert not moments_of(days, "Europe/Berlin", 13.0, np.full(len(days), 900.0)).keeps_standard_time
