"""What a typical year promises of its days: the dullest has some part of a clear one's light, everywhere."""

from itertools import product

import numpy as np
import pytest
from hypothesis import given

from service.core.energy import energy_year
from service.core.errors import NoClimateError
from service.core.model.assumption import Assumptions
from service.core.model.climate import PlaceClimate
from service.core.model.hours import SkyYear
from service.core.model.place import Plane
from service.core.sky import typical_year
from service.data.climate import load_climate
from tests.builders import array, inverter, one_input, setup
from tests.properties.test_sky_promises import places, zone_of

# A twentieth of the light outside the air is at least this part of what the clearest air lets through (0.85 of it).
LEAST_SHARE = 0.05 / 0.85


def by_day(rows: np.ndarray) -> np.ndarray:
    return rows.reshape(365, 24).sum(axis=1)


def dullest_share(sky: SkyYear) -> float:
    """Of a cloudless day's light on level ground; days with next to no light in any weather left out."""
    light, clear = by_day(sky.ghi_w_per_m2), by_day(sky.clear_ghi_w_per_m2)
    lit = clear > 50.0
    return float((light[lit] / clear[lit]).min())


@given(places())
def test_the_dullest_day_has_a_seventeenth_of_a_clear_one_s_light_whatever_the_climate(place: PlaceClimate) -> None:
    if abs(place.latitude_deg) > 62.0:  # the sun's day and the calendar's share some light at midnight
        return
    least = min(LEAST_SHARE, float(place.clear_sky_index.min()) / 2.0)  # a month may be hardly brighter than that
    assert dullest_share(typical_year(place, zone_of(place.longitude_deg))) > least


def test_nowhere_on_a_grid_of_the_world_is_there_a_black_day() -> None:
    seen = 0
    for latitude, longitude in product(range(-54, 61, 12), range(-175, 181, 20)):
        try:
            place = load_climate().at(latitude, longitude)
        except NoClimateError:
            continue
        seen += 1
        assert dullest_share(typical_year(place, zone_of(longitude))) > LEAST_SHARE, (latitude, longitude)
    assert seen > 30


@pytest.mark.parametrize(("latitude", "longitude"), [(48.1, 11.6), (54.1, 12.1), (53.3, -6.3), (47.6, -122.3)])
def test_a_set_on_a_slope_gives_something_on_every_day(latitude: float, longitude: float) -> None:
    """Three watt-hours and more of a panel of 440 W that gives 1.2 to 1.5 kWh on its mean day."""
    place = load_climate().at(latitude, longitude)
    one = setup(arrays=(array(plane=Plane(tilt_deg=35, azimuth_deg=180)),), inverter=inverter(inputs=(one_input(),)))
    year = energy_year(one, typical_year(place, zone_of(longitude)), place, Assumptions.of(()))
    assert by_day(year.ac_w).min() > 3.0
