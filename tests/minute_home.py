"""A home's year of minutes as it was measured, and a made-up year of minutes of a panel facing south beside it."""

import lzma
from functools import cache
from pathlib import Path

import numpy as np
from scipy.signal import lfilter
from scipy.special import ndtri

# UCI "Individual household electric power consumption", G. Hebrail and A. Berard, CC BY 4.0, doi 10.24432/C58K54;
# the year 2007, made smaller by tests/reference/make_minute_home.py.
FILE = Path(__file__).parent / "reference" / "minute_home.i2.xz"
DAYS, MINUTES = 365, 1440
_LATITUDE, _TILT = np.radians(48.78), np.radians(35.0)


@cache
def home_w():
    """(525600,) mean power of each minute of 2007, local clock (a Monday first), in W."""
    return np.frombuffer(lzma.decompress(FILE.read_bytes()), dtype="<i2").astype(np.float64)


@cache
def panel_share(minute_clouds):
    """(525600,) power of a panel 35 degrees to the south at that latitude, over its rated power.

    Sun by Cooper's declination, noon at 12:50 as on that clock in winter. Clear beam by Meinel's air mass law. Each day
    lets a share of the beam through, drawn once (fixed lots): evenly, or as a sun that comes and goes within minutes.
    """
    minute = np.arange(DAYS * MINUTES)
    day = minute // MINUTES
    hour_angle = np.radians(((minute % MINUTES) / 60.0 - 12.0 - 50.0 / 60.0) * 15.0)
    declination = np.radians(23.45 * np.sin(2.0 * np.pi * (285.0 + day) / 365.0))
    high = np.sin(_LATITUDE) * np.sin(declination)
    high = high + np.cos(_LATITUDE) * np.cos(declination) * np.cos(hour_angle)
    tipped = np.sin(_LATITUDE - _TILT) * np.sin(declination)
    tipped = tipped + np.cos(_LATITUDE - _TILT) * np.cos(declination) * np.cos(hour_angle)
    up = np.maximum(high, 0.0)
    beam = np.where(high > 0.0, 1353.0 * 0.7 ** ((1.0 / (up + 0.03)) ** 0.678), 0.0)
    lots = np.random.default_rng(20261125)
    through = np.repeat(np.clip(lots.beta(0.8, 0.9, DAYS), 0.02, 0.98), MINUTES)
    diffuse = (0.12 * beam * up + 25.0 * np.minimum(5.0 * up, 1.0)) * (1.8 - 0.8 * through)
    if minute_clouds:
        wander = lfilter([np.sqrt(1.0 - 0.95**2)], [1.0, -0.95], lots.normal(size=minute.size))
        through = np.where(wander < ndtri(through), 1.0, 0.1)
    return 0.88 * (beam * np.maximum(tipped, 0.0) * (high > 0.0) * through + 0.91 * diffuse) / 1000.0


def by_hour(minutes):
    """(8760,) hourly means."""
    return minutes.reshape(-1, 60).mean(axis=1)
