"""Which of very many offers deserve to be judged? By price and power, at the sunniest place, with whole inputs alone.

A panel gives its rated power by the light, less a usual loss by heat, and no more than the inverter passes on; of
panels there are no more than an inverter's inputs take by volts and amperes of the labels. That is kind to every panel
alike, and costs nothing beside a look at curves and inputs; it proves nothing of those that come behind.
"""

from collections.abc import Mapping, Sequence

import numpy as np

from service.core.model.facts import Input
from service.core.model.hours import Floats, Ints
from service.core.shortlist.grouped import GroupedYear, Singles, Sums, some_at_a_time
from service.core.shortlist.offer import Offer
from service.core.shortlist.order import PanelCap
from service.core.shortlist.wish import Terms

_STANDARD_W_PER_M2, _STANDARD_C = 1000.0, 25.0
_LOSS_PER_K, _EFFICIENCY_SHARE = 0.0035, 0.95  # usual figures of the trade; the same for all, so that none is favoured
_OVER_AT_WORK = 1.25  # of what an input works with it bears somewhat more; rough, for an order alone
_KNOTS = 64  # rated powers of which a year is summed
_SAMPLE = 16  # of the first panels at a glance, by which inverters are put in an order


class Glance:
    """Offers of panels and of inverters at a home, put in an order; what is at hand comes first, a trick last."""

    def __init__(
        self, year: GroupedYear, place: int, terms: Terms, panels: Sequence[Offer], inverters: Sequence[Offer]
    ) -> None:
        """``place``: the sunniest."""
        self._share = share_of_rated(year, place)
        self._year, self._terms, self._panels, self._inverters = year, terms, panels, inverters
        sheets = [one.panel.panel for one in panels if one.panel is not None]
        labels = [(one.rated_power_w, one.open_circuit_voltage_v, one.short_circuit_current_a) for one in sheets]
        self._rated, self._volts, self._amperes = np.array(labels).reshape(-1, 3).T
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
        year, saving = self._read_off(watts, most_ac_w)
        rough = self._terms.rough(paid, year, saving, second_hand=self._used)
        beyond = np.isinf(paid) | (counts[:, None] > self._most())
        beyond = beyond if cap is None else beyond | (cap.fit(watts) > 0)
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
        powers = [0.0 if one.inverter is None else one.inverter.inverter.ac_power_w for one in self._inverters]
        each, which = np.unique(powers, return_inverse=True)
        rows = which[:, None, None] * watts.size + np.arange(watts.size).reshape(watts.shape)
        year, saving = self._sums(np.tile(watts.ravel(), each.size), np.repeat(each, watts.size), rows)
        outlay = paid + np.asarray(own)[:, None, None]
        best = self._terms.rough(outlay, year, saving, second_hand=self._used[first]).min(axis=(1, 2)).tolist()
        scored = [(*_rank(one), best[at], at) for at, one in enumerate(self._inverters)]
        return [self._inverters[at] for *_, at in sorted(scored)]

    def _most(self) -> Ints:
        """(panels,) how many the roomiest inverter takes, by volts and amperes of the labels, and at least one.

        Of inputs that differ all count as the largest.
        """
        kinds = {one.inverter.key: one.inverter.inverter.inputs for one in self._inverters if one.inverter is not None}
        ends = [(*map(max, zip(*map(_ends, inputs), strict=True)), len(inputs)) for inputs in kinds.values()]
        most_v, most_a, inputs = np.array(ends)[:, :, None].transpose(1, 0, 2)
        on_each = np.maximum(most_v / self._volts, most_a / self._amperes).astype(np.int64)
        return np.asarray(np.maximum((inputs * on_each).max(axis=0), 1), np.int64)

    def _read_off(self, rated_w: Floats, ac_w: float) -> Sums:
        """Of rated powers of any shape on one inverter, read between a few of them: a year bends slowly over power."""
        knots = np.linspace(rated_w.min(), rated_w.max(), _KNOTS)
        year, saving = self._sums(knots, np.full(_KNOTS, ac_w), np.arange(_KNOTS))
        return np.interp(rated_w, knots, year), None if saving is None else np.interp(rated_w, knots, saving)

    def _sums(self, rated_w: Floats, ac_w: Floats, rows: Ints) -> Sums:
        """Year's kWh and what they save of rated powers on inverters, (m,) both, as ``rows`` of these has them."""

        def sums(part: slice) -> Sums:
            power: Singles = np.multiply.outer(rated_w[part].astype(np.float32), self._share)
            return self._year.sums(np.minimum(power, ac_w[part, None].astype(np.float32), out=power))

        year, saving = some_at_a_time(rated_w.size, sums)
        return year[rows], None if saving is None else saving[rows]


def share_of_rated(year: GroupedYear, place: int) -> Singles:
    """(k,) what a usual panel at a place gives of its rated power, behind an inverter."""
    heat = 1.0 - _LOSS_PER_K * (year.cell_c[place] - _STANDARD_C)
    share = year.irradiance_w_per_m2[place] / _STANDARD_W_PER_M2 * heat * _EFFICIENCY_SHARE
    return np.asarray(np.maximum(share, 0.0), np.float32)


def _ends(limits: Input) -> tuple[float, float]:
    """The most volts and amperes of an input; where they are not told, somewhat more than what it works with."""
    most_v, most_a = limits.max_input_voltage_v, limits.max_short_circuit_current_a
    return (
        _OVER_AT_WORK * limits.tracking_max_v if most_v is None else most_v,
        _OVER_AT_WORK * limits.max_current_a if most_a is None else most_a,
    )


def _rank(offer: Offer) -> tuple[bool, bool]:
    return offer.advert is not None, offer.tricky
