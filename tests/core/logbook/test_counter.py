"""What does a running counter tell?"""

from dataclasses import replace

import numpy as np
import pytest

from service.core.logbook import Rows
from tests.logs import DAY_S, FIRST_S, HOUR_S, counter_rows, log_from, notes_of, without


def evenings(*kwh: float, days: list[int] | None = None) -> Rows:
    """Readings at nine in the evening."""
    at = FIRST_S + 21 * HOUR_S + DAY_S * np.array(days if days is not None else range(len(kwh)))
    return Rows(kind="counter", at_s=at, value=1000.0 * np.array(kwh), stamp="start")


def test_days_that_were_not_read_are_in_the_sum_of_the_next_reading() -> None:
    log = log_from(evenings(100.0, 102.1, 108.9, 110.3, days=[0, 1, 4, 5]))
    assert log.total.energy_wh.sum() / 1000.0 == pytest.approx(10.3)
    assert (log.total.energy_wh / 1000.0).tolist() == pytest.approx([2.1, 6.8, 1.4])


def test_after_a_reset_at_least_the_new_reading_came_and_the_old_sum_is_no_loss() -> None:
    log = log_from(evenings(512.3, 514.1, 0.4, 2.6, 4.9))
    assert (log.total.energy_wh / 1000.0).tolist() == pytest.approx([1.8, 0.4, 2.2, 2.3])
    assert log.total.at_least.tolist() == [False, True, False, False]
    assert notes_of(log) == {"counter_reset": 1}


def test_a_counter_that_begins_each_day_is_read_day_by_day_even_over_a_gap() -> None:
    rows = counter_rows(12)
    daily = rows.value - rows.value[0]
    daily -= np.repeat(daily[::96][:13], 96)[: daily.size]
    gap = (FIRST_S + 4 * DAY_S + 10 * HOUR_S, FIRST_S + 6 * DAY_S + 14 * HOUR_S)
    log = log_from(without(replace(rows, value=daily), *gap))
    assert notes_of(log) == {"counter_daily": 10}  # twelve midnights, two of them in the gap
    lost = np.diff(np.interp([gap[0] - 900, FIRST_S + 6 * DAY_S], rows.at_s, rows.value))[0]
    assert log.total.energy_wh.sum() == pytest.approx(rows.value[-1] - rows.value[0] - lost, rel=1e-6)


def test_a_reading_that_the_next_one_takes_back_is_dropped() -> None:
    rows = counter_rows(3)
    value = rows.value.copy()
    value[100] += 40_000.0
    value[180] = 12.0
    log = log_from(replace(rows, value=value))
    assert notes_of(log) == {"counter_spikes": 2}
    assert log.total.energy_wh.sum() == pytest.approx(value[-1] - value[0])


def test_a_jump_that_the_set_cannot_have_made_is_left_out() -> None:
    rows = counter_rows(3)
    value = np.where(rows.at_s > FIRST_S + DAY_S, rows.value + 700_000.0, rows.value)
    log = log_from(replace(rows, value=value))
    assert notes_of(log) == {"counter_jump": 1}
    assert log.total.energy_wh.sum() == pytest.approx(rows.value[-1] - rows.value[0])


def test_a_counter_that_slips_back_by_a_trifle_stands_still() -> None:
    log = log_from(evenings(100.0, 102.1, 102.08, 104.0))
    assert notes_of(log) == {"counter_slipped": 1}
    assert (log.total.energy_wh / 1000.0).tolist() == pytest.approx([2.1, 0.0, 1.92])


def test_wh_that_were_called_kwh_are_told() -> None:
    rows = counter_rows(5)
    log = log_from(replace(rows, value=rows.value * 1000.0))
    assert set(notes_of(log)) == {"unit_too_large"}
    assert log.total.energy_wh.sum() == pytest.approx(rows.value[-1] - rows.value[0])
