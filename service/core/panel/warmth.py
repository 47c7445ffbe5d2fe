"""How does a panel's power move with the temperature of its cells: as its sheet says, not only as the model would?

The five parameters know the voltage and current coefficients; the power coefficient that comes out of them is off
the printed one by some hundredths of a per cent per kelvin. A sixth parameter settles it, an idea of Dobos, "An
improved coefficient calculator for the California Energy Commission 6 parameter photovoltaic module model", J. Solar
Energy Engineering 134 (2012) 021011 (from memory). There the sixth parameter bends the voltage and current
coefficients; here it is a slope of the ideality with temperature, which changes the fill factor and leaves both other
coefficients as printed: the sheet's three are all met. That choice is our own, a stand-in for what junction and series
resistance do in heat.
"""

from collections.abc import Callable
from dataclasses import replace

from service.core.model.facts import Panel
from service.core.panel.curve import ZERO_CELSIUS_K, full_sun_power_w
from service.core.panel.diode import REFERENCE_K, Diode, five_parameters_of

WARM_C = 45.0  # the coefficient is met between 25 C and here, where most of the energy is made
# Steepest slope of the ideality, per kelvin. It moves the power coefficient by some 0.12 %/K, which is what a sheet's
# may lie off the model's before it is in doubt; what is left beyond is not met.
MOST_IDEALITY_CHANGE_PER_K = 0.008
_ENOUGH_PER_K = 5e-5  # of the relative power: 0.005 %/K, half the last digit that sheets print
_STEPS = 5


def diode_of(panel: Panel) -> Diode:
    """The model of one panel by its whole datasheet: five parameters, and the power coefficient by a sixth.

    A coefficient further off the five-parameter model's than some 0.12 %/K is met as far as the sixth parameter goes;
    ``datasheet_doubts`` names it.

    Raises:
        ContradictionError: as ``five_parameters_of``.
    """
    diode = five_parameters_of(panel)
    warmer = WARM_C - (REFERENCE_K - ZERO_CELSIUS_K)
    cool_w, warm_w = full_sun_power_w(diode, WARM_C - warmer), full_sun_power_w(diode, WARM_C)
    wanted_w = cool_w * (1 + panel.power_coefficient_pct_per_k / 100 * warmer)

    def off(slope: float) -> float:
        return (full_sun_power_w(replace(diode, ideality_change_per_k=slope), WARM_C) - wanted_w) / cool_w / warmer

    return replace(diode, ideality_change_per_k=_root(off, (warm_w - wanted_w) / cool_w / warmer))


def _root(falling: Callable[[float], float], at_nought: float) -> float:
    """Where a nearly straight, falling function crosses nought, by secants within the bounds; else the nearer bound."""
    here, value = 0.0, at_nought
    slope = -0.15  # relative power by relative ideality, of a common crystalline cell
    for _ in range(_STEPS):
        if abs(value) < _ENOUGH_PER_K:
            break
        there = min(max(here - value / slope, -MOST_IDEALITY_CHANGE_PER_K), MOST_IDEALITY_CHANGE_PER_K)
        if there == here:
            break
        before, here, value = (here, value), there, falling(there)
        slope = min((value - before[1]) / (here - before[0]), -1e-3)
    return here
