"""How wide is a saving, without pretending that all bad cases happen together?

Three causes are kept apart: production, the home's habits, and the price to come. Each is carried through the whole
calculation on its own (self-use is recomputed at the cautious and at the hopeful production, because a poor year is
used at home to a larger share), and gives a step down and a step up of the saving. Independent causes combine as the
root of the sum of squares, down and up apart, within what is given and needed and what the bill holds. Year-to-year
weather shrinks with the root of the years summed; the uncertainty of climate data, model, habits and price does not.
"""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from math import inf, sqrt

import numpy as np

from service.core.model.band import Z_90, Band, SpreadPart
from service.core.model.hours import Floats
from service.core.payback import HomeYear, scaled, shifted_use, stacked
from service.core.worth.sensitivity import STEP_SHARE

# The spread part that is weather, different every year; all others stay what they are.
YEAR_TO_YEAR = "year_to_year"

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

    ``steady_sd_share`` and ``yearly_sd_share``: the production's relative standard deviation, weather's year-to-year
    part apart from the rest. ``stepped``: with the production ``STEP_SHARE`` lower and higher, where the hours are
    there to reckon self-use again. ``night``: what the inverter draws from the mains by night, as a home of its own;
    None where that is not known. ``every``: all that an account asks for (``stacked_cases``), stacked once for many
    accounts; None where that is left to the account.
    """

    middle: HomeYear
    less_energy: HomeYear
    more_energy: HomeYear
    less_used: HomeYear
    more_used: HomeYear
    steady_sd_share: float
    yearly_sd_share: float
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

    def shrunk(self, years: float) -> float:
        """The production's spread over the mean of so many years, as a share of that of one year.

        Nought spread shrinks by nothing.
        """
        one = self.steady_sd_share**2 + self.yearly_sd_share**2
        return 1.0 if one == 0.0 else sqrt((self.steady_sd_share**2 + self.yearly_sd_share**2 / years) / one)


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

    def ends(self, energy_share: float | Floats, price_sd_share: float) -> tuple[Floats, Floats]:
        """Cautious and hopeful savings of each year, with so much of the one-year spread of production left.

        Several shares, shape (n, 1), give arrays of shape (n, years).
        """
        return self.squares().ends(energy_share, price_sd_share)

    def squares(self) -> "Squares":
        """The steps of each cause, squared once for all horizons."""
        down, up = zip(*(_steps(self.middle, *ends) for ends in (self.by_energy, self.by_use)), strict=True)
        for ends in self.others:
            below, above = _steps(self.middle, *ends)
            down, up = (down[0], down[1] + below), (up[0], up[1] + above)
        room = None if self.most is None else np.maximum(self.most - self.middle, 0.0) ** 2
        fall = None if self.least is None else np.maximum(self.middle - self.least, 0.0) ** 2
        return Squares(middle=self.middle, down=down, up=up, room=room, fall=fall)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Squares:
    """Savings in the middle and the squares of the steps down and up: by energy, by use and all others.

    ``room`` and ``fall``: the squares of the steps up and down that both come to at most; None where nothing limits it.
    """

    middle: Floats
    down: tuple[Floats, Floats]
    up: tuple[Floats, Floats]
    room: Floats | None = None
    fall: Floats | None = None

    def ends(self, energy_share: float | Floats, price_sd_share: float) -> tuple[Floats, Floats]:
        """As ``SavingCases.ends``."""
        weather, price = energy_share * energy_share, (Z_90 * price_sd_share * self.middle) ** 2
        down, up = (by_energy * weather + by_use for by_energy, by_use in (self.down, self.up))
        if self.room is not None:
            up = np.minimum(up, self.room)
        if self.fall is not None:
            down = np.minimum(down, self.fall)
        return self.middle - np.sqrt(down + price), self.middle + np.sqrt(up + price)


def _steps(middle: Floats, one: Floats, other: Floats) -> tuple[Floats, Floats]:
    """Squares of how far the lower of two ends lies below the middle, and the higher above it."""
    below, above = np.minimum(one, other) - middle, np.maximum(one, other) - middle
    return np.minimum(below, 0.0) ** 2, np.maximum(above, 0.0) ** 2


def spread_of(parts: Iterable[SpreadPart]) -> tuple[float, float]:
    """Relative standard deviations (steady, year to year) of a production's parts of spread.

    >>> spread_of([SpreadPart("climate_data", 0.03), SpreadPart("model", 0.04), SpreadPart("year_to_year", 0.025)])
    (0.05, 0.025)
    """
    steady = yearly = 0.0
    for part in parts:
        if part.code == YEAR_TO_YEAR:
            yearly += part.relative_sd_share**2
        else:
            steady += part.relative_sd_share**2
    return sqrt(steady), sqrt(yearly)


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
