"""What passes the meter in a year, scaled and shifted."""

import numpy as np
import pytest

from service.core.payback import AtPrices, HomeYear, scaled, shifted_use, stacked


def home(self_used, exported, demand, bought, sold):
    """One register; ``bought`` and ``sold`` are mean prices of the self-used and the exported kWh, by cell."""
    self_used, exported = np.array(self_used), np.array(exported)
    used_at, sent_at = np.array(bought), np.array(sold)
    return HomeYear(
        self_used_kwh=self_used,
        exported_kwh=exported,
        demand_kwh=np.array(demand),
        at=(
            None,
            AtPrices(
                self_used=np.stack([self_used * used_at[0], self_used * used_at[1]]),
                exported=np.stack([exported * sent_at[0], exported * sent_at[1]]),
            ),
        ),
    )


YEAR = home([30.0, 40.0], [5.0, 60.0], [150.0, 60.0], ([0.30, 0.31], [0.06, 0.07]), ([0.20, 0.21], [0.02, 0.03]))


def test_scaling_keeps_the_prices():
    half = scaled(YEAR, 0.5)
    np.testing.assert_allclose(half.self_used_kwh, [15, 20])
    np.testing.assert_allclose(half.at[1].exported, YEAR.at[1].exported / 2)
    np.testing.assert_array_equal(half.demand_kwh, YEAR.demand_kwh)
    assert half.at[0] is None


def test_what_is_used_less_goes_out_at_the_prices_of_its_hours():
    less = shifted_use(YEAR, -0.1)
    np.testing.assert_allclose(less.self_used_kwh, [27, 36])
    np.testing.assert_allclose(less.exported_kwh, [8, 64])
    np.testing.assert_allclose(less.at[1].self_used, YEAR.at[1].self_used * 0.9)
    np.testing.assert_allclose(less.at[1].exported[0], [5 * 0.20 + 3 * 0.30, 60 * 0.21 + 4 * 0.31])


def test_what_is_used_more_was_sent_out_before_and_no_more_than_that():
    more = shifted_use(YEAR, 0.5)
    np.testing.assert_allclose(more.self_used_kwh, [35, 60])  # production 35, demand 60
    np.testing.assert_allclose(more.exported_kwh, [0, 40], atol=1e-12)
    np.testing.assert_allclose(more.at[1].self_used[0], [30 * 0.30 + 5 * 0.20, 40 * 0.31 + 20 * 0.21])
    np.testing.assert_allclose(more.at[1].exported[1], [0, 40 * 0.03], atol=1e-12)


@pytest.mark.parametrize("share", [-0.5, -0.1, 0.0, 0.2, 5.0])
def test_shifting_keeps_the_value_of_all_at_one_price(share):
    moved, before = shifted_use(YEAR, share).at[1], YEAR.at[1]
    np.testing.assert_allclose(moved.self_used + moved.exported, before.self_used + before.exported)


def test_stacked_years_keep_their_order():
    both = stacked([YEAR, scaled(YEAR, 2.0)])
    assert both.self_used_kwh.shape == (2, 2)
    assert both.at[0] is None
    np.testing.assert_allclose(both.at[1].exported[:, 1], 2 * YEAR.at[1].exported)
