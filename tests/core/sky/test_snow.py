"""Snow on the glass: where months are cold, less on steep planes, none on upright ones."""

import numpy as np
import pytest

from service.core.sky import snow_share, stays_share
from tests.kernel_cases import typical


def test_no_snow_lies_where_every_month_is_mild():
    assert typical(38.7, -9.1).snow_share is None


def test_snow_takes_its_part_of_the_cold_months_and_none_of_the_others():
    sky = typical(65.0, 25.5)
    assert sky.snow_share is not None
    by_month = [float(sky.snow_share[sky.calendar.month == month].mean()) for month in range(1, 13)]
    assert by_month[0] == pytest.approx(0.12, abs=0.005)  # Oulu's January, -9 C
    assert max(by_month[5:9]) < 0.01


def test_colder_months_never_have_less_of_it():
    shares = snow_share(np.arange(-30.0, 30.0))
    assert np.all(np.diff(shares) <= 0)
    assert shares[0] == 0.12
    assert shares[-1] == 0


def test_steeper_planes_shed_it():
    assert np.all(np.diff(stays_share(np.arange(0.0, 91.0))) < 0)
    assert stays_share(90.0) == pytest.approx(0, abs=1e-30)
