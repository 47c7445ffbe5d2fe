"""How wide a saving is."""

import numpy as np
import pytest

from service.core.model.band import Z_90, Band, SpreadPart
from service.core.payback import HomeYear
from service.core.worth.bands import PRICE_SD_SHARE, HomeCases, SavingCases, band_of_steps, spread_of
from service.data.prices import load_prices

HOUSEHOLD_PRICES = load_prices().household

HOME = HomeYear(self_used_kwh=np.ones(1), exported_kwh=np.ones(1), demand_kwh=np.ones(1))


def cases(steady, yearly):
    return HomeCases(
        middle=HOME,
        less_energy=HOME,
        more_energy=HOME,
        less_used=HOME,
        more_used=HOME,
        steady_sd_share=steady,
        yearly_sd_share=(yearly, yearly),
    )


def test_weather_shrinks_with_the_root_of_the_years_and_the_rest_does_not():
    assert cases((0.0, 0.0), 0.04).shrunk(4) == pytest.approx((0.5, 0.5))
    assert cases((0.04, 0.04), 0.0).shrunk(25) == (1.0, 1.0)
    assert cases((0.03, 0.03), 0.04).shrunk(16) == pytest.approx((np.hypot(0.03, 0.01) / 0.05,) * 2)
    assert cases((0.0, 0.0), 0.0).shrunk(9) == (1.0, 1.0)


def test_what_lasts_towards_less_alone_leaves_the_hopeful_end_to_the_weather():
    """Of 16 years' mean the weather's 0.04 is 0.01; beside it 0.03 lasts, on one side."""
    less, more = cases((0.03, 0.0), 0.04).shrunk(16)
    assert less == pytest.approx(np.hypot(0.03, 0.01) / 0.05)
    assert more == pytest.approx(0.25)


def test_each_end_of_the_energy_shrinks_by_its_own_share_whichever_way_it_moves_the_saving():
    same = np.array([5.0]), np.array([5.0])
    for ends, expected in (((1.0, 9.0), (3.0, 5.4)), ((9.0, 1.0), (4.6, 7.0))):
        energy = np.array([ends[0]]), np.array([ends[1]])
        saving = SavingCases(middle=np.array([5.0]), by_energy=energy, by_use=same)
        assert np.ravel(saving.ends((0.5, 0.1), 0.0)) == pytest.approx(expected)


def test_the_weather_part_is_told_from_the_rest_by_its_code():
    parts = [SpreadPart("year_to_year", 0.02), SpreadPart("plane", 0.1, 0.03), SpreadPart("model", 0.04)]
    steady, yearly = spread_of(parts)
    assert steady == pytest.approx((np.hypot(0.1, 0.04), 0.05))
    assert yearly == (0.02, 0.02)


def test_steps_of_independent_causes_combine_by_squares_down_and_up_apart():
    assert band_of_steps(10.0, [(7.0, 12.0), (6.0, 10.0)]) == Band(5.0, 10.0, 12.0)


def test_where_more_energy_means_less_saving_the_ends_are_still_the_right_way_round():
    saving = SavingCases(
        middle=np.array([5.0]), by_energy=(np.array([8.0]), np.array([1.0])), by_use=(np.array([5.0]), np.array([5.0]))
    )
    cautious, hopeful = saving.ends((1.0, 1.0), 0.0)
    assert (cautious[0], hopeful[0]) == (1.0, 8.0)


def test_the_price_to_come_widens_both_ends_alike():
    flat = np.array([100.0])
    saving = SavingCases(middle=flat, by_energy=(flat, flat), by_use=(flat, flat))
    cautious, hopeful = saving.ends((1.0, 1.0), 0.05)
    assert hopeful[0] - 100 == pytest.approx(100 - cautious[0])
    assert hopeful[0] - 100 == pytest.approx(5 * Z_90)


def test_the_doubt_about_prices_is_what_the_table_of_prices_moved_by_within_a_year():
    """Robust standard deviation, 1.4826 times the median of the absolute change between the halves of 2025."""
    halves = [one for one in HOUSEHOLD_PRICES if (one.period, one.previous_period) == ("2025-S2", "2025-S1")]
    moved = [abs(one.price_per_kwh / one.previous_price_per_kwh - 1) for one in halves]
    assert len(moved) >= 25
    assert pytest.approx(1.4826 * np.median(moved), abs=0.002) == PRICE_SD_SHARE
