"""What do the logs of neighbours say of the days, and what was to be expected of this set by them?

Flats of one house stand under one sky: how much their sets gave over what each was to give in its season is the best
weather there is, and a set is compared with its house first.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import sqrt

import numpy as np

from service.core.logbook.expected import DAY_S, Expected
from service.core.logbook.grid import spread_out
from service.core.logbook.pieces import Course, Pieces
from service.core.model.band import Z_90
from service.core.model.hours import Bools, Floats

# A day of a neighbour counts if this part of its expected energy was logged.
_KNOWN_SHARE = 0.5
# The neighbours' days are used if they know this part of what the set was to give.
_LEAST_KNOWN_SHARE = 0.6
# Sets of a house differ for label, dirt, shade and plane, each by itself; a day at different planes by more. Judgement.
_SET_SD, _DAY_SD = 0.08, 0.15


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Neighbour:
    """A neighbour's log with what its season was to give; hours of ``season`` as those of the set itself."""

    pieces: Pieces
    usable: Bools
    season: Expected


def from_neighbours(season: Expected, neighbours: Sequence[Neighbour]) -> Expected | None:
    """What was to be expected by the neighbours' days; None where they know too little of them.

    Each day takes the median over the neighbours of logged over expected. Days that none knows keep the season's, at
    the level of the others. With few neighbours a fault of one of them moves it: two are a poor jury.
    """
    days = -(-season.hours_w.size // 24)
    ratios = np.array([_daily(one, season, days) for one in neighbours]).reshape(-1, days)
    known = np.isfinite(ratios).any(axis=0)
    own = _by_day(season.hours_w, days)
    if float(own[known].sum()) < _LEAST_KNOWN_SHARE * float(own.sum()):
        return None
    median = np.full(days, np.nan)
    median[known] = np.nanmedian(ratios[:, known], axis=0)
    level = float((median[known] * own[known]).sum() / own[known].sum())
    factor = np.repeat(np.where(known, median, level), 24)[: season.hours_w.size]
    count = max(int(np.isfinite(ratios).any(axis=1).sum()), 1)
    sd = sqrt(_SET_SD**2 * (1.0 + 1.0 / count))
    hours = season.hours_w * factor
    return replace(
        season,
        hours_w=hours,
        low_w=hours * max(1.0 - Z_90 * sd, 0.0),
        high_w=hours * (1.0 + Z_90 * sd),
        day_sd_share=np.where(np.repeat(known, 24)[: hours.size], _DAY_SD, season.day_sd_share),
        year_sd_share=0.0,
        month_sd_share=0.0,
        basis="peers",
    )


def _daily(one: Neighbour, season: Expected, days: int) -> Floats:
    """(days,) logged over expected, nan where too little was logged."""
    pieces = one.pieces.part(one.usable)
    found = np.full(days, np.nan)
    if not pieces.energy_wh.size:
        return found
    edges = season.first_s + DAY_S * np.arange(days + 1)
    whole = spread_out(pieces, one.season)
    logged = np.diff(Course.of_pieces(whole, whole.energy_wh).at(edges))
    told = np.diff(Course.of_pieces(whole, whole.expected_wh(one.season.course)).at(edges))
    expected = _by_day(one.season.hours_w, days)
    enough = (told > _KNOWN_SHARE * expected) & (expected > 0.0)
    return np.asarray(np.divide(logged, told, out=found, where=enough))


def _by_day(hours_w: Floats, days: int) -> Floats:
    padded = np.zeros(days * 24)
    padded[: hours_w.size] = hours_w
    return np.asarray(padded.reshape(days, 24).sum(axis=1))
