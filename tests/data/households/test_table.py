"""Column rules of the average home's demand."""

import numpy as np
import pytest

from service.data.households import load_demand_shape

SHAPE = load_demand_shape()


def test_it_has_twelve_months_three_kinds_of_day_and_twenty_four_hours():
    assert SHAPE.by_month_kind_hour.shape == (12, 3, 24)
    assert len(SHAPE.day_polynomial) == 5


def test_every_power_is_positive_and_none_is_absurd():
    assert SHAPE.by_month_kind_hour.min() > 0
    assert SHAPE.by_month_kind_hour.max() < 5 * SHAPE.by_month_kind_hour.mean()


def test_evenings_draw_most_and_nights_least_on_every_kind_of_day():
    mean_day = SHAPE.by_month_kind_hour.mean(axis=0)
    assert set(mean_day.argmax(axis=1)) <= set(range(11, 21))
    assert set(mean_day.argmin(axis=1)) <= {2, 3, 4, 5}


def test_the_factor_by_day_is_highest_in_winter_and_stays_near_one():
    factor = np.polynomial.polynomial.polyval(np.arange(1.0, 367.0), SHAPE.day_polynomial)
    assert 0.7 < factor.min() < factor.max() < 1.3
    assert factor[[0, 364]].min() > factor[180]


def test_it_is_read_only_and_tells_its_source():
    with pytest.raises(ValueError, match="read-only"):
        SHAPE.by_month_kind_hour[0, 0, 0] = 1.0
    assert "H25" in SHAPE.source
