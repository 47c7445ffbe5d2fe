"""How much light may fall on the panel now: measured, or from where the sun stands and how the sky looks?"""

from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

import numpy as np
from numpy.typing import NDArray

from service.core.model.climate import PlaceClimate
from service.core.model.hours import REFERENCE_YEAR
from service.core.model.place import Plane
from service.core.pickup.facts import Between, Light
from service.core.sky import SunPosition, clear_sky, extraterrestrial, hay_davies, months_by_day, sun_position

Floats = NDArray[np.float64]

SKIES = ("clear", "thin_cloud", "overcast", "indoors")
# From a window to a lamp: some hundredths of daylight at best (common practice). Nothing is judged by it.
_INDOORS = Between(low=0.5, likely=5.0, high=50.0)
# Without any word on the light, any that a reading may sensibly be made in.
_ANY = Between(low=200.0, likely=700.0, high=1100.0)
_GROUND_SHARE = 0.2
# A panel held by hand towards the sun is off by some 20 degrees at most; cos 20 = 0.94 (judgement).
_HELD_SHARE = 0.94
# When to read: the sun well up, and enough light on a panel that is turned to it.
GOOD_LIGHT_W_PER_M2, _GOOD_HEIGHT_DEG = 500.0, 10.0
_STEP = timedelta(minutes=10)


@dataclass(frozen=True, slots=True)
class _Sky:
    """Shares of the cloudless light on level ground, and of the cloudless beam, that come through."""

    level_share: float
    beam_share: float


# Least, likely, most. Overcast by Kasten and Czeplak, Solar Energy 24 (1980) 177-189, from memory: a sky full of high
# thin cloud lets 0.61 of the light through, of middle and low cloud about 0.25, of rain cloud 0.16. Cloudless: a
# turbidity about that of the month, haze, walls near by (judgement).
_THROUGH: dict[str, tuple[_Sky, _Sky, _Sky]] = {
    "clear": (_Sky(0.85, 0.80), _Sky(1.0, 1.0), _Sky(1.12, 1.12)),
    "thin_cloud": (_Sky(0.45, 0.15), _Sky(0.75, 0.60), _Sky(1.05, 1.0)),
    "overcast": (_Sky(0.08, 0.0), _Sky(0.22, 0.0), _Sky(0.50, 0.10)),
}


def measured_light(w_per_m2: float, uncertainty_share: float) -> Light:
    """Light as a meter beside the panel tells it."""
    low, high = w_per_m2 * max(1.0 - uncertainty_share, 0.0), w_per_m2 * (1.0 + uncertainty_share)
    return Light(w_per_m2=Between(low=low, likely=w_per_m2, high=high), origin="measured")


def light_indoors(measured: Light | None = None) -> Light:
    """Light of a room; what was measured there counts as long as a room can have it."""
    within = measured is not None and measured.w_per_m2.low <= _INDOORS.high
    return Light(w_per_m2=measured.w_per_m2 if measured and within else _INDOORS, origin="indoors")


def light_not_known() -> Light:
    """Light of which nobody said anything."""
    return Light(w_per_m2=_ANY, origin="not_known")


def light_shown(current_a: float, rating_a: Between) -> Light:
    """Light that a short-circuit current shows, where nobody said anything: at least that, for the panel may be worn.

    Good for judging volts, which hardly move with light; never for the current that it was taken from.
    """
    low, likely = (min(1000.0 * current_a / amperes, _ANY.high) for amperes in (rating_a.high, rating_a.likely))
    return Light(w_per_m2=Between(low=low, likely=likely, high=_ANY.high), origin="current")


def light_of_sky(climate: PlaceClimate, moment: datetime, sky: str, plane: Plane | None) -> Light:
    """Light on the panel by time, place and sky.

    Args:
        climate: of the place; its monthly turbidity makes the cloudless sky.
        moment: with an offset. The sun of the same day of the reference year is taken, within half a degree of true.
        sky: clear, thin_cloud or overcast.
        plane: of the panel; None: it was turned square to the sun, within what a hand does.

    Returns:
        The least, the likely and the most in W/m2; noughts while the sun is down.

    Raises:
        KeyError: no such sky.

    Not modelled: the single cloud before the sun or beside it, shadows, snow on the ground.
    """
    low, likely, high = (float(_on_panel(climate, [moment], through, plane)[0]) for through in _THROUGH[sky])
    askew = None
    if plane is None:
        low *= _HELD_SHARE
        flat = Plane(tilt_deg=0.0, azimuth_deg=180.0)
        askew = min(low, float(_on_panel(climate, [moment], _THROUGH[sky][0], flat)[0]))
    likely = max(low, likely)
    return Light(w_per_m2=Between(low=low, likely=likely, high=max(high, likely)), origin="sky", askew_w_per_m2=askew)


def hours_of_good_light(
    climate: PlaceClimate, time_zone: str, day: date, after: datetime | None = None
) -> tuple[datetime, datetime] | None:
    """From when until when a cloudless sun gives a panel turned to it enough light, on that day of the wall clock.

    Args:
        climate: of the place.
        time_zone: IANA name.
        day: of the visit.
        after: if that day's light is over by then, the next day's is told.

    Returns:
        Moments of the place's own clock, to ten minutes; None where the sun stays too low.
    """
    zone = ZoneInfo(time_zone)
    for ahead in (0, 1):
        begin = datetime.combine(day + timedelta(days=ahead), time(0), zone).astimezone(UTC)
        moments = [begin + step * _STEP for step in range(144)]
        good = _is_good(climate, moments)
        lit = [moment for moment, fit in zip(moments, good, strict=True) if fit and (after is None or moment >= after)]
        if lit:
            return lit[0].astimezone(zone), lit[-1].astimezone(zone)
    return None


def _is_good(climate: PlaceClimate, moments: list[datetime]) -> list[bool]:
    light = _on_panel(climate, moments, _THROUGH["clear"][1], None)
    height = 90.0 - _sun(climate, moments).apparent_zenith_deg
    return [bool(fit) for fit in (light >= GOOD_LIGHT_W_PER_M2) & (height >= _GOOD_HEIGHT_DEG)]


def _on_panel(climate: PlaceClimate, moments: list[datetime], through: _Sky, plane: Plane | None) -> Floats:
    sun = _sun(climate, moments)
    outside = extraterrestrial(sun.distance_au)
    months = months_by_day(climate.linke_turbidity, _days(moments))
    cloudless = clear_sky(sun.apparent_zenith_deg, climate.elevation_m, months, outside)
    up = sun.apparent_zenith_deg < 90.0
    cosine = np.maximum(np.cos(np.radians(sun.apparent_zenith_deg)), 0.0)
    beam = through.beam_share * cloudless.dni_w_per_m2
    level = np.maximum(through.level_share * cloudless.ghi_w_per_m2, beam * cosine)
    light = [
        float(
            hay_davies(
                plane or Plane(tilt_deg=float(min(zenith, 90.0)), azimuth_deg=float(azimuth)),
                zenith, azimuth, (ghi, dni, max(ghi - dni * c, 0.0)), out, _GROUND_SHARE,
            ).total_w_per_m2()
        )
        for zenith, azimuth, ghi, dni, c, out in zip(
            sun.apparent_zenith_deg, sun.azimuth_deg, level, beam, cosine, outside, strict=True
        )
    ]  # fmt: skip
    return np.where(up, np.asarray(light), 0.0)


def _sun(climate: PlaceClimate, moments: list[datetime]) -> SunPosition:
    return sun_position(
        climate.sun_days, _in_reference_year(moments), climate.latitude_deg, climate.longitude_deg, climate.elevation_m
    )


def _in_reference_year(moments: list[datetime]) -> NDArray[np.datetime64]:
    """The same moments of the reference year in universal time; 29 February becomes the 28th."""
    found = []
    for moment in moments:
        utc = moment.astimezone(UTC)
        day = 28 if (utc.month, utc.day) == (2, 29) else utc.day
        found.append(utc.replace(year=REFERENCE_YEAR, day=day, tzinfo=None))
    return np.array(found, dtype="datetime64[s]")


def _days(moments: list[datetime]) -> Floats:
    since = _in_reference_year(moments) - np.datetime64(f"{REFERENCE_YEAR}-01-01T00:00", "s")
    return np.asarray(since / np.timedelta64(86_400, "s"), dtype=np.float64)
