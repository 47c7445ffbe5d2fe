"""What is paid for sets, delivered: of many offers of panels at once, and of one set by all its offers?"""

from collections.abc import Iterable, Mapping, Sequence

import numpy as np

from service.core.model.hours import Floats
from service.core.shortlist.candidate import all_of
from service.core.shortlist.offer import Bought, Offer, OwnCosts, delivery_of


class Paid:
    """The outlays of sets of these offers of panels.

    ``apart``: by the count, (panels,) what so many of each offer cost, delivered for itself; infinite where they are
    not to be had.
    """

    def __init__(self, costs: OwnCosts, panels: Sequence[Offer], counts: Iterable[int]) -> None:
        """``counts``: for how many panels there is room."""
        self.costs, self._panels = costs, panels
        self._on_trips = [row for row, one in enumerate(panels) if one.trip is not None]
        self.apart: Mapping[int, Floats] = self._apart(counts)

    def own(self, inverter: Offer) -> float:
        """An inverter for itself, and what comes with every set."""
        return self._goods(Bought(inverter)) + self._fetched(inverter) + self.costs.every_set

    def with_inverter(self, inverter: Offer, count: int) -> Floats:
        """(panels,) the outlay of so many with an inverter: who is fetched on the inverter's trip comes cheaper."""
        outlay = self.apart[count] + self.own(inverter)
        for row in () if inverter.trip is None else self._on_trips:
            one = self._panels[row]
            if one.trip == inverter.trip and np.isfinite(outlay[row]):
                outlay[row] = self.outlay((Bought(one, count),), inverter)
        return outlay

    def of_two(
        self, pairs: Sequence[tuple[Offer, Offer]], counts: tuple[int, int], inverter: Offer, apart: Floats
    ) -> Floats:
        """The outlays of pairs of offers, where ``apart`` is what each would be if all were fetched apart."""
        outlay = apart.copy()
        for row, pair in enumerate(pairs if self._on_trips else ()):
            trips = [one.trip for one in (*pair, inverter) if one.trip is not None]
            if len(trips) != len(set(trips)):
                outlay[row] = self.outlay((Bought(pair[0], counts[0]), Bought(pair[1], counts[1])), inverter)
        return outlay

    def outlay(self, panels: tuple[Bought, ...], inverter: Offer) -> float:
        """What is paid for a set, delivered."""
        bought = all_of(panels, inverter)
        delivery = delivery_of(bought, self.costs.per_km).cost(self.costs.per_km)
        return sum(self._goods(one) for one in bought) + delivery + self.costs.every_set

    def _apart(self, counts: Iterable[int]) -> dict[int, Floats]:
        panels = self._panels
        fetched = np.array([self._fetched(one) for one in panels])
        each = np.array([one.each for one in panels])
        lot = np.array([np.nan if one.lot is None else one.lot for one in panels])
        least, most = (np.array([getattr(one, name) for one in panels], np.int64) for name in ("least", "most"))
        again = 1.0 + self.costs.faulty_share * np.array([one.second_hand for one in panels], bool)
        found = {}
        for count in counts:
            goods = np.where(np.isnan(lot), each * np.maximum(least, count), lot)
            found[count] = np.where(count <= most, goods * again + fetched, np.inf)
        return found

    def _fetched(self, one: Offer) -> float:
        """What an offer costs to get, for itself."""
        if one.advert is None or one.km is None:
            return 0.0 if one.advert is None else one.freight or 0.0
        if one.freight is None:
            return 2.0 * one.km * self.costs.per_km
        return delivery_of([Bought(one)], self.costs.per_km).cost(self.costs.per_km)

    def _goods(self, one: Bought) -> float:
        """Panels that are expected to prove faulty are bought once more."""
        at_risk = one.offer.panel is not None and one.offer.second_hand
        return one.goods * (1.0 + self.costs.faulty_share * at_risk)
