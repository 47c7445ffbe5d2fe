"""What does the energy chain answer? The values of a year, with no prose in them."""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from service.core.energy.other_light import OtherLight
from service.core.model.band import Band, SpreadPart, ends_of
from service.core.model.hours import Floats
from service.core.model.place import Plane

# In the order in which light and power meet them.
LOSSES = (
    "skyline", "overhang", "shade", "cover", "angle", "rear_light", "dirt", "snow", "heat_and_light", "ageing",
    "mismatch", "leads", "voltage_window", "current_limit", "power_limit", "conversion", "clipped", "export_limit",
    "downtime",
)  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class DayKind:
    """The mean day of one kind in one season.

    ``season``: winter, spring, summer, autumn (three whole months each, by hemisphere). ``kind``: clear, changing,
    dull. ``days``: how many there are in the year. ``ac_w``: 24 mean powers by the hour of the wall clock.
    """

    season: str
    kind: str
    days: int
    ac_w: tuple[float, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Little:
    """What is left of an array's light (kWh of its rated power) as d.c. energy, and what takes most (kWh).

    ``because``: a code of the account. ``from_month``, ``to_month``: the half-year, from 1; None: all hours.
    ``hours_not_started``: of these hours, those with light in which its input gave nothing.
    """

    light_kwh: float
    left_kwh: float
    because: str
    taken_kwh: float
    hours_not_started: int
    from_month: int | None = None
    to_month: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class ArrayYear:
    """One array's part. ``year_kwh``: its share of the a.c. energy, hour by hour as its share of the d.c. power.

    ``peak_w``: its highest hourly mean of d.c. power. ``hours_not_started``: hours with light on it in which its
    input had not started or had no working point. ``little``: why next to nothing comes of it, where that is so.
    """

    name: str
    year_kwh: float
    plane: Plane
    peak_w: float
    hottest_cell_c: float
    hours_not_started: int
    little: Little | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class ArrayConditions:
    """What the compatibility of an array depends on in the typical year: its cells at their hottest and cool, in C."""

    name: str
    hottest_cell_c: float
    cool_cell_c: float


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class EnergyYear:
    """A typical year of the whole set.

    Attributes:
        year_kwh: a.c. energy, cautious, middle and hopeful.
        months_kwh: 12 sums of the middle by wall-clock month.
        day_kinds: mean days, winter to autumn, clear to dull; kinds that do not occur are left out.
        hours_at_limit: hours in which the inverter's limit cut the power.
        light_kwh: what the rated power would give in all the light on the bare planes.
        lost_kwh: by code of ``LOSSES``; light_kwh less all of them is year_kwh.middle. A gain is negative (cold
            cells give more than rated).
        night_draw_kwh: taken from the socket without d.c. power; apart, not in the account of energy (in that of money
            it is bought).
        arrays: one entry for each array of the request.
        spread: why the year is uncertain.
        ac_w: (8760,) a.c. power of each hour, after downtime, never below 0.
        dc_w: d.c. power that the inputs draw, (8760,) for each array.
        before_export_limit: the year as it would be if surplus might leave freely; None where it may.
        other_light: the same set asked again with other light; None: nothing cuts, hours go with the light.
    """

    year_kwh: Band
    months_kwh: tuple[float, ...]
    day_kinds: tuple[DayKind, ...]
    hours_at_limit: float
    light_kwh: float
    lost_kwh: Mapping[str, float]
    night_draw_kwh: float
    arrays: tuple[ArrayYear, ...]
    spread: tuple[SpreadPart, ...]
    ac_w: Floats
    dc_w: tuple[Floats, ...]
    before_export_limit: "EnergyYear | None" = None
    other_light: OtherLight | None = None

    def light_ends(self) -> tuple[float, float]:
        """The scale of the light at the cautious and at the hopeful end of the band."""
        return ends_of(self.spread)

    def ac_at(self, scale: float) -> Floats:
        """(8760,) a.c. power with ``scale`` times the light, W, before an export limit; never above the set's limit."""
        return (self.before_export_limit or self).ac_w if scale == 1.0 else self.ac_and_clipped_at(scale)[0]

    def ac_and_clipped_at(self, scale: float) -> tuple[Floats, Floats]:
        """The same and what the set's limit cuts off, W after downtime, (8760,) each."""
        free = self.before_export_limit or self
        if free.other_light is None:
            return free.ac_w * scale, np.zeros_like(free.ac_w)
        return free.other_light.ac_and_clipped_w(scale)

    def kwh_at(self, scale: float) -> float:
        """The year's sum of ``ac_at``."""
        return float(np.sum(self.ac_at(scale))) / 1000.0
