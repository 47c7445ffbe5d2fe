"""Was a number written in another unit than the one meant: kilowatts for watts, millivolts for volts?"""

from typing import Any

from service.core.model.bounds import BOUNDS

# By unit: what a number in the other unit is multiplied by. Kilowatts for watts; thousandths for volts or amperes a
# kelvin; metres and centimetres for millimetres; volts or amperes for their thousandths.
_FACTORS = {
    "W": (1000.0,), "V/K": (0.001,), "A/K": (0.001,), "mV/K": (1000.0,), "mA/K": (1000.0,), "mm": (1000.0, 10.0),
    "kWh": (0.001,), "kg": (0.001,),
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
