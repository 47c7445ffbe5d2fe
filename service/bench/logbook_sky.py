"""Made-up weather of some days at a place, every five minutes, for logs whose truth is known.

Days follow the climate's monthly means with some memory; within a day clouds come and go hour by hour, sunshine within
the hour as a process of two states. Clear days are clearer or hazier than the climate's turbidity, by place and by day.
What the plane gets has a glow at the horizon that the service's own sky does not know: a real set does not fit to the
last per cent either.
"""

from dataclasses import dataclass

import numpy as np
from scipy.special import betaincinv, ndtr

from service.core.logbook.diagnosis.frame import Parts, lit_parts, solar_day
from service.core.logbook.diagnosis.set_model import Weather
from service.core.logbook.diagnosis.sky_light import climatic_air_c
from service.core.model.climate import PlaceClimate
from service.core.model.hours import Bools, Floats, Ints

STEP_S = 300
DAY_S = 86_400
_STEPS_A_DAY = DAY_S // STEP_S


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class MadeSky:
    """The light and air of the moments with sun, (m,); which five minutes of the log each is; dull days, by day."""

    parts: Parts
    weather: Weather
    glow: float
    index_by_day: Floats


def made_sky(rng: np.random.Generator, climate: PlaceClimate, first_s: int, days: int, clock_fast_s: int) -> MadeSky:
    """Weather of ``days`` days from ``first_s`` (local midnight), for a log whose clock is ahead by so much."""
    count = days * _STEPS_A_DAY
    middle = first_s + STEP_S // 2 + STEP_S * np.arange(count)
    number = solar_day(middle, climate.longitude_deg)
    parts = lit_parts(middle, np.arange(count), number - number[0], climate, clock_fast_s=clock_fast_s)
    day_count = int(number[-1] - number[0]) + 1
    wanted = _day_index(rng, climate, middle[::_STEPS_A_DAY], day_count)
    cover = _cover(rng, wanted, day_count)
    hour = np.clip(parts.solar_h.astype(np.int64), 0, 23)
    here = cover[parts.day, hour]
    sunny = _sunshine(rng, count, np.bincount(parts.at, here, minlength=count).astype(np.float64))[parts.at]
    cos_zenith = np.maximum(np.cos(np.deg2rad(parts.zenith_deg)), 0.0)
    turn = 2.0 * np.pi * (np.arange(day_count) / 365.0 + rng.random())
    season = rng.normal(0.0, 0.03) * np.sin(turn) + rng.normal(0.0, 0.02) * np.sin(2.0 * turn + 1.0)
    haze = np.exp(rng.normal(rng.normal(0.02, 0.035), 0.035, day_count) + season)[parts.day]
    walk = rng.normal(size=(day_count, 24)).cumsum(axis=1)
    walk -= walk[:, 12:13]
    lean = rng.normal(0.0, 0.006) + rng.normal(0.0, 0.006, day_count)  # hazier mornings or afternoons
    within = np.exp(0.025 * walk + lean[:, None] * (np.arange(24) - 12.0))[parts.day, hour]
    thin = np.where(rng.random(day_count) < 0.25, rng.uniform(0.2, 0.6, day_count), rng.uniform(0.0, 0.1, day_count))
    beam_index = np.minimum(haze * within, 1.25) * np.where(sunny, 1.0, thin[parts.day])
    clear_beam = parts.dni_w_per_m2 * cos_zenith
    clear_diffuse = np.maximum(parts.ghi_w_per_m2 - clear_beam, 0.0)
    thickness = rng.normal(0.0, 0.35, (day_count, 24)) + 0.5 * np.sin(
        np.arange(24) / rng.uniform(2, 6) + rng.uniform(0, 6)
    )
    dimmed = np.clip(rng.uniform(0.1, 0.5, day_count)[parts.day] * np.exp(thickness[parts.day, hour]), 0.04, 0.7)
    diffuse = (1 - here) * clear_diffuse * (1 + 0.5 * here) + here * dimmed * parts.ghi_w_per_m2
    diffuse += 0.45 * (1 - haze * within) * clear_beam * (1 - here)  # haze turns beam into diffuse light
    diffuse = np.maximum(diffuse, 0.02 * parts.ghi_w_per_m2)
    beam = beam_index * parts.dni_w_per_m2
    air = climatic_air_c(parts, climate) + _wander(rng, day_count, 3.5, 0.7)[parts.day] - 2.0 * here
    wind = climate.wind_m_per_s * np.exp(rng.normal(0.0, 0.5, day_count * 24).reshape(day_count, 24))[parts.day, hour]
    weather = Weather(
        ghi_w_per_m2=diffuse + beam * cos_zenith, dni_w_per_m2=beam, dhi_w_per_m2=diffuse, air_c=air, wind_m_per_s=wind
    )
    index = np.bincount(parts.day, weather.ghi_w_per_m2, minlength=day_count) / np.maximum(
        np.bincount(parts.day, parts.ghi_w_per_m2, minlength=day_count), 1.0
    )
    return MadeSky(parts=parts, weather=weather, glow=float(rng.uniform(-0.02, 0.14)), index_by_day=index)


def _wander(rng: np.random.Generator, count: int, size: float, memory: float) -> Floats:
    """A wandering series of standard deviation ``size``."""
    steps = rng.normal(size=count)
    out = np.empty(count)
    value = float(rng.normal())
    for k in range(count):
        value = memory * value + np.sqrt(1 - memory**2) * steps[k]
        out[k] = value
    return size * out


def _day_index(rng: np.random.Generator, climate: PlaceClimate, noon_s: Ints, days: int) -> Floats:
    """Clear-sky index of each day; its mean is the climate's."""
    rank = ndtr(_wander(rng, days, 1.0, 0.4))
    moments = np.asarray(noon_s, dtype=np.int64).astype("datetime64[s]").astype("datetime64[M]").astype(np.int64) % 12
    month = np.concatenate([moments, np.full(max(days - moments.size, 0), moments[-1])])[:days]
    low, high, crowd = 0.08, 1.02, 1.6  # days crowd at both ends: clear and overcast ones are the most
    # Duller and brighter years; now and then months in which hardly any clear day comes.
    month_index = climate.clear_sky_index[month] * (
        rng.uniform(0.4, 0.8) if rng.random() < 0.3 else rng.uniform(0.72, 1.02)
    )
    mean = np.clip((month_index - low) / (high - low), 0.05, 0.95)
    return np.asarray(low + (high - low) * betaincinv(crowd * mean, crowd * (1 - mean), np.clip(rank, 1e-4, 1 - 1e-4)))


def _cover(rng: np.random.Generator, wanted: Floats, days: int) -> Floats:
    """Cloud cover by day and hour (days, 24)."""
    mean = np.clip((1.0 - wanted) / 0.62, 0.0, 1.0)
    clear = (mean < 0.12) & (rng.random(days) < 0.6)
    lean = rng.normal(0.0, 0.35, days)  # duller mornings or duller afternoons
    hours = np.arange(24) - 11.5
    flicker = rng.normal(size=(days, 24))
    flicker[:, 1:] = 0.6 * flicker[:, :-1] + 0.8 * flicker[:, 1:]
    spread = 4.0 * mean * (1 - mean)
    cover = mean[:, None] + spread[:, None] * (lean[:, None] * hours / 8.0 + 0.25 * flicker)
    cover = np.clip(cover, 0.0, 1.0)
    some = (int(clear.sum()), 24)
    cover[clear] = 0.18 * rng.random(some) * (rng.random(some) < rng.uniform(0.0, 0.6, some[0])[:, None])
    overcast = (mean > 0.85) & (rng.random(days) < 0.8)
    cover[overcast] = 1.0
    fog = (~overcast) & (rng.random(days) < 0.05)
    cover[fog, : int(rng.integers(8, 11))] = 1.0
    return np.asarray(cover)


def _sunshine(rng: np.random.Generator, count: int, cover: Floats) -> Bools:
    """Is the sun out? A process of two states that holds for 8 to 20 minutes, with the hours' means."""
    renewed = rng.random(count) < STEP_S / 60.0 / rng.uniform(8.0, 20.0)
    renewed[0] = True
    drawn = rng.random(count)
    last = np.maximum.accumulate(np.where(renewed, np.arange(count), 0))
    return np.asarray(drawn[last] >= cover)
