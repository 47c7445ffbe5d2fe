"""What does an input draw from one string of unlike panels, or of equal ones that look different ways?

One current flows through all, and the voltages add. A panel with less light than the current asks for is passed by its
bypass diodes, so that the joint curve has a knee for each kind of panel (``knees``): either all work at the weakest
one's current, or the weaker are passed and the stronger work at theirs. The input is taken to find the higher of the
knees; one that stays at a lower is worse. A panel counts as lit evenly: all of its sections are passed together.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from service.core.model.facts import Input
from service.core.model.hours import Bools, Floats
from service.core.panel.branch import Branch, Drawn, one_after_the_other
from service.core.panel.curve import curve_at, spread_to
from service.core.panel.drawn import admitted_of, drawn_together, running_of
from service.core.panel.joined import falling_root
from service.core.panel.knees import String, at_rows, best_current_a, knee_currents_a, string_of, voltages

Rows = NDArray[np.intp]
_TRACE_W_PER_M2 = 1e-3  # keeps the curve of a panel in the dark defined; it is passed by


def drawn_in_string(branches: Sequence[Branch], limits: Input) -> tuple[Drawn, ...]:
    """What one input draws from branches in series with each other; as ``drawn_together`` does for parallel ones.

    ``available_w`` of a branch is its share of the joint maximum: what unlike panels lose by their common current lies
    between that and its own maximum. It is negative (1.5 V times the current) while a panel is passed by. Branches that
    are lit alike are solved as one.

    Args:
        branches: each with ``in_series`` panels and at most one string (what ageing and mismatch have left of it).
        limits: of the input.
    """
    whole, parts = one_after_the_other(branches)
    drawn = drawn_together(whole, limits) if len(whole) == 1 else _drawn_apart(whole, limits)
    return tuple(drawn[at] if share == 1.0 else drawn[at].part(share) for at, share in parts)


def _drawn_apart(branches: Sequence[Branch], limits: Input) -> tuple[Drawn, ...]:
    """The same of branches that are all unlike."""
    size = branches[0].irradiance_w_per_m2.size
    lit = np.flatnonzero(np.any([b.irradiance_w_per_m2 > 0 for b in branches], axis=0))
    lights = [np.maximum(b.irradiance_w_per_m2[lit], _TRACE_W_PER_M2) for b in branches]
    curves = [curve_at(b.diode, light, b.cell_c[lit]) for b, light in zip(branches, lights, strict=True)]
    string = string_of(branches, curves)
    best = _point(string, best_current_a(string))
    in_window, in_current = _under_limits(string, best, limits)
    running = running_of(size, lit, _starts(string, best, limits.start_voltage_v), in_current.power_w > 0)
    on = running[lit]
    free, cut = in_window.powers_w * on, in_current.powers_w * on
    most = np.inf if limits.max_input_power_w is None else limits.max_input_power_w
    power = cut * np.minimum(1.0, most / np.maximum(cut.sum(axis=0), 1e-300))
    admitted = admitted_of(in_window.current_a, free, cut, limits.max_current_a, most)
    return tuple(
        Drawn(
            available_w=spread_to(size, lit, available),
            power_w=spread_to(size, lit, power[k]),
            lost_to_window_w=spread_to(size, lit, available - free[k]),
            lost_to_current_w=spread_to(size, lit, free[k] - cut[k]),
            lost_to_power_limit_w=spread_to(size, lit, cut[k] - power[k]),
            free_w=spread_to(size, lit, free[k]),
            most_w=spread_to(size, lit, admitted[k]),
            running=running,
        )
        for k, available in enumerate(best.powers_w)
    )


@dataclass(frozen=True, slots=True, eq=False)
class _Point:
    """Where a string works at each row: its current (n,) and each member's voltage (members, n)."""

    current_a: Floats
    voltages_v: Floats

    @property
    def voltage_v(self) -> Floats:
        return np.asarray(self.voltages_v.sum(axis=0))

    @property
    def powers_w(self) -> Floats:
        return np.asarray(self.voltages_v * self.current_a)

    @property
    def power_w(self) -> Floats:
        return np.asarray(self.voltage_v * self.current_a)

    def put(self, rows: Rows, other: "_Point") -> "_Point":
        """The same, at some rows another."""
        current, volts = self.current_a.copy(), self.voltages_v.copy()
        current[rows], volts[:, rows] = other.current_a, other.voltages_v
        return _Point(current, volts)


def _point(string: String, current_a: Floats) -> _Point:
    """The point at a current; none where the string pushes no power into the input there."""
    volts = voltages(string, current_a)
    there = (current_a > 0) & (volts.sum(axis=0) > 0)
    return _Point(np.where(there, current_a, 0.0), volts * there)


def _starts(string: String, best: _Point, start_voltage_v: float) -> Bools:
    """Where the open-circuit voltage reaches the start voltage: where the best point does, it does so all the more."""
    starts = best.voltage_v >= start_voltage_v
    low = np.flatnonzero(~starts)
    if low.size:
        starts[low] = voltages(at_rows(string, low), np.zeros(low.size)).sum(axis=0) >= start_voltage_v
    return np.asarray(starts)


def _under_limits(string: String, best: _Point, limits: Input) -> tuple[_Point, _Point]:
    """The best point within the tracking window, and the best there under the current limit, too.

    The voltage falls as the current rises, so that the window's ends are two currents; between them every knee counts
    where it stands, or at the end that it stands beyond.
    """
    volts = best.voltage_v
    inside = (volts >= limits.tracking_min_v) & (volts <= limits.tracking_max_v)
    rows = np.flatnonzero(~inside | (best.current_a > limits.max_current_a))
    if not rows.size:
        return best, best
    part = at_rows(string, rows)
    knees = knee_currents_a(part)
    least, most = _current_at(part, limits.tracking_max_v), _current_at(part, limits.tracking_min_v)
    in_window = best.put(rows, _best_between(part, knees, least, most))
    in_current = best.put(rows, _best_between(part, knees, least, np.minimum(most, limits.max_current_a)))
    return in_window, in_current


def _best_between(string: String, knees: Floats, least: Floats, most: Floats) -> _Point:
    """The best point between two currents at each row; none where the first is above the second."""
    fits = least <= most
    points = [_point(string, np.where(fits, np.minimum(np.maximum(knee, least), most), 0.0)) for knee in knees]
    at = np.argmax([point.power_w for point in points], axis=0)
    rows = np.arange(at.size)
    return _Point(
        np.array([point.current_a for point in points])[at, rows],
        np.array([point.voltages_v for point in points])[at, :, rows].T,
    )


def _current_at(string: String, voltage_v: float) -> Floats:
    """The current at which the joint voltage falls through this one; nought where it never reaches it."""
    high: Floats = np.max([member.curve.light_a * member.strings for member in string], axis=0)
    found = np.zeros_like(high)
    rows = np.flatnonzero(voltages(string, found).sum(axis=0) > voltage_v)
    part = at_rows(string, rows)

    def excess(current: Floats) -> tuple[Floats, Floats]:
        each = [member.voltage_and_slope(current) for member in part]
        joint, slope = (np.asarray(np.sum(one, axis=0), np.float64) for one in zip(*each, strict=True))
        return joint - voltage_v, slope

    if rows.size:
        found[rows] = falling_root(excess, 0.9 * high[rows], np.zeros(rows.size), high[rows])
    return found
