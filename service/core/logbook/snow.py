"""May a set that gives nothing lie under snow?"""

from dataclasses import dataclass

import numpy as np

from service.core.logbook.zones import Zone

# After so many days under snow on a flat panel, or on one so steep that it slides off, the set is off. Judgement.
_MOST_DAYS, _MOST_DAYS_STEEP, _STEEP_DEG = 45, 10, 60.0
_COLD_C = 3.0  # mean of a month in which snow may lie


@dataclass(frozen=True, slots=True, kw_only=True)
class Silence:
    """The end of a log in which the set gives nothing by daylight: since when (Unix seconds) and for how many days."""

    since_s: int
    days: int


@dataclass(frozen=True, slots=True, kw_only=True)
class SnowFacts:
    """The mean air of each month, C, January first, and how steep the least steep panel stands."""

    air_c: tuple[float, ...]
    least_tilt_deg: float

    def may_lie(self, silent: Silence, zone: Zone) -> bool:
        """May snow explain all of it?"""
        first = int(zone.day_of(np.array([silent.since_s]))[0])
        days = np.arange(first, first + silent.days).astype("datetime64[D]")
        months = set((days.astype("datetime64[M]").astype(np.int64) % 12).tolist())
        most = _MOST_DAYS_STEEP if self.least_tilt_deg >= _STEEP_DEG else _MOST_DAYS
        return silent.days <= most and all(self.air_c[month] < _COLD_C for month in months)
