"""A made-up year of production for tests of what comes after it: half-sine days, longer and stronger in summer."""

import numpy as np

from service.core.energy.result import ArrayYear, EnergyYear
from service.core.model.band import SpreadPart, band_around
from service.core.model.hours import SkyYear
from service.core.model.place import Plane
from service.core.sky import calendar_of

CALENDAR = calendar_of("Europe/Berlin", 12.3)
SPREAD = (SpreadPart("climate_data", 0.05), SpreadPart("year_to_year", 0.025), SpreadPart("model", 0.03))


def production_w(year_kwh: float = 640.0):
    """(8760,) powers that add up to ``year_kwh``; every third day is a third as bright."""
    hour = np.arange(8760) % 24 + 0.5
    season = 0.5 - 0.5 * np.cos(2 * np.pi * (CALENDAR.day_of_year + 10) / 365)
    half_day = 4.0 + 4.0 * season
    sun = np.cos(np.clip((hour - 12.0) / half_day, -1, 1) * np.pi / 2) * (0.4 + 0.6 * season)
    sun = sun * np.where(CALENDAR.day_of_year % 3 == 0, 1 / 3, 1.0)
    return sun * (year_kwh * 1000.0 / sun.sum())


def energy_year(year_kwh: float = 640.0, spread=SPREAD) -> EnergyYear:
    """That year as the energy room would hand it on."""
    ac_w = production_w(year_kwh) if year_kwh else np.zeros(8760)
    months = np.bincount(CALENDAR.month - 1, weights=ac_w, minlength=12) / 1000.0
    plane = Plane(tilt_deg=90, azimuth_deg=150)
    left = ArrayYear(
        name="left", year_kwh=year_kwh, plane=plane, peak_w=float(ac_w.max()), hottest_cell_c=60.0, hours_not_started=0
    )
    return EnergyYear(
        year_kwh=band_around(year_kwh, spread),
        months_kwh=tuple(months),
        day_kinds=(),
        hours_at_limit=0.0,
        light_kwh=year_kwh * 1.1,
        lost_kwh={"conversion": year_kwh * 0.1, "export_limit": 0.0},
        night_draw_kwh=0.0,
        arrays=(left,),
        spread=spread,
        ac_w=ac_w,
        dc_w=(ac_w / 0.95,),
    )


def sky_year() -> SkyYear:
    """Light to match: only the clock and the light on level ground mean anything."""
    light = production_w()
    return SkyYear(
        calendar=CALENDAR, sun_zenith_deg=light, sun_azimuth_deg=light, ghi_w_per_m2=light, dni_w_per_m2=light,
        dhi_w_per_m2=light, extraterrestrial_w_per_m2=light, clear_ghi_w_per_m2=np.maximum(light, 1.0), air_c=light,
        wind_m_per_s=light,
    )  # fmt: skip
