"""How is a panel measured without harm, when and where is that worth doing, and what is to be looked at?"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from service.core.model.finding import Fact
from service.core.pickup.check import Expected
from service.core.pickup.electric import LEAST_FOR_CURRENT_W_PER_M2, light_causes
from service.core.pickup.expected import LABEL_VOLTAGE_SHARE, expected_current, expected_voltage
from service.core.pickup.facts import Between, Door, Light

# Ranges that d.c. voltmeters usually have, in V.
_RANGES_V = (20.0, 60.0, 200.0, 600.0, 1000.0)
_FULL_SUN = Light(w_per_m2=Between.exactly(1000.0), origin="measured")
_COLD_C, _WARM_C = Between.exactly(-10.0), Between.exactly(45.0)
# What is looked at on every panel, in the order in which one walks around it.
LOOKS = ("glass", "cells", "back", "box", "leads", "connectors", "frame", "label")


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """A thing to do or to look at; ``facts`` fill its sentence."""

    code: str
    facts: Mapping[str, Fact]


def how_to_measure(door: Door, expected: Expected) -> tuple[Told, ...]:
    """What to do, step by step. Which meter bears what is told for full sun too: clouds pass.

    The current is left out where the meter's input does not bear it: then a d.c. clamp, or less light.
    """
    return (
        _told("apart_from_all"),
        _voltage(door, expected),
        *_current(door, expected),
        _told("between_readings"),
        _told("volts_to_the_frame"),
        _told("diodes_in_the_dark"),
    )


def what_to_look_at() -> tuple[Told, ...]:
    """What no meter shows."""
    return tuple(_told(code) for code in LOOKS)


def most_current_a(door: Door, expected: Expected) -> float:
    """The most amperes that a short circuit may drive through the meter now, in A.

    Where the light now is not known or too little to judge by, the light to come back in counts: full sun.
    """
    sun = expected_current(door.ratings, _FULL_SUN, _WARM_C).high
    if expected.current is None or light_causes(door, LEAST_FOR_CURRENT_W_PER_M2):
        return sun
    return expected.current.high


def _voltage(door: Door, expected: Expected) -> Told:
    cold = expected_voltage(door.ratings, _FULL_SUN, _COLD_C).high
    most = max(cold, 0.0 if expected.voltage is None else expected.voltage.high)
    if most > door.multimeter.voltage_limit_v:
        return _told("no_voltage_with_this_meter", most=round(most), limit=door.multimeter.voltage_limit_v)
    scale = next((one for one in _RANGES_V if one >= most * (1 + LABEL_VOLTAGE_SHARE)), most)
    return _told("voltage", most=round(most), range=scale)


def _current(door: Door, expected: Expected) -> Iterable[Told]:
    most, meter = most_current_a(door, expected), door.multimeter
    facts: dict[str, Fact] = {"most": round(most, 1), "limit": meter.current_limit_a}
    if meter.clamps_dc:
        yield _told("current_by_clamp", **facts)
    elif most > meter.current_limit_a:
        yield _told("no_current_with_this_meter", **facts)
    else:
        yield _told("current", **facts)
    yield _told("never_part_under_sun")


def _told(code: str, **facts: Fact) -> Told:
    return Told(code=code, facts=MappingProxyType(facts))
