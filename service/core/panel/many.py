"""What do many panels give in the same light, or an input draw of each? ``curve`` and ``drawn`` for all at once.

The same equations on rows of all panels: fifty short arrays cost as much by their calls as by their figures.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from service.core.model.facts import Input
from service.core.model.hours import Bools, Floats
from service.core.panel.curve import Curve, MaxPower, curves_at, peak_of
from service.core.panel.diode import Diode
from service.core.panel.drawn import running_power_of
from service.core.panel.joined import Part, opens_above

_STEPS = 3  # of the search for the point of most power: right within a millionth
_AT_ONCE = 4096  # rows whose figures stay near the processor


@dataclass(frozen=True, slots=True, eq=False)
class Panels:
    """Panels in the same light: (k,) effective irradiance above 0 W/m2 and cell temperature in C."""

    diodes: tuple[Diode, ...]
    irradiance_w_per_m2: Floats
    cell_c: Floats

    def max_power(self) -> MaxPower:
        """As ``max_power`` of each within a millionth, (m, k) each."""
        parts = [peak_of(curve, _STEPS) for curve, _ in self._curves()]
        if not parts:
            nothing = np.zeros((0, self.cell_c.size))
            return MaxPower(nothing, nothing, nothing)
        shape = len(self.diodes), self.cell_c.size
        return MaxPower(
            np.concatenate([part.power_w for part in parts]).reshape(shape),
            np.concatenate([part.voltage_v for part in parts]).reshape(shape),
            np.concatenate([part.current_a for part in parts]).reshape(shape),
        )

    def running_power_w(self, in_series: int, strings: Floats, limits: Input) -> Floats:
        """As ``running_power_w`` of each, (m, k); ``strings`` (m,) side by side."""
        size = self.cell_c.size
        parts = [
            running_power_of(Part(curve, in_series, np.repeat(strings[panels], size)), limits)
            for curve, panels in self._curves()
        ]
        return np.concatenate(parts).reshape(len(self.diodes), size) if parts else np.zeros((0, size))

    def open_above(self, in_series: int, volts: float) -> Bools:
        """Has a string of so many open ends of at least these volts? (m, k)."""
        parts = [opens_above((Part(curve, in_series, 1.0),), volts) for curve, _ in self._curves()]
        return np.concatenate(parts).reshape(len(self.diodes), -1) if parts else np.zeros((0, self.cell_c.size), bool)

    def _curves(self) -> Sequence[tuple[Curve, slice]]:
        """The curves of some panels at a time, their rows one after the other."""
        step = max(_AT_ONCE // max(self.cell_c.size, 1), 1)
        return [
            (
                curves_at(self.diodes[first : first + step], self.irradiance_w_per_m2, self.cell_c),
                slice(first, first + step),
            )
            for first in range(0, len(self.diodes), step)
        ]
