import numpy as np
import pvlib
import pytest

from service.core.model.place import Plane
from service.core.sky import cos_incidence, incidence_angle_deg, modifier


def test_the_incidence_angle_is_the_librarys_all_over_the_sky():
    zenith, azimuth, tilt, facing = (
        grid.ravel() for grid in np.meshgrid([0, 20, 55, 89], [0, 75, 180, 300], [0, 15, 60, 90], [0, 90, 200])
    )
    library = pvlib.irradiance.aoi_projection(tilt, facing, zenith, azimuth)
    ours = [
        float(cos_incidence(z, a, Plane(tilt_deg=t, azimuth_deg=f)))
        for z, a, t, f in zip(zenith, azimuth, tilt, facing, strict=True)
    ]
    np.testing.assert_allclose(ours, library, atol=1e-14)


@pytest.mark.parametrize(
    ("latitude_deg", "declination_deg", "tilt_deg", "azimuth_deg"),
    [(47.5, 0.0, 47.5, 180), (47.5, 23.44, 24.06, 180), (-30.0, 23.44, 53.44, 0)],
)
def test_noon_beam_is_square_on_a_tilt_of_latitude_less_declination(
    latitude_deg, declination_deg, tilt_deg, azimuth_deg
):
    zenith = abs(latitude_deg - declination_deg)
    noon_azimuth = 180.0 if latitude_deg > declination_deg else 0.0
    plane = Plane(tilt_deg=tilt_deg, azimuth_deg=azimuth_deg)
    assert float(incidence_angle_deg(zenith, noon_azimuth, plane)) == pytest.approx(0.0, abs=1e-5)


def test_glass_passes_light_as_the_librarys_physical_model_says():
    angle = np.linspace(0.0, 90.0, 901)
    library = pvlib.iam.physical(angle, n=1.526, K=4.0, L=0.002)
    np.testing.assert_allclose(modifier(np.cos(np.radians(angle))), library, atol=1e-12)


def test_no_light_comes_through_from_behind_and_none_is_gained():
    assert modifier(np.array([-1.0, -0.01, 0.0])).tolist() == [0.0, 0.0, 0.0]
    assert float(modifier(1.0)) == pytest.approx(1.0, abs=1e-15)
    shares = modifier(np.linspace(0.0, 1.0, 500))
    assert (np.diff(shares) >= 0.0).all()
    assert shares.max() <= 1.0
