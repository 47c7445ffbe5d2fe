"""Is the clock of a log off by so many hours that its days lie in the dark?

A clock that is off by two hours or less is found by the course of clear days (``diagnosis``). One that is off by more
moves energy into hours without sun: the middle of the log's days then lies as far from the middle of the sun's, and
moved back by that, the dark is empty again. A panel that looks another way moves the middle too, but gives nothing by
night; a store gives by night, but at no clock only by day.
"""

import numpy as np

from service.core.logbook.expected import HOUR_S, reference_rows, season_of
from service.core.logbook.pieces import Pieces
from service.core.model.hours import Floats

_DAY_S = 24 * HOUR_S
_LEAST_H = 3  # nearer ones show in the course of clear days
_LEAST_DAYS = 5
# Shares of the energy: so much lies in the dark at least by the log's clock (in June three hours move little there),
# and so much at most by the right one, nor more than a part of what did.
_DARK_BEFORE, _DARK_AFTER, _LEFT_OF_IT = 0.003, 0.01, 0.5
# A day's energy as an arrow on the clock's face: of a store, or of a home, it points nowhere.
_LEAST_ARROW = 0.5


def clock_off_h(pieces: Pieces, hours_w: Floats, standard_offset_s: int) -> int:
    """By how many full hours the log's clock is ahead of the true time; 0: by fewer than three, or nobody can tell.

    Args:
        pieces: of the set, in order.
        hours_w: (8760,) what the set gives in the hours of the reference year, standard time.
        standard_offset_s: how far that is ahead of universal time.
    """
    short = pieces.part(pieces.seconds <= HOUR_S)
    moment, energy = (short.begin_s + short.end_s) // 2, short.energy_wh
    total = float(energy.sum())
    if total <= 0.0 or np.unique(moment // _DAY_S).size < _LEAST_DAYS:
        return 0
    season = season_of(hours_w)

    def dark_share(ahead_h: int) -> float:
        rows = reference_rows(moment - ahead_h * HOUR_S, standard_offset_s)
        return float(energy[season[rows] <= 0.0].sum()) / total

    before = dark_share(0)
    if before < _DARK_BEFORE:
        return 0
    expected = season[reference_rows(moment, standard_offset_s)]
    log, sun = _arrow(moment, energy), _arrow(moment, expected)
    if min(abs(log), abs(sun)) < _LEAST_ARROW:
        return 0
    ahead_h = round(float(np.angle(log / sun)) * 12.0 / np.pi)
    right = abs(ahead_h) >= _LEAST_H and dark_share(ahead_h) <= min(_DARK_AFTER, _LEFT_OF_IT * before)
    return ahead_h if right else 0


def _arrow(moment_s: np.ndarray, energy: Floats) -> complex:
    """The mean of the energy's moments as arrows on a clock's face of 24 hours; 1 long where all is at one moment."""
    total = float(energy.sum())
    turns = np.exp(2j * np.pi * (moment_s % _DAY_S) / _DAY_S)
    return complex((energy * turns).sum() / total) if total > 0.0 else 0j
