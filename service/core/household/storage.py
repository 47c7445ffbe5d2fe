"""What does a small battery put aside, and what of that comes back to the home, quarter-hour by quarter-hour?

Two kinds of boxes, in general words. One reads the meter: it takes what would be sent out and gives what would be
bought. The other reads nothing: it lets the set's production pass up to a stated power and charges from what is above,
all of it where that power is nought; while the set gives no more than that power, it tops it up to a fixed power, so
that this is fed all night, wanted or not, until the store is empty.

Demand is uneven within the hour, so a step has both a surplus and a shortfall. Their expected values under the limits
of the box are the closed form of ``self_use`` again: E[min((P - D)+, C)] = E[min(P, D + C)] - E[min(P, D)], and
E[min((D - P)+, L)] = E[min(P + L, D)] - E[min(P, D)]. The level of the store is stepped by these expected values, in
each step standby first, then giving, then charging: what is charged can be given in the next step. See
``stored_year`` for what that leaves out.
"""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from service.core.household.self_use import K_OWN_HOURS, k_of
from service.core.model.facts import Household
from service.core.model.hours import Floats

STEPS_AN_HOUR = 4
_A_SPELL = 6
_KWH_PER_W_STEP = 1.0 / (1000.0 * STEPS_AN_HOUR)

PowerOf = Callable[[Floats], Floats]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Beside:
    """What the box stands beside: powers in W on the a.c. side of the set, arrays of shape (n,).

    Attributes:
        produced_w: what the set gives.
        beyond_w: what it could give above the limit of its inverter; only a box before the inverter can take it.
        charge_limit_w, discharge_limit_w: what the box takes and gives at most, counted on the a.c. side.
        used: expected power used at home of so much that reaches it, E[min(P, demand)].
        left: what of it may leave the set, used or sent out; the same power where sending out has no limit.
        alone: used and sent out of ``produced_w``, where that was reckoned before.
    """

    produced_w: Floats
    beyond_w: Floats
    charge_limit_w: Floats
    discharge_limit_w: Floats
    used: PowerOf
    left: PowerOf
    alone: tuple[Floats, Floats] | None = None

    def shared(self, power_w: Floats) -> tuple[Floats, Floats]:
        """Used at home and sent out, of so much that reaches the home."""
        if self.alone is not None and power_w is self.produced_w:
            return self.alone
        used = self.used(power_w)
        return used, np.asarray(np.maximum(self.left(power_w) - used, 0.0))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Plan:
    """What the box does in each hour while the store lets it, in W on the a.c. side of the set, shape (n,).

    ``chargeable_w`` is what it takes while there is room, ``beyond_w`` of that from above the inverter's limit, and
    ``over_limit_w`` what it would take but for its charge limit; ``wanted_w`` what it gives while there is charge.
    Used at home and sent out: without the box (``used_w``, ``sent_w``), while it charges, and what comes on top while
    it gives.
    """

    chargeable_w: Floats
    beyond_w: Floats
    over_limit_w: Floats
    wanted_w: Floats
    used_w: Floats
    sent_w: Floats
    used_charging_w: Floats
    sent_charging_w: Floats
    used_given_w: Floats
    sent_given_w: Floats


def following(beside: Beside) -> Plan:
    """The plan of a box that reads the meter, at once and without error: all that it gives is used at home."""
    produced = beside.produced_w
    used, sent = beside.shared(produced)
    beyond = np.minimum(beside.beyond_w, beside.charge_limit_w)
    granted = np.minimum(produced, beside.charge_limit_w - beyond)
    rest = produced - granted
    used_of_rest, sent_of_rest = beside.shared(rest)
    from_surplus = np.maximum(granted + used_of_rest - used, 0.0)
    wanted = np.maximum(beside.used(produced + beside.discharge_limit_w) - used, 0.0)
    return Plan(
        chargeable_w=beyond + from_surplus,
        beyond_w=beyond,
        over_limit_w=np.maximum(sent + beside.beyond_w - beyond - from_surplus, 0.0),
        wanted_w=wanted,
        used_w=used,
        sent_w=sent,
        used_charging_w=used,
        sent_charging_w=np.minimum(sent_of_rest, sent),
        used_given_w=wanted,
        sent_given_w=np.zeros_like(used),
    )


def feeding(beside: Beside, *, feed_w: float, charge_above_w: float) -> Plan:
    """The plan of a box that reads nothing.

    Args:
        beside: the set and the home.
        feed_w: what reaches the home all night, as long as the store lasts.
        charge_above_w: production up to this passes on; what is above charges.

    It knows nothing of the demand: what it takes by day may have been wanted then, and what it gives may be sent out.
    """
    produced = beside.produced_w
    in_all = produced + beside.beyond_w
    above = np.maximum(in_all - charge_above_w, 0.0)
    chargeable = np.minimum(above, beside.charge_limit_w)
    passing = np.minimum(in_all - chargeable, produced)
    resting = (in_all <= charge_above_w) | (in_all <= 0.0)
    wanted = np.where(resting, np.clip(feed_w - produced, 0.0, beside.discharge_limit_w), 0.0)
    used, sent = beside.shared(produced)
    used_passing, sent_passing = beside.shared(passing)
    used_fed, sent_fed = beside.shared(produced + wanted)
    return Plan(
        chargeable_w=chargeable,
        beyond_w=np.minimum(chargeable, beside.beyond_w),
        over_limit_w=above - chargeable,
        wanted_w=wanted,
        used_w=used,
        sent_w=sent,
        used_charging_w=used_passing,
        sent_charging_w=sent_passing,
        used_given_w=np.maximum(used_fed - used, 0.0),
        sent_given_w=np.maximum(sent_fed - sent, 0.0),
    )


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class WithBox:
    """What becomes of each hour with the box, in W, shape (n,): used at home, sent out, kept from being clipped."""

    used_w: Floats
    sent_w: Floats
    unclipped_w: Floats


def carried_out(plan: Plan, charging_share: Floats, giving_share: Floats) -> WithBox:
    """The plan as far as the store lets it: in so much of each hour it charges, and of its wish it gives so much."""
    return WithBox(
        used_w=plan.used_w + charging_share * (plan.used_charging_w - plan.used_w) + giving_share * plan.used_given_w,
        sent_w=plan.sent_w + charging_share * (plan.sent_charging_w - plan.sent_w) + giving_share * plan.sent_given_w,
        unclipped_w=charging_share * plan.beyond_w,
    )


def spell_swing(household: Household) -> float:
    """How far the home's demand swings from its profile over hours, 0 to 1: what an averaged profile hides of it.

    The closed form counts all unevenness as if it changed within minutes. That is so where the hours are the home's
    own; of a profile most of it is one evening against another, which a store of an hour or two does not even out.
    The square root of 1.2 x the hidden variance between hours (0.9 for a profile by month, kind of day and hour; 1
    for coarser ones) brings the mean error against the minutes of a home to about nought; 1.2 is fitted there, and its
    scatter is told in ``worth.storage``.

    >>> home = Household(demand_kwh_per_year=0, persons=1, always_on_w=0, at_home=None, machines=(),
    ...                  values_w=(100.0,) * 8760, stay_years=None)
    >>> spell_swing(home)
    0.0
    """
    between = (1.0 + 1.0 / k_of(household)) / (1.0 + 1.0 / K_OWN_HOURS) - 1.0
    return float(min(np.sqrt(1.2 * max(between, 0.0)), 1.0))


def in_spells(charge_w: Floats, wanted_w: Floats, swing: float) -> tuple[Floats, Floats]:
    """Three years, shape (3, hours), whose means are the ones given; one where nothing swings.

    By spells of six hours the home wants more and leaves less, is as usual, or wants less and leaves more.
    """
    if swing == 0.0:
        return charge_w[np.newaxis], wanted_w[np.newaxis]
    factors = 1.0 + swing * np.array([-1.0, 0.0, 1.0])
    spell = np.arange(charge_w.size) // _A_SPELL
    at = (2 * spell + np.arange(3)[:, np.newaxis]) % 3
    return charge_w * factors[::-1][at], wanted_w * factors[at]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class StoredYear:
    """What passes the terminals of the store: hourly means of its steps in W, shape (cases, hours).

    ``level_kwh``: (cases, hours + 1), at the beginning of each hour and at the end of the year. Over an hour it rises
    by charged x root of the round trip, and falls by given / root of the round trip and by standby.
    ``standby_w`` comes out of the store; what it does not hold comes from the mains (``standby_mains_w``).
    """

    charged_w: Floats
    given_w: Floats
    standby_w: Floats
    standby_mains_w: Floats
    level_kwh: Floats


def stored_year(
    charge_w: Floats, wanted_w: Floats, usable_kwh: Floats, round_trip_share: float, standby_w: float
) -> StoredYear:
    """Step the store through the year; it begins and ends at the same level.

    Args:
        charge_w: (cases, hours) power at its terminals while there is room.
        wanted_w: (cases, hours) power at its terminals while there is charge.
        usable_kwh: (cases,) what the store holds between empty and full. Of none there is no box, and no standby.
        round_trip_share: energy given over energy charged, > 0; half of the loss (as a factor) on either way.
        standby_w: what the box itself draws, always.

    Each step maps the level x to min(max(x - a, 0) + b, usable), a clamp; clamps one after the other are one clamp. So
    the year is joined pair by pair, all pairs at once, and no step is taken in a loop of its own.

    Not modelled: that a store of which only the expected level is stepped is never full on one Tuesday and empty on
    another, which flatters (``in_spells`` takes most of that back); losses that grow with power or cold; a charge that
    tapers off near full or stops in frost; self-discharge beyond the standby.
    """
    one_way = float(np.sqrt(round_trip_share))
    standby = standby_w * _KWH_PER_W_STEP
    level_kwh = np.empty((charge_w.shape[0], charge_w.shape[1] + 1))
    given, charged, slept = (np.empty_like(charge_w) for _ in range(3))
    for case, room in enumerate(usable_kwh.tolist()):  # one at a time: its arrays stay in the cache of the processor
        into = charge_w[case] * (one_way * _KWH_PER_W_STEP)
        out = wanted_w[case] * (_KWH_PER_W_STEP / one_way)
        level_kwh[case] = _levels(into, out + standby, room)
        _steps(level_kwh[case, :-1], (into, out), standby, room, (given[case], charged[case], slept[case]))
    slept *= 1000.0
    charged *= 1000.0 / one_way
    given *= 1000.0 * one_way
    there = np.where(usable_kwh > 0.0, standby_w, 0.0)[:, np.newaxis]
    return StoredYear(
        charged_w=charged,
        given_w=given,
        standby_w=slept,
        standby_mains_w=np.maximum(there - slept, 0.0),
        level_kwh=level_kwh,
    )


def _steps(
    began_kwh: Floats, offered: tuple[Floats, Floats], standby: float, room: float, sums: tuple[Floats, Floats, Floats]
) -> None:
    """The steps of every hour of one case, all hours at once, from the level at which each began.

    ``offered``: into the store and out of it, kWh a step. ``sums``: given, charged and slept, written to. Summed are
    the levels after each part of a step, whose differences are what was given and charged; the balance of the hour is
    what was slept.
    """
    (into, out), (given, charged, slept) = offered, sums
    level = began_kwh.copy()
    rested, after_giving, after_charging = (np.zeros_like(level) for _ in range(3))
    for _ in range(STEPS_AN_HOUR):  # in place: half of the time went into new arrays
        np.maximum(np.subtract(level, standby, out=level), 0.0, out=level)
        rested += level
        np.maximum(np.subtract(level, out, out=level), 0.0, out=level)
        after_giving += level
        np.minimum(np.add(level, into, out=level), room, out=level)
        after_charging += level
    np.subtract(rested, after_giving, out=given)
    np.subtract(after_charging, after_giving, out=charged)
    np.subtract(began_kwh, level, out=slept)
    slept += charged
    slept -= given
    for flow in sums:  # sums of levels leave a rounding of 1e-15 kWh
        np.maximum(flow, 0.0, out=flow)


@dataclass(frozen=True, slots=True, eq=False)
class _Clamps:
    """Maps x to clip(x + shift, low, high), one after the other; arrays of shape (n,)."""

    shift: Floats
    low: Floats
    high: Floats

    def times(self, count: int) -> "_Clamps":
        """Each so many times: its ends creep along with the shift, but for the one that it pushes against."""
        creep = (count - 1) * self.shift
        low = np.minimum(self.low + np.maximum(creep, 0.0), self.high)
        return _Clamps(count * self.shift, low, np.maximum(self.high + np.minimum(creep, 0.0, out=creep), self.low))

    def joined_by_pairs(self) -> "_Clamps":
        """Each at an even place and the one after it, as one; of an odd number the last stays as it is."""
        shift, low, high = (one[::2].copy() for one in (self.shift, self.low, self.high))
        second = _Clamps(self.shift[1::2], self.low[1::2], self.high[1::2])
        pairs = second.shift.size
        shift[:pairs] += second.shift
        for ends in (low[:pairs], high[:pairs]):
            second.put(ends)
        return _Clamps(shift, low, high)

    def put(self, levels: Floats) -> None:
        """Each level after its clamp, in place."""
        levels += self.shift
        np.minimum(np.maximum(levels, self.low, out=levels), self.high, out=levels)


# So many clamps are faster one by one than in pairs.
_FEW = 48


def _levels(into: Floats, out: Floats, room: float) -> Floats:
    """(hours + 1,) level at the beginning of each hour and at the end, kWh; the year ends as it begins."""
    step = _Clamps(into - out, np.minimum(into, room), np.full_like(into, room))
    began = _began(step.times(STEPS_AN_HOUR))
    return np.concatenate([began, began[:1]])


def _began(clamps: _Clamps) -> Floats:
    """The levels before each of the clamps: pairs are joined until few are left, then taken apart again."""
    count = clamps.shift.size
    if count <= _FEW:
        return _one_by_one(clamps)
    level = np.empty(count)
    level[::2] = _began(clamps.joined_by_pairs())
    level[1::2] = level[: count // 2 * 2 : 2]
    _Clamps(*(one[: count // 2 * 2 : 2] for one in (clamps.shift, clamps.low, clamps.high))).put(level[1::2])
    return level


def _one_by_one(clamps: _Clamps) -> Floats:
    """The same in a plain loop.

    The clamp of the whole year is at rest at its upper end if it shifts upwards, else at its lower: so the year begins
    at the level at which it ends.
    """
    each = list(zip(clamps.shift.tolist(), clamps.low.tolist(), clamps.high.tolist(), strict=True))
    rise, least, most = each[0]
    for shift, low, high in each[1:]:
        rise += shift
        least, most = (min(max(end + shift, low), high) for end in (least, most))
    level = most if rise >= 0.0 else least
    began = []
    for shift, low, high in each:
        began.append(level)
        level = min(max(level + shift, low), high)
    return np.array(began)
