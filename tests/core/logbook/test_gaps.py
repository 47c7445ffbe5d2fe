"""What was not logged, what was not made, and what was it worth?"""

from dataclasses import replace

import numpy as np
import pytest

from service.core.logbook import Gap, Rows, read_log
from service.core.logbook.gaps import Sorted, sorted_gaps
from tests.logs import DAY_S, FIRST_S, HOUR_S, bell_w, counter_rows, log_from, power_rows, season, utc, without

LOST = (FIRST_S + 5 * DAY_S + 9 * HOUR_S, FIRST_S + 5 * DAY_S + 15 * HOUR_S)
# Of the bell between 9 and 15 o'clock: 600 W times 12 h over pi times the root of two
WORTH_KWH = 0.6 * 12 / np.pi * np.sqrt(2)


def told(rows: Rows, days: int = 12) -> Sorted:
    return sorted_gaps(log_from(rows).total, season(days), season(days))


def only(found: Sorted) -> Gap:
    [gap] = found.gaps
    return gap


def test_rows_missing_by_day_are_a_gap_and_worth_what_the_days_around_gave() -> None:
    gap = only(told(without(power_rows(12), *LOST)))
    assert (gap.begin_s, gap.end_s, gap.kind) == (*LOST, "connection_lost")
    assert gap.missed_kwh.middle == pytest.approx(WORTH_KWH, rel=0.01)
    assert gap.missed_kwh.cautious < gap.missed_kwh.middle < gap.missed_kwh.hopeful


def test_dull_days_around_make_a_gap_worth_less() -> None:
    rows = power_rows(12)
    dull = np.where((rows.at_s >= FIRST_S + 3 * DAY_S) & (rows.at_s < FIRST_S + 8 * DAY_S), 0.3, 1.0)
    gap = only(told(without(replace(rows, value=rows.value * dull), *LOST)))
    assert 0.3 * WORTH_KWH < gap.missed_kwh.middle < 0.6 * WORTH_KWH


def test_what_a_counter_regains_is_not_missed() -> None:
    gap = only(told(without(counter_rows(12), LOST[0] + 1, LOST[1])))
    assert gap.kind == "connection_lost"
    assert gap.missed_kwh.middle == 0.0
    assert gap.regained_kwh == pytest.approx(WORTH_KWH, rel=0.01)


def test_a_counter_that_stood_still_over_a_gap_tells_that_the_set_was_off() -> None:
    rows = counter_rows(12)
    stood = rows.value - np.where(rows.at_s >= LOST[1], np.interp(LOST[1], rows.at_s, rows.value)
                                  - np.interp(LOST[0], rows.at_s, rows.value), 0.0)  # fmt: skip
    gap = only(told(without(replace(rows, value=stood), LOST[0] + 1, LOST[1])))
    assert gap.kind == "set_off"
    assert gap.missed_kwh.middle == pytest.approx(WORTH_KWH, rel=0.02)


def test_rows_of_nought_at_noon_tell_that_the_set_was_off_and_are_not_compared() -> None:
    rows = power_rows(12)
    off = replace(rows, value=np.where((rows.at_s >= LOST[0]) & (rows.at_s < LOST[1]), 0.0, rows.value))
    found = told(off)
    assert only(found).kind == "set_off"
    assert (only(found).begin_s, only(found).end_s) == LOST
    reading = read_log(log_from(off), season(12), season(12), utc(), 800.0)
    assert reading.ratio == pytest.approx(1.0, abs=0.005)


def test_days_off_over_the_nights_are_one_gap() -> None:
    rows = power_rows(12)
    off = (rows.at_s >= FIRST_S + 4 * DAY_S) & (rows.at_s < FIRST_S + 7 * DAY_S)
    gap = only(told(replace(rows, value=np.where(off, 0.0, rows.value))))
    assert gap.end_s - gap.begin_s == pytest.approx(2.5 * DAY_S, abs=3 * HOUR_S)
    assert gap.missed_kwh.middle == pytest.approx(3 * 0.6 * 24 / np.pi, rel=0.01)


def test_nought_at_the_same_hour_of_every_day_is_no_switch() -> None:
    rows = power_rows(12)
    hour = rows.at_s % DAY_S / HOUR_S
    assert told(replace(rows, value=np.where((hour >= 9) & (hour < 11.5), 0.0, rows.value))).gaps == ()


def test_nights_that_were_left_out_are_no_gaps() -> None:
    rows = power_rows(12)
    lit = bell_w(rows.at_s + 450) > 0
    found = told(replace(rows, at_s=rows.at_s[lit], value=rows.value[lit]))
    assert found.gaps == ()
    assert found.nights == 11


def test_single_rows_lost_are_counted_and_are_no_gaps() -> None:
    rows = power_rows(12)
    keep = np.arange(rows.at_s.size) % 25 != 0
    found = told(replace(rows, at_s=rows.at_s[keep], value=rows.value[keep]))
    lit = bell_w(rows.at_s + 450) > 0.05 * 600
    assert found.gaps == ()
    assert abs(found.lost_rows - int(np.count_nonzero(~keep & lit))) <= 3
    assert found.lost_rows_kwh == pytest.approx(rows.value[~keep].sum() / 1000, rel=0.05)


def test_a_gap_by_night_is_none() -> None:
    assert told(without(power_rows(12), FIRST_S + 5 * DAY_S + 19 * HOUR_S, FIRST_S + 6 * DAY_S + 5 * HOUR_S)).gaps == ()


@pytest.mark.parametrize(("days_off", "kinds"), [(1, []), (2, []), (7, ["set_off"])])
def test_where_dull_days_of_the_season_give_nothing_only_many_in_a_row_tell_that_the_set_was_off(
    days_off: int, kinds: list[str]
) -> None:
    base = season(20)
    winter = replace(base, dull_shares=(np.zeros(base.hours_w.size), np.full(base.hours_w.size, 0.1)))
    rows = power_rows(20, HOUR_S)
    day = (rows.at_s - FIRST_S) // DAY_S
    off = replace(rows, value=np.where((day >= 5) & (day < 5 + days_off), 0.0, rows.value))
    assert [gap.kind for gap in sorted_gaps(log_from(off).total, winter, winter).gaps] == kinds
    assert [gap.kind for gap in sorted_gaps(log_from(off).total, base, base).gaps] == ["set_off"]


def test_of_a_counter_set_back_in_a_gap_what_it_no_longer_shows_is_missed() -> None:
    rows = counter_rows(12)
    back = FIRST_S + 5 * DAY_S + 12 * HOUR_S
    value = np.where(rows.at_s >= back, rows.value - rows.value[rows.at_s == back], rows.value)
    gap = only(told(without(replace(rows, value=value), LOST[0] + 1, LOST[1])))
    assert gap.regained_kwh == pytest.approx(WORTH_KWH / 2.0, rel=0.02)
    assert gap.missed_kwh.middle == pytest.approx(WORTH_KWH / 2.0, rel=0.05)
    assert gap.missed_kwh.cautious == 0.0
    assert gap.missed_kwh.hopeful > gap.missed_kwh.middle


def test_of_a_counter_set_back_late_in_a_gap_nobody_knows_whether_the_set_ran() -> None:
    rows = counter_rows(12)
    value = np.where(rows.at_s >= LOST[1], rows.value - rows.value[rows.at_s == LOST[1]], rows.value)
    gap = only(told(without(replace(rows, value=value), LOST[0] + 1, LOST[1])))
    assert (gap.kind, gap.regained_kwh) == ("unknown", 0.0)
    assert gap.missed_kwh.middle == pytest.approx(WORTH_KWH, rel=0.05)
