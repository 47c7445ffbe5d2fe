"""Does the inverter leave the grid when it sends much: short holes at high output, then a wait and a ramp?

After a trip an inverter waits before it returns (60 s at least after EN 50549-1, up to some minutes by local rules,
from memory) and may climb by 10 % of its rating a minute. Clouds make dips too, but leave diffuse light: a hole goes to
nothing, and on days that are smooth but for their holes there are no clouds.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from service.core.logbook.diagnosis.frame import quantum_of
from service.core.logbook.series import LoggedSeries
from service.core.model.hours import Bools, Floats

_HIGH_SHARE, _SOME_SHARE = 0.5, 0.2  # of the log's top: output about a hole
_HOLE_SHARE, _DIP_SHARE = 0.12, 0.75
_AROUND_S = 2700
_LONGEST_STEP_S = 1800
_ROUNDING_SHARE = 0.06  # of a good step: more may make holes

_Kind = TypeVar("_Kind", np.bool_, np.float64)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Holes:
    """Steps (n,) that are holes (next to nothing beside much) or dips between two higher ones.

    ``about_w``: the lower of the greatest powers shortly before and after; ``high``: where that is much; ``top_w``.
    """

    hole: Bools
    dip: Bools
    high: Bools
    about_w: Floats
    power_w: Floats
    top_w: float


def holes_of(series: LoggedSeries) -> Holes:
    """Look for holes in the log as it was read, not on working steps; none in steps of more than half an hour.

    Where readings are so coarsely rounded that a step holds a few roundings only, what looks like a hole is none: so
    many of them are taken together that it would be one.
    """
    size = series.energy_wh.size
    together = _together(series)
    if together == 1:
        return _holes_of(series.energy_wh * (3600.0 / series.step_s), series.step_s)
    whole = size // together * together
    if whole == 0:
        return _holes_of(series.energy_wh * (3600.0 / series.step_s), _LONGEST_STEP_S + 1)
    mean_w = series.energy_wh[:whole].reshape(-1, together).mean(axis=1) * (3600.0 / series.step_s)
    found = _holes_of(mean_w, series.step_s * together)

    def spread(values: NDArray[_Kind]) -> NDArray[_Kind]:
        wide = np.repeat(values, together)
        return np.concatenate([wide, np.zeros(size - whole, dtype=wide.dtype)])

    return Holes(
        hole=spread(found.hole), dip=spread(found.dip), high=spread(found.high), about_w=spread(found.about_w),
        power_w=spread(found.power_w), top_w=found.top_w,
    )  # fmt: skip


def _together(series: LoggedSeries) -> int:
    """How many readings it takes for their rounding to be small beside what the better ones hold."""
    given = series.energy_wh[np.isfinite(series.energy_wh) & (series.energy_wh > 0.0)]
    if given.size == 0:
        return 1
    quantum, top = quantum_of(series.energy_wh), float(np.quantile(given, 0.99))
    together = 1
    while quantum > _ROUNDING_SHARE * top * together and series.step_s * together * 2 <= _LONGEST_STEP_S:
        together *= 2
    return together


def _holes_of(power: Floats, step_s: int) -> Holes:
    known = np.isfinite(power)
    values = np.where(known, power, 0.0)
    bright = values[values > 0.0]
    if step_s > _LONGEST_STEP_S or bright.size < 10:
        none = np.zeros(power.size, dtype=np.bool_)
        return Holes(hole=none, dip=none, high=none, about_w=values, power_w=values, top_w=1.0)
    top = float(np.quantile(bright, 0.99))
    reach = max(_AROUND_S // step_s, 1)
    before, after = _greatest_before(values, reach), _greatest_before(values[::-1], reach)[::-1]
    about = np.minimum(before, after)
    high = about > _HIGH_SHARE * top
    dip = known & (about > _SOME_SHARE * top) & (values < _DIP_SHARE * about)
    hole = dip & high & (values < _HOLE_SHARE * about)
    return Holes(hole=hole, dip=dip, high=high, about_w=about, power_w=values, top_w=top)


def without_dips(series: LoggedSeries, holes: Holes) -> Floats:
    """Energy of the log (n,) with dips and the step on either side of them taken out."""
    wide = holes.dip.copy()
    wide[1:] |= holes.dip[:-1]
    wide[:-1] |= holes.dip[1:]
    return np.where(wide, np.nan, series.energy_wh)


def _greatest_before(values: Floats, reach: int) -> Floats:
    """The greatest of the ``reach`` values before each, (n,)."""
    padded = np.concatenate([np.zeros(reach), values])
    windows = np.lib.stride_tricks.sliding_window_view(padded, reach)[: values.size]
    return np.asarray(windows.max(axis=1), dtype=np.float64)


def trip_evidence(holes: Holes, step_s: int, in_clear_day: Bools, in_quiet_day: Bools) -> Mapping[str, float]:
    """How often.

    Args:
        holes: see ``holes_of``.
        step_s: of the log.
        in_clear_day: (n,) steps of days that are smooth.
        in_quiet_day: (n,) steps of days that are smooth but for their dips.

    Returns:
        ``holes_per_h``: holes to nothing an hour of high output; ``clear_dips_per_h``: dips an hour on clear days;
        ``quiet_dips_per_h``: on days that are smooth but for dips; ``dips_per_h``: on all days;
        ``clear_dip_energy_share``: what they take of those quiet days; ``dip_height``: output about dips over that of
        all steps of some output (clouds come at any); ``dip_depth``: how deep they go.
    """
    names = ("holes_per_h", "clear_dips_per_h", "quiet_dips_per_h", "dips_per_h", "clear_dip_energy_share",
             "dip_height", "dip_depth")  # fmt: skip
    if not holes.dip.any():
        return dict.fromkeys(names, 0.0)
    power, high_dip = holes.power_w, holes.dip & holes.high
    high = (power > _HIGH_SHARE * holes.top_w) | high_dip

    def hours(where: Bools) -> float:
        return max(float(np.count_nonzero(high & where)) * step_s / 3600.0, 1.0)

    some = np.maximum(power, np.where(holes.dip, holes.about_w, 0.0))
    some = some[some > _SOME_SHARE * holes.top_w]
    depth = np.where(high_dip, holes.about_w - power, 0.0)
    every = np.ones(power.size, dtype=np.bool_)
    values = (
        _begins(holes.hole) / hours(every),
        _begins(high_dip & in_clear_day) / hours(in_clear_day),
        _begins(high_dip & in_quiet_day) / hours(in_quiet_day),
        _begins(high_dip) / hours(every),
        float(depth[in_quiet_day].sum()) / max(float(power[in_quiet_day].sum()), 1.0),
        float(holes.about_w[holes.dip].mean()) / max(float(some.mean()), 1e-9),
        float((depth[high_dip] / holes.about_w[high_dip]).mean()) if high_dip.any() else 0.0,
    )
    return dict(zip(names, (min(value, 4.0) for value in values), strict=True))


def _begins(marked: Bools) -> float:
    """How many runs there are."""
    return float(np.count_nonzero(marked[1:] & ~marked[:-1]) + bool(marked[:1].any()))
