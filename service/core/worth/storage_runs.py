"""Which years does a battery run through, so that what it changes is known at the ends of each cause?"""

from dataclasses import dataclass, replace
from math import ceil

import numpy as np

from service.core.model.band import Z_90, Band
from service.core.model.facts import Setup
from service.core.model.hours import Floats
from service.core.model.storage import Storage
from service.core.payback import HomeYear, shifted_use
from service.core.worth.bands import band_of_steps, beside_at_least
from service.core.worth.box import Box, BoxYear
from service.core.worth.feed import ChosenFeed
from service.core.worth.use import UseAtHome

# So much more of it used at home is all of it, within what is given and needed.
_ALL = 1e9


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Runs:
    """The middle year, and years of even demand: new, at the age of the last year kept, and at the ends of each cause.

    ``less`` and ``more`` production, ``fewer`` and ``further`` kWh of it used at home in the moment. What age and
    these change is taken from the even years: the home's spells move that little, and cost thrice. ``idle``: the set
    through the inputs of the box, were nothing stored; what is gained beyond it is the store's own. ``follows``: the
    box reads the meter, so that a store takes nothing off what is used.
    """

    middle: BoxYear
    new: BoxYear
    old: BoxYear
    less: BoxYear
    more: BoxYear
    fewer: BoxYear
    further: BoxYear
    idle: HomeYear
    follows: bool
    limited: bool
    yearly_share: float
    oldest_share: float
    inputs_lost_kwh: float

    @classmethod
    def of(
        cls,
        use: UseAtHome,
        setup: Setup,
        storage: Storage,
        ends: tuple[float, float],
        kept: float,
        box_dc_w: Floats | None,
        chosen: ChosenFeed | None,
    ) -> "Runs":
        """Of a box that stands in ``setup`` and runs as ``storage``; the arguments as those of ``storage_beside``."""
        if chosen is None or chosen.ran is None:
            box = Box.of(use.meter, setup, storage, box_dc_w)
            plan = box.plan(1.0)
            first = box.first_year(plan)
        else:
            box, plan, first = chosen.ran
        less, more = (box.plan(scale) for scale in ends)
        yearly = 1.0 - storage.ageing_share_per_year
        oldest = yearly ** max(ceil(kept) - 1, 0)
        new = box.at_the_meter(plan, first)
        used = used_kwh(use.cases.middle)
        cases = (use.cases.less_used, use.cases.more_used)
        few, many = box.plans_of_use(plan, [used_kwh(one) / used if used > 0.0 else 1.0 for one in cases])
        old, poor, good = box.years([(plan, oldest), (less, 1.0), (more, 1.0)])
        fewer, further = box.years_of_use(plan, first, (few, many))
        if storage.usable_kwh <= 0.0:  # no battery: to the last digit what the home has without it
            fewer, further = (replace(new, home=home) for home in cases)
        middle = box.years([(plan, 1.0)], spells=True)[0] if box.feels_spells else new
        return cls(
            middle=middle,
            new=new,
            old=old,
            less=poor,
            more=good,
            fewer=fewer,
            further=further,
            idle=use.cases.middle if box_dc_w is None else use.meter.home(plan.used_w, plan.used_w + plan.sent_w),
            follows=storage.meter_reader,
            limited=setup.inverter.export_limit_w is not None,
            yearly_share=yearly,
            oldest_share=oldest,
            inputs_lost_kwh=box.inputs_lost_kwh(),
        )

    def aged_share(self, years: int) -> Floats:
        """(years,) how far the battery has gone from new, 0, to the age of the last year kept, 1."""
        lost = 1.0 - self.yearly_share ** np.arange(years, dtype=np.float64)
        return np.clip(lost / (1.0 - self.oldest_share), 0.0, 1.0) if self.oldest_share < 1.0 else np.zeros(years)

    def most(self) -> HomeYear:
        """The year of more production with all that reaches the home used there, as far as it is needed."""
        return shifted_use(self.more.home, _ALL)

    def self_used(self, use: UseAtHome, sd_share: float) -> tuple[Band, Band]:
        """Used at home with the box, and how much more that is than without, each with its band in kWh.

        Each cause moves both by what a year run with it tells; the scatter of what a box gains is a cause of its own.
        All together never come to more than the set gives and the home needs, nor to less than without a box that
        follows the meter, but for narrower inputs.
        """
        cases = use.cases
        new, middle = used_kwh(self.new.home), used_kwh(self.middle.home)
        ends = [used_kwh(one.home) - new for one in (self.less, self.more, self.fewer, self.further)]
        base = used_kwh(cases.middle)
        bases = [used_kwh(one) for one in (cases.less_energy, cases.more_energy, cases.less_used, cases.more_used)]
        less, more, fewer, further = (middle + end for end in ends)
        gain = middle - base
        gained = [gain + end - (one - base) for end, one in zip(ends, bases, strict=True)]
        step = Z_90 * sd_share * abs(middle - used_kwh(self.idle))
        # what a limit on sending out throws away less
        freed = max(_given_kwh(self.further.home) - _given_kwh(self.new.home), 0.0) if self.limited else 0.0
        most = used_kwh(self.most()) + freed
        none = min(less, fewer, 0.0)  # each cause alone may leave next to nothing, all together no less
        used = band_of_steps(middle, [(less, more), (fewer, further), (middle - step, middle + step)], most, none)
        gains = [(gained[0], gained[1]), (gained[2], gained[3]), (gain - step, gain + step)]
        if not self.follows:
            return used, band_of_steps(gain, gains, most - min(bases))
        narrow = min(used_kwh(self.idle) - base, 0.0)
        least = min(narrow, gain, *(gained if narrow else ()))
        return beside_at_least(used, use.self_used_kwh, least), band_of_steps(gain, gains, most - min(bases), least)


def used_kwh(home: HomeYear) -> float:
    """Used at home in the year."""
    return float(home.self_used_kwh.sum())


def _given_kwh(home: HomeYear) -> float:
    return float((home.self_used_kwh + home.exported_kwh).sum())
