"""How is a panel measured without harm, when and where is that worth doing, and what is to be looked at?"""

from collections.abc import Mapping
from dataclasses import dataclass
from math import ceil
from types import MappingProxyType

from service.core.model.finding import Fact
from service.core.pickup.check import Expected
from service.core.pickup.diodes import JUNCTION_V, SCHOTTKY_V
from service.core.pickup.expected import LABEL_CURRENT_SHARE, LABEL_VOLTAGE_SHARE, expected_voltage
from service.core.pickup.facts import Between, Door, Light, Ratings
from service.core.pickup.frame import least_mohm, most_dry_v, most_reading_v

# Ranges that d.c. voltmeters usually have, in V.
_RANGES_V = (20.0, 60.0, 200.0, 600.0, 1000.0)
_FULL_SUN = Light(w_per_m2=Between.exactly(1000.0), origin="measured")
_COLD_C = Between.exactly(-10.0)
# Beside a bright cloud edge the sun gives up to a quarter more than at standard conditions: the factor by which codes
# count short-circuit current (IEC 62548; NEC 690.8; from memory).
CLOUD_EDGE = 1.25
# Turned away from the sun a panel is left with the sky's light and the ground's: some three tenths (judgement).
_AWAY_FROM_THE_SUN_SHARE = 0.3
_USUAL_METER_MOHM = 10.0  # input resistance of usual hand meters on d.c. volts
# What is looked at on every panel, in the order in which one walks around it.
LOOKS = ("glass", "cells", "back", "box", "leads", "connectors", "frame", "label")


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """A thing to do or to look at; ``facts`` fill its sentence."""

    code: str
    facts: Mapping[str, Fact]


def how_to_measure(door: Door, expected: Expected) -> tuple[Told, ...]:
    """What to do, step by step. Which meter bears what is told for the most sun there can be: clouds pass.

    The current is left out where the meter's input does not bear it: then a d.c. clamp, or less light. A meter that
    does not bear the volts is kept off the leads for all steps: a cover slips, and through its blown fuse all the volts
    are there. A clamp touches no lead.
    """
    most_v = _most_v(door, expected)
    if most_v > door.multimeter.voltage_limit_v:
        clamp = _current(door) if door.multimeter.clamps_dc else ()
        limit = door.multimeter.voltage_limit_v
        return (
            _told("apart_from_all"),
            _told("no_voltage_with_this_meter", most=ceil(most_v), limit=limit),
            *clamp,
            *((_told("one_after_the_other"),) if clamp else ()),
        )
    through_it = not door.multimeter.clamps_dc and most_current_a(door.ratings) <= door.multimeter.current_limit_a
    return (
        _told("apart_from_all"),
        _voltage(most_v, door.multimeter.voltage_limit_v),
        *_current(door),
        _told("between_readings" if through_it else "one_after_the_other"),
        _frame(door, expected),
        _diodes(door),
    )


def what_to_look_at() -> tuple[Told, ...]:
    """What no meter shows."""
    return tuple(_told(code) for code in LOOKS)


def most_current_a(ratings: Ratings) -> float:
    """The most amperes that a short circuit may drive through the meter, in A, whatever the light is now.

    Clouds pass while one measures: full sun beside a cloud's edge counts, with the label at the top of its tolerance
    and light on the rear of a panel that uses it.
    """
    label_a = (1.0 + LABEL_CURRENT_SHARE) * ratings.short_circuit_current_a.high
    return CLOUD_EDGE * label_a * (1.0 + ratings.rear_share)


def _most_v(door: Door, expected: Expected) -> float:
    """The most volts that can be there, whatever the light and the cold are now."""
    cold = expected_voltage(door.ratings, _FULL_SUN, _COLD_C).high
    return max(cold, 0.0 if expected.voltage is None else expected.voltage.high)


def _voltage(most_v: float, limit_v: float) -> Told:
    """The range, as long as the meter can have it: else its highest one, up to what it bears."""
    scale = next((one for one in _RANGES_V if one >= most_v * (1 + LABEL_VOLTAGE_SHARE)), most_v)
    if scale <= limit_v:
        return _told("voltage", most=ceil(most_v), range=scale)
    return _told("voltage", most=ceil(most_v), range=limit_v, scale="highest")


def _current(door: Door) -> tuple[Told, ...]:
    """Figures are rounded up: none is told that lies below a limit which the true one breaks."""
    most, meter = most_current_a(door.ratings), door.multimeter
    facts: dict[str, Fact] = {"most": ceil(10 * most) / 10, "limit": meter.current_limit_a}
    if meter.clamps_dc:
        told = _told("current_by_clamp", **facts)
    elif most <= meter.current_limit_a:
        told = _told("current", **facts)
    elif _AWAY_FROM_THE_SUN_SHARE * most <= meter.current_limit_a:
        told = _told("no_current_with_this_meter", **facts)
    else:
        told = _told("no_current_with_this_meter", **facts, less_light="no")
    return told, _told("never_part_under_sun")


def _frame(door: Door, expected: Expected) -> Told:
    """What a meter of the usual input resistance may show, by the size of the panel."""
    voltage, area = expected.voltage or door.ratings.open_circuit_voltage_v, door.ratings.area_m2
    return _told(
        "volts_to_the_frame", meter=_USUAL_METER_MOHM, wanted=round(least_mohm(area.low), 1),
        dry=round(most_dry_v(voltage.likely, area.low, _USUAL_METER_MOHM), 1),
        most=round(most_reading_v(voltage.likely, area.low, _USUAL_METER_MOHM), 1),
    )  # fmt: skip


def _diodes(door: Door) -> Told:
    sections = door.ratings.sections.likely
    facts = {
        f"{name}_{end}": round(sections * getattr(kind, end), 2)
        for name, kind in (("schottky", SCHOTTKY_V), ("junction", JUNCTION_V))
        for end in ("low", "high")
    }
    return _told("diodes_in_the_dark", sections=round(sections), **facts)


def _told(code: str, **facts: Fact) -> Told:
    return Told(code=code, facts=MappingProxyType(facts))
