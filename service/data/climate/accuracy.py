"""How far may the table be off at a place like this one, and how much do years differ there?

By region, from the comparison with 186 stations (yearly irradiation on level ground; rms is the root mean square of the
differences, the stations' own errors in it; ``python -m service bench climate`` scores such lists by region, climate
and month, by default the 86 sites that may be passed on) and from scores on 182 measured European series that were in
no fit (bias 1.0, sd 4.3, p90 6.2 %). With a region stands the share of its sites within the cautious and the hopeful
end of the table and of the years; 80 % are wanted. Two doubts come on top, each where it was seen or must be feared:
under a sky that hardly ever has clouds, and where the two grids are far apart.

Corrections by season, rain, cloud water, height, or the two grids' difference were tried on the differences with one of
13 regions left out at a time: none made the left-out ones better but the one for cold months (``recipe.cold_ln``).
"""

from dataclasses import dataclass
from math import hypot

import numpy as np
from numpy.typing import NDArray

from service.core.sky.clear_sky import MONTH_DAYS

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Region:
    """A region of like accuracy: its code, and the relative standard deviation of the table's yearly sum there."""

    code: str
    sd_share: float


# 7 measured stations rms 2.9 % (41 with the satellite's own points 2.8); 69 measured series 2.7 % high, sd 2.7. Ten
# German typical years, known to be some 6 % low, are in the 82 % of 51 sites within.
_SATELLITE = Region("satellite_box", 0.04)
# 5 stations in Ireland and the Netherlands, rms 2.1 %; measured series of the British Isles and France sd about 4.
_EUROPE_WEST = Region("western_europe", 0.04)
_EUROPE_EAST = Region("eastern_europe", 0.06)  # no open station: between the west and the south
# 31 stations, rms 8.2 %, all of them modelled, four on a foggy coast; 87 % within.
_EUROPE_SOUTH = Region("southern_europe", 0.07)
_NORDIC = Region("north_of_58", 0.08)  # 11 Norwegian series, p90 7.9 %; thinly checked
# 27 stations, rms 6.0 %, all of them modelled; 78 % within, and 85 of the 27 whose coldest month is above 18 C. So that
# eight tenths of the other countries' sites were within, it would be 5.2 to 6.9 %; of left-out ones 81 % then are.
_TROPICS = Region("tropics", 0.055)
# 70 stations, rms 5.0 %, 84 % within; nearly all in the United States and New Zealand, so it is not drawn tighter.
_ELSEWHERE = Region("elsewhere", 0.05)
FAR_ISLAND = Region("far_island", 0.10)  # left-out coasts sd 5.1 % against the table itself, plus the table's own error
# The two grids, each corrected alone, are at most this far apart in ln of the year's light at 176 of the 182 stations
# that have both (half of them within 0.035); of the land between 58 N and 57 S a tenth lies beyond, most of it from
# Assam to south-west China, in the cold forests of Canada and Siberia and along the Andes. Which of them is right no
# station tells there, so half of what is beyond counts as a doubt of its own: judgement.
_SEEN_APART_LN, _SD_OF_BEYOND = 0.12, 0.5
# Of 14 sites with a clear-sky index from 0.88 on (Egypt, Israel, the lower Colorado) 64 % lie within the bands above,
# and no bias (0.5 %): Alexandria has 14 % less light than the table, Aswan 14 % more, by typical years nobody tells how
# made. The doubt that is added was learned on them, mindful of their few regions (``cloudless_places.py`` of the
# builders): 0.072, and 0.063 to 0.093 with a region left out; 79 % are within, of left-out ones 79, too.
CLOUDLESS_SD_SHARE = 0.07
_CLOUDLESS_FROM, _CLOUDLESS_FULLY = 0.86, 0.90

# Independent days would make years too alike: persistence counts as if each spell of three days were one. Set so that
# the world's cells have the median of 2.5 % that GLDAS-2.1 shows for 2012-2022; the middle 80 % then come out at
# 1.4 to 4.2 % by themselves, where that grid has 1.2 to 4.1.
_PERSISTENCE = 1.76
_YEARS_ALIKE, _YEARS_UNLIKE = 0.01, 0.06


def region_of(latitude_deg: float, longitude_deg: float) -> Region:
    """The accuracy region of a place that has a cell."""
    if 45.0 <= latitude_deg <= 56.0 and 5.0 <= longitude_deg <= 16.0:
        return _SATELLITE
    if abs(latitude_deg) > 58.0:
        return _NORDIC
    if latitude_deg > 35.5 and -11.0 <= longitude_deg <= 45.0:
        return _in_europe(latitude_deg, longitude_deg)
    return _TROPICS if abs(latitude_deg) < 25.0 else _ELSEWHERE


def sd_share_of(region: Region, apart_ln: float, clearness: float) -> float:
    """Relative standard deviation of the table's yearly sum.

    Args:
        region: see ``region_of``.
        apart_ln: how far its two grids are apart there.
        clearness: mean of the twelve monthly clear-sky indices.

    >>> [round(sd_share_of(Region("elsewhere", 0.05), *at), 3) for at in ((0.1, 0.7), (-0.37, 0.7), (0.1, 0.95))]
    [0.05, 0.135, 0.086]
    """
    apart = _SD_OF_BEYOND * max(abs(apart_ln) - _SEEN_APART_LN, 0.0)
    return hypot(region.sd_share, apart, CLOUDLESS_SD_SHARE * cloudless_share(clearness))


def cloudless_share(clearness: float) -> float:
    """How fully the doubt of a sky that hardly ever has clouds counts, by the mean clear-sky index: 0 to 1.

    >>> [round(cloudless_share(clearness), 2) for clearness in (0.8, 0.87, 0.97)]
    [0.0, 0.25, 1.0]
    """
    return float(np.clip((clearness - _CLOUDLESS_FROM) / (_CLOUDLESS_FULLY - _CLOUDLESS_FROM), 0.0, 1.0))


def year_to_year_sd_share(kwh_a_day: Floats, day_quantiles: Floats) -> float:
    """Relative standard deviation of yearly sums about the long mean, from how much the days of each month differ.

    Args:
        kwh_a_day: (12,) monthly means of daily irradiation.
        day_quantiles: (12, n) normalised daily quantiles.
    """
    days = np.asarray(MONTH_DAYS, dtype=np.float64)
    of_sum = np.sqrt((days * (kwh_a_day * day_quantiles.std(axis=1)) ** 2).sum())
    share = _PERSISTENCE * of_sum / max(float((kwh_a_day * days).sum()), 1e-9)
    return float(np.clip(share, _YEARS_ALIKE, _YEARS_UNLIKE))


def _in_europe(latitude_deg: float, longitude_deg: float) -> Region:
    if latitude_deg < 45.0:
        return _EUROPE_SOUTH
    return _EUROPE_WEST if longitude_deg < 5.0 else _EUROPE_EAST
