"""Are the days of change the best ones?"""

from itertools import product

import numpy as np
import pytest

from service.core.tilt.schedule import Piece, best_schedules, plane_by_day

DAYS = np.arange(365)


def season(low, high, peak_day=172):
    """A plane that brings most on one day of the year."""
    return low + (high - low) * 0.5 * (1 + np.cos(2 * np.pi * (DAYS - peak_day) / 365))


def brought(pieces, daily):
    return daily[plane_by_day(pieces), DAYS].sum()


def exhaustive_two(daily):
    """The best two planes over all pairs of days, by trying them all."""
    summed = np.concatenate((np.zeros((len(daily), 1)), np.cumsum(daily, axis=1)), axis=1)
    best = daily.sum(axis=1).max()
    for begin in range(365):
        inside = summed[:, begin + 1 :] - summed[:, [begin]]
        outside = summed[:, [-1]] - inside
        best = max(best, (inside.max(axis=0) + outside.max(axis=0)).max())
    return best


def test_one_plane_is_the_best_of_all():
    daily = np.stack([season(1, 2), season(2, 1.5), season(1.2, 2.1)])
    [piece] = best_schedules(daily, [1])[1]
    assert piece.plane == int(np.argmax(daily.sum(axis=1)))


def test_summer_and_winter_change_where_their_curves_cross():
    daily = np.stack([season(1, 3), season(2, 2)])  # they cross a quarter of a year off midsummer
    pieces = best_schedules(daily, [2])[2]
    assert [piece.plane for piece in pieces] == [0, 1]
    assert [piece.from_day for piece in pieces] == pytest.approx([172 - 91, 172 + 91], abs=2)


def test_a_winter_that_spans_new_year_is_one_piece():
    daily = np.stack([season(1, 3, peak_day=0), season(2, 2)])
    pieces = best_schedules(daily, [4])[4]
    assert [piece.plane for piece in pieces] == [1, 0]


@pytest.mark.parametrize("seed", range(4))
def test_two_planes_bring_as_much_as_trying_all_days_does(seed):
    chance = np.random.default_rng(seed)
    daily = np.stack([season(*chance.uniform(0.5, 3, 2), chance.integers(365)) for _ in range(12)])
    daily *= chance.uniform(0.6, 1.4, 365)  # the weather of the days
    best = exhaustive_two(daily)
    assert brought(best_schedules(daily, [2])[2], daily) >= best * (1 - 5e-4)


@pytest.mark.parametrize("seed", range(4))
def test_more_planes_never_bring_less_but_for_the_days_within_a_step(seed):
    chance = np.random.default_rng(seed)
    daily = np.stack([season(*chance.uniform(0.5, 3, 2), chance.integers(365)) for _ in range(30)])
    one, two, four, twelve = (brought(best_schedules(daily, [n])[n], daily) for n in (1, 2, 4, 12))
    assert one <= two * (1 + 1e-12)
    assert two <= four * (1 + 1e-4)
    assert four <= twelve * (1 + 1e-4)


def test_the_best_four_of_a_coarse_year_are_those_of_trying_all():
    """Five stretches of even days, their ends on days of change: small enough to try every order."""
    chance = np.random.default_rng(7)
    blocks = chance.uniform(0, 1, (5, 5))
    long = np.array([75, 70, 75, 70, 75])
    daily = np.repeat(blocks, long, axis=1)
    best = 0.0
    for planes in product(range(5), repeat=5):
        changes = sum(planes[at] != planes[at - 1] for at in range(5))
        if changes <= 4:
            best = max(best, sum(blocks[plane, at] * long[at] for at, plane in enumerate(planes)))
    assert brought(best_schedules(daily, [4])[4], daily) == pytest.approx(best)


@pytest.mark.parametrize("seed", range(6))
def test_no_change_is_better_two_days_sooner_or_later(seed):
    chance = np.random.default_rng(seed)
    daily = np.stack([season(*chance.uniform(0.5, 3, 2), chance.integers(365)) for _ in range(8)])
    daily *= chance.uniform(0.5, 1.5, 365)
    pieces = best_schedules(daily, [4])[4]
    as_found = brought(pieces, daily)
    for at, piece in enumerate(pieces):
        on_grid = round(piece.from_day / 5) * 5
        for day in range(on_grid - 2, on_grid + 3):
            moved = [*pieces[:at], Piece(from_day=day % 365, plane=piece.plane), *pieces[at + 1 :]]
            if len(pieces) > 1:
                moved.sort(key=lambda one: one.from_day)
                assert brought(moved, daily) <= as_found * (1 + 1e-12)


def test_before_the_first_change_the_years_last_plane_holds():
    planes = plane_by_day([Piece(from_day=10, plane=3), Piece(from_day=200, plane=1)])
    assert (planes[9], planes[10], planes[199], planes[200], planes[364]) == (1, 3, 3, 1, 1)


@pytest.mark.parametrize("seed", range(3))
def test_a_schedule_is_the_same_whatever_else_is_asked_for(seed):
    chance = np.random.default_rng(seed)
    daily = np.stack([season(*chance.uniform(0.5, 3, 2), chance.integers(365)) for _ in range(8)])
    daily *= chance.uniform(0.6, 1.4, 365)
    both = best_schedules(daily, [2, 4, 12])
    for count in (2, 4, 12):
        assert best_schedules(daily, [count])[count] == both[count]
