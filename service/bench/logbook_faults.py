"""What each fault does to a made-up set: one function a cause, each drawn at a size of its own."""

from collections.abc import Callable, Mapping, MutableMapping
from dataclasses import dataclass, replace
from types import MappingProxyType

import numpy as np

from service.bench.logbook_sky import STEP_S, MadeSky, made_sky
from service.core.logbook.diagnosis.set_model import SetModel, light_and_warmth, scene_of
from service.core.model.climate import PlaceClimate
from service.core.model.facts import Input
from service.core.model.hours import Floats
from service.core.model.place import Plane
from service.core.panel import diode_of, max_power, open_circuit_voltage_v


@dataclass(slots=True, kw_only=True)
class Making:
    """A set and a sky in the making. ``planes`` are the true ones; ``factor`` true over stated power and wiring."""

    rng: np.random.Generator
    model: SetModel
    inputs: tuple[Input, ...]
    climate: PlaceClimate
    first_s: int
    days: int
    sky: MadeSky
    planes: list[Plane]
    factor: float
    ground: float
    dirt: Floats
    snow: Floats
    clouded: float
    detail: MutableMapping[str, float]

    @property
    def time_zone(self) -> str:
        """IANA name of the place's clock."""
        return self.model.time_zone

    def ac_w(self, dc_w: Floats, limit_w: float | Floats | None = None) -> Floats:
        """A.c. power from the arrays' d.c. power (arrays, m), under the limit."""
        free = self.model.ac_w(dc_w.sum(axis=0))
        return np.minimum(free, self.model.limit_w if limit_w is None else limit_w)


Powers = Callable[[Making, MadeSky, Floats | None], Floats]
Broken = Callable[[Making, Powers], Floats]


def broken(making: Making, fault: str, powers: Powers) -> Floats:
    """A.c. power (m,) of the set with the fault; its size goes to ``making.detail``."""
    return {**FAULTS, **PLAIN}[fault](making, powers)


def _from_when(making: Making) -> Floats:
    """From which moment on the fault is there, (m,): always, or from a day on."""
    day = making.sky.parts.day
    if making.rng.random() < 0.6:
        return np.ones(day.size)
    begin = int(making.rng.uniform(0.1, 0.6) * making.days)
    making.detail["from_day"] = begin
    return np.asarray((day >= begin) * 1.0, dtype=np.float64)


def _input_dead(making: Making, powers: Powers) -> Floats:
    dc = powers(making, making.sky, None)
    there = _from_when(making)
    if "from_day" not in making.detail and making.rng.random() < 0.3:
        share = float(making.rng.uniform(0.3, 0.8))
        on_day = (making.rng.random(making.days + 2) < share).astype(np.float64)
        there = on_day[making.sky.parts.day]
        making.detail["dead_day_share"] = share
    at = int(making.rng.integers(0, dc.shape[0]))
    dc[at] = dc[at] * (1 - there)
    return making.ac_w(dc)


def _bypass(making: Making, powers: Powers) -> Floats:
    dc = powers(making, making.sky, None)
    at = int(making.rng.integers(0, dc.shape[0]))
    dc[at] = dc[at] * (1 - _from_when(making) / 3.0)
    return making.ac_w(dc)


def _limit(making: Making, powers: Powers) -> Floats:
    limit = float(round(making.model.limit_w * making.rng.choice([0.5, 0.6, 0.67, 0.75, 0.8]), -1))
    making.detail["limit_w"] = limit
    return making.ac_w(powers(making, making.sky, None), limit)


def _sector(making: Making) -> tuple[float, float]:
    """Azimuths between which something stands, on the side of the morning or of the afternoon."""
    morning = making.rng.random() < 0.5
    edge = float(making.rng.uniform(110, 165)) if morning else float(making.rng.uniform(195, 250))
    low, high = (40.0, edge) if morning else (edge, 320.0)
    if making.climate.latitude_deg < 0:
        low, high = (360 + 180 - high) % 360, (360 + 180 - low) % 360
    return low, high


def _shade(making: Making, powers: Powers) -> Floats:
    rng, parts = making.rng, making.sky.parts
    low, high = _sector(making)
    below = float(rng.uniform(20, 60))
    inside = (parts.azimuth_deg > low) & (parts.azimuth_deg < high) & (90 - parts.zenith_deg < below)
    blocked = float(rng.uniform(0.2, 0.8))
    making.detail.update(low_deg=low, high_deg=high, below_deg=below, blocked_share=blocked)
    factor = np.ones((len(making.planes), parts.at.size))
    on_all = len(making.planes) == 1 or rng.random() < 0.6
    for k in range(len(making.planes)):
        if on_all or k == 0:
            factor[k] = 1 - blocked * inside
    dc = powers(making, making.sky, factor)
    return making.ac_w(dc)


def _plane(making: Making, powers: Powers) -> Floats:
    rng = making.rng
    tilt_by, azimuth_by = 0.0, 0.0
    if rng.random() < 0.5:
        tilt_by = float(rng.uniform(20, 32)) * (1 if rng.random() < 0.5 else -1)
        tilts = [plane.tilt_deg for plane in making.planes]
        if max(tilts) + tilt_by > 90 or min(tilts) + tilt_by < 0:
            tilt_by = -tilt_by
        if max(tilts) + tilt_by > 90 or min(tilts) + tilt_by < 0:
            tilt_by, azimuth_by = 0.0, 40.0
    else:
        azimuth_by = float(rng.uniform(30, 50)) * (1 if rng.random() < 0.5 else -1)
    making.detail.update(tilt_by_deg=tilt_by, azimuth_by_deg=azimuth_by)
    making.planes[:] = [
        replace(plane, tilt_deg=plane.tilt_deg + tilt_by, azimuth_deg=(plane.azimuth_deg + azimuth_by) % 360)
        for plane in making.planes
    ]
    return making.ac_w(powers(making, making.sky, None))


def _dirt(making: Making, powers: Powers) -> Floats:
    rng, days = making.rng, making.days
    deepest, rate = float(rng.uniform(0.10, 0.22)), float(rng.uniform(0.003, 0.013))
    wash, rain = float(rng.uniform(0.6, 1.0)), float(rng.uniform(0.15, 0.5))
    index = making.sky.index_by_day
    left, level = np.ones(days + 2), float(rng.uniform(0, deepest))
    for day in range(days + 2):
        level = min(level + rate, deepest)
        dull = day >= index.size or index[min(day, index.size - 1)] < 0.5
        if dull and rng.random() < rain * 0.6:
            level *= 1 - wash
        left[day] = 1 - level
    making.dirt[:] = left
    making.detail.update(deepest_share=deepest, per_day_share=rate)
    return making.ac_w(powers(making, making.sky, None))


def _heat(making: Making, powers: Powers) -> Floats:
    rng, weather = making.rng, making.sky.weather
    from_c, per_k = float(rng.uniform(38, 54)), float(rng.uniform(0.02, 0.045))
    own, sun = float(rng.uniform(20, 35)), float(rng.uniform(5, 16))
    making.detail.update(from_c=from_c, per_k_share=per_k)
    power = making.ac_w(powers(making, making.sky, None))
    rating = making.model.ac_power_w
    warm = weather.air_c + own * power / rating + sun * weather.ghi_w_per_m2 / 1000.0
    lid = rating * np.clip(1 - per_k * np.maximum(warm - from_c, 0.0), 0.2, 1.0)
    return np.minimum(power, lid)


def _trips(making: Making, powers: Powers) -> Floats:
    rng, parts = making.rng, making.sky.parts
    power = making.ac_w(powers(making, making.sky, None))
    above = float(rng.uniform(0.62, 0.85)) * float(np.quantile(power, 0.995))
    per_hour, wait = float(rng.uniform(1.0, 3.5)), float(rng.choice([1, 5, 5, 10, 15]))
    ramp = float(rng.choice([10, 20, 100]))
    on_days = rng.random(making.days + 2) < float(rng.uniform(0.5, 1.0))
    making.detail.update(per_hour=per_hour, wait_min=wait, ramp_pct_per_min=ramp)
    fine = STEP_S // 60
    minutes = making.days * 1440
    whole = np.zeros(minutes)
    day_of = np.zeros(minutes, dtype=np.int64)
    rows = (parts.at[:, None] * fine + np.arange(fine)).ravel()
    whole[rows], day_of[rows] = np.repeat(power, fine), np.repeat(parts.day, fine)
    starts = np.flatnonzero((whole > above) & on_days[day_of] & (rng.random(minutes) < per_hour / 60.0))
    lid = np.full(minutes + 600, np.inf)
    rating = making.model.ac_power_w
    until = -1
    for start in starts.tolist():
        if start < until:
            continue
        until = start + int(wait)
        lid[start:until] = 0.0
        length = int(np.ceil(100.0 / ramp))
        lid[until : until + length] = np.minimum(
            lid[until : until + length], rating * ramp / 100.0 * (np.arange(length) + 0.5)
        )
    cut = np.minimum(whole, lid[:minutes])
    return np.asarray(cut.reshape(-1, fine).mean(axis=1)[parts.at])


def _wet(making: Making, powers: Powers) -> Floats:
    """Off in the morning of wet days, until the leads are dry."""
    rng, parts, days = making.rng, making.sky.parts, making.days + 2
    index = np.append(making.sky.index_by_day, np.ones(3))[:days]
    wet = (np.minimum(index, np.roll(index, 1)) < 0.55) & (rng.random(days) < float(rng.uniform(0.4, 0.95)))
    until = np.where(wet, rng.uniform(9.0, 13.0, days), 0.0)
    making.detail["wet_days_share"] = float(wet.mean())
    power = making.ac_w(powers(making, making.sky, None))
    return np.where(parts.solar_h < until[parts.day], 0.0, power)


def _clock(making: Making, powers: Powers) -> Floats:
    zone_h = round(making.climate.longitude_deg / 15.0)
    shifts = [-120.0, -60.0, 60.0, 120.0]
    if abs(zone_h) >= 1:
        shifts.append(zone_h * -60.0)
    making.detail["shift_min"] = float(making.rng.choice(shifts))
    return making.ac_w(powers(making, making.sky, None))


def _ageing(making: Making, powers: Powers) -> Floats:
    rate = float(making.rng.uniform(0.06, 0.15))
    making.detail["per_year_share"] = rate
    dc = powers(making, making.sky, None)
    return making.ac_w(dc * (1 - rate) ** (making.sky.parts.day / 365.0))


def _grown(making: Making, powers: Powers) -> Floats:
    """A tree: soft from the start, denser and higher from the second spring on."""
    rng, parts = making.rng, making.sky.parts
    low, high = _sector(making)
    below, grows = float(rng.uniform(18, 40)), float(rng.uniform(3, 12))
    blocked, denser = float(rng.uniform(0.0, 0.3)), float(rng.uniform(0.25, 0.6))
    second = parts.day >= 365
    top = below + grows * second
    inside = (parts.azimuth_deg > low) & (parts.azimuth_deg < high) & (90 - parts.zenith_deg < top)
    share = np.minimum(blocked + denser * second, 0.95)
    making.detail.update(low_deg=low, high_deg=high, below_deg=below, grows_deg=grows, denser_share=denser)
    return making.ac_w(powers(making, making.sky, np.tile(1 - share * inside, (len(making.planes), 1))))


def _low_voltage(making: Making, powers: Powers) -> Floats:
    """Off where the best point lies under the window or the open voltage under the start, as stated, or nearly so."""
    model, weather = making.model, making.sky.weather
    dc = powers(making, making.sky, None)
    scene = scene_of(model, making.sky.parts, weather)
    kept = float(making.rng.uniform(0.99, 1.015))
    for k, array in enumerate(model.arrays):
        light, cell = light_and_warmth(model, scene, k, making.planes[k])
        diode, limits = diode_of(array.panel), making.inputs[array.input - 1]
        hot = max_power(diode, light, cell).voltage_v < kept * limits.tracking_min_v
        dim = open_circuit_voltage_v(diode, light, cell) < kept * limits.start_voltage_v
        dc[k] = np.where(hot | dim, 0.0, dc[k])
    return making.ac_w(dc)


FAULTS: Mapping[str, Broken] = MappingProxyType(
    {
        "input_dead": _input_dead,
        "bypass_section_lost": _bypass,
        "limit_lower_than_stated": _limit,
        "undeclared_shade": _shade,
        "plane_differs": _plane,
        "dirt_drift": _dirt,
        "heat_derating": _heat,
        "grid_trips": _trips,
        "wet_trips": _wet,
        "clock_shift": _clock,
        "fast_ageing": _ageing,
    }
)
# Seen by a comparison of their own, not weighed: see ``core.logbook.diagnosis``.
PLAIN: Mapping[str, Broken] = MappingProxyType({"shade_grown": _grown, "low_voltage_off": _low_voltage})
__all__ = ["FAULTS", "PLAIN", "Making", "broken", "made_sky"]
