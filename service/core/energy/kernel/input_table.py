"""What does an input draw from its panels at each irradiance and cell temperature? Solved once, then looked up.

A year has some 4400 hours with light, a map of planes many million; what an input draws is one smooth surface but
for a few creases at its limits. It is solved at the nodes of a lattice. Between two irradiances it is read on a
straight line; of the temperatures, 1 K apart, the nearest counts: it is wrong by a sixth of a per cent at most, now up
and now down, and over a year that cancels to some hundred-thousandths. (2 K apart left 0.03 % where all air is alike.)
"""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from service.core.energy.kernel.place import Singles, single
from service.core.energy.leads import lead_resistance_ohm
from service.core.model.facts import Array, Input
from service.core.model.hours import Floats, Ints
from service.core.panel import (
    Branch,
    Diode,
    diode_of,
    excluded_from_w_per_m2,
    irradiance_through_w_per_m2,
    running_power_w,
    with_series_resistance,
)

STEP_W_PER_M2, HIGHEST_W_PER_M2 = 5.0, 1500.0
STEP_C, COLDEST_C, HOTTEST_C = 1.0, -50.0, 116.0
IRRADIANCES = round(HIGHEST_W_PER_M2 / STEP_W_PER_M2)
TEMPERATURES = round((HOTTEST_C - COLDEST_C) / STEP_C) + 1
_DUSK_W_PER_M2 = 0.5  # an input that starts at less than this misses less than a thousandth of a year's energy


@dataclass(frozen=True, slots=True, eq=False)
class _Rows:
    """Which rows of a lattice are solved, and how the others stand between them on straight lines."""

    solved: Ints
    below: Ints
    towards_next: Singles

    @classmethod
    def of(cls, solved: Ints) -> "_Rows":
        rows = np.arange(solved[-1] + 1)
        below = np.minimum(np.searchsorted(solved, rows, side="right") - 1, solved.size - 2)
        return cls(solved, below, single((rows - solved[below]) / np.diff(solved)[below]))

    def all(self, values: Singles) -> Singles:
        """Every row of the first axis, from the solved ones."""
        between = np.diff(values, axis=0).take(self.below, axis=0)
        between *= self.towards_next[:, None]
        between += values.take(self.below, axis=0)
        return between


# Power bends most in dim light and at the creases of the limits: there 5 W/m2, elsewhere 10, and 6 K, are enough.
_IRRADIANCE_ROWS = _Rows.of(np.array((*range(6), *range(6, IRRADIANCES + 1, 2))))
_TEMPERATURE_ROWS = _Rows.of(np.array((*range(0, TEMPERATURES - 1, 6), TEMPERATURES - 1)))
# Where a window begins or ends near the voltage of most power, on hot cells too, the surface bends in its middle, most
# over temperature: there every row is solved.
_TIGHT_WINDOW_SHARES = (0.62, 1.0)
_CLOSE_IRRADIANCES, _CLOSE_TEMPERATURES = _Rows.of(np.arange(IRRADIANCES + 1)), _Rows.of(np.arange(TEMPERATURES))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Threshold:
    """An irradiance that hangs on cell temperature and at which an input's power jumps.

    Attributes:
        by_degree_w_per_m2: from the coldest to the hottest cell in steps of 1 K.
        exactly: the same at any temperatures, (k,) C: where it is near, an hour decides on a day's energy.
    """

    by_degree_w_per_m2: Floats
    exactly: Callable[[Floats], Floats]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class InputTable:
    """D.c. power of one input with equal panels on it, over effective irradiance and cell temperature.

    Attributes:
        base_w, slope_w: (IRRADIANCES * TEMPERATURES,) the power between two irradiances as a straight line over the
            irradiance in steps: at nought, and more by each step.
        starts_from: the least irradiance at which the open-circuit voltage reaches the start voltage; None where any
            light that warms cells so far is enough.
        points_from: the least at which it reaches the window's lower end, so that there is a point to work at; None
            likewise.
        excluded_from: the irradiance above which window and current limit leave no point; None where there is none
            within the table.
        most_w: the greatest power in it.
        tight: whether the window bends the surface so much that it is read on a line between temperatures, too.
    """

    base_w: Singles
    slope_w: Singles
    starts_from: Threshold | None
    points_from: Threshold | None
    excluded_from: Threshold | None
    most_w: float
    tight: bool

    @property
    def jumps(self) -> bool:
        """Does the power jump within the table, so that hours must be told apart by their light?"""
        return any(one is not None for one in (self.starts_from, self.points_from, self.excluded_from))


def input_table(array: Array, limits: Input, ageing_share: float) -> InputTable:
    """The table of an array that is alone on its input.

    Args:
        array: panels, count, how they are joined, mismatch, leads.
        limits: of the input.
        ageing_share: what ageing has left of the power, 0 to 1 (``remaining_share``).

    Raises:
        ContradictionError: the panel's datasheet makes no curve; the pointer counts from the panel.
    """
    diode, in_series, strings = wired(array, diode_of(array.panel), ageing_share)
    low, high = (share * array.panel.open_circuit_voltage_v * in_series for share in _TIGHT_WINDOW_SHARES)
    tight = limits.tracking_min_v > low or limits.tracking_max_v < high
    lights, warmths = (_CLOSE_IRRADIANCES, _CLOSE_TEMPERATURES) if tight else (_IRRADIANCE_ROWS, _TEMPERATURE_ROWS)
    lit, warm = np.meshgrid(lights.solved * STEP_W_PER_M2, COLDEST_C + warmths.solved * STEP_C, indexing="ij")
    branch = Branch(
        diode=diode, irradiance_w_per_m2=lit.ravel(), cell_c=warm.ravel(), in_series=in_series, strings=strings
    )
    solved = single(running_power_w(branch, limits).reshape(lit.shape))
    power = lights.all(single(warmths.all(single(solved.T)).T))
    slope = np.diff(power, axis=0)
    base = power[:-1] - slope * np.arange(IRRADIANCES, dtype=np.float32)[:, None]
    return InputTable(
        base_w=single(base.ravel()),
        slope_w=single(slope.ravel()),
        starts_from=_opens_from(diode, limits.start_voltage_v / in_series),
        points_from=_opens_from(diode, limits.tracking_min_v / in_series),
        excluded_from=_excluded_from(diode, in_series, strings, limits),
        most_w=float(power.max()),
        tight=tight,
    )


def wired(array: Array, panel: Diode, ageing_share: float) -> tuple[Diode, int, float]:
    """A panel with its part of the leads, panels in a string, and strings: what ageing and mismatch leave of them."""
    in_series, in_parallel = (array.count, 1) if array.joined != "parallel" else (1, array.count)
    strings = in_parallel * ageing_share * (1 - array.mismatch_share)
    lead_ohm = lead_resistance_ohm(array.lead_length_m, array.lead_mm2) * strings / in_series
    return with_series_resistance(panel, lead_ohm), in_series, strings


_DEGREES = np.arange(COLDEST_C, HOTTEST_C + 0.5)


def _opens_from(diode: Diode, open_circuit_v: float) -> Threshold | None:
    """The light from which on a panel's open-circuit voltage is at least this."""

    def exactly(cell_c: Floats) -> Floats:
        return irradiance_through_w_per_m2(diode, open_circuit_v, 0.0, cell_c)

    starts = exactly(_DEGREES)
    return (
        None
        if np.all(starts <= _always_there_w_per_m2(_DEGREES))
        else Threshold(by_degree_w_per_m2=starts, exactly=exactly)
    )


def _excluded_from(diode: Diode, in_series: int, strings: float, limits: Input) -> Threshold | None:
    def exactly(cell_c: Floats) -> Floats:
        return excluded_from_w_per_m2(diode, cell_c, in_series, strings, limits)

    excluded = exactly(_DEGREES)
    return None if np.all(excluded >= HIGHEST_W_PER_M2) else Threshold(by_degree_w_per_m2=excluded, exactly=exactly)


def _always_there_w_per_m2(cell_c: NDArray[np.float64]) -> NDArray[np.float64]:
    """The least light at which cells can be so warm in air of at most 50 C; that of dusk where they need none.

    No mount in ``HEAT_LOSS`` warms a panel by more than 1 K for 14 W/m2 in the least wind; 10 is used.
    """
    return np.maximum(10.0 * (cell_c - 50.0), _DUSK_W_PER_M2)
