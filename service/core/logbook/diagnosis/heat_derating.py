"""Does the inverter hold back when it is hot: a lid that sinks with air, sun and its own warmth?"""

from collections.abc import Mapping

import numpy as np

from service.core.logbook.diagnosis.compared import Compared, fitted
from service.core.logbook.diagnosis.lost_to_lid import LoggedSteps
from service.core.logbook.diagnosis.set_model import SetModel
from service.core.model.hours import Floats

# How warm an inverter behind a panel gets over the air, K: at full power, and in full sun. Judgement.
_OWN_K, _SUN_K = 28.0, 11.0
_FROM_C = (36.0, 41.0, 46.0, 51.0)
_PER_K_SHARE = (0.02, 0.04)
_LEAST_LID = 0.2


def heat_evidence(compared: Compared, free_w: Floats, stated_misfit: float) -> Mapping[str, float]:
    """The lid that explains most.

    Returns:
        ``heat_gain``: logarithm of misfits, without over with the lid; ``heat_from_c``: from which warmth on;
        ``heat_per_k_share``: how fast; ``heat_energy_share``: what it takes of the compared days beside their levels
        without it; ``heat_slope``: the residual of powerful steps over warmth, per K.
    """
    model = compared.model
    plain = fitted(compared, free_w, model.limit_w)
    level = plain.level[compared.day][compared.parts.at]
    power = np.minimum(free_w * level, model.limit_w)
    total = max(float(compared.weight @ compared.power_w), 1e-9)
    weather = compared.scene.weather
    warmth = _warmth_c(model, power, weather.air_c, weather.ghi_w_per_m2)
    best = (stated_misfit, 0.0, 0.0, 0.0)
    for from_c in _FROM_C:
        for per_k in _PER_K_SHARE:
            found = _under_lid(compared, free_w, _lid_w(model, warmth, from_c, per_k))
            misfit = float(compared.weight @ np.abs(compared.power_w - found)) / total
            if misfit < best[0]:
                lost = 1.0 - float(compared.weight @ found) / max(float(compared.weight @ plain.power_w), 1e-9)
                best = (misfit, from_c, lost, per_k)
    return {
        "heat_gain": float(np.log(max(stated_misfit, 1e-3) / max(best[0], 1e-3))),
        "heat_from_c": best[1],
        "heat_energy_share": best[2],
        "heat_per_k_share": best[3],
        "heat_slope": _slope(compared, plain.power_w, warmth),
    }


def heat_lid_w(
    model: SetModel, steps: LoggedSteps, air_c: Floats, ghi_w_per_m2: Floats, lid: tuple[float, float]
) -> Floats:
    """The lid of each step (n,) in air and light of its time; ``lid``: from which warmth on, by how much per K."""
    return _lid_w(model, _warmth_c(model, np.minimum(steps.free_w, steps.limit_w), air_c, ghi_w_per_m2), *lid)


def _warmth_c(model: SetModel, power_w: Floats, air_c: Floats, ghi_w_per_m2: Floats) -> Floats:
    return np.asarray(air_c + _OWN_K * power_w / model.ac_power_w + _SUN_K * ghi_w_per_m2 / 1000.0)


def _lid_w(model: SetModel, warmth_c: Floats, from_c: float, per_k: float) -> Floats:
    return np.asarray(model.ac_power_w * np.clip(1.0 - per_k * np.maximum(warmth_c - from_c, 0.0), _LEAST_LID, 1.0))


def _under_lid(compared: Compared, free_w: Floats, lid: Floats) -> Floats:
    """Power of the steps under the lid, each day's level taken where the lid does not cut."""
    level = np.ones(compared.days)
    steps, lids = compared.in_steps(free_w), compared.in_steps(np.minimum(lid, compared.model.limit_w))
    for _ in range(2):
        under = compared.weight * (steps * level[compared.day] < 0.93 * lids)
        free = np.bincount(compared.day, under * steps, minlength=compared.days)
        logged = np.bincount(compared.day, under * compared.power_w, minlength=compared.days)
        level = np.divide(logged, free, out=np.ones(compared.days), where=free > 0.0)
    cut = np.minimum(free_w * level[compared.day][compared.parts.at], np.minimum(lid, compared.model.limit_w))
    return compared.in_steps(cut)


def _slope(compared: Compared, power_w: Floats, warmth_c: Floats) -> float:
    """Change of the logged over the supposed power with warmth, per K, over steps of more than half power; clipped."""
    strong = (power_w > 0.5 * min(compared.model.ac_power_w, compared.model.rated_w)) & (compared.weight > 0.0)
    if np.count_nonzero(strong) < 8:
        return 0.0
    count = np.maximum(np.bincount(compared.parts.at, minlength=compared.rows.size), 1)
    warm = (np.bincount(compared.parts.at, warmth_c, minlength=compared.rows.size) / count)[strong]
    ratio = np.clip(compared.power_w[strong] / power_w[strong], 0.3, 1.5)
    spread = float(np.var(warm))
    if spread < 1.0:
        return 0.0
    slope = float(np.mean((warm - warm.mean()) * (ratio - ratio.mean()))) / spread
    return float(np.clip(slope, -0.05, 0.05))
