"""How much light does the ground before a house get, as panels on its facade see it?

The house hides up to half of the sky from the ground before it, and while the sun stands behind it its shadow lies
there. Its facade is taken as long and dark: of a short one less is hidden, a bright one throws light back (``spread``
knows of both). At a profile angle a below level a panel sees the ground h / tan a out, h being its height; there the
facade, r times as high, stands up to tan e = r tan a, so that (1 + cos e) / 2 of an even sky is left, and its shadow
ends where tan a is 1 / r of the tangent of the sun's profile angle. An upright panel sees the ground by cos a.

One that leans sees more of what lies further out, at a by sin(tilt - a). What it loses of an even sky over that is what
it loses of the sun, too (traced at 20 to 90 degrees within 0.02 of the ground's light). Taken is the mean of the year's
light, the same in every hour, so that light stays linear in the hours.
"""

from functools import lru_cache

import numpy as np
from numpy.typing import ArrayLike

from service.core.model.facts import Array
from service.core.model.hours import Floats
from service.core.sky.daylight import Daylight

HUNG_ON_A_HOUSE = frozenset({"hung_on_rail", "behind_rail", "balcony_floor", "wall"})
# A storey above panels 4 m up a wall, the usual house that takes most, where nobody told a mount.
USUAL_RATIO = 1.75
_MOST_RATIO = 100.0
_SEEN = (np.arange(64) + 0.5) / 64  # sines of profile angles, of which an upright panel sees all alike
_TILTS_DEG = np.linspace(0.0, 90.0, 31)  # read on lines between: within 0.0005 of the ground's light
_SAMPLES = 48
_AT_ONCE = 8
_KEPT = 32
_LEAST = 1e-6


def house_over_panel(array: Array) -> float | None:
    """How many times as high as the panels their house is; None where they hang on none, or that is not known."""
    above_m = None if array.fixing is None else array.fixing.building_height_m
    if array.mount not in HUNG_ON_A_HOUSE or above_m is None:
        return None
    return ratio_of(above_m, array.height_above_ground_m)


def ratio_of(house_m: float, panel_m: float) -> float:
    """A house's height over that of panels on it; right above the ground they see half of its sky hidden."""
    return min(house_m / max(panel_m, _LEAST), _MOST_RATIO)


def ground_before_house_share(
    array: Array, tilt_deg: Floats, azimuth_deg: Floats, daylight: Daylight, ratio: float | None = None
) -> Floats:
    """Of the light on open ground what the ground before an array's house gets, as planes see it, (m,) of 0 to 1.

    Args:
        array: its mount, heights and facade; without a facade told it is square to each plane.
        tilt_deg: (m,) of the planes.
        azimuth_deg: (m,) likewise.
        daylight: the hours of the place; of some of them the mean of all counts.
        ratio: to be taken for that of ``house_over_panel``.
    """
    ratio = house_over_panel(array) if ratio is None else ratio
    if ratio is None:
        return np.ones_like(tilt_deg)
    looks = azimuth_deg if array.facade_azimuth_deg is None else np.array([array.facade_azimuth_deg])
    lost = 1.0 - _left_of_upright(looks, daylight.whole, ratio)
    return np.asarray(1.0 - lost * np.interp(tilt_deg, _TILTS_DEG, _lost_leaning(ratio)), np.float64)


@lru_cache(maxsize=256)
def _lost_leaning(ratio: float) -> Floats:
    """Of an even sky what the ground loses as planes of ``_TILTS_DEG`` see it, over what it loses to an upright one."""
    tilt = np.radians(_TILTS_DEG)[1:, None]
    below = tilt * _SEEN
    seen = np.sin(tilt - below)
    hidden = 1.0 - 1.0 / np.sqrt(1.0 + (ratio * np.tan(below)) ** 2)
    lost = (seen * hidden).sum(axis=1) / seen.sum(axis=1)
    found = np.concatenate(([0.0], lost / max(float(lost[-1]), _LEAST)))
    found.setflags(write=False)
    return found


def sky_before_house_share(ratio: float) -> float:
    """Of an even sky what the ground keeps that an upright panel sees.

    >>> [round(sky_before_house_share(ratio), 3) for ratio in (0.0, 1.0, 3.0)]
    [1.0, 0.893, 0.765]
    """
    square = 1.0 - _SEEN**2
    return float(0.5 + 0.5 * np.sqrt(square / (square + (ratio * _SEEN) ** 2)).mean())


def _left_of_upright(looks_deg: Floats, daylight: Daylight, ratio: float) -> Floats:
    """Of the ground's light what upright panels see of it before facades that look so, (u,)."""
    azimuths, place = np.unique(looks_deg, return_inverse=True)
    if azimuths.size == 1:
        return _left_of_one(float(azimuths[0]), daylight, ratio)[place]
    if azimuths.size <= _AT_ONCE:
        return _left_at(azimuths, daylight, ratio)[place]
    if ratio not in daylight.means:
        daylight.means[ratio] = _left_at(np.arange(_SAMPLES) * (360.0 / _SAMPLES), daylight, ratio)
    waves = np.arange(_SAMPLES // 2 + 1)
    twice = np.where((waves == 0) | (waves == _SAMPLES // 2), 1.0, 2.0)
    weights = np.fft.rfft(daylight.means[ratio]) / _SAMPLES * twice
    left = (np.exp(1j * np.radians(np.outer(azimuths, waves))) @ weights).real
    return np.asarray(left, np.float64)[place]


def _left_of_one(looks_deg: float, daylight: Daylight, ratio: float) -> Floats:
    """The same before one facade, (1,), of which one is asked again for each plane that is tried before it."""
    key = ratio, looks_deg
    found = daylight.before.get(key)
    if found is None:
        found = _left_at([looks_deg], daylight, ratio)
        if len(daylight.before) >= _KEPT:
            daylight.before.clear()
        daylight.before[key] = found
    return found  # not looked up again: another thread may have begun the row anew


def _left_at(looks_deg: ArrayLike, daylight: Daylight, ratio: float) -> Floats:
    ghi = np.asarray(daylight.ghi_w_per_m2, np.float64)
    even = np.minimum(daylight.even_sky_w_per_m2, ghi)
    all_kwh = float(ghi.sum())
    if not all_kwh > 0.0:
        return np.ones(np.shape(looks_deg))
    looks = np.radians(looks_deg)[:, None]
    behind = np.minimum(np.sin(looks) * daylight.sun[0] + np.cos(looks) * daylight.sun[1], 0.0) * ratio
    up = np.maximum(daylight.sun[2], _LEAST)
    lit = (up / np.hypot(up, behind)) @ (ghi - even)
    return np.asarray((lit + float(even.sum()) * sky_before_house_share(ratio)) / all_kwh, np.float64)
