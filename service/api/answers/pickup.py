"""What must my multimeter read at the door?"""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any
from zoneinfo import ZoneInfo

from service.api.answers.place import place_of
from service.api.answers.question import dated, day_of
from service.api.deps import Deps
from service.api.schemas.advice import cautions_out
from service.api.schemas.assumption import AssumptionOut, assumptions_out
from service.api.schemas.mistakes import RefusedRequest, mistake_of
from service.api.schemas.pickup import (
    AskOut,
    BetweenOut,
    ConditionsIn,
    DoorReadingIn,
    ExpectedOut,
    LightOut,
    MultimeterIn,
    PanelSeenOut,
    PickupCheckIn,
    PickupCheckOut,
    PickupOut,
    SaidOut,
)
from service.api.schemas.reading import read_body
from service.api.words import say
from service.core.appraisal import chosen_cautions
from service.core.completion import PANEL, moved_to, panel_alone
from service.core.errors import ContradictionError
from service.core.model.assumption import Assumption, Assumptions
from service.core.model.place import Plane
from service.core.model.place_facts import PlaceFacts
from service.core.pickup import (
    Between,
    Cause,
    Door,
    Light,
    Multimeter,
    PanelReading,
    PanelSeen,
    Ratings,
    Seen,
    another_day,
    cause,
    cells_from_halves,
    cells_of,
    cells_unlike_air,
    expected_at,
    hours_of_good_light,
    how_to_measure,
    is_enough_light,
    less_light_than_told,
    light_indoors,
    light_not_known,
    light_of_sky,
    light_told_twice,
    measured_light,
    most_current_a,
    names_alike,
    panels_seen,
    ratings_of,
    remarks_on,
    size_unlike_power,
    stand_in_power_w,
    swapped_columns,
    what_to_look_at,
)

STEP = "at_the_door"
# Of the panel, what expected readings hang on.
_READ = (
    "open_circuit_voltage_v", "short_circuit_current_a", "voc_coefficient_pct_per_k", "isc_coefficient_pct_per_k",
    "cells_in_series", "cell_kind", "age_years", "length_mm", "width_mm", "connector",
)  # fmt: skip
# Taken where nobody says: error of a hand-held light meter, of a probe at the back, of a thermometer; the usual
# hand-held multimeter with a fused 10 A input, category III 600 V (common practice, from memory).
_LIGHT_METER_SHARE, _PROBE_K, _THERMOMETER_K = 0.15, 3.0, 2.0
_USUAL_CURRENT_A, _USUAL_VOLTAGE_V = 10.0, 600.0
_ANY_AIR_C = Between(low=-10.0, likely=15.0, high=38.0)
_MONTH_K = 7.0  # how far an hour lies from the month's mean beside the swing of its days
_WORST_FIRST = (Seen.SUSPICIOUS, Seen.CANNOT_TELL, Seen.AS_EXPECTED)


@dataclass(slots=True)
class _Log:
    """What was assumed beside the panel."""

    told: list[AssumptionOut]

    def note(self, pointer: str, value: Any, code: str, source: str, between: Between | None = None) -> None:
        """Write one down."""
        low, high = (None, None) if between is None else (between.low, between.high)
        one = Assumption(
            pointer=pointer, value=value, code=code, source=say("pickup", f"source.{source}"), low=low, high=high
        )
        self.told.append(AssumptionOut.of(one, say("pickup", f"assumed.{code}"), None))


def pickup_check(body: bytes, deps: Deps) -> PickupCheckOut:
    """The answer of /v1/pickup-check."""
    request = read_body(PickupCheckIn, body)
    conditions, as_of, log = request.conditions or ConditionsIn(), day_of(request.as_of, deps), _Log([])
    ratings = _ratings(request, as_of, deps, log)
    place = None if conditions.site is None else place_of(conditions.site, deps)[0]
    light, remarks = _light(conditions, place, log)
    readings = _readings(request.readings or [])
    door = Door(
        ratings=ratings,
        light=light,
        cell_c=_cells(conditions, place, light, log),
        multimeter=_multimeter(request.multimeter or MultimeterIn(), log),
    )
    expected, results = expected_at(door), panels_seen(door, readings)
    chosen = chosen_cautions(deps.cautions, _given(request, ratings), (), (STEP,))
    return PickupCheckOut(
        pickup=PickupOut(
            verdict=_worst(results),
            expected=ExpectedOut(
                open_circuit_voltage_v=BetweenOut.of(expected.voltage),
                short_circuit_current_a=BetweenOut.of(expected.current),
            ),
            light=LightOut.of(light),
            cell_c=BetweenOut.from_core(door.cell_c),
            results=[PanelSeenOut.of(one) for one in results],
            how=[SaidOut.of(one, "how") for one in how_to_measure(door, expected)],
            look_at=[SaidOut.of(one, "look") for one in what_to_look_at()],
            remarks=[
                SaidOut.of(one, "remark")
                for one in (*remarks, *_odd(request, door, readings, as_of), *remarks_on(readings))
            ],
            ask_for=None if is_enough_light(door) else _ask(conditions, place, as_of),
        ),
        cautions=cautions_out(chosen),
        cautions_kept_back=dict(chosen.kept_back),
        assumptions=log.told,
        **dated(as_of, deps),
    )


def _given(request: PickupCheckIn, ratings: Ratings) -> dict[str, Any]:
    """The request for the cautions; the most current that can flow counts, since the meter's fuse hangs on it."""
    return {"panel": {**request.panel.given(), "short_circuit_current_a": most_current_a(ratings)}}


def _ratings(request: PickupCheckIn, as_of: date, deps: Deps, log: _Log) -> Ratings:
    given = request.panel.given()
    cells = cells_from_halves(given)
    if cells is not None:
        given["cells_in_series"] = cells
        log.note("/panel/cells_in_series", cells, "halves_counted", "given")
    power_read = "rated_power_w" in given
    if not power_read:
        power = stand_in_power_w(given)
        if power is not None:  # a request without any figure was refused
            given["rated_power_w"] = round(min(max(power, 5.0), 1000.0), 1)
            log.note("/panel/rated_power_w", given["rated_power_w"], "power_from_figures", "given")
    try:
        panel, assumed = panel_alone(given, as_of, deps.default_tables)
    except ContradictionError as error:
        raise RefusedRequest("contradiction", (mistake_of(moved_to(error, "/panel")),)) from error
    ratings = ratings_of(panel, assumed, PANEL, power_read=power_read)
    read = {f"{PANEL}/{name}" for name in _READ}
    kept = Assumptions.of(one for pointer, one in assumed.by_pointer.items() if pointer in read)
    for one in assumptions_out(kept):
        log.told.append(_widened(one.at(f"/panel{one.pointer.removeprefix(PANEL)}"), ratings))
    return ratings


def _widened(one: AssumptionOut, ratings: Ratings) -> AssumptionOut:
    """The range of a voltage or current as it was reckoned with."""
    name = one.pointer.rpartition("/")[2]
    if name not in {"open_circuit_voltage_v", "short_circuit_current_a"}:
        return one
    between: Between = getattr(ratings, name)
    return one.model_copy(update={"low": round(between.low, 3), "high": round(between.high, 3)})


def _light(conditions: ConditionsIn, place: PlaceFacts | None, log: _Log) -> tuple[Light, list[Cause]]:
    """Indoors wins over all else; a measurement over the sky; without either nothing is known but whether it is day.

    What is told beside it and contradicts it, or tells no light alone, comes as a remark.
    """
    measured, sky = _measured(conditions, log), _of_sky(conditions, place)
    if conditions.sky == "indoors":
        room = light_indoors(measured)
        return room, _twice(measured, light_indoors())
    if measured is not None:
        return measured, _beside_measured(conditions, measured, sky)
    lone = [] if conditions.irradiance_uncertainty_share is None else [cause("uncertainty_without_light")]
    if sky is None:
        return light_not_known(), lone + ([] if conditions.sky is None else [cause("sky_without_place")])
    return sky if conditions.sky is not None or sky.w_per_m2.high <= 0 else light_not_known(), lone


def _measured(conditions: ConditionsIn, log: _Log) -> Light | None:
    if conditions.irradiance_w_per_m2 is None:
        return None
    share = conditions.irradiance_uncertainty_share
    if share is None:
        share = _LIGHT_METER_SHARE
        log.note("/conditions/irradiance_uncertainty_share", share, "usual_light_meter", "trade")
    return measured_light(conditions.irradiance_w_per_m2, share)


def _of_sky(conditions: ConditionsIn, place: PlaceFacts | None) -> Light | None:
    """By place, time and sky, cloudless where that was not told; None without a place or a time."""
    if place is None or conditions.time is None or conditions.sky == "indoors":
        return None
    return light_of_sky(place.climate, _moment(conditions.time), conditions.sky or "clear", _plane(conditions))


def _beside_measured(conditions: ConditionsIn, measured: Light, sky: Light | None) -> list[Cause]:
    """Of a sky beside light that was measured: a cloudless one that nobody told lets any less light be."""
    if sky is None:
        return [] if conditions.sky is None else [cause("sky_without_place", beside="measured")]
    less = None if conditions.sky is None else less_light_than_told(measured, sky)
    return _twice(measured, sky) if less is None else [less]


def _twice(measured: Light | None, otherwise: Light | None) -> list[Cause]:
    told = light_told_twice(measured, otherwise) if measured and otherwise else None
    return [] if told is None else [told]


def _odd(request: PickupCheckIn, door: Door, read: list[PanelReading], as_of: date) -> Iterator[Cause]:
    """What else contradicts itself, of the panel, the conditions and the names."""
    panel, conditions, readings = request.panel, request.conditions or ConditionsIn(), request.readings or []
    odd: list[Cause | None] = []
    if panel.rated_power_w is not None:
        odd.append(size_unlike_power(panel.rated_power_w, panel.length_mm, panel.width_mm))
    if conditions.cell_c is not None and conditions.air_c is not None:
        air = _about(conditions.air_c, _THERMOMETER_K)
        odd.append(cells_unlike_air(conditions.cell_c, cells_of(air, door.light.w_per_m2), conditions.air_c))
    if conditions.time is not None and readings:
        odd.append(another_day(_moment(conditions.time).date(), as_of))
    if conditions.plane is not None and (conditions.site is None or conditions.time is None):
        odd.append(cause("plane_without_place"))
    odd.append(swapped_columns(door, read))
    odd.append(names_alike(one.panel for one in readings if one.panel is not None))
    yield from (one for one in odd if one is not None)


def _plane(conditions: ConditionsIn) -> Plane | None:
    plane = conditions.plane
    if plane is None or plane.tilt_deg is None or plane.azimuth_deg is None:
        return None
    return Plane(tilt_deg=plane.tilt_deg, azimuth_deg=plane.azimuth_deg)


def _moment(time: str) -> datetime:
    return datetime.fromisoformat(time.upper())


def _cells(conditions: ConditionsIn, place: PlaceFacts | None, light: Light, log: _Log) -> Between:
    if conditions.cell_c is not None:
        return _about(conditions.cell_c, _PROBE_K)
    if conditions.air_c is not None:
        air = _about(conditions.air_c, _THERMOMETER_K)
    elif place is not None and conditions.time is not None:
        month = _moment(conditions.time).month - 1
        swing = float(place.climate.air_swing_k[month])
        air = _about(round(float(place.climate.air_c[month]), 1), round(_MONTH_K + swing / 2, 1))
        log.note("/conditions/air_c", air.likely, "air_of_the_month", "climate", air)
    else:
        air = _ANY_AIR_C
        log.note("/conditions/air_c", air.likely, "any_air", "judgement", air)
    cells = cells_of(air, light.w_per_m2)
    log.note("/conditions/cell_c", round(cells.likely, 1), "cells_in_balance", "faiman", cells)
    return cells


def _about(value: float, either_way: float) -> Between:
    return Between(low=value - either_way, likely=value, high=value + either_way)


def _multimeter(given: MultimeterIn, log: _Log) -> Multimeter:
    current, voltage = given.current_limit_a, given.voltage_limit_v
    if current is None:
        current = _USUAL_CURRENT_A
        log.note("/multimeter/current_limit_a", current, "usual_meter", "trade")
    if voltage is None:
        voltage = _USUAL_VOLTAGE_V
        log.note("/multimeter/voltage_limit_v", voltage, "usual_meter", "trade")
    return Multimeter(current_limit_a=current, voltage_limit_v=voltage, clamps_dc=bool(given.clamps_dc))


def _readings(readings: list[DoorReadingIn]) -> list[PanelReading]:
    """Those without a name are panels of their own, named by their place; no other panel has that name."""
    found, named = [], {one.panel for one in readings}
    for at, one in enumerate(readings, 1):
        own = f"#{at}" if f"#{at}" not in named else f"#{at} (no name)"
        said = {"panel": own, **one.given()}
        if "meter_input_mohm" in said:
            said["meter_input_mohm"] = Between.exactly(said["meter_input_mohm"])
        found.append(PanelReading(**said))
    return found


def _worst(results: tuple[PanelSeen, ...]) -> Seen | None:
    return next((one for one in _WORST_FIRST if any(seen.verdict is one for seen in results)), None)


def _ask(conditions: ConditionsIn, place: PlaceFacts | None, as_of: date) -> AskOut:
    """When and where a reading proves something."""
    if place is None:
        return AskOut(code="any_hour", from_time=None, to_time=None, text=say("pickup", "ask.any_hour"))
    zone = (conditions.site.time_zone if conditions.site else None) or place.time_zone
    after = None if conditions.time is None else _moment(conditions.time)
    day = as_of if after is None else after.astimezone(ZoneInfo(zone)).date()
    hours = hours_of_good_light(place.climate, zone, day, after)
    if hours is None:
        return AskOut(code="sun_stays_low", from_time=None, to_time=None, text=say("pickup", "ask.sun_stays_low"))
    facts = {
        "from_clock": f"{hours[0]:%H:%M}", "to_clock": f"{hours[1]:%H:%M}", "day": hours[0].date().isoformat(),
    }  # fmt: skip
    return AskOut(
        code="hours",
        from_time=hours[0].isoformat(timespec="minutes"),
        to_time=hours[1].isoformat(timespec="minutes"),
        text=say("pickup", "ask.hours", facts),
    )
