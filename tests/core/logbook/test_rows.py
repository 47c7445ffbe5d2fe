"""What do the rows of a log say, and what is taken out of them?"""

from dataclasses import replace

import numpy as np
import pytest

from service.core.logbook import Rows
from tests.logs import DAY_S, FIRST_S, HOUR_S, log_from, notes_of, power_rows, without

NOON_S = FIRST_S + 12 * HOUR_S


def hourly(values: list[float], first_s: int = FIRST_S + 10 * HOUR_S, hours: list[int] | None = None) -> Rows:
    at = first_s + HOUR_S * np.array(hours if hours is not None else range(len(values)))
    return Rows(kind="interval", at_s=at, value=np.array(values, dtype=np.float64), stamp="start")


def test_the_same_row_twice_counts_once_and_two_that_disagree_do_not_count() -> None:
    # 10:00 310, 11:00 420 twice, 12:00 455, 13:00 440 and 260, 14:00 390 Wh: sure are 1575 Wh
    log = log_from(hourly([310, 420, 420, 455, 440, 260, 390], hours=[0, 1, 1, 2, 3, 3, 4]))
    assert log.total.energy_wh.sum() == pytest.approx(1575.0)
    assert notes_of(log) == {"duplicates": 1, "disputed": 1}
    [disputed] = [note for note in log.notes if note.code == "disputed"]
    assert (disputed.facts["low"], disputed.facts["high"]) == (260.0, 440.0)


def test_a_day_can_hold_no_more_than_the_inverter_gives_so_kwh_that_are_wh_are_read_as_wh_and_told() -> None:
    days = np.array([3120.0, 2840.0, 960.0, 3350.0]) * 1000.0  # called kWh
    rows = Rows(kind="interval", at_s=FIRST_S + DAY_S * np.arange(4), value=days, stamp="start")
    log = log_from(rows)
    assert log.total.energy_wh.sum() / 1000.0 == pytest.approx(10.27)
    assert notes_of(log) == {"unit_too_large": 4}


def test_kwh_that_were_called_wh_are_told_too() -> None:
    rows = power_rows(10)
    log = log_from(replace(rows, value=rows.value / 1000.0))
    assert log.total.energy_wh.sum() == pytest.approx(rows.value.sum())
    assert set(notes_of(log)) == {"unit_too_small"}


def test_a_unit_that_changes_on_the_way_is_mended_from_there_on() -> None:
    rows = power_rows(20)
    mixed = np.where(rows.at_s >= FIRST_S + 15 * DAY_S, rows.value * 1000.0, rows.value)
    log = log_from(replace(rows, value=mixed))
    assert log.total.energy_wh.sum() == pytest.approx(rows.value.sum(), rel=1e-9)
    assert "unit_too_large" in notes_of(log)


def test_impossible_values_count_as_not_logged_and_the_draw_by_night_as_nought() -> None:
    rows = power_rows(3)
    value = rows.value.copy()
    value[0], value[48], value[144], value[150] = -0.4, 9999.0, -9999.0, np.nan
    log = log_from(replace(rows, value=value))
    assert notes_of(log) == {"empty_rows": 1, "below_zero": 1, "impossible": 2}
    lost = rows.value[[48, 144, 150]].sum()
    assert log.total.energy_wh.sum() == pytest.approx(rows.value.sum() - lost)


def test_rows_in_any_order_make_the_same_log() -> None:
    rows = power_rows(5)
    order = np.random.default_rng(7).permutation(rows.at_s.size)
    shuffled = log_from(replace(rows, at_s=rows.at_s[order], value=rows.value[order]))
    assert np.array_equal(shuffled.total.energy_wh, log_from(rows).total.energy_wh)
    assert set(notes_of(shuffled)) == {"unordered"}


@pytest.mark.parametrize(("stamp", "begins_s"), [("start", NOON_S), ("middle", NOON_S - 450), ("end", NOON_S - 900)])
def test_a_stamp_names_the_start_the_middle_or_the_end(stamp: str, begins_s: int) -> None:
    rows = Rows(kind="interval", at_s=NOON_S + 900 * np.arange(4), value=np.full(4, 100.0), stamp=stamp)
    pieces = log_from(rows).total
    assert pieces.begin_s[0] == begins_s
    assert pieces.seconds.tolist() == [900] * 4


def test_power_is_energy_by_its_time_and_a_missing_row_is_not_filled() -> None:
    at = NOON_S + 300 * np.arange(24)
    rows = without(Rows(kind="power", at_s=at, value=np.full(24, 300.0), stamp="middle"), NOON_S + 600, NOON_S + 1200)
    assert log_from(rows).total.energy_wh.sum() == pytest.approx(22 * 25.0)


def test_stamps_that_jitter_by_seconds_lose_no_energy() -> None:
    rows = power_rows(4)
    jitter = np.random.default_rng(1).integers(-20, 21, rows.at_s.size)
    log = log_from(replace(rows, at_s=rows.at_s + jitter))
    assert log.total.energy_wh.sum() == pytest.approx(rows.value.sum())
    assert (log.total.begin_s[1:] >= log.total.end_s[:-1]).all()


def test_a_month_lasts_from_local_midnight_to_the_next_month() -> None:
    rows = Rows(
        kind="month", at_s=np.array([FIRST_S, FIRST_S + 31 * DAY_S]), value=np.array([9e4, 9.5e4]), stamp="start"
    )
    assert log_from(rows).total.seconds.tolist() == [31 * DAY_S, 30 * DAY_S]
