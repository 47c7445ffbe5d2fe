"""Were the columns of volts and amperes exchanged?

Then the current is more than any sun drives through a panel of that label, and both fit far better the other way round.
Such a reading speaks of the pen, and of no panel.
"""

from collections.abc import Mapping
from dataclasses import replace
from math import inf, log

from service.core.pickup.against_light import in_any_sun
from service.core.pickup.electric import ISC, VOC, no_daylight
from service.core.pickup.facts import Between, Door, PanelReading, Quantity, Seen, cause

# Exchanged, both must lie about where a sound panel or one that lost a third lies, and by so much nearer than as told,
# in natural logarithms of ratios (judgement).
_NEAR, _NEARER = 0.5, 1.0


def columns_swapped(reading: PanelReading, door: Door, expected: Mapping[str, Between]) -> bool:
    """Do volts and amperes of this reading fit far better when they are exchanged?"""
    volts, amperes = reading.open_circuit_voltage_v, reading.short_circuit_current_a
    if volts is None or amperes is None or no_daylight(door) or reading.shaded or in_any_sun(amperes, door):
        return False
    as_told = _off(volts, expected[VOC]) + _off(amperes, expected[ISC])
    exchanged = _off(amperes, expected[VOC]) + _off(volts, expected[ISC])
    return exchanged <= _NEAR and exchanged + _NEARER <= as_told


def set_aside(reading: PanelReading) -> PanelReading:
    """The same reading without volts and amperes: what else was read stands."""
    return replace(reading, open_circuit_voltage_v=None, short_circuit_current_a=None)


def not_judged(reading: PanelReading, expected: Mapping[str, Between]) -> tuple[Quantity, ...]:
    """The two quantities of a reading whose columns were exchanged, as they were told."""
    return tuple(
        Quantity(
            what=what, verdict=Seen.CANNOT_TELL, measured=getattr(reading, what), low=expected[what].low,
            high=expected[what].high, unit=unit, causes=(cause("columns_swapped"),),
        )
        for what, unit in ((VOC, "V"), (ISC, "A"))
    )  # fmt: skip


def _off(read: float, expected: Between) -> float:
    """How far outside the range, as a natural logarithm; 0 within it."""
    if expected.holds(read):
        return 0.0
    end = expected.low if read < expected.low else expected.high
    return abs(log(read / end)) if read > 0 and end > 0 else inf
