"""Which of the kWh that a home sends out does netting leave over, where surplus is netted over months or years?

A bill nets each register on its own: of a netting period it takes what went out off what came in, and only what is
left over is not netted. How much that is hangs on production and demand alone, and not on how much of it was used in
the same moment. Which kWh these are is a convention, and here it is the one of netting step by step: hours of one
price within a month net first, then the month, then the year, and of what a shorter step leaves, a longer one leaves
the same share of every kWh. So netting over a longer time never leaves more, and it is all one to the bill whether a
meter sums its phases.

Where one register holds hours of unlike price, it is netted in money by the same steps: each kWh counts at the price of
its own hour, both ways, and a bill ends at nought. So with surplus unpaid no saving exceeds the bill, and as long as no
price is below nought more surplus never raises it: a cheap kWh takes no dear one's place. Where all hours cost the same
that is netting by kWh.

A plant on the roof sends out through the same meter: its surplus nets first, with the set and without it, and what the
set leaves over is what both leave less what the plant alone leaves. The plant does not age.
"""

from dataclasses import dataclass, replace

import numpy as np

from service.core.model.hours import Floats, Ints
from service.core.payback.energy import HomeYear

_MONTHS = 12
_NOTHING_KWH = 1e-12


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class NettedYears:
    """The energy of a year by register and month of one tariff period, shape (..., registers, months), in kWh.

    ``needed`` may be infinite; beside a plant on the roof it is less by the plant's surplus, and below nought where
    that alone is more. ``exported``: no more than that is left over; None: all may be. ``share``: (years, months) of
    each month of each year that the tariff period holds. ``age``: (years,) what is left of the production.
    """

    produced: Floats
    exported: Floats | None
    needed: Floats
    share: Floats
    age: Floats

    @classmethod
    def of(cls, home: HomeYear, registers: Ints | None, share: Floats, age: Floats) -> "NettedYears":
        """Of a home's cells; ``share`` may be (years, 1), of all months alike."""
        plant = home.plant
        need = home.demand_kwh if plant is None else home.demand_kwh - plant.exported_kwh
        cells = np.array([home.self_used_kwh + home.exported_kwh, home.exported_kwh, need])
        produced, exported, needed = by_register_and_month(cells, registers)
        months = np.broadcast_to(share, (age.size, produced.shape[-1]))
        # a caller's own self-use may be above the demand that it names
        return cls(
            produced=produced, exported=exported if plant is None else None, needed=needed, share=months, age=age
        )

    def without_the_set(self) -> "NettedYears":
        """The plant on the roof alone."""
        return replace(self, produced=np.zeros_like(self.produced))

    def left(self, *, by_month: bool) -> Floats | None:
        """What is left over, before ageing, (..., registers, years, months); None where nothing is.

        ``by_month``: nets each month on its own; else each year, as far as the tariff period holds.
        """
        # a set that never grew older leaves the most
        if not by_month and ((self.produced - self.needed) @ self.share.T).max(initial=0.0) <= _NOTHING_KWH:
            return None
        months = self.month_left()
        if not by_month:
            months *= self.share_left_by_year(months)[..., np.newaxis]
        return months

    def month_left(self) -> Floats:
        """What each month leaves over on its own, before ageing, (..., registers, years, months)."""
        months = self.produced[..., np.newaxis, :] - self.needed[..., np.newaxis, :] / self.age[:, np.newaxis]
        months *= self.share
        np.maximum(months, 0.0, out=months)
        if self.exported is not None:
            np.minimum(months, self.exported[..., np.newaxis, :] * self.share, out=months)
        return months

    def share_left_by_year(self, months: Floats) -> Floats:
        """What share of what the months leave a year leaves, (..., registers, years)."""
        whole = months.sum(axis=-1)
        some = np.where(whole > _NOTHING_KWH, whole, 1.0)
        return np.asarray(np.clip(self._of_year(), 0.0, whole) / some)

    def _of_year(self) -> Floats:
        """Production less need over each year, (..., registers, years), before ageing; below nought where it is met."""
        return np.asarray(self.produced @ self.share.T - self.needed @ self.share.T / self.age)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class UnlikePrices:
    """What netting meets where a register holds hours of unlike price, (..., registers, months) before ageing.

    ``surplus``: (2, ...) what hours of one price give more than they need, at their import price and at what they would
    earn; that of the set, which ages. ``fixed``: the same of a plant on the roof, which does not. ``need``: what the
    home needs, at its import price, less what the plant gives; ``produced``: what the set gives, at the same price.
    """

    surplus: Floats
    fixed: Floats
    need: Floats
    produced: Floats

    def without_the_set(self) -> "UnlikePrices":
        """The plant on the roof alone."""
        return replace(self, surplus=np.zeros_like(self.surplus), produced=np.zeros_like(self.produced))

    def left(self, years: NettedYears, *, by_month: bool) -> tuple[Floats, Floats]:
        """What no bill is left for, at its own hours' import price and at what it earns, (..., years), before ageing.

        ``by_month``: nets each month on its own; else each year, as far as the tariff period holds.
        """
        age = years.age[:, np.newaxis]
        over = (self.produced[..., np.newaxis, :] - _by_age(self.need, age)) * years.share
        whole = over.sum(axis=-1)
        bought, earns = (self.surplus[..., np.newaxis, :] + self.fixed[..., np.newaxis, :] / age) * years.share
        left = np.clip(over, 0.0, np.maximum(bought, 0.0))
        if not by_month:
            months = left.sum(axis=-1)
            left *= _ratio(np.clip(whole, 0.0, months), months)[..., np.newaxis]
        return np.asarray(left.sum(axis=(-3, -1))), np.asarray((left * _ratio(earns, bought)).sum(axis=(-3, -1)))


def _by_age(months: Floats, age: Floats) -> Floats:
    return np.asarray(months[..., np.newaxis, :] / age)


def _ratio(part: Floats, whole: Floats) -> Floats:
    """Nought where there is nothing to share by."""
    return np.divide(part, whole, out=np.zeros_like(part), where=whole > _NOTHING_KWH)


def by_register_and_month(by_cell: Floats, registers: Ints | None) -> Floats:
    """(..., cells) summed to (..., registers, months): cells are months of the finest registers, months fastest.

    ``registers``: (cells,) which register counts a cell; None where there is one.
    """
    cells = by_cell.shape[-1]
    if registers is None and cells <= _MONTHS:
        return by_cell[..., np.newaxis, :]
    register = np.zeros(cells, dtype=np.int64) if registers is None else registers
    count = int(register.max()) + 1
    at = register * _MONTHS + np.arange(cells) % _MONTHS
    if cells == count * _MONTHS and (at == np.arange(cells)).all():
        return by_cell.reshape(*by_cell.shape[:-1], count, _MONTHS)
    # as one product of two matrices: a stack of small ones takes thrice the time
    summed = by_cell.reshape(-1, cells) @ np.eye(count * _MONTHS)[at]
    return np.asarray(summed.reshape(*by_cell.shape[:-1], count, _MONTHS))
