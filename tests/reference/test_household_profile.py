"""The published household profile, against what the package that carries it says of it.

Source: demandlib 0.2.2 (MIT), profile H25: its integral over 2010 without holidays is 994 927.6 kWh for a nominal
1 000 000 (read by running it). True agreement: 0.1 kWh.
"""

from datetime import date, timedelta

import numpy as np
import pytest

from service.data.households import load_demand_shape


def test_the_profile_of_2010_sums_to_what_its_package_sums_to():
    shape = load_demand_shape()
    total = 0.0
    for number in range(365):
        day = date(2010, 1, 1) + timedelta(days=number)
        kind = {5: 1, 6: 2}.get(day.weekday(), 0)
        factor = np.polynomial.polynomial.polyval(number + 1.0, shape.day_polynomial)
        total += shape.by_month_kind_hour[day.month - 1, kind].sum() * factor
    assert total == pytest.approx(994927.6, abs=0.1)
