"""What must a sound panel of this label read, in this light, at this temperature: how many volts, how many amperes?

Volts and amperes follow the datasheet's coefficients and the logarithm of the light, the form of IEC 60891 and of the
single-diode model. What is not known exactly is moved to either end, one thing at a time, and the steps are added by
squares: they have nothing to do with one another.
"""

from collections.abc import Iterable
from math import hypot, log

from service.core.pickup.facts import Between, Light, Ratings

STANDARD_W_PER_M2 = 1000.0
STANDARD_C = 25.0
_ZERO_C_K = 273.15
_VOLTS_A_KELVIN = 8.617333e-5  # Boltzmann's constant over the elementary charge

# Tolerance of labels (the form of EN 50380) and of hand meters, in shares: common practice, from memory.
LABEL_VOLTAGE_SHARE, METER_VOLTAGE_SHARE = 0.03, 0.01
LABEL_CURRENT_SHARE, METER_CURRENT_SHARE = 0.05, 0.02
# Ideality of a cell's diode: sound crystalline cells lie about 1.1; worn cells and thin film higher (judgement).
IDEALITY = Between(low=0.9, likely=1.1, high=1.4)
# What a panel may lose by the year of its age: the current about half a per cent, the voltage hardly anything (reviews
# of field measurements, from memory). It lowers the least that is expected, never what is likely.
CURRENT_AGEING_SHARE, VOLTAGE_AGEING_SHARE = 0.005, 0.0015


def open_circuit_voltage(
    rating_v: float, coefficient_pct_per_k: float, cells: float, w_per_m2: float, cell_c: float, ideality: float
) -> float:
    """Voc0 (1 + beta (T - 25)) + n Ns (k T / q) ln(G / 1000), in V; nought in the dark.

    Above 1000 W/m2 the thermal voltage is that of 25 C, so that a warmer panel never reads more.

    >>> round(open_circuit_voltage(40.6, -0.3, 60, 650.0, 35.0, 1.1), 2)
    38.63
    """
    if w_per_m2 <= 0:
        return 0.0
    thermal_k = _ZERO_C_K + (cell_c if w_per_m2 < STANDARD_W_PER_M2 else STANDARD_C)
    warm = rating_v * (1.0 + coefficient_pct_per_k / 100.0 * (cell_c - STANDARD_C))
    return max(warm + ideality * cells * _VOLTS_A_KELVIN * thermal_k * log(w_per_m2 / STANDARD_W_PER_M2), 0.0)


def short_circuit_current(rating_a: float, coefficient_pct_per_k: float, w_per_m2: float, cell_c: float) -> float:
    """Isc0 (G / 1000) (1 + alpha (T - 25)), in A.

    >>> round(short_circuit_current(9.85, 0.05, 650.0, 35.0), 2)
    6.43
    """
    return max(
        rating_a * w_per_m2 / STANDARD_W_PER_M2 * (1.0 + coefficient_pct_per_k / 100.0 * (cell_c - STANDARD_C)), 0.0
    )


def expected_voltage(ratings: Ratings, light: Light, cell_c: Between) -> Between:
    """Open-circuit volts of a sound panel, with its range."""
    rating, beta, cells = (
        ratings.open_circuit_voltage_v, ratings.voc_coefficient_pct_per_k, ratings.cells_in_series,
    )  # fmt: skip
    parts = (rating, beta, cells, light.w_per_m2, cell_c, IDEALITY)
    likely = open_circuit_voltage(*(part.likely for part in parts))
    moved = [
        open_circuit_voltage(*(end if one is at else one.likely for one in parts)) - likely
        for at in parts
        for end in (at.low, at.high)
    ]
    shares = (LABEL_VOLTAGE_SHARE, METER_VOLTAGE_SHARE)
    return _about(likely, moved, shares, VOLTAGE_AGEING_SHARE * ratings.age_years.high)


def expected_current(ratings: Ratings, light: Light, cell_c: Between) -> Between:
    """Short-circuit amperes of a sound panel, with its range; light on the rear may add, and is never counted on."""
    parts = (ratings.short_circuit_current_a, ratings.isc_coefficient_pct_per_k, light.w_per_m2, cell_c)
    likely = short_circuit_current(*(part.likely for part in parts))
    moved = [
        short_circuit_current(*(end if one is at else one.likely for one in parts)) - likely
        for at in parts
        for end in (at.low, at.high)
    ]
    moved.append(ratings.rear_share * likely)
    shares = (LABEL_CURRENT_SHARE, METER_CURRENT_SHARE)
    return _about(likely, moved, shares, CURRENT_AGEING_SHARE * ratings.age_years.high)


def _about(likely: float, moved: Iterable[float], shares: Iterable[float], aged_share: float) -> Between:
    steps = [*moved, *(sign * share * likely for share in shares for sign in (-1.0, 1.0)), -aged_share * likely]
    down = hypot(*(step for step in steps if step < 0), 0.0)
    up = hypot(*(step for step in steps if step > 0), 0.0)
    return Between(low=max(likely - down, 0.0), likely=likely, high=likely + up)
