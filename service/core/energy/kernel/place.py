"""What of a place's year must be at hand to ask about many planes and panels? Hours with light, in single precision."""

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from service.core.energy.kernel.snow import Snow
from service.core.model.hours import Floats, Ints, SkyYear
from service.core.sky import Daylight, daylight_at, lit_rows

Singles = NDArray[np.float32]
_ALIKE, _NEXT_TO_NOTHING_W_PER_M2 = 16, 1.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PlaceRecord:
    """A place's hours with light, n of 8760, made once and used for any plane, panel and inverter; some 200 kB.

    Attributes:
        daylight: the same hours in double precision, for obstacles.
        sun: (4, n) unit vectors to the sun, east, north, up, and ones.
        from_sun_w_per_m2: (n,) beam and circumsolar light at right angles to the sun.
        even_sky_w_per_m2: (n,) the rest of the sky's light on level ground.
        ghi_w_per_m2: (n,) all light on level ground.
        air_c, wind_m_per_s: (n,), in double precision.
        flicker_share: (n,) how the light comes and goes within each hour, see ``SkyYear``; None: it is steady.
        snow: what it takes of the light; None: nothing.
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
    snow: Snow | None
    first_of_day: Ints


def place_record(sky: SkyYear, brighter_than_w_per_m2: float = 0.0) -> PlaceRecord:
    """The record of a place, of the hours in which sun and sky together are brighter than this.

    Light that was measured on the arrays' own planes (``SkyYear.plane_w_per_m2``) is not in it: that is the light of
    those planes alone, and the plain chain's to use.
    """
    lit = lit_rows(sky)
    kept = _kept_hours(sky.dni_w_per_m2[lit] + sky.dhi_w_per_m2[lit], brighter_than_w_per_m2)
    stretch = np.cumsum(np.diff(lit, prepend=-2) > 1)[kept]
    rows = lit[kept]
    daylight = daylight_at(sky, rows)
    return PlaceRecord(
        daylight=daylight,
        sun=single(np.vstack((daylight.sun, np.ones(rows.size)))),
        from_sun_w_per_m2=single(daylight.from_sun_w_per_m2),
        even_sky_w_per_m2=single(daylight.even_sky_w_per_m2),
        ghi_w_per_m2=single(daylight.ghi_w_per_m2),
        air_c=sky.air_c[rows],
        wind_m_per_s=sky.wind_m_per_s[rows],
        flicker_share=None if sky.flicker_share is None else single(np.minimum(sky.flicker_share[rows], 1.0)),
        snow=None if sky.snow_share is None else Snow.of(single(sky.snow_share[rows])),
        first_of_day=np.maximum.accumulate(np.where(np.diff(stretch, prepend=0) > 0, np.arange(rows.size), 0)),
    )


def _kept_hours(light_w_per_m2: Floats, brighter_than_w_per_m2: float) -> Ints:
    """Which of the hours with light are kept, in their order: the bright ones, a multiple of sixteen where that can be.

    The rows of a table of planes by hours then begin alike in the processor's words, which saves a third of what is
    done row by row. The brightest of the dim ones make up the number; else a few of under 1 W/m2 are left out.
    """
    bright = light_w_per_m2 > brighter_than_w_per_m2
    too_many = int(np.count_nonzero(bright)) % _ALIKE
    dim = np.flatnonzero(~bright)
    faint = np.flatnonzero(bright & (light_w_per_m2 < _NEXT_TO_NOTHING_W_PER_M2))
    if too_many and dim.size >= _ALIKE - too_many:
        bright[dim[np.argsort(light_w_per_m2[dim])[too_many - _ALIKE :]]] = True
    else:
        bright[faint[np.argsort(light_w_per_m2[faint])[:too_many]]] = False
    return np.flatnonzero(bright)


def cells_of(values: Singles) -> NDArray[np.intp]:
    """The whole part of each, for tables: narrow first, as that is quick, then of the width that a look-up wants."""
    return values.astype(np.int32).astype(np.intp)


def single(values: NDArray[np.floating[Any]]) -> Singles:
    """The values in single precision, in one piece, read-only."""
    values32 = np.ascontiguousarray(values, dtype=np.float32)
    values32.flags.writeable = False
    return values32
