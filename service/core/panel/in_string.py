"""What does an input draw from one string of unlike panels, or of equal ones that look different ways?

One current flows through all, and the voltages add. A panel with less light than the current asks for is passed by its
bypass diodes, so that the joint curve has a knee for each kind of panel: either all work at the weakest one's current,
or the weaker are passed and the stronger work at theirs. The input is taken to find the higher of the knees; one that
stays at a lower is worse. A panel counts as lit evenly: all of its sections are passed together.
"""

from collections.abc import Callable, Sequence

import numpy as np

from service.core.model.facts import Input
from service.core.model.hours import Bools, Floats
from service.core.panel.curve import Curve, curve_at, spread_to, voltage_at
from service.core.panel.drawn import Branch, Drawn, admitted_of, running_of

# Three sections to a panel, a Schottky diode of some 0.5 V at its current beside each (trade figure, from memory).
PASSED_BY_V = 1.5
_BISECTIONS = 20  # between two currents that were read: to a hundred-millionth of them
# Where between nought and each panel's photocurrent the joint curve is read: densely at the knees.
_READ_AT = np.concatenate([np.linspace(0.02, 0.78, 12), np.linspace(0.80, 0.9985, 48)])


def drawn_in_string(branches: Sequence[Branch], limits: Input) -> tuple[Drawn, ...]:
    """What one input draws from branches in series with each other; as ``drawn_together`` does for parallel ones.

    ``available_w`` of a branch is its share of the joint maximum: what unlike panels lose by their common current lies
    between that and its own maximum. It is negative (1.5 V times the current) while a panel is passed by. The joint
    curve is read at 60 currents for each branch and at the limits: within 0.1 % of its maximum.

    Args:
        branches: each with ``in_series`` panels and at most one string (what ageing and mismatch have left of it).
        limits: of the input.
    """
    size = branches[0].irradiance_w_per_m2.size
    # A panel in the dark is passed by; a trace of light keeps its curve defined.
    lit = np.flatnonzero(np.any([b.irradiance_w_per_m2 > 0 for b in branches], axis=0))
    curves = tuple(curve_at(b.diode, np.maximum(b.irradiance_w_per_m2[lit], 1e-3), b.cell_c[lit]) for b in branches)

    volts = _volts_of(curves, branches)
    most_a = np.array([curve.light_a * b.strings for curve, b in zip(curves, branches, strict=True)])
    at_limit = np.full((1, lit.size), limits.max_current_a)
    currents = np.concatenate([(_READ_AT[:, None, None] * most_a).reshape(-1, lit.size), at_limit])
    voltages = np.array([volts(row) for row in currents])
    edges = _edges(curves, branches, currents, voltages, limits)
    currents, voltages = (np.concatenate(pair) for pair in zip((currents, voltages), edges, strict=True))
    joint = voltages.sum(axis=1)
    inside = _inside(joint, limits)
    within = inside & (currents <= limits.max_current_a * (1 + 1e-9))
    best, in_window, in_current = (
        _best(voltages, currents, joint, where) for where in (np.ones_like(inside), inside, within)
    )
    fits = in_current[0].sum(axis=0) > 0
    starts = volts(np.zeros(lit.size)).sum(axis=0) >= limits.start_voltage_v
    running = running_of(size, lit, starts, fits)
    on = running[lit]
    free, cut = in_window[0] * on, in_current[0] * on
    most = np.inf if limits.max_input_power_w is None else limits.max_input_power_w
    power = cut * np.minimum(1.0, most / np.maximum(cut.sum(axis=0), 1e-300))
    admitted = admitted_of(in_window[1], free, cut, limits.max_current_a, most)
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
        for k, available in enumerate(best[0])
    )


def _volts_of(curves: Sequence[Curve], branches: Sequence[Branch]) -> Callable[[Floats], Floats]:
    """The voltage of each branch at the string's current in each row, (branches, n)."""

    def volts(current_a: Floats) -> Floats:
        return np.array([_volts(curve, branch, current_a) for curve, branch in zip(curves, branches, strict=True)])

    return volts


def _inside(joint_v: Floats, limits: Input) -> Bools:
    inside: Bools = (joint_v >= limits.tracking_min_v - 1e-6) & (joint_v <= limits.tracking_max_v + 1e-6)
    return inside


def _edges(
    curves: Sequence[Curve], branches: Sequence[Branch], currents: Floats, voltages: Floats, limits: Input
) -> tuple[Floats, Floats]:
    """The points at the window's ends, (2, n) and (2, branches, n); where none can be wanted, the last one known.

    They are looked for only in rows whose best point lies outside of the window or above the current limit.
    """
    joint = voltages.sum(axis=1)
    every = np.arange(currents.shape[1])
    best = (joint * currents).argmax(axis=0)
    fine = _inside(joint, limits)[best, every] & (currents[best, every] <= limits.max_current_a)
    rows = np.flatnonzero(~fine)
    edge_a, edge_v = np.repeat(currents[-1:], 2, axis=0), np.repeat(voltages[-1:], 2, axis=0)
    if rows.size:
        volts = _volts_of([curve.at(rows) for curve in curves], branches)
        read = currents[:-1, rows], joint[:-1, rows]
        edge_a[0, rows] = _current_at(volts, limits.tracking_max_v, *read)[1]
        edge_a[1, rows] = _current_at(volts, limits.tracking_min_v, *read)[0]
        for edge in (0, 1):
            edge_v[edge][:, rows] = volts(edge_a[edge, rows])
    return edge_a, edge_v


def _volts(curve: Curve, branch: Branch, current_a: Floats) -> Floats:
    """The voltage of a branch's panels at the string's current, passed by where they cannot carry it."""
    own = current_a / branch.strings
    carried = own < curve.light_a
    voltage = voltage_at(curve, np.minimum(own, (1 - 1e-9) * curve.light_a))
    return branch.in_series * np.where(carried, np.maximum(voltage, -PASSED_BY_V), -PASSED_BY_V)


def _current_at(
    volts: Callable[[Floats], Floats], voltage_v: float, currents_a: Floats, joint_v: Floats
) -> tuple[Floats, Floats]:
    """Two currents next to each other, between which the joint voltage falls through the wanted one.

    ``currents_a`` and ``joint_v`` (m, n): what is known of each row; the voltage falls as the current rises.
    """
    above = joint_v >= voltage_v
    low = np.where(above, currents_a, 0.0).max(axis=0)
    high = np.where(above, currents_a.max(axis=0) / _READ_AT[-1], currents_a).min(axis=0)
    for _ in range(_BISECTIONS):
        middle = (low + high) / 2
        above = volts(middle).sum(axis=0) >= voltage_v
        low, high = np.where(above, middle, low), np.where(above, high, middle)
    return low, high


def _best(voltages: Floats, currents: Floats, joint: Floats, where: Bools) -> tuple[Floats, Floats]:
    """Each branch's power (branches, n) and the current (n,) at the admitted point of the highest joint power."""
    power = np.where(where, joint * currents, 0.0)
    at = power.argmax(axis=0)
    rows = np.arange(at.size)
    found = power[at, rows] > 0
    return voltages[at, :, rows].T * currents[at, rows] * found, currents[at, rows] * found
