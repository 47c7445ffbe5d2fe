"""Are sums over groups of hours those of each group by itself, however many rows there are?"""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from service.core.shortlist.grouped import Curves, GroupedYear, some_at_a_time

GROUPS, STRETCHES, MOST_W = 7, 4, 800.0


def year_of(seed: int) -> tuple[GroupedYear, np.ndarray, np.ndarray]:
    """A year of seven groups, and of each group the levels of power and the savings that its curve goes through."""
    chance = np.random.default_rng(seed)
    levels = MOST_W * np.linspace(0.0, 1.0, STRETCHES + 1) ** 2
    known = np.cumsum(np.hstack([np.zeros((GROUPS, 1)), chance.uniform(0.0, 90.0, (GROUPS, STRETCHES))]), axis=1)
    slope = np.diff(known, axis=1) / np.diff(levels)
    curves = Curves(
        base=(known[:, :-1] - slope * levels[:-1]).ravel().astype(np.float32),
        slope=slope.ravel().astype(np.float32),
        stretches=STRETCHES,
        per_w=np.float32(STRETCHES**2 / MOST_W),
    )
    year = GroupedYear(
        hours=chance.integers(1, 90, GROUPS).astype(np.float32), irradiance_w_per_m2=np.ones((1, GROUPS)),
        cell_c=np.ones((1, GROUPS)), flicker_share=None, up_share=0.9,
        like_days=np.arange(GROUPS) % 2, saved=curves,
    )  # fmt: skip
    return year, levels, known


@settings(max_examples=40, deadline=None)
@given(st.integers(0, 10**6), st.integers(1, 5))
def test_a_year_is_the_sum_of_what_each_group_brings_and_saves(seed: int, rows: int) -> None:
    year, levels, known = year_of(seed)
    power = np.random.default_rng(seed + 1).uniform(0.0, MOST_W, (rows, GROUPS)).astype(np.float32)
    kwh, saved = year.sums(power)
    assert kwh == pytest.approx(0.9 * (power.astype(float) * year.hours).sum(axis=1) / 1000.0, rel=1e-5)
    each = [sum(np.interp(one[group], levels, known[group]) for group in range(GROUPS)) / 1000.0 for one in power]
    assert saved == pytest.approx(each, rel=1e-4, abs=1e-5)


def test_the_most_power_is_read_off_its_own_groups_curve() -> None:
    year, _, known = year_of(3)
    _, saved = year.sums(np.full((1, GROUPS), MOST_W, np.float32))
    assert saved == pytest.approx([known[:, -1].sum() / 1000.0], rel=1e-5)


@pytest.mark.parametrize("rows", [0, 1, 64, 65, 200])
def test_rows_asked_for_by_parts_are_those_of_all_at_once(rows: int) -> None:
    year, *_ = year_of(5)
    power = np.random.default_rng(5).uniform(0.0, MOST_W, (rows, GROUPS)).astype(np.float32)
    parts, whole = some_at_a_time(rows, lambda part: year.sums(power[part])), year.sums(power)
    assert parts[0] == pytest.approx(whole[0], rel=1e-6)
    assert parts[1] == pytest.approx(whole[1], rel=1e-6)
    assert some_at_a_time(rows, lambda part: (year.sums(power[part])[0], None))[1] is None


def test_what_starts_in_the_morning_runs_on_to_the_end_of_its_own_day() -> None:
    year = replace(year_of(3)[0], like_days=np.array([0, 1, 0, 1, 0, 1, 2]))
    groups = np.array([0, 1, 2, 3, 5, 6])  # 4 is dark
    starts = np.array([[True, False, False, True, False, False], [False, False, False, False, False, True]])
    assert year.running(starts, groups).tolist() == [
        [True, False, True, True, True, False],
        [False, False, False, False, False, True],
    ]
