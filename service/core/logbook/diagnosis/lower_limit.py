"""Is the output cut off below the stated limit: flat tops at one height, whatever the sun?"""

from collections.abc import Mapping

import numpy as np

from service.core.logbook.diagnosis.compared import Compared, Fit, fitted
from service.core.model.hours import Bools, Floats

_TOP_SHARE = 0.995  # of the steps lie below what is taken as the top
_AT_TOP = 0.03  # of the top: within it a step counts as at the top
_WANTED_OVER = 1.06  # the supposed power over the top, for a step to be cut
_WIDTHS = (0.0005, 0.001, 0.002, 0.004, 0.008, 0.015)
_LEAST_CROWD, _CROWD_SHARE = 6, 0.55
_LEAST_RUN, _SHORT_S = 3, 1800
_LEAST_RUNS = 3  # one clear noon is flat, too
_TRIED = (0.95, 0.97, 0.985, 1.0, 1.015)


def limit_evidence(power_w: Floats, compared: Compared, free_w: Floats, stated_misfit: float) -> Mapping[str, float]:
    """How flat the tops are.

    Args:
        power_w: all steps of the log.
        compared: clear days, or days with weather.
        free_w: (m,) power of its parts before the limit, as stated.
        stated_misfit: without a lower limit.

    Returns:
        ``top_under_limit``: top over the stated limit; ``limit_gain``: how much better a limit at the top explains the
        courses (logarithm of misfits); ``top_full_share``: of the steps that should lie above the top, how many are at
        it; ``top_wanted_share``: how many steps should lie above it; ``limit_w``: the best limit;
        ``limit_energy_share``: what it takes.
    """
    limit = compared.model.limit_w
    known = power_w[np.isfinite(power_w) & (power_w > 0.02 * limit)]
    if known.size < 5 or compared.power_w.size == 0:
        return {"top_under_limit": 1.0, "limit_gain": 0.0, "top_full_share": 0.0, "top_wanted_share": 0.0,
                "limit_w": limit, "limit_energy_share": 0.0}  # fmt: skip
    top = min(float(np.quantile(known, _TOP_SHARE)), limit)
    fits = {share * top: fitted(compared, free_w, share * top) for share in _TRIED}
    best_w, best = min(fits.items(), key=lambda one: one[1].misfit)
    should = compared.in_steps(free_w * best.level[compared.day][compared.parts.at])
    wanted = (should > _WANTED_OVER * best_w) & (compared.weight > 0.0)
    full = wanted & (np.abs(compared.power_w - best_w) < _AT_TOP * best_w)
    bright = max(int(np.count_nonzero(compared.power_w > 0.3 * best_w)), 1)
    return {
        "top_under_limit": top / limit,
        "limit_gain": float(np.log(max(stated_misfit, 1e-3) / max(best.misfit, 1e-3))),
        "top_full_share": float(np.count_nonzero(full)) / max(int(np.count_nonzero(wanted)), 3),
        "top_wanted_share": float(np.count_nonzero(wanted)) / bright,
        "limit_w": best_w,
        "limit_energy_share": _taken(compared, best, should),
    }


def _taken(compared: Compared, best: Fit, should_w: Floats) -> float:
    stated = float(compared.weight @ np.minimum(should_w, compared.model.limit_w))
    return max(1.0 - float(compared.weight @ best.power_w) / stated, 0.0) if stated > 0.0 else 0.0


def clipped_steps(power_w: Floats, step_s: int) -> Bools:
    """Which steps of a log are cut off by a limit, (n,): they crowd at one height that the log hardly ever passes.

    Args:
        power_w: (n,) in order of time, nan where nothing was logged.
        step_s: length of a step; of short ones three in a row have to lie at the top.

    How near to the top a step has to be follows from the log: the narrowest of some widths in which the steps crowd,
    beside five times that width. Where they crowd in none, or in fewer than three runs, nothing is cut off.
    """
    known = np.isfinite(power_w)
    values = np.where(known, power_w, 0.0)
    none = np.zeros(power_w.size, dtype=np.bool_)
    bright = values[values > 0.0]
    if bright.size < _LEAST_CROWD:
        return none
    top = float(np.quantile(bright, _TOP_SHARE))
    for width in _WIDTHS:
        near = int(np.count_nonzero(bright >= (1.0 - width) * top))
        around = int(np.count_nonzero(bright >= (1.0 - 5.0 * width) * top))
        if near >= _LEAST_CROWD and near >= _CROWD_SHARE * around:
            runs = _in_runs(values >= (1.0 - width) * top, _LEAST_RUN if step_s <= _SHORT_S else 1)
            if np.count_nonzero(np.diff(runs.astype(np.int64)) == 1) < _LEAST_RUNS:
                return none
            beside = np.zeros(values.size, dtype=np.bool_)
            beside[1:] |= runs[:-1]
            beside[:-1] |= runs[1:]
            return np.asarray(runs | (beside & (values >= (1.0 - 2.0 * width) * top)))
    return none


def _in_runs(marked: Bools, least: int) -> Bools:
    """Those of the marked steps that stand in a row of at least so many."""
    edges = np.diff(np.concatenate([[0], marked.astype(np.int64), [0]]))
    begins, ends = np.flatnonzero(edges == 1), np.flatnonzero(edges == -1)
    found = np.zeros(marked.size, dtype=np.bool_)
    for begin, end in zip(begins.tolist(), ends.tolist(), strict=True):
        found[begin:end] = end - begin >= least
    return found
