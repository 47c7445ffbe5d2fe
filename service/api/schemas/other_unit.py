"""Was a number written in another unit than the one meant, or with a minus sign that only the meter's leads made?"""

from typing import Any

from service.core.model.bounds import BOUNDS

# By unit: what a number in the other unit is multiplied by. Kilowatts for watts; thousandths for volts or amperes, and
# for those a kelvin; metres and centimetres for millimetres; kilohms and ohms for megohms.
_FACTORS = {
    "W": (1000.0,), "V/K": (0.001,), "A/K": (0.001,), "mV/K": (1000.0,), "mA/K": (1000.0,), "mm": (1000.0, 10.0),
    "kWh": (0.001,), "kg": (0.001,), "V": (0.001,), "A": (0.001,), "megohm": (0.001, 1e-6),
}  # fmt: skip


def in_other_unit(place: tuple[str | int, ...], given: Any) -> str | None:
    """The number that was probably meant, with its unit; None where no such unit brings it into bounds.

    >>> in_other_unit(("arrays", 0, "panel", "rated_power_w"), 0.44)
    '440 W'
    """
    name = place[-1] if place else None
    bounds = BOUNDS.get(name) if isinstance(name, str) else None
    if bounds is None or isinstance(given, bool) or not isinstance(given, int | float):
        return None
    for factor in _FACTORS.get(bounds.unit or "", ()):
        meant = float(f"{given * factor:.6g}")
        if bounds.low <= meant <= bounds.high and meant != 0:
            return f"{meant:g} {bounds.unit}"
    return None


# What a meter shows with a minus sign where its leads sit the other way round.
_SIGNED = frozenset({"open_circuit_voltage_v", "short_circuit_current_a", "plus_to_frame_v", "frame_to_minus_v"})


def without_sign(place: tuple[str | int, ...], given: Any) -> str | None:
    """A reading of a meter without its minus sign; None of anything else.

    >>> without_sign(("readings", 0, "open_circuit_voltage_v"), -37.9)
    '37.9'
    """
    if place[:1] != ("readings",) or place[-1] not in _SIGNED or isinstance(given, bool):
        return None
    return f"{-given:g}" if isinstance(given, int | float) and -300 <= given < 0 else None
