"""Which panels would an inverter's inputs refuse, and what would the others draw? Asked once of each pair, and kept."""

from collections.abc import Callable, Hashable
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import Any

import numpy as np

from service.core.compatibility import Curves, Row, column_of, dangers_of, refusal
from service.core.energy import remaining_share
from service.core.energy.kernel import wired
from service.core.energy.kernel.place import single
from service.core.model.assumption import Assumptions
from service.core.model.facts import Array, Input, Panel, Setup
from service.core.model.finding import Finding
from service.core.model.hours import Floats
from service.core.model.memo import Memo
from service.core.panel import (
    Branch,
    Diode,
    check_outer,
    check_power,
    check_product,
    diode_of,
    max_power,
    running_power_w,
)
from service.core.shortlist.grouped import GroupedYear, Singles
from service.core.shortlist.layout import OnInput
from service.core.shortlist.offer import InverterKind, PanelKind

Kept = Memo[Hashable, Any]
# An input of an inverter: its key, and the number from 0.
_InputKey = tuple[str, int]


@dataclass(frozen=True, slots=True, eq=False)
class _Free:
    """An array's power where no limit holds it, (k,) W, between which volts and up to which amperes and watts."""

    power_w: Singles
    least_v: float
    most_v: float
    most_a: float
    most_w: float

    def within(self, limits: Input) -> bool:
        """Does no limit of the input bear on it?"""
        power = limits.max_input_power_w
        return (
            self.least_v >= limits.tracking_min_v
            and self.most_v <= limits.tracking_max_v
            and self.most_a <= limits.max_current_a
            and (power is None or self.most_w <= power)
        )


@dataclass(frozen=True, kw_only=True, eq=False)
class Strung:
    """An array of one kind of panel at a place, asked about inputs; what was asked is kept with it.

    Attributes:
        row: what of it can be refused.
        diode: of one panel.
        array: as it hangs.
        remaining_share: what ageing has left of it.
        irradiance_w_per_m2, cell_c: (k,) of its place.
    """

    row: Row
    diode: Callable[[], Diode]
    array: Array
    remaining_share: float
    irradiance_w_per_m2: Floats
    cell_c: Floats
    _refusals: dict[_InputKey, Finding | None] = field(default_factory=dict)
    _drawn: dict[_InputKey, Singles] = field(default_factory=dict)

    def refusal(self, inverter: InverterKind, index: int) -> Finding | None:
        """Why an input (counted from 0) is known to refuse it; None where it is not."""
        key = inverter.key, index
        if key not in self._refusals:
            self._refusals[key] = refusal(self.row, column_of(inverter.inverter, inverter.assumed, index))
        return self._refusals[key]

    def power_w(self, inverter: InverterKind, index: int) -> Singles:
        """What the input draws in each group of hours, (k,) W.

        Raises:
            ContradictionError: the panel's figures make no curve.
        """
        limits = inverter.inverter.inputs[index]
        if self._free.within(limits):
            return self._free.power_w
        key = inverter.key, index
        if key not in self._drawn:
            diode, in_series, strings = self._wired
            branch = Branch(
                diode=diode, irradiance_w_per_m2=self.irradiance_w_per_m2, cell_c=self.cell_c,
                in_series=in_series, strings=strings,
            )  # fmt: skip
            self._drawn[key] = single(running_power_w(branch, limits))
        return self._drawn[key]

    @cached_property
    def _wired(self) -> tuple[Diode, int, float]:
        return wired(self.array, self.diode(), self.remaining_share)

    @cached_property
    def _free(self) -> _Free:
        diode, in_series, strings = self._wired
        point = max_power(diode, self.irradiance_w_per_m2, self.cell_c)
        lit = point.power_w > 0.0
        volts, amperes = point.voltage_v[lit] * in_series, point.current_a[lit] * strings
        power = single(point.power_w * (in_series * strings))
        return _Free(
            power, float(volts.min(initial=np.inf)), float(volts.max(initial=0.0)), float(amperes.max(initial=0.0)),
            float(power.max(initial=0.0)),
        )  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class AtHome:
    """The home at its places, asked about panels on inputs.

    Attributes:
        key: the same for questions about the same home and day.
        setup: a complete request with one array at each place; its panels stand for any.
        assumptions: what of it beside panels and inverter was assumed.
        cells_c: of the sunniest place, how hot cells get and how cool they are in light.
        year: in groups of hours.
        kept: what was found out lately.
    """

    key: str
    setup: Setup
    assumptions: Assumptions
    cells_c: tuple[float, float]
    year: GroupedYear
    kept: Kept

    def strung(self, panel: PanelKind, on: OnInput) -> Strung:
        """Such an array of such panels."""
        place = on.place, on.count, on.joined
        found: Strung = self.kept.get((self.key, panel.key, place), lambda: self._strung(panel, on))
        return found

    def _strung(self, panel: PanelKind, on: OnInput) -> Strung:
        array: Array = replace(self.setup.arrays[on.place], panel=panel.panel, count=on.count, joined=on.joined)
        base = replace(self.setup, arrays=(array,))
        curves: Curves = self.kept.get((self.key, panel.key, "curves"), Curves)
        return Strung(
            row=dangers_of(base, self.assumptions, self.cells_c, panel.panel, panel.assumed, curves),
            diode=lambda: self._diode(panel),
            array=array,
            remaining_share=remaining_share(array, self.setup.money.ageing_share_per_year),
            irradiance_w_per_m2=self.year.irradiance_w_per_m2[on.place],
            cell_c=self.year.cell_c[on.place],
        )

    def _diode(self, panel: PanelKind) -> Diode:
        found: Diode = self.kept.get((self.key, panel.key, "diode"), lambda: _checked_diode(panel.panel))
        return found


def _checked_diode(panel: Panel) -> Diode:
    """The model of a panel whose figures go together, as the chain asks for it.

    Raises:
        ContradictionError: they do not, or make no curve.
    """
    check_outer(panel)
    check_power(panel.rated_power_w, panel.open_circuit_voltage_v, panel.short_circuit_current_a)
    diode = diode_of(panel)
    check_product(panel)
    return diode
