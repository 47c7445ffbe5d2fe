"""Does the set lose more from year to year than it should? Asked only of logs of most of a year."""

from collections.abc import Mapping

import numpy as np

from service.core.logbook.diagnosis.day_levels import DayLevels

_LEAST_SPAN_DAYS = 240
_LEAST_DAYS = 12


def ageing_evidence(levels: DayLevels) -> Mapping[str, float]:
    """Trend of the level beside a course of the season.

    Returns:
        ``trend_per_year``: of the logarithm; ``trend_sureness``: it over its standard error, -12 to 12; nought where
        the log is too short.
    """
    blank = {"trend_per_year": 0.0, "trend_sureness": 0.0}
    if levels.day.size < _LEAST_DAYS or levels.day[-1] - levels.day[0] < _LEAST_SPAN_DAYS:
        return blank
    years = levels.day / 365.25
    turn = 2.0 * np.pi * years
    columns = np.stack([np.ones(years.size), years - years.mean(), np.cos(turn), np.sin(turn)], axis=1)
    log = levels.log
    weight = levels.weight.copy()
    found = np.zeros(4)
    for _ in range(3):
        root = np.sqrt(weight)[:, None]
        found = np.linalg.lstsq(columns * root, log * root[:, 0], rcond=None)[0]
        rest = log - columns @ found
        scale = max(float(np.median(np.abs(rest))) * 1.48, 0.01)
        weight = levels.weight / np.maximum(np.abs(rest) / (1.5 * scale), 1.0)
    inverse = np.linalg.pinv(columns.T @ (columns * weight[:, None] / max(float(weight.max()), 1e-9)))
    error = scale * float(np.sqrt(max(inverse[1, 1], 1e-12)))
    return {
        "trend_per_year": float(np.clip(found[1], -0.5, 0.5)),
        "trend_sureness": float(np.clip(found[1] / error, -12.0, 12.0)),
    }
