"""Which of very many offers deserve to be judged? By price and power alone, at the sunniest place, without limits.

A panel gives its rated power by the light, less a usual loss by heat, and no more than the inverter passes on. That is
kind to every panel alike, and costs nothing beside a look at curves and inputs.
"""

from collections.abc import Mapping, Sequence

import numpy as np

from service.core.model.hours import Floats, Ints
from service.core.shortlist.grouped import GroupedYear, Singles
from service.core.shortlist.offer import Offer
from service.core.shortlist.order import PanelCap
from service.core.shortlist.wish import Terms

_STANDARD_W_PER_M2, _STANDARD_C = 1000.0, 25.0
_LOSS_PER_K, _EFFICIENCY_SHARE = 0.0035, 0.95  # usual figures of the trade; the same for all, so that none is favoured
_SAMPLE = 16  # of the first panels at a glance, by which inverters are put in an order


class Glance:
    """Offers of panels and of inverters at a home, put in an order; what is at hand comes first, a trick last."""

    def __init__(
        self, year: GroupedYear, place: int, terms: Terms, panels: Sequence[Offer], inverters: Sequence[Offer]
    ) -> None:
        """``place``: the sunniest."""
        heat = 1.0 - _LOSS_PER_K * (year.cell_c[place] - _STANDARD_C)
        share = year.irradiance_w_per_m2[place] / _STANDARD_W_PER_M2 * heat * _EFFICIENCY_SHARE
        self._share = np.asarray(np.maximum(share, 0.0), np.float32)
        self._year, self._terms, self._panels, self._inverters = year, terms, panels, inverters
        self._rated = np.array([one.panel.panel.rated_power_w for one in panels if one.panel is not None])
        self._used = np.array([one.second_hand for one in panels], bool)
        self._first: Ints = np.zeros(0, np.int64)
        self._costs: Mapping[int, Floats] = {}

    def panels(self, costs: Mapping[int, Floats], own: Sequence[float], cap: PanelCap | None) -> Ints:
        """Numbers of the panels, the first at a glance first; of equal ones as they stand.

        Args:
            costs: by the counts there is room for, (panels,) what so many cost, delivered; infinite: not to be had.
            own: what each inverter costs, with all that comes with every set.
            cap: what was published for the watts of panels; panels that are within it in no number come behind.
        """
        if not self._panels or not self._inverters:
            return np.zeros(0, np.int64)
        most_ac_w = max(one.inverter.inverter.ac_power_w for one in self._inverters if one.inverter is not None)
        paid, counts = np.stack(list(costs.values())) + min(own), np.array(list(costs))
        watts = self._rated * counts[:, None]
        year, saving = self._sums(watts, most_ac_w)
        rough = self._terms.rough(paid, year, saving, second_hand=self._used)
        beyond = np.isinf(paid) if cap is None else np.isinf(paid) | (cap.fit(watts) > 0)
        over = beyond.all(axis=0)
        score = np.where(beyond & ~over, np.inf, rough).min(axis=0)
        bought, tricky = np.array([_rank(one) for one in self._panels]).T
        order = np.lexsort((costs[min(costs)], score, over, tricky, bought))
        self._first, self._costs = order[:_SAMPLE], costs
        return np.asarray(order, np.int64)

    def inverters(self, own: Sequence[float]) -> list[Offer]:
        """The inverters likewise, with the first of the panels; to be asked after ``panels``."""
        first, counts = self._first, np.array(list(self._costs))
        if not first.size:
            return sorted(self._inverters, key=_rank)
        paid, watts = np.stack([costs[first] for costs in self._costs.values()]), self._rated[first] * counts[:, None]
        by_power: dict[float, tuple[Floats, Floats | None]] = {}
        scored: list[tuple[bool, bool, float, str, int]] = []
        for one, mine in zip(self._inverters, own, strict=True):
            ac_w = 0.0 if one.inverter is None else one.inverter.inverter.ac_power_w
            if ac_w not in by_power:
                by_power[ac_w] = self._sums(watts, ac_w)
            rough = self._terms.rough(paid + mine, *by_power[ac_w], second_hand=self._used[first])
            scored.append((*_rank(one), float(rough.min(initial=np.inf)), one.name, len(scored)))
        return [self._inverters[at] for *_, at in sorted(scored)]

    def _sums(self, rated_w: Floats, ac_w: float) -> tuple[Floats, Floats | None]:
        """Year's kWh and what they save, of the shape of ``rated_w``; each rated power is looked at once."""
        each, which = np.unique(rated_w, return_inverse=True)
        power: Singles = np.multiply.outer(each.astype(np.float32), self._share)
        np.minimum(power, np.float32(ac_w), out=power)
        year, saving = self._year.sums(power)
        which = which.reshape(rated_w.shape)
        return year[which], None if saving is None else saving[which]


def _rank(offer: Offer) -> tuple[bool, bool]:
    return offer.advert is not None, offer.tricky
