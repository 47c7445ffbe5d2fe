"""Which strings hang on which input, and what do their panels' curves say?

Arrays on one input lie in parallel, whichever way they look, or are one string (``one_string``); within an array panels
are in series or in parallel.
"""

from collections.abc import Hashable
from dataclasses import dataclass, field, replace
from math import log
from typing import Any

import numpy as np

from service.core.compatibility.reach import Reach, rating
from service.core.errors import ContradictionError
from service.core.model.assumption import Assumption, Assumptions
from service.core.model.facts import Array, Input, Panel, Setup
from service.core.model.memo import Memo
from service.core.panel import (
    Diode,
    Doubt,
    datasheet_doubts,
    drawn_power,
    five_parameters_of,
    max_power,
    open_circuit_voltage_v,
    voc_coefficient_doubt,
)

# A morning: dim light, a cell as warm as the test bench's. Irradiance at which an input is asked whether it starts.
MORNING_W_PER_M2 = 100.0
MORNING_CELL_C = 25.0
FULL_SUN_W_PER_M2 = 1000.0
_OUTER_AND_INNER = (
    ("open_circuit_voltage_v", "max_power_voltage_v"), ("short_circuit_current_a", "max_power_current_a"),
)  # fmt: skip
THERMAL_V = 0.025693  # k T / q at 25 C


@dataclass(frozen=True, slots=True)
class Curves:
    """What was computed of panels' curves lately, kept for the checks to come: of one question or of many."""

    _known: Memo[Hashable, Any] = field(default_factory=lambda: Memo(256))

    def diode(self, panel: Panel) -> Diode | None:
        """The panel's diode; None where its four points make no curve.

        Of the five parameters alone: the sixth, by which energy meets the power coefficient, moves volts in the heat by
        a few tenths, and what bears on a verdict stays the published model of the points and the two coefficients.
        """

        def made() -> Diode | None:
            try:
                return five_parameters_of(panel)
            except ContradictionError:
                return None

        found: Diode | None = self._known.get(("diode", panel), made)
        return found

    def hot_share(self, panel: Panel, cell_c: float) -> float:
        """Voltage at maximum power in full sun at a cell temperature, over the label's.

        Where there is no curve: by the coefficient of the power less that of the current.
        """

        def made() -> float:
            diode = self.diode(panel)
            if diode is None:
                change = panel.power_coefficient_pct_per_k - panel.isc_coefficient_pct_per_k
                return 1 + change / 100 * (cell_c - 25)
            return float(max_power(diode, FULL_SUN_W_PER_M2, cell_c).voltage_v[0]) / panel.max_power_voltage_v

        return float(self._known.get(("hot", panel, cell_c), made))

    def cool_share(self, panel: Panel, cell_c: float) -> float:
        """The highest voltage at maximum power at a cell temperature, in full or in half sun, over the label's.

        In half sun a panel of high series resistance works at more volts. Where there is no curve: as ``hot_share``.
        """

        def made() -> float:
            diode = self.diode(panel)
            if diode is None:
                return self.hot_share(panel, cell_c)
            sun = np.array([FULL_SUN_W_PER_M2, FULL_SUN_W_PER_M2 / 2])
            return float(np.max(max_power(diode, sun, cell_c).voltage_v)) / panel.max_power_voltage_v

        return float(self._known.get(("cool", panel, cell_c), made))

    def morning_share(self, panel: Panel) -> float:
        """Open-circuit voltage in the morning over the label's; with ideality 1.1 a cell where there is no curve."""

        def made() -> float:
            diode, label = self.diode(panel), panel.open_circuit_voltage_v
            if diode is None:
                loss = 1.1 * THERMAL_V * log(FULL_SUN_W_PER_M2 / MORNING_W_PER_M2) * panel.cells_in_series
                return max(1 - loss / label, 0.0)
            return float(open_circuit_voltage_v(diode, MORNING_W_PER_M2, MORNING_CELL_C)[0]) / label

        return float(self._known.get(("morning", panel), made))

    def lost_to_current_pct(self, panel: Panel, in_series: int, strings: float, limits: Input) -> float | None:
        """Per cent of the power in full sun at 25 C that an input's current limit leaves; None without a curve."""

        def made() -> float | None:
            diode = self.diode(panel)
            if diode is None:
                return None
            drawn = drawn_power(diode, FULL_SUN_W_PER_M2, 25.0, in_series=in_series, in_parallel=strings, limits=limits)
            return 100 * float(drawn.lost_to_current_w[0] / drawn.available_w[0])

        found: float | None = self._known.get(("lost", panel, in_series, strings, limits), made)
        return found

    def doubts(self, panel: Panel) -> tuple[Doubt, ...]:
        """What looks wrong in the panel's datasheet."""
        found: tuple[Doubt, ...] = self._known.get(("doubts", panel), lambda: datasheet_doubts(panel))
        return found


@dataclass(frozen=True, slots=True)
class Strings:
    """One array as its input sees it: ``in_series`` panels a string, ``in_parallel`` strings; ``at`` its index."""

    at: int
    array: Array
    in_series: int
    in_parallel: int

    @property
    def panel(self) -> Panel:
        """The panel of which the strings are made."""
        return self.array.panel

    @property
    def pointer(self) -> str:
        """Pointer to the array."""
        return f"/arrays/{self.at}"


def strings_of(at: int, array: Array) -> Strings:
    """An array, the one of this index, with its strings."""
    parallel = array.joined == "parallel"
    return Strings(at, array, 1 if parallel else array.count, array.count if parallel else 1)


@dataclass(frozen=True, slots=True)
class Wiring:
    """A set as wired: what every check of the panel side starts from."""

    setup: Setup
    assumptions: Assumptions
    hottest_cell_c: tuple[float, ...]
    curves: Curves
    cool_cell_c: tuple[float, ...] = ()
    # By array and name, of the panel it was read of: asked again and again, and made anew with every changed set.
    _read: dict[tuple[int, str], tuple[Panel, Reach]] = field(
        default_factory=dict, init=False, repr=False, compare=False
    )

    def strings(self) -> tuple[Strings, ...]:
        """Every array with its strings."""
        return tuple(strings_of(at, array) for at, array in enumerate(self.setup.arrays))

    def inputs(self) -> tuple[tuple[int, Input, tuple[Strings, ...]], ...]:
        """The inputs in use: index from 0, limits, and what hangs on them.

        Raises:
            ContradictionError: an array stands on an input that the inverter does not have.
        """
        limits = self.setup.inverter.inputs
        for strings in self.strings():
            if not 1 <= strings.array.input <= len(limits):
                pointer = f"{strings.pointer}/input"
                raise ContradictionError(
                    pointer, "no such input on this inverter", given=strings.array.input,
                    accepted=f"1 to {len(limits)}", example=1,
                )  # fmt: skip
        return tuple(
            (k, limit, here)
            for k, limit in enumerate(limits)
            if (here := tuple(s for s in self.strings() if s.array.input == k + 1))
        )

    def in_string(self, strings: Strings) -> tuple[Strings, ...]:
        """The arrays whose panels the same current flows through: itself alone but where they are one string."""
        if strings.array.joined != "one_string":
            return (strings,)
        return tuple(
            other
            for other in self.strings()
            if other.array.joined == "one_string" and other.array.input == strings.array.input
        )

    def side_by_side(self, here: tuple[Strings, ...]) -> tuple[tuple[Strings, ...], ...]:
        """What lies in parallel on an input: arrays, and those that are one string as one."""
        found = [self.in_string(strings) for strings in here]
        return tuple(group for k, group in enumerate(found) if group not in found[:k])

    def of_panel(self, strings: Strings, name: str) -> Reach:
        """A figure of the array's panel: known, assumed, or one of two printed ones that contradict each other.

        Open-circuit above operating voltage and short-circuit above operating current, or the sheet is swapped or
        misread: then each of the pair may be either, and neither is known. Nor is a coefficient of the open-circuit
        voltage that no panel has: -0.0026 %/K is a share, or another unit.
        """
        panel, key = strings.panel, (strings.at, name)
        read = self._read.get(key)
        if read is None or read[0] is not panel:
            read = self._read[key] = panel, self._of_panel(strings, name)
        return read[1]

    def _of_panel(self, strings: Strings, name: str) -> Reach:
        pointer, value = f"{strings.pointer}/panel/{name}", getattr(strings.panel, name)
        for outer, inner in _OUTER_AND_INNER:
            if name in (outer, inner):
                pair = getattr(strings.panel, outer), getattr(strings.panel, inner)
                if pair[1] >= pair[0]:
                    return Reach(min(pair), value, max(pair), (pointer,))
        if name == "voc_coefficient_pct_per_k":
            doubt = voc_coefficient_doubt(strings.panel)
            if doubt is not None:
                return Reach(min(doubt.low, value), value, max(doubt.high, value), (pointer,))
        return rating(self.assumptions, pointer, value)

    def hottest(self, strings: Strings) -> float:
        """The hottest cell of an array, as given or of its year; of all arrays where this one was made by moving."""
        if strings.array.hottest_cell_c is not None:
            return strings.array.hottest_cell_c
        hottest = self.hottest_cell_c
        return hottest[strings.at] if strings.at < len(hottest) else max(hottest, default=25.0)

    def cool(self, strings: Strings) -> float:
        """How cool an array's cells are in light; the coolest of all where this one was made by moving.

        25 C, at which the label's volts are measured, where nothing is known of its year.
        """
        cool = self.cool_cell_c
        return cool[strings.at] if strings.at < len(cool) else min(cool, default=25.0)


def with_panels_moved(wiring: Wiring, at: int, to_inputs: tuple[int, ...]) -> Wiring:
    """The same set with all but one panel of array ``at`` moved to other inputs, one on each (counted from 1)."""
    array = wiring.setup.arrays[at]
    arrays = list(wiring.setup.arrays)
    joined = array.joined if array.joined == "one_string" else "series"
    arrays[at] = replace(array, count=1, joined=joined)
    extra: list[Assumption] = []
    for number in to_inputs:
        prefix, new = f"/arrays/{at}/", f"/arrays/{len(arrays)}/"
        extra += [
            replace(assumption, pointer=new + pointer.removeprefix(prefix))
            for pointer, assumption in wiring.assumptions.by_pointer.items()
            if pointer.startswith(prefix)
        ]
        arrays.append(replace(array, count=1, joined="series", input=number))
    assumptions = Assumptions.of([*wiring.assumptions.by_pointer.values(), *extra])
    return replace(wiring, setup=replace(wiring.setup, arrays=tuple(arrays)), assumptions=assumptions)
