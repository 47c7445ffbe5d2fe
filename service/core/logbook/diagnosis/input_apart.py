"""Does an input go its own way beside the others: another course of the day, or a level that moves?

The log of one input has its own marks of causes, and as many chances to look odd as there are inputs. The sky over them
is one: what is wrong with one input only shows in what it gives over what the others give in the same hours.
"""

from collections.abc import Collection
from math import exp

import numpy as np

from service.core.logbook.diagnosis.input_weak import SharedDays
from service.core.model.hours import Floats

_LEAST_DAYS, _A_BLOCK_DAYS, _LEAST_BLOCKS = 10, 7, 3
_DULL_SHARE = 0.3  # of the better days' energy: less tells little of a level
_UNEVEN_LOG = 0.2  # between forenoon and afternoon, over what planes and shade as stated let expect
_MOVED_LOG, _MOVED_SDS = 0.08, 4.0  # of a level, from week to week
_BY_COURSE = frozenset({"undeclared_shade", "plane_differs", "shade_grown"})
_BY_LEVEL = frozenset({"dirt_drift", "shade_grown", "low_voltage_off"})
BESIDE_ANOTHER = frozenset({"input_dead", "bypass_section_lost"})


def may_have_alone(days: SharedDays, number: int) -> Collection[str]:
    """Causes of one input alone that what it gives beside the others leaves open.

    An input that is dead or has lost a section is told by ``weak_inputs``; what the inverter, the grid or the clock
    does is told by the whole set's log.
    """
    at = days.numbers.index(number)
    others = [k for k in range(len(days.numbers)) if k != at]
    given = days.energy.sum(axis=0)
    good = given > _DULL_SHARE * float(np.quantile(given[given > 0.0], 0.8)) if (given > 0.0).any() else given > 0.0
    if int(np.count_nonzero(good)) < _LEAST_DAYS:
        return frozenset()
    usual_sd = float(days.day_log_sd[at][good].mean())
    found: set[str] = set()
    if days.by_the_hour:
        forenoon = _beside(days.morning_energy[:, good], days.morning_expected[:, good], at, others, together=True)
        afternoon = _beside(
            (days.energy - days.morning_energy)[:, good], (days.expected - days.morning_expected)[:, good], at, others,
            together=True,
        )  # fmt: skip
        if abs(float(forenoon[0] - afternoon[0])) > _UNEVEN_LOG + usual_sd:
            found |= _BY_COURSE
    if _moved(_beside(days.energy[:, good], days.expected[:, good], at, others), usual_sd):
        found |= _BY_LEVEL
    return found


def _beside(energy: Floats, expected: Floats, at: int, others: list[int], *, together: bool = False) -> Floats:
    """Logarithm of what the input gave over what the others gave, beside what was to be expected of that: (d,)."""
    if together:
        energy, expected = energy.sum(axis=1, keepdims=True), expected.sum(axis=1, keepdims=True)
    own, its = energy[at], expected[at]
    rest, rests = energy[others].sum(axis=0), expected[others].sum(axis=0)
    ratio = np.divide(own * rests, rest * its, out=np.ones_like(own), where=(rest > 0.0) & (its > 0.0))
    return np.asarray(np.log(np.clip(ratio, exp(-3.0), exp(3.0))))


def _moved(logs: Floats, usual_sd: float) -> bool:
    """Does its level of a week lie apart from that of another by more than single days let expect?"""
    blocks = logs.size // _A_BLOCK_DAYS
    if blocks < _LEAST_BLOCKS:
        return False
    weeks = np.median(logs[: blocks * _A_BLOCK_DAYS].reshape(blocks, _A_BLOCK_DAYS), axis=1)
    sd = 1.4826 * float(np.median(np.abs(np.diff(logs)))) / np.sqrt(2.0)  # from day to day: the weather's, no drift
    return bool(np.ptp(weeks) > max(_MOVED_LOG, _MOVED_SDS * sd / np.sqrt(_A_BLOCK_DAYS)) + usual_sd)
