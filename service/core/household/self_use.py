"""How much of the production is used at home, when the demand of an hour is not flat?

min(production, mean demand) flatters by up to a fifth: a kettle draws 2 kW for three minutes, not 100 W for an hour.
So demand within an hour is an always-on power b plus a gamma-distributed rest of mean m - b and shape k, and what is
used at home is the expectation of min(production, demand), which has a closed form. Production within the hour is
taken as steady; k was measured with that in it.
"""

from collections.abc import Sequence
from functools import lru_cache
from math import lgamma

import numpy as np

from service.core.household.gamma import MOST_K, gamma_share_below
from service.core.model.facts import Household
from service.core.model.hours import HOURS, Floats

# Shape k of the rest, measured as the value that brings the closed form onto one-minute truth for three
# household-years (UCI "Individual household electric power consumption", Hebrail & Berard, CC BY 4.0,
# doi 10.24432/C58K54, and two more; 300 to 1600 W, 1500 to 9800 kWh a year). A profile of the home itself, averaged
# by month, kind of day and hour, hides the days' differences too, so it needs the wider distribution; a home's own
# hours leave only what happens within them.
# Homes whose demand is mostly short and high (an instantaneous water heater, a kettle in an otherwise empty flat, a
# heat pump that cycles within the hour) were not among the three. On made-up ones of that kind own hours flatter by 8
# to 25 % and averaged profiles by more, on made-up homes of longer runs by 2 and 6 % in the mean. A k from the spread
# of the caller's own hours mended those, but not all, and the measured home under an even sky got worse: not taken.
# Where the error of the averaged profile comes from, on the one home that we may carry: at 0.65 it is -2.1 % in the
# mean under a sky that is even within the hour, and +1.4 to +1.7 % under three of minute clouds, worst 6.4 %. All of
# that difference is the production's spread within the hour: reckoned with four points of it in place of its mean,
# every sky gives -2.1 to -2.6 %, and 0.8 would bring all to about nought. Of a typical year that spread is not known,
# so 0.65 stands between the skies, and other clouds may be flattered by 3 %. The rest goes by the home's size (-4 % at
# 1500 kWh, +1 % at 9800, even sky), where a small home is that one made smaller.
K_AVERAGED = 0.65
K_OWN_HOURS = 2.0

# A mean day or week of the home hides its seasons as well, and the public shape hides its habits: averaging more can
# only flatter, as min(P, D) is concave in D. Second moment of the one home's hours above its always-on power, over
# that of each profile: 1.40 (month, kind of day, hour), 1.60 (week), 1.68 (day), 1.83 (public shape). Scaled from
# 0.65 by 1 + 1/k these ask for 0.53, 0.49 and 0.43; one rounded value, as it is one home.
K_COARSE = 0.5

# Relative standard deviation of the yearly self-used energy, from the same 96 cases: 90 % within 6.3 % (averaged
# profile of that very home) and 2.9 % (its own hours), divided by 1.645. Its mean day or week does no worse on the one
# home at hand (4.3 %); that is one home, and the wider figure holds. That the public shape is some other home's is not
# in those, nor how much of its demand is always on: between 0.08 and 0.3 of the mean, which alone moves self-use by -7
# to +13 %, and k between 0.4 and 0.65 by another 5 %. Ten made-up homes of other habits (standby, e-car, heat pump,
# home office, flats) scatter by 14 % about it. One figure for all of that.
SD_PUBLIC_SHAPE = 0.14
SD_OWN_PROFILE = 0.038
SD_OWN_HOURS = 0.018

# Share of the variance within an hour that quarter-hourly means still show: self-used energy netted by quarter-hours
# of the one-minute home above is met by k = 3.5 on its own hours (own measurement), and 2.0 / 3.5 = 0.57.
QUARTER_HOUR_VARIANCE_SHARE = 0.57

# Shape within a quarter-hour. 1 + 1 / 2.0 = (1 + 0.57 / 2.0) (1 + 1 / k) leaves 6, which met the one home's minutes to
# 0.6 % in the median under an even sun and flattered by 4 % under one that comes and goes within the hour, of which no
# log of demand tells. 5 lies between: the errors are told in the test against that home.
K_QUARTER_HOURS = 5.0

# A profile whose hours differ by no more than so much of the highest is a yearly figure in other words (our choice).
_EVEN_SHARE = 0.2

_WEEK = 7 * 24

# The table of the closed form: number of stretches. Its steps are fine enough for k up to ``MOST_K``.
_KNOTS = 256
# So few hours are reckoned without it.
_FEW = 32


def self_used_w(production_w: Floats, demand_w: Floats, always_on_w: float, k: float) -> Floats:
    """Expected power used at home in each hour, E[min(P, b + X)], in W; never above min(production, mean demand).

    Args:
        production_w: (..., n) mean a.c. power P of each hour, >= 0; several productions of one home at once.
        demand_w: (n,) mean demand m of each hour, >= 0.
        always_on_w: power b that is always drawn; where m <= b there is no rest and the result is min(P, m).
        k: shape of the gamma-distributed rest X, > 0; infinity means a flat rest.

    With c = max(P - b, 0) and theta = (m - b) / k:
    E = min(P, b) + k theta F(k + 1, c / theta) + c (1 - F(k, c / theta)), F the regularised lower incomplete gamma
    function, and F(k + 1, x) = F(k, x) - x^k exp(-x) / Gamma(k + 1) (NIST DLMF 8.8.5). Derived from
    E[min(c, X)] = integral of (1 - F) from 0 to c.

    >>> round(float(self_used_w(np.array([520.0]), np.array([240.0]), 70.0, 1.5)[0]), 3)
    234.143
    """
    if np.isinf(k):
        return np.minimum(production_w, demand_w)
    floor = np.minimum(demand_w, always_on_w)
    used = np.minimum(production_w, floor)
    over_floor = production_w > floor
    while over_floor.ndim > 1:
        over_floor = np.logical_or.reduce(over_floor)
    rows = np.flatnonzero(over_floor & (demand_w > floor))
    if rows.size:
        low, produced = floor.take(rows), production_w.take(rows, axis=-1)
        below = np.minimum(produced, low)
        over, rest = produced - below, demand_w.take(rows) - low
        ratio = np.maximum(over / np.maximum(rest, 1e-100), 1e-300)
        met = _met_share(ratio, k) if rows.size <= _FEW or k > MOST_K else _met_share_by_table(ratio, k)
        met *= rest
        # Rounding may pass the bounds by one part in 1e16, interpolation by one in 1e7.
        np.minimum(np.maximum(met, 0.0, out=met), np.minimum(over, rest), out=met)
        used[..., rows] = below + met
    return np.asarray(used, dtype=np.float64)


def _met_share(ratio: Floats, k: float) -> Floats:
    """E[min(u, X)] of a gamma-distributed X with mean 1 and shape k: what of the rest is met by u times its mean."""
    x = k * ratio
    below = _below(k, x)
    below_next = below - np.exp(k * np.log(x) - x - lgamma(k + 1.0))
    return np.asarray(below_next + ratio * (1.0 - below), dtype=np.float64)


def _below(k: float, x: Floats) -> Floats:
    if k <= MOST_K:
        return gamma_share_below(k, x)
    from scipy.special import gammainc  # noqa: PLC0415 - 27 MB, and only for a log of which next to nothing was filled

    return np.asarray(gammainc(k, x), dtype=np.float64)


def _met_share_by_table(ratio: Floats, k: float) -> Floats:
    """The same from a table over the root of u, by cubics through values and exact slopes; within 1e-6, 10 x faster.

    The incomplete gamma function costs half a microsecond a row. Beyond the table's end all of the rest is met.
    """
    step, value, slope, square, cube = _table(k)
    place = np.sqrt(ratio)
    np.minimum(np.divide(place, step, out=place), _KNOTS, out=place)
    knot = np.minimum(place.astype(np.intp), _KNOTS - 1)
    t = np.subtract(place, knot, out=place)
    met = cube.take(knot)  # in place: a year has thousands of rows, and is asked a dozen times
    for part in (square, slope, value):
        met *= t
        met += part.take(knot)
    return np.asarray(met, dtype=np.float64)


@lru_cache(maxsize=16)  # a home has one or two k, and asks a dozen times
def _table(k: float) -> tuple[float, Floats, Floats, Floats, Floats]:
    """Width of a stretch of the root of u, and of each stretch the value, slope, square and cube."""
    top = np.sqrt(1.0 + (30.0 + 10.0 * np.sqrt(k)) / k)
    step = float(top / _KNOTS)
    root = np.linspace(0.0, top, _KNOTS + 1)
    knots = root**2
    value = np.concatenate(([0.0], _met_share(knots[1:], k)))
    slope = 2.0 * root * (1.0 - np.concatenate(([0.0], _below(k, k * knots[1:])))) * step
    rise = value[1:] - value[:-1]
    square = 3.0 * rise - 2.0 * slope[:-1] - slope[1:]
    cube = slope[:-1] + slope[1:] - 2.0 * rise
    return step, value, slope, square, cube


def k_of(household: Household, netting: str = "instant") -> float:
    """Shape k that suits what is known of the home, and the period over which its meter nets.

    Own 8760 or 8784 values are the home's own hours unless they are said to be averaged; 24, 168 or none (the public
    shape) are coarser profiles, and so is an averaged year that repeats one week. Netting over an hour leaves of a
    profile only the differences between days, and of own hours nothing (k is infinite). The squared coefficient of
    variation of demand is 1/k; within an hour it is 1/``K_OWN_HOURS``, and for the product of an hour's mean and what
    happens within it 1 + 1/k = (1 + between) (1 + within). Hours filled into a log are averages: they bring in
    ``between`` by their share. Month and year are netted in money, not here.

    >>> from math import inf
    >>> home = Household(demand_kwh_per_year=0, persons=1, always_on_w=0, at_home=None, machines=(),
    ...                  values_w=(100.0,) * 8760, stay_years=None)
    >>> k_of(home), k_of(home, "hour") == inf
    (2.0, True)
    """
    within_share = {"quarter_hour": QUARTER_HOUR_VARIANCE_SHARE, "hour": 0.0}.get(netting, 1.0)
    between = _hidden_between_hours(household)
    squared_variation = (1.0 + between) * (1.0 + within_share / K_OWN_HOURS) - 1.0
    return 1.0 / squared_variation if squared_variation > 0.0 else np.inf


def k_of_quarters(household: Household, netting: str = "instant") -> float:
    """Shape k within the quarter-hours of a home whose own are known; netting over a quarter-hour or more leaves none.

    Hours filled into a log are averages, and even within themselves: they bring in what both hide, by their share.

    >>> home = Household(demand_kwh_per_year=0, persons=1, always_on_w=0, at_home=None, machines=(),
    ...                  values_w=(100.0,) * 35040, stay_years=None)
    >>> round(k_of_quarters(home), 9)
    5.0
    """
    filled = household.filled_share
    known = 0.0 if netting in ("quarter_hour", "hour") else 1.0 / K_QUARTER_HOURS
    within_filled = {"quarter_hour": QUARTER_HOUR_VARIANCE_SHARE, "hour": 0.0}.get(netting, 1.0) / K_OWN_HOURS
    within = (1.0 - filled) * known + filled * within_filled
    squared_variation = (1.0 + _hidden_between_hours(household)) * (1.0 + within) - 1.0
    return 1.0 / squared_variation if squared_variation > 0.0 else np.inf


def self_use_sd_share(household: Household) -> float:
    """Relative standard deviation of the yearly self-used energy that comes from not knowing the home's minutes.

    Of a log with gaps, evenly from that of its known hours to that of a yearly figure by the share that was filled: an
    error of filled hours is one error for all of them, and a day in July tells no more of winter than a yearly figure.
    """
    values = household.values_w
    profile = not _whole_year(household) or household.values_kind == "averaged"
    if values is None or (profile and max(values) - min(values) <= _EVEN_SHARE * max(values)):
        return SD_PUBLIC_SHAPE
    known, filled = SD_OWN_PROFILE if profile else SD_OWN_HOURS, household.filled_share
    return (1.0 - filled) * known + filled * SD_PUBLIC_SHAPE


def on_one_phase_w(demand_w: Floats, always_on_w: float, *, phases: int = 3) -> tuple[Floats, float]:
    """Demand and always-on power that a meter sees on the set's phase when it does not sum over phases.

    The home on one of three phases is taken as a home of a third of the size with the same unevenness. Which
    appliances really share the set's phase is not known: the truth lies between nothing and all of them.
    """
    return demand_w / phases, always_on_w / phases


def with_allowance_w(production_w: Floats, demand_w: Floats, always_on_w: float, k: float, limit_w: float) -> Floats:
    """Expected power that leaves the set when at most ``limit_w`` may be sent out: E[min(P, demand + L)], in W.

    The same closed form, since min(P, D + L) = min(P, L) + min(max(P - L, 0), D). Not below ``self_used_w`` and not
    above P.
    """
    granted = np.minimum(production_w, limit_w)
    if limit_w >= production_w.max(initial=0.0):
        return granted  # all of it may leave
    return np.asarray(granted + self_used_w(production_w - granted, demand_w, always_on_w, k), dtype=np.float64)


def repeats_one_week(values_w: Sequence[float]) -> bool:
    """Is a year of hours or quarter-hours one mean day or week over and over? Then it tells no more than that.

    A clock that is put forward in summer may move it by an hour.

    >>> repeats_one_week((100.0, 300.0) * 4380), repeats_one_week(tuple(range(8760)))
    (True, False)
    """
    week = _WEEK * (len(values_w) // HOURS)
    january, july = values_w[:week], values_w[26 * week : 27 * week]
    again = values_w[week : 2 * week] == january and values_w[27 * week : 28 * week] == july
    return again and abs(sum(january) - sum(july)) <= 1e-6 * abs(sum(january))


def _whole_year(household: Household) -> bool:
    values = household.values_w
    if values is None or len(values) < HOURS:
        return False
    return household.values_kind != "averaged" or not repeats_one_week(values)


def _hidden_between_hours(household: Household) -> float:
    """Squared variation of an hour's true mean about the mean that is known of it."""
    if not _whole_year(household):
        return _between(K_COARSE)
    return _between(K_AVERAGED) * (1.0 if household.values_kind == "averaged" else household.filled_share)


def _between(k: float) -> float:
    return (1.0 + 1.0 / k) / (1.0 + 1.0 / K_OWN_HOURS) - 1.0
