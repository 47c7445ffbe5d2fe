"""What would the set send to the socket, moment by moment, in this light, in these planes?

The chain of ``core.energy`` on the moments of a log: light on the planes (``sky``), cell temperature, the power that an
input draws, read from a small table solved once, conversion. The limit of the inverter is applied by the caller, to
whose question the power before it belongs too.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from service.core.energy.chain import remaining_share
from service.core.inverter import ac_from_dc, curve_through
from service.core.inverter.efficiency import EfficiencyCurve
from service.core.logbook.diagnosis.frame import Parts
from service.core.model.facts import Array, Input, Setup
from service.core.model.hours import Floats, Ints
from service.core.model.place import Plane
from service.core.panel import Branch, cell_temperature_c, diode_of
from service.core.panel.drawn import running_power_w
from service.core.sky import (
    above_skyline,
    direction,
    has_edges,
    house_steepness,
    layout_key,
    light_of_planes,
    split_by_anisotropy,
)
from service.core.sky.calendar import calendar_of_hours
from service.core.sky.daylight import Daylight, Surroundings
from service.core.sky.ground import sky_over_ground
from service.core.sky.shade import Shading, shading_of

_LIGHT_W_PER_M2 = np.concatenate([np.arange(0.0, 100.0, 10.0), np.arange(100.0, 1501.0, 50.0)])
_COOL_C, _WARM_C, _HOT_C = 5.0, 35.0, 65.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Weather:
    """Light and air of moments, (m,) each."""

    ghi_w_per_m2: Floats
    dni_w_per_m2: Floats
    dhi_w_per_m2: Floats
    air_c: Floats
    wind_m_per_s: Floats


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _ArrayTable:
    """Power that an array's input draws over light, W: at 35 C, its slope and its bend over temperature."""

    middle_w: Floats
    slope_w_per_k: Floats
    bend_w_per_k2: Floats

    def power_w(self, light_w_per_m2: Floats, cell_c: Floats) -> Floats:
        warmer = cell_c - _WARM_C
        middle, slope, bend = (
            np.interp(light_w_per_m2, _LIGHT_W_PER_M2, one)
            for one in (self.middle_w, self.slope_w_per_k, self.bend_w_per_k2)
        )
        return np.asarray(np.maximum(middle + warmer * (slope + warmer * bend), 0.0))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class SetModel:
    """The set as stated, ready for many questions: arrays with their tables, the inverter's curve and limit, W."""

    arrays: tuple[Array, ...]
    tables: tuple[_ArrayTable, ...]
    curve: EfficiencyCurve
    ac_power_w: float
    limit_w: float
    reflectance_share: float
    time_zone: str
    longitude_deg: float

    @property
    def rated_w(self) -> float:
        """Power of the panels as stated."""
        return sum(array.panel.rated_power_w * array.count for array in self.arrays)

    def ac_w(self, dc_w: Floats) -> Floats:
        """A.c. power before the limit."""
        return ac_from_dc(dc_w, self.ac_power_w, self.curve)


def set_model(setup: Setup, only_input: int | None = None) -> SetModel:
    """The set, or what hangs on one input of it.

    Raises:
        ContradictionError: a panel's datasheet makes no curve.
    """
    arrays = tuple(array for array in setup.arrays if only_input is None or array.input == only_input)
    inverter = setup.inverter
    return SetModel(
        arrays=arrays,
        tables=tuple(_table(array, setup, _sharing(array, arrays)) for array in arrays),
        curve=curve_through(inverter.weighted_efficiency_share, inverter.efficiency_weighting),
        ac_power_w=inverter.ac_power_w,
        limit_w=min(inverter.set_limit_w, inverter.ac_power_w),
        reflectance_share=setup.site.ground_reflectance_share,
        time_zone=setup.site.time_zone,
        longitude_deg=setup.site.longitude_deg,
    )


def _sharing(array: Array, arrays: Sequence[Array]) -> float:
    """This array's part of its input's current, where arrays hang on one side by side."""
    if array.joined == "one_string":
        return 1.0
    power = sum(other.panel.rated_power_w * other.count for other in arrays if other.input == array.input)
    return array.panel.rated_power_w * array.count / power


def _table(array: Array, setup: Setup, sharing: float) -> _ArrayTable:
    limits = _limits(setup.inverter.inputs[array.input - 1], sharing)
    in_series, in_parallel = (array.count, 1) if array.joined != "parallel" else (1, array.count)
    left = remaining_share(array, setup.money.ageing_share_per_year) * (1 - array.mismatch_share)
    diode, size = diode_of(array.panel), _LIGHT_W_PER_M2.size
    light, cells = np.tile(_LIGHT_W_PER_M2, 3), np.repeat([_COOL_C, _WARM_C, _HOT_C], size)
    branch = Branch(
        diode=diode, irradiance_w_per_m2=light, cell_c=cells, in_series=in_series, strings=in_parallel * left
    )
    cool, warm, hot = running_power_w(branch, limits).reshape(3, size)
    step = _WARM_C - _COOL_C
    return _ArrayTable(
        middle_w=warm, slope_w_per_k=(hot - cool) / (2 * step), bend_w_per_k2=(hot + cool - 2 * warm) / (2 * step**2)
    )


def _limits(limits: Input, sharing: float) -> Input:
    """The part of an input's limits that one of its arrays may take; window and start stay."""
    most = limits.max_input_power_w
    return replace(
        limits,
        max_current_a=limits.max_current_a * sharing,
        max_input_power_w=None if most is None else most * sharing,
        tracking_min_v=0.0 if sharing < 1.0 else limits.tracking_min_v,
    )


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Scene:
    """Moments with light over a set: what does not depend on the planes."""

    daylight: Daylight
    surroundings: tuple[Surroundings, ...]
    weather: Weather


def scene_of(model: SetModel, parts: Parts, weather: Weather) -> Scene:
    """The set under this weather, (m,) moments of ``parts``."""
    from_sun, even = split_by_anisotropy(
        parts.zenith_deg, weather.dni_w_per_m2, weather.dhi_w_per_m2, parts.outside_w_per_m2
    )
    daylight = Daylight(
        rows=np.arange(parts.at.size), sun=direction(parts.zenith_deg, parts.azimuth_deg),
        from_sun_w_per_m2=from_sun, even_sky_w_per_m2=even, ghi_w_per_m2=weather.ghi_w_per_m2,
    )  # fmt: skip
    around = tuple(_surroundings(array, parts, model) for array in model.arrays)
    return Scene(daylight=daylight, surroundings=around, weather=weather)


def _surroundings(array: Array, parts: Parts, model: SetModel) -> Surroundings:
    size, sky_share = parts.at.size, sky_over_ground(array.skyline)
    seen = np.ones(size)
    if array.skyline:
        seen = above_skyline(array.skyline, parts.zenith_deg, parts.azimuth_deg).astype(np.float64)
    if not array.shade:
        nought = np.zeros(size)
        return Surroundings(
            skyline_open_share=seen,
            sky_over_ground_share=sky_share,
            shading=Shading(beam_through_share=np.ones(size), sections_lost_share=nought, hard_time_share=nought),
        )
    clock = calendar_of_hours(parts.middle_s.astype("datetime64[s]"), model.time_zone, model.longitude_deg)
    return Surroundings(
        skyline_open_share=seen,
        sky_over_ground_share=sky_share,
        shading=shading_of(array.shade, clock.month, clock.clock_h),
    )


def dc_of_arrays(model: SetModel, scene: Scene, turned: Sequence[Plane] | None = None) -> tuple[Floats, ...]:
    """D.c. power of each array, (m,) W, as stated, or with the arrays in other planes."""
    planes = [array.plane for array in model.arrays] if turned is None else turned
    done: dict[tuple[object, ...], tuple[Floats, Floats]] = {}
    powers = []
    for k, (array, table) in enumerate(zip(model.arrays, model.tables, strict=True)):
        same = (
            planes[k], array.mount, array.skyline, array.overhang, array.side_walls, array.shade, array.cover,
            array.dirt_share, array.facade_azimuth_deg, array.hand_rail, array.row_in_front,
            array.facing_reflectance_share, layout_key(array) if has_edges(array) else None, house_steepness(array),
        )  # fmt: skip
        if same not in done:
            light, warmth = light_and_warmth(model, scene, k, planes[k])
            done[same] = (light * (1 - array.dirt_share), warmth)
        powers.append(table.power_w(*done[same]))
    return tuple(powers)


def light_and_warmth(model: SetModel, scene: Scene, at: int, plane: Plane) -> tuple[Floats, Floats]:
    """Of the array number ``at`` in a plane, (m,): the light that drives its current, and its cells' temperature, C."""
    array, weather = model.arrays[at], scene.weather
    cells, light = light_of_planes(array, (plane,), scene.daylight, scene.surroundings[at], model.reflectance_share)
    return light[0], cell_temperature_c(cells[0], weather.air_c, weather.wind_m_per_s, array.mount)


def turned_planes(arrays: Sequence[Array], tilt_by_deg: float, azimuth_by_deg: float) -> list[Plane]:
    """The arrays' planes, all moved by the same angles; a tilt stays between level and upright."""
    return [
        Plane(
            tilt_deg=float(np.clip(array.plane.tilt_deg + tilt_by_deg, 0.0, 90.0)),
            azimuth_deg=float((array.plane.azimuth_deg + azimuth_by_deg) % 360.0),
        )
        for array in arrays
    ]


def in_steps(values: Floats, at: Ints, steps: int, part_share: float) -> Floats:
    """Means over steps (steps,) of parts' values (m,); parts without light give nothing."""
    return np.asarray(np.bincount(at, values, minlength=steps) * part_share, dtype=np.float64)
