"""Are a month's days spread between their bounds, and is its mean kept?"""

import numpy as np
import pytest

from service.core.sky.clear_sky import MONTH_DAYS
from service.core.sky.day_clearness import (
    BRIGHTEST_INDEX,
    CLEAREST_INDEX,
    LEAST_CLEARNESS,
    LEAST_INDEX_AT_MOST,
    DaySums,
    clearest_index,
    day_indices,
    least_index,
)

MONTH = np.repeat(np.arange(12), MONTH_DAYS)
DARK_MONTH = 11
# From a winter of which a twelfth is next to nought and another twice the mean, to a steady summer.
WIDE = np.linspace(0.02, 1.98, 12)
UNEVEN = np.array([np.ones(12) + (WIDE - 1.0) * share for share in np.linspace(1.0, 0.1, 12)])


def light(cloudless_share: float = 1.05, clearness: float = 0.7) -> DaySums:
    """Days that grow within each month; none has light in the last."""
    clear = 3000.0 + 20.0 * (np.arange(365) % 30)
    clear[MONTH == DARK_MONTH] = 0.0
    return DaySums(clear=clear, cloudless=cloudless_share * clear, outside=clear / clearness, month=MONTH)


def months(days: DaySums) -> tuple[np.ndarray, ...]:
    return tuple(np.bincount(days.month, light, 12) for light in (days.clear, days.cloudless, days.outside))


MEANS = [np.full(12, 0.25), np.full(12, 0.5), np.full(12, 0.9), np.full(12, 1.1), np.linspace(0.3, 1.0, 12)]


@pytest.mark.parametrize("mean", MEANS)
@pytest.mark.parametrize("clearness", [0.3, 0.6, 0.75])
def test_the_month_s_mean_is_kept_and_no_day_leaves_its_bounds(mean: np.ndarray, clearness: float) -> None:
    days = light(clearness=clearness)
    index = day_indices(mean, UNEVEN, days)
    clear, cloudless, outside = months(days)
    lit = np.arange(12) != DARK_MONTH
    found = np.bincount(MONTH, index * days.clear, 12)[lit] / clear[lit]
    assert found == pytest.approx(mean[lit], rel=1e-12)
    of_lit_days = MONTH != DARK_MONTH
    least, most = least_index(mean, clear, outside)[MONTH], clearest_index(mean, clear, cloudless)[MONTH]
    assert np.all(index[of_lit_days] > least[of_lit_days] - 1e-9)
    assert np.all(index[of_lit_days] < most[of_lit_days] + 1e-9)
    assert np.all(index[~of_lit_days] == 0.0)


def test_the_least_day_has_a_twentieth_of_the_light_outside_the_air_but_for_a_sun_at_the_horizon() -> None:
    clear, outside = np.array([700.0, 500.0, 300.0]), np.full(3, 1000.0)
    least = least_index(np.full(3, 0.6), clear, outside)
    assert least[:2] * clear[:2] / outside[:2] == pytest.approx(LEAST_CLEARNESS)
    assert least[2] == LEAST_INDEX_AT_MOST


def test_the_brightest_day_is_a_cloudless_one_and_brighter_with_a_low_sun() -> None:
    most = clearest_index(np.full(3, 0.6), np.full(3, 100.0), np.array([104.0, 110.0, 300.0]))
    assert most == pytest.approx([CLEAREST_INDEX, 1.122, BRIGHTEST_INDEX])


def test_days_keep_their_order_and_alike_ones_stay_alike() -> None:
    days, mean = light(), np.full(12, 0.6)
    spread = day_indices(mean, UNEVEN, days)[:31]
    steadier = day_indices(mean, np.tile(UNEVEN[6], (12, 1)), days)[:31]
    assert np.all(np.diff(spread[np.argsort(steadier)]) > -1e-12)
    assert day_indices(mean, np.ones((12, 12)), days)[:31] == pytest.approx(0.6)


def test_far_from_both_bounds_days_differ_by_two_fifths_more_than_the_cell_s() -> None:
    """What the stretch means where it means anything simple: small deviations about the middle."""
    cell = np.tile(1.0 + np.linspace(-0.05, 0.05, 12), (12, 1))
    middle = (LEAST_CLEARNESS / 0.7 + CLEAREST_INDEX) / 2.0
    index = day_indices(np.full(12, middle), cell, light())[:31]
    assert np.ptp(index) / middle == pytest.approx(1.4 * 0.1, rel=0.02)


def test_dull_and_clear_days_alternate_and_do_not_follow_the_month() -> None:
    index = day_indices(np.full(12, 0.6), UNEVEN, light())[:31]
    assert abs(np.corrcoef(index, np.arange(31))[0, 1]) < 0.25
    assert np.mean(np.diff(np.sign(np.diff(index))) != 0) > 0.5
