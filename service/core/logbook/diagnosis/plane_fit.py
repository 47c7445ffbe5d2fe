"""Which way do the panels really look, and is the clock right? Read from the course of clear days.

All arrays are taken to be off by the same angles. The misfit to the clear days is looked for on a lattice of turns that
narrows; how far it may move without a telling misfit is its uncertainty.
"""

from collections.abc import Callable, Iterable
from dataclasses import dataclass

import numpy as np

from service.core.logbook.diagnosis.compared import Compared, Fit, fitted
from service.core.logbook.diagnosis.frame import lit_parts
from service.core.logbook.diagnosis.set_model import Weather, dc_of_arrays, scene_of, turned_planes
from service.core.model.climate import PlaceClimate
from service.core.model.hours import Floats

_FIRST_TILTS = (-32.0, -16.0, 0.0, 16.0, 32.0)
_FIRST_AZIMUTHS = (-48.0, -24.0, 0.0, 24.0, 48.0)
_NARROWER = ((8.0, 12.0), (4.0, 6.0), (2.0, 3.0))
_TELLING = 1.10  # a misfit so much greater than the least one is worse beyond doubt, on some ten days


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaneFit:
    """The turn that explains clear days best, degrees from the stated planes; each with its half width.

    ``misfit`` with this turn, ``stated_misfit`` without any, shares of the energy. ``effect_share``: what the stated
    planes would have given more, on the same days, of what they would have given; below 0: they would have given less.
    """

    tilt_by_deg: float
    azimuth_by_deg: float
    tilt_half_width_deg: float
    azimuth_half_width_deg: float
    misfit: float
    stated_misfit: float
    level: float
    effect_share: float


def fit_plane(compared: Compared) -> PlaneFit:
    """Look for the turn of all arrays that leaves the least misfit."""
    tried: dict[tuple[float, float], Fit] = {}
    arrays = compared.model.arrays

    def misfit(tilt_by: float, azimuth_by: float) -> float:
        key = (tilt_by, azimuth_by)
        if key not in tried:
            free = compared.stated_w(turned_planes(arrays, tilt_by, azimuth_by))
            tried[key] = fitted(compared, free, compared.model.limit_w)
        return tried[key].misfit

    best = _least(misfit, [(t, a) for t in _FIRST_TILTS for a in _FIRST_AZIMUTHS])
    for tilt_step, azimuth_step in _NARROWER:
        around = [(best[0] + i * tilt_step, best[1] + j * azimuth_step) for i in (-1, 0, 1) for j in (-1, 0, 1)]
        best = _least(misfit, around)
    least, level = tried[best].misfit, tried[best].usual_level
    widths = _half_widths(tried, best, least)
    return PlaneFit(
        tilt_by_deg=_within(arrays[0].plane.tilt_deg, best[0]),
        azimuth_by_deg=best[1],
        tilt_half_width_deg=widths[0],
        azimuth_half_width_deg=widths[1],
        misfit=least,
        stated_misfit=misfit(0.0, 0.0),
        level=level,
        effect_share=_effect(compared, best),
    )


def _effect(compared: Compared, turn: tuple[float, float]) -> float:
    limit = compared.model.limit_w
    stated = np.minimum(compared.stated_w(), limit).sum()
    turned = np.minimum(compared.stated_w(turned_planes(compared.model.arrays, *turn)), limit).sum()
    return float(1.0 - turned / stated) if stated > 0.0 else 0.0


def _within(tilt_deg: float, by_deg: float) -> float:
    return float(np.clip(tilt_deg + by_deg, 0.0, 90.0) - tilt_deg)


def _least(misfit: Callable[[float, float], float], where: Iterable[tuple[float, float]]) -> tuple[float, float]:
    return min(where, key=lambda at: misfit(*at))


def _half_widths(tried: dict[tuple[float, float], Fit], best: tuple[float, float], least: float) -> tuple[float, float]:
    """How far off the farthest tried turn lies that is not worse beyond doubt; at least a lattice step."""
    close = [at for at, fit in tried.items() if fit.misfit <= _TELLING * least]
    tilt = max((abs(at[0] - best[0]) for at in close), default=0.0)
    azimuth = max((abs(at[1] - best[1]) for at in close), default=0.0)
    return max(tilt, _NARROWER[-1][0]), max(azimuth, _NARROWER[-1][1])


@dataclass(frozen=True, slots=True, kw_only=True)
class ClockFit:
    """How far the log's clock is ahead of the true time, minutes, by what explains clear days best."""

    fast_min: float
    misfit: float
    stated_misfit: float


def fit_clock(
    compared: Compared, weather: Callable[..., Weather], climate: PlaceClimate, shifts_min: Iterable[float]
) -> ClockFit:
    """Try clocks that are ahead by so many minutes; ``weather`` makes the light of shifted parts."""
    results: dict[float, float] = {}
    for shift in sorted({0.0, *shifts_min}, key=abs):
        results[shift] = fitted(compared, shifted_w(compared, weather, climate, shift), compared.model.limit_w).misfit
    best = min(results, key=lambda shift: (results[shift], abs(shift)))
    return ClockFit(fast_min=best, misfit=results[best], stated_misfit=results[0.0])


def shifted_w(compared: Compared, weather: Callable[..., Weather], climate: PlaceClimate, fast_min: float) -> Floats:
    """Power before the limit of the same parts, were the log's clock ahead by so much; nought where it is dark."""
    if fast_min == 0.0:
        return compared.stated_w()
    parts = compared.parts
    moved = lit_parts(parts.middle_s, np.arange(parts.at.size), parts.day, climate, clock_fast_s=round(fast_min * 60.0))
    scene = scene_of(compared.model, moved, weather(moved, climate))
    dc = np.zeros(parts.at.size)
    dc[moved.at] = np.asarray(sum(dc_of_arrays(compared.model, scene)))
    return compared.free_w(dc)
