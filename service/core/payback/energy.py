"""What passes the meter in a year, and what would it come to at the prices of each hour?"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from service.core.model.hours import Floats, Ints


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class AtPrices:
    """A year's energy times the stated prices of one tariff period, in money, by cell.

    ``self_used`` and ``exported`` have shape (2, cells): at the import price, at the export price of each hour.
    ``registers``: (cells,) which register counts a cell, from 0; None where there is one. ``surplus``: (3, cells) what
    hours of one price within a month give more than the home needs in them, in kWh, and at the import and the export
    price; None where that does not matter. ``need``: (cells,) the home's demand, as ``demand_kwh`` counts it, at the
    import price. ``unlike_over``: over which of month and year one register holds
    hours of unlike import prices.
    """

    self_used: Floats
    exported: Floats
    registers: Ints | None = None
    surplus: Floats | None = None
    need: Floats | None = None
    unlike_over: tuple[str, ...] = ()

    def left_over(self, exported_kwh: Floats) -> Floats:
        """``surplus``; where it is not known, all that is sent out."""
        return np.stack([exported_kwh, *self.exported]) if self.surplus is None else self.surplus


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class HomeYear:
    """The first year's energy at the meter, in kWh, by cell: shape (12 x registers,), months running fastest, or (1,).

    ``demand_kwh`` is infinite where it is not known: netting is then without a limit. ``at``: by tariff period, oldest
    first, what the energy comes to where prices move by the hour; None where they do not, empty where none does.
    ``plant``: the home with a plant on the roof alone, without the set; the rest of the year is then the set's, its
    ``demand_kwh`` what the plant leaves of the demand in the moment, and ``surplus`` of ``at`` that of both. None where
    there is no plant.
    """

    self_used_kwh: Floats
    exported_kwh: Floats
    demand_kwh: Floats
    at: tuple[AtPrices | None, ...] = ()
    plant: "HomeYear | None" = None


def stacked(homes: Sequence[HomeYear]) -> HomeYear:
    """Several years at the meter of one home in one, with arrays of shape (homes, cells) and (2, homes, cells)."""
    return HomeYear(
        self_used_kwh=np.array([home.self_used_kwh for home in homes]),
        exported_kwh=np.array([home.exported_kwh for home in homes]),
        demand_kwh=np.array([home.demand_kwh for home in homes]),
        at=tuple(
            None if one is None else _stacked_prices([home.at[number] for home in homes], one.registers)
            for number, one in enumerate(homes[0].at)
        ),
        plant=_stacked_plants([home.plant for home in homes]),
    )


def _stacked_plants(plants: Sequence[HomeYear | None]) -> HomeYear | None:
    """A home that has nothing to do with the plant, such as what is drawn by night, has none of its energy."""
    there = next((plant for plant in plants if plant is not None), None)
    if there is None:
        return None
    return stacked([scaled(there, 0.0) if plant is None else plant for plant in plants])


def _stacked_prices(many: Sequence[AtPrices | None], registers: Ints | None) -> AtPrices:
    """One period's of several homes."""
    all_of_it = [one for one in many if one is not None]
    surplus = [one.surplus for one in all_of_it if one.surplus is not None]
    need = [one.need for one in all_of_it if one.need is not None]
    return AtPrices(
        self_used=np.array([one.self_used for one in all_of_it]).swapaxes(0, 1),
        exported=np.array([one.exported for one in all_of_it]).swapaxes(0, 1),
        registers=registers,
        surplus=np.array(surplus).swapaxes(0, 1) if len(surplus) == len(all_of_it) else None,
        need=np.array(need) if len(need) == len(all_of_it) else None,
        unlike_over=all_of_it[0].unlike_over,
    )


def scaled(home: HomeYear, share: float) -> HomeYear:
    """So much of the production, used at home to the same share."""
    if share == 1.0:
        return home
    return replace(
        home,
        self_used_kwh=home.self_used_kwh * share,
        exported_kwh=home.exported_kwh * share,
        at=tuple(
            None if one is None else _scaled_prices(one, number, home, share) for number, one in enumerate(home.at)
        ),
    )


def _scaled_prices(one: AtPrices, number: int, home: HomeYear, share: float) -> AtPrices:
    """What hours of one price give too much is scaled as well, but for what a plant on the roof has of it."""
    surplus = one.surplus
    if surplus is not None:
        plant = None if home.plant is None or not home.plant.at else home.plant.at[number]
        fixed = 0.0 if plant is None or plant.surplus is None else plant.surplus
        surplus = fixed + (surplus - fixed) * share
    return replace(one, self_used=one.self_used * share, exported=one.exported * share, surplus=surplus)


def shifted_use(home: HomeYear, share: float) -> HomeYear:
    """The same production used at home to a larger or smaller share, within production and demand of each cell.

    What is used less goes out at the prices of the hours in which it was used, what is used more was sent out before.
    """
    produced = home.self_used_kwh + home.exported_kwh
    self_used = np.minimum(home.self_used_kwh * max(1.0 + share, 0.0), np.minimum(produced, home.demand_kwh))
    self_used = np.maximum(self_used, home.self_used_kwh) if share > 0.0 else self_used
    exported = produced - self_used
    at = home.at
    if any(at):
        kept = _share(self_used, home.self_used_kwh)
        left = _share(exported, home.exported_kwh)
        at = tuple(
            None
            if one is None
            else replace(
                one,
                self_used=one.self_used * kept + one.exported * (1.0 - left),
                exported=one.exported * left + one.self_used * (1.0 - kept),
            )
            for one in at
        )
    return replace(home, self_used_kwh=self_used, exported_kwh=exported, at=at)


def _share(now: Floats, before: Floats) -> Floats:
    """What of an energy is still the same, at most 1; 1 where there was none."""
    return np.minimum(np.divide(now, before, out=np.ones_like(now), where=before > 0.0), 1.0)
