"""What did inputs that were logged apart give, and what were they to give, in the hours that all of them know?"""

from collections.abc import Mapping

import numpy as np

from service.core.logbook.diagnosis.input_weak import SharedDays
from service.core.logbook.expected import DAY_S, Expected, reference_rows
from service.core.logbook.grid import spread_over
from service.core.logbook.inputs import courses_of, place_of
from service.core.logbook.log import Log
from service.core.logbook.pieces import Course, Pieces
from service.core.logbook.zones import Zone
from service.core.model.hours import Bools, Floats

_LONG_STEPS = 1.5


def shared_days(log: Log, usable: Bools, now: Expected, panels: Mapping[int, int], zone: Zone) -> SharedDays | None:
    """The days of a log by input.

    Args:
        log: in order.
        usable: of the whole set's pieces, those that compare.
        now: what was to be expected of the whole set.
        panels: how many each input has.
        zone: of the site.

    Returns:
        None where fewer than two inputs with panels were logged.
    """
    total, shares = log.total, log.shares
    fed = [at for at, (number, one) in enumerate(log.inputs) if number in panels and one.energy_wh.size]
    if len(fed) < 2 or shares is None or not usable.any():
        return None
    courses = courses_of(log.inputs, shares)
    whole = courses.of_set.between(total.begin_s, total.end_s)
    set_wh = now.course.between(total.begin_s, total.end_s)
    middle = total.begin_s + total.seconds // 2
    days = zone.day_of(middle)
    first = int(days[0])
    by_day = days - first
    count = int(by_day[-1]) + 1
    shared = usable & (total.seconds <= _LONG_STEPS * total.step_s)
    energy, expected = [], []
    for at in fed:
        one, course = log.inputs[at][1], courses.of_input[at]
        part = np.divide(course.between(total.begin_s, total.end_s), whole, out=np.zeros(whole.size), where=whole > 0.0)
        energy.append(_sums(spread_over(one, course), total))
        expected.append(part * set_wh)
        shared &= _short(one, total)
    noon = _before_noon(middle, set_wh)

    def of_days(amounts: list[Floats], where: Bools) -> Floats:
        return np.array([np.bincount(by_day[where], weights=one[where], minlength=count) for one in amounts])

    day = first + np.arange(count)
    year_day = reference_rows(day * DAY_S + DAY_S // 2, 0) // 24
    each = [shares.numbers.index(log.inputs[at][0]) for at in fed]
    return SharedDays(
        numbers=tuple(log.inputs[at][0] for at in fed),
        panels=tuple(panels[log.inputs[at][0]] for at in fed),
        day=day,
        energy=of_days(energy, shared),
        expected=of_days(expected, shared),
        morning_energy=of_days(energy, shared & noon),
        morning_expected=of_days(expected, shared & noon),
        whole_expected=of_days(expected, np.ones(shared.size, dtype=np.bool_)),
        day_log_sd=shares.day_log_sd[each][:, year_day],
        rounding_wh=max(log.inputs[at][1].resolution_wh for at in fed),
        by_the_hour=total.step_s <= DAY_S // 8,
    )


def read_by_step(log: Log) -> Bools:
    """In which of the set's pieces no input's counter makes a gap good: what that brought has no course."""
    read = np.ones(log.total.energy_wh.size, dtype=np.bool_)
    for _, one in log.inputs:
        if one.energy_wh.size > 1:
            read &= _short(one, log.total) | (place_of(one, log.total.begin_s, log.total.end_s) < 0)
    return read


def _sums(pieces: Pieces, total: Pieces) -> Floats:
    return Course.of_pieces(pieces, pieces.energy_wh).between(total.begin_s, total.end_s)


def _short(pieces: Pieces, total: Pieces) -> Bools:
    """In which of the set's pieces an input's own reading spans no gap."""
    at = place_of(pieces, total.begin_s, total.end_s)
    return np.asarray((at >= 0) & (pieces.seconds[at] <= _LONG_STEPS * pieces.step_s) & ~pieces.at_least[at])


def _before_noon(middle_s: np.ndarray, expected_wh: Floats) -> Bools:
    """Which moments lie before the middle of what a day was to give."""
    turn = np.exp(2j * np.pi * (middle_s % DAY_S) / DAY_S)
    noon = float(np.angle((expected_wh * turn).sum())) / (2.0 * np.pi) * DAY_S
    away = (middle_s - noon + DAY_S / 2.0) % DAY_S - DAY_S / 2.0
    return np.asarray(away < 0.0)
