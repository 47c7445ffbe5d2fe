"""Made-up sets, what they log under a made-up sky, healthy and with each fault, and the log that is left of it."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import datetime
from zoneinfo import ZoneInfo

import numpy as np

from service.bench.logbook_faults import Making, broken
from service.bench.logbook_sky import DAY_S, STEP_S, MadeSky, made_sky
from service.core.logbook.diagnosis.set_model import set_model
from service.core.logbook.series import LoggedSeries
from service.core.model import facts
from service.core.model.climate import PlaceClimate
from service.core.model.hours import Bools, Floats, Ints
from service.core.model.place import Plane, Site
from service.core.model.weather import GivenWeather
from service.core.panel import cell_temperature_c
from service.core.sky import cos_incidence, ground_share, modifier, sky_modifier, sky_share, split_by_anisotropy
from service.core.sky.incidence import ground_modifier

MOUNTS = ("hung_on_rail", "ground_frame", "wall", "flat_roof", "sloped_roof")
_CELLS = {(330, 380): 60, (380, 460): 54, (460, 520): 60}


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class MadeLog:
    """A log with its truth. ``disturbance_share``: sum of differences to the healthy twin over its energy."""

    series: LoggedSeries
    setup: facts.Setup
    climate: PlaceClimate
    weather: GivenWeather | None
    fault: str | None
    detail: Mapping[str, float]
    disturbance_share: float
    true_planes: tuple[Plane, ...]
    place: str
    days: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Wish:
    """What log is wanted: fault or None, days, step, weather sent along (none, own, nearby)."""

    fault: str | None
    days: int
    step_s: int
    weather: str


def made_log(rng: np.random.Generator, climate: PlaceClimate, time_zone: str, place: str, wish: Wish) -> MadeLog:
    """Draw sets and skies until the fault leaves a trace in the log (3 %; of ageing 1 %)."""
    least = 0.01 if wish.fault == "fast_ageing" else 0.03
    while True:
        log = _drawn(rng, climate, time_zone, place, wish)
        if wish.fault is None or log.disturbance_share >= least:
            return log


def _drawn(rng: np.random.Generator, climate: PlaceClimate, time_zone: str, place: str, wish: Wish) -> MadeLog:
    setup = made_setup(rng, climate, time_zone, two=True if wish.fault == "input_dead" else None)
    if wish.fault == "low_voltage_off":
        setup = _with_close_window(rng, setup)
    first = datetime(2024, 1, 1, tzinfo=ZoneInfo(time_zone)).timestamp() + DAY_S * int(rng.integers(0, 700))
    first_s = round(first)
    making = _making(rng, setup, climate, first_s, wish)
    healthy = _powers(making, making.sky, None)
    faulty = healthy if wish.fault is None else broken(making, wish.fault, _powers)
    lost, trace = _log_of(rng, making, faulty, healthy, wish)
    return MadeLog(
        series=lost, setup=setup, climate=climate, weather=_weather(rng, making, wish), fault=wish.fault,
        detail=dict(making.detail), disturbance_share=trace, true_planes=tuple(making.planes), place=place,
        days=wish.days,
    )  # fmt: skip


def _making(rng: np.random.Generator, setup: facts.Setup, climate: PlaceClimate, first_s: int, wish: Wish) -> Making:
    model = set_model(setup)
    return Making(
        rng=rng, model=model, inputs=setup.inverter.inputs, climate=climate, first_s=first_s, days=wish.days,
        sky=made_sky(rng, climate, first_s, wish.days, round(float(rng.uniform(-120, 120)))),
        planes=[array.plane for array in model.arrays], factor=float(rng.uniform(0.97, 1.03) * rng.uniform(0.96, 0.98)),
        ground=float(rng.uniform(0.15, 0.3)), dirt=_dirt(rng, wish.days), snow=_snow(rng, climate, first_s, wish.days),
        clouded=rng.uniform(0.9, 1.0), detail={},
    )  # fmt: skip


def _dirt(rng: np.random.Generator, days: int) -> Floats:
    """What dirt leaves, by day: up to 4 % off, washed away now and then."""
    left, level, rate = np.empty(days + 2), float(rng.uniform(0, 0.03)), float(rng.uniform(0.0002, 0.002))
    for day in range(days + 2):
        level = min(level + rate, 0.04)
        if rng.random() < 0.15:
            level *= float(rng.uniform(0.1, 0.6))
        left[day] = 1.0 - level
    return left


def _snow(rng: np.random.Generator, climate: PlaceClimate, first_s: int, days: int) -> Floats:
    """What snow leaves, by day: a day or three at 5 % where the month is cold."""
    left = np.ones(days + 2)
    month = (first_s + DAY_S * np.arange(days)).astype("datetime64[s]").astype("datetime64[M]").astype(np.int64) % 12
    cold = np.flatnonzero(climate.air_c[month] < 3.0)
    if cold.size and rng.random() < 0.5:
        at = int(rng.choice(cold))
        left[at : at + int(rng.integers(1, 4))] = 0.05
    return left


def made_setup(
    rng: np.random.Generator, climate: PlaceClimate, time_zone: str, *, two: bool | None = None
) -> facts.Setup:  # fmt: skip
    """A set of one or two panels (``two``; None: drawn) as somebody would state it."""
    drawn = rng.random() < 0.75
    two = drawn if two is None else two
    watts = float(rng.choice([330, 340, 365, 375, 390, 400, 415, 430, 440, 450, 475, 500]))
    azimuth = float(np.clip(round(rng.normal(180, 40)), 80, 280))
    if climate.latitude_deg < 0:
        azimuth = (azimuth + 180) % 360
    mount = str(rng.choice(MOUNTS))
    low, high = {"hung_on_rail": (60, 91), "wall": (60, 91), "flat_roof": (10, 31)}.get(mount, (15, 61))
    first = Plane(tilt_deg=float(rng.integers(low, high)), azimuth_deg=azimuth)
    second = first
    if two and rng.random() < 0.3:
        second = Plane(
            tilt_deg=float(rng.integers(low, high)), azimuth_deg=(azimuth + float(rng.choice([-90, -60, 60, 90]))) % 360
        )
    panel = _panel(watts)
    arrays = tuple(_array(k, plane, panel, mount) for k, plane in enumerate((first, second)[: 2 if two else 1]))
    total = watts * len(arrays)
    ratings = [r for r in (300, 350, 400, 600, 700, 800) if 0.58 * total <= r <= 1.3 * total]
    rating = float(rng.choice(ratings)) if ratings else 800.0
    limit = rating if rng.random() < 0.9 else float(round(rating * rng.uniform(0.72, 0.9), -1))
    one = facts.Input(
        max_input_voltage_v=60, tracking_min_v=16, tracking_max_v=55, start_voltage_v=22, max_current_a=16,
        max_short_circuit_current_a=20, max_panel_short_circuit_current_a=None, max_panel_power_w=600,
        max_panel_power_kind="not_known", connector_pairs=1,
    )  # fmt: skip
    inverter = facts.Inverter(
        ac_power_w=rating, set_limit_w=limit, input_count=len(arrays), inputs=(one,) * len(arrays),
        weighted_efficiency_share=float(rng.uniform(0.95, 0.968)), efficiency_weighting="european", night_draw_w=0.3,
        seat="behind_panel", certificates=None, export_limit_w=None,
    )  # fmt: skip
    return facts.Setup(
        site=_site(climate, time_zone), arrays=arrays, inverter=inverter, socket_circuit=None,
        downtime_days_per_year=2,
        household=facts.Household(
            demand_kwh_per_year=2000, persons=2, always_on_w=60, at_home=None, machines=(), values_w=None,
            stay_years=None,
        ),
        meter=facts.Meter(counts="one_way", sums_phases=True, netting="instant"), tariff=None, outlay=None,
        money=facts.Money(
            years=10, discount_rate_share=0.0, price_growth_share=0.0, ageing_share_per_year=0.005,
            inverter_swap=None, resale_share=0.0, running_cost_per_year=0.0,
        ),
    )  # fmt: skip


def _with_close_window(rng: np.random.Generator, setup: facts.Setup) -> facts.Setup:
    """An inverter that wants more voltage than the panels have in the heat, or in dim light."""
    panel = setup.arrays[0].panel
    best_v, open_v = panel.max_power_voltage_v, panel.open_circuit_voltage_v
    one = setup.inverter.inputs[0]
    if rng.random() < 0.6:
        one = replace(one, tracking_min_v=round(float(rng.uniform(0.88, 0.95)) * best_v, 1))
    else:
        one = replace(one, start_voltage_v=round(float(rng.uniform(0.90, 0.95)) * open_v, 1))
    return replace(setup, inverter=replace(setup.inverter, inputs=(one,) * setup.inverter.input_count))


def _panel(watts: float) -> facts.Panel:
    cells = next((count for (low, high), count in _CELLS.items() if low <= watts < high), 60)
    peak_v = round(0.605 * cells, 1) if cells == 54 else round(0.56 * cells, 1)
    return facts.Panel(
        rated_power_w=watts, open_circuit_voltage_v=round(peak_v / 0.835, 1),
        short_circuit_current_a=round(watts / peak_v / 0.945, 2), max_power_voltage_v=peak_v,
        max_power_current_a=round(watts / peak_v, 2), cells_in_series=cells, voc_coefficient_pct_per_k=-0.26,
        isc_coefficient_pct_per_k=0.045, power_coefficient_pct_per_k=-0.34, max_system_voltage_v=1000,
        max_series_fuse_a=25, cell_kind="mono", bifaciality_share=0, length_mm=1722, width_mm=1134, weight_kg=21.5,
        age_years=0, power_tolerance_pct=(0, 3), connector="locking_4mm", glass="glass_foil", history="unused",
        model_code=None,
    )  # fmt: skip


def _array(k: int, plane: Plane, panel: facts.Panel, mount: str) -> facts.Array:
    return facts.Array(
        name=("left", "right")[k], input=k + 1, count=1, joined="series", mount=mount, plane=plane,
        orientation="upright", height_above_ground_m=3, skyline=(), overhang=None, side_walls=(), cover=None, shade=(),
        dirt_share=0.02, mismatch_share=0.0, lead_length_m=3, lead_mm2=4, panel=panel,
    )  # fmt: skip


def _site(climate: PlaceClimate, time_zone: str) -> Site:
    return Site(
        latitude_deg=climate.latitude_deg, longitude_deg=climate.longitude_deg, elevation_m=climate.elevation_m,
        time_zone=time_zone, rule_area="DE", ground_reflectance_share=0.2, terrain="suburb", coldest_air_c=-14,
        basic_wind_velocity_m_per_s=25.0, people_below=None, children=None,
    )  # fmt: skip


def _powers(making: Making, sky: MadeSky, light_factor: Floats | None) -> Floats:
    """D.c. power of each array, (arrays, m), with all that is healthy about it; ``light_factor``: see ``Making``."""
    parts, weather, model = sky.parts, sky.weather, making.model
    from_sun, even = split_by_anisotropy(
        parts.zenith_deg, weather.dni_w_per_m2, weather.dhi_w_per_m2, parts.outside_w_per_m2
    )
    powers = []
    for k, (array, table) in enumerate(zip(model.arrays, model.tables, strict=True)):
        plane = making.planes[k]
        cosine = np.maximum(cos_incidence(parts.zenith_deg, parts.azimuth_deg, plane), 0.0)
        glow = 1.0 + sky.glow * np.sin(np.deg2rad(plane.tilt_deg)) * np.clip(weather.dni_w_per_m2 / 500.0, 0.0, 1.0)
        beam = from_sun * cosine * modifier(cosine)
        if light_factor is not None:
            beam = beam * light_factor[k]
        dome = even * float(sky_share(plane.tilt_deg)) * float(sky_modifier(plane.tilt_deg)) * glow
        floor = (
            weather.ghi_w_per_m2 * making.ground * float(ground_share(plane.tilt_deg) * ground_modifier(plane.tilt_deg))
        )
        light = beam + dome + floor
        cell = cell_temperature_c(light, weather.air_c, weather.wind_m_per_s, array.mount)
        left = making.factor * making.dirt[parts.day] * making.snow[parts.day]
        powers.append(table.power_w(light * left, cell))
    return np.array(powers)


def _log_of(
    rng: np.random.Generator, making: Making, faulty_w: Floats, healthy_w: Floats, wish: Wish
) -> tuple[LoggedSeries, float]:
    """Steps of the log, rounded, with gaps; and the fault's trace in it."""
    faulty_w, healthy_w = (making.ac_w(one) if one.ndim == 2 else one for one in (faulty_w, healthy_w))
    shifted = round(making.detail.get("shift_min", 0.0) * 60)
    if shifted and wish.step_s > 3600:
        raise ValueError("a shifted clock cannot be seen in days")
    count = wish.days * DAY_S // STEP_S
    running = _set_off(rng, count)
    sampled = wish.step_s < DAY_S and rng.random() < 0.1
    energy, healthy = (
        _steps_wh(one, making.sky.parts.at, running, wish.step_s, sampled=sampled) for one in (faulty_w, healthy_w)
    )
    lost = _lost(rng, energy.size, wish.step_s)
    logged = np.where(lost, np.nan, _rounded(rng, energy))
    base = max(float(healthy[~lost].sum()), 1.0)
    trace = float(np.abs(energy - healthy)[~lost].sum()) / base
    if shifted:
        moved = np.interp(np.arange(energy.size) - shifted / wish.step_s, np.arange(energy.size), healthy)
        trace = float(np.abs(moved - healthy).sum()) / base
    start = making.first_s + wish.step_s * np.arange(energy.size) + shifted
    series = LoggedSeries(
        start_s=np.asarray(start, dtype=np.int64), step_s=wish.step_s, energy_wh=logged, time_zone=making.time_zone
    )
    return series, trace


def _steps_wh(power_w: Floats, at: Ints, running: Floats, step_s: int, *, sampled: bool) -> Floats:
    """Energy of the steps; by samples of power: the mean of those at a step's ends."""
    together = step_s // STEP_S
    whole = np.zeros(running.size)
    whole[at] = power_w
    whole *= running
    if sampled:
        samples = np.append(whole[::together], 0.0)
        return np.asarray(0.5 * (samples[1:] + samples[:-1]) * step_s / 3600.0)
    return np.asarray(whole.reshape(-1, together).sum(axis=1) * STEP_S / 3600.0)


def _rounded(rng: np.random.Generator, energy_wh: Floats) -> Floats:
    """As a counter or as intervals, to 1 mWh, 1 Wh or 10 Wh."""
    quantum = float(rng.choice([0.001, 1.0, 10.0], p=[0.2, 0.5, 0.3]))
    if rng.random() < 0.5:
        return np.maximum(np.diff(np.round(energy_wh.cumsum() / quantum) * quantum, prepend=0.0), 0.0)
    return np.asarray(np.round(energy_wh / quantum) * quantum)


def _lost(rng: np.random.Generator, count: int, step_s: int) -> Bools:
    """Steps that were not logged: single ones, and gaps of up to three days."""
    single = float(rng.choice([0.0, 0.0, 0.005, 0.02, 0.04])) if step_s < DAY_S else 0.0
    lost = rng.random(count) < single
    for _ in range(int(rng.integers(0, 4))):
        begin = int(rng.integers(0, count))
        lost[begin : begin + int(rng.integers(1, max(2, 3 * DAY_S // step_s)))] = True
    return lost


def _set_off(rng: np.random.Generator, count: int) -> Floats:
    """1, but nought while somebody had switched the set off: for hours, seldom for a day or two."""
    running = np.ones(count)
    if rng.random() < 0.4:
        for _ in range(int(rng.integers(1, 3))):
            begin = int(rng.integers(0, count))
            length = rng.uniform(1.0, 10.0) if rng.random() < 0.7 else rng.uniform(10.0, 48.0)
            running[begin : begin + round(length * 3600 / STEP_S)] = 0.0
    return running


def _weather(rng: np.random.Generator, making: Making, wish: Wish) -> GivenWeather | None:
    """Hourly means of the light and air: an own sensor's, or a station's that sees other clouds on broken hours."""
    if wish.weather == "none":
        return None
    sky = making.sky
    count = wish.days * 24

    def hourly(values: Floats) -> Floats:
        whole = np.zeros(wish.days * DAY_S // STEP_S)
        whole[sky.parts.at] = values
        return np.asarray(whole.reshape(-1, 12).mean(axis=1))

    ghi = hourly(sky.weather.ghi_w_per_m2)
    clear = hourly(sky.parts.ghi_w_per_m2)
    if wish.weather == "nearby":
        index = np.divide(ghi, clear, out=np.zeros(count), where=clear > 1.0)
        unlike = 0.55 * np.clip(index * (1.05 - index), 0.0, None)
        index = np.clip(index + unlike * rng.normal(size=count), 0.03, 1.1) * np.exp(rng.normal(0, 0.02))
        ghi = index * clear
    else:
        ghi = ghi * np.exp(rng.normal(0, 0.01)) * np.exp(rng.normal(0, 0.01, count))
    every = np.bincount(sky.parts.at // 12, minlength=count)
    air = np.bincount(sky.parts.at // 12, sky.weather.air_c, minlength=count) / np.maximum(every, 1)
    return GivenWeather(
        begins_utc=np.datetime64(making.first_s, "s"), step_minutes=60, ghi_w_per_m2=np.round(ghi),
        dni_w_per_m2=None, dhi_w_per_m2=None, plane_w_per_m2=None, air_c=np.round(air, 1), wind_m_per_s=None,
    )  # fmt: skip
