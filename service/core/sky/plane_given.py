"""What is known of the light where it was measured on the panels' own plane, and nowhere else?"""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from service.core.model.facts import Array
from service.core.model.hours import Bools, Floats, Ints, SkyYear
from service.core.model.place import Plane
from service.core.sky.diffuse import diffuse_share_of_minutes
from service.core.sky.incidence import cos_incidence, ground_modifier, modifier, sky_modifier
from service.core.sky.light import PlaneLight
from service.core.sky.sun import SunPosition
from service.core.sky.transposition import hay_davies

_STEPS = 12
_MOST_CLEARNESS = 1.1  # an hour behind bright clouds
# Ten degrees over the plane: below it, and with less than half of the level ground's beam, it tells little. Judgement.
_SEES_THE_SUN_COS, _OF_LEVEL = 0.17, 0.5
LEAST_COS_ZENITH = 0.0174524  # one degree above the horizon: below it the beam is counted as diffuse


def level_light(
    plane_w_per_m2: Floats, plane: Plane, sun: SunPosition, outside_w_per_m2: Floats, ground_reflectance_share: float
) -> tuple[Floats, Floats, Floats]:
    """Global, beam and diffuse light on level ground that would put this light on the plane, (n,) each, W/m2.

    Found by turning the way from level ground to plane round, step by step: ``diffuse_share_of_minutes`` and Hay and
    Davies. Where no light on level ground explains the plane's (low sun, sensors askew), the nearest is taken. It
    serves to tell how the light is made up, and clear days from dull ones; the plane's own light stays as measured.

    Args:
        plane_w_per_m2: (n,) measured, at least 0.
        plane: on which it was measured.
        sun: at the middle of each step.
        outside_w_per_m2: (n,) above the air, at right angles to the sun.
        ground_reflectance_share: 0 to 1.
    """
    cos_zenith = np.maximum(np.cos(np.radians(sun.apparent_zenith_deg)), 0.0)
    most = _MOST_CLEARNESS * outside_w_per_m2 * cos_zenith
    ghi = np.minimum(plane_w_per_m2, most)
    for _ in range(_STEPS):
        dni, dhi = split_of_minutes(ghi, cos_zenith, outside_w_per_m2)
        light = (ghi, dni, dhi)
        found = hay_davies(
            plane, sun.apparent_zenith_deg, sun.azimuth_deg, light, outside_w_per_m2, ground_reflectance_share
        ).total_w_per_m2()
        ratio = np.divide(plane_w_per_m2, found, out=np.ones_like(found), where=found > 1.0)
        ghi = np.clip(ghi * np.clip(ratio, 0.5, 2.0) ** 0.7, 0.0, most)
    return ghi, *split_of_minutes(ghi, cos_zenith, outside_w_per_m2)


def tells_most(planes: Sequence[Plane], sun: SunPosition) -> Ints:
    """Which of some planes tells most of the level ground's light in each step, (n,).

    The first that sees the sun, ten degrees high or half as well as level ground; where none does, the one that is
    turned most to it. From a plane that looks away, clear and dull hours look alike.
    """
    cosines, sees = _seen(sun.apparent_zenith_deg, sun.azimuth_deg, planes)
    return np.asarray(np.where(sees.any(axis=0), sees.argmax(axis=0), cosines.argmax(axis=0)))


def level_at_most(sky: SkyYear, planes: Sequence[Plane]) -> SkyYear:
    """The hours with a cloudless sky while the sun stands before none of the planes on which their light was measured.

    What these tell of the light elsewhere leaves that open. Of four stations' hours (own runs) level ground had up to
    2.7 times the light that was found from an upright plane to the north, and never more than this.
    """
    unseen = _unseen(sky, planes)
    ghi = np.where(unseen, np.maximum(sky.clear_ghi_w_per_m2, sky.ghi_w_per_m2), sky.ghi_w_per_m2)
    cos_zenith = np.maximum(np.cos(np.radians(sky.sun_zenith_deg)), 0.0)
    dni, dhi = split_of_minutes(ghi, cos_zenith, sky.extraterrestrial_w_per_m2)
    return replace(
        sky,
        ghi_w_per_m2=ghi,
        dni_w_per_m2=np.where(unseen, dni, sky.dni_w_per_m2),
        dhi_w_per_m2=np.where(unseen, dhi, sky.dhi_w_per_m2),
    )


def _unseen(sky: SkyYear, planes: Sequence[Plane]) -> Bools:
    _, sees = _seen(sky.sun_zenith_deg, sky.sun_azimuth_deg, tuple(dict.fromkeys(planes)))
    return ~sees.any(axis=0) & (sky.clear_ghi_w_per_m2 > 0.0)


def _seen(sun_zenith_deg: Floats, sun_azimuth_deg: Floats, planes: Sequence[Plane]) -> tuple[Floats, Bools]:
    """(m, n) cosines of the sun on planes, and does each see it?"""
    cosines = np.array([cos_incidence(sun_zenith_deg, sun_azimuth_deg, plane) for plane in planes])
    level = np.cos(np.radians(sun_zenith_deg))
    return cosines, (cosines > 0.0) & (cosines > np.minimum(_SEES_THE_SUN_COS, _OF_LEVEL * level))


def split_of_minutes(ghi: Floats, cos_zenith: Floats, outside_w_per_m2: Floats) -> tuple[Floats, Floats]:
    """Beam and diffuse light of short steps, so that ghi = dhi + dni cos(zenith), both not negative, (n,)."""
    level = outside_w_per_m2 * cos_zenith
    clearness = np.divide(ghi, level, out=np.zeros_like(ghi), where=level > 1.0)
    high = cos_zenith > LEAST_COS_ZENITH
    beam = np.divide(ghi * (1.0 - diffuse_share_of_minutes(clearness)), cos_zenith, out=np.zeros_like(ghi), where=high)
    dni = np.minimum(beam, outside_w_per_m2)
    return dni, ghi - dni * cos_zenith


def plane_light_given(
    sky: SkyYear, array: Array, plane_w_per_m2: Floats, ground_reflectance_share: float
) -> PlaneLight:
    """The light by stage where it was measured on the plane, (n,) each.

    Skyline, overhang and shade were in front of the sensor as they are in front of the panels: they take nothing
    again. A cover does. What the glass throws back goes by the share of beam, sky and ground in the light that
    level ground had.
    """
    light = (sky.ghi_w_per_m2, sky.dni_w_per_m2, sky.dhi_w_per_m2)
    parts = hay_davies(
        array.plane, sky.sun_zenith_deg, sky.sun_azimuth_deg, light, sky.extraterrestrial_w_per_m2,
        ground_reflectance_share,
    )  # fmt: skip
    total = parts.total_w_per_m2()
    passed = (
        parts.beam_w_per_m2 * modifier(cos_incidence(sky.sun_zenith_deg, sky.sun_azimuth_deg, array.plane))
        + parts.sky_w_per_m2 * sky_modifier(array.plane.tilt_deg)
        + parts.ground_w_per_m2 * ground_modifier(array.plane.tilt_deg)
    )
    share = np.divide(
        passed, total, out=np.full_like(total, float(sky_modifier(array.plane.tilt_deg))), where=total > 0
    )
    through = 1.0 if array.cover is None else array.cover.light_through_share
    covered = plane_w_per_m2 * through
    return PlaneLight(
        open_w_per_m2=plane_w_per_m2,
        after_skyline_w_per_m2=plane_w_per_m2,
        after_overhang_w_per_m2=plane_w_per_m2,
        after_shade_w_per_m2=plane_w_per_m2,
        after_cover_w_per_m2=covered,
        effective_w_per_m2=np.minimum(covered * share, covered),
    )
