"""What of a power would be used at home, and what would it save, in each hour with light? For many planes at once.

Use at home is a curve over the power in each hour: read off at a few powers, and on straight lines between them, which
are lifted for what a chord cuts off a bent curve. Money counts each kWh at the price of its own hour in the first year
of the account; what a netting period cannot meet is looked at only where one year is told (``Home.year``), with the
whole account's rules.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import date

import numpy as np
from numpy.typing import NDArray

from service.core.energy.kernel import cells_of
from service.core.model.facts import Setup
from service.core.model.hours import Calendar, Floats, Ints
from service.core.payback import priced_hours, priced_periods, savings_by_price
from service.core.worth import AtTheMeter

Singles = NDArray[np.float32]
_STRETCHES = 16
# So far inside an hour's last stretch that single precision doesn't round up to the next hour's; between stretches that
# does no harm, as their lines meet there.
_RIM = 0.02
_NETTED_WITHIN_HOUR = frozenset({"quarter_hour", "hour"})


@dataclass(frozen=True, slots=True, kw_only=True)
class YearAtHome:
    """One year's energy, what of it is used at home, and what that saves in the first year; None: no price known."""

    year_kwh: float
    self_used_kwh: float
    saving: float | None


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Curves:
    """A curve over power in each of n hours, on straight lines between a few powers.

    Attributes:
        base_w, slope: (n * stretches,) by hour and stretch.
        first: (n,) where an hour's stretches begin.
        most: (n,) how far they reach: as a row it is compared faster than a single number.
        per_w: the root of so much of a power is the number of its stretch.
    """

    base_w: Singles
    slope: Singles
    first: Singles
    most: Singles
    per_w: np.float32

    @classmethod
    def of(cls, curve: Callable[[Floats], Floats], hours: int, most_w: float) -> "Curves":
        """``curve`` takes and gives (hours,) powers, nought of none; it is read up to ``most_w``."""
        # Short stretches where the power is low: there use at home bends away from it.
        levels = max(most_w, 1.0) * np.linspace(0.0, 1.0, _STRETCHES + 1) ** 2
        known = np.stack([np.zeros(hours), *(curve(np.full(hours, level)) for level in levels[1:])], axis=1)
        known[:, 1:-1] += _lift(known, levels)
        slope = np.diff(known, axis=1) / np.diff(levels)
        base = known[:, :-1] - slope * levels[:-1]
        return cls(
            base_w=base.astype(np.float32).ravel(),
            slope=slope.astype(np.float32).ravel(),
            first=(np.arange(hours) * _STRETCHES).astype(np.float32),
            most=np.full(hours, _STRETCHES - _RIM, np.float32),
            per_w=np.float32(_STRETCHES**2 / levels[-1]),
        )

    def in_groups(self, mean: Callable[[Floats], Floats]) -> "Curves":
        """Of hours in groups, by the mean of the curves in each: ``mean`` makes (g, ...) of (hours, ...)."""
        base, slope = (
            mean(one.reshape(-1, _STRETCHES).astype(np.float64)).astype(np.float32) for one in (self.base_w, self.slope)
        )
        return replace(
            self,
            base_w=base.ravel(),
            slope=slope.ravel(),
            first=self.first[: len(base)],
            most=self.most[: len(base)],
        )

    def read(self, power_w: Singles) -> Singles:
        """At these powers, (m, n)."""
        places = power_w * self.per_w
        np.sqrt(places, out=places)
        np.minimum(places, self.most, out=places)
        places += self.first
        at = cells_of(places)
        found: Singles = self.slope.take(at, mode="wrap")  # none is beyond the last hour's: wrapping asks least
        found *= power_w
        found += self.base_w.take(at, mode="wrap")
        return found


def _lift(known: Floats, levels: Floats) -> Floats:
    """(hours, levels but the first and the last): by how much lines through the curve lie too far inside its bend.

    In the mean over a stretch of width h a chord lies f'' h^2 / 12 off, f'' by how the lines turn from one to the next.
    Nought and the most, at which a limit holds many hours, are met exactly.
    """
    width = np.diff(levels)
    before, after = width[:-1], width[1:]
    turned = np.diff(np.diff(known, axis=1) / width, axis=1)
    return np.asarray(-turned * (before**2 + after**2) / (12.0 * (before + after)))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Home:
    """A home and its prices.

    Attributes:
        meter: the home as its meter sees it.
        use: use at home over the power of the set.
        leaves: what of that power may leave the set under an export limit; None where all may.
        worth_used, worth_sent: (n,) money for a kWh used and sent out in each hour; None where no price is known.
    """

    meter: AtTheMeter
    setup: Setup
    as_of: date
    use: Curves
    leaves: Curves | None
    worth_used: Singles | None
    worth_sent: Singles | None

    @property
    def kwh_price(self) -> float | None:
        """What a kWh that is used is worth on average over the hours with light; None where no price is known."""
        return None if self.worth_used is None or not self.worth_used.size else float(self.worth_used.mean())

    def left_and_used_w(self, ac_w: Singles) -> tuple[Singles, Singles]:
        """What of these powers leaves the set, and what of that is expected to be used at home, (m, n) each."""
        used = self.use.read(ac_w)
        if self.leaves is None:
            return ac_w, used
        left = self.leaves.read(ac_w)
        return left, np.minimum(used, left)

    def saved(self, ac_w: Singles, used_w: Singles) -> Singles | None:
        """Money in thousandths, (m, n), of these powers; None where no price is known."""
        if self.worth_used is None or self.worth_sent is None:
            return None
        saved: Singles = used_w * (self.worth_used - self.worth_sent) + ac_w * self.worth_sent
        return saved

    def saved_in_year(self, ac_w: Singles, used_w: Singles) -> Floats | None:
        """Money of the year, (m,), of hourly powers that leave the set and are used, (m, n); None without a price."""
        if self.worth_used is None or self.worth_sent is None:
            return None
        return np.asarray(used_w @ (self.worth_used - self.worth_sent) + ac_w @ self.worth_sent, np.float64) / 1000.0

    def year(self, ac_w: Floats) -> YearAtHome:
        """A year of hours, (8760,) W, by the rules of the whole account."""
        meter = self.meter
        left = meter.left_w(ac_w)
        used = np.minimum(meter.used_w(ac_w), left)
        saving = None
        if self.setup.tariff is not None:
            money = self.setup.money
            periods = priced_periods(self.setup.tariff, self.as_of, money.years, money.price_growth_share)
            at_meter = meter.sums.home(used, left, meter.demand_kwh)
            parts = savings_by_price(
                at_meter, periods, money.ageing_share_per_year, self.setup.meter.counts, self.setup.meter.netting
            )
            saving = float(parts[0][0] + parts[1][0])
        return YearAtHome(year_kwh=float(left.sum()) / 1000.0, self_used_kwh=float(used.sum()) / 1000.0, saving=saving)


def home_of(meter: AtTheMeter, setup: Setup, calendar: Calendar, rows: Ints, most_w: float, as_of: date) -> Home:
    """The home in the hours with light ``rows``, for powers up to ``most_w``."""
    lit = meter.in_hours(rows)
    limited = meter.export_limit_w is not None and meter.energy.before_export_limit is not None
    worth_used, worth_sent = _prices(setup, calendar, as_of)
    return Home(
        meter=meter,
        setup=setup,
        as_of=as_of,
        use=Curves.of(lit.used_w, rows.size, most_w),
        leaves=Curves.of(lit.left_w, rows.size, most_w) if limited else None,
        worth_used=None if worth_used is None else worth_used[rows].astype(np.float32),
        worth_sent=None if worth_sent is None else worth_sent[rows].astype(np.float32),
    )


def _prices(setup: Setup, calendar: Calendar, as_of: date) -> tuple[Floats | None, Floats | None]:
    """(8760,) money for a kWh used, and for one sent out, in the first year of the account."""
    tariff, meter, money = setup.tariff, setup.meter, setup.money
    if tariff is None:
        return None, None
    used, sent = np.zeros(calendar.month.size), np.zeros(calendar.month.size)
    for period in priced_periods(tariff, as_of, money.years, money.price_growth_share):
        bought, sold = priced_hours(tariff, period.number, calendar)
        share = period.share_of_year[0]
        if period.share_of_month is not None:
            share = period.share_of_month[0][calendar.month - 1]
        used += share * bought
        if meter.counts == "one_way":
            sent -= share * bought
        elif period.export == "paid" or (period.export == "netted" and meter.netting in _NETTED_WITHIN_HOUR):
            sent += share * np.where(sold > 0.0, sold * (1.0 - period.export_tax_share), sold)
        elif period.export == "netted":
            sent += share * bought
    return used, sent
