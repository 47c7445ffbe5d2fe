"""A meter's log with gaps becomes a year of hours."""

import numpy as np
import pytest

from service.core.errors import ContradictionError
from service.core.household import year_of_log
from service.core.sky import calendar_of

CALENDAR = calendar_of("Europe/Berlin", 13.4)
MARCH_1 = (31 + 28) * 24


def logged(first, step_minutes, values):
    return year_of_log(first, step_minutes, tuple(values), CALENDAR)


def test_a_whole_year_is_taken_as_it_is():
    values = np.arange(8760.0)
    year = logged("2025-01-01T00:00", 60, values)
    np.testing.assert_array_equal(year.values_w, values)
    assert year.filled_share == 0


def test_quarter_hours_become_the_means_of_their_hours():
    year = logged("2025-01-01T00:00", 15, [100.0, 200.0, 300.0, 400.0] * 8760)
    assert set(year.values_w) == {250.0}
    assert year.filled_share == 0


def test_the_29_of_february_is_left_out_and_march_stays_march():
    values = np.zeros(8784)
    values[MARCH_1 : MARCH_1 + 24] = 999.0  # 29 February
    values[MARCH_1 + 24] = 50.0  # 1 March, midnight
    year = logged("2024-01-01T00:00", 60, values)
    assert year.values_w.max() == 50.0
    assert year.values_w[MARCH_1] == 50.0
    assert year.filled_share == 0


def test_of_two_years_the_later_one_holds():
    year = logged("2024-07-01T00:00+01:00", 60, [1.0] * 8760 + [2.0] * 24)
    july = 181 * 24
    assert set(year.values_w[july : july + 24]) == {2.0}
    assert set(year.values_w[july + 24 :]) == {1.0}


@pytest.mark.parametrize(
    ("first", "row"),
    [
        ("2025-03-01T00:00", 0),
        ("2025-02-28T23:00Z", 0),
        ("2025-03-01T03:00+02:00", 2),
        ("2025-02-28T23:00:00Z", 0),
        ("2025-03-01T00:00:00+01:00", 0),
        ("2025-02-28T23:00:00.000Z", 0),
        ("2025-02-28t23:00:00.123456789z", 0),
        ("2025-03-01T00:00:00", 0),
    ],
)
def test_a_log_begins_at_an_instant_or_at_the_places_wall_clock_time(first, row):
    year = logged(first, 60, [700.0, *[1.0] * 47])
    assert year.values_w[MARCH_1 + row + 1] == 1.0
    assert year.values_w[MARCH_1 + row] == 700.0


@pytest.mark.parametrize("first", ["2025-07-01T01:00", "2025-07-01T01:00:00+02:00", "2025-06-30T23:00:00Z"])
def test_in_summer_the_wall_clock_is_ahead_of_the_rows(first):
    year = logged(first, 60, [700.0, *[1.0] * 47])
    assert year.values_w[181 * 24] == 700.0


@pytest.mark.parametrize("first", ["2024-02-29T00:00", "2024-12-31T23:00:59", "2024-01-01T00:00"])
def test_a_log_may_begin_on_any_day(first):
    assert logged(first, 60, [5.0] * 48).values_w.max() == 5.0


def test_an_hour_is_known_from_half_of_its_steps_on():
    half, less = [100.0, None, 300.0, None], [100.0, None, None, None]
    assert logged("2025-01-01T00:00", 15, half * 8760).filled_share == 0
    assert set(logged("2025-01-01T00:00", 15, half * 8760).values_w) == {200.0}
    year = logged("2025-01-01T00:00", 15, [*less, *half * 8759])
    assert year.filled_share == pytest.approx(1 / 8760)


def test_a_gap_takes_the_mean_of_that_hour_on_that_kind_of_day_in_that_month():
    """January 2025 begins on a Wednesday. Weekday noons of the month are 100 and 300, weekend noons 900."""
    days = np.zeros((31, 24))
    weekend = np.isin((2 + np.arange(31)) % 7, (5, 6))
    days[:, 12] = np.where(weekend, 900.0, np.where(np.arange(31) % 2, 100.0, 300.0))
    values = [*days.ravel().tolist(), *[5.0] * (8760 - 31 * 24)]
    values[7 * 24 + 12] = None  # a Wednesday
    values[10 * 24 + 12] = None  # a Saturday
    year = logged("2025-01-01T00:00", 60, values)
    others = [d for d in range(31) if not weekend[d] and d != 7]
    assert year.values_w[7 * 24 + 12] == pytest.approx(np.mean([days[d, 12] for d in others]))
    assert year.values_w[10 * 24 + 12] == 900.0
    assert year.filled_share == pytest.approx(2 / 8760)


def test_months_that_the_log_does_not_reach_take_the_hour_of_the_others():
    day = np.arange(24.0)
    year = logged("2025-06-02T00:00+01:00", 60, np.tile(day, 14))
    np.testing.assert_array_equal(year.values_w, np.tile(day, 365))
    assert year.filled_share == pytest.approx(1 - 14 / 365)


def test_weekends_that_the_log_does_not_know_take_its_weekdays():
    year = logged("2025-06-02T00:00+01:00", 60, np.tile(np.arange(24.0), 2))  # Monday and Tuesday
    np.testing.assert_array_equal(year.values_w[:24], np.arange(24.0))
    assert not np.isnan(year.values_w).any()


def test_the_weekend_of_the_logs_own_year_counts():
    """6 January 2024 was a Saturday; the rows of the year have a Monday there."""
    values = np.full(21 * 24, 10.0)
    for saturday in (5, 6, 12, 13, 19, 20):
        values[saturday * 24 : saturday * 24 + 24] = 500.0
    year = logged("2024-01-01T00:00", 60, [None if i == 5 * 24 + 3 else v for i, v in enumerate(values)])
    assert year.values_w[5 * 24 + 3] == 500.0


def test_a_log_that_knows_less_than_a_day_is_refused():
    with pytest.raises(ContradictionError) as caught:
        logged("2025-01-01T00:00", 60, [*[100.0] * 23, *[None] * 500])
    assert caught.value.given == 23
    assert caught.value.pointer == "/household/demand/log/values_w"


def test_a_beginning_that_is_no_time_is_refused():
    with pytest.raises(ContradictionError) as caught:
        logged("yesterday", 60, [100.0] * 48)
    assert caught.value.pointer == "/household/demand/log/first"


def test_a_log_of_quarter_hours_or_finer_keeps_its_quarters_and_their_gaps_take_the_hours_mean():
    quarters = [100.0, None, 300.0, 500.0]
    year = logged("2025-01-01T00:00", 15, quarters * 8760)
    np.testing.assert_allclose(year.quarters_w[:4], [100, 300, 300, 500])
    np.testing.assert_allclose(year.quarters_w.reshape(-1, 4).mean(axis=1), year.values_w)
    fine = logged("2025-01-01T00:00", 5, [30.0, 60.0, 90.0] + [0.0] * 9 + [12.0] * 12 * 30)
    np.testing.assert_allclose(fine.quarters_w[:5], [60, 0, 0, 0, 12])
    assert logged("2025-01-01T00:00", 30, [1.0] * 17520).quarters_w is None


def test_hours_that_are_filled_into_a_log_of_quarter_hours_are_even():
    year = logged("2025-01-06T00:00", 15, [400.0, 0.0, 0.0, 0.0] * 24 * 14)
    assert set(year.quarters_w[: 5 * 96]) == {100.0}
    assert set(year.quarters_w[5 * 96 : 5 * 96 + 4]) == {400.0, 0.0}
