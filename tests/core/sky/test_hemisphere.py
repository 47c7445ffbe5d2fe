"""The tabulated averages are held to two other routes: a double sum over the hemisphere, and the library's."""

import numpy as np
import pvlib
import pytest

from service.core.sky import ground_modifier, modifier, sky_modifier
from service.core.sky.hemisphere import GROUND_AVERAGE, SKY_AVERAGE

TILTS_DEG = np.arange(91)


def summed_over_hemisphere(tilt_deg: float, rings: int = 1500, spokes: int = 2880) -> tuple[float, float]:
    """Averages over sky and ground by cutting the panel's own hemisphere in rings around its normal."""
    angle = (np.arange(rings) + 0.5) / rings * np.pi / 2.0
    spoke = (np.arange(spokes) + 0.5) / spokes * 2.0 * np.pi
    tilt = np.radians(tilt_deg)
    height = np.cos(tilt) * np.cos(angle)[:, None] + np.sin(tilt) * np.sin(angle)[:, None] * np.cos(spoke)
    weight = np.sin(angle) * np.cos(angle)
    in_sky = (height > 0.0).mean(axis=1)
    passed = modifier(np.cos(angle)) * weight
    sky = (passed * in_sky).sum() / (weight * in_sky).sum()
    ground_part = (weight * (1.0 - in_sky)).sum()
    return sky, (passed * (1.0 - in_sky)).sum() / ground_part if ground_part else 0.0


@pytest.mark.parametrize("tilt_deg", [0, 5, 20, 35, 60, 80, 90])
def test_the_table_is_the_integral(tilt_deg):
    sky, ground = summed_over_hemisphere(tilt_deg)
    assert SKY_AVERAGE[tilt_deg] == pytest.approx(sky, abs=1e-5)
    assert GROUND_AVERAGE[tilt_deg] == pytest.approx(ground, abs=1e-4)


def test_the_sky_average_is_the_librarys_at_every_tilt():
    library = pvlib.iam.marion_diffuse("physical", TILTS_DEG.astype(float), n=1.526, K=4.0, L=0.002)
    np.testing.assert_allclose(SKY_AVERAGE, library["sky"], atol=3e-5)


def test_the_ground_average_is_the_librarys_where_its_grid_is_fine_enough():
    # The library sums over cells of one degree; seen from a nearly flat plane the ground is narrower than that.
    tilts = np.array([30.0, 45.0, 60.0, 75.0, 90.0])
    library = pvlib.iam.marion_diffuse("physical", tilts, n=1.526, K=4.0, L=0.002)
    np.testing.assert_allclose(ground_modifier(tilts), library["ground"], atol=1e-4)
    fine = pvlib.iam.marion_integrate(
        lambda a: pvlib.iam.physical(a, n=1.526, K=4.0, L=0.002), 10.0, "ground", num=1080
    )
    assert float(ground_modifier(10.0)) == pytest.approx(float(fine), abs=1e-4)


def test_between_whole_degrees_the_table_is_read_straight():
    assert float(sky_modifier(20.5)) == pytest.approx((SKY_AVERAGE[20] + SKY_AVERAGE[21]) / 2)
    sky, ground = summed_over_hemisphere(42.5)
    assert float(sky_modifier(42.5)) == pytest.approx(sky, abs=2e-5)
    assert float(ground_modifier(42.5)) == pytest.approx(ground, abs=1e-4)


def test_an_upright_panel_gets_sky_and_ground_through_the_glass_alike():
    assert float(sky_modifier(90.0)) == float(ground_modifier(90.0))
