"""What would the set give in each hour of a brighter or a dimmer year, with every limit kept?

A band is made of causes that act before the limits: climate, the year's weather, the panel's rating, dirt, reflectance,
shade, plane and model all scale the light or the d.c. power that it makes. So the d.c. side is scaled and the limits
act anew; nothing in the spread acts after them. What panel or dirt change, they change in every hour alike; a brighter
climate or year has fewer clouds, so that its clear hours, which a limit cuts, stay as they were: its part of the spread
moves each hour by the cloud that it has to lose. Cells that lose less to a shadow than was taken bring more in other
hours than those that a limit cuts already, and of another plane that is the greater half.
"""

from dataclasses import dataclass, field, replace

import numpy as np

from service.core.inverter import Curve, Output, output_of
from service.core.model.hours import Floats

_KEPT = 2
_NEXT_TO_NOTHING_SHARE = 0.01
_MOST_MOVED = 2.0  # times the year's share: the dullest hours hold next to no energy


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
        cloud: how much each hour moves with the clouds, up to a common factor (``sky.cloud_to_lose``), (8760,); None:
            all hours move alike.
        by_clouds_share: what part of a change to less light, and of one to more, comes from clouds, 0 to 1 each; the
            rest moves all hours alike, but for
        by_uncut_share: what part of less light is less of what limits leave, and what part of more moves the hours that
            no limit cuts.
        by_hours_share: what part of a change to less, and of one to more, is no other light but moves each hour apart
            (``hour_moves``), 0 to 1 each; the two before are parts of the rest.
        hours_move_w: how far that moves each hour's d.c. power for a change of light by one, to less and to more,
            (8760,); None: not at all.
    """

    free_w: tuple[Floats, ...]
    most_w: tuple[Floats, ...]
    ac_power_w: float
    limit_w: float
    curve: Curve
    up_share: float
    flicker_share: Floats | None = None
    cloud: Floats | None = None
    by_clouds_share: tuple[float, float] = (0.0, 0.0)
    by_uncut_share: tuple[float, float] = (0.0, 0.0)
    by_hours_share: tuple[float, float] = (0.0, 0.0)
    hours_move_w: tuple[Floats | None, Floats | None] = (None, None)
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

    def evenly(self) -> "OtherLight":
        """The same set where other light moves all hours alike, and no other choice is asked."""
        return replace(self, cloud=None, by_hours_share=(0.0, 0.0), hours_move_w=(None, None))

    def _output(self, scale: float) -> Output:
        dc_w = np.zeros_like(self.free_w[0])
        more, change = int(scale > 1.0), abs(scale - 1.0)
        scale = 1.0 + (scale - 1.0) * (1.0 - self.by_hours_share[more])
        planes = 0.0 if self.cloud is None or scale == 1.0 else self.by_uncut_share[more]
        uncut = self._uncut() if more and planes > 0.0 else None
        # A plane that brings less does so below the limit, too: there its part acts on what the limits leave. By the
        # hours that they leave uncut alone, a higher limit, with more of them, could give a lower end.
        left = 1.0 - planes * max(1.0 - scale, 0.0)
        for free, most in zip(self.free_w, self.most_w, strict=True):
            moved = (
                free * scale
                if scale == 1.0 or self.cloud is None
                else self._by_hour(free, self.cloud, scale, None if uncut is None else uncut * (free < most))
            )
            dc_w += np.minimum(moved, most * left)
        if (moves_w := self.hours_move_w[more]) is not None and change > 0.0:
            dc_w += change * moves_w
        return output_of(
            np.maximum(dc_w, 0.0), self.ac_power_w, self.limit_w * left, self.curve, flicker_share=self.flicker_share
        )

    def _uncut(self) -> Floats:
        """1 in hours of which the set's limit cuts next to nothing, else 0."""
        ac_w, clipped_w = self.ac_and_clipped_w(1.0)
        return np.asarray(clipped_w <= _NEXT_TO_NOTHING_SHARE * ac_w, np.float64)

    def _by_hour(self, free: Floats, cloud: Floats, scale: float, uncut: Floats | None) -> Floats:
        """An input's power before its limits with other light; its sum is ``scale`` times what it was, none below 0."""
        clouds = self.by_clouds_share[int(scale > 1.0)]
        planes = 0.0 if uncut is None else self.by_uncut_share[1]
        moves = 1.0 - clouds - planes + clouds * _moved_by_clouds(free, cloud)
        if uncut is not None:
            moves = moves + planes * _moved_within(free, uncut)
        # Where the dullest hours would be dark, all go down together.
        least = max(scale, 1.0 - 1.0 / max(float(moves.max()), 1.0))
        down = scale / least if least > 0.0 else 0.0
        return np.asarray(free * np.maximum(1.0 + (least - 1.0) * moves, 0.0) * down)


def _moved_within(free: Floats, uncut: Floats) -> Floats:
    """Each hour's relative change over that of the sum of ``free`` where only the uncut hours change, all alike."""
    within = float(free @ uncut)
    return uncut * (float(free.sum()) / within) if within > 0.0 else np.ones_like(free)


def _moved_by_clouds(free: Floats, cloud: Floats) -> Floats:
    """Each hour's relative change over that of the sum of ``free``, bounded for dull hours; (n,), not negative."""
    total = float(free.sum())
    moves = np.ones_like(free)
    if total > 0.0 and float(free @ cloud) > 0.0:
        moves = cloud.copy()
        for _ in range(3):  # what the bound took away goes to the other hours
            moves = np.minimum(moves * (total / float(free @ moves)), _MOST_MOVED)
        moves *= total / float(free @ moves)
    return moves
