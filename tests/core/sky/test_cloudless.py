"""The cloudless light of hours of any year."""

import pytest

from service.core.sky import typical_year
from service.core.sky.cloudless import cloudless_hours
from tests.climates import climate

CLIMATE = climate()
TYPICAL = typical_year(CLIMATE, "Europe/Berlin")


def test_of_the_reference_year_it_is_that_of_the_typical_year():
    got = cloudless_hours(TYPICAL.calendar.utc, CLIMATE).ghi_w_per_m2
    assert got == pytest.approx(TYPICAL.clear_ghi_w_per_m2, abs=0.2)


@pytest.mark.parametrize("rows", [slice(4000, 4007), slice(4000, 4100, 5), slice(3990, 4300, 31)])
def test_single_hours_and_parts_of_days_have_the_light_of_their_whole_days(rows):
    whole = cloudless_hours(TYPICAL.calendar.utc, CLIMATE)
    part = cloudless_hours(TYPICAL.calendar.utc[rows], CLIMATE)
    for name in ("ghi_w_per_m2", "dni_w_per_m2", "outside_w_per_m2"):
        assert getattr(part, name) == pytest.approx(getattr(whole, name)[rows], abs=1e-9)
