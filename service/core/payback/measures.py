"""When is it paid back, and what is it worth today?

Engineering economics as in Duffie & Beckman, Solar Engineering of Thermal Processes, ch. 11, and Short, Packey &
Holt, NREL/TP-462-5173 (1995) (both from memory); checked against numpy-financial. ``flows`` start with year 0.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate
from math import isfinite

import numpy as np

from service.core.model.hours import Floats

# A running sum this close to nought, as a share of the largest flow, is nought: 82.1 x 10 is not 821 in binary.
_ROUNDING = 1e-10


@dataclass(frozen=True, slots=True)
class Crossing:
    """When the running sum first reaches nought, and when it does so for good; None for never within the years."""

    first: float | None
    lasting: float | None


def simple_payback_years(outlay: float, first_year_net: float) -> float | None:
    """Outlay over the first year's saving less running cost; 0 where nothing is to be paid, None without a saving.

    >>> round(simple_payback_years(520.0, 380 * 0.32), 4)
    4.2763
    """
    if outlay <= 0.0:
        return 0.0
    return _finite(outlay / first_year_net) if first_year_net > 0.0 else None


def _finite(years: float) -> float | None:
    """Of a saving of next to nothing the years run over."""
    return years if isfinite(years) else None


def years_to_meet(outlay: float, yearly: Floats) -> float | None:
    """After how many years unlike savings, less running costs, add up to the outlay; the last one goes on for ever.

    Linear within the year; 0 where nothing is to be paid, None where they never do.

    >>> years_to_meet(350.0, np.array([200.0, 100.0])), years_to_meet(100.0, np.array([200.0, 100.0]))
    (2.5, 0.5)
    """
    if outlay <= 0.0:
        return 0.0
    left = outlay
    savings: list[float] = yearly.tolist()
    for passed, saving in enumerate(savings):
        if left <= saving:
            return passed + left / saving
        left -= saving
    return _finite(len(savings) + left / savings[-1]) if savings[-1] > 0.0 else None


def outlay_met_in(years: float, yearly: Floats) -> float:
    """Its inverse: the most that such savings add up to within so many years; at least 0.

    >>> outlay_met_in(2.5, np.array([200.0, 100.0])), outlay_met_in(0.5, np.array([200.0, 100.0]))
    (350.0, 100.0)
    """
    whole = int(years)
    begun = np.append(yearly[:whole], np.full(max(whole - yearly.size, 0), yearly[-1]))
    sums = np.cumsum(np.append(begun, (years - whole) * yearly[min(whole, yearly.size - 1)]))
    return float(sums.max(initial=0.0))


def crossing_years(flows: Floats, last_part: float = 1.0) -> Crossing:
    """When the running sum of the flows passes from below to nought, linear within the year.

    A later replacement may push it under again; ``lasting`` is then later than ``first``, or None where it stays
    under. ``last_part``: how much of the last year the flows go on.

    >>> crossing_years(np.array([-100.0, 80.0, 40.0, -50.0, 60.0]))
    Crossing(first=1.5, lasting=3.5)
    """
    amounts: list[float] = flows.tolist()
    total = list(accumulate(amounts))
    nought = -_ROUNDING * max(*map(abs, amounts), 1e-300)
    first, last_under = None, -1
    for year, sum_then in enumerate(total):
        if sum_then < nought:
            last_under = year
        elif first is None:
            first = _within_year(total, amounts, year, last_part)
    if last_under < 0:
        return Crossing(0.0, 0.0)
    lasting = _within_year(total, amounts, last_under + 1, last_part) if last_under + 1 < len(total) else None
    return Crossing(first, lasting)


def first_crossings(flows: Floats, last_part: float = 1.0) -> tuple[float | None, ...]:
    """``crossing_years(...).first`` of several accounts at once, shape (accounts, years + 1).

    >>> first_crossings(np.array([[-100.0, 80.0, 40.0], [-100.0, 10.0, 10.0], [5.0, 1.0, 1.0]]))
    (1.5, None, 0.0)
    """
    total = np.cumsum(flows, axis=1)
    under = total < -_ROUNDING * np.maximum(np.abs(flows).max(axis=1, keepdims=True), 1e-300)
    years = np.where(under.all(axis=1), -1, under.argmin(axis=1)).tolist()
    rows = zip(total.tolist(), flows.tolist(), years, strict=True)
    return tuple(None if year < 0 else _within_year(sums, row, year, last_part) for sums, row, year in rows)


def ends_level(flows: Floats) -> bool:
    """Do the flows, shape (years + 1,), add up to nought or more, to rounding?

    >>> ends_level(np.array([-0.3, 0.1, 0.1, 0.1])), ends_level(np.array([-1.0, 0.5]))
    (True, False)
    """
    return bool(flows.sum() >= -_ROUNDING * max(float(np.abs(flows).max()), 1e-300))


def _within_year(total: Sequence[float], amounts: Sequence[float], year: int, last_part: float) -> float:
    if year == 0:
        return 0.0
    share = min(-total[year - 1] / amounts[year], 1.0)
    return year - 1 + share * (last_part if year == len(amounts) - 1 else 1.0)


def discounted(flows: Floats, rate_share: float) -> Floats:
    """Each flow at its value of year 0, shape (..., years + 1) as ``flows``. ``rate_share`` > -1.

    >>> discounted(np.array([-100.0, 110.0]), 0.1)
    array([-100.,  100.])
    """
    return np.asarray(flows / (1.0 + rate_share) ** np.arange(flows.shape[-1]))


def discounted_payback_years(flows: Floats, rate_share: float, last_part: float = 1.0) -> Crossing:
    """First and lasting crossing of the discounted running sum; ``last_part`` as in ``crossing_years``.

    >>> round(discounted_payback_years(np.array([-520.0] + [121.6] * 20), 0.05).first, 4)
    4.9322
    """
    return crossing_years(discounted(flows, rate_share), last_part)


def net_present_value(rate_share: float, flows: Floats) -> float:
    """Sum of the flows at their value of year 0.

    >>> round(net_present_value(0.08, np.array([-40000.0, 5000, 8000, 12000, 30000])), 2)
    3065.22
    """
    return float(discounted(flows, rate_share).sum())


def levelised_cost_per_kwh(costs: Floats, energy_kwh: Floats, rate_share: float) -> float | None:
    """Present value of the costs over present value of the energy; None where there is no energy.

    Args:
        costs: (years + 1,) what is paid, year 0 first; income such as a resale is negative.
        energy_kwh: (years,) what is produced in years 1 on.
        rate_share: discount rate, nought allowed.

    >>> levelised_cost_per_kwh(np.array([450.0] + [0.0] * 15), np.full(15, 500.0), 0.0)
    0.06
    """
    energy = net_present_value(rate_share, np.concatenate(([0.0], energy_kwh)))
    return net_present_value(rate_share, costs) / energy if energy > 0.0 else None


def worth_up_to(saving: Floats, cost: Floats, rate_share: float) -> float:
    """The most that may be paid at year 0 for a set that is paid back, for good, within the years kept.

    It is the present value of savings less costs; never below nought. A sale at their end is no part of it.

    >>> worth_up_to(np.full(2, 110.0), np.zeros(2), 0.0)
    220.0
    """
    return max(net_present_value(rate_share, np.concatenate(([0.0], saving - cost))), 0.0)


def worth_up_to_each_year(saving: Floats, cost: Floats, rate_share: float) -> Floats:
    """The same for an account that ends after each of the years, shape (..., years) as ``saving``; never below nought.

    >>> worth_up_to_each_year(np.full(2, 110.0), np.zeros(2), 0.0)
    array([110., 220.])
    """
    factors = (1.0 + rate_share) ** -np.arange(1.0, cost.size + 1.0)
    return np.maximum(np.cumsum((saving - cost) * factors, axis=-1), 0.0)
