import numpy as np
import pvlib
import pytest

from service.core.model.place import Plane
from service.core.sky import ground_share, hay_davies, isotropic, sky_share, split_by_anisotropy
from tests.skies import clear_year, mixed_year

PLANES = [Plane(tilt_deg=t, azimuth_deg=a) for t, a in ((0, 180), (20, 270), (35, 180), (70, 135), (90, 90), (90, 350))]


def light_of(sky):
    return sky.ghi_w_per_m2, sky.dni_w_per_m2, sky.dhi_w_per_m2


@pytest.mark.parametrize("plane", PLANES)
@pytest.mark.parametrize("place", [(54.2, 12.3), (-33.0, 20.0)])
def test_hay_davies_is_the_librarys_in_every_hour_of_the_year(plane, place):
    sky = mixed_year(*place)
    library = pvlib.irradiance.get_total_irradiance(
        plane.tilt_deg,
        plane.azimuth_deg,
        sky.sun_zenith_deg,
        sky.sun_azimuth_deg,
        dni=sky.dni_w_per_m2,
        ghi=sky.ghi_w_per_m2,
        dhi=sky.dhi_w_per_m2,
        dni_extra=sky.extraterrestrial_w_per_m2,
        albedo=0.2,
        model="haydavies",
    )
    ours = hay_davies(plane, sky.sun_zenith_deg, sky.sun_azimuth_deg, light_of(sky), sky.extraterrestrial_w_per_m2, 0.2)
    np.testing.assert_allclose(ours.total_w_per_m2(), library["poa_global"], atol=1e-9)
    np.testing.assert_allclose(ours.ground_w_per_m2, library["poa_ground_diffuse"], atol=1e-9)


@pytest.mark.parametrize("plane", PLANES)
def test_the_even_sky_yardstick_is_the_librarys(plane):
    sky = mixed_year(54.2, 12.3)
    library = pvlib.irradiance.get_total_irradiance(
        plane.tilt_deg,
        plane.azimuth_deg,
        sky.sun_zenith_deg,
        sky.sun_azimuth_deg,
        dni=sky.dni_w_per_m2,
        ghi=sky.ghi_w_per_m2,
        dhi=sky.dhi_w_per_m2,
        albedo=0.3,
        model="isotropic",
    )
    ours = isotropic(plane, sky.sun_zenith_deg, sky.sun_azimuth_deg, light_of(sky), 0.3)
    np.testing.assert_allclose(ours.total_w_per_m2(), library["poa_global"], atol=1e-9)


def test_both_skies_agree_under_an_overcast_one():
    plane = Plane(tilt_deg=50, azimuth_deg=200)
    even = hay_davies(plane, 60.0, 150.0, (95.0, 0.0, 95.0), 1361.0, 0.2).total_w_per_m2()
    assert float(even) == float(isotropic(plane, 60.0, 150.0, (95.0, 0.0, 95.0), 0.2).total_w_per_m2())


def test_a_flat_plane_gets_the_light_of_level_ground():
    sky = clear_year(54.2, 12.3)
    flat = Plane(tilt_deg=0, azimuth_deg=180)
    got = hay_davies(flat, sky.sun_zenith_deg, sky.sun_azimuth_deg, light_of(sky), sky.extraterrestrial_w_per_m2, 0.5)
    high = sky.sun_zenith_deg < 89.0
    np.testing.assert_allclose(got.total_w_per_m2()[high], sky.ghi_w_per_m2[high], atol=1e-9)
    # Lower down the glow around the sun is held back, see LEAST_COS_ZENITH: a trifle of the year.
    assert got.total_w_per_m2().sum() == pytest.approx(sky.ghi_w_per_m2.sum(), rel=1e-5)


def test_an_upright_plane_sees_half_of_sky_and_ground():
    assert float(sky_share(90.0)) == 0.5
    assert float(ground_share(90.0)) == 0.5


def test_a_sun_below_the_horizon_gives_no_beam_and_leaves_the_glow_to_the_sky():
    from_sun, even = split_by_anisotropy(91.0, 30.0, 8.0, 1361.0)
    assert float(from_sun) == 0.0
    assert float(even) == 8.0


def test_no_light_is_lost_in_the_split_even_with_a_beam_stronger_than_above_the_air():
    from_sun, even = split_by_anisotropy(60.0, 1500.0, 100.0, 1361.0)
    assert float(even) == 0.0
    assert float(from_sun) * 0.5 == pytest.approx(1500.0 * 0.5 + 100.0)
