"""How wide is a saving, without pretending that all bad cases happen together?

Three causes are kept apart: production, the home's habits, and the price to come. Each is carried through the whole
calculation on its own (self-use is recomputed at the cautious and at the hopeful production, because a poor year is
used at home to a larger share), and gives a step down and a step up of the saving. Independent causes combine as the
root of the sum of squares, down and up apart, within what is given and needed and what the bill holds. Year-to-year
weather shrinks with the root of the years summed; the uncertainty of climate data, model, habits and price does not.
What is not known of a production may be more towards less than towards more: each of its ends shrinks by its own.
"""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from math import inf, sqrt

import numpy as np

from service.core.model.band import Z_90, Band, SpreadPart, combined_sd_share
from service.core.model.hours import Floats
from service.core.payback import HomeYear, scaled, shifted_use, stacked
from service.core.worth.sensitivity import STEP_SHARE

# The spread part that is weather, different every year; all others stay what they are.
YEAR_TO_YEAR = "year_to_year"

_Sides = tuple[float, float]  # towards less energy, and towards more

# Relative standard deviation of the price level over the years to come. Between the two halves of 2025 household
# prices of 27 countries moved by 3.3 % in the median (the table of household prices), a robust sd of 4.9 %.
PRICE_SD_SHARE = 0.05


def price_sd_share(price_unknown_sd_share: float) -> float:
    """How far the prices of the years to come may be off: what is not known of today's, and what will change.

    >>> price_sd_share(0.12)
    0.13
    """
    return sqrt(PRICE_SD_SHARE**2 + price_unknown_sd_share**2)


@dataclass(frozen=True, slots=True, kw_only=True)
class HomeCases:
    """The first year at the meter in the middle, with the production at either end, and with the habits at either.

    ``steady_sd_share`` and ``yearly_sd_share``: the production's relative standard deviations to less and to more,
    weather's year-to-year part apart from the rest. ``stepped``: with the production ``STEP_SHARE`` lower and higher,
    where the hours are there to reckon self-use again. ``night``: what the inverter draws from the mains by night, as a
    home of its own; None where that is not known. ``every``: all that an account asks for (``stacked_cases``), stacked
    once for many accounts; None where that is left to the account.
    """

    middle: HomeYear
    less_energy: HomeYear
    more_energy: HomeYear
    less_used: HomeYear
    more_used: HomeYear
    steady_sd_share: _Sides
    yearly_sd_share: _Sides
    stepped: tuple[HomeYear, HomeYear] | None = None
    night: HomeYear | None = None
    every: HomeYear | None = None

    def stacked_cases(self) -> HomeYear:
        """The middle, energy less and more, use less and more, then a step down and up of the yield and of the use.

        Last what the inverter draws by night, where that is known.
        """
        if self.every is not None:
            return self.every
        steps = (-STEP_SHARE, STEP_SHARE)
        return stacked(
            (
                self.middle, self.less_energy, self.more_energy, self.less_used, self.more_used,
                *(self.at_yield(share) for share in steps), *(shifted_use(self.middle, share) for share in steps),
                *((self.night,) if self.night is not None else ()),
            )
        )  # fmt: skip

    def at_yield(self, share: float) -> HomeYear:
        """The first year with the production changed by so much: as reckoned, else used at home to the same share."""
        if self.stepped is not None and abs(share) == STEP_SHARE:
            return self.stepped[int(share > 0.0)]
        return scaled(self.middle, 1.0 + share)

    def expecting(self, share: float) -> "HomeCases":
        """All cases with only so much of the production, used at home to the same share, by night as before."""
        if share == 1.0:
            return self
        return replace(
            self,
            middle=scaled(self.middle, share),
            less_energy=scaled(self.less_energy, share),
            more_energy=scaled(self.more_energy, share),
            less_used=scaled(self.less_used, share),
            more_used=scaled(self.more_used, share),
            stepped=self.stepped and (scaled(self.stepped[0], share), scaled(self.stepped[1], share)),
            every=None,
        )

    def shrunk(self, years: float) -> _Sides:
        """The production's spread over the mean of so many years, as a share of that of one year, to less and to more.

        Nought spread shrinks by nothing.
        """
        less, more = zip(self.steady_sd_share, self.yearly_sd_share, strict=True)
        return _shrunk(*less, years), _shrunk(*more, years)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class SavingCases:
    """Yearly savings in the middle and one step off it for each cause; arrays of shape (years,).

    ``others``: further causes. ``most``: (years,) what energy can save at all, at the prices as they are known: the
    home's bill and what surplus earns at most; None where that is no limit. ``least``: (years,) below which no cause
    lowers it, at the same prices.
    """

    middle: Floats
    by_energy: tuple[Floats, Floats]
    by_use: tuple[Floats, Floats]
    others: tuple[tuple[Floats, Floats], ...] = ()
    most: Floats | None = None
    least: Floats | None = None

    def ends(self, energy_shares: _Sides | Floats, price_sd_share: float) -> tuple[Floats, Floats]:
        """Cautious and hopeful savings of each year, with so much of the one-year spread of production left.

        ``energy_shares``: of its less and of its more. Several of each, shape (2, n, 1), give arrays of (n, years).
        """
        return self.squares().ends(energy_shares, price_sd_share)

    def squares(self) -> "Squares":
        """The steps of each cause; of those that stay with the years, squared once for all horizons."""
        less, more = self.by_energy
        down, up = _steps(self.middle, *self.by_use)
        for ends in self.others:
            below, above = _steps(self.middle, *ends)
            down, up = down + below, up + above
        room = None if self.most is None else np.maximum(self.most - self.middle, 0.0) ** 2
        fall = None if self.least is None else np.maximum(self.middle - self.least, 0.0) ** 2
        by_energy = less - self.middle, more - self.middle
        return Squares(middle=self.middle, by_energy=by_energy, down=down, up=up, room=room, fall=fall)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Squares:
    """Savings in the middle, what less and more energy move them by, and the squares of all other steps down and up.

    ``room`` and ``fall``: the squares of the steps up and down that both come to at most; None where nothing limits it.
    """

    middle: Floats
    by_energy: tuple[Floats, Floats]
    down: Floats
    up: Floats
    room: Floats | None = None
    fall: Floats | None = None

    def ends(self, energy_shares: _Sides | Floats, price_sd_share: float) -> tuple[Floats, Floats]:
        """As ``SavingCases.ends``."""
        less, more = (step * share for step, share in zip(self.by_energy, energy_shares, strict=True))
        price = (Z_90 * price_sd_share * self.middle) ** 2
        down = np.minimum(np.minimum(less, more), 0.0) ** 2 + self.down
        up = np.maximum(np.maximum(less, more), 0.0) ** 2 + self.up
        if self.room is not None:
            up = np.minimum(up, self.room)
        if self.fall is not None:
            down = np.minimum(down, self.fall)
        return self.middle - np.sqrt(down + price), self.middle + np.sqrt(up + price)


def _steps(middle: Floats, one: Floats, other: Floats) -> tuple[Floats, Floats]:
    """Squares of how far the lower of two ends lies below the middle, and the higher above it."""
    below, above = np.minimum(one, other) - middle, np.maximum(one, other) - middle
    return np.minimum(below, 0.0) ** 2, np.maximum(above, 0.0) ** 2


def _shrunk(steady_sd_share: float, yearly_sd_share: float, years: float) -> float:
    one = steady_sd_share**2 + yearly_sd_share**2
    return 1.0 if one == 0.0 else sqrt((steady_sd_share**2 + yearly_sd_share**2 / years) / one)


def spread_of(parts: Iterable[SpreadPart]) -> tuple[_Sides, _Sides]:
    """Relative standard deviations, steady and year to year, of a production's parts of spread, to less and to more.

    >>> spread_of([SpreadPart("climate_data", 0.03), SpreadPart("rating", 0.04, 0.0), SpreadPart("year_to_year", 0.02)])
    ((0.05, 0.03), (0.02, 0.02))
    """
    parts = tuple(parts)
    steady, yearly = (
        combined_sd_share(part for part in parts if (part.code == YEAR_TO_YEAR) is weather) for weather in (False, True)
    )
    return steady, yearly


def band_of_steps(middle: float, pairs: Iterable[tuple[float, float]], most: float = inf, least: float = -inf) -> Band:
    """A band from what each independent cause makes of a figure at its less happy and at its happier end.

    ``most``: what the figure can be at all when every cause is at its happier end, say the lesser of what is given and
    what is needed then. It does not lower the middle, nor does ``least``, below which no cause takes it, raise it.

    >>> band_of_steps(100.0, [(97.0, 102.0), (96.0, 100.0)])
    Band(cautious=95.0, middle=100.0, hopeful=102.0)
    """
    down = up = 0.0
    for ends in pairs:
        down += max(middle - min(ends), 0.0) ** 2
        up += max(max(ends) - middle, 0.0) ** 2
    return Band(min(max(middle - sqrt(down), least), middle), middle, max(min(middle + sqrt(up), most), middle))


def beside_at_least(band: Band, other: Band, more: float) -> Band:
    """A band of what is, whatever happens, at least so much ``more`` than ``other``; the middle is kept.

    >>> beside_at_least(Band(80.0, 100.0, 110.0), Band(85.0, 96.0, 112.0), 0.0)
    Band(cautious=85.0, middle=100.0, hopeful=112.0)
    """
    middle = band.middle
    if middle is None or None in (band.cautious, band.hopeful, other.cautious, other.hopeful):
        return band
    cautious, hopeful = (max(one or 0.0, (least or 0.0) + more) for one, least in
                         ((band.cautious, other.cautious), (band.hopeful, other.hopeful)))  # fmt: skip
    return Band(min(cautious, middle), middle, hopeful)


def ends_over_middle(band: Band) -> tuple[float, float]:
    """The cautious and the hopeful end over the middle; 1 where there is none.

    >>> ends_over_middle(Band(90.0, 100.0, 120.0))
    (0.9, 1.2)
    """
    middle = band.middle
    if not middle or band.cautious is None or band.hopeful is None:
        return 1.0, 1.0
    return band.cautious / middle, band.hopeful / middle
