"""How does a year of hours look? Time stamps and read-only arrays of one length, with units in the names."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Bools = NDArray[np.bool_]

HOURS = 8760
REFERENCE_YEAR = 2025  # a plain year of 365 days; begins on a Wednesday. Only its calendar is used.


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Calendar:
    """The wall clock of the year's hours at one place; every array has shape (8760,).

    Hours are counted from 1 January 00:00 local *standard* time of the reference year, so that a row never moves
    when summer time does. ``month`` 1 to 12, ``weekday`` 0 Monday to 6 Sunday, ``clock_h`` the wall-clock hour at
    the beginning of the row, summer time included (0 <= clock_h < 24; half hours in zones that have them).
    """

    utc: NDArray[np.datetime64]
    day_of_year: Ints
    month: Ints
    weekday: Ints
    clock_h: Floats


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class SkyYear:
    """A typical year of hours at one place: the sun at mid-hour, the light, the air. Arrays have shape (8760,).

    Irradiances are hourly means in W/m2; ``sun_zenith_deg`` is apparent (refraction in), ``sun_azimuth_deg``
    clockwise from north. ``clear_ghi_w_per_m2`` is what a cloudless sky would give.

    Of weather that the caller gave, the arrays may have as many hours as that has. ``plane_w_per_m2`` is then the
    light that was measured on the plane of each array. ``flicker_share`` is the standard deviation of the light within
    each hour over its mean; None where it is taken as steady. ``snow_share`` is the part of the light that snow takes
    from panels that lie flat; None where there is none, or nothing is known of it.
    """

    calendar: Calendar
    sun_zenith_deg: Floats
    sun_azimuth_deg: Floats
    ghi_w_per_m2: Floats
    dni_w_per_m2: Floats
    dhi_w_per_m2: Floats
    extraterrestrial_w_per_m2: Floats
    clear_ghi_w_per_m2: Floats
    air_c: Floats
    wind_m_per_s: Floats
    plane_w_per_m2: tuple[Floats, ...] | None = None
    flicker_share: Floats | None = None
    snow_share: Floats | None = None
