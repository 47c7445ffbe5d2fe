"""Which panels would an inverter's inputs refuse, and what would the others draw? Asked once of each pair, and kept."""

from collections.abc import Callable, Hashable, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import Any, TypeVar

import numpy as np

from service.core.compatibility import Curves, Dangers, Wiring, dangers_of, wired_alone
from service.core.compatibility.current import rear_light_share
from service.core.energy import diode_of_sheet, remaining_share
from service.core.energy.kernel import wired
from service.core.energy.kernel.place import single
from service.core.errors import ContradictionError
from service.core.model.assumption import Assumptions
from service.core.model.facts import Array, Input, Setup
from service.core.model.finding import Finding, Verdict
from service.core.model.hours import Floats, Ints
from service.core.model.memo import Memo
from service.core.panel import Diode, Panels
from service.core.shortlist.few_cells import FewCells, few_cells
from service.core.shortlist.grouped import GroupedYear, Singles
from service.core.shortlist.layout import OnInput
from service.core.shortlist.offer import InverterKind, PanelKind
from service.core.shortlist.order import PanelCap

Kept = Memo[Hashable, Any]
V = TypeVar("V", float, Floats)
_OPEN_OVER_WORKING = 1.05
# An input of an inverter: its key, and the number from 0.
InputKey = tuple[str, int]


@dataclass(frozen=True, slots=True, eq=False)
class Free:
    """An array's power where no limit holds it, (k,) W, and its ends.

    ``ends``: the least and the most volts, the most amperes and the most watts.
    """

    power_w: Singles
    ends: tuple[float, float, float, float]


def surely_starts(least_v: V, limits: Input) -> Any:
    """Do strings start in any light whose volts at most power are never fewer than this?

    Open ends have more volts: v + ln(1 + v) thermal voltages for v, which is 1.05 v and more up to 90 of them, and a
    cell has some 25; what a panel loses inside only widens the gap.
    """
    return _OPEN_OVER_WORKING * least_v >= limits.start_voltage_v


@dataclass(frozen=True, slots=True, eq=False)
class Wired:
    """An array's panels as its input sees them.

    Attributes:
        diode: of one panel, with its part of the leads.
        in_series: panels in a string.
        strings: such strings, less what ageing and mismatch take.
    """

    diode: Diode
    in_series: int
    strings: float


@dataclass(frozen=True, kw_only=True, eq=False)
class Strung:
    """An array of one kind of panel at a place, asked about inputs; what was asked is kept with it.

    Attributes:
        dangers: what of it can refuse.
        array: itself.
        remaining_share: what ageing has left of its power.
        free: what it gives where no limit holds it, once it was asked.
        stood: how it stands to inputs that were asked about.
        held: what inputs draw of it whose limits hold it, (k,) W.
    """

    dangers: Dangers
    array: Array
    remaining_share: float
    free: list[Free] = field(default_factory=list)
    stood: dict[InputKey, Verdict] = field(default_factory=dict)
    held: dict[InputKey, Singles] = field(default_factory=dict)

    @cached_property
    def wired(self) -> Wired | None:
        """None where its figures make no curve. What is refused is never asked for it."""
        try:
            return Wired(*wired(self.array, diode_of_sheet(self.array.panel), self.remaining_share))
        except ContradictionError:
            return None

    def stands(self, inverter: InverterKind, index: int) -> Verdict:
        """How it stands to an input (counted from 0): refused, not known where it likely is, else fits."""
        key = inverter.key, index
        if key not in self.stood:
            self.stood[key] = self.dangers.stand(inverter.column(index))
        return self.stood[key]

    def refusal(self, inverter: InverterKind, index: int) -> Finding | None:
        """Why an input refuses it; None where it does not."""
        refused = self.stands(inverter, index) == Verdict.DOES_NOT_FIT
        return self.dangers.refusal(inverter.column(index)) if refused else None


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class AtHome:
    """The home at its places, asked about panels on inputs.

    Attributes:
        key: the same for questions about the same home and day.
        setup: a complete request with one array at each place; its panels stand for any.
        assumptions: what of it beside panels and inverter was assumed.
        cells_c: of the sunniest place, how hot cells get and how cool they are in light.
        year: in groups of hours.
        side_fit: how socket and rules judge an inverter, whatever hangs on it.
        panel_cap: what was published for the watts of panels; None: nothing.
        kept: what was found out lately.
        curves: what questions find out about panels' curves.
    """

    key: str
    setup: Setup
    assumptions: Assumptions
    cells_c: tuple[float, float]
    year: GroupedYear
    side_fit: Callable[[InverterKind], int]
    panel_cap: PanelCap | None
    kept: Kept
    curves: Curves = field(default_factory=Curves)
    _hung: dict[tuple[int, int, str], Array] = field(default_factory=dict, init=False)
    _alone: dict[str, Wiring] = field(default_factory=dict, init=False)

    def strung(self, panel: PanelKind, on: OnInput) -> Strung:
        """Such an array of such panels."""
        place = on.place, on.count, on.joined
        found: Strung = self.kept.get((self.key, panel.key, place), lambda: self._strung(panel, on))
        return found

    def free(self, hung: Sequence[Strung], place: int) -> list[Free]:
        """What arrays with a curve, all wired alike at the place, give where no limit holds them."""
        new = [one for one in hung if not one.free]
        if new:
            few, lit = self._few_cells(place)
            wires = [one.wired for one in new if one.wired is not None]
            volts, amperes = few.at_most_power(tuple(wire.diode for wire in wires))
            volts *= np.array([[wire.in_series] for wire in wires])
            amperes *= np.array([[wire.strings] for wire in wires])
            watts = np.zeros((len(wires), self.year.hours.size))
            watts[:, lit] = np.maximum(volts * amperes, 0.0)
            ends = np.stack([
                volts.min(axis=1, initial=np.inf), volts.max(axis=1, initial=0.0),
                amperes.max(axis=1, initial=0.0), watts.max(axis=1, initial=0.0),
            ], axis=1)  # fmt: skip
            for one, row, (least_v, most_v, most_a, most_w) in zip(new, watts, ends.tolist(), strict=True):
                one.free.append(Free(single(row), (least_v, most_v, most_a, most_w)))
        return [one.free[0] for one in hung]

    def held_w(self, hung: Sequence[Strung], place: int, inverter: InverterKind, index: int) -> list[Singles]:
        """What an input (counted from 0) whose limits hold such arrays draws of each in each group of hours, (k,) W."""
        key, limits = (inverter.key, index), inverter.inverter.inputs[index]
        new = [one for one in hung if key not in one.held]
        if new:
            panels, wires, lit = self._panels(new, place)
            power = panels.running_power_w(wires[0].in_series, np.array([wire.strings for wire in wires]), limits)
            if any(not surely_starts(one.free[0].ends[0], limits) for one in new):
                power *= self.year.running(panels.open_above(wires[0].in_series, limits.start_voltage_v), lit)
            for one, watts in zip(new, power, strict=True):
                one.held[key] = self._in_groups(watts, lit)
        return [one.held[key] for one in hung]

    def _panels(self, hung: Sequence[Strung], place: int) -> tuple[Panels, list[Wired], Ints]:
        """The panels in the groups of hours that have light there, how they are wired, and which groups these are."""
        light = self.year.irradiance_w_per_m2[place]
        lit = np.flatnonzero(light > 0.0)
        wires = [one.wired for one in hung if one.wired is not None]
        return Panels(tuple(wire.diode for wire in wires), light[lit], self.year.cell_c[place][lit]), wires, lit

    def _few_cells(self, place: int) -> tuple[FewCells, Ints]:
        """Of the groups of hours that have light there, and which these are."""

        def made() -> tuple[FewCells, Ints]:
            light = self.year.irradiance_w_per_m2[place]
            lit = np.flatnonzero(light > 0.0)
            return few_cells(light[lit], self.year.cell_c[place][lit]), lit

        found: tuple[FewCells, Ints] = self.kept.get((self.key, "few cells", place), made)
        return found

    def _in_groups(self, watts: Floats, lit: Ints) -> Singles:
        power = np.zeros(self.year.hours.size)
        power[lit] = watts
        return single(power)

    def _strung(self, panel: PanelKind, on: OnInput) -> Strung:
        array = replace(self._standing(on), panel=panel.panel)
        if panel.key not in self._alone:
            self._alone[panel.key] = wired_alone(
                self.setup, self.assumptions, self.cells_c, panel.panel, panel.assumed, self.curves
            )
        return Strung(
            dangers=dangers_of(self._alone[panel.key], array),
            array=array,
            remaining_share=remaining_share(array, self.setup.money.ageing_share_per_year),
        )

    def _standing(self, on: OnInput) -> Array:
        """What stands so at a place, whatever its panels: how much light its rear gets is found out once for all."""
        wiring = on.place, on.count, on.joined
        if wiring not in self._hung:
            array = self.setup.arrays[on.place]
            rear = rear_light_share(array, self.setup.site.ground_reflectance_share)
            self._hung[wiring] = replace(array, count=on.count, joined=on.joined, rear_light_share=rear)
        return self._hung[wiring]
