"""Is the inverter off where the string's voltage is too low for it: in the heat, or in dim light?

By the set's own chain the voltage of each string is known in every light. An input starts at its start voltage (open
circuit) and holds on down to the lower end of its window (at the best point). Where holes crowd at such moments and
next to none stand elsewhere, the voltage is the cause, and not the grid or the weather.
"""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from service.core.logbook.diagnosis.frame import HOUR_S, Frame
from service.core.logbook.diagnosis.set_model import Scene, SetModel, Weather, light_and_warmth, scene_of
from service.core.model.facts import Array, Setup
from service.core.model.hours import Bools, Floats
from service.core.panel import diode_of, max_power, open_circuit_voltage_v

_LIGHT_W_PER_M2 = np.array([10.0, 25.0, 50.0, 100.0, 200.0, 400.0, 700.0, 1000.0, 1300.0])
_CELLS_C = np.array([-10.0, 15.0, 40.0, 65.0, 90.0])
_LOW, _HIGH = 1.02, 1.06  # of the wanted voltage; label, leads and air leave so much open
_LIT_SHARE = 0.06  # of the greatest power under the sky that is supposed
_NOTHING_SHARE, _SOME_SHARE = 0.03, 0.15  # of the power that is supposed
_LEAST_HOURS, _LEAST_DAYS, _DAYS_SHARE = 2.0, 4, 0.1
_MANY_SHARE, _MOST_SHARE, _TIMES = 0.12, 0.25, 3.0
_ENOUGH_ELSEWHERE, _LEAST_ENERGY_SHARE = 0.1, 0.01


@dataclass(frozen=True, slots=True, kw_only=True)
class LowVoltage:
    """Holes where the voltage is low.

    Attributes:
        holes_low_share: of the lit steps with too low a voltage, how many give nothing.
        holes_else_share: the same of those whose voltage is well above.
        hours: of such holes; ``days`` on which they stand.
        voltage_v: that of the string at them, the median: at the best point (``hot``) or open (dim light).
        wanted_v: what the input wants there.
        hot: is it the heat, or dim light?
        energy_share: of what those days should have given.
    """

    holes_low_share: float
    holes_else_share: float
    hours: float
    days: int
    voltage_v: float
    wanted_v: float
    hot: bool
    energy_share: float

    @property
    def sureness_share(self) -> float:
        """How sure it is, 0.6 to 0.95."""
        return float(np.clip(0.6 + 0.6 * (self.holes_low_share - 3.0 * self.holes_else_share), 0.6, 0.95))

    def shown(self) -> Mapping[str, float]:
        """What speaks for it."""
        return {
            "off_at_low_voltage_share": self.holes_low_share, "off_otherwise_share": self.holes_else_share,
            "off_h": self.hours, "days": float(self.days), "string_v": self.voltage_v, "wanted_v": self.wanted_v,
            "in_heat": float(self.hot),
        }  # fmt: skip


def low_voltage(
    frame: Frame, model: SetModel, setup: Setup, sky: Weather
) -> LowVoltage | None:  # fmt: skip
    """Look for holes at low voltage.

    Args:
        frame: the log.
        model: the set, or one input of it.
        setup: with its inputs.
        sky: (m,) over the frame's parts: the weather of those days where it is known, else a cloudless sky.
    """
    scene = scene_of(model, frame.parts, sky)
    steps = frame.start_s.size
    count = np.maximum(np.bincount(frame.parts.at, minlength=steps), 1)

    def mean(values: Floats) -> Floats:
        return np.asarray(np.bincount(frame.parts.at, values, minlength=steps) / count)

    def by_power(values: Floats, power_w: Floats) -> Floats:
        """Means that count where there is something to be had: the last light of an hour has no voltage."""
        return np.asarray(mean(values * power_w) / np.maximum(mean(power_w), 1e-9))

    nearest = _Voltages(
        margin=np.full(steps, -np.inf), seen_v=np.zeros(steps), wanted_v=np.zeros(steps),
        hot=np.zeros(steps, dtype=np.bool_),
    )  # fmt: skip
    free = np.zeros(frame.parts.at.size)
    for k, array in enumerate(model.arrays):
        limits = setup.inverter.inputs[array.input - 1]
        if limits.start_voltage_v <= 0.0 or limits.tracking_min_v <= 0.0:
            return None
        at_best, open_v, power = _voltages(model, scene, array, k)
        free += power
        best_v, opened_v = by_power(at_best, power), by_power(open_v, power)
        running, starting = best_v / limits.tracking_min_v, opened_v / limits.start_voltage_v
        here = _Voltages(
            margin=np.minimum(running, starting), seen_v=np.where(running < starting, best_v, opened_v),
            wanted_v=np.where(running < starting, limits.tracking_min_v, limits.start_voltage_v),
            hot=running < starting,
        )  # fmt: skip
        nearest = nearest.better_of(here)  # the set is off when the best of its strings is too low
    return _judged(frame, np.minimum(mean(model.ac_w(free)), model.limit_w), nearest)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Voltages:
    """By step, (n,): voltage over the wanted one, both, and whether the window is nearer than the start."""

    margin: Floats
    seen_v: Floats
    wanted_v: Floats
    hot: Bools

    def better_of(self, other: "_Voltages") -> "_Voltages":
        """Step by step the one with more room."""
        own = self.margin >= other.margin
        return _Voltages(
            margin=np.maximum(self.margin, other.margin),
            seen_v=np.where(own, self.seen_v, other.seen_v),
            wanted_v=np.where(own, self.wanted_v, other.wanted_v),
            hot=np.where(own, self.hot, other.hot),
        )


def _judged(frame: Frame, supposed_w: Floats, voltages: _Voltages) -> LowVoltage | None:
    power = np.nan_to_num(frame.power_w)
    top = max(float(supposed_w.max(initial=0.0)), 1.0)
    lit = np.isfinite(frame.power_w) & (supposed_w > _LIT_SHARE * top)
    off = lit & (power < _NOTHING_SHARE * supposed_w)
    # Days on which it is off and on: a day without anything is snowed in, switched off or dull.
    gives = _on_days(lit & (power > _SOME_SHARE * supposed_w), frame)
    off &= gives[frame.day]
    lit &= gives[frame.day]
    low, high = lit & (voltages.margin < _LOW), lit & (voltages.margin > _HIGH)
    n_low, n_high = np.count_nonzero(low), np.count_nonzero(high)
    holes = off & (voltages.margin < _LOW)
    days = np.count_nonzero(_on_days(holes, frame))
    hours = np.count_nonzero(holes) * frame.step_s / HOUR_S
    if hours < _LEAST_HOURS or days < max(_LEAST_DAYS, _DAYS_SHARE * np.count_nonzero(gives)):
        return None
    there = np.count_nonzero(holes) / n_low
    elsewhere = np.count_nonzero(off & high) / n_high if n_high else 0.0
    # Where no moment has a voltage well above the wanted one there is nothing to compare with: it has to be off a lot.
    least = _MANY_SHARE if n_high >= _ENOUGH_ELSEWHERE * n_low else _MOST_SHARE
    level = float(np.sum(power[lit & ~off])) / max(float(np.sum(supposed_w[lit & ~off])), 1e-9)
    lost = min(level, 1.0) * float(supposed_w[holes].sum())
    share = lost / max(lost + float(power[lit].sum()), 1e-9)
    if there < least or elsewhere > there / _TIMES or share < _LEAST_ENERGY_SHARE:
        return None
    hot = bool(np.mean(voltages.hot[holes]) > 0.5)
    kind = holes & (voltages.hot == hot)
    return LowVoltage(
        holes_low_share=float(there), holes_else_share=float(elsewhere), hours=float(hours), days=int(days),
        voltage_v=float(np.median(voltages.seen_v[kind])), wanted_v=float(np.median(voltages.wanted_v[kind])), hot=hot,
        energy_share=share,
    )  # fmt: skip


def _on_days(marked: Bools, frame: Frame) -> Bools:
    """The days (days,) on which a step is marked."""
    days = np.zeros(frame.days, dtype=np.bool_)
    days[frame.day[marked]] = True
    return days


def _voltages(model: SetModel, scene: Scene, array: Array, at: int) -> tuple[Floats, Floats, Floats]:
    """Of the string, (m,): voltage at the best point, open, and the power it could give."""
    light, warmth = light_and_warmth(model, scene, at, array.plane)
    diode = diode_of(array.panel)
    grid_light, grid_c = (one.ravel() for one in np.meshgrid(_LIGHT_W_PER_M2, _CELLS_C, indexing="ij"))
    point = max_power(diode, grid_light, grid_c)
    opened = open_circuit_voltage_v(diode, grid_light, grid_c)
    series = array.count if array.joined != "parallel" else 1
    power = point.power_w * array.count
    values = [_between(one, light, warmth) for one in (point.voltage_v * series, opened * series, power)]
    return values[0], values[1], values[2]


def _between(table: Floats, light: Floats, warmth: Floats) -> Floats:
    """A table over light (by its logarithm) and warmth, read between its points."""
    grid = table.reshape(_LIGHT_W_PER_M2.size, _CELLS_C.size)
    x = np.interp(np.log(np.maximum(light, 1.0)), np.log(_LIGHT_W_PER_M2), np.arange(_LIGHT_W_PER_M2.size * 1.0))
    y = np.interp(warmth, _CELLS_C, np.arange(_CELLS_C.size * 1.0))
    i = np.minimum(x.astype(np.int64), _LIGHT_W_PER_M2.size - 2)
    j = np.minimum(y.astype(np.int64), _CELLS_C.size - 2)
    u, v = x - i, y - j
    found = (1 - u) * ((1 - v) * grid[i, j] + v * grid[i, j + 1]) + u * (
        (1 - v) * grid[i + 1, j] + v * grid[i + 1, j + 1]
    )
    return np.asarray(np.where(light < _LIGHT_W_PER_M2[0], 0.0, found))
