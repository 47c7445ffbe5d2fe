"""Outside values for the light on a panel's rear: even ground and sky by view factors, and how bright a clear sky is.

View factors: Liu and Jordan, Solar Energy 7 (1963) 53-74; here once more by summing small pieces of the half-space.
"""

import numpy as np
import pandas as pd
import pvlib
import pytest

from service.core.compatibility.current import CLEAR_SKY_SHARE, FREE_ALL_AROUND, rear_light_share
from service.core.model.place import Plane
from tests.builders import array


def seen_of_the_ground(tilt_deg, steps=800):
    """The part of an even half-space before the rear of a plane that lies below the horizon, piece by piece."""
    off_axis = (np.arange(steps) + 0.5) / steps * np.pi / 2
    around = (np.arange(2 * steps) + 0.5) / (2 * steps) * 2 * np.pi
    from_axis, turned = np.meshgrid(off_axis, around, indexing="ij")
    weight = np.cos(from_axis) * np.sin(from_axis)
    t = np.radians(tilt_deg)
    # The rear's axis points (-sin t, -cos t); the piece's height is its upward component.
    up = -np.cos(t) * np.cos(from_axis) + np.sin(t) * np.sin(from_axis) * np.cos(turned)
    return float(weight[up < 0].sum() / weight.sum())


@pytest.mark.parametrize("tilt_deg", [0, 20, 35, 60, 90])
@pytest.mark.parametrize("reflects", [0.0, 0.2, 0.8])
def test_a_free_rear_side_sees_ground_and_sky_by_their_view_factors(tilt_deg, reflects):
    free = array(mount="ground_frame", plane=Plane(tilt_deg=tilt_deg, azimuth_deg=180))
    ground = seen_of_the_ground(tilt_deg)
    seen = reflects * ground + CLEAR_SKY_SHARE * (1 - ground)
    assert rear_light_share(free, reflects) == pytest.approx(FREE_ALL_AROUND * seen, abs=0.002)


def test_a_free_rear_side_gets_the_light_of_the_bifacial_nameplate():
    """IEC TS 60904-1-2: 135 W/m2 on the rear beside 1000 on the front; it was taken at 37 degrees, 1 m above ground
    that reflects 0.21 (from memory)."""
    free = array(mount="ground_frame", plane=Plane(tilt_deg=37, azimuth_deg=180))
    assert rear_light_share(free, 0.21) == pytest.approx(0.135, abs=0.002)


def test_a_clear_sky_gives_a_tenth_of_full_sun():
    """Ineichen and Perez (2002) by the library, turbidity 2 to 4, zenith 20 to 50: 0.06 to 0.15 of 1000 W/m2."""
    zenith = pd.Series([20.0, 35.0, 50.0])
    mass = pvlib.atmosphere.get_relative_airmass(zenith)
    diffuse = [pvlib.clearsky.ineichen(zenith, mass, turbidity)["dhi"] for turbidity in (2.0, 3.0, 4.0)]
    assert min(one.min() for one in diffuse) / 1000 <= CLEAR_SKY_SHARE <= max(one.max() for one in diffuse) / 1000
    assert float(diffuse[1].mean()) / 1000 == pytest.approx(CLEAR_SKY_SHARE, abs=0.02)
