"""Does an input give far less than it should beside another?"""

from dataclasses import replace

import numpy as np
import pytest

from service.core.logbook import WeakInput, input_shares, log_of, read_log, shared_days, weak_inputs
from service.core.model.hours import Floats
from tests.logs import CEILING, DAY_S, FIRST_S, HOUR_S, bell_w, counter_rows, power_rows, season, utc

FIRST_DAY = FIRST_S // DAY_S
DAYS = 60
YEAR_W = np.mean([bell_w(HOUR_S * np.arange(8760) + at) for at in range(30, HOUR_S, 60)], axis=0)
SHARES = input_shares([1, 2], [0.5 * YEAR_W, 0.5 * YEAR_W], 0)


def sky(days: int, seed: int = 3) -> Floats:
    """What each day's weather leaves of the light."""
    return np.random.default_rng(seed).choice([1.0, 0.8, 0.5, 0.2], days)


def by_day(
    level: Floats, *, apart: float = 0.0, morning: float = 1.0, step_s: int = 900, seed: int = 3
) -> tuple[WeakInput, ...]:
    """Two equal inputs under one changing sky, the second at a level of each day.

    ``apart``: how far single days part their light (a logarithm); ``morning``: what is left of the second's mornings.
    """
    days = level.size
    rows = power_rows(days, step_s, 0.5)
    day = (rows.at_s - FIRST_S) // DAY_S
    light = rows.value * sky(days, seed)[day]
    own = light * (level * np.exp(np.random.default_rng(seed + 1).normal(0.0, apart, days)))[day]
    own = np.where(rows.at_s % DAY_S < 12 * HOUR_S, morning, 1.0) * own
    log = log_of([(1, replace(rows, value=light)), (2, replace(rows, value=own))], [CEILING] * 2, utc(), SHARES)
    reading = read_log(log, season(days), season(days), utc(), 800.0)
    told = shared_days(log, reading.sorted.usable, reading.now, {1: 1, 2: 1}, utc())
    assert told is not None
    return weak_inputs(told)


def fell(to: float, at: int = 25, days: int = DAYS) -> Floats:
    return np.where(np.arange(days) >= at, to, 1.0)


@pytest.mark.parametrize("to", [0.05, 0.3, 0.5])
@pytest.mark.parametrize(("days", "at"), [(60, 25), (30, 24), (90, 7)])
def test_an_input_that_falls_from_a_day_on_is_named_with_that_day(to: float, days: int, at: int) -> None:
    (one,) = by_day(fell(to, at, days))
    assert (one.number, one.other, one.code, one.pattern) == (2, 1, "input_dead", "from_a_day")
    assert 0 <= one.since_day - FIRST_DAY - at <= 2  # a dull day or two tell nothing
    assert one.level_share == pytest.approx(to, rel=0.03)
    light = sky(days)
    lost = (1.0 - to) * light[at:].sum()
    assert one.lost_share == pytest.approx(lost / (2 * light.sum()), abs=0.02)
    assert one.sureness_share > 0.9


@pytest.mark.parametrize("to", [0.05, 0.3, 0.5])
def test_an_input_that_always_gave_so_little_is_named_too(to: float) -> None:
    (one,) = by_day(np.full(DAYS, to))
    assert (one.number, one.code, one.pattern) == (2, "input_dead", "always")
    assert one.level_share == pytest.approx(to, rel=0.03)
    assert one.lost_share == pytest.approx((1.0 - to) / 2.0, abs=0.02)


def test_an_input_that_gives_half_on_some_days_is_told_with_how_many() -> None:
    level = np.where(np.arange(DAYS) % 3 == 0, 0.4, 1.0)
    (one,) = by_day(level)
    assert (one.number, one.code, one.pattern) == (2, "input_dead", "some_days")
    assert 0.2 < one.days / one.days_told < 0.5


def test_a_third_of_its_one_panel_is_a_lost_section() -> None:
    for level in (fell(2.0 / 3.0), np.full(DAYS, 2.0 / 3.0)):
        (one,) = by_day(level)
        assert (one.number, one.code) == (2, "bypass_section_lost")


def test_a_fall_that_no_known_cause_leaves_is_told_without_one() -> None:
    (one,) = by_day(fell(0.78))
    assert (one.number, one.code, one.pattern) == (2, None, "from_a_day")
    assert one.note().facts["input"] == 2


@pytest.mark.parametrize("seed", range(12))
def test_sound_inputs_are_not_accused_however_their_days_part_the_light(seed: int) -> None:
    for apart in (0.0, 0.05, 0.15, 0.3):
        assert by_day(np.ones(DAYS), apart=apart, seed=seed) == ()


def test_an_input_a_sixth_under_its_facts_is_no_fault_that_a_ratio_proves() -> None:
    assert by_day(np.full(DAYS, 0.84)) == ()


def test_an_input_that_comes_back_is_not_the_others_fault() -> None:
    level = np.where(np.arange(DAYS) < 25, 0.4, 1.0)
    assert {one.number for one in by_day(level)} == {2}


def test_a_shadow_on_the_mornings_of_one_input_is_no_dead_input() -> None:
    assert by_day(np.ones(DAYS), morning=0.1) == ()
    assert by_day(fell(0.95), morning=0.1) == ()


def test_too_few_days_tell_nothing() -> None:
    assert by_day(np.full(4, 0.4)) == ()


def test_steps_of_a_day_show_it_as_well() -> None:
    (one,) = by_day(fell(0.4), step_s=DAY_S)
    assert (one.number, one.since_day - FIRST_DAY in (25, 26, 27)) == (2, True)


def test_the_gap_of_a_counter_tells_nothing_of_the_days_in_it() -> None:
    """A long reading says how much came in all, not on which day: such days are not compared."""
    rows = counter_rows(DAYS)
    stretch = (FIRST_S + 10 * DAY_S, FIRST_S + 20 * DAY_S)
    holed = (rows.at_s <= stretch[0]) | (rows.at_s >= stretch[1])
    other = replace(rows, at_s=rows.at_s[holed], value=rows.value[holed])
    log = log_of([(1, rows), (2, other)], [CEILING] * 2, utc(), SHARES)
    reading = read_log(log, season(DAYS), season(DAYS), utc(), 800.0)
    told = shared_days(log, reading.sorted.usable, reading.now, {1: 1, 2: 1}, utc())
    assert told is not None
    assert told.energy[:, 11:19].sum() == 0.0
    assert weak_inputs(told) == ()
