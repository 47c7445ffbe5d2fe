"""Why does next to nothing come of an array, over the year or over half of it?

A yield of 0 kWh says itself; why it is so does not. What is held against what: the d.c. energy that an input draws of
an array, against what its rated power would give in all the light on the bare plane.
"""

from collections.abc import Callable, Mapping
from types import MappingProxyType

import numpy as np

from service.core.energy.result import EnergyYear, Little
from service.core.model.finding import Fact, Finding, Part, Verdict
from service.core.model.hours import Bools, Floats, Ints

CODE = "next_to_nothing"
LITTLE_SHARE = 0.05  # of the light: less comes of deep courts and inputs that do not start, far more of any other plane
_LIT_SHARE = 0.1  # of the year's light: a half-year with less is dark by itself
_HALF_YEAR = 6
_MONTHS = 12
_WATT_HOURS_PER_KWH = 1000.0
_OF_THE_SET = ("conversion", "clipped", "downtime", "export_limit")
_SOURCE = "account of light and energy"


def little_of(
    light_w: Floats,
    dc_w: Floats,
    stopped: Bools,
    months: Ints,
    account: Callable[[Bools], Mapping[str, float]],
    lost_kwh: Mapping[str, float],
) -> Little | None:
    """The year, or the half-year of whole months with the least left, if that is next to nothing.

    Args:
        light_w: (n,) light on the bare plane as rated power, W.
        dc_w: (n,) power that the input draws of the array, W.
        stopped: (n,) hours with light in which the input does not run.
        months: (n,) month of each hour, 1 to 12.
        account: what each stage takes in some hours, kWh.
        lost_kwh: that of all hours.
    """
    light, left = (np.bincount(months - 1, watts, _MONTHS) / _WATT_HOURS_PER_KWH for watts in (light_w, dc_w))
    light_kwh, left_kwh = float(light.sum()), float(left.sum())
    if light_kwh <= 0.0:
        return None
    if left_kwh < LITTLE_SHARE * light_kwh:
        return _little((light_kwh, left_kwh), lost_kwh, int(np.count_nonzero(stopped)))
    around = (np.arange(_MONTHS)[:, None] + np.arange(_HALF_YEAR)) % _MONTHS
    light_half, left_half = light[around].sum(axis=1), left[around].sum(axis=1)
    share = np.where(light_half >= _LIT_SHARE * light_kwh, left_half / np.maximum(light_half, 1e-9), 1.0)
    first = int(np.argmin(share))
    if share[first] >= LITTLE_SHARE:
        return None
    within = (months - 1 - first) % _MONTHS < _HALF_YEAR
    sums = float(light_half[first]), float(left_half[first])
    last = (first + _HALF_YEAR - 1) % _MONTHS
    return _little(sums, account(within), int(np.count_nonzero(stopped & within)), (first + 1, last + 1))


def _little(
    sums_kwh: tuple[float, float],
    lost_kwh: Mapping[str, float],
    hours_not_started: int,
    months: tuple[int | None, int | None] = (None, None),
) -> Little:
    because = max(lost_kwh, key=lambda code: lost_kwh[code])
    return Little(
        light_kwh=sums_kwh[0], left_kwh=max(sums_kwh[1], 0.0), because=because, taken_kwh=lost_kwh[because],
        hours_not_started=hours_not_started, from_month=months[0], to_month=months[1],
    )  # fmt: skip


def next_to_nothing(energy: EnergyYear) -> tuple[Finding, ...]:
    """A finding for each array of which next to nothing comes; one for the set where it is not the panels' side."""
    found = [
        _finding(one.little, f"/arrays/{at}", {"array": one.name}) for at, one in enumerate(energy.arrays) if one.little
    ]
    if any(one.little and one.little.from_month is None for one in energy.arrays):
        return tuple(found)
    of_the_set = _of_the_set(energy)
    return (*found, *([_finding(of_the_set, "/inverter", {"array": "The whole set"})] if of_the_set else []))


def _of_the_set(energy: EnergyYear) -> Little | None:
    """Is it behind the panels that next to nothing is left: off all year, set to a limit of hardly anything?"""
    left_kwh = energy.year_kwh.middle or 0.0
    taken = {code: energy.lost_kwh[code] for code in _OF_THE_SET if code in energy.lost_kwh}
    if not taken or left_kwh >= LITTLE_SHARE * energy.light_kwh:
        return None
    return _little((energy.light_kwh, left_kwh), taken, 0)


def _finding(little: Little, about: str, name: Mapping[str, Fact]) -> Finding:
    half = little.from_month is not None
    facts: dict[str, Fact] = {
        **name,
        "light_kwh": little.light_kwh,
        "because": little.because,
        "taken_kwh": little.taken_kwh,
        "hours_not_started": little.hours_not_started,
        "from_month": little.from_month,
        "to_month": little.to_month,
        "variant": f"{'half_year' if half else 'all'}.{little.because}",
    }
    return Finding(
        code=CODE, part=Part.PANEL_SIDE, verdict=Verdict.FITS_WITH_LOSS, likely=Verdict.FITS_WITH_LOSS, about=about,
        measured=little.left_kwh, unit="kWh", facts=MappingProxyType(facts), source=_SOURCE,
    )  # fmt: skip
