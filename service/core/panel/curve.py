"""What does a panel's current-voltage curve give at an irradiance and a cell temperature?

The single diode of ``diode.Diode`` moved to other conditions (De Soto et al. 2006, eq. 7 to 12), solved for the
maximum-power point, the voltage at a current and the current at a voltage. All three are Newton searches in the
diode's own voltage, where current and terminal voltage are explicit; vectorised over rows. Symbols in the bodies:
vd diode voltage, E the exponential term in amperes, g its slope, both at one row.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import exp, log, log1p

import numpy as np
from numpy.typing import ArrayLike, NDArray

from service.core.panel.diode import BOLTZMANN_EV_PER_K, REFERENCE_K, Diode

F = NDArray[np.float64]

ZERO_CELSIUS_K = 273.15
STANDARD_IRRADIANCE_W_PER_M2 = 1000.0
_STEPS = 30  # an upper bound; four to six are taken
_ENOUGH = 1e-6  # of the voltage scale; what is left after a last step of Newton is about its square
_ENOUGH_AT_PEAK = 1e-3  # likewise; there the power hangs on the square of what is left, too
IDEALITY_STRETCH = (0.5, 1.5)  # of the ideality at 25 C; reached beyond 60 K off it by the steepest slope of ``warmth``
LEAST_SERIES_OHM = 1e-6  # keeps the current finite that a stronger neighbour drives backwards


@dataclass(frozen=True, slots=True, eq=False)
class Curve:
    """The five parameters of one panel at the conditions of each row; arrays of shape (n,).

    ``series_ohm`` is an array too where the rows are of several panels.
    """

    light_a: F
    log_saturation: F
    scale_v: F
    shunt_s: F
    series_ohm: float | F

    def at(self, rows: NDArray[np.intp]) -> "Curve":
        """The curves of some rows only."""
        series_ohm = self.series_ohm if isinstance(self.series_ohm, float) else self.series_ohm[rows]
        return Curve(self.light_a[rows], self.log_saturation[rows], self.scale_v[rows], self.shunt_s[rows], series_ohm)


@dataclass(frozen=True, slots=True, eq=False)
class MaxPower:
    """The maximum-power point of each row: watts, volts, amperes of one panel."""

    power_w: F
    voltage_v: F
    current_a: F


def curve_at(diode: Diode, irradiance_w_per_m2: ArrayLike, cell_c: ArrayLike) -> Curve:
    """The panel's curve at each row's effective irradiance (above 0 W/m2) and cell temperature in C.

    Photocurrent and shunt conductance go with the irradiance, the photocurrent with the current coefficient, the
    saturation current with temperature and band gap, the voltage scale with absolute temperature (De Soto et al.
    2006, eq. 7, 9 to 12). Where the ideality moves with temperature (``warmth``), the saturation current moves so that
    the open-circuit voltage at 1000 W/m2 stays. Valid for outdoor light; spectrum is not modelled.
    """
    irradiance, celsius = np.broadcast_arrays(
        np.atleast_1d(np.asarray(irradiance_w_per_m2, np.float64)), np.atleast_1d(np.asarray(cell_c, np.float64))
    )
    return Curve(*_moved(diode, irradiance, celsius), series_ohm=max(diode.series_resistance_ohm, LEAST_SERIES_OHM))


def curves_at(diodes: Sequence[Diode], irradiance_w_per_m2: F, cell_c: F) -> Curve:
    """``curve_at`` of several panels in the same light, (k,), their rows one after the other."""
    columns = Diodes(*np.array([
        (one.photocurrent_a, one.saturation_current_a, one.voltage_scale_v, one.shunt_conductance_s,
         one.isc_coefficient_a_per_k, one.band_gap_ev, one.band_gap_change_per_k, one.ideality_change_per_k)
        for one in diodes
    ]).T[:, :, None])  # fmt: skip
    light_a, log_saturation, scale_v, shunt_s = _moved(columns, irradiance_w_per_m2, cell_c)
    series_ohm = np.repeat([max(one.series_resistance_ohm, LEAST_SERIES_OHM) for one in diodes], cell_c.size)
    return Curve(light_a.ravel(), log_saturation.ravel(), scale_v.ravel(), shunt_s.ravel(), series_ohm)


@dataclass(frozen=True, slots=True, eq=False)
class Diodes:
    """What of ``Diode`` moves with light and temperature, of several panels, each (m, 1)."""

    photocurrent_a: F
    saturation_current_a: F
    voltage_scale_v: F
    shunt_conductance_s: F
    isc_coefficient_a_per_k: F
    band_gap_ev: F
    band_gap_change_per_k: F
    ideality_change_per_k: F


def _moved(diode: Diode | Diodes, irradiance: F, celsius: F) -> tuple[F, F, F, F]:
    """Photocurrent, log of the saturation current, voltage scale and shunt conductance at each row."""
    kelvin = celsius + ZERO_CELSIUS_K
    warmer = kelvin - REFERENCE_K
    suns = irradiance / STANDARD_IRRADIANCE_W_PER_M2
    gap = diode.band_gap_ev * (1 + diode.band_gap_change_per_k * warmer)
    grows = 3 * np.log(kelvin / REFERENCE_K) + (diode.band_gap_ev / REFERENCE_K - gap / kelvin) / BOLTZMANN_EV_PER_K
    full_light = np.maximum(diode.photocurrent_a + diode.isc_coefficient_a_per_k * warmer, 0.0)
    log_saturation = np.log(diode.saturation_current_a) + grows
    scale = diode.voltage_scale_v * (kelvin / REFERENCE_K)
    if np.any(diode.ideality_change_per_k):
        stretch = np.clip(1 + diode.ideality_change_per_k * warmer, *IDEALITY_STRETCH)
        log_light = np.log(np.maximum(full_light, 1e-9))
        # Voc is near scale (log_light - log_saturation): the bracket shrinks as the scale grows.
        log_saturation = log_light - (log_light - log_saturation) / stretch
        scale = scale * stretch
    return suns * full_light, log_saturation, scale, diode.shunt_conductance_s * suns


def max_power(diode: Diode, irradiance_w_per_m2: ArrayLike, cell_c: ArrayLike) -> MaxPower:
    """The maximum-power point of one panel at each row; zeros where there is no light.

    Args:
        diode: the panel.
        irradiance_w_per_m2: effective irradiance, shape (n,) or a number.
        cell_c: cell temperature in C, shape (n,) or a number.
    """
    irradiance, celsius = np.broadcast_arrays(
        np.atleast_1d(np.asarray(irradiance_w_per_m2, np.float64)), np.atleast_1d(np.asarray(cell_c, np.float64))
    )
    lit = np.flatnonzero(irradiance > 0)
    point = peak_of(curve_at(diode, irradiance[lit], celsius[lit]))
    return MaxPower(
        *(spread_to(irradiance.size, lit, part) for part in (point.power_w, point.voltage_v, point.current_a))
    )


def full_sun_power_w(diode: Diode, cell_c: float) -> float:
    """``max_power`` of one panel at 1000 W/m2 and one cell temperature, W: the same equations on plain numbers.

    A fit asks for it several times, and arrays of one would cost it most of its time.
    """
    kelvin = cell_c + ZERO_CELSIUS_K
    warmer = kelvin - REFERENCE_K
    gap = diode.band_gap_ev * (1 + diode.band_gap_change_per_k * warmer)
    grows = 3 * log(kelvin / REFERENCE_K) + (diode.band_gap_ev / REFERENCE_K - gap / kelvin) / BOLTZMANN_EV_PER_K
    light = max(diode.photocurrent_a + diode.isc_coefficient_a_per_k * warmer, 0.0)
    log_saturation, a = log(diode.saturation_current_a) + grows, diode.voltage_scale_v * (kelvin / REFERENCE_K)
    if diode.ideality_change_per_k:
        least, most = IDEALITY_STRETCH
        stretch, log_light = min(max(1 + diode.ideality_change_per_k * warmer, least), most), log(max(light, 1e-9))
        log_saturation, a = log_light - (log_light - log_saturation) / stretch, a * stretch
    rs, shunt = max(diode.series_resistance_ohm, LEAST_SERIES_OHM), diode.shunt_conductance_s
    saturation = max(exp(log_saturation), 1e-300)
    open_scaled = log1p(light / saturation)
    highest = a * open_scaled
    vd = a * (open_scaled - log1p(open_scaled))
    vd = min(max(a * (open_scaled - log1p(max(vd - 2 * rs * light, 0.0) / a)), 0.0), highest)
    for _ in range(_STEPS):
        e = exp(vd / a + log_saturation)
        current = light + saturation - e - shunt * vd
        falls, bends = -e / a - shunt, -e / a**2
        voltage, rises = vd - rs * current, 1 - rs * falls
        slope = rises * current + voltage * falls
        curvature = 2 * rises * falls + (voltage - rs * current) * bends
        before, vd = vd, min(max(vd - slope / min(curvature, -1e-300), 0.0), highest)
        if abs(vd - before) <= _ENOUGH * a:
            break
    current = light + saturation - exp(vd / a + log_saturation) - shunt * vd
    return max((vd - rs * current) * current, 0.0)


def open_circuit_voltage_v(diode: Diode, irradiance_w_per_m2: ArrayLike, cell_c: ArrayLike) -> F:
    """The open-circuit voltage of one panel at each row in V; zero where there is no light.

    With sun this is the diode's; for the voltage at the coldest without sun, the limit that matters for damage, use
    the datasheet's coefficient instead.
    """
    irradiance, celsius = np.broadcast_arrays(
        np.atleast_1d(np.asarray(irradiance_w_per_m2, np.float64)), np.atleast_1d(np.asarray(cell_c, np.float64))
    )
    lit = np.flatnonzero(irradiance > 0)
    return spread_to(irradiance.size, lit, voltage_at(curve_at(diode, irradiance[lit], celsius[lit]), 0.0))


def irradiance_through_w_per_m2(diode: Diode, voltage_v: float, current_a: float, cell_c: ArrayLike) -> F:
    """The effective irradiance at which one panel's curve passes this point, (n,) by cell temperature in C.

    At a known current the diode's voltage is known; photocurrent and shunt conductance both go with the irradiance, so
    that it stands on one side. At no current the voltage is the open-circuit voltage. Beyond all measure where no light
    brings the curve there.
    """
    curve = curve_at(diode, STANDARD_IRRADIANCE_W_PER_M2, cell_c)
    vd = voltage_v + curve.series_ohm * current_a
    most = 600.0  # e to that power is far beyond any current, and within a double
    dark_a = np.exp(np.minimum(curve.log_saturation + vd / curve.scale_v, most)) - np.exp(curve.log_saturation)
    needed_a = current_a + dark_a
    given_a = curve.light_a - curve.shunt_s * vd
    suns = np.divide(needed_a, given_a, out=np.full_like(given_a, np.inf), where=given_a > 0)
    return np.asarray(STANDARD_IRRADIANCE_W_PER_M2 * suns, np.float64)


def spread_to(size: int, rows: NDArray[np.intp], values: F) -> F:
    """An array of ``size`` with ``values`` in ``rows`` and nought elsewhere."""
    full = np.zeros(size)
    full[rows] = values
    return full


def peak_of(curve: Curve, steps: int = _STEPS) -> MaxPower:
    """The maximum-power point of each row's curve (photocurrent above nought), to machine precision.

    Newton on dP/dvd = 0. The start is the ideal diode's point, E (vd - 2 I Rs) = a I with I near IL, iterated once:
    from there some four ``steps`` reach machine precision. Three leave a power that is right within a millionth.
    """
    a, rs, light = curve.scale_v, curve.series_ohm, curve.light_a
    saturation = np.exp(curve.log_saturation)
    open_scaled = np.log1p(light / saturation)
    highest = a * open_scaled
    vd = _near_peak_v(curve, open_scaled)
    for _ in range(steps):
        e = np.exp(vd / a + curve.log_saturation)
        current = light + saturation - e - curve.shunt_s * vd
        falls, bends = -e / a - curve.shunt_s, -e / a**2
        voltage, rises = vd - rs * current, 1 - rs * falls
        slope = rises * current + voltage * falls
        curvature = 2 * rises * falls + (voltage - rs * current) * bends
        new = np.clip(vd - slope / np.minimum(curvature, -1e-300), 0.0, highest)
        done = np.all(np.abs(new - vd) <= _ENOUGH_AT_PEAK * a)
        vd = new
        if done:
            break
    current = light + saturation - np.exp(vd / a + curve.log_saturation) - curve.shunt_s * vd
    voltage = vd - rs * current
    return MaxPower(np.maximum(voltage * current, 0.0), voltage, current)


def near_peak_v(curve: Curve) -> F:
    """The diode's voltage near the maximum-power point, within some per cent: the start of ``peak_of``."""
    return _near_peak_v(curve, np.log1p(curve.light_a / np.exp(curve.log_saturation)))


def _near_peak_v(curve: Curve, open_scaled: F) -> F:
    a, rs, light = curve.scale_v, curve.series_ohm, curve.light_a
    vd = a * (open_scaled - np.log1p(open_scaled))
    return np.clip(a * (open_scaled - np.log1p(np.maximum(vd - 2 * rs * light, 0.0) / a)), 0.0, a * open_scaled)


def voltage_at(curve: Curve, current_a: ArrayLike) -> F:
    """The terminal voltage of each row's curve at a current below the photocurrent, in V.

    The current falls concavely with vd and the start lies on its far side, so that Newton closes in from there.
    """
    current = np.broadcast_to(np.asarray(current_a, np.float64), curve.light_a.shape)
    a = curve.scale_v
    saturation = np.exp(curve.log_saturation)
    target = curve.light_a + saturation - current
    vd = a * (np.log(target) - curve.log_saturation)
    for _ in range(_STEPS):
        e = np.exp(vd / a + curve.log_saturation)
        step = (target - e - curve.shunt_s * vd) / (e / a + curve.shunt_s)
        vd = vd + step
        if np.all(np.abs(step) <= _ENOUGH * a):
            break
    return vd - curve.series_ohm * current


def current_at(curve: Curve, voltage_v: ArrayLike) -> F:
    """The current of each row's curve at a terminal voltage of at least 0, in A; negative above open circuit.

    vd - Rs I(vd) rises convexly with vd; the start lies on its far side, by two bounds: vd <= V + Rs IL, and
    E <= IL + I0 + V / Rs, since the current cannot lie below -V / Rs.
    """
    voltage = np.broadcast_to(np.asarray(voltage_v, np.float64), curve.light_a.shape)
    a, rs = curve.scale_v, curve.series_ohm
    saturation = np.exp(curve.log_saturation)
    most = np.log(curve.light_a + saturation + voltage / rs) - curve.log_saturation
    vd = np.minimum(voltage + rs * curve.light_a, a * most)
    for _ in range(_STEPS):
        e = np.exp(vd / a + curve.log_saturation)
        current = curve.light_a + saturation - e - curve.shunt_s * vd
        step = (vd - rs * current - voltage) / (1 + rs * (e / a + curve.shunt_s))
        vd = vd - step
        if np.all(np.abs(step) <= _ENOUGH * a):
            break
    return curve.light_a + saturation - np.exp(vd / a + curve.log_saturation) - curve.shunt_s * vd
