"""What does an inverter make of the d.c. power of its inputs? Solved once by bins of power, then looked up."""

from dataclasses import dataclass

import numpy as np

from service.core.energy.kernel.place import Singles, cells_of, single
from service.core.inverter import ac_from_dc, curve_through
from service.core.model.facts import Inverter

_AC_BINS = 8192


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class OutputTable:
    """A.c. power after conversion by the d.c. power of all inputs, in bins, beyond them the last; and its limit."""

    ac_w: Singles
    bins_per_w: np.float32
    limit_w: np.float32

    def of(self, dc_w: Singles, flicker_share: Singles | None = None) -> Singles:
        """A.c. power under the limit, of the shape of ``dc_w``, before downtime; see ``in_hours``."""
        return self.in_hours(dc_w.shape[-1], flicker_share).of(dc_w)

    def in_hours(self, hours: int, flicker_share: Singles | None = None) -> "HourlyOutput":
        """The same for so many hours, ready to be read again and again.

        ``flicker_share`` (n,), at most 1, as for ``inverter.clipped``: half of each hour is so much above its mean and
        half so much below, so that the limit cuts each half.
        """
        most_share = 0.0 if flicker_share is None else float(flicker_share.max(initial=0.0))
        most_w = float(self.ac_w[-1]) * (1.0 + most_share)
        if flicker_share is None or most_w <= self.limit_w:
            limit_w = None if most_w <= self.limit_w else single(np.full(hours, self.limit_w))
            return HourlyOutput(self.ac_w, self.bins_per_w, None, None, limit_w)
        half = np.float32(0.5)
        return HourlyOutput(
            ac_w=self.ac_w,
            bins_per_w=self.bins_per_w,
            above=single(half + half * flicker_share),
            below=single(half - half * flicker_share),
            limit_w=single(np.full(hours, half * self.limit_w)),
        )


@dataclass(frozen=True, slots=True, eq=False)
class HourlyOutput:
    """An output in the hours of a place.

    Attributes:
        ac_w, bins_per_w: of the table.
        above, below: (n,) what the brighter and the darker half of an hour bring, over its mean; None: hours are
            steady, or no half of one reaches the limit.
        limit_w: (n,) the limit, of half an hour where there are halves: as a row it is compared faster than a single
            number; None: it is never reached.
    """

    ac_w: Singles
    bins_per_w: np.float32
    above: Singles | None
    below: Singles | None
    limit_w: Singles | None

    def part(self, hours: slice) -> "HourlyOutput":
        """That of some of the hours."""
        above, below, limit_w = (None if row is None else row[hours] for row in (self.above, self.below, self.limit_w))
        return HourlyOutput(self.ac_w, self.bins_per_w, above, below, limit_w)

    def of(self, dc_w: Singles) -> Singles:
        """A.c. power, (n,) or (m, n), of d.c. power of the same shape."""
        ac = self.ac_w.take(cells_of(dc_w * self.bins_per_w), mode="clip")
        if self.limit_w is None:
            return ac
        if self.above is None or self.below is None:
            return np.minimum(ac, self.limit_w, out=ac)
        brighter = ac * self.above
        np.minimum(brighter, self.limit_w, out=brighter)
        ac *= self.below
        np.minimum(ac, self.limit_w, out=ac)
        ac += brighter
        return ac


def output_table(inverter: Inverter, most_dc_w: float) -> OutputTable:
    """The table of an inverter whose inputs together draw at most this."""
    bins_per_w = _AC_BINS / max(most_dc_w, 1.0)
    dc = np.asarray((np.arange(_AC_BINS + 1) + 0.5) / bins_per_w, np.float64)
    dc[0] = 0.0
    curve = curve_through(inverter.weighted_efficiency_share, inverter.efficiency_weighting)
    limit = min(inverter.set_limit_w, inverter.ac_power_w)
    ac = ac_from_dc(dc, inverter.ac_power_w, curve)
    return OutputTable(ac_w=single(ac), bins_per_w=np.float32(bins_per_w), limit_w=np.float32(limit))
