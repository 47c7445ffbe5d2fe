"""Which values of days, weeks or months, read off by hand, cannot be or stand alone: a digit too many, or one lost?"""

from types import MappingProxyType

import numpy as np

from service.core.logbook.expected import DAY_S
from service.core.logbook.limits import Ceiling
from service.core.logbook.pieces import LogNote
from service.core.logbook.units import OVER_CLEAR
from service.core.logbook.zones import Zone
from service.core.model.finding import Fact
from service.core.model.hours import Bools, Floats, Ints

_LONG_S, _MONTH_S = 0.9 * DAY_S, 20 * DAY_S
# More than a set larger than stated gives under a sky without a cloud, and far more than it gives at other times.
_OVER_OTHERS, _OVER_USUAL = 3.5, 5.0
_UNDER_OTHERS, _ALIVE_SHARE = 0.2, 0.02
_MOST_ODD_SHARE, _MANY = 0.1, 30  # of the rows: what many have is no slip
_THOUSAND = 1000.0


def out_of_line(
    begin_s: Ints, end_s: Ints, energy_wh: Floats, ceiling: Ceiling, zone: Zone, sound: Bools
) -> tuple[Bools, list[LogNote]]:  # fmt: skip
    """Which rows cannot be by the sun, so that they are left out; and what is said of these and of those far below.

    Args:
        begin_s: (n,) Unix seconds, of rows in order.
        end_s: (n,) likewise.
        energy_wh: (n,) of each.
        ceiling: what the set can give.
        zone: of the site.
        sound: (n,) which rows are taken for true so far.
    """
    none = np.zeros(energy_wh.size, dtype=np.bool_)
    seconds = end_s - begin_s
    rows = np.flatnonzero(sound & (seconds >= _LONG_S) & (energy_wh > 0.0))
    if not rows.size or float(np.median(seconds)) < _LONG_S:
        return none, []
    day = zone.day_of(begin_s[rows] + seconds[rows] // 2)
    days = np.maximum(seconds[rows] / DAY_S, 1.0)
    level = energy_wh[rows] / (ceiling.usual_wh(day) * days)
    high = np.flatnonzero(energy_wh[rows] > OVER_CLEAR * ceiling.clear_wh(day) * days)
    low = np.flatnonzero((seconds[rows] >= _MONTH_S) & (level < 0.5))
    usual = _of_the_others(level)
    high = high[level[high] > np.where(np.isnan(usual), _OVER_USUAL, _OVER_OTHERS * usual)[high]]
    low = low[level[low] < (_UNDER_OTHERS * usual)[low]]
    high, low = (some if some.size <= _MOST_ODD_SHARE * level.size + 1 else some[:0] for some in (high, low))
    notes = []
    for code, which in (("too_much_for_the_sun", rows[high]), ("far_below_the_others", rows[low])):
        if which.size:
            far = int(which[np.argmax(energy_wh[which])])
            date = str(zone.day_of(begin_s[far : far + 1]).astype("datetime64[D]")[0])
            facts: dict[str, Fact] = {"kwh": float(energy_wh[far]) / _THOUSAND, "dates": date}
            notes.append(LogNote(code=code, count=int(which.size), facts=MappingProxyType(facts)))
    none[rows[high]] = True
    return none, notes


def _of_the_others(level: Floats) -> Floats:
    """(n,) the median level of the other rows that hold something to speak of; nan where there are none."""
    alive = level > _ALIVE_SHARE
    if level.size >= _MANY:
        return np.full(level.size, np.median(level[alive]) if alive.any() else np.nan)
    others = [level[alive & (np.arange(level.size) != at)] for at in range(level.size)]
    return np.array([np.median(one) if one.size else np.nan for one in others])
