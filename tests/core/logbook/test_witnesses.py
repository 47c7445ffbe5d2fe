"""Which logs are asked for causes, and is it one decision?"""

from collections.abc import Collection
from dataclasses import replace

import numpy as np
import pytest

from service.core.logbook import (
    Diagnosis,
    LoggedSeries,
    Reading,
    SharedDays,
    Suspect,
    Witnesses,
    input_shares,
    log_of,
    read_log,
    shared_days,
    witnesses,
)
from service.core.model.hours import Floats
from tests.logs import CEILING, DAY_S, FIRST_S, HOUR_S, bell_w, counter_rows, power_rows, season, utc

DAYS = 42
YEAR_W = np.mean([bell_w(HOUR_S * np.arange(8760) + at) for at in range(30, HOUR_S, 60)], axis=0)
SHARES = input_shares([1, 2], [0.5 * YEAR_W, 0.5 * YEAR_W], 0)
Asked = list[tuple[int | None, frozenset[str], int]]


def read(second: Floats | float = 1.0) -> tuple[Reading, SharedDays | None]:
    """Two equal inputs under one changing sky; of the second so much is left, row by row."""
    rows = power_rows(DAYS, 900, 0.5)
    light = rows.value * np.random.default_rng(3).choice([1.0, 0.8, 0.5], DAYS)[(rows.at_s - FIRST_S) // DAY_S]
    parts = [(1, replace(rows, value=light)), (2, replace(rows, value=light * second))]
    log = log_of(parts, [CEILING] * 2, utc(), SHARES)
    reading = read_log(log, season(DAYS), season(DAYS), utc(), 800.0)
    return reading, shared_days(log, reading.sorted.usable, reading.now, {1: 1, 2: 1}, utc())


def said(sureness: float, code: str = "dirt_drift", conclusion: str = "something_wrong") -> Diagnosis:
    suspect = Suspect(code=code, sureness_share=sureness, effect_share=0.1, evidence={"level": 1.0})
    return Diagnosis(conclusion=conclusion, sureness_share=sureness, suspects=(suspect,), plane=None, clear_days=9)


def asked(second: Floats | float, *, whole: bool = True) -> Asked:
    reading, days = read(second)
    calls: Asked = []

    def ask(series: LoggedSeries, excluded: Collection[str], tries: int) -> Diagnosis:
        calls.append((series.input, frozenset(excluded), tries))
        return said(0.9)

    witnesses(reading.series if whole else None, reading.input_series, days, ask)
    return calls


def test_of_sound_inputs_the_set_s_log_alone_decides_and_an_input_s_own_faults_are_told_beside_the_other() -> None:
    assert asked(1.0) == [(None, frozenset({"input_dead", "bypass_section_lost"}), 1)]


def test_an_input_that_lacks_its_afternoons_is_asked_for_a_shadow_and_has_to_be_surer() -> None:
    at_s = power_rows(DAYS, 900, 0.5).at_s % DAY_S
    calls = asked(np.where(at_s > 13 * HOUR_S, 0.5, 1.0))
    assert {number for number, *_ in calls} == {None, 1, 2}
    for number, excluded, tries in calls:
        if number is not None:
            assert tries == 3
            assert "undeclared_shade" not in excluded
            assert {"grid_trips", "heat_derating", "dirt_drift", "clock_shift", "input_dead"} <= excluded


def test_an_input_whose_level_sinks_beside_the_other_is_asked_for_dirt() -> None:
    day = (power_rows(DAYS, 900, 0.5).at_s - FIRST_S) // DAY_S
    (of_second,) = [excluded for number, excluded, _ in asked(1.0 - 0.012 * (day % 20)) if number == 2]
    assert "dirt_drift" not in of_second
    assert {"undeclared_shade", "heat_derating", "grid_trips"} <= of_second


def test_where_nothing_is_known_of_the_whole_set_its_inputs_share_the_doubt() -> None:
    assert asked(1.0, whole=False) == [(1, frozenset(), 2), (2, frozenset(), 2)]


def test_the_first_suspect_is_of_a_log_that_raises_the_alarm_and_so_is_what_is_said_of_it() -> None:
    found = Witnesses(found={None: said(0.6, "heat_derating", "nothing_unusual"), 2: said(0.5, "undeclared_shade")})
    first, number = found.suspects()[0]
    assert (first.code, number, found.alarm) == ("undeclared_shade", 2, True)
    assert found.wrong_share(first.code, number, first.sureness_share) == 0.5
    assert found.wrong_share("input_dead", 1, 0.9) == 0.9


def test_what_a_counter_brought_over_a_gap_is_no_course_of_the_whole_set_s_day() -> None:
    rows = counter_rows(DAYS, 900, 0.5)
    day = (rows.at_s - FIRST_S) // DAY_S
    gap = (day >= 20) & (day < 28)
    kept = replace(rows, **{name: getattr(rows, name)[~gap] for name in ("at_s", "value")})
    log = log_of([(1, rows), (2, kept)], [CEILING] * 2, utc(), SHARES)
    reading = read_log(log, season(DAYS), season(DAYS), utc(), 800.0)
    series = reading.series
    assert series is not None
    at = (series.start_s - FIRST_S) // DAY_S
    assert np.isnan(series.energy_wh[(at >= 21) & (at < 27)]).all()
    assert np.isfinite(series.energy_wh[at < 19]).all()
    assert reading.logged_kwh == pytest.approx(float(np.ptp(rows.value)) * 2 / 1000.0, rel=0.01)
