"""Has something grown before the sun since last year: less of the beam in one sector of the sky than a year ago?

In the same weeks the sun runs the same way. So clear days of the last year are set beside clear days of the year
before, fortnight by fortnight and half hour by half hour of the sun's time, each day by its own level: what lowers a
whole day (dirt, age, a dead input) leaves that alone, and so does a shadow that stood there a year ago already.
"""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from service.core.logbook.diagnosis.clear_days import DayCourse
from service.core.logbook.diagnosis.frame import Frame
from service.core.model.hours import Bools, Floats, Ints

YEAR_DAYS, LEAST_DAYS = 365, 393  # four weeks of the second year at least
_WEEKS_DAYS, _PARTS_A_DAY = 14, 48
_BRIGHT_SHARE = 0.12  # of the greatest cloudless power
_DAY_QUANTILE = 0.75  # of a day's ratios: its level, unless three quarters of it are shaded
_EDGES_DEG = (-90.0, -70.0, -50.0, -30.0, -10.0, 10.0, 30.0, 50.0, 70.0, 90.0)  # from the noon sun
_BELOW_DEG = (15.0, 20.0, 25.0, 30.0, 40.0, 50.0, 65.0)
_LEAST_CELLS, _LEAST_FORTNIGHTS = 6, 2
_LEAST_FALL, _SURE_FALL = 0.07, 5.0
_FLOOR_SD = 0.03
_GAIN_ELSEWHERE = 0.5  # of the fall: as much more on the other side is a turned plane or a clock, no shadow
_LEAST_ENERGY_SHARE = 0.008


@dataclass(frozen=True, slots=True, kw_only=True)
class GrownShade:
    """A sector of the sky from which less comes than a year before.

    Attributes:
        fall_share: of the power while the sun stands there.
        sureness: the fall over its standard error.
        energy_share: of the energy of the clear days compared.
        side: -1 before the noon sun, 1 after it.
        edge_deg: from the noon sun; ``below_deg``: under which height of the sun it shows.
        fortnights: in how many of those that both years know it shows.
    """

    fall_share: float
    sureness: float
    energy_share: float
    side: float
    edge_deg: float
    below_deg: float
    fortnights: int

    @property
    def sureness_share(self) -> float:
        """How sure it is, 0.6 to 0.98."""
        return float(np.clip(0.6 + 0.06 * (self.sureness - _SURE_FALL), 0.6, 0.98))

    def shown(self) -> Mapping[str, float]:
        """What speaks for it."""
        return {
            "fall_since_last_year_share": self.fall_share, "fall_over_its_error": self.sureness,
            "energy_share": self.energy_share, "sector_edge_from_noon_deg": self.edge_deg,
            "below_height_deg": self.below_deg, "fortnights_compared": float(self.fortnights),
        }  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Cells:
    """Fortnights by half hours that both years know, (c,): change, its weight, light, and where the sun stands."""

    change: Floats
    weight: Floats
    light: Floats
    turn_deg: Floats
    height_deg: Floats
    fortnight: Ints


def shade_grown(frame: Frame, cloudless_w: Floats, course: DayCourse) -> GrownShade | None:
    """Compare the last year with the one before.

    Args:
        frame: the log.
        cloudless_w: (n,) power of the stated set under a cloudless sky, limit in.
        course: of its days.
    """
    if frame.days < LEAST_DAYS or not course.sure:
        return None
    cells = _cells(frame, cloudless_w, course)
    if cells.change.size < 2 * _LEAST_CELLS:
        return None
    best: GrownShade | None = None
    for edge in _EDGES_DEG:
        sector = cells.turn_deg < edge if edge < 0.0 else cells.turn_deg > edge
        for below in _BELOW_DEG:
            found = _of_sector(cells, sector & (cells.height_deg < below), edge, below)
            if found is not None and (best is None or _weight(found) > _weight(best)):
                best = found
    return best


def _weight(found: GrownShade) -> float:
    return float(found.sureness * np.sqrt(found.energy_share))


def _cells(frame: Frame, cloudless_w: Floats, course: DayCourse) -> _Cells:
    clear = np.zeros(frame.days, dtype=np.bool_)
    clear[course.clear] = True
    later = frame.day >= max(YEAR_DAYS, frame.days - YEAR_DAYS)
    earlier = (frame.day >= max(0, frame.days - 2 * YEAR_DAYS)) & (frame.day < frame.days - YEAR_DAYS) & ~later
    bright = cloudless_w > _BRIGHT_SHARE * float(cloudless_w.max(initial=0.0))
    use = np.flatnonzero(clear[frame.day] & bright & np.isfinite(frame.power_w) & (later | earlier))
    ratio = frame.power_w[use] / cloudless_w[use]
    ratio = ratio / _day_level(ratio, frame.day[use], frame.days)[frame.day[use]]
    turn, height, hour = _sun(frame)
    year_day = frame.day[use] - YEAR_DAYS * later[use]
    fortnight = (year_day - year_day.min(initial=0)) // _WEEKS_DAYS
    part = np.clip((hour[use] * _PARTS_A_DAY / 24.0).astype(np.int64), 0, _PARTS_A_DAY - 1)
    cell = fortnight * _PARTS_A_DAY + part
    size = int(cell.max(initial=0)) + 1

    def mean(values: Floats, where: Bools) -> tuple[Floats, Floats]:
        count = np.bincount(cell[where], minlength=size).astype(np.float64)
        return np.bincount(cell[where], values[where], minlength=size) / np.maximum(count, 1.0), count

    trimmed = np.clip(ratio, 0.0, 1.4)
    after, count_after = mean(trimmed, later[use])
    before, count_before = mean(trimmed, earlier[use])
    both = np.flatnonzero((count_after > 0) & (count_before > 0))
    every = np.ones(use.size, dtype=np.bool_)
    return _Cells(
        change=(after - before)[both], weight=np.minimum(np.minimum(count_after, count_before)[both], 6.0),
        light=mean(cloudless_w[use], every)[0][both], turn_deg=mean(turn[use], every)[0][both],
        height_deg=mean(height[use], every)[0][both], fortnight=both // _PARTS_A_DAY,
    )  # fmt: skip


def _day_level(ratio: Floats, day: Ints, days: int) -> Floats:
    level = np.ones(days)
    found, begins = np.unique(day, return_index=True)
    for number, part in zip(found.tolist(), np.split(ratio, begins[1:]), strict=True):
        level[number] = max(float(np.quantile(part, _DAY_QUANTILE)), 0.02)
    return level


def _sun(frame: Frame) -> tuple[Floats, Floats, Floats]:
    """Azimuth from the noon sun (eastwards below nought), height and solar time of each step, (n,)."""
    parts, size = frame.parts, frame.start_s.size
    count = np.maximum(np.bincount(parts.at, minlength=size), 1)
    high = parts.zenith_deg < np.quantile(parts.zenith_deg, 0.2)
    south = bool(np.cos(np.deg2rad(parts.azimuth_deg[high])).mean() < 0.0)
    turn = (parts.azimuth_deg - (180.0 if south else 0.0) + 180.0) % 360.0 - 180.0
    means = [np.bincount(parts.at, one, minlength=size) / count
             for one in (turn if south else -turn, 90.0 - parts.zenith_deg, parts.solar_h)]  # fmt: skip
    return means[0], means[1], means[2]


def _of_sector(cells: _Cells, inside: Bools, edge: float, below: float) -> GrownShade | None:
    weight = cells.weight
    fortnights = np.unique(cells.fortnight[inside])
    if np.count_nonzero(inside) < _LEAST_CELLS or fortnights.size < _LEAST_FORTNIGHTS or (~inside).sum() < _LEAST_CELLS:
        return None
    change = float(np.average(cells.change[inside], weights=weight[inside]))
    outside = float(np.average(cells.change[~inside], weights=weight[~inside]))
    fall = outside - change
    opposite = ~inside & (cells.turn_deg * np.sign(edge) < 0.0) & (cells.height_deg < below)
    other = float(np.average(cells.change[opposite], weights=weight[opposite])) if opposite.any() else 0.0
    # Cells of one fortnight are the same days: each fortnight counts as one, its half hours as another half each.
    of_each = [np.flatnonzero(inside & (cells.fortnight == one)) for one in fortnights.tolist()]
    by_fortnight = [float(np.average(cells.change[rows], weights=weight[rows])) for rows in of_each]
    sd = max(float(np.std(by_fortnight)), float(np.std(cells.change[~inside])), _FLOOR_SD)
    independent = fortnights.size + 0.25 * (np.count_nonzero(inside) - fortnights.size)
    sureness = fall / (sd / float(np.sqrt(independent)))
    energy = fall * float((weight * cells.light)[inside].sum() / (weight * cells.light).sum())
    if fall < _LEAST_FALL or sureness < _SURE_FALL or energy < _LEAST_ENERGY_SHARE or other > _GAIN_ELSEWHERE * fall:
        return None
    return GrownShade(
        fall_share=fall, sureness=min(sureness, 20.0), energy_share=energy, side=float(np.sign(edge)),
        edge_deg=abs(edge), below_deg=below, fortnights=int(fortnights.size),
    )  # fmt: skip
