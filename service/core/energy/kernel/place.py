"""What of a place's year must be at hand to ask about many planes and panels? Hours with light, in single precision."""

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from service.core.model.hours import Floats, Ints, SkyYear
from service.core.sky import Daylight, daylight_of

Singles = NDArray[np.float32]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PlaceRecord:
    """A place's hours with light, n of 8760, made once and used for any plane, panel and inverter; some 200 kB.

    Attributes:
        daylight: the same hours in double precision, for obstacles.
        sun: (3, n) unit vectors to the sun: east, north, up.
        from_sun_w_per_m2: (n,) beam and circumsolar light at right angles to the sun.
        even_sky_w_per_m2: (n,) the rest of the sky's light on level ground.
        ghi_w_per_m2: (n,) all light on level ground.
        air_c, wind_m_per_s: (n,), in double precision.
        flicker_share: (n,) how the light comes and goes within each hour, see ``SkyYear``; None: it is steady.
        snow_share: (n,) what snow takes of the light on flat panels; None: nothing.
        first_of_day: (n,) at which of these hours the same stretch of light began: an input starts anew there.
    """

    daylight: Daylight
    sun: Singles
    from_sun_w_per_m2: Singles
    even_sky_w_per_m2: Singles
    ghi_w_per_m2: Singles
    air_c: Floats
    wind_m_per_s: Floats
    flicker_share: Singles | None
    snow_share: Singles | None
    first_of_day: Ints


def place_record(sky: SkyYear) -> PlaceRecord:
    """The record of a place.

    Light that was measured on the arrays' own planes (``SkyYear.plane_w_per_m2``) is not in it: that is the light of
    those planes alone, and the plain chain's to use.
    """
    daylight = daylight_of(sky)
    rows = daylight.rows
    begins = np.diff(rows, prepend=-2) > 1
    return PlaceRecord(
        daylight=daylight,
        sun=single(daylight.sun),
        from_sun_w_per_m2=single(daylight.from_sun_w_per_m2),
        even_sky_w_per_m2=single(daylight.even_sky_w_per_m2),
        ghi_w_per_m2=single(daylight.ghi_w_per_m2),
        air_c=sky.air_c[rows],
        wind_m_per_s=sky.wind_m_per_s[rows],
        flicker_share=None if sky.flicker_share is None else single(np.minimum(sky.flicker_share[rows], 1.0)),
        snow_share=None if sky.snow_share is None else single(sky.snow_share[rows]),
        first_of_day=np.maximum.accumulate(np.where(begins, np.arange(rows.size), 0)),
    )


def cells_of(values: Singles) -> NDArray[np.intp]:
    """The whole part of each, for tables: narrow first, as that is quick, then of the width that a look-up wants."""
    return values.astype(np.int32).astype(np.intp)


def single(values: NDArray[np.floating[Any]]) -> Singles:
    """The values in single precision, in one piece, read-only."""
    values32 = np.ascontiguousarray(values, dtype=np.float32)
    values32.flags.writeable = False
    return values32
