"""How much of the d.c. power arrives as a.c.? The efficiency curve, and how one weighted figure fixes it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType

import numpy as np
from numpy.typing import ArrayLike

from service.core.model.hours import Floats

# Load (d.c. power over rated a.c. power) and weight. European: EN 50530; Californian: the test protocol of the
# California Energy Commission (2005). Both read on public trade pages.
WEIGHTINGS: Mapping[str, tuple[tuple[float, float], ...]] = MappingProxyType(
    {
        "european": ((0.05, 0.03), (0.10, 0.06), (0.20, 0.13), (0.30, 0.10), (0.50, 0.48), (1.00, 0.20)),
        "californian": ((0.10, 0.04), (0.20, 0.05), (0.30, 0.12), (0.50, 0.21), (0.75, 0.53), (1.00, 0.05)),
    }
)

# Loss in per unit = p0 + a P + b P^2. One weighted figure fixes only the size of the loss, not how it splits. The split
# is the least-squares fit (0.0068, 0.0156, 0.0228) to the median loss at 5, 10, 20, 30, 50, 75 and 100 % of load of the
# 611 inverters from 150 to 1500 W in the public CEC inverter list (edition of 2019).
LOSS_RATIO = (3.0, 7.0, 10.0)


@dataclass(frozen=True, slots=True)
class EfficiencyCurve:
    """Loss = standing + linear P + quadratic P^2; loss and P (d.c.) in per unit of rated a.c. power."""

    standing: float
    linear: float
    quadratic: float

    def efficiency_share(self, load_share: ArrayLike) -> Floats:
        """Efficiency at d.c. power over rated a.c. power, (n,); above full load that of full load; never below 0."""
        load = np.minimum(np.asarray(load_share, np.float64), 1.0)
        loss = self.standing + (self.linear + self.quadratic * load) * load
        return np.maximum(1.0 - loss / np.maximum(load, 1e-12), 0.0)


@dataclass(frozen=True, slots=True)
class PointCurve:
    """Efficiency at given loads, straight lines in between.

    Above the last point its efficiency holds; below the first its loss in watts holds, so that no output is left at
    some small load.
    """

    load_share: tuple[float, ...]
    share_at_load: tuple[float, ...]

    def efficiency_share(self, load_share: ArrayLike) -> Floats:
        """Efficiency at d.c. power over rated a.c. power, (n,)."""
        load = np.asarray(load_share, np.float64)
        first, share = self.load_share[0], self.share_at_load[0]
        below = np.maximum(1.0 - first * (1.0 - share) / np.maximum(load, 1e-12), 0.0)
        return np.where(load < first, below, np.interp(load, self.load_share, self.share_at_load))


Curve = EfficiencyCurve | PointCurve


def curve_through(weighted_share: float, weighting: str) -> EfficiencyCurve:
    """The curve of the documented loss ratio whose weighted efficiency is the given one.

    Exact from 0.68 up; an inverter worse than any sold gives nothing at the least loads, and its curve's weighted
    figure comes out up to 0.02 higher.

    Args:
        weighted_share: weighted efficiency between 0 and 1.
        weighting: ``european`` or ``californian``.

    Raises:
        KeyError: no such weighting.

    >>> round(weighted_efficiency(curve_through(0.955, "european"), "european"), 12)
    0.955
    """
    p0, a, b = LOSS_RATIO
    of_unit = sum(weight * (p0 / load + a + b * load) for load, weight in WEIGHTINGS[weighting])
    size = (1.0 - weighted_share) / of_unit
    return EfficiencyCurve(p0 * size, a * size, b * size)


def curve_from_points(points: Sequence[tuple[float, float]]) -> PointCurve:
    """The curve through (load share, efficiency share) pairs in any order; at least one pair, loads above nought."""
    ordered = sorted(points)
    return PointCurve(tuple(load for load, _ in ordered), tuple(share for _, share in ordered))


def weighted_efficiency(curve: Curve, weighting: str) -> float:
    """The curve's weighted efficiency: sum of weight x efficiency over the weighting's loads.

    >>> points = [(0.05, 0.9), (0.1, 0.94), (0.2, 0.96), (0.3, 0.965), (0.5, 0.967), (1.0, 0.96)]
    >>> round(weighted_efficiency(curve_from_points(points), "european"), 5)
    0.96086
    """
    return sum(weight * float(curve.efficiency_share(load)) for load, weight in WEIGHTINGS[weighting])
