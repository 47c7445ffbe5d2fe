"""Which fixed powers suit a box that reads no meter, or is it better left off?

A few settings are tried and the one with the most use at home is taken. Leaving the box off is among them, so that a
setting that nobody gave never lowers self-use.
"""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from functools import lru_cache
from math import floor

import numpy as np

from service.core.household import Plan
from service.core.model.facts import Setup
from service.core.model.hours import Floats
from service.core.model.storage import Storage
from service.core.worth.box import Box, Done
from service.core.worth.use import UseAtHome

# A threshold that no set of this size reaches: the box never charges. The greatest that a request may name.
NEVER_W = 5000.0

# What is tried. Of the mean demand that the box finds while the sun shines: how much production passes on before it
# charges. Of the always-on power, and of that mean: what it feeds by night. Our choice: on a grid of 63 settings for
# homes of 1200 to 9000 kWh a year with 1 to 3 kWh of storage, the best lay among these or within some 5 kWh.
_PASSING_SHARES = (0.3, 0.6)
_MORE_BY_NIGHT, _LESS_BY_NIGHT, _MOST_BY_NIGHT = 1.5, 0.2, 0.4

# What a setting has to bring before it is one: below, the box does not earn its plug. Rounding must not decide.
_WORTH_SETTING_KWH = 0.5


@dataclass(frozen=True, slots=True, kw_only=True)
class FeedSetting:
    """A fixed power by night, what passes on by day, and what that adds to the use at home in the first year."""

    night_feed_w: float
    charge_above_w: float
    more_self_used_kwh: float


@dataclass(frozen=True, slots=True, kw_only=True)
class ChosenFeed:
    """The battery at the setting taken, and all that were tried, most use at home first.

    ``ran``: the box, its plan and its first year of even demand, as reckoned; None where it is left off.
    """

    storage: Storage
    tried: tuple[FeedSetting, ...]
    ran: tuple[Box, Plan, Done] | None = None


def left_off(storage: Storage) -> bool:
    """Does a box without a reader do nothing? One that never feeds or never charges is left off, and draws nothing."""
    if storage.meter_reader or storage.night_feed_w is None:
        return False
    return storage.night_feed_w <= 0.0 or (storage.charge_above_w or 0.0) >= NEVER_W


def chosen_feed(
    use: UseAtHome,
    setup: Setup,
    *,
    feed_open: bool = True,
    threshold_open: bool = True,
    box_dc_w: Floats | None = None,
) -> ChosenFeed | None:
    """The setting with the most use at home; None without such a battery, or where nothing is left to choose.

    Args:
        use: use at home without the battery.
        setup: with ``storage``; a power that is not open stays as it is there.
        feed_open: may the fixed power by night be chosen?
        threshold_open: may what passes on by day?
        box_dc_w: (8760,) what the panels give through the inputs of the box, where these have limits of their own.

    The first year of a new box and of even demand decides, as such a box does not feel when the home's evenings differ.
    """
    storage = setup.storage
    if storage is None or storage.meter_reader or not (feed_open or threshold_open):
        return None
    said_w, threshold_w = storage.night_feed_w or 0.0, storage.charge_above_w or 0.0
    if (not feed_open and said_w <= 0.0) or (not threshold_open and threshold_w >= NEVER_W):
        return None  # left off by what the caller said
    tries = _Tries(use=use, setup=setup, storage=storage, box_dc_w=box_dc_w)
    tried = [_off(storage, feed_open=feed_open, threshold_open=threshold_open)]
    for feed_w in tries.feeds() if feed_open else [said_w]:
        thresholds = [threshold_w]
        if threshold_open and len(tried) == 1:
            thresholds = tries.thresholds(feed_w)
        elif threshold_open:  # another power by night at the threshold that was best with the first
            thresholds = [max(tried[1:], key=_gain).charge_above_w]
        before = max(tried, key=_gain)
        tried += [tries.of(feed_w, above_w) for above_w in thresholds]
        if max(tried, key=_gain) is before:  # more by night brought nothing
            break
    best = sorted(tried, key=_gain, reverse=True)
    if best[0].more_self_used_kwh < _WORTH_SETTING_KWH:
        best = [tried[0], *(one for one in best if one is not tried[0])]
    taken = replace(storage, night_feed_w=best[0].night_feed_w, charge_above_w=best[0].charge_above_w)
    return ChosenFeed(storage=taken, tried=tuple(best), ran=tries.best if tries.setting == best[0] else None)


def _gain(setting: FeedSetting) -> float:
    return setting.more_self_used_kwh


def _distinct(watts: Iterable[float]) -> list[float]:
    """Whole watts, each once, none of nought."""
    return list(dict.fromkeys(float(floor(one)) for one in watts if one >= 1.0))


def _off(storage: Storage, *, feed_open: bool, threshold_open: bool) -> FeedSetting:
    """Left off, by what is open: no power by night, else a threshold that nothing reaches."""
    if feed_open:
        above_w = 0.0 if threshold_open else storage.charge_above_w or 0.0
        return FeedSetting(night_feed_w=0.0, charge_above_w=above_w, more_self_used_kwh=0.0)
    return FeedSetting(night_feed_w=storage.night_feed_w or 0.0, charge_above_w=NEVER_W, more_self_used_kwh=0.0)


@dataclass(slots=True, kw_only=True)
class _Tries:
    """Settings of one box, each run through a year; ``best``: box, plan and that year of the best ``setting``."""

    use: UseAtHome
    setup: Setup
    storage: Storage
    box_dc_w: Floats | None
    box: Box | None = None
    alone: tuple[Floats, Floats] | None = None
    setting: FeedSetting | None = None
    best: tuple[Box, Plan, Done] | None = None

    def feeds(self) -> list[float]:
        """Powers by night, least first."""
        always_on_w, need_w = float(self.use.meter.steps.always_on_w), self._need_w()
        wished = (always_on_w, max(_MORE_BY_NIGHT * always_on_w, _LESS_BY_NIGHT * need_w), _MOST_BY_NIGHT * need_w)
        return sorted(_distinct(min(one, self.storage.discharge_limit_w) for one in wished))

    def thresholds(self, feed_w: float) -> list[float]:
        """As much as by night, and shares of what the home draws by day."""
        need_w = self._need_w()
        return _distinct((feed_w, *(share * need_w for share in _PASSING_SHARES)))

    def _need_w(self) -> float:
        """The mean demand that the box finds while the set gives something."""
        meter = self.use.meter
        sun = meter.energy.ac_w > 0.0
        return float(np.mean((meter.seen_w - meter.other_used_w)[sun])) if sun.any() else 0.0

    def of(self, feed_w: float, threshold_w: float) -> FeedSetting:
        storage = replace(self.storage, night_feed_w=feed_w, charge_above_w=threshold_w)
        if self.box is None or self.box.storage.night_feed_w != feed_w:
            box = Box.of(self.use.meter, self.setup, storage, self.box_dc_w)
            # the set's, reckoned once
            self.box = replace(box, at=lru_cache(maxsize=1)(box.at) if self.box is None else self.box.at)
        box = replace(self.box, storage=storage, alone=self.alone)
        plan = box.plan(1.0)
        self.alone = plan.used_w, plan.sent_w  # the set's, whatever the setting
        year = box.first_year(plan)
        more = float(year[0].used_w.sum()) / 1000.0 - float(self.use.cases.middle.self_used_kwh.sum())
        setting = FeedSetting(night_feed_w=feed_w, charge_above_w=threshold_w, more_self_used_kwh=more)
        if self.setting is None or more > self.setting.more_self_used_kwh:
            self.setting, self.best = setting, (box, plan, year)
        return setting
