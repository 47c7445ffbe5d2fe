"""What will the set yield in a typical year, when, and where is energy lost on the way?"""

from collections.abc import Hashable, Sequence
from dataclasses import replace
from types import MappingProxyType

import numpy as np

from service.core.energy.at_input import at_input
from service.core.energy.cells import CellYear, cell_year
from service.core.energy.chain import WATT_HOURS_PER_KWH, ArrayHours, Lit, input_hours
from service.core.energy.days import day_kinds
from service.core.energy.hour_moves import Doubts, HourMoves, moves_of, with_moves
from service.core.energy.lights import Lights
from service.core.energy.other_light import OtherLight
from service.core.energy.otherwise import ground_otherwise, held_otherwise, lain_otherwise, upright_at_a_house
from service.core.energy.rear_otherwise import rears_otherwise
from service.core.energy.result import LOSSES, ArrayConditions, ArrayYear, EnergyYear
from service.core.energy.shares import hidden_share, left_kwh, rear_share, snow_share
from service.core.energy.spread import (
    AT_INPUT,
    MEASURED_SHARE_PER_REFLECTANCE,
    SHADE,
    OfLight,
    by_clouds_share,
    by_uncut_share,
    spread_of,
    with_part,
)
from service.core.errors import ContradictionError
from service.core.inverter import Output, curve_through, night_draw_kwh, output_of
from service.core.model.assumption import Assumptions
from service.core.model.band import Band, ends_of
from service.core.model.climate import PlaceClimate
from service.core.model.facts import Array, Setup
from service.core.model.hours import Floats, SkyYear
from service.core.sky import (
    PlaneLight,
    cloud_to_lose,
    counts_rear,
    ground_share,
    plane_light_given,
    plane_moves,
    rear_light,
)

DAYS_PER_YEAR = 365.0
_DOUBTED = ("/arrays", "/site", "/inverter/inputs")
_ALL_FROM_GROUND = 5.0  # of ground that throws back 0.2


def direct_current(
    setup: Setup, sky: SkyYear, lights: Lights | None = None, *, account: bool = True
) -> tuple[ArrayHours, ...]:
    """The year of each array up to the d.c. side of the inverter, in the order of the arrays.

    ``lights``: what is known already of the light on planes in this year; it is added to. Without ``account``
    what is lost is not told; enough for ``alternating_current_w``, at some two thirds of the cost.

    Raises:
        ContradictionError: an array on an input that the inverter lacks, or a panel whose datasheet makes no curve.
    """
    return tuple(_array_hours(setup, _lit(setup, sky, lights), sky, account=account))


def direct_key(setup: Setup) -> Hashable:
    """All that the d.c. side hangs on beside the place: setups of one key have the same hours at one place."""
    return (
        setup.arrays,
        setup.inverter.inputs,
        setup.site.ground_reflectance_share,
        setup.money.ageing_share_per_year,
    )


def year_key(setup: Setup, assumptions: Assumptions) -> Hashable:
    """All that ``energy_year`` hangs on beside the place: questions of one key have the same year at one place."""
    inverter = setup.inverter
    return (
        direct_key(setup),
        (inverter.ac_power_w, inverter.set_limit_w, inverter.night_draw_w),
        (inverter.weighted_efficiency_share, inverter.efficiency_weighting),
        setup.downtime_days_per_year,
        setup.site.latitude_deg < 0,
        assumptions.within(*_DOUBTED),
    )


def spread_key(setup: Setup, assumptions: Assumptions) -> Hashable:
    """All that ``year_spread`` hangs on beside the place: it takes more of a year than all that follows it."""
    return direct_key(setup), assumptions.within(*_DOUBTED)


def energy_year(
    setup: Setup,
    sky: SkyYear,
    climate: PlaceClimate,
    assumptions: Assumptions,
    direct: tuple[ArrayHours, ...] | None = None,
    doubts: Doubts | None = None,
) -> EnergyYear:
    """The typical year of the whole set.

    Args:
        setup: the complete request. Planes are fixed, circuits and money (but for the rate of ageing) not looked at.
        sky: the place's hours.
        climate: for how sure its light is.
        assumptions: which values nobody gave; they widen the band.
        direct: ``direct_current`` of a setup of the same ``direct_key``, where it is at hand.
        doubts: ``year_spread`` of one of the same ``spread_key``, where it is at hand.

    The inputs' d.c. powers are added, converted at their sum over the rated a.c. power, and cut by the limit that the
    inverter is set to, which also cuts what flickers above it within an hour (``sky.flicker_share``; the limits of the
    inputs act on hourly means); downtime comes after, evenly over the year. ``lost_kwh["export_limit"]`` is 0 here: it
    needs the home's demand. The rear side of bifacial panels counts where an array asks for it. Snow on the glass
    is a rule of thumb (``sky.snow``). Not modelled: an inverter that throttles in heat.

    Raises:
        ContradictionError: an array on an input that the inverter lacks, or a panel whose datasheet makes no curve.
    """
    hours = direct_current(setup, sky) if direct is None else direct
    dc_w = np.sum([one.dc_w for one in hours], axis=0)
    doubts = year_spread(setup, hours, sky, climate, assumptions) if doubts is None else doubts
    spread, moves = doubts.in_light, HourMoves()
    other = replace(
        _other_light(setup, hours, sky.flicker_share), cloud=cloud_to_lose(sky),
        by_clouds_share=by_clouds_share(spread), by_uncut_share=by_uncut_share(spread),
    )  # fmt: skip
    for code, others_w in doubts.others_w:
        one = moves_of(setup, dc_w, others_w)
        spread, moves = with_part(spread, code, one.sd_share), moves + one
    other = with_moves(other, moves, spread)
    out = output_of(
        np.maximum(dc_w, 0.0), other.ac_power_w, other.limit_w, other.curve, flicker_share=sky.flicker_share
    )
    ac_w = out.ac_w * other.up_share
    arrays = _arrays(setup, hours, ac_w, dc_w)
    year_kwh = _kwh(ac_w)
    return EnergyYear(
        year_kwh=_band(year_kwh, other, ends_of(spread)),
        months_kwh=tuple((np.bincount(sky.calendar.month - 1, ac_w, 12) / WATT_HOURS_PER_KWH).tolist()),
        day_kinds=day_kinds(ac_w, sky, south=setup.site.latitude_deg < 0),
        hours_at_limit=float(np.count_nonzero(out.clipped_w > 0)),
        light_kwh=sum(one.light_kwh for one in hours),
        lost_kwh=_account(hours, out, _kwh(out.ac_w) - year_kwh),
        night_draw_kwh=night_draw_kwh(dc_w, setup.inverter.night_draw_w),
        arrays=arrays,
        spread=spread,
        ac_w=_read_only(ac_w),
        dc_w=tuple(_read_only(one.dc_w) for one in hours),
        other_light=other,
    )


def alternating_current_w(setup: Setup, hours: Sequence[ArrayHours], sky: SkyYear) -> Floats:
    """(8760,) a.c. power after limit and downtime, as ``EnergyYear.ac_w`` of a set without an export limit.

    Args:
        setup: the complete request.
        hours: its ``direct_current``.
        sky: the place's hours.
    """
    return _other_light(setup, hours, sky.flicker_share).ac_and_clipped_w(1.0)[0]


def _other_light(setup: Setup, hours: Sequence[ArrayHours], flicker_share: Floats | None) -> OtherLight:
    """The d.c. side by input, and the a.c. side as the setup has it."""
    inverter = setup.inverter
    numbers = sorted({array.input for array in setup.arrays})

    def by_input(parts: Sequence[Floats]) -> tuple[Floats, ...]:
        on = [[part for array, part in zip(setup.arrays, parts, strict=True) if array.input == n] for n in numbers]
        return tuple(one[0] if len(one) == 1 else np.sum(one, axis=0) for one in on)

    return OtherLight(
        free_w=by_input([one.free_w for one in hours]),
        most_w=by_input([one.most_w for one in hours]),
        ac_power_w=inverter.ac_power_w,
        limit_w=min(inverter.set_limit_w, inverter.ac_power_w),
        curve=curve_through(inverter.weighted_efficiency_share, inverter.efficiency_weighting),
        up_share=1 - min(setup.downtime_days_per_year / DAYS_PER_YEAR, 1.0),
        flicker_share=flicker_share,
    )


def year_spread(
    setup: Setup,
    hours: Sequence[ArrayHours],
    sky: SkyYear,
    climate: PlaceClimate,
    assumptions: Assumptions,
    lights: Lights | None = None,
) -> Doubts:
    """How sure the year is, cause by cause; the arguments are those of ``energy_year``, ``hours`` its ``direct``.

    ``lights``: as of ``direct_current``.
    """
    lights = Lights() if lights is None else lights

    def dc_w_of(changed: Setup) -> Floats:
        return np.asarray(np.sum([one.dc_w for one in direct_current(changed, sky, lights, account=False)], axis=0))

    free_kwh = [max(_kwh(one.free_w), 0.0) for one in hours]  # before the limits, as the spread is
    reflectance = setup.site.ground_reflectance_share
    on_cells = [_on_cells_kwh_per_m2(array, one) for array, one in zip(setup.arrays, hours, strict=True)]
    otherwise = lain_otherwise(setup.arrays, on_cells, sky, reflectance, assumptions)
    measured = sky.plane_w_per_m2 is not None
    rears = rears_otherwise(setup.arrays, sky, reflectance)
    others_w = [(AT_INPUT, group) for group in at_input(setup, assumptions, dc_w_of)]
    if any(one.far is not None for one in otherwise):
        arrays = [array if one.far is None else one.far for array, one in zip(setup.arrays, otherwise, strict=True)]
        others_w.append((SHADE, (dc_w_of(replace(setup, arrays=tuple(arrays))),)))
    known = [
        OfLight(
            hidden_share=hidden_share(one),
            rear_share=rear_share(one),
            rear_beyond=rears[at],
            snow_share=snow_share(one),
            weather_moves=_weather_moves(array, one, sky, reflectance),
            per_reflectance=per_reflectance,
            house=(0.0, 0.0)
            if per_reflectance is None or measured
            else ground_otherwise(array, sky, per_reflectance, reflectance, f"/arrays/{at}", assumptions),
            upright_at_a_house=0.0
            if per_reflectance is None or measured
            else upright_at_a_house(
                array, sky, reflectance * _ground_kwh_per_m2(array, one, sky, 90.0), lit, f"/arrays/{at}", assumptions
            ),
            faces_share=_faces_share(array, one),
            otherwise=(moved.less, moved.more if moved.far is None else 0.0),
            cooled=held_otherwise(
                array, one.free_w, _warming_kwh_per_m2(array, one), sky, f"/arrays/{at}", assumptions
            ),
        )
        for at, (array, one, lit, moved) in enumerate(zip(setup.arrays, hours, on_cells, otherwise, strict=True))
        for per_reflectance in (_per_reflectance(array, one, sky),)
    ]
    return Doubts(spread_of(setup.arrays, free_kwh, known, climate, assumptions), tuple(others_w))


def _band(middle_kwh: float, other: OtherLight, ends: tuple[float, float]) -> Band:
    """The year at both ends of the light. Rounding alone could bring an end past the middle."""
    low, high = (_kwh(other.ac_and_clipped_w(end)[0]) for end in ends)
    return Band(min(low, middle_kwh), middle_kwh, max(high, middle_kwh))


def array_conditions(setup: Setup, sky: SkyYear, lights: Lights | None = None) -> tuple[ArrayConditions, ...]:
    """What compatibility needs to know of each array's typical year, without the electrical part of the chain.

    ``lights``: as of ``direct_current``.
    """
    conditions = []
    for lit in _lit(setup, sky, lights):
        cells = cell_year(lit.array.mount, lit.light, sky) if lit.known_cells is None else lit.known_cells
        conditions.append(
            ArrayConditions(name=lit.array.name, hottest_cell_c=cells.hottest_c, cool_cell_c=cells.cool_c)
        )
    return tuple(conditions)


def _lit(setup: Setup, sky: SkyYear, lights: Lights | None) -> list[Lit]:
    """Each array with its light."""
    reflectance, measured = setup.site.ground_reflectance_share, sky.plane_w_per_m2
    known = lights or Lights()

    def light(at: int, array: Array) -> tuple[PlaneLight, CellYear | None]:
        if measured is None:
            return known.with_cells(sky, array, reflectance)
        return plane_light_given(sky, array, measured[at], reflectance), None

    def one(at: int, array: Array) -> Lit:
        (front, cells), rear = light(at, array), None
        if counts_rear(array):
            rear = rear_light(sky, array, reflectance, front.effective_w_per_m2)
        return Lit(at=at, array=array, light=front, rear_w_per_m2=rear, known_cells=cells)

    return [one(at, array) for at, array in enumerate(setup.arrays)]


def _array_hours(setup: Setup, lit: Sequence[Lit], sky: SkyYear, *, account: bool) -> list[ArrayHours]:
    """The chain, input by input, once of inputs that hold the same; results in the order of the arrays."""
    inputs = setup.inverter.inputs
    by_input: dict[int, list[Lit]] = {}
    for one in lit:
        if not 1 <= one.array.input <= len(inputs):
            pointer = f"/arrays/{one.at}/input"
            raise ContradictionError(
                pointer, "the inverter has no such input", given=one.array.input,
                accepted=f"1 to {len(inputs)}", example=1,
            )  # fmt: skip
        by_input.setdefault(one.array.input, []).append(one)
    hours: dict[int, ArrayHours] = {}
    known: dict[Hashable, tuple[ArrayHours, ...]] = {}
    for number, on_input in by_input.items():
        limits = inputs[number - 1]
        alike = limits, *((id(one.light), replace(one.array, name="", input=0)) for one in on_input)
        if alike not in known:
            known[alike] = input_hours(on_input, sky, limits, setup.money.ageing_share_per_year, account=account)
        hours.update(zip((one.at for one in on_input), known[alike], strict=True))
    return [hours[at] for at in range(len(lit))]


def _arrays(setup: Setup, hours: Sequence[ArrayHours], ac_w: Floats, dc_w: Floats) -> tuple[ArrayYear, ...]:
    a_c_for_d_c = np.divide(ac_w, dc_w, out=np.zeros_like(ac_w), where=dc_w > 0)
    return tuple(
        ArrayYear(
            name=array.name,
            year_kwh=_kwh(one.dc_w * a_c_for_d_c),
            plane=array.plane,
            peak_w=float(np.max(one.dc_w)),
            hottest_cell_c=one.hottest_cell_c,
            hours_not_started=int(np.count_nonzero(one.lit & ~one.running)),
            little=one.little,
        )
        for array, one in zip(setup.arrays, hours, strict=True)
    )


def _account(hours: Sequence[ArrayHours], out: Output, downtime_kwh: float) -> MappingProxyType[str, float]:
    """All losses by code, in their order; what no stage takes is nought."""
    of_the_set = {
        "conversion": _kwh(out.conversion_loss_w), "clipped": _kwh(out.clipped_w), "downtime": downtime_kwh,
    }  # fmt: skip
    return MappingProxyType(
        {code: sum(one.lost_kwh.get(code, 0.0) for one in hours) + of_the_set.get(code, 0.0) for code in LOSSES}
    )


def _weather_moves(array: Array, hours: ArrayHours, sky: SkyYear, ground_reflectance_share: float) -> float:
    """How far clouds move the array's light over that of level ground; light measured on its plane is what it is."""
    if sky.plane_w_per_m2 is not None:
        return 1.0
    light_kwh_per_m2 = hours.light_kwh / _rated_kw(array)
    return plane_moves(sky, light_kwh_per_m2, array.plane.tilt_deg, ground_reflectance_share)


def _per_reflectance(array: Array, hours: ArrayHours, sky: SkyYear) -> float | None:
    """How far the array's light moves with the ground's reflectance, over that light; measured, by the glass alone."""
    if sky.plane_w_per_m2 is not None:
        return MEASURED_SHARE_PER_REFLECTANCE
    on_cells_kwh_per_m2 = _on_cells_kwh_per_m2(array, hours)
    if not on_cells_kwh_per_m2 > 0.0:
        return None
    return min(_ground_kwh_per_m2(array, hours, sky, array.plane.tilt_deg) / on_cells_kwh_per_m2, _ALL_FROM_GROUND)


def _ground_kwh_per_m2(array: Array, hours: ArrayHours, sky: SkyYear, tilt_deg: float) -> float:
    """What ground that threw back all light would send to cells at a tilt, past skyline, row and cover."""
    through = 1.0 if array.cover is None else array.cover.light_through_share
    return float(ground_share(tilt_deg)) * _kwh(sky.ghi_w_per_m2) * hours.ground_left_share * through


def _faces_share(array: Array, hours: ArrayHours) -> float:
    """What faces of the skyline may add to an array's light beside what is counted, over that light."""
    on_cells_kwh_per_m2 = _on_cells_kwh_per_m2(array, hours)
    return hours.more_by_faces_kwh_per_m2 / on_cells_kwh_per_m2 if on_cells_kwh_per_m2 > 0.0 else 0.0


def _on_cells_kwh_per_m2(array: Array, hours: ArrayHours) -> float:
    """What is left of the array's light behind all that stands around it, cover and glass."""
    return left_kwh(hours, "angle") / _rated_kw(array)


def _on_panel_kwh_per_m2(array: Array, hours: ArrayHours) -> float:
    """The same before the glass."""
    return left_kwh(hours) / _rated_kw(array)


def _warming_kwh_per_m2(array: Array, hours: ArrayHours) -> float:
    """The same without the light that falls on snow."""
    return left_kwh(hours, "snow") / _rated_kw(array)


def _rated_kw(array: Array) -> float:
    return array.panel.rated_power_w * array.count / 1000.0


def _kwh(watts: Floats) -> float:
    return float(np.sum(watts)) / WATT_HOURS_PER_KWH


def _read_only(values: Floats) -> Floats:
    values.flags.writeable = False
    return values
