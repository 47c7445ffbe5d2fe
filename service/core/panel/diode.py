"""Which five parameters make a datasheet's curve? The single-diode model of a panel, and how it was fitted.

The model is that of De Soto, Klein and Beckman, "Improvement and validation of a model for photovoltaic array
performance", Solar Energy 80 (2006) 78-88, doi 10.1016/j.solener.2005.06.010. Five equations fix it: the curve passes
through the short-circuit point, the open-circuit point and the maximum-power point, has its highest power there, and
its open-circuit voltage moves with the cell's temperature as the datasheet says.

Given the voltage scale a and the series resistance, the first three are linear in the other three parameters; so a
Newton search in two unknowns solves all five. A datasheet need not have a physical solution: good modern panels often
lead to a negative shunt resistance. Then, in this order, ``Diode.how`` telling which one was used:

- ``de_soto``: the five equations.
- ``no_shunt``: no shunt current at all; the curve still passes through the three points with its peak at the third,
  and the band gap, which no datasheet tells, is moved until the voltage coefficient is met.
- ``power_only``: the curve meets both voltages' ends and the datasheet's power, but its peak may lie at another
  voltage than printed. For sheets whose points no diode can pass.

Two coefficients (voltage, current) fix these five; the third, of power, is met in ``warmth`` by a sixth parameter.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace
from math import ceil, exp, log

from service.core.errors import ContradictionError
from service.core.model.facts import Panel

BOLTZMANN_EV_PER_K = 8.617333262e-5  # CODATA 2018
REFERENCE_K = 298.15
STEP_K = 2.0  # the voltage coefficient is met over this step above 25 C
STARTS = (1.05, 1.3, 0.85, 1.7)  # ideality per cell from which the search begins, most likely first
_MOST_V_PER_CELL = 5.0  # twice what the tallest stack of junctions gives; beyond, the exponentials overflow
LEAST_WITHOUT_SHUNT = 0.9  # below, the panel would be better in dim light than in full sun, which none is
LEAST_IDEALITY, MOST_IDEALITY = 0.4, 4.0  # amorphous junctions are stacked: two or three to a cell

# Band gap at 25 C in eV and its relative change per kelvin. Silicon: De Soto et al. 2006, eq. 10. Thin films: from
# memory of the same group's and textbooks' values; the voltage coefficient of the sheet outweighs them.
_SILICON = (1.121, -0.0002677)
BAND_GAP = {
    "mono": _SILICON,
    "poly": _SILICON,
    "topcon": _SILICON,
    "hjt": _SILICON,
    "back_contact": _SILICON,
    "cdte": (1.475, -0.0003),
    "cigs": (1.15, -0.0002677),
    "amorphous": (1.6, -0.0002677),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Diode:
    """One panel's single-diode parameters at 1000 W/m2 and 25 C.

    Attributes:
        cells_in_series: number of cells in series.
        photocurrent_a: light-generated current.
        saturation_current_a: diode saturation current.
        voltage_scale_v: modified ideality factor "a" = n Ns k T / q.
        series_resistance_ohm: series resistance, not moved by temperature.
        shunt_conductance_s: 1 / shunt resistance; 0 where there is no shunt. Proportional to irradiance.
        isc_coefficient_a_per_k: change of the photocurrent per kelvin.
        band_gap_ev, band_gap_change_per_k: of the cell's material; see ``how``.
        ideality_change_per_k: relative change of the ideality per kelvin; see ``warmth``.
        how: ``de_soto``, ``no_shunt`` or ``power_only``.
    """

    cells_in_series: int
    photocurrent_a: float
    saturation_current_a: float
    voltage_scale_v: float
    series_resistance_ohm: float
    shunt_conductance_s: float
    isc_coefficient_a_per_k: float
    band_gap_ev: float
    band_gap_change_per_k: float
    how: str
    ideality_change_per_k: float = 0.0


@dataclass(frozen=True, slots=True)
class _Sheet:
    """The datasheet in the symbols of the reference; volts, amperes, per kelvin."""

    cells: int
    voc: float
    isc: float
    vmp: float
    imp: float
    alpha: float
    beta: float
    gap: float
    gap_change: float

    @property
    def thermal_v(self) -> float:
        """The voltage scale of ideal cells, Ns k T / q."""
        return self.cells * BOLTZMANN_EV_PER_K * REFERENCE_K


def five_parameters_of(panel: Panel) -> Diode:
    """The five-parameter model of one panel as its datasheet describes it (new: ageing is the energy chain's).

    Takes the four points and the voltage and current coefficients of ``panel``; its rated power is not used, its power
    coefficient only by ``warmth.diode_of``. Voltages beyond what the cell count allows still give a curve: see
    ``datasheet_doubts``.

    Raises:
        ContradictionError: the four points make no curve (maximum-power point not inside the open-circuit voltage and
            the short-circuit current, or a fill factor of 0.3 or less), or one cell would give more than 5 V. Its
            pointer counts from the panel.
    """
    if panel.open_circuit_voltage_v > _MOST_V_PER_CELL * panel.cells_in_series:
        fewest = ceil(panel.open_circuit_voltage_v / 0.7)
        raise ContradictionError(
            "/cells_in_series", f"{panel.cells_in_series} in series cannot give {panel.open_circuit_voltage_v:g} V",
            given=panel.cells_in_series, accepted=f"about {fewest} cells of silicon for this voltage", example=fewest,
        )  # fmt: skip
    sheet = _sheet_of(panel)
    for found, how in ((_five_equations, "de_soto"), (_without_shunt, "no_shunt")):
        parameters = found(sheet)
        if parameters is not None:
            return _diode(sheet, parameters, how)
    return _diode(sheet, _by_power_alone(sheet), "power_only")


def with_series_resistance(diode: Diode, extra_ohm: float) -> Diode:
    """The same panel behind ``extra_ohm`` of lead (there and back): its curve as the inverter sees it."""
    return replace(diode, series_resistance_ohm=diode.series_resistance_ohm + extra_ohm)


def _likely_point(panel: Panel) -> tuple[float, float]:
    """Voltage and current at the rated power, each as the other one and the power leave it, else the usual share."""
    voltage = panel.rated_power_w / panel.max_power_current_a
    current = panel.rated_power_w / panel.max_power_voltage_v
    if not 0.5 * panel.open_circuit_voltage_v < voltage < 0.98 * panel.open_circuit_voltage_v:
        voltage = 0.83 * panel.open_circuit_voltage_v
    if not 0.5 * panel.short_circuit_current_a < current < 0.98 * panel.short_circuit_current_a:
        current = 0.94 * panel.short_circuit_current_a
    return round(voltage, 3), round(current, 3)


def _sheet_of(panel: Panel) -> _Sheet:
    fill_factor = (panel.max_power_voltage_v * panel.max_power_current_a) / (
        panel.open_circuit_voltage_v * panel.short_circuit_current_a
    )
    likely_v, likely_a = _likely_point(panel)
    if panel.max_power_voltage_v >= panel.open_circuit_voltage_v:
        raise ContradictionError(
            "/max_power_voltage_v", "not below the open-circuit voltage", given=panel.max_power_voltage_v,
            accepted=f"less than {panel.open_circuit_voltage_v:g} V", example=likely_v,
        )  # fmt: skip
    if panel.max_power_current_a >= panel.short_circuit_current_a:
        raise ContradictionError(
            "/max_power_current_a", "not below the short-circuit current", given=panel.max_power_current_a,
            accepted=f"less than {panel.short_circuit_current_a:g} A", example=likely_a,
        )  # fmt: skip
    if fill_factor <= 0.3:
        voltage_share = panel.max_power_voltage_v / panel.open_circuit_voltage_v
        current_share = panel.max_power_current_a / panel.short_circuit_current_a
        name, value, given = (
            ("/max_power_voltage_v", likely_v, panel.max_power_voltage_v) if voltage_share <= current_share else
            ("/max_power_current_a", likely_a, panel.max_power_current_a)
        )  # fmt: skip
        raise ContradictionError(
            name, "the four points make no curve of a panel", given=given,
            accepted=f"a fill factor above 0.3; here {fill_factor:.2g}", example=value,
        )  # fmt: skip
    gap, gap_change = BAND_GAP.get(panel.cell_kind, _SILICON)
    return _Sheet(
        panel.cells_in_series, panel.open_circuit_voltage_v, panel.short_circuit_current_a, panel.max_power_voltage_v,
        panel.max_power_current_a, panel.isc_coefficient_pct_per_k / 100 * panel.short_circuit_current_a,
        panel.voc_coefficient_pct_per_k / 100 * panel.open_circuit_voltage_v, gap, gap_change,
    )  # fmt: skip


@dataclass(frozen=True, slots=True)
class _Parameters:
    """IL, I0, a, Rs, G of the reference, and the band gap that goes with them."""

    light: float
    saturation: float
    scale: float
    series: float
    shunt: float
    gap: float


def _diode(sheet: _Sheet, p: _Parameters, how: str) -> Diode:
    return Diode(
        cells_in_series=sheet.cells, photocurrent_a=p.light, saturation_current_a=p.saturation,
        voltage_scale_v=p.scale, series_resistance_ohm=p.series, shunt_conductance_s=p.shunt,
        isc_coefficient_a_per_k=sheet.alpha, band_gap_ev=p.gap, band_gap_change_per_k=sheet.gap_change, how=how,
    )  # fmt: skip


def _five_equations(sheet: _Sheet) -> _Parameters | None:
    """All five equations by Newton; None where they have no physical solution."""

    def residuals(scale: float, series: float) -> tuple[float, float]:
        light, saturation, shunt = _through_points(sheet, scale, series)
        return (
            _slope_residual(sheet, saturation, scale, series, shunt),
            _warm_residual(sheet, light, saturation, scale, shunt),
        )

    found = _two_unknowns(sheet, residuals)
    if found is None:
        return None
    light, saturation, shunt = _through_points(sheet, *found)
    if shunt < 0 or saturation <= 0:
        return None
    return _Parameters(light, saturation, *found, shunt, sheet.gap)


def _without_shunt(sheet: _Sheet) -> _Parameters | None:
    """Four equations with no shunt; the fifth moves the band gap. None where there is no physical solution."""

    def residuals(scale: float, series: float) -> tuple[float, float]:
        light, saturation = _through_ends(sheet, scale, series)
        at_peak = light - saturation * (exp((sheet.vmp + sheet.imp * series) / scale) - 1)
        return _slope_residual(sheet, saturation, scale, series, 0.0), at_peak / sheet.imp - 1

    found = _two_unknowns(sheet, residuals)
    if found is None or found[0] < LEAST_WITHOUT_SHUNT * sheet.thermal_v:
        return None
    light, saturation = _through_ends(sheet, *found)
    return _Parameters(light, saturation, *found, 0.0, _gap_by_coefficient(sheet, light, saturation, found[0]))


def _through_points(sheet: _Sheet, scale: float, series: float) -> tuple[float, float, float]:
    """IL, I0 and G that lead the curve through its three points: two linear equations and one substitution."""
    end = exp(sheet.voc / scale)
    short, peak = sheet.isc * series, sheet.vmp + sheet.imp * series
    a11, a12 = end - exp(short / scale), sheet.voc - short
    a21, a22 = end - exp(peak / scale), sheet.voc - peak
    determinant = a11 * a22 - a12 * a21
    saturation = (sheet.isc * a22 - sheet.imp * a12) / determinant
    shunt = (a11 * sheet.imp - a21 * sheet.isc) / determinant
    return saturation * (end - 1) + shunt * sheet.voc, saturation, shunt


def _through_ends(sheet: _Sheet, scale: float, series: float) -> tuple[float, float]:
    """IL and I0 that lead a curve without shunt through short circuit and open circuit."""
    end = exp(sheet.voc / scale)
    saturation = sheet.isc / (end - exp(sheet.isc * series / scale))
    return saturation * (end - 1), saturation


def _slope_residual(sheet: _Sheet, saturation: float, scale: float, series: float, shunt: float) -> float:
    """Zero where the power has no slope at the datasheet's maximum-power point (De Soto et al. 2006, eq. 16)."""
    conductance = saturation / scale * exp((sheet.vmp + sheet.imp * series) / scale) + shunt
    return 1 + conductance * series - sheet.vmp / sheet.imp * conductance


def _warm_residual(sheet: _Sheet, light: float, saturation: float, scale: float, shunt: float) -> float:
    """Zero where the open-circuit voltage a little above 25 C is the one of the datasheet's coefficient."""
    kelvin = REFERENCE_K + STEP_K
    ratio = kelvin / REFERENCE_K
    gap = sheet.gap * (1 + sheet.gap_change * STEP_K)
    warm = saturation * ratio**3 * exp((sheet.gap / REFERENCE_K - gap / kelvin) / BOLTZMANN_EV_PER_K)
    voltage = sheet.voc + sheet.beta * STEP_K
    left_over = light + sheet.alpha * STEP_K - warm * (exp(voltage / (scale * ratio)) - 1) - shunt * voltage
    return left_over / sheet.isc


def _gap_by_coefficient(sheet: _Sheet, light: float, saturation: float, scale: float) -> float:
    """The band gap with which a curve without shunt meets the voltage coefficient (closed form)."""
    kelvin = REFERENCE_K + STEP_K
    ratio = kelvin / REFERENCE_K
    voltage = sheet.voc + sheet.beta * STEP_K
    warm = (light + sheet.alpha * STEP_K) / (exp(voltage / (scale * ratio)) - 1)
    grows = log(warm / saturation / ratio**3) * BOLTZMANN_EV_PER_K
    return grows / (1 / REFERENCE_K - (1 + sheet.gap_change * STEP_K) / kelvin)


def _two_unknowns(
    sheet: _Sheet, residuals: Callable[[float, float], tuple[float, float]]
) -> tuple[float, float] | None:
    """Voltage scale and series resistance at which both residuals vanish; None where no physical pair does."""
    for ideality in STARTS:
        try:
            found = _newton(sheet, residuals, ideality * sheet.thermal_v)
        except (OverflowError, ZeroDivisionError, ValueError):
            continue
        if found is not None:
            return found
    return None


def _newton(
    sheet: _Sheet, residuals: Callable[[float, float], tuple[float, float]], scale: float
) -> tuple[float, float] | None:
    """Newton's search from one start, with differences for slopes and half steps where a step leads uphill."""
    series = max((scale * log(1 - sheet.imp / sheet.isc) + sheet.voc - sheet.vmp) / sheet.imp, 0.0)
    first, second = residuals(scale, series)
    for _ in range(40):
        if max(abs(first), abs(second)) < 1e-11:
            break
        d_scale, d_series = 1e-6 * scale, 1e-6 * sheet.vmp / sheet.imp
        by_scale, by_series = residuals(scale + d_scale, series), residuals(scale, series + d_series)
        a11, a12 = (by_scale[0] - first) / d_scale, (by_series[0] - first) / d_series
        a21, a22 = (by_scale[1] - second) / d_scale, (by_series[1] - second) / d_series
        determinant = a11 * a22 - a12 * a21
        step_scale = (second * a12 - first * a22) / determinant
        step_series = (first * a21 - second * a11) / determinant
        share = min(1.0, 0.25 * scale / max(abs(step_scale), 1e-300))
        size = abs(first) + abs(second)
        for _ in range(8):
            trial = residuals(scale + share * step_scale, series + share * step_series)
            if abs(trial[0]) + abs(trial[1]) < size:
                break
            share /= 2
        scale, series, (first, second) = scale + share * step_scale, series + share * step_series, trial
    solved = max(abs(first), abs(second)) < 1e-8
    physical = series >= 0 and LEAST_IDEALITY <= scale / sheet.thermal_v <= MOST_IDEALITY
    return (scale, series) if solved and physical else None


def _by_power_alone(sheet: _Sheet) -> _Parameters:
    """A curve without shunt through both ends whose highest power is the datasheet's.

    First the series resistance is sought at ideality 1; where even none is too much (fill factor too high for it),
    the ideality is lowered instead. The band gap follows the voltage coefficient as in ``no_shunt``.
    """
    wanted = sheet.vmp * sheet.imp
    scale, series = min(sheet.thermal_v, sheet.voc / 4), 0.0
    if _peak_power(sheet, scale, 0.0) >= wanted:
        series = _crossing(lambda rs: _peak_power(sheet, scale, rs) - wanted, 0.0, 0.8 * sheet.voc / sheet.isc)
    else:
        scale = _crossing(lambda a: _peak_power(sheet, a, 0.0) - wanted, sheet.voc / 600, scale)
    light, saturation = _through_ends(sheet, scale, series)
    return _Parameters(light, saturation, scale, series, 0.0, _gap_by_coefficient(sheet, light, saturation, scale))


def _peak_power(sheet: _Sheet, scale: float, series: float) -> float:
    """The highest power of a curve without shunt, where its slope by diode voltage crosses zero."""
    light, saturation = _through_ends(sheet, scale, series)
    diode_v = sheet.voc
    for _ in range(60):  # the slope falls ever steeper: from the right Newton's steps never pass the crossing
        grown = saturation * exp(diode_v / scale)
        current, steep = light + saturation - grown, grown / scale
        lever = diode_v - 2 * current * series
        step = (current - steep * lever) / (steep * (2 + lever / scale + 2 * steep * series))
        diode_v += step
        if abs(step) <= 1e-12 * sheet.voc:
            break
    current = light - saturation * (exp(diode_v / scale) - 1)
    return (diode_v - current * series) * current


def _crossing(falling: Callable[[float], float], low: float, high: float) -> float:
    """Where a falling function crosses zero between ``low`` and ``high``; the end where it has not crossed by then.

    False position with the standing end's value halved (the Illinois rule; Dowell and Jarratt 1971, BIT 11:168).
    """
    at_low, at_high = falling(low), falling(high)
    if at_low <= 0 or at_high >= 0:
        return low if at_low <= 0 else high
    for _ in range(60):
        middle = (low * at_high - high * at_low) / (at_high - at_low)
        value = falling(middle)
        if value == 0 or high - low <= 1e-13 * high:
            return middle
        if value > 0:
            low, at_low, at_high = middle, value, at_high / 2
        else:
            high, at_high, at_low = middle, value, at_low / 2
    return (low + high) / 2
