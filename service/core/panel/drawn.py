"""How much does an inverter's input draw from the panels on it? Window, current limit, power limit, start voltage."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from service.core.model.facts import Input
from service.core.model.hours import Bools, Floats
from service.core.panel.branch import Branch, Drawn, side_by_side
from service.core.panel.curve import curve_at, irradiance_through_w_per_m2, spread_to
from service.core.panel.diode import Diode
from service.core.panel.joined import Part, Point, currents_at, opens_above, peak, rows_of, voltage_at_current


def drawn_power(
    diode: Diode,
    irradiance_w_per_m2: ArrayLike,
    cell_c: ArrayLike,
    *,
    in_series: int,
    in_parallel: float,
    limits: Input,
) -> Drawn:
    """What one input draws from equal panels in one plane; see ``drawn_together``.

    Args:
        diode: one panel (leads may be in its series resistance).
        irradiance_w_per_m2: effective irradiance, (n,), rows in order of time.
        cell_c: cell temperature in C, (n,) or a number.
        in_series: panels in a string.
        in_parallel: strings side by side.
        limits: of the input.
    """
    irradiance, celsius = np.broadcast_arrays(
        np.atleast_1d(np.asarray(irradiance_w_per_m2, np.float64)), np.atleast_1d(np.asarray(cell_c, np.float64))
    )
    branch = Branch(
        diode=diode, irradiance_w_per_m2=irradiance, cell_c=celsius, in_series=in_series, strings=in_parallel
    )
    return drawn_together((branch,), limits)[0]


def drawn_together(branches: Sequence[Branch], limits: Input) -> tuple[Drawn, ...]:
    """What one input draws from several branches in parallel, which share one voltage.

    The input holds the joint maximum-power point if it may, else:

    - outside the tracking window it moves along the curve to the window's edge; no current there, nothing drawn;
    - above the current limit it moves to that current at higher voltage; where that voltage lies above the window,
      window and limit exclude each other and nothing is drawn, lost to the window;
    - above the power limit it draws that limit;
    - it starts once the open-circuit voltage reaches the start voltage and runs on until it can draw nothing at all
      (night, or the curve fell below the window). Before, everything is lost to the window.

    ``available_w`` of a branch is its share of the joint maximum. That of a branch alone is its own maximum; what
    unlike branches lose by their common voltage lies between the two. Branches that are lit alike are solved as one.
    """
    whole, parts = side_by_side(branches)
    drawn = _drawn_apart(whole, limits)
    return tuple(drawn[at] if share == 1.0 else drawn[at].part(share) for at, share in parts)


def _drawn_apart(branches: Sequence[Branch], limits: Input) -> tuple[Drawn, ...]:
    """The same of branches that are all unlike."""
    size = branches[0].irradiance_w_per_m2.size
    lit = np.flatnonzero(np.any([branch.irradiance_w_per_m2 > 0 for branch in branches], axis=0))
    parts = _parts_at(branches, lit)
    points = _points_of(parts, limits)
    best, in_window, in_current = points.best, points.in_window, points.in_current
    starts = _starts(parts, best, limits.start_voltage_v)
    running = running_of(size, lit, starts, points.fits)
    on = running[lit]
    after_window, after_current = in_window.powers_w * on, in_current.powers_w * on
    most = np.inf if limits.max_input_power_w is None else limits.max_input_power_w
    power = after_current * np.minimum(1.0, most / np.maximum(after_current.sum(axis=0), 1e-300))
    admitted = admitted_of(in_window.currents_a.sum(axis=0), after_window, after_current, limits.max_current_a, most)
    return tuple(
        Drawn(
            available_w=spread_to(size, lit, available),
            power_w=spread_to(size, lit, power[k]),
            lost_to_window_w=spread_to(size, lit, available - after_window[k]),
            lost_to_current_w=spread_to(size, lit, after_window[k] - after_current[k]),
            lost_to_power_limit_w=spread_to(size, lit, after_current[k] - power[k]),
            free_w=spread_to(size, lit, after_window[k]),
            most_w=spread_to(size, lit, admitted[k]),
            running=running,
        )
        for k, available in enumerate(best.powers_w)
    )


@dataclass(frozen=True, slots=True, eq=False)
class _Points:
    """Where an input would work at each lit row, if it runs: at its best, in the window, under the current limit."""

    best: Point
    in_window: Point
    in_current: Point
    fits: Bools


def _starts(parts: tuple[Part, ...], best: Point, start_voltage_v: float) -> Bools:
    """Where the open-circuit voltage reaches the start voltage: where the best point does, it does so all the more."""
    starts = best.voltage_v >= start_voltage_v
    low = np.flatnonzero(~starts)
    if low.size:
        starts[low] = opens_above(rows_of(parts, low), start_voltage_v)
    return np.asarray(starts)


def _parts_at(branches: Sequence[Branch], lit: NDArray[np.intp]) -> tuple[Part, ...]:
    return tuple(
        Part(curve_at(b.diode, b.irradiance_w_per_m2[lit], b.cell_c[lit]), b.in_series, b.strings) for b in branches
    )


def _points_of(parts: tuple[Part, ...], limits: Input) -> _Points:
    best = peak(parts)
    in_window = _moved_into_window(parts, best, limits)
    in_current, fits = _moved_under_current(parts, in_window, limits)
    return _Points(best, in_window, in_current, fits)


def running_power_w(branch: Branch, limits: Input) -> Floats:
    """What an input draws from equal panels at each row, were it running, W, shape (n,): no memory of earlier rows.

    The rows may stand in any order, as in a table; ``drawn_together`` tells when it runs. Where window and current
    limit exclude each other, this is the power at the window's end without the current limit, so that a table of it
    goes on straight there; the light from which on they do is ``excluded_from_w_per_m2``.
    """
    lit = np.flatnonzero(branch.irradiance_w_per_m2 > 0)
    [part] = _parts_at((branch,), lit)
    return spread_to(branch.irradiance_w_per_m2.size, lit, running_power_of(part, limits))


def running_power_of(part: Part, limits: Input) -> Floats:
    """The same of rows that all have light."""
    points = _points_of((part,), limits)
    most = np.inf if limits.max_input_power_w is None else limits.max_input_power_w
    power = np.where(points.fits, points.in_current.powers_w[0], points.in_window.powers_w[0])
    return np.asarray(np.minimum(power, most))


def excluded_from_w_per_m2(diode: Diode, cell_c: ArrayLike, in_series: int, strings: float, limits: Input) -> Floats:
    """The effective irradiance above which window and current limit exclude each other, (n,) by cell temperature in C.

    There the current at the window's upper end reaches the limit: under it the voltage would lie above the window.
    """
    return irradiance_through_w_per_m2(diode, limits.tracking_max_v / in_series, limits.max_current_a / strings, cell_c)


def _moved_into_window(parts: tuple[Part, ...], best: Point, limits: Input) -> Point:
    """The best point, or the window's edge nearest to it; no current flows into an input from a curve below it."""
    voltage = np.clip(best.voltage_v, limits.tracking_min_v, limits.tracking_max_v)
    moved = np.flatnonzero(voltage != best.voltage_v)
    if not moved.size:
        return best
    currents = best.currents_a.copy()
    at_edge = currents_at(rows_of(parts, moved), voltage[moved])
    currents[:, moved] = np.where(at_edge.sum(axis=0) > 0, at_edge, 0.0)
    return Point(voltage, currents)


def _moved_under_current(parts: tuple[Part, ...], point: Point, limits: Input) -> tuple[Point, Bools]:
    """The point, or the one at the current limit; and at which rows there is a point at all."""
    over = np.flatnonzero(point.currents_a.sum(axis=0) > limits.max_current_a)
    voltage, currents = point.voltage_v, point.currents_a
    if over.size:
        limited = rows_of(parts, over)
        at_limit = voltage_at_current(limited, limits.max_current_a)
        voltage, currents = voltage.copy(), currents.copy()
        voltage[over], currents[:, over] = at_limit, currents_at(limited, at_limit)
    fits = (currents.sum(axis=0) > 0) & (voltage <= limits.tracking_max_v)
    return Point(voltage, currents), np.asarray(fits)


def admitted_of(current: Floats, free_w: Floats, cut_w: Floats, max_current_a: float, most_w: float) -> Floats:
    """What the limits of current and power admit of each branch: the shares of an input's branches stay."""
    room = max_current_a / np.maximum(current, 1e-12)
    admitted = np.where(room < 1.0, cut_w, free_w * room)
    return np.asarray(admitted * np.minimum(1.0, most_w / np.maximum(admitted.sum(axis=0), 1e-300)))


def running_of(size: int, lit: NDArray[np.intp], starts: Bools, fits: Bools) -> Bools:
    """Which rows run: started at or before the row, and at no row since without light or without a point.

    The test has memory, as inverters do: one that started in the cool morning runs on when the warm panel's
    open-circuit voltage falls below the start voltage.
    """
    row = np.arange(size)
    last_start, last_stop = np.full(size, -1), row.copy()
    last_start[lit[starts & fits]] = lit[starts & fits]
    last_stop[lit[fits]] = -1
    running: Bools = np.maximum.accumulate(last_start) > np.maximum.accumulate(last_stop)
    return running
