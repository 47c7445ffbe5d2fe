"""Which cause do the quantities speak for? They are added up, each by its weight, and the scores made to shares.

A softmax of named quantities: what moved a score can be read off, quantity by quantity. The weights come from made-up
logs with known causes (``service/bench/logbook_training.py``).
"""

from collections.abc import Mapping

import numpy as np

from service.core.model.cause_weights import CaseWeights, CauseWeights
from service.core.model.hours import Floats

MOST_SPREADS = 4.0  # a quantity farther from the usual counts as so far
NOTHING_UNUSUAL = "nothing_unusual"
_NEAR_LEVEL = 0.08
_SURE_STEP = 5.0
_GAINS = ("plane", "clock", "limit", "shade", "heat", "dead")


def case_of(*, by_the_hour: bool, with_weather: bool) -> str:
    """Name of the case."""
    return f"{'hours' if by_the_hour else 'days'}_{'weather' if with_weather else 'alone'}"


def weighed(named: Mapping[str, float]) -> dict[str, float]:
    """The quantities with those that follow from several of them: nearness to a known level, one gain over another."""
    found = dict(named)
    for lead in ("", "s_", "w_"):
        if f"{lead}level" in named:
            found |= {f"{lead}{name}": value for name, value in _of_levels(named, lead).items()}
        if f"{lead}plane_gain" in named:
            found |= {f"{lead}{name}": value for name, value in _of_gains(named, lead).items()}
            found |= {f"{lead}{name}": value for name, value in _cases(found, lead).items()}
    if "quiet_dips_per_h" in named:
        high = min(max(named["dip_height"] - 1.0, 0.0) / 0.2, 1.0)
        found["trips_case"] = min(named["quiet_dips_per_h"] / 0.5, 1.0) * high
    return found


def _of_levels(named: Mapping[str, float], lead: str) -> dict[str, float]:
    level, step = named[f"{lead}level"], named[f"{lead}level_step"]
    sure = min(named[f"{lead}level_step_sureness"] / _SURE_STEP, 1.0)
    found = {
        "level_below": max(-level - 0.08, 0.0),
        "level_above": max(level - 0.08, 0.0),
        "top_below": max(-named[f"{lead}level_top"] - 0.06, 0.0),
        "sure_fall": sure * max(-step, 0.0),
        "sure_rise": sure * max(step, 0.0),
    }
    shares = lead if f"{lead}dead_share" in named else ""
    if f"{lead}dead_step_base" in named:
        for cause in ("dead", "section"):
            share = named[f"{shares}{cause}_share"]
            found[f"{cause}_near"] = _near(level - share)
            for kind in ("step", "mixed"):
                base = named[f"{lead}{cause}_{kind}_base"]
                found[f"{cause}_{kind}_fits"] = named[f"{lead}{cause}_{kind}_gain"] * _near(base / 1.5)
            found[f"{cause}_step"] = sure * _near(step - share)
            found[f"{cause}_after_near"] = sure * _near(named[f"{lead}level_after"] - share)
    return found


def _near(off: float) -> float:
    return float(np.exp(-0.5 * (off / _NEAR_LEVEL) ** 2))


def _of_gains(named: Mapping[str, float], lead: str) -> dict[str, float]:
    """Each supposition's gain beside the best of the others, and how sure a turn of the plane is."""
    gains = {name: named[f"{lead}{name}_gain"] for name in _GAINS}
    found = {}
    for name, gain in gains.items():
        others = max(value for other, value in gains.items() if other != name)
        found[f"{name}_ahead"] = max(gain - max(others, 0.0), 0.0)
    days = float(np.exp(named["log_clear_days"]))
    found["plane_gain_sure"] = gains["plane"] * min(np.sqrt(days / 6.0), 2.0)
    found["shade_gain_sure"] = gains["shade"] * min(np.sqrt(days / 6.0), 2.0)
    found["tilt_over_width"] = named[f"{lead}tilt_by_deg"] / named[f"{lead}tilt_half_width_deg"]
    found["azimuth_over_width"] = named[f"{lead}azimuth_by_deg"] / named[f"{lead}azimuth_half_width_deg"]
    found["clock_hours_gain"] = gains["clock"] * min(named[f"{lead}clock_fast_h"], 1.0)
    low_top = max(1.0 - named[f"{lead}top_under_limit"], 0.0)
    found["top_full_below_limit"] = named[f"{lead}top_full_share"] * min(low_top / 0.1, 1.0)
    return {name: float(value) for name, value in found.items()}


def _cases(found: Mapping[str, float], lead: str) -> dict[str, float]:
    """How strong a case is, 0 to 1: all that has to come together for a cause, multiplied."""

    def of(name: str) -> float:
        return float(np.nan_to_num(found.get(f"{lead}{name}", 0.0)))

    def much(name: str, scale: float) -> float:
        return 1.0 - float(np.exp(-max(of(name), 0.0) / scale))

    turn = min(max(of("tilt_by_deg") / 14.0, of("azimuth_by_deg") / 20.0), 1.0)
    sure_turn = min(max(of("tilt_over_width"), of("azimuth_over_width")) / 2.5, 1.0)
    low_top = min(max(1.0 - of("top_under_limit"), 0.0) / 0.08, 1.0)
    stepped = max(of("dead_step_fits"), of("dead_mixed_fits"), of("dead_gain"), 0.0)
    return {
        "plane_case": much("plane_gain", 0.3) * much("plane_ahead", 0.12) * turn * sure_turn,
        "clock_case": much("clock_gain", 0.4) * much("clock_ahead", 0.12),
        "limit_case": much("limit_gain", 0.15) * of("top_full_share") * low_top,
        "shade_case": much("shade_gain", 0.25) * much("shade_ahead", 0.1) * min(of("shade_energy_share") / 0.03, 1.0),
        "heat_case": much("heat_gain", 0.2) * much("heat_ahead", 0.08),
        "dead_case": 1.0 - float(np.exp(-stepped / 0.3)),
        "dead_by_course_case": much("dead_gain", 0.3) * much("dead_ahead", 0.1) * _near(of("dead_level") / 2.0),
        "drift_case": much("drift_gain", 0.15) * of("drift_up_share") * min(of("drift_depth") / 0.06, 1.0),
    }


def sureness_of(named: Mapping[str, float], weights: CauseWeights, case: str) -> dict[str, float]:
    """Share of sureness of each cause, nothing_unusual among them; together 1.

    Args:
        named: the quantities of ``evidence``.
        weights: of all cases.
        case: see ``case_of``.
    """
    of_case = weights.cases[case]
    score = of_case.constant + spreads_of(weighed(named), of_case) @ of_case.weight
    share = np.exp(score - score.max())
    share /= share.sum()
    return dict(zip(weights.causes, share.tolist(), strict=True))


def spreads_of(named: Mapping[str, float], of_case: CaseWeights) -> Floats:
    """How far each quantity lies from the usual, in spreads (q,); one that is not known counts as usual."""
    values = np.array([named.get(name, usual) for name, usual in zip(of_case.quantities, of_case.usual, strict=True)])
    values = np.where(np.isfinite(values), values, of_case.usual)
    return np.clip((values - of_case.usual) / of_case.spread, -MOST_SPREADS, MOST_SPREADS)
