"""At which voltage do branches in parallel meet, when they look different ways or are unlike panels?

Each branch is so many equal strings; at the common voltage V the currents add. The power V (I1(V) + I2(V) + ...) is
concave in V, as each branch's is, so one bracketed Newton search finds the joint maximum. A branch whose own
open-circuit voltage lies below V is driven backwards: its current counts as negative. One branch alone is solved
directly.
"""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from service.core.model.hours import Floats
from service.core.panel.curve import Curve, current_at, peak_of, voltage_at

Rows = NDArray[np.intp]
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
    own = [peak_of(part.curve) for part in parts]
    if len(parts) == 1:
        part = parts[0]
        return Point(own[0].voltage_v * part.in_series, own[0].current_a[None, :] * part.strings)
    voltages = np.array([point.voltage_v * part.in_series for point, part in zip(own, parts, strict=True)])
    powers = np.array([point.power_w * part.in_series * part.strings for point, part in zip(own, parts, strict=True)])
    lit = np.array([part.curve.light_a > 0 for part in parts])
    low, high = np.where(lit, voltages, np.inf).min(axis=0), np.where(lit, voltages, 0.0).max(axis=0)

    def slope_of_power(voltage: Floats) -> tuple[Floats, Floats]:
        current, falls, bends = _joint(parts, voltage)
        return current + voltage * falls, 2 * falls + voltage * bends

    start = (voltages * powers).sum(axis=0) / np.maximum(powers.sum(axis=0), 1e-300)
    voltage = _falling_root(slope_of_power, np.clip(start, low, high), low, high)
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
    return _falling_root(excess, high, np.zeros_like(high), high)


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
        total[2] -= part.strings / part.in_series**2 * e / curve.scale_v**2 / ratio**3
    return total[0], total[1], total[2]


def _falling_root(
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
