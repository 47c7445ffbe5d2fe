"""What would the set give in each hour of a brighter or a dimmer year, with every limit kept?

A band is made of causes that act before the limits: climate, the year's weather, the panel's rating, dirt, reflectance,
shade, plane and model all scale the light or the d.c. power that it makes. So the d.c. side is scaled and the limits
act anew; nothing in the spread acts after them.
"""

from dataclasses import dataclass, field

import numpy as np

from service.core.inverter import Curve, Output, output_of
from service.core.model.hours import Floats

_KEPT = 2


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class OtherLight:
    """The set's year, ready to be asked again with other light.

    Attributes:
        free_w: d.c. power of each input before its limits of current and power, (8760,) each.
        most_w: what those limits admit where they cut or would cut, (8760,) each; see ``panel.Drawn``.
        ac_power_w: rated a.c. power.
        limit_w: what the inverter is set to, at most its rating.
        curve: efficiency by load.
        up_share: part of the year in which the set runs.
        flicker_share: how the light comes and goes within each hour, (8760,); None: it is steady. It stays as it is in
            a brighter or a dimmer year.
    """

    free_w: tuple[Floats, ...]
    most_w: tuple[Floats, ...]
    ac_power_w: float
    limit_w: float
    curve: Curve
    up_share: float
    flicker_share: Floats | None = None
    _known: dict[float, tuple[Floats, Floats]] = field(default_factory=dict, init=False)

    def ac_and_clipped_w(self, scale: float) -> tuple[Floats, Floats]:
        """A.c. power of each hour, and what the a.c. limit cuts off, both after downtime, (8760,) W.

        Args:
            scale: light over that of the typical year, at least 0.

        D.c. power is taken in proportion to light and the voltage to stay, so that start and window act as they did.
        Of a scale of 1 to 1.4 the true gain is up to some 1 % less (warmer cells). The ends of the band are asked for
        by energy and by money alike: the last two are kept, read-only.
        """
        found = self._known.get(scale)
        if found is None:
            out = self._output(scale)
            found = out.ac_w * self.up_share, out.clipped_w * self.up_share
            for part in found:
                part.setflags(write=False)
            if len(self._known) >= _KEPT:
                self._known.clear()
            self._known[scale] = found
        return found

    def _output(self, scale: float) -> Output:
        dc_w = np.zeros_like(self.free_w[0])
        for free, most in zip(self.free_w, self.most_w, strict=True):
            dc_w += np.minimum(free * scale, most)
        return output_of(
            np.maximum(dc_w, 0.0), self.ac_power_w, self.limit_w, self.curve, flicker_share=self.flicker_share
        )
