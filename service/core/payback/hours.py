"""What does a kWh cost in each hour of the year, and how are a year's hours summed before money is counted?

Hours that always cost the same are summed first: by month for flat prices, by month, weekday and hour for prices by the
clock, not at all for a year of hourly prices. Then all is summed once more, into cells of one register of the
meter and one month, each with its kWh and what they come to at the prices of every period. An account rests on these
few cells alone, and nothing is lost by it, as money is a sum over hours of kWh times price.

Not modelled: public holidays (taken as the weekday they fall on); that a sunny hour is a cheap one, beyond what the
hourly prices given say.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from math import gcd

import numpy as np

from service.core.errors import ContradictionError
from service.core.model.facts import HourlyPrices, Rate, Tariff, TariffPeriod
from service.core.model.hours import HOURS, Calendar, Floats, Ints
from service.core.payback.energy import AtPrices, HomeYear

_MINUTES = 24 * 60
_DAYS = 7
_SLOTS = _DAYS * 24  # days of the week from Monday x hours of the clock
_DAYS_OF: Mapping[str, tuple[int, ...]] = {
    "all": (0, 1, 2, 3, 4, 5, 6), "weekday": (0, 1, 2, 3, 4), "weekend": (5, 6), "monday": (0,), "tuesday": (1,),
    "wednesday": (2,), "thursday": (3,), "friday": (4,), "saturday": (5,), "sunday": (6,),
}  # fmt: skip
_CLOCK_CELLS = 12 * _SLOTS
_MONTHS = 12


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Priced:
    """Prices of one period over the first sums (2, n), import and export; each time of the week's register, (168,).

    Of a year of prices that does not go by the wall clock ``register`` may be that of each hour, (8760,).
    """

    prices: Floats
    register: Ints


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PlantAlone:
    """A plant on the roof without the set: the home at the meter, and its surplus by first sum in kWh."""

    home: HomeYear
    surplus_kwh: Floats


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class MeterSums:
    """How a year of hours is summed for the periods of a tariff.

    Attributes:
        first_of_hour: (8760,) the first sum that an hour belongs to; there are ``firsts``.
        begins: (cells,) the first sum with which each cell begins: first sums are in the order of their cells.
        prices: by period, oldest first: (2, n) import and export prices of the first sums; None where flat.
        registers: by period: (cells,) register that counts a cell, None where there is one.
        nets: by period: is surplus netted?
        unlike_over: by period: over which of month and year does one register hold hours of unlike import prices?
        cells: how many there are; cell = 12 x register + month - 1, registers told apart as finely as any period does.
        runs: (firsts,) the hour with which each first sum begins, where its hours are one run; None where they are not.
    """

    first_of_hour: Ints
    firsts: int
    begins: Ints
    prices: tuple[Floats | None, ...]
    registers: tuple[Ints | None, ...]
    nets: tuple[bool, ...]
    unlike_over: tuple[tuple[str, ...], ...]
    cells: int
    runs: Ints | None = None

    def plant(self, self_used_w: Floats, produced_w: Floats, demand_w: Floats) -> PlantAlone:
        """A plant alone, of (8760,) powers in W."""
        home = self.home(self_used_w, produced_w, self.by_first(demand_w))
        return PlantAlone(home=home, surplus_kwh=np.maximum(self.by_first(produced_w - self_used_w), 0.0))

    def home(
        self, self_used_w: Floats, produced_w: Floats, demand_kwh: Floats, plant: PlantAlone | None = None
    ) -> HomeYear:
        """The year at the meter, of (8760,) powers in W and the home's demand ``by_first``.

        Beside a ``plant`` the powers are the set's, and the demand is what the plant leaves in the moment.
        """
        self_used = self.by_first(self_used_w)
        produced = self_used if produced_w is self_used_w else self.by_first(produced_w)
        return self.home_of_sums(self_used, produced, demand_kwh, plant)

    def home_of_sums(
        self, self_used: Floats, produced: Floats, demand_kwh: Floats, plant: PlantAlone | None = None
    ) -> HomeYear:
        """The same of energies ``by_first``, in kWh."""
        exported = np.maximum(produced - self_used, 0.0)
        alone = None if plant is None else plant.home
        if self.cells == self.firsts and all(prices is None for prices in self.prices):
            flat = (None,) * len(self.prices)
            return HomeYear(self_used_kwh=self_used, exported_kwh=exported, demand_kwh=demand_kwh, at=flat, plant=alone)
        rows = [self_used, exported, demand_kwh]
        over = self_used + exported - demand_kwh + (0.0 if plant is None else plant.surplus_kwh)
        left = np.maximum(over, 0.0) if any(self.nets) else None
        begin: list[int] = []
        for prices, nets in zip(self.prices, self.nets, strict=True):
            begin.append(len(rows))
            if prices is not None:
                rows += [*(self_used * prices), *(exported * prices), demand_kwh * prices[0]]
                if nets and left is not None:
                    rows += [left, *(left * prices)]
        cells = self._cells(np.array(rows))
        return HomeYear(
            self_used_kwh=cells[0],
            exported_kwh=cells[1],
            demand_kwh=cells[2],
            at=tuple(
                None
                if prices is None
                else AtPrices(
                    self_used=cells[at : at + 2],
                    exported=cells[at + 2 : at + 4],
                    registers=registers,
                    need=cells[at + 4],
                    surplus=cells[at + 5 : at + 8] if nets else None,
                    unlike_over=unlike,
                )
                for at, prices, registers, nets, unlike in zip(
                    begin, self.prices, self.registers, self.nets, self.unlike_over, strict=True
                )
            ),
            plant=alone,
        )

    def by_first(self, power_w: Floats) -> Floats:
        """(..., n) energy in kWh of hourly powers in W, (..., 8760), by first sum."""
        if self.runs is not None:  # thirty times as fast as adding hour by hour to the same few sums
            return np.asarray(np.add.reduceat(power_w, self.runs, axis=-1) / 1000.0)
        if power_w.ndim > 1:
            return np.stack([self.by_first(one) for one in power_w])
        return np.bincount(self.first_of_hour, weights=power_w, minlength=self.firsts) / 1000.0

    def _cells(self, kwh: Floats) -> Floats:
        """(rows, n) first sums to (rows, cells), all rows at once."""
        return kwh if self.cells == self.firsts else np.asarray(np.add.reduceat(kwh, self.begins, axis=1))


def in_order(tariff: Tariff) -> tuple[TariffPeriod, ...]:
    """The periods, oldest first."""
    return tuple(sorted(tariff.periods, key=lambda period: period.valid_from))


def meter_sums(tariff: Tariff | None, calendar: Calendar, *, reversing: bool = False) -> MeterSums:
    """How the hours have to be summed for this tariff.

    Args:
        tariff: dated prices; None is summed by month.
        calendar: the wall clock of the rows.
        reversing: does the meter run backwards? Then every period nets.

    Registers are told apart where surplus is netted, and only there: times of the week that cost the same in every
    month are counted together, whether rates say so or hourly prices that repeat by month, day of the week and hour.
    Seasons do not tell registers apart, nor do hourly prices that do not repeat so: these are one sum.

    Raises:
        ContradictionError: hourly prices have another length.
    """
    periods = () if tariff is None else in_order(tariff)
    priced = [_priced(at, period, calendar) for at, period in enumerate(periods)]
    if not any(priced):
        return _by_month(calendar, len(periods))
    nets = tuple(reversing or period.export == "netted" for period in periods)
    slot = _slot_of(calendar)
    clock_cell = (calendar.month - 1) * _SLOTS + slot
    by_clock = all(one is None or one.prices.shape[1] == _CLOCK_CELLS for one in priced)
    month_of, slot_of = (
        (np.arange(_CLOCK_CELLS) // _SLOTS, np.arange(_CLOCK_CELLS) % _SLOTS)
        if by_clock
        else (calendar.month - 1, slot)
    )
    counted = [
        one.register if one is not None and netted else np.zeros(_SLOTS, np.int64)
        for one, netted in zip(priced, nets, strict=True)
    ]
    if any(one.size == HOURS for one in counted):
        counted, slot_of = [one if one.size == HOURS else one[slot] for one in counted], np.arange(HOURS)
    apart, finest = _told_apart(counted)
    first = clock_cell if by_clock else np.arange(HOURS)
    cell = finest[slot_of] * _MONTHS + month_of
    order = np.argsort(cell, kind="stable")
    place = np.empty_like(order)
    place[order] = np.arange(order.size)
    cells = _MONTHS * apart.shape[1]
    return MeterSums(
        first_of_hour=place[first],
        firsts=order.size,
        begins=np.searchsorted(cell[order], np.arange(cells)),  # every time of the week is in every month
        prices=tuple(
            None if one is None else _on(one.prices, first.size, by_clock, clock_cell)[:, order] for one in priced
        ),
        registers=tuple(None if not row.any() else np.repeat(row, _MONTHS) for row in apart),
        nets=tuple(period.export == "netted" for period in periods),
        unlike_over=tuple(
            _unlike_over(_on(one.prices, first.size, by_clock, clock_cell)[0], row[slot_of], month_of)
            if one is not None and netted
            else ()
            for one, netted, row in zip(priced, nets, counted, strict=True)
        ),
        cells=cells,
    )


def _told_apart(counted: list[Ints]) -> tuple[Ints, Ints]:
    """(periods, registers) each period's register by the finest ones, and (n,) the finest register of each slot."""
    code = np.zeros_like(counted[0])
    for register in counted:
        code = code * (int(register.max()) + 1) + register
    _, at, finest = np.unique(code, return_index=True, return_inverse=True)
    return np.stack([register[at] for register in counted]), np.asarray(finest.reshape(-1))


def _unlike_over(price: Floats, register: Ints, month: Ints) -> tuple[str, ...]:
    """Over which of month and year times of one register cost unlike much."""
    by_month = register * _MONTHS + month
    return tuple(name for name, group in (("month", by_month), ("year", register)) if _unlike(price, group))


def _unlike(price: Floats, group: Ints) -> bool:
    one = np.empty(int(group.max()) + 1)
    one[group] = price
    return bool((one[group] != price).any())


@lru_cache(maxsize=16)  # a calendar's own, some 70 kB
def _by_month(calendar: Calendar, periods: int) -> MeterSums:
    """Where no period tells hours apart; its arrays are shared by all who ask, and are not to be written to."""
    none, month = (None,) * periods, calendar.month - 1
    changes = np.flatnonzero(np.diff(month, prepend=-1))  # south of the equator the last hour may be next year's
    return MeterSums(
        first_of_hour=month, firsts=_MONTHS, begins=np.arange(_MONTHS), prices=none, registers=none,
        nets=(False,) * periods, unlike_over=((),) * periods, cells=_MONTHS,
        runs=changes if np.array_equal(month[changes], np.arange(_MONTHS)) else None,
    )  # fmt: skip


def priced_hours(tariff: Tariff, number: int, calendar: Calendar) -> tuple[Floats, Floats]:
    """Stated import and export price of each hour, (8760,) each, in the period of that number, oldest first."""
    period = in_order(tariff)[number]
    priced = _priced(number, period, calendar)
    if priced is None:
        return np.full(HOURS, period.import_price_per_kwh), np.full(HOURS, period.export_price_per_kwh)
    if priced.prices.shape[1] == HOURS:
        return priced.prices[0], priced.prices[1]
    slot = _slot_of(calendar)
    at_hour = priced.prices[:, (calendar.month - 1) * _SLOTS + slot]
    return at_hour[0], at_hour[1]


def _slot_of(calendar: Calendar) -> Ints:
    """The hour of the week of each row, from Monday 00:00, by the wall clock."""
    return np.asarray(calendar.weekday * 24 + calendar.clock_h.astype(np.int64))


def _on(prices: Floats, rows: int, by_clock: bool, clock_cell: Ints) -> Floats:
    """Prices by the clock put on the hours of the year, where another period needs these."""
    return prices if by_clock or prices.shape[1] == rows else prices[:, clock_cell]


def _priced(at: int, period: TariffPeriod, calendar: Calendar) -> _Priced | None:
    if period.hourly is not None:
        own = np.full(24, period.export_price_per_kwh)
        return _hourly(period.hourly, own, f"/tariff/periods/{at}/hourly", calendar)
    if not period.rates:
        return None
    return _by_the_clock(period.rates, period.import_price_per_kwh, period.export_price_per_kwh)


@lru_cache(maxsize=64)  # one question asks for the same tariff again with each remedy, habit and plane
def _by_the_clock(rates: tuple[Rate, ...], import_price: float, export_price: float) -> _Priced:
    """Prices of a period with rates; its arrays are shared by all who ask, and are not to be written to."""
    rate = rate_of_minute(rates)
    table = np.array(
        [
            [_own(one.import_price_per_kwh, import_price) for one in rates],
            [_own(one.export_price_per_kwh, export_price) for one in rates],
        ]
    )
    table = np.column_stack([table, [import_price, export_price]])  # row -1 is the rest
    step = gcd(60, *(minute_of(clock) for one in rates for clock in (one.from_clock, one.to_clock) if clock))
    by_step = table[:, rate[:, :, ::step]].reshape(2, _MONTHS, _SLOTS, 60 // step)
    first = by_step[..., 0]
    by_hour = first + (by_step - first[..., np.newaxis]).mean(axis=3)  # an hour of one price has just that
    priced = _Priced(prices=by_hour.reshape(2, -1), register=_registers(table[:, rate[:, :, 30::60]]))
    for values in (priced.prices, priced.register):
        values.flags.writeable = False
    return priced


def _registers(prices: Floats) -> Ints:
    """(168,) which times of the week cost the same in every month, of import and export prices by month and time."""
    _, register = np.unique(prices.reshape(2 * _MONTHS, _SLOTS), axis=1, return_inverse=True)
    return np.asarray(register.reshape(-1))


def _own(price: float | None, own: float) -> float:
    return own if price is None else price


def rate_of_minute(rates: tuple[Rate, ...]) -> Ints:
    """Which rate holds, (12, 7, 1440) by month, weekday and minute of the clock: the first that does, -1 for none.

    >>> night = Rate(name=None, months=None, days=None, from_clock="22:00", to_clock="06:00",
    ...              import_price_per_kwh=0.2, export_price_per_kwh=None)
    >>> rate_of_minute((night,))[0, 0, [0, 359, 360, 1319, 1320]].tolist()
    [0, 0, -1, -1, 0]
    """
    held = np.full((_MONTHS, _DAYS, _MINUTES), -1, dtype=np.int64)
    for at in reversed(range(len(rates))):
        held[_times(rates[at])] = at
    return held


def _times(rate: Rate) -> tuple[Ints, ...]:
    """Index of the months, days of the week and minutes in which a rate holds."""
    months = range(1, 13) if rate.months is None else rate.months
    begin, end = minute_of(rate.from_clock or "00:00"), minute_of(rate.to_clock or "24:00")
    minutes = [*range(begin, end)] if begin < end else [*range(begin, _MINUTES), *range(end)]
    return np.ix_([month - 1 for month in months], _DAYS_OF[rate.days or "all"], minutes)


def minute_of(clock: str) -> int:
    """Minutes since midnight of "HH:MM".

    >>> minute_of("06:30")
    390
    """
    return int(clock[:2]) * 60 + int(clock[3:])


def _hourly(hourly: HourlyPrices, own_export: Floats, pointer: str, calendar: Calendar) -> _Priced:
    """Import and export prices: by month, day of the week and hour where they repeat so, else by hour.

    What repeats by the wall clock is what rates would say, and has their registers. A year of rows may repeat by its
    own hours instead, which summer time does not move. What repeats in neither way is one sum to the meter.
    """
    bought = np.asarray(hourly.import_prices_per_kwh, dtype=np.float64)
    sold = own_export if hourly.export_prices_per_kwh is None else np.asarray(hourly.export_prices_per_kwh)
    for name, values in (("import_prices_per_kwh", bought), ("export_prices_per_kwh", sold)):
        if values.size not in {24, 168, HOURS}:
            where = f"{pointer}/{name}"
            raise ContradictionError(
                where, f"has {values.size} values", given=int(values.size),
                accepted="24 (a day), 168 (a week from Monday) or 8760 (a year) prices", example=[0.31] * 24,
            )  # fmt: skip
    if max(bought.size, sold.size) < HOURS:
        week = np.stack([np.resize(values, _SLOTS) for values in (bought, sold)])
        table = np.repeat(week[:, np.newaxis], _MONTHS, axis=1)
        return _Priced(prices=table.reshape(2, -1), register=_registers(table))
    slot, row = _slot_of(calendar), np.arange(HOURS)
    rows = {24: slot % 24, 168: slot, HOURS: row}
    prices = np.stack([values[rows[values.size]] for values in (bought, sold)])
    by_clock = _repeating(prices, (calendar.month - 1) * _SLOTS + slot)
    if by_clock is not None:
        return _Priced(prices=by_clock, register=_registers(by_clock))
    by_row = (int(calendar.weekday[0]) * 24 + row) % _SLOTS
    by_rows = _repeating(prices, _MONTH_OF_ROW * _SLOTS + by_row)
    register = np.zeros(_SLOTS, dtype=np.int64) if by_rows is None else _registers(by_rows)[by_row]
    return _Priced(prices=prices, register=register)


_MONTH_OF_ROW = np.repeat(np.arange(_MONTHS), [24 * days for days in (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)])


def _repeating(prices: Floats, clock_cell: Ints) -> Floats | None:
    """(2, 2016) by month and time of the week, of (2, 8760) by hour; None where they do not repeat so."""
    table = np.empty((2, _CLOCK_CELLS))
    table[:, clock_cell] = prices
    return table if bool((table[:, clock_cell] == prices).all()) else None
