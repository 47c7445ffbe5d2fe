"""What does the energy chain answer? The values of a year, with no prose in them."""

from collections.abc import Mapping
from dataclasses import dataclass

from service.core.model.band import Band, SpreadPart
from service.core.model.hours import Floats
from service.core.model.place import Plane

# In the order in which light and power meet them. Snow on the panels is not modelled and so has no entry.
LOSSES = (
    "skyline", "overhang", "shade", "cover", "angle", "dirt", "heat_and_light", "ageing", "mismatch", "leads",
    "voltage_window", "current_limit", "power_limit", "conversion", "clipped", "export_limit", "downtime",
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
class ArrayYear:
    """One array's part. ``year_kwh``: its share of the a.c. energy, hour by hour as its share of the d.c. power.

    ``peak_w``: its highest hourly mean of d.c. power. ``hours_not_started``: hours with light on it in which its
    input had not started or had no working point.
    """

    name: str
    year_kwh: float
    plane: Plane
    peak_w: float
    hottest_cell_c: float
    hours_not_started: int


@dataclass(frozen=True, slots=True, kw_only=True)
class ArrayConditions:
    """What the compatibility of an array depends on in the typical year: the hottest hour of its cells, in C."""

    name: str
    hottest_cell_c: float


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
        night_draw_kwh: taken from the socket without d.c. power; apart, not in the account.
        arrays: one entry for each array of the request.
        spread: why the year is uncertain.
        ac_w: (8760,) a.c. power of each hour, after downtime, never below 0.
        dc_w: d.c. power that the inputs draw, (8760,) for each array.
        before_export_limit: the year as it would be if surplus might leave freely; None where it may.
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
