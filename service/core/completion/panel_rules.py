"""What must the missing figures of a datasheet be, as far as the given ones and the panel's class tell?"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import exp, sqrt

from service.core.completion.node import Guess
from service.core.errors import ContradictionError
from service.core.identity.classes import FORMATS, NEW_CELL_W, THIN_FILM, CellClass, PanelFormat, Span, class_of
from service.core.model.bounds import BOUNDS
from service.core.panel import check_power

VOC, ISC = "open_circuit_voltage_v", "short_circuit_current_a"
VMP, IMP = "max_power_voltage_v", "max_power_current_a"
# A format rarer than this among its rivals is left out of the range (which is meant to hold 95 %).
RARE_SHARE = 0.05
# Frames of one format differ in area by some 2.5 %, hardly ever by more than 10 %: from the public list.
_SIZE_SD, _MOST_SIZE_OFF = 0.025, 0.10
_OLDEST = 25  # years; a judgement: older ones are hardly offered any more
# 60 cells of 156 mm had 250 W in 2011 to 2016, 72 had 330 W in 2015 to 2019, 54 of 182 mm 410 W in 2021 to 2024: from
# memory; the straight line says 2014, 2015 and 2022.
_MADE_WITHIN = 4
_KEPT_YEARS = 3.0  # of those left over when a format ends, one in e after so long: a judgement


@dataclass(frozen=True, slots=True, kw_only=True)
class Known:
    """What is known of a panel before its class is looked for; None where nobody said."""

    rated_power_w: float
    cell_kind: str
    cells_in_series: int | None
    open_circuit_voltage_v: float | None
    short_circuit_current_a: float | None
    area_m2: float | None
    built: int | None


def formats_like(known: Known) -> tuple[PanelFormat, ...]:
    """The formats that agree with what is known, commonest first; empty where none does.

    Formats rarer than 5 % of the agreeing ones together are left out; a size that differs makes one rarer, and so do
    volts a cell unlike the kind's (45.7 V of 490 W are 66 cells rather than the commoner 60). None is put up before it
    is made, and the longer its makes have ended, the fewer are left on shelves. Where none agrees, its powers are taken
    a little wider, for weak and early makes. Thin film comes in no common format.
    """
    if known.cell_kind in THIN_FILM:
        return ()
    fitting = [f for f in FORMATS if _agrees(f, known, 0.0)] or [f for f in FORMATS if _agrees(f, known, 0.2)]
    weights = [
        f.share * exp(-0.5 * ((_size_off(f, known) / _SIZE_SD) ** 2 + _volts_off(f, known) ** 2) - _kept(f, known))
        for f in fitting
    ]
    floor = RARE_SHARE * sum(weights)
    ranked = sorted(zip(weights, fitting, strict=True), key=lambda pair: -pair[0])
    return tuple(f for weight, f in ranked if weight >= floor)


def _size_off(panel_format: PanelFormat, known: Known) -> float:
    """By what share the panel's area differs from the format's; nought where nobody gave it."""
    area = panel_format.length_mm * panel_format.width_mm / 1e6
    return 0.0 if known.area_m2 is None else abs(known.area_m2 / area - 1)


def _volts_off(panel_format: PanelFormat, known: Known) -> float:
    """By how many standard deviations volts a cell would differ from the kind's; nought where no voltage was given."""
    if known.open_circuit_voltage_v is None:
        return 0.0
    cells = panel_format.cells_in_series
    span = class_of(known.cell_kind, known.rated_power_w / cells).voc_per_cell_v
    return (known.open_circuit_voltage_v / cells - span.middle) / ((span.high - span.low) / 4)


def _agrees(panel_format: PanelFormat, known: Known, slack: float) -> bool:
    low, high = panel_format.power_w
    if not (1 - slack) * low <= known.rated_power_w <= (1 + slack) * high:
        return False
    volts, amperes = known.open_circuit_voltage_v, known.short_circuit_current_a
    least, most = panel_format.short_circuit_current_a
    return (
        (volts is None or 0.55 <= volts / panel_format.cells_in_series <= 0.78)  # of a crystalline cell
        and (amperes is None or 0.94 * least <= amperes <= 1.06 * most)
        and _size_off(panel_format, known) <= _MOST_SIZE_OFF
        and (not panel_format.kinds or known.cell_kind in panel_format.kinds)
        and known.cells_in_series in {None, panel_format.cells_in_series}
        and (known.built is None or _earliest(panel_format) <= known.built)
    )


def _earliest(panel_format: PanelFormat) -> int:
    """The first year in which such a panel may have been built: the format's years are known to one or so."""
    return panel_format.years[0] - 1


def _latest(panel_format: PanelFormat) -> int:
    return panel_format.years[1] + 1


def ages_of(formats: Sequence[PanelFormat], rated_power_w: float, year: int) -> tuple[float, float]:
    """How old panels of any of these formats are in that year, youngest and oldest; past ``_OLDEST`` few are on offer.

    A format's power rose with the years in which it was made: in which its panels of a power were made is read straight
    between its ends, give or take ``_MADE_WITHIN``. A told age within it leaves some of the same formats.

    >>> ages_of([one for one in FORMATS if one.cells_in_series == 60 and one.power_w[0] == 205], 250, 2026)
    (8.0, 16.0)
    """
    made = [_years_of(one, rated_power_w, year) for one in formats]
    low, high = year - max(last for _, last in made), year - min(first for first, _ in made)
    return float(min(max(low, 0), _OLDEST)), float(min(max(high, 0), _OLDEST))


def _years_of(panel_format: PanelFormat, rated_power_w: float, year: int) -> tuple[int, int]:
    (weakest, strongest), (first, last) = panel_format.power_w, panel_format.years
    last = max(min(last, year), first)
    share = min(max((rated_power_w - weakest) / (strongest - weakest), 0.0), 1.0)
    middle = round(first + share * (last - first))
    return max(middle - _MADE_WITHIN, _earliest(panel_format)), min(middle + _MADE_WITHIN, _latest(panel_format))


def _kept(panel_format: PanelFormat, known: Known) -> float:
    """By what power of e a panel put up then is rarer, as it was kept so long after the last were made."""
    return 0.0 if known.built is None else max(known.built - _latest(panel_format), 0) / _KEPT_YEARS


def cells_guess(known: Known, formats: Sequence[PanelFormat]) -> Guess:
    """Cells in series: of the commonest agreeing format, else from voltage or current, else from power alone."""
    if formats:
        counts = [f.cells_in_series for f in formats]
        return Guess(value=counts[0], code="panel_class", low=min(counts), high=max(counts))
    per_cell = 0.82 if known.cell_kind in THIN_FILM else 0.66
    if known.open_circuit_voltage_v is not None:
        middle = known.open_circuit_voltage_v / per_cell
    elif known.short_circuit_current_a is not None:
        middle = known.rated_power_w / (0.77 * known.short_circuit_current_a) / per_cell
    elif known.cell_kind in THIN_FILM:
        middle = 110.0
    else:  # a small panel is wired for a 12 V battery whatever its power; a large one has some 10 W a cell
        middle = max(36.0, known.rated_power_w / 10)
    middle = min(max(middle, 1.0), BOUNDS["cells_in_series"].high)
    return Guess(
        value=round(middle), code="panel_class", low=float(max(1, round(0.6 * middle))),
        high=min(float(round(1.6 * middle)), BOUNDS["cells_in_series"].high),
    )  # fmt: skip


def class_voltage(known: Known, cells: Span, kind: CellClass, formats: Sequence[PanelFormat]) -> Span:
    """Open-circuit voltage from cells and power alone, in V.

    Crystalline mono and poly by 0.586 Ns + 0.0127 P (public list of 2019, mono above 280 W; 95 % within 2.2 V, taken
    as 0.035 V a cell). Cells newer than that list get more power out of the same size, which the current of the size
    bounds: there the middle is the mean of the rule and of power over fill factor and the format's middle current,
    and the range is open upwards to 0.735 V a cell. Other kinds by the volts of one cell.
    """
    if known.cell_kind not in {"mono", "poly"}:
        span = kind.voc_per_cell_v
        return Span(span.middle * cells.middle, span.low * cells.low, span.high * cells.high)
    middle, low, high = (0.586 * n + 0.0127 * known.rated_power_w for n in (cells.middle, cells.low, cells.high))
    high += 0.035 * cells.high
    if known.rated_power_w / cells.middle >= NEW_CELL_W:
        high = max(high, 0.735 * cells.high)
        if formats:
            current = sum(formats[0].short_circuit_current_a) / 2
            middle = (middle + known.rated_power_w / (kind.fill_factor.middle * current)) / 2
    return Span(middle, low - 0.035 * cells.low, high)


def electric_points(
    given: Mapping[str, float | None], rated_power_w: float, kind: CellClass, voltage: Span, current: Span | None,
    pointer: str,
) -> dict[str, Guess]:  # fmt: skip
    """Voc, Vmp (V), Isc, Imp (A) where not given, from the given ones first and the class last; rated power closes.

    Args:
        given: any of the four by field name; None where not given.
        rated_power_w: at standard test conditions.
        kind: the ratios of the kind of cell.
        voltage: class range of Voc, used where none of the four is given.
        current: class range of Isc, or None where no format is known.
        pointer: of the panel, for the error.

    Returns:
        A guess for each of the four that was not given. A whole label is taken as it stands, however doubtful: then
        nothing rests on it here, ``datasheet_sanity`` tells what is wrong, and no energy is computed from it.

    Raises:
        ContradictionError: what was given of a label cannot belong to one panel (Vmp not below Voc, Imp not below Isc,
            more power than voltage and current can give).
    """
    if all(given.get(name) is not None for name in (VOC, ISC, VMP, IMP)):
        return {}
    voc, isc, vmp, imp = (given.get(name) for name in (VOC, ISC, VMP, IMP))
    if voc is not None and isc is not None:
        _check_power(rated_power_w, voc, isc, pointer)
    new_vmp, new_imp = _max_power_point(voc, isc, vmp, imp, rated_power_w, kind, voltage)
    middle = {VOC: voc or new_vmp / kind.vmp_over_voc.middle, ISC: isc or new_imp / kind.imp_over_isc.middle}
    middle |= {VMP: new_vmp, IMP: new_imp}
    _check_order(middle, given, pointer)
    ranges = _ranges(voc, isc, vmp, imp, rated_power_w, kind, voltage, current)
    code = "panel_class" if not any((voc, isc, vmp, imp)) else "datasheet_relation"
    return {name: _within_bounds(name, middle[name], ranges[name], code, pointer)
            for name in (VOC, ISC, VMP, IMP) if given.get(name) is None}  # fmt: skip


def _max_power_point(  # noqa: PLR0911 - one line a case reads as the table that it is
    voc: float | None, isc: float | None, vmp: float | None, imp: float | None, power: float, kind: CellClass,
    voltage: Span,
) -> tuple[float, float]:  # fmt: skip
    v_ratio, i_ratio = kind.vmp_over_voc.middle, kind.imp_over_isc.middle
    if vmp is not None and imp is not None:
        return vmp, imp
    if vmp is not None:
        return vmp, power / vmp
    if imp is not None:
        return power / imp, imp
    if voc is not None and isc is not None:  # both ratios are stretched alike until the rated power comes out
        stretch = sqrt(power / (v_ratio * voc * i_ratio * isc))
        v_share = min(v_ratio * stretch, 0.96)
        if power / (v_share * voc) >= 0.995 * isc:
            v_share = power / (0.98 * isc * voc)
        return v_share * voc, power / (v_share * voc)
    if voc is not None:
        return v_ratio * voc, power / (v_ratio * voc)
    if isc is not None:
        return power / (i_ratio * isc), i_ratio * isc
    return v_ratio * voltage.middle, power / (v_ratio * voltage.middle)


def _ranges(
    voc: float | None, isc: float | None, vmp: float | None, imp: float | None, power: float, kind: CellClass,
    voltage: Span, current: Span | None,
) -> dict[str, tuple[float, float]]:  # fmt: skip
    v, i, fill = kind.vmp_over_voc, kind.imp_over_isc, kind.fill_factor
    ranges: dict[str, tuple[float, float]] = {}
    known_vmp = vmp or (power / imp if imp else None)
    known_imp = imp or (power / vmp if vmp else None)
    if known_vmp:
        ranges[VOC] = known_vmp / v.high, known_vmp / v.low
    elif isc:
        ranges[VOC] = power / (fill.high * isc), power / (fill.low * isc)
    else:
        ranges[VOC] = voltage.low, voltage.high
    if known_imp:
        ranges[ISC] = known_imp / i.high, known_imp / i.low
    elif voc:
        ranges[ISC] = power / (fill.high * voc), power / (fill.low * voc)
    else:
        ranges[ISC] = (current.low, current.high) if current else (
            power / (fill.high * voltage.high), power / (fill.low * voltage.low))  # fmt: skip
    voc_low, voc_high = (voc, voc) if voc else ranges[VOC]
    # where one of the pair is given, label rounding and tolerance leave some 3 % to the other
    ranges[VMP] = (0.97 * known_vmp, 1.03 * known_vmp) if known_vmp else (v.low * voc_low, v.high * voc_high)
    ranges[IMP] = (0.97 * known_imp, 1.03 * known_imp) if known_imp else (
        power / ranges[VMP][1], power / ranges[VMP][0])  # fmt: skip
    return ranges


def _check_power(power: float, voc: float, isc: float, pointer: str) -> None:
    try:
        check_power(power, voc, isc)
    except ContradictionError as error:
        raise ContradictionError(
            pointer + error.pointer, error.problem, given=error.given, accepted=error.accepted, example=error.example
        ) from error


def _check_order(middle: Mapping[str, float], given: Mapping[str, float | None], pointer: str) -> None:
    for inner, outer, unit in ((VMP, VOC, "V"), (IMP, ISC, "A")):
        if middle[inner] >= middle[outer]:
            name = next((n for n in (inner, outer, IMP, VMP, ISC, VOC) if given.get(n) is not None), inner)
            where = f"{pointer}/{name}"
            raise ContradictionError(
                where, f"would make {inner} not less than {outer}", given=given.get(name),
                accepted=f"{inner} below {outer}; here {middle[inner]:.2f} and {middle[outer]:.2f} {unit}",
            )  # fmt: skip


def _within_bounds(name: str, value: float, span: tuple[float, float], code: str, pointer: str) -> Guess:
    bounds = BOUNDS[name]
    if not bounds.low <= value <= bounds.high:
        where = f"{pointer}/{name}"
        raise ContradictionError(
            where, f"{name} would have to be {value:.4g} {bounds.unit} to agree with what was given",
            accepted=f"figures that leave {name} between {bounds.low:g} and {bounds.high:g} {bounds.unit}; please "
            "check the rated power and this panel's other figures",
        )  # fmt: skip
    low, high = (min(max(end, bounds.low), bounds.high) for end in span)
    return Guess(value=round(value, 3), code=code, low=round(min(low, value), 3), high=round(max(high, value), 3))
