"""Does one of the inputs give nothing, or a panel two thirds, all the time or on some days?

Both are seen in the level: with one input dead only the other's share is left, and where the panels look into different
directions the day's course is the other's. A lost bypass section takes a third of one panel, whatever its light.
"""

from collections.abc import Mapping

import numpy as np

from service.core.logbook.diagnosis.compared import Compared, Fit, fitted
from service.core.logbook.diagnosis.day_levels import DayLevels, pattern_evidence
from service.core.logbook.diagnosis.frame import Parts
from service.core.logbook.diagnosis.set_model import SetModel, Weather, dc_of_arrays, scene_of

SECTION_SHARE = 1.0 / 3.0  # of a panel, behind one of its three bypass diodes
_NEAR = 0.07  # logarithm of a level that is still taken for another
NO_OTHER_INPUT = 1.5  # logarithm of a level that no set has: nothing is left to compare with


def input_evidence(compared: Compared, levels: DayLevels, stated: Fit) -> Mapping[str, float]:
    """How well the log agrees with an input dead, or with a section lost.

    Besides what ``pattern_evidence`` says of the days: ``dead_level``: logarithm of the usual level were the likeliest
    input dead (nought: just right); ``dead_gain``: how much better that explains the course (logarithm of misfits);
    ``dead_by_day_gain``: the same where each day may be of either kind; ``dead_days_share``: days at the level of a
    dead input, the others at the usual one; the same for ``section``.
    """
    stated_misfit = max(stated.misfit, 1e-3)
    dc = np.array(dc_of_arrays(compared.model, compared.scene))
    inputs = [array.input for array in compared.model.arrays]
    energy = float(compared.in_steps(np.minimum(compared.free_w(dc.sum(axis=0)), compared.model.limit_w)).sum())
    results: dict[str, float] = {}
    dead = [_supposed(compared, dc * _alive(inputs, one)[:, None], energy) for one in sorted(set(inputs))]
    if len(dead) < 2:
        dead = [(NO_OTHER_INPUT, stated, NO_OTHER_INPUT)]
    section = [
        _supposed(compared, dc * _one_less(len(inputs), k, array.count)[:, None], energy)
        for k, array in enumerate(compared.model.arrays)
    ]
    for name, found in (("dead", dead), ("section", section)):
        level, fit, share = min(found, key=lambda one: abs(one[0]) + one[1].misfit / stated_misfit)
        results[f"{name}_level"] = level
        results[f"{name}_gain"] = float(np.log(stated_misfit / max(fit.misfit, 1e-3)))
        results[f"{name}_by_day_gain"] = max(_by_day_gain(stated, one) for _, one, _ in found)
        results[f"{name}_days_share"] = _days_at(levels, share)
        results[f"{name}_share"] = share
        patterns = [pattern_evidence(levels, left) for left in sorted({round(left, 2) for _, _, left in found})]
        pattern = max(patterns, key=lambda one: np.nan_to_num(max(one["step_gain"], one["mixed_gain"])))
        results |= {f"{name}_{key}": value for key, value in pattern.items()}
    return results


def shares_left(model: SetModel, parts: Parts, weather: Weather) -> dict[str, float]:
    """Where only days are known: logarithm of what an input dead (``dead_share``) and a section lost leave of a set.

    Of several inputs the one that leaves the least, of several arrays the one whose section costs the most.
    """
    dc = np.array(dc_of_arrays(model, scene_of(model, parts, weather)))
    inputs = [array.input for array in model.arrays]

    def left(factor: np.ndarray[tuple[int, ...], np.dtype[np.float64]]) -> float:
        whole, some = (np.minimum(model.ac_w(one), model.limit_w).sum() for one in (dc.sum(axis=0), factor @ dc))
        return float(np.log(max(some / max(float(whole), 1e-9), 0.01)))

    dead = [left(_alive(inputs, one)) for one in sorted(set(inputs))]
    section = [left(_one_less(len(inputs), k, array.count)) for k, array in enumerate(model.arrays)]
    return {
        "dead_share": min(dead) if len(dead) > 1 else NO_OTHER_INPUT,
        "section_share": min(section, default=NO_OTHER_INPUT),
    }


def _alive(inputs: list[int], dead: int) -> np.ndarray[tuple[int, ...], np.dtype[np.float64]]:
    return np.array([0.0 if one == dead else 1.0 for one in inputs])


def _one_less(arrays: int, at: int, count: int) -> np.ndarray[tuple[int, ...], np.dtype[np.float64]]:
    factor = np.ones(arrays)
    factor[at] = 1.0 - SECTION_SHARE / count
    return factor


def _supposed(
    compared: Compared, dc: np.ndarray[tuple[int, ...], np.dtype[np.float64]], energy: float
) -> tuple[float, Fit, float]:
    """Logarithm of the usual level, the fit, and logarithm of what is left of the stated ``energy``."""
    free = compared.free_w(dc.sum(axis=0))
    fit = fitted(compared, free, compared.model.limit_w)
    left = float(compared.in_steps(np.minimum(free, compared.model.limit_w)).sum()) / max(energy, 1e-9)
    return float(np.log(max(fit.usual_level, 0.05))), fit, float(np.log(max(left, 0.01)))


def _by_day_gain(stated: Fit, supposed: Fit) -> float:
    either = np.minimum(stated.day_misfit, supposed.day_misfit)
    return float(np.log(max(float(np.median(stated.day_misfit)), 1e-3) / max(float(np.median(either)), 1e-3)))


def _days_at(levels: DayLevels, share: float) -> float:
    """Share of days that lie by ``share`` below the best days, give or take."""
    if levels.level.size == 0:
        return 0.0
    top = float(np.quantile(levels.log, 0.85))
    return float(np.mean(np.abs(levels.log - top - share) < _NEAR))
