"""How much power does the home draw in each hour of the year?

From a yearly figure: the published shape of an average home, lifted off the always-on floor, moved into the hours
at home, with the named machines put at their usual hour. The yearly energy is kept by every step. The caller's own
mean powers, where given, replace all of this: they define the demand, and the yearly figure follows from them.

Not modelled: public holidays (taken as the weekday they fall on), weather, persons (they stand in the yearly
figure), anything within an hour (see ``self_use``).
"""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from service.core.errors import ContradictionError
from service.core.household.clock_rows import HOURS_A_DAY, ClockRows, clock_rows
from service.core.model.demand import DemandShape
from service.core.model.facts import AtHome, Household, Machine
from service.core.model.hours import HOURS, Calendar, Floats

# Power above the always-on floor while nobody is at home or all sleep, as a share of that while somebody is about.
# Our own choice, not measured: 1 would leave the published shape as it is, 0 would leave the floor alone.
AWAY_SHARE = 0.35

# A washing machine, dishwasher or dryer draws its energy within about two hours (our choice; the energy is given).
RUN_HOURS = 2
# Most of it for heating, in its first hour (trade figures, from memory: 60 to 80 % of a wash at 40 to 60 C); the rest
# evenly over the run.
HEATER_SHARE = 0.65

_QUARTERS = 4 * HOURS  # of a year
_FEBRUARY_29 = slice((31 + 28) * 24, (31 + 29) * 24)


def demand_w(household: Household, calendar: Calendar, shape: DemandShape, *, southern: bool = False) -> Floats:
    """Mean demand of each hour of the year, in W, shape (8760,).

    Args:
        household: yearly kWh, always-on W, hours at home, machines; or own ``values_w``.
        calendar: the wall clock of the rows.
        shape: the published shape; its months and days are moved by half a year where ``southern`` is true.
        southern: does the home stand south of the equator, where winter is in July?

    Own values: 24 (wall-clock hours of a day), 168 (Monday 00:00 first), 8760 (rows in standard time from
    1 January), 8784 (a leap year; its 29 February is left out), 35040 or 35136 (the same in quarter-hours).

    Without own values the mean of the result is exactly ``demand_kwh_per_year`` / 8760 h. An always-on power above
    that mean is cut to it; machines that would need more than what is left above the floor are cut to that.

    Raises:
        ContradictionError: ``values_w`` has another length.
    """
    if household.values_w is not None:
        return _own_values_w(np.asarray(household.values_w, dtype=np.float64), calendar)
    return BesideMachines.of(household, calendar, shape, southern=southern).with_machines_w(household.machines)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BesideMachines:
    """What a home without own values draws apart from its machines, to which they are put at any hours.

    ``floor_w`` is always drawn; ``above_w`` in the mean on top of it, machines and all. ``rest_w``, (8760,), has the
    shape of what is left of that beside the machines, of mean ``rest_mean_w``.
    """

    floor_w: float
    above_w: float
    rest_w: Floats
    rest_mean_w: float
    rows: ClockRows

    @classmethod
    def of(cls, household: Household, calendar: Calendar, shape: DemandShape, *, southern: bool) -> "BesideMachines":
        """Of a home; the arguments are those of ``demand_w``."""
        rows = clock_rows(calendar)
        mean_w = household.demand_kwh_per_year * 1000.0 / HOURS
        floor_w = min(household.always_on_w, mean_w)
        rest_w = mean_w * _relative_shape(calendar, shape, southern)
        rest_w -= floor_w
        np.maximum(rest_w, 0.0, out=rest_w)
        if household.at_home is not None:
            rest_w *= _presence(rest_w, household.at_home, rows).take(rows.hour_of_kind)
        return cls(
            floor_w=floor_w, above_w=mean_w - floor_w, rest_w=rest_w, rest_mean_w=float(rest_w.mean()), rows=rows
        )  # fmt: skip

    def with_machines_w(self, machines: tuple[Machine, ...]) -> Floats:
        """(8760,) with these machines, their runs spread evenly over all days; they are cut to what is above the floor.

        The mean is that of the home whatever the machines, and whenever they run.
        """
        by_hour = np.zeros(HOURS_A_DAY)
        for machine in machines:
            by_hour += mean_day_w(machine)
        asked_w = float(by_hour @ self.rows.rows_of_hour) / HOURS
        if asked_w > self.above_w:
            by_hour *= self.above_w / asked_w
            asked_w = self.above_w
        scale = (self.above_w - asked_w) / self.rest_mean_w if self.rest_mean_w > 0.0 else 0.0
        return np.asarray(self.rest_w * scale + (by_hour + self.floor_w).take(self.rows.hour), dtype=np.float64)


def _own_values_w(values: Floats, calendar: Calendar) -> Floats:
    hour = clock_rows(calendar).hour
    if values.size == 24:
        return np.asarray(values[hour])
    if values.size == 168:
        return np.asarray(values[calendar.weekday * 24 + hour])
    if values.size == HOURS:
        return values
    if values.size == HOURS + 24:
        return np.delete(values, _FEBRUARY_29)
    if (quarters := _in_quarters(values)) is not None:
        return np.asarray(quarters.reshape(HOURS, -1).mean(axis=1))
    raise ContradictionError(
        "/household/demand/values_w", "wrong number of values", given=int(values.size),
        accepted="24, 168, 8760, 8784, 35040 or 35136", example=[210] * 24,
    )  # fmt: skip


def quarters_w(household: Household) -> Floats | None:
    """Mean demand of each quarter-hour of the year, in W, (35040,); None where the home's own values do not tell it."""
    return None if household.values_w is None else _in_quarters(np.asarray(household.values_w, dtype=np.float64))


def _in_quarters(values: Floats) -> Floats | None:
    if values.size == _QUARTERS + 4 * 24:
        return np.delete(values, slice(4 * _FEBRUARY_29.start, 4 * _FEBRUARY_29.stop))
    return values if values.size == _QUARTERS else None


@lru_cache(maxsize=8)  # a home is asked about several times, and its neighbours have the same clock
def _relative_shape(calendar: Calendar, shape: DemandShape, southern: bool) -> Floats:
    """The shape on the rows of the year, with mean 1; read-only."""
    month, day = calendar.month - 1, calendar.day_of_year
    if southern:
        month = (month + 6) % 12
        day = (day - 1 + 182) % 365 + 1
    kind = np.clip(calendar.weekday - 4, 0, 2)
    relative = shape.by_month_kind_hour[month, kind, clock_rows(calendar).hour]
    by_day = np.polynomial.polynomial.polyval(np.arange(367.0), shape.day_polynomial)
    relative = relative * by_day[day]
    relative = np.asarray(relative / relative.mean(), dtype=np.float64)
    relative.setflags(write=False)
    return relative


def _presence(rest_w: Floats, at_home: AtHome, rows: ClockRows) -> Floats:
    """(48,) by what to multiply the rest to move it into the hours at home; weekdays and weekends keep their energy.

    An hour weighs 1 with somebody about for the whole of it, ``AWAY_SHARE`` with nobody, between in part. A list
    without hours is taken as not said and moves nothing.
    """
    rest = np.bincount(rows.hour_of_kind, weights=rest_w, minlength=2 * HOURS_A_DAY).reshape(2, HOURS_A_DAY)
    weights = np.ones_like(rest)
    for kind, spans in enumerate((at_home.weekday, at_home.weekend)):
        if spans:
            weights[kind] = AWAY_SHARE + (1.0 - AWAY_SHARE) * _hours_covered(spans)
    weighted = (rest * weights).sum(axis=1, keepdims=True)
    kept = np.divide(rest.sum(axis=1, keepdims=True), weighted, out=np.ones_like(weighted), where=weighted > 0.0)
    return np.asarray((weights * kept).ravel())


@lru_cache(maxsize=32)  # of two kinds of day; a home is asked about again with another set
def _hours_covered(spans: tuple[tuple[float, float], ...]) -> Floats:
    """(24,) share of each wall-clock hour within the (from, to) spans; a span that ends earlier spans midnight.

    Read-only: it is shared by all who ask.
    """
    covered = np.zeros(24)
    hour = np.arange(24.0)
    for from_h, to_h in spans:
        pieces = [(from_h, to_h)] if from_h <= to_h else [(from_h, 24.0), (0.0, to_h)]
        for start, end in pieces:
            covered += np.clip(np.minimum(hour + 1.0, end) - np.maximum(hour, start), 0.0, 1.0)
    np.minimum(covered, 1.0, out=covered)
    covered.setflags(write=False)
    return covered


def mean_day_w(machine: Machine) -> Floats:
    """(24,) mean power of a machine by wall-clock hour at its usual hour, over days with and without a run."""
    by_hour = np.zeros(24)
    kwh_a_day = machine.kwh_a_run * machine.runs_per_week / 7.0
    for step in range(RUN_HOURS):
        share = (1.0 - HEATER_SHARE) / RUN_HOURS + (0.0 if step else HEATER_SHARE)
        by_hour[(int(machine.usual_hour) + step) % 24] += kwh_a_day * 1000.0 * share
    return by_hour
