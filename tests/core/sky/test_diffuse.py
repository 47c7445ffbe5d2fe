"""Does the diffuse share move the way a sky does?"""

import numpy as np

from service.core.sky.diffuse import diffuse_share

HEIGHT = np.maximum(50.0 * np.sin(np.pi * (np.arange(24.0)[np.newaxis] - 5.5) / 13.0), -20.0)
SOLAR_H = np.arange(24.0)[np.newaxis] + 0.5
OUTSIDE = np.maximum(1366.1 * np.sin(np.deg2rad(HEIGHT)), 0.0)


def noon_share(clearness: float, *, hour_alone: bool = False) -> float:
    """Diffuse share at noon of a day of even clearness, or of a clear hour in a dull day."""
    hours = np.full((1, 24), 0.2 if hour_alone else clearness)
    hours[0, 12] = clearness
    return float(diffuse_share(hours, OUTSIDE, HEIGHT, SOLAR_H)[0, 12])


def test_the_clearer_the_sky_the_less_of_its_light_is_diffuse() -> None:
    shares = [noon_share(k) for k in (0.1, 0.3, 0.5, 0.7)]
    assert shares == sorted(shares, reverse=True)
    assert shares[0] > 0.95
    assert shares[-1] < 0.3


def test_a_clear_hour_in_a_dull_day_has_more_diffuse_light_than_one_in_a_clear_day() -> None:
    assert noon_share(0.65, hour_alone=True) > noon_share(0.65) + 0.05


def test_night_counts_as_all_diffuse_and_gives_no_nan() -> None:
    shares = diffuse_share(np.zeros((1, 24)), np.zeros((1, 24)), np.full((1, 24), -30.0), SOLAR_H)
    assert np.all(shares > 0.97)
