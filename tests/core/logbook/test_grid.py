"""How does a log look on even steps?"""

from dataclasses import replace

import numpy as np
import pytest

from service.core.logbook import Rows, zone_of
from service.core.logbook.grid import series_of, spread_out
from service.core.logbook.log import log_of
from service.core.logbook.series import LoggedSeries
from tests.logs import CEILING, DAY_S, FIRST_S, HOUR_S, counter_rows, log_from, power_rows, season, utc, without


def on_steps(rows: Rows) -> LoggedSeries:
    pieces = log_from(rows).total
    found = series_of(pieces, ~pieces.at_least, utc(), 800.0)
    assert found is not None
    return found


@pytest.mark.parametrize("step_s", [300, 900, 3600])
def test_a_log_on_even_steps_is_the_log_itself(step_s: int) -> None:
    rows = power_rows(4, step_s)
    series = on_steps(rows)
    assert series.step_s == step_s
    assert series.start_s.tolist() == rows.at_s.tolist()
    assert series.energy_wh == pytest.approx(rows.value)


def test_minutes_are_joined_to_five_of_them() -> None:
    rows = power_rows(2, 60)
    series = on_steps(rows)
    assert series.step_s == 300
    assert series.energy_wh == pytest.approx(rows.value.reshape(-1, 5).sum(axis=1))


def test_a_counter_is_the_same_as_its_intervals_and_a_gap_stays_open() -> None:
    lost = (FIRST_S + DAY_S + 8 * HOUR_S, FIRST_S + DAY_S + 14 * HOUR_S)
    series = on_steps(without(counter_rows(3), lost[0] + 1, lost[1]))
    made = power_rows(3)
    open_steps = (series.start_s >= lost[0]) & (series.start_s < lost[1])
    assert np.isnan(series.energy_wh[open_steps]).all()
    assert series.energy_wh[~open_steps] == pytest.approx(made.value[~open_steps], abs=1e-6)


def test_one_lost_reading_of_a_counter_is_bridged() -> None:
    noon = FIRST_S + DAY_S + 12 * HOUR_S
    series = on_steps(without(counter_rows(3), noon, noon + 1))
    assert np.isfinite(series.energy_wh).all()
    assert series.energy_wh.sum() == pytest.approx(power_rows(3).value.sum())


def test_a_counter_of_whole_kwh_is_told_in_steps_that_its_rounding_bears() -> None:
    rows = counter_rows(20, HOUR_S)
    series = on_steps(replace(rows, value=np.floor(rows.value / 1000.0) * 1000.0))
    assert series.step_s > HOUR_S
    assert np.nansum(series.energy_wh) == pytest.approx(power_rows(20).value.sum(), rel=0.02)


def test_days_that_summer_time_makes_shorter_stay_a_day_apart_and_hold_their_energy() -> None:
    zone = zone_of("Europe/Berlin", 13.4, FIRST_S - 90 * DAY_S, FIRST_S)
    days = np.arange(20170, 20184)  # 23 March to 5 April 2025
    rows = Rows(kind="interval", at_s=zone.midnight_s(days), value=np.arange(14.0) + 1000.0, stamp="start")
    log = log_of([(None, rows)], [CEILING], zone)
    series = series_of(log.total, ~log.total.at_least, zone, 800.0)
    assert series is not None
    assert np.diff(series.start_s).tolist() == [DAY_S] * 13
    assert series.energy_wh.tolist() == rows.value.tolist()


def test_what_a_counter_made_good_is_spread_by_what_was_to_be_expected_and_not_on_its_last_day() -> None:
    rows = without(counter_rows(8), FIRST_S + 2 * DAY_S + 1, FIRST_S + 5 * DAY_S)
    whole = spread_out(log_from(rows).total, season(8))
    by_day = np.bincount((whole.begin_s - FIRST_S) // DAY_S, weights=whole.energy_wh)
    assert by_day == pytest.approx(np.full(8, power_rows(1).value.sum()), rel=1e-3)
