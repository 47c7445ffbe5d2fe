"""In which layouts are sets looked at, at the places of one home?

Of all ways to stand panels at places those that a home gains most by, reckoned with usual panels on the inverter's
power; of two kinds with equal ones, and with either of them the stronger. Of one kind two plain ways are added: the
sunniest places full, and one panel at each in turn. A rear that gets light adds to the current: for panels that fit in
none of these, those places are kept that have less of it.
"""

from collections.abc import Iterator, Sequence

import numpy as np

from service.core.compatibility.current import rear_light_share
from service.core.model.hours import Floats
from service.core.shortlist.among import first_alike
from service.core.shortlist.fit import AtHome
from service.core.shortlist.glance import share_of_rated
from service.core.shortlist.grouped import Singles, some_at_a_time
from service.core.shortlist.layout import Groups, Layout, OnInput, layouts, stands_of
from service.core.shortlist.offer import InverterKind

# Rated watts of a set's kinds, by how many there are.
_USUAL_W = {1: ((410.0,),), 2: ((410.0, 410.0), (530.0, 250.0), (250.0, 530.0))}
# Ways that give so much of the best are looked at, and no more of them than this, by the kinds. Judgement.
_NEARLY_BEST, _MOST = 0.95, {1: 2, 2: 2}

Stands = tuple[tuple[Groups, ...], tuple[Groups, ...]]


class Hanging:
    """Layouts at a home's places, each with room for some panels.

    Attributes:
        sunniest: the places, the sunniest first.
        rooms: for how many panels these have room.
    """

    def __init__(self, home: AtHome, rooms: Sequence[int], *, by_money: bool) -> None:
        """``rooms``: in the order of the request; ``by_money``: is a place worth what it saves, or its yield?"""
        self.sunniest = home.year.sunniest_first()
        self.rooms = tuple(rooms[place] for place in self.sunniest)
        self._home, self._by_money = home, by_money
        self._shares: Singles | None = None
        self._inputs: dict[str, tuple[int, ...]] = {}
        self._found: dict[tuple[object, ...], list[Layout]] = {}

    def layouts(self, counts: tuple[int, ...], inverter: InverterKind, *, spare: bool = False) -> list[Layout]:
        """Those of a set that may be best; or those that are left over.

        Args:
            counts: panels of each kind.
            inverter: on whose inputs they hang.
            spare: of one kind, those at places that give less, to the rear too.
        """
        if spare and len(self.rooms) == 1:
            return []
        key = counts, inverter.key, spare
        if key not in self._found:
            inputs = tuple(first_alike(inverter))
            stands = self._stands(counts, len(inputs), inverter.inverter.ac_power_w)[spare]
            self._found[key] = [self._here(layout) for layout in layouts(stands, inputs)]
        return self._found[key]

    def with_fewer_inputs(self, counts: tuple[int, ...], inverter: InverterKind) -> list[Layout]:
        """Those beside ``layouts`` for panels of which one alone has too few volts for an input.

        Args:
            counts: panels of each kind.
            inverter: on whose inputs they hang; as few of them as there may be, with what stands best on so few.
        """
        inputs = tuple(first_alike(inverter))
        if len(inputs) == 1 or max(counts) == 1:
            return []
        key = counts, inverter.key, "fewer inputs"
        if key not in self._found:
            ac_w, known = inverter.inverter.ac_power_w, set(self.layouts(counts, inverter))
            some = range(len(counts), len(inputs) + 1)
            stands = dict.fromkeys(one for used in some for one in self._stands(counts, used, ac_w)[0])
            every = [self._here(layout) for layout in layouts(tuple(stands), inputs, every=True)]
            self._found[key] = [layout for layout in every if layout not in known]
        return self._found[key]

    def _here(self, layout: Layout) -> Layout:
        """With the places' numbers in the request, not in the order of their light."""
        if len(self.rooms) == 1:
            return layout
        return tuple(OnInput(on.kind, self.sunniest[on.place], on.count, on.joined, on.index) for on in layout)

    def all_layouts(self, counts: tuple[int, ...], inverter: InverterKind) -> list[Layout]:
        """Those that may be best, and behind them those that are left over."""
        return [*self.layouts(counts, inverter), *self.layouts(counts, inverter, spare=True)]

    def _stands(self, counts: tuple[int, ...], inputs: int, ac_w: float) -> Stands:
        """Who stands where: the ways that promise most, and of one kind some others."""
        if len(self.rooms) == 1:
            all_here = tuple((kind, 0, count) for kind, count in enumerate(counts))
            return ((all_here,) if sum(counts) <= self.rooms[0] else ()), ()
        key = self._home.key, "stands", self.rooms, counts, inputs, ac_w, self._by_money
        found: Stands = self._home.kept.get(key, lambda: self._chosen(counts, inputs, ac_w))
        return found

    def _chosen(self, counts: tuple[int, ...], inputs: int, ac_w: float) -> Stands:
        able = [one for one in stands_of(counts, self.rooms) if len(one) <= inputs]
        first = set(self._plain(counts[0])) if len(counts) == 1 else set()
        for rated_w in _USUAL_W[len(counts)]:
            gains = self._gains(able, rated_w, ac_w)
            best = sorted(zip((-gains).tolist(), able, strict=True))[: _MOST[len(counts)]]
            first |= {one for gain, one in best if -gain >= _NEARLY_BEST * float(gains.max())}
        chosen = tuple(one for one in able if one in first)
        return chosen, tuple(self._darker_behind(able, chosen)) if len(counts) == 1 else ()

    def _darker_behind(self, able: Sequence[Groups], chosen: Sequence[Groups]) -> Iterator[Groups]:
        """All at one place, where less light reaches their rear than where all of them stand at one of those chosen."""
        setup = self._home.setup
        rear = [rear_light_share(setup.arrays[at], setup.site.ground_reflectance_share) for at in self.sunniest]
        least = min((rear[one[0][1]] for one in chosen if len(one) == 1), default=np.inf)
        yield from (one for one in able if len(one) == 1 and one not in chosen and rear[one[0][1]] < least)

    def _plain(self, panels: int) -> list[Groups]:
        """The first places full, and one panel at each in turn."""
        full = [place for place, room in enumerate(self.rooms) for _ in range(room)]
        turns = [place for turn in range(panels) for place, room in enumerate(self.rooms) if turn < room]
        return [
            tuple((0, place, slots[:panels].count(place)) for place in sorted(set(slots[:panels])))
            for slots in (full, turns)
        ]  # fmt: skip

    def _gains(self, stands: Sequence[Groups], rated_w: Sequence[float], ac_w: float) -> Floats:
        """What panels of such power bring, so standing, (m,): money where that is asked for, else kWh."""
        if self._shares is None:
            self._shares = np.stack([share_of_rated(self._home.year, place) for place in self.sunniest])
        watts = np.zeros((len(stands), len(self.rooms)), np.float32)
        for row, groups in enumerate(stands):
            for kind, place, count in groups:
                watts[row, place] += count * rated_w[kind]
        power: Singles = np.minimum(watts @ self._shares, np.float32(ac_w))
        year, saving = some_at_a_time(len(stands), lambda rows: self._home.year.sums(power[rows]))
        return saving if self._by_money and saving is not None else year
