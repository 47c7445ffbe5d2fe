"""At which voltage do branches in parallel meet, when they look different ways or are unlike panels?

Each branch is so many equal strings; at the common voltage V the currents add. The power V (I1(V) + I2(V) + ...) is
concave in V, as each branch's is, so that there is one maximum: Newton, in V and in all diodes' voltages at once, comes
near it in four steps, and where it doesn't, a bracketed search does. A branch whose own open-circuit voltage lies below
V is driven backwards: its current counts as negative. One branch alone is solved directly.
"""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from service.core.model.hours import Floats
from service.core.panel.curve import Curve, current_at, near_peak_v, peak_of, voltage_at

Rows = NDArray[np.intp]
_ROUNDS = 6  # three or four are taken where branches are alike but for their light
_NEAR = 0.02  # of the voltage scale: what is left after a last step of Newton costs less than a millionth
_STEPS = 60
_ENOUGH_V = 1e-6  # likewise, where the last step was Newton's; a millionth of a volt where it was a half


@dataclass(frozen=True, slots=True, eq=False)
class Part:
    """The curve of one panel at each row, panels in series, and strings (need not be whole) side by side.

    ``strings`` is an array, one for each row, where the rows are of several panels.
    """

    curve: Curve
    in_series: int
    strings: float | Floats


@dataclass(frozen=True, slots=True, eq=False)
class Point:
    """Where an input works: its voltage, shape (n,), and each branch's current, shape (branches, n)."""

    voltage_v: Floats
    currents_a: Floats

    @property
    def powers_w(self) -> Floats:
        """The power of each branch, shape (branches, n)."""
        return self.voltage_v * self.currents_a


def peak(parts: tuple[Part, ...]) -> Point:
    """The point of the highest joint power at each row."""
    if len(parts) == 1:
        part, own = parts[0], peak_of(parts[0].curve)
        return Point(own.voltage_v * part.in_series, own.current_a[None, :] * part.strings)
    with np.errstate(over="ignore", divide="ignore", invalid="ignore"):  # what runs away there is sought once more
        point, near = _peak_at_once(parts)
    far = np.flatnonzero(~near)
    if far.size:
        sought = _peak_between(rows_of(parts, far))
        point.voltage_v[far], point.currents_a[:, far] = sought.voltage_v, sought.currents_a
    return point


@dataclass(frozen=True, slots=True, eq=False)
class _Expanded:
    """A panel's curve about one of its points.

    Attributes:
        voltage_v, current_a: there.
        falls_s: how steeply the current falls by the voltage.
        bends: half of how that steepens.
        stretch: how much the voltage moves by the diode's.
    """

    voltage_v: Floats
    current_a: Floats
    falls_s: Floats
    bends: Floats
    stretch: Floats

    @classmethod
    def at(cls, curve: Curve, diode_v: Floats, most_a: Floats) -> "_Expanded":
        """``most_a``: photocurrent and saturation current."""
        e = np.exp(diode_v / curve.scale_v + curve.log_saturation)
        current = most_a - e - curve.shunt_s * diode_v
        e /= curve.scale_v
        falls = e + curve.shunt_s
        stretch = 1.0 + curve.series_ohm * falls
        bends = e / (
            2.0 * curve.scale_v * stretch * stretch * stretch
        )  # no third power: it costs more than all the rest
        return cls(diode_v - curve.series_ohm * current, current, falls / stretch, bends, stretch)

    def current_at(self, voltage_v: Floats) -> Floats:
        """Near the point."""
        off = voltage_v - self.voltage_v
        return np.asarray(self.current_a - off * (self.falls_s + off * self.bends))


def _peak_at_once(parts: tuple[Part, ...]) -> tuple[Point, NDArray[np.bool_]]:
    """The joint point, and at which rows it was reached.

    The first step takes each branch's power as a parabola about its own peak, the others each current as one about the
    common voltage, as far as the diodes' voltages have come there.
    """
    most_a = [part.curve.light_a + np.exp(part.curve.log_saturation) for part in parts]
    diode_v = [near_peak_v(part.curve) for part in parts]
    around = [_Expanded.at(part.curve, vd, most) for part, vd, most in zip(parts, diode_v, most_a, strict=True)]
    voltage = _top_of_parabolas(parts, around)
    for step in range(_ROUNDS):
        near = np.ones(voltage.shape, np.bool_)
        for k, (part, one) in enumerate(zip(parts, around, strict=True)):
            change = (voltage / part.in_series - one.voltage_v) / one.stretch
            diode_v[k] = diode_v[k] + change
            near &= np.abs(change) <= _NEAR * part.curve.scale_v
        if step and near.all():
            break
        around = [_Expanded.at(part.curve, vd, most) for part, vd, most in zip(parts, diode_v, most_a, strict=True)]
        voltage = _newton(parts, around, voltage)
    own = [one.current_at(voltage / part.in_series) for part, one in zip(parts, around, strict=True)]
    return Point(voltage, np.array([part.strings * a for part, a in zip(parts, own, strict=True)])), near


def _top_of_parabolas(parts: tuple[Part, ...], around: list[_Expanded]) -> Floats:
    """Where the sum of the branches' powers is highest, each a parabola about its own point."""
    tops, curvatures = np.zeros_like(around[0].voltage_v), np.zeros_like(around[0].voltage_v)
    for part, one in zip(parts, around, strict=True):
        curvature = part.strings / part.in_series * 2.0 * (one.falls_s + one.voltage_v * one.bends)
        rises = part.strings * (one.current_a - one.voltage_v * one.falls_s)
        tops += curvature * one.voltage_v * part.in_series + rises
        curvatures += curvature
    return tops / curvatures


def _newton(parts: tuple[Part, ...], around: list[_Expanded], voltage: Floats) -> Floats:
    """A step towards the voltage of the highest joint power."""
    current, falls, bends = np.zeros_like(voltage), np.zeros_like(voltage), np.zeros_like(voltage)
    for part, one in zip(parts, around, strict=True):
        off = voltage / part.in_series - one.voltage_v
        current += part.strings * (one.current_a - off * (one.falls_s + off * one.bends))
        falls += part.strings / part.in_series * (one.falls_s + 2.0 * off * one.bends)
        bends += part.strings / part.in_series**2 * one.bends
    return np.asarray(voltage + (current - voltage * falls) / (2.0 * (falls + voltage * bends)))


def _peak_between(parts: tuple[Part, ...]) -> Point:
    """The same by a bracketed search between the branches' own peaks: three times slower, and it always ends."""
    own = [peak_of(part.curve) for part in parts]
    voltages = np.array([point.voltage_v * part.in_series for point, part in zip(own, parts, strict=True)])
    powers = np.array([point.power_w * part.in_series * part.strings for point, part in zip(own, parts, strict=True)])
    low, high = voltages.min(axis=0), voltages.max(axis=0)  # a branch in the dark has its own at nought

    def slope_of_power(voltage: Floats) -> tuple[Floats, Floats]:
        current, falls, bends = _joint(parts, voltage)
        return current + voltage * falls, 2 * falls + voltage * bends

    start = (voltages * powers).sum(axis=0) / np.maximum(powers.sum(axis=0), 1e-300)
    voltage = falling_root(slope_of_power, np.clip(start, low, high), low, high)
    return Point(voltage, currents_at(parts, voltage))


def currents_at(parts: tuple[Part, ...], voltage_v: Floats) -> Floats:
    """The current of each branch at the input's voltage, shape (branches, n)."""
    return np.array([current_at(part.curve, voltage_v / part.in_series) * part.strings for part in parts])


def voltage_at_current(parts: tuple[Part, ...], current_a: float) -> Floats:
    """The voltage at which the branches together give a current that is below their photocurrents."""
    if len(parts) == 1:
        return voltage_at(parts[0].curve, current_a / parts[0].strings) * parts[0].in_series
    ends = np.array([voltage_at(part.curve, 0.0) * part.in_series for part in parts])

    def excess(voltage: Floats) -> tuple[Floats, Floats]:
        current, falls, _ = _joint(parts, voltage)
        return current - current_a, falls

    high = ends.max(axis=0)
    return falling_root(excess, high, np.zeros_like(high), high)


def opens_above(parts: tuple[Part, ...], voltage_v: float) -> NDArray[np.bool_]:
    """Is the joint open-circuit voltage at least this? It is where the branches together still push a current there."""
    if len(parts) == 1:
        return np.asarray(voltage_at_current(parts, 0.0) >= voltage_v)
    return np.asarray(currents_at(parts, np.full(parts[0].curve.light_a.shape, voltage_v)).sum(axis=0) >= 0.0)


def rows_of(parts: tuple[Part, ...], rows: Rows) -> tuple[Part, ...]:
    """The same branches at some rows only."""
    return tuple(
        Part(part.curve.at(rows), part.in_series, one if isinstance(one := part.strings, float | int) else one[rows])
        for part in parts
    )


def _joint(parts: tuple[Part, ...], voltage: Floats) -> tuple[Floats, Floats, Floats]:
    """Joint current and its first and second derivative by the voltage."""
    total = [np.zeros_like(voltage) for _ in range(3)]
    for part in parts:
        curve = part.curve
        current = current_at(curve, voltage / part.in_series)
        vd = voltage / part.in_series + curve.series_ohm * current
        e = np.exp(vd / curve.scale_v + curve.log_saturation)
        falls = -e / curve.scale_v - curve.shunt_s
        ratio = 1 - curve.series_ohm * falls
        total[0] += part.strings * current
        total[1] += part.strings / part.in_series * falls / ratio
        total[2] -= part.strings / part.in_series**2 * e / (curve.scale_v**2 * ratio * ratio * ratio)
    return total[0], total[1], total[2]


def falling_root(
    function: Callable[[Floats], tuple[Floats, Floats]], start: Floats, low: Floats, high: Floats
) -> Floats:
    """Where a falling function crosses nought between ``low`` and ``high``: Newton, halving where it would leave."""
    x = start
    for _ in range(_STEPS):
        value, slope = function(x)
        low, high = np.where(value > 0, x, low), np.where(value > 0, high, x)
        new = x - value / np.minimum(slope, -1e-300)
        new = np.where((new < low) | (new > high), (low + high) / 2, new)
        moved = np.abs(new - x)
        x = new
        if np.all(moved <= _ENOUGH_V):
            break
    return x
