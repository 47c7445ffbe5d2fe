"""How does cloudless light rise and fall over a day? The sum of the day is not asked here, its course is."""

import numpy as np

from service.core.model.hours import Floats
from service.core.sky.clear_sky import absolute_air_mass

# A day's sum comes from the model of ``clear_sky``, which the climate table's indices are relative to. Its course does
# not: with the sun under 10 degrees and a turbidity of 3.5 that model has a third less light than those of Bird, of
# Ineichen 2008 and this one agree on, and east and west walls lost 4 to 7 % by it (tests/reference).
_LEAST_AT_ZENITH = 2e-3  # the authors' own bound, so that no diffuse light comes out negative at sunrise


def course_of_cloudless_light(
    apparent_zenith_deg: Floats, elevation_m: float, linke_turbidity: Floats, extraterrestrial_w_per_m2: Floats
) -> tuple[Floats, Floats]:
    """Cloudless light on level ground and straight from the sun, W/m2, nought while the sun is below the horizon.

    The clear-sky model of the European Solar Radiation Atlas: C. Rigollier, O. Bauer and L. Wald 2000, Solar Energy
    68, 33-48, eqs. 5 to 16 (coefficients from memory), with the Rayleigh optical thickness of F. Kasten 1996, Solar
    Energy 56, 239-244.

    Args:
        apparent_zenith_deg: the sun's zenith angle with refraction (n,).
        elevation_m: height above the sea.
        linke_turbidity: of air mass 2 (n,), about 2 to 7.
        extraterrestrial_w_per_m2: on a plane that faces the sun (n,).
    """
    sin_height = np.maximum(np.cos(np.deg2rad(apparent_zenith_deg)), 0.0)
    mass = absolute_air_mass(apparent_zenith_deg, elevation_m)
    thickness = 1.0 / np.where(
        mass <= 20.0,
        6.62960 + mass * (1.75130 + mass * (-0.12020 + mass * (0.00650 - 0.00013 * mass))),
        10.4 + 0.718 * mass,
    )
    beam = extraterrestrial_w_per_m2 * np.exp(-0.8662 * linke_turbidity * mass * thickness)
    diffuse = extraterrestrial_w_per_m2 * _diffuse_share(linke_turbidity, sin_height)
    risen = sin_height > 0.0
    return np.where(risen, beam * sin_height + diffuse, 0.0), np.where(risen, beam, 0.0)


def _diffuse_share(turbidity: Floats, sin_height: Floats) -> Floats:
    """Diffuse light on level ground over that outside the air."""
    at_zenith = -1.5843e-2 + turbidity * (3.0543e-2 + turbidity * 3.797e-4)
    a0 = 0.26463 + turbidity * (-0.061581 + turbidity * 0.0031408)
    a0 = np.where(a0 * at_zenith < _LEAST_AT_ZENITH, _LEAST_AT_ZENITH / at_zenith, a0)
    a1 = 2.0402 + turbidity * (0.018945 - turbidity * 0.011161)
    a2 = -1.3025 + turbidity * (0.039231 + turbidity * 0.0085079)
    return np.asarray(at_zenith * np.maximum(a0 + sin_height * (a1 + sin_height * a2), 0.0), dtype=np.float64)
