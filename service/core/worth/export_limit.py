"""What is lost where only so much may be sent out?

A set with an export limit L gives min(P, demand + L) at every instant. Its expectation within the hour is the closed
form of self-use with the allowance on top, so that the loss is not flattered by hourly means either.
"""

from dataclasses import replace
from types import MappingProxyType

import numpy as np

from service.core.energy.days import day_kinds
from service.core.energy.result import EnergyYear
from service.core.household import k_of, with_allowance_w
from service.core.model.band import Band
from service.core.model.facts import Household, Setup
from service.core.model.hours import Floats, SkyYear
from service.core.payback import HomeYear


def limited_export(
    energy: EnergyYear, setup: Setup, demand_w: Floats, sky: SkyYear, other_w: Floats | None = None
) -> EnergyYear:
    """The year's energy with the inverter's export limit applied and counted as ``lost_kwh["export_limit"]``.

    Without a limit the year comes back as it was. The arrays' parts are cut alike; d.c. powers stay what the inputs
    would draw without the limit.

    Args:
        energy: the year without the limit.
        setup: inverter (``export_limit_w``), household (always-on power, kind of demand) and side of the equator.
        demand_w: (8760,) mean demand of each hour.
        sky: clock and light of the rows, for months and kinds of day.
        other_w: (8760,) of a plant on the roof, whose surplus takes up the limit first.
    """
    limit_w = setup.inverter.export_limit_w
    if limit_w is None:
        return energy

    def left(produced_w: Floats) -> Floats:
        return within_limit_w(produced_w, demand_w, setup.household, limit_w, other_w)

    cautious, hopeful = (float(left(energy.ac_at(end)).sum()) / 1000.0 for end in energy.light_ends())
    ac_w = left(energy.ac_w)
    before_kwh, after_kwh = float(energy.ac_w.sum()) / 1000.0, float(ac_w.sum()) / 1000.0
    kept_share = after_kwh / before_kwh if before_kwh > 0.0 else 1.0
    months = np.bincount(sky.calendar.month - 1, weights=ac_w, minlength=12) / 1000.0
    lost_kwh = energy.lost_kwh.get("export_limit", 0.0) + before_kwh - after_kwh
    return replace(
        energy,
        year_kwh=Band(min(cautious, after_kwh), after_kwh, max(hopeful, after_kwh)),
        months_kwh=tuple(float(kwh) for kwh in months),
        day_kinds=day_kinds(ac_w, sky, south=setup.site.latitude_deg < 0),
        lost_kwh=MappingProxyType({**energy.lost_kwh, "export_limit": lost_kwh}),
        arrays=tuple(replace(array, year_kwh=array.year_kwh * kept_share) for array in energy.arrays),
        ac_w=ac_w,
        before_export_limit=energy,
    )


def within_limit_w(
    produced_w: Floats, demand_w: Floats, household: Household, limit_w: float, other_w: Floats | None = None
) -> Floats:
    """What is left of production where at most ``limit_w`` may be sent out, (n,) in W; all of it is (n,).

    Beside a plant on the roof the limit holds for both, and the plant comes first: the set gets what both together
    would have left, less what the plant alone has.
    """
    always_on_w, k = household.always_on_w, k_of(household)
    if other_w is None:
        return with_allowance_w(produced_w, demand_w, always_on_w, k, limit_w)
    both = with_allowance_w(produced_w + other_w, demand_w, always_on_w, k, limit_w)
    alone = with_allowance_w(other_w, demand_w, always_on_w, k, limit_w)
    return np.asarray(np.clip(both - alone, 0.0, produced_w), dtype=np.float64)


def sent_out_as(home: HomeYear, free: HomeYear, limited: HomeYear) -> HomeYear:
    """``home`` without a limit, its surplus cut as from ``free`` to ``limited``, cell by cell."""
    before = free.exported_kwh
    share = np.divide(limited.exported_kwh, before, out=np.ones_like(before), where=before > 0.0)
    at = tuple(None if one is None else replace(one, exported=one.exported * share) for one in home.at)
    return replace(home, exported_kwh=home.exported_kwh * share, at=at)
