"""How does weather look that the caller measured or bought: steps of one length, gaps in them, and what they mean?"""

from dataclasses import dataclass

import numpy as np

from service.core.model.hours import Floats, Ints, SkyYear


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class GivenWeather:
    """Means over even steps, one after the other; arrays of one shape (n,), NaN where a step is missing.

    Attributes:
        begins_utc: when the first step begins, whatever its stamp means.
        step_minutes: length of a step; 60 is a multiple of it.
        ghi_w_per_m2, dni_w_per_m2, dhi_w_per_m2: light on level ground, straight from the sun, from the rest of the
            sky; None: not given.
        plane_w_per_m2: light on the plane of each array, as its panels get it; None: not given.
        air_c, wind_m_per_s: None: not given.
        rows: at which step each row of the series stands, rising; None: one after the other.
    """

    begins_utc: np.datetime64
    step_minutes: int
    ghi_w_per_m2: Floats | None
    dni_w_per_m2: Floats | None
    dhi_w_per_m2: Floats | None
    plane_w_per_m2: tuple[Floats, ...] | None
    air_c: Floats | None
    wind_m_per_s: Floats | None
    rows: Ints | None = None

    def row_at(self, moment: np.datetime64) -> int:
        """The first row of the series whose step begins then or later."""
        step = -int((self.begins_utc - moment) // np.timedelta64(60 * self.step_minutes, "s"))
        return max(step, 0) if self.rows is None else int(np.searchsorted(self.rows, step))

    def has_the_sum_alone(self) -> bool:
        """Is it open how much of the light on level ground comes straight from the sun?"""
        return self.ghi_w_per_m2 is not None and self.dni_w_per_m2 is None and self.dhi_w_per_m2 is None


@dataclass(frozen=True, slots=True, kw_only=True)
class WeatherGap:
    """Hours in a row that the series does not know: of ``what`` (light, air, wind), and how many of them have sun."""

    what: str
    from_utc: str
    to_utc: str
    hours: int
    daylight_hours: int


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class GivenSky:
    """The hours that given weather makes.

    Attributes:
        sky: with whole_year the (8760,) rows of the reference year's calendar, else (n,) hours as they were.
        whole_year: are all hours of a year there?
        from_utc, to_utc: beginning and end of what was used, RFC 3339.
        gaps: what was filled.
        leap_day_left_out: was a 29 February in it that the year of 365 days has no room for?
        hours_left_out: hours before the last year of a longer series.
        split_by_model: was only the sum of the light on level ground known?
        air_given: or is it the typical year's?
        wind_given: or is it the place's mean?
        rest_of_months_h: hours not given, in months given in part, whose typical air tells with how much snow lies.
    """

    sky: SkyYear
    whole_year: bool
    from_utc: str
    to_utc: str
    gaps: tuple[WeatherGap, ...]
    leap_day_left_out: bool
    hours_left_out: int
    split_by_model: bool
    air_given: bool
    wind_given: bool
    rest_of_months_h: int
