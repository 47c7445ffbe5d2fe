"""How well does a supposition about the set explain the logged power, at the best level for it?

A supposition is the power that the set would give before the inverter's limit, part by part. Its level, one factor a
day, is taken where the limit does not cut; what is left over is its misfit, a share of the logged energy.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from service.core.logbook.diagnosis.frame import Frame, Parts
from service.core.logbook.diagnosis.set_model import Scene, SetModel, Weather, dc_of_arrays, in_steps, scene_of
from service.core.model.hours import Bools, Floats, Ints
from service.core.model.place import Plane

_UNDER_LIMIT = 0.93  # of the limit: a step below it tells the level


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Compared:
    """Some days of a log beside the set's light: steps (k,) with power, their days from 0, and weights.

    ``rows`` (k,) are their numbers in the frame; ``scene`` is over the parts with light of these steps.
    """

    model: SetModel
    parts: Parts
    part_share: float
    scene: Scene
    rows: Ints
    power_w: Floats
    weight: Floats
    day: Ints
    days: int

    def free_w(self, dc_w: Floats) -> Floats:
        """A.c. power of parts before the limit."""
        return self.model.ac_w(dc_w)

    def stated_w(self, turned: Sequence[Plane] | None = None) -> Floats:
        """The set as stated, or turned, (m,) before the limit."""
        return self.free_w(np.asarray(sum(dc_of_arrays(self.model, self.scene, turned))))

    def in_steps(self, parts_w: Floats) -> Floats:
        """Means of the steps (k,)."""
        return in_steps(parts_w, self.parts.at, self.rows.size, self.part_share)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Fit:
    """A supposition beside the log: factor of each day (days,), power (k,), misfit over energy, of all and by day."""

    level: Floats
    power_w: Floats
    misfit: float
    day_misfit: Floats

    @property
    def usual_level(self) -> float:
        """Median of the days' factors."""
        known = self.level[np.isfinite(self.level)]
        return float(np.median(known)) if known.size else float("nan")


def compared_on(
    frame: Frame, model: SetModel, weather: Weather, chosen_days: Ints, weight: Floats | None = None
) -> Compared:
    """The steps of some days in which power is known. ``weather`` is over ``frame.parts``; ``weight`` (n,) by step."""
    is_chosen = np.zeros(frame.days, dtype=np.bool_)
    is_chosen[chosen_days] = True
    has_light = np.bincount(frame.parts.at, minlength=frame.start_s.size) > 0
    keep: Bools = is_chosen[frame.day] & np.isfinite(frame.power_w) & has_light
    rows = np.flatnonzero(keep)
    number = np.full(frame.start_s.size, -1)
    number[rows] = np.arange(rows.size)
    of_parts = np.flatnonzero(number[frame.parts.at] >= 0)
    parts = frame.parts.only(of_parts, number[frame.parts.at[of_parts]])
    order = np.full(frame.days, 0)
    order[np.flatnonzero(is_chosen)] = np.arange(int(is_chosen.sum()))
    return Compared(
        model=model, parts=parts, part_share=frame.part_share,
        scene=scene_of(model, parts, part_of(weather, of_parts)), rows=rows, power_w=frame.power_w[rows],
        weight=np.ones(rows.size) if weight is None else weight[rows], day=order[frame.day[rows]],
        days=max(int(is_chosen.sum()), 1),
    )  # fmt: skip


def part_of(weather: Weather, rows: Ints) -> Weather:
    """The weather of some moments."""
    return Weather(
        ghi_w_per_m2=weather.ghi_w_per_m2[rows], dni_w_per_m2=weather.dni_w_per_m2[rows],
        dhi_w_per_m2=weather.dhi_w_per_m2[rows], air_c=weather.air_c[rows], wind_m_per_s=weather.wind_m_per_s[rows],
    )  # fmt: skip


def fitted(compared: Compared, free_w: Floats, limit_w: float) -> Fit:
    """The supposition at its best level for each day.

    Args:
        compared: the log.
        free_w: (m,) power of parts before the limit.
        limit_w: of the inverter, as supposed.
    """
    steps = compared.in_steps(free_w)
    weight, day = compared.weight, compared.day
    level = np.ones(compared.days)
    for _ in range(2):
        under = weight * (steps * level[day] < _UNDER_LIMIT * limit_w)
        free = np.bincount(day, under * steps, minlength=compared.days)
        logged = np.bincount(day, under * compared.power_w, minlength=compared.days)
        level = np.divide(logged, free, out=np.ones(compared.days), where=free > 0.0)
    cut = np.minimum(free_w * level[day][compared.parts.at], limit_w)
    power = compared.in_steps(cut)
    total = float(weight @ compared.power_w)
    off = weight * np.abs(compared.power_w - power)
    misfit = float(off.sum()) / total if total > 0.0 else 1.0
    made = np.bincount(day, weight * compared.power_w, minlength=compared.days)
    by_day = np.bincount(day, off, minlength=compared.days) / np.maximum(made, 1e-9)
    return Fit(level=level, power_w=power, misfit=misfit, day_misfit=by_day)
