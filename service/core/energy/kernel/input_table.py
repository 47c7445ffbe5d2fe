"""What does an input draw from its panels at each irradiance and cell temperature? Solved once, then looked up.

A year has some 4400 hours with light, a map of planes many million; what an input draws is one smooth surface but
for a few creases at its limits. It is solved at the nodes of a lattice, 5 W/m2 apart where it bends, and kept as power
over light in cells of 2.5 W/m2 and 1 K, which is all but constant in a cell: wrong by a few tenths of a per cent at
most, now up and now down, and over a year that cancels to some hundred-thousandths. (2 K left 0.03 % where all air is
alike.)
"""

from collections.abc import Callable, Sequence
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

STEP_W_PER_M2, HIGHEST_W_PER_M2 = 2.5, 1500.0
STEP_C, COLDEST_C, HOTTEST_C = 1.0, -50.0, 116.0
IRRADIANCES = round(HIGHEST_W_PER_M2 / STEP_W_PER_M2)
TEMPERATURES = round((HOTTEST_C - COLDEST_C) / STEP_C) + 1
_DUSK_W_PER_M2 = 0.5  # an input that starts at less than this misses less than a thousandth of a year's energy


@dataclass(frozen=True, slots=True, eq=False)
class _Rows:
    """At which places of an axis a lattice is solved, and how others stand between them on straight lines."""

    solved: Floats
    below: Ints
    towards_next: Singles

    @classmethod
    def of(cls, solved: Sequence[float], wanted: Floats) -> "_Rows":
        known = np.array(solved)
        below = np.minimum(np.searchsorted(known, wanted, side="right") - 1, known.size - 2)
        return cls(known, below, single((wanted - known[below]) / np.diff(known)[below]))

    def all(self, values: Singles) -> Singles:
        """Every wanted row of the first axis, from the solved ones."""
        between = np.diff(values, axis=0).take(self.below, axis=0)
        between *= self.towards_next[:, None]
        between += values.take(self.below, axis=0)
        return between


# The middle of each cell, in cells, and the temperatures.
_MIDDLES = np.linspace(0.5, IRRADIANCES - 0.5, IRRADIANCES)
_WARMTHS = np.linspace(0.0, TEMPERATURES - 1.0, TEMPERATURES)
_BY_MIDDLE = single(1.0 / _MIDDLES)[:, None]
# By how much more a cell may tell at its end than a light within it has.
_TO_NEXT = single(1.0 + 0.5 / np.maximum(np.arange(IRRADIANCES + 1), 0.5))
# Power bends most in dim light and at the creases of the limits: there 5 W/m2, elsewhere 10, and 6 K, are enough.
_IRRADIANCE_ROWS = _Rows.of((*range(0, 12, 2), *range(12, IRRADIANCES + 1, 4)), _MIDDLES)
_TEMPERATURE_ROWS = _Rows.of((*range(0, TEMPERATURES - 1, 6), TEMPERATURES - 1), _WARMTHS)
# Where a window begins or ends near the voltage of most power, on hot cells too, the surface bends in its middle, most
# over temperature: there 5 W/m2 and every temperature are solved.
_TIGHT_WINDOW_SHARES = (0.62, 1.0)
_CLOSE_IRRADIANCES = _Rows.of(range(0, IRRADIANCES + 1, 2), _MIDDLES)
_CLOSE_TEMPERATURES = _Rows.of(range(TEMPERATURES), _WARMTHS)


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
        by_step_w: (IRRADIANCES * TEMPERATURES,) the power over the light in steps, by cell: of its middle light.
        starts_from: the least irradiance at which the open-circuit voltage reaches the start voltage; None where any
            light that warms cells so far is enough.
        points_from: the least at which it reaches the window's lower end, so that there is a point to work at; None
            likewise.
        excluded_from: the irradiance above which window and current limit leave no point; None where there is none
            within the table.
        most_w: the greatest power in it.
        tight: whether the window bends the surface so much that it is read on a line between temperatures, too.
    """

    by_step_w: Singles
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
    by_step = lights.all(single(warmths.all(single(solved.T)).T))
    by_step *= _BY_MIDDLE
    return InputTable(
        by_step_w=single(by_step.ravel()),
        starts_from=_opens_from(diode, limits.start_voltage_v / in_series),
        points_from=_opens_from(diode, limits.tracking_min_v / in_series),
        excluded_from=_excluded_from(diode, in_series, strings, limits),
        most_w=float((solved.max(axis=1) * _TO_NEXT[lights.solved.astype(np.intp)]).max()),
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
