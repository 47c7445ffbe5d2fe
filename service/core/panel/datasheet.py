"""Does a datasheet hang together? Sanity of the printed figures, and how many cells are in series."""

from dataclasses import dataclass

from service.core.errors import ContradictionError
from service.core.model.bounds import BOUNDS
from service.core.model.facts import Panel
from service.core.panel.curve import full_sun_power_w
from service.core.panel.diode import five_parameters_of

CRYSTALLINE = frozenset({"mono", "poly", "topcon", "hjt", "back_contact"})

# Open-circuit voltage per series cell: trade figures, from memory; heterojunction and back-contact lie near the top.
CELL_VOLTAGE_V = (0.55, 0.78)
# Fill factor. Crystalline: the public CEC list of 2019 has 0.743 to 0.793 (5 to 95 %), widened for older and newer
# cells. Thin film has bands of its own (CdTe near 0.68 is genuine), from memory.
FILL_FACTOR = (0.70, 0.86)
THIN_FILM_FILL_FACTOR = (0.55, 0.82)
# Of 20,946 crystalline panels of the public CEC list of 2019 none has less than -0.21 %/K, of its thin films none less
# than -0.17; the steep ends are judgement, wider by a little. Nearer nought it may be volts or millivolts a kelvin,
# and would hide the voltage of the cold: -138 mV/K of a 49.3 V panel is -0.28 %/K.
VOC_COEFFICIENT_PCT_PER_K = (-0.6, -0.2)
THIN_FILM_VOC_COEFFICIENT_PCT_PER_K = (-0.6, -0.12)
POWER_PRODUCT_SHARE = 0.03  # rounding of three printed digits and a class's power explain about this much
POWER_COEFFICIENT_PCT_PER_K = 0.12  # the public list's own sheets differ from the model by -0.02 to +0.09 (5 to 95 %)
PRODUCT_REFUSED_BEYOND = 0.10
FILL_FACTOR_CEILING = 0.92  # above the best crystalline cell known; no datasheet can show it
USUAL_VMP_OVER_VOC, USUAL_IMP_OVER_ISC = 0.83, 0.94  # where the point usually lies, for an example only
MOST_WHOLE_CELLS = 96  # a common panel with more visible cells has cut ones in two halves, wired in parallel


@dataclass(frozen=True, slots=True, kw_only=True)
class Doubt:
    """A printed figure that is hard to believe: its code, the figure, and the band in which it should lie.

    Codes: ``voltages_swapped``, ``currents_swapped``, ``half_cells_counted``, ``voltage_per_cell``, ``fill_factor``,
    ``power_product``, ``power_coefficient``, ``voc_coefficient``.
    """

    code: str
    measured: float
    low: float
    high: float
    unit: str


def cells_in_series_of(cells_visible: int, open_circuit_voltage_v: float | None = None) -> int:
    """How many cells are in series where so many are seen: cut cells lie in two parallel halves and count half.

    Where the open-circuit voltage is known, the count whose voltage per cell lies nearer the middle of the
    crystalline band wins; else an even number above 96 is taken for halves.

    >>> cells_in_series_of(144), cells_in_series_of(72), cells_in_series_of(96, 33.2)
    (72, 72, 48)
    """
    half = cells_visible // 2
    if cells_visible % 2:
        return cells_visible
    if open_circuit_voltage_v is not None:
        middle = sum(CELL_VOLTAGE_V) / 2
        return min((cells_visible, half), key=lambda cells: abs(open_circuit_voltage_v / cells - middle))
    return half if cells_visible > MOST_WHOLE_CELLS else cells_visible


def check_power(rated_power_w: float, open_circuit_voltage_v: float, short_circuit_current_a: float) -> None:
    """Refuse a rated power that no panel of this voltage and current can give.

    Raises:
        ContradictionError: at ``/rated_power_w``, counted from the panel.
    """
    most = FILL_FACTOR_CEILING * open_circuit_voltage_v * short_circuit_current_a
    if rated_power_w > most:
        raise ContradictionError(
            "/rated_power_w", "more than this open-circuit voltage and short-circuit current can give",
            given=rated_power_w, accepted=f"at most {most:.0f} W with {open_circuit_voltage_v:g} V and "
            f"{short_circuit_current_a:g} A; please read the label again",
            example=_power_of(open_circuit_voltage_v, short_circuit_current_a),
        )  # fmt: skip


def _power_of(open_circuit_voltage_v: float, short_circuit_current_a: float) -> int | None:
    """A usual power at this voltage and current; None where no panel is as small or as large."""
    power = round(0.78 * open_circuit_voltage_v * short_circuit_current_a)
    bounds = BOUNDS["rated_power_w"]
    return power if bounds.low <= power <= bounds.high else None


def check_outer(panel: Panel) -> None:
    """Refuse an open-circuit voltage or a short-circuit current that alone is at odds with all else on the label.

    Where the maximum-power point makes the rated power, and the two outer figures could not, one of these was misread:
    the one that lies further from its usual place above the point.

    Raises:
        ContradictionError: at ``/open_circuit_voltage_v`` or ``/short_circuit_current_a``, counted from the panel.
    """
    product = panel.max_power_voltage_v * panel.max_power_current_a
    most = FILL_FACTOR_CEILING * panel.open_circuit_voltage_v * panel.short_circuit_current_a
    if panel.rated_power_w <= most or abs(product / panel.rated_power_w - 1) > PRODUCT_REFUSED_BEYOND:
        return
    volts = panel.max_power_voltage_v / USUAL_VMP_OVER_VOC
    amperes = panel.max_power_current_a / USUAL_IMP_OVER_ISC
    if volts / panel.open_circuit_voltage_v >= amperes / panel.short_circuit_current_a:
        name, given, inner, unit = "/open_circuit_voltage_v", panel.open_circuit_voltage_v, volts, "V"
        least = panel.rated_power_w / (FILL_FACTOR[1] * panel.short_circuit_current_a)
    else:
        name, given, inner, unit = "/short_circuit_current_a", panel.short_circuit_current_a, amperes, "A"
        least = panel.rated_power_w / (FILL_FACTOR[1] * panel.open_circuit_voltage_v)
    matching = max(inner, least)
    raise ContradictionError(
        name, f"does not suit {panel.max_power_voltage_v:g} V and {panel.max_power_current_a:g} A at maximum power, "
        f"which make the rated {panel.rated_power_w:g} W", given=given,
        accepted=f"about {matching:.1f} {unit}; please read the label again", example=round(matching, 2),
    )  # fmt: skip


def check_product(panel: Panel) -> None:
    """Refuse a maximum-power point whose product lies more than a tenth off the rated power: one of them is misread.

    A label rounds its volts and amperes to some 1 %; between 3 and 10 % is a doubt, not a refusal (judgement).

    Raises:
        ContradictionError: at ``/max_power_current_a``, counted from the panel; at ``/max_power_voltage_v`` or
            ``/rated_power_w`` where no current below the short-circuit current mends it.
    """
    product = panel.max_power_voltage_v * panel.max_power_current_a
    if abs(product / panel.rated_power_w - 1) > PRODUCT_REFUSED_BEYOND:
        amperes = panel.rated_power_w / panel.max_power_voltage_v
        volts = panel.rated_power_w / panel.max_power_current_a
        if amperes < panel.short_circuit_current_a:
            name, given, matching, unit = "/max_power_current_a", panel.max_power_current_a, amperes, "A"
        elif volts < panel.open_circuit_voltage_v:
            name, given, matching, unit = "/max_power_voltage_v", panel.max_power_voltage_v, volts, "V"
        else:
            name, given, matching, unit = "/rated_power_w", panel.rated_power_w, product, "W"
        raise ContradictionError(
            name, f"{panel.max_power_voltage_v:g} V and {panel.max_power_current_a:g} A make {product:.0f} W, "
            f"not the rated {panel.rated_power_w:g} W", given=given,
            accepted=f"about {matching:.1f} {unit}; please read the label again", example=round(matching, 2),
        )  # fmt: skip


def datasheet_doubts(panel: Panel) -> tuple[Doubt, ...]:
    """What looks wrong in the sheet of one panel; empty where nothing does.

    Swapped values are told alone, since everything after them would be wrong too. The band of volts per cell is for
    crystalline silicon only.
    """
    swapped = _swapped(panel)
    if swapped:
        return swapped
    doubts = [*_of_the_cells(panel), *_of_the_power(panel)]
    return tuple(doubts)


def _swapped(panel: Panel) -> tuple[Doubt, ...]:
    doubts = []
    voc, vmp = panel.open_circuit_voltage_v, panel.max_power_voltage_v
    isc, imp = panel.short_circuit_current_a, panel.max_power_current_a
    if vmp >= voc:
        doubts.append(Doubt(code="voltages_swapped", measured=vmp, low=0.0, high=voc, unit="V"))
    if imp >= isc:
        doubts.append(Doubt(code="currents_swapped", measured=imp, low=0.0, high=isc, unit="A"))
    return tuple(doubts)


def _of_the_cells(panel: Panel) -> list[Doubt]:
    if panel.cell_kind not in CRYSTALLINE:
        return []
    low, high = CELL_VOLTAGE_V
    per_cell = panel.open_circuit_voltage_v / panel.cells_in_series
    if low <= per_cell <= high:
        return []
    halved = panel.cells_in_series % 2 == 0 and low <= 2 * per_cell <= high
    code = "half_cells_counted" if halved else "voltage_per_cell"
    return [Doubt(code=code, measured=per_cell, low=low, high=high, unit="V")]


def _of_the_power(panel: Panel) -> list[Doubt]:
    doubts = []
    product = panel.max_power_voltage_v * panel.max_power_current_a
    fill_factor = product / (panel.open_circuit_voltage_v * panel.short_circuit_current_a)
    low, high = FILL_FACTOR if panel.cell_kind in CRYSTALLINE else THIN_FILM_FILL_FACTOR
    if not low <= fill_factor <= high:
        doubts.append(Doubt(code="fill_factor", measured=fill_factor, low=low, high=high, unit=""))
    rated = panel.rated_power_w
    low, high = rated * (1 - POWER_PRODUCT_SHARE), rated * (1 + POWER_PRODUCT_SHARE)
    if not low <= product <= high:
        doubts.append(Doubt(code="power_product", measured=product, low=low, high=high, unit="W"))
    of_volts = voc_coefficient_doubt(panel)
    if of_volts is not None:
        doubts.append(of_volts)
    return doubts + _of_the_power_coefficient(panel)


def voc_coefficient_doubt(panel: Panel) -> Doubt | None:
    """Of a coefficient of the open-circuit voltage that no panel has; None where it is plausible, or all is swapped."""
    silicon = panel.cell_kind in CRYSTALLINE
    least, most = VOC_COEFFICIENT_PCT_PER_K if silicon else THIN_FILM_VOC_COEFFICIENT_PCT_PER_K
    coefficient = panel.voc_coefficient_pct_per_k
    if least <= coefficient <= most or _swapped(panel):
        return None
    return Doubt(code="voc_coefficient", measured=coefficient, low=least, high=most, unit="%/K")


def _of_the_power_coefficient(panel: Panel) -> list[Doubt]:
    """The printed power coefficient beside that of the five parameters, which do not know it, between 25 and 65 C."""
    try:
        diode = five_parameters_of(panel)
    except ContradictionError:
        return []
    cool, warm = full_sun_power_w(diode, 25.0), full_sun_power_w(diode, 65.0)
    coefficient = (warm / cool - 1) / 40 * 100
    low, high = coefficient - POWER_COEFFICIENT_PCT_PER_K, coefficient + POWER_COEFFICIENT_PCT_PER_K
    given = panel.power_coefficient_pct_per_k
    if low <= given <= high:
        return []
    return [Doubt(code="power_coefficient", measured=given, low=low, high=high, unit="%/K")]
