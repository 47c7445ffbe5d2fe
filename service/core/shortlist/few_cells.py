"""Of how few cells of light and warmth must a panel be solved, so that its year can be read between them?

Where no limit holds a panel, its volts go nearly with the logarithm of the light and with the temperature, and so do
its amperes over the light. Polynomials through Chebyshev's points of both tell a cell's from those of a few dozen
others: one product for all panels and all groups of hours.
"""

from dataclasses import dataclass

import numpy as np

from service.core.model.hours import Floats
from service.core.panel import Diode, Panels

_LIGHTS, _WARMTHS = 10, 4
_LEAST_WIDTH = 1e-3  # of the logarithm, and in K: of cells that are all alike


@dataclass(frozen=True, slots=True, eq=False)
class FewCells:
    """The cells that are solved, p of them, and those that are read, k.

    Attributes:
        irradiance_w_per_m2, cell_c: (p,) of those that are solved.
        weights: (p, k) of these in each that is read.
        read_w_per_m2: (k,) light of those.
    """

    irradiance_w_per_m2: Floats
    cell_c: Floats
    weights: Floats
    read_w_per_m2: Floats

    def at_most_power(self, diodes: tuple[Diode, ...]) -> tuple[Floats, Floats]:
        """Volts and amperes of panels where each gives the most power, (m, k) both.

        Within 0.01 % of the power in full sun of what each cell's own solution gives.
        """
        found = Panels(diodes, self.irradiance_w_per_m2, self.cell_c).max_power()
        per_light = found.current_a / self.irradiance_w_per_m2
        return found.voltage_v @ self.weights, (per_light @ self.weights) * self.read_w_per_m2


def few_cells(irradiance_w_per_m2: Floats, cell_c: Floats) -> FewCells:
    """Those of which cells of these lights (above nought) and temperatures, (k,), are read."""
    lights, of_light = _between(np.log(irradiance_w_per_m2), _LIGHTS)
    warmths, of_warmth = _between(cell_c, _WARMTHS)
    return FewCells(
        irradiance_w_per_m2=np.repeat(np.exp(lights), _WARMTHS),
        cell_c=np.tile(warmths, _LIGHTS),
        weights=(of_light[:, None] * of_warmth).reshape(_LIGHTS * _WARMTHS, -1),
        read_w_per_m2=irradiance_w_per_m2,
    )


def _between(values: Floats, points: int) -> tuple[Floats, Floats]:
    """Chebyshev's points over a range of values (k,), and the weight of each in each of the values, (points, k)."""
    low, high = float(values.min(initial=np.inf)), float(values.max(initial=-np.inf))
    if low > high:
        return np.zeros(points), np.zeros((points, 0))
    middle, half = (low + high) / 2.0, max(high - low, _LEAST_WIDTH) / 2.0
    at = middle + half * np.cos(np.pi * (np.arange(points) + 0.5) / points)
    steps = np.where(np.eye(points, dtype=bool), 1.0, at[:, None] - at)
    apart = np.where(np.eye(points, dtype=bool)[:, :, None], 1.0, values - at[:, None])
    return at, np.asarray((apart / steps[:, :, None]).prod(axis=1), np.float64)
