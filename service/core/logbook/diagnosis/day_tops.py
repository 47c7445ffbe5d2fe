"""Which level do the best hours of each day show, and is it one level, a fall, or two levels in turn?

Nearly every day has an hour or so of sun: its best hour tells the level where clear days are too few. Most best hours
lie close to the set's level, the others anywhere below (dull days), none far above. By that likelihood what was
supposed (nothing, an input dead or a section lost: always, from a day on, or on some days) is compared.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import product
from statistics import NormalDist

import numpy as np

from service.core.logbook.diagnosis.frame import HOUR_S, Frame
from service.core.model.hours import Floats, Ints

_HIGH_SHARE = 0.5  # of the day's cloudless top
_SUNNY_SHARE, _SD, _DULL_SCALE = 0.5, 0.06, 0.5
_BASE_SD = 0.08  # of a sound set's level, by its rating, dirt and the place's air
_LEVELS = np.arange(-2.2, 0.42, 0.02)  # logarithms
_LEAST_DAYS, _MOST_CUTS = 6, 40
_FARTHEST = 1e-4
# So much likelier a fall has to be (logarithms) before it is told by itself; sound logs of 170 reached 9.6 at most.
_FALL_GAIN, _FALL_AHEAD, _LEAST_A_SIDE = 11.0, 4.0, 3
# The normal distribution by steps of its deviation, read on straight lines: within 4e-6, without a library of 27 MB.
_DEVIATIONS = np.arange(-8.0, 8.005, 0.01)
_NORMAL = np.array([NormalDist().cdf(at) for at in _DEVIATIONS])


def day_tops(frame: Frame, cloudless_w: Floats) -> tuple[Floats, Ints]:
    """Logarithm of each day's best hour over a cloudless one of the stated set, and the number of the day.

    Args:
        frame: the log.
        cloudless_w: (n,) power of the stated set under a cloudless sky, limit in.
    """
    together = max(HOUR_S // frame.step_s, 1)
    size = frame.power_w.size
    if size < together:
        return np.empty(0), np.empty(0, dtype=np.int64)
    top = np.zeros(frame.days)
    np.maximum.at(top, frame.day, cloudless_w)
    usable = np.isfinite(frame.power_w) & (cloudless_w > _HIGH_SHARE * top[frame.day]) & (cloudless_w > 5.0)

    def run(values: Floats) -> Floats:
        sums = np.concatenate([[0.0], np.cumsum(values)])
        return np.asarray(sums[together:] - sums[:-together])

    whole = run(usable.astype(np.float64)) >= together - 0.5
    made = run(np.asarray(np.where(usable, frame.power_w, 0.0), dtype=np.float64))
    light = run(np.asarray(np.where(usable, cloudless_w, 0.0), dtype=np.float64))
    ratio = np.where(whole, made / np.maximum(light, 1e-9), 0.0)
    best = np.zeros(frame.days)
    np.maximum.at(best, frame.day[: ratio.size], ratio)
    days = np.flatnonzero(best > np.exp(_LEVELS[0]))
    return np.log(best[days]), days


def tops_evidence(tops_log: Floats, shares: Mapping[str, float]) -> Mapping[str, float]:
    """How much likelier each supposition is than that nothing is wrong.

    Args:
        tops_log: (d,) logarithms in order of time.
        shares: by cause, the logarithm of what it leaves; 0 or more: there is no such cause.

    Returns:
        ``tops_level``: logarithm of the likeliest single level; for each cause ``tops_<cause>_always``, ``_step``,
        ``_mixed``: signed logarithm of 1 + the gain in logarithm of likelihood; ``tops_<cause>``: of the best of them,
        beside the best of the other causes and of no cause but a level of its own. All nan where days are too few.
    """
    names = [f"tops_{cause}_{kind}" for cause, kind in product(shares, ("always", "step", "mixed"))]
    names += ["tops_level", "tops_level_gain", *(f"tops_{cause}" for cause in shares)]
    if tops_log.size < _LEAST_DAYS:
        return dict.fromkeys(names, float("nan"))
    table = _likelihood(tops_log[:, np.newaxis] - _LEVELS)
    sums = np.concatenate([np.zeros((1, _LEVELS.size)), np.cumsum(table, axis=0)])
    sound = -0.5 * (_LEVELS / _BASE_SD) ** 2
    nothing = float((sums[-1] + sound).max())
    free = float(sums[-1].max())
    gains: dict[str, float] = {}
    for cause, share in shares.items():
        if share >= 0.0:
            gains |= dict.fromkeys((f"tops_{cause}_{kind}" for kind in ("always", "step", "mixed")), 0.0)
            continue
        always = float((sums[-1] - 0.5 * ((_LEVELS - share) / _BASE_SD) ** 2).max())
        fallen = np.clip(np.rint((_LEVELS + share - _LEVELS[0]) / 0.02).astype(np.int64), 0, _LEVELS.size - 1)
        cuts = np.unique(np.linspace(1, tops_log.size - 2, _MOST_CUTS).astype(np.int64))
        step = float((sums[cuts] + (sums[-1] - sums[cuts])[:, fallen] + sound).max()) - np.log(cuts.size)
        mixed = float((np.logaddexp(table, table[:, fallen]).sum(axis=0) - tops_log.size * np.log(2.0) + sound).max())
        for kind, found in (("always", always), ("step", step), ("mixed", mixed)):
            gains[f"tops_{cause}_{kind}"] = found - nothing
    best = {cause: max(gains[f"tops_{cause}_{kind}"] for kind in ("always", "step", "mixed")) for cause in shares}
    beside = {
        cause: own - max([0.0, free - nothing - 2.0, *(other for name, other in best.items() if name != cause)])
        for cause, own in best.items()
    }
    told = gains | {f"tops_{cause}": gain for cause, gain in beside.items()} | {"tops_level_gain": free - nothing}
    small = {name: float(np.sign(gain) * np.log1p(abs(gain))) for name, gain in told.items()}
    return {"tops_level": float(_LEVELS[int(np.argmax(sums[-1]))]), **small}


@dataclass(frozen=True, slots=True, kw_only=True)
class Fall:
    """A fall of the best hours by what an input dead leaves, from a day on.

    ``left_share``: of the level before; ``at_share``: where in the log; ``since_day``: counted from 1 January 1970;
    ``days_before``, ``days_after`` told; ``log_gain``: how much likelier than no fall (a logarithm), ``log_ahead``:
    than any other course of the best hours; ``sureness_share``: by those.
    """

    left_share: float
    at_share: float
    since_day: int
    days_before: int
    days_after: int
    log_gain: float
    log_ahead: float
    sureness_share: float


def fall_of(tops_log: Floats, day: Ints, named: Mapping[str, float]) -> Fall | None:
    """The fall, where the best hours plainly show one.

    Args:
        tops_log: (d,) logarithms in order of time.
        day: (d,) the days, from 1 January 1970.
        named: what ``tops_evidence`` says of them, and ``dead_share``.
    """
    share = named["dead_share"]
    gain, ahead = (float(np.sign(one) * np.expm1(abs(one))) for one in (named["tops_dead_step"], named["tops_dead"]))
    if share >= 0.0 or not (gain > _FALL_GAIN and ahead > _FALL_AHEAD):
        return None
    table = _likelihood(tops_log[:, np.newaxis] - _LEVELS)
    sums = np.concatenate([np.zeros((1, _LEVELS.size)), np.cumsum(table, axis=0)])
    fallen = np.clip(np.rint((_LEVELS + share - _LEVELS[0]) / 0.02).astype(np.int64), 0, _LEVELS.size - 1)
    told = (sums + (sums[-1] - sums)[:, fallen] - 0.5 * (_LEVELS / _BASE_SD) ** 2).max(axis=1)
    at = int(np.argmax(told[_LEAST_A_SIDE : tops_log.size - _LEAST_A_SIDE + 1])) + _LEAST_A_SIDE
    if at > tops_log.size - _LEAST_A_SIDE:
        return None
    return Fall(
        left_share=float(np.exp(share)), at_share=at / tops_log.size, since_day=int(day[at]), days_before=at,
        days_after=tops_log.size - at, log_gain=gain, log_ahead=ahead,
        sureness_share=1.0 - 0.5 * float(np.exp(-min(gain / _FALL_GAIN, ahead / _FALL_AHEAD) / 2.0 + 0.5)),
    )  # fmt: skip


def _likelihood(off: Floats) -> Floats:
    """Logarithm of the density of a best hour that lies by ``off`` (a logarithm) above the level."""
    near = np.exp(-0.5 * (off / _SD) ** 2) / (_SD * np.sqrt(2.0 * np.pi))
    dull = np.exp(np.minimum(off, 0.5) / _DULL_SCALE) / _DULL_SCALE * np.interp(-off / _SD, _DEVIATIONS, _NORMAL)
    return np.asarray(np.log(_SUNNY_SHARE * near + (1.0 - _SUNNY_SHARE) * dull + _FARTHEST))
