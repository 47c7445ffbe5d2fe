"""Is a clock that is off by hours known from the dark that it moves energy into, and nothing else taken for it?"""

import numpy as np
import pytest

from service.core.logbook.clock_hours import clock_off_h
from service.core.logbook.pieces import Pieces

HOUR_S = 3600
HOURS = np.arange(8760)


def days_of(noon_h: float) -> np.ndarray:
    """A year of equal days of twelve hours of light around a noon, W."""
    return np.maximum(np.cos(2 * np.pi * ((HOURS % 24) + 0.5 - noon_h) / 24), 0.0) * 500.0


def pieces_of(energy_wh: np.ndarray, ahead_h: int = 0) -> Pieces:
    """Sixty days of hours from 1 April."""
    rows = np.arange(90 * 24, 150 * 24)
    begin = rows * HOUR_S + int(np.datetime64("2025-01-01", "s").astype(np.int64)) + ahead_h * HOUR_S
    return Pieces(
        begin_s=begin, end_s=begin + HOUR_S, energy_wh=energy_wh[rows], at_least=np.zeros(rows.size, np.bool_),
        resolution_wh=0.0, step_s=HOUR_S, running_sum=False,
    )  # fmt: skip


@pytest.mark.parametrize("ahead_h", [*range(-11, -2), *range(3, 13)])
def test_hours_are_told_whichever_way_the_clock_is_off(ahead_h: int) -> None:
    assert (clock_off_h(pieces_of(days_of(12.0), ahead_h), days_of(12.0), 0) - ahead_h) % 24 == 0


@pytest.mark.parametrize("ahead_h", [-2, -1, 0, 1, 2])
def test_what_clear_days_show_better_is_left_to_them(ahead_h: int) -> None:
    assert clock_off_h(pieces_of(days_of(12.0), ahead_h), days_of(12.0), 0) == 0


def test_a_panel_that_looks_another_way_a_store_and_a_home_are_no_clock() -> None:
    stated = days_of(12.0)
    morning = np.where(HOURS % 24 < 9, stated, 0.0)  # what only sees the sun till nine
    assert clock_off_h(pieces_of(morning), stated, 0) == 0
    by_night_too = np.full(8760, 80.0)
    assert clock_off_h(pieces_of(by_night_too), stated, 0) == 0
    sun_and_store = stated + np.where(HOURS % 24 >= 19, 150.0, 0.0)
    assert clock_off_h(pieces_of(sun_and_store), stated, 0) == 0


def test_few_days_tell_nothing() -> None:
    short = pieces_of(days_of(12.0), 6)
    assert clock_off_h(short.part(np.arange(short.begin_s.size) < 3 * 24), days_of(12.0), 0) == 0
