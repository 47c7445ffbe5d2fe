"""What can a panel give that is newer than the public list, by the size and the kind of its cells?

A cell's open-circuit voltage does not depend on its size, its short-circuit current is its area times a current
density; the rated power ties both through the fill factor. So, with N cells of area A in series::

    Voc in N x [voltage of a cell], Isc in A x [current density], P = FF x Voc x Isc,

each range cut by what the other two leave. Half-cut panels have two parallel halves: their current is that of a whole
cell. Cell sizes are those of the wafer trade (SEMI PV standards name M2, M6, M10, G12 by their edge); current densities
39 to 43 mA/cm2 and volts a cell are trade figures, from memory. Rows of the older sizes use wider densities, from the
public list. Validity: crystalline silicon; thin film has no such sizes.
"""

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from math import exp

from service.core.identity.candidate import Candidate, Range
from service.core.identity.classes import (
    FORMATS,
    NEW_CELL_W,
    THIN_FILM,
    CellClass,
    PanelFormat,
    Span,
    class_of,
    classes_of,
)
from service.core.identity.facts import COEFFICIENTS, IMP, ISC, VMP, VOC, PanelFacts
from service.core.model.bounds import BOUNDS
from service.core.panel.datasheet import CELL_VOLTAGE_V

SOURCE = "cell_size_class"
POWER_SLACK = 0.03
MOST_AREA_OFF = 0.10  # as completion has it: frames of one format hardly ever differ more
ANY_SHARE = 0.1  # weight of "any other build", where the list has few
_AREA_SD = 0.025
_POINT_SHARE = 0.03


@dataclass(frozen=True, slots=True)
class CellSize:
    """Area of one whole cell in cm2, and current density in mA/cm2, each least and greatest."""

    area_cm2: tuple[float, float]
    density_ma_per_cm2: tuple[float, float]

    @property
    def current_a(self) -> Span:
        """Short-circuit current of a panel of such cells."""
        low = self.area_cm2[0] * self.density_ma_per_cm2[0] / 1000
        high = self.area_cm2[1] * self.density_ma_per_cm2[1] / 1000
        return Span((low + high) / 2, low, high)


# By the name of the size in FORMATS: edge in mm. Corners of pseudo-squares are off the area.
CELL_SIZES = {
    "125 mm": CellSize((148.0, 156.3), (32.5, 42.0)),
    "156 mm": CellSize((238.0, 246.0), (32.5, 41.5)),
    "156 mm, mono": CellSize((238.0, 246.0), (36.0, 42.0)),
    "158.75 mm": CellSize((250.0, 252.0), (38.5, 42.0)),
    "166 mm": CellSize((274.0, 276.0), (38.5, 42.5)),
    "182 mm": CellSize((330.0, 336.5), (38.5, 43.5)),
    "182 x 210 mm": CellSize((370.0, 383.5), (39.0, 43.5)),
    "210 mm, cut in three": CellSize((293.0, 295.5), (39.0, 43.5)),  # two thirds of a wafer's current
    "210 mm": CellSize((440.0, 442.0), (39.0, 43.5)),
}


def classes_like(facts: PanelFacts, listed_counts: Collection[int]) -> tuple[Candidate, ...]:
    """A candidate for each build of newer cells that agrees, and for older ones that the list lacks at this power.

    Args:
        facts: what is known; nothing agrees without a rated power.
        listed_counts: counts of cells in series that the list covers near this power.
    """
    if facts.rated_power_w is None or facts.cell_kind in THIN_FILM:
        return ()
    found = []
    for one in FORMATS:
        if one.newer_than_list or one.cells_in_series not in listed_counts:
            candidate = _of_format(one, facts, facts.rated_power_w)
            if candidate is not None:
                found.append(candidate)
    return tuple(found)


def any_panel(facts: PanelFacts) -> Candidate | None:
    """What holds for any panel of this power, whatever its build: very wide; None without a power.

    Where the cells were not counted: a small panel is wired for a 12 V battery whatever its power, a large one has some
    10 W a cell; thin film has some 110 cells; 0.6 to 1.6 times as many are taken in.
    """
    power, counts, thin = facts.rated_power_w, facts.cell_counts, facts.cell_kind in THIN_FILM
    if power is None:
        return None
    guess = 110.0 if thin else max(36.0, power / 10)
    low, high = (min(counts), max(counts)) if counts else (0.6 * guess, 1.6 * guess)
    kinds = _kinds(facts.cell_kind, power / guess)
    per_cell = _hull([kind.voc_per_cell_v for kind in kinds])
    least, most = (per_cell.low, per_cell.high) if thin else CELL_VOLTAGE_V
    middle = guess if counts is None else min(counts, key=lambda cells: abs(cells - guess))
    voltage = Span(middle * per_cell.middle, low * min(least, per_cell.low), high * max(most, per_cell.high))
    ranges = _closed(facts, power, kinds, voltage, None)
    if ranges is None:
        return None
    return Candidate(found_in="class", cells_in_series=facts.cells_in_series, cell="", cell_kind=facts.cell_kind,
                     rated_power_w=power,
                     ranges=ranges, weight=ANY_SHARE)  # fmt: skip


def _of_format(one: PanelFormat, facts: PanelFacts, power: float) -> Candidate | None:
    if not _agrees(one, facts, power):
        return None
    kinds = _kinds(facts.cell_kind, power / one.cells_in_series)
    cells = one.cells_in_series
    per_cell = _hull([kind.voc_per_cell_v for kind in kinds])
    voltage = Span(cells * per_cell.middle, cells * per_cell.low, cells * per_cell.high)
    ranges = _closed(facts, power, kinds, voltage, CELL_SIZES[one.cell].current_a)
    if ranges is None:
        return None
    area = one.length_mm * one.width_mm / 1e6
    off = 0.0 if facts.area_m2 is None else facts.area_m2 / area - 1
    return Candidate(
        found_in="class", cells_in_series=cells, cell=one.cell, cell_kind=facts.cell_kind, rated_power_w=power,
        ranges=ranges, weight=one.share * exp(-0.5 * (off / _AREA_SD) ** 2),
    )  # fmt: skip


def _agrees(one: PanelFormat, facts: PanelFacts, power: float) -> bool:
    low, high = one.power_w
    area = one.length_mm * one.width_mm / 1e6
    return all(
        (
            (1 - POWER_SLACK) * low <= power <= (1 + POWER_SLACK) * high,
            facts.area_m2 is None or abs(facts.area_m2 / area - 1) <= MOST_AREA_OFF,
            facts.cell_counts is None or one.cells_in_series in facts.cell_counts,
            facts.cell_kind is None or not one.kinds or facts.cell_kind in one.kinds,
            facts.cell_kind != "poly" or power / one.cells_in_series < NEW_CELL_W,
            facts.built is None or one.years[0] - 1 <= facts.built <= one.years[1] + 1,
        )
    )


def _kinds(cell_kind: str | None, watts_per_cell: float) -> Sequence[CellClass]:
    return (class_of(cell_kind, watts_per_cell),) if cell_kind is not None else classes_of(watts_per_cell)


def _hull(spans: Sequence[Span]) -> Span:
    middle = sum(span.middle for span in spans) / len(spans)
    return Span(middle, min(span.low for span in spans), max(span.high for span in spans))


def _closed(
    facts: PanelFacts, power: float, kinds: Sequence[CellClass], voltage: Span, current: Span | None
) -> dict[str, Range] | None:
    """All ratings, each cut by what power, fill factor and the others leave; None where nothing is left."""
    fill = _hull([kind.fill_factor for kind in kinds])
    amperes = current or Span(
        power / (fill.middle * voltage.middle), power / (fill.high * voltage.high), power / (fill.low * voltage.low)
    )
    spans = {VOC: _fixed(voltage, facts.open_circuit_voltage_v), ISC: _fixed(amperes, facts.short_circuit_current_a)}
    if None in spans.values():
        return None
    volts, amps = _tied(spans[VOC], spans[ISC], power, fill)  # type: ignore[arg-type]
    ratio_v, ratio_i = _hull([kind.vmp_over_voc for kind in kinds]), _hull([kind.imp_over_isc for kind in kinds])
    vmp = _fixed(_times(volts, ratio_v), facts.max_power_voltage_v)
    imp = _fixed(_times(amps, ratio_i), facts.max_power_current_a)
    if vmp is None or imp is None:
        return None
    vmp, imp = _tied(vmp, imp, power, Span(1.0, 0.97, 1.03))
    found = {VOC: volts, ISC: amps, VMP: vmp, IMP: imp}
    for name, values in zip(COEFFICIENTS, ("voc_pct_per_k", "isc_pct_per_k", "power_pct_per_k"), strict=True):
        found[name] = _hull([getattr(kind, values) for kind in kinds])
    if any(span.low > span.high for span in found.values()):
        return None
    return {name: _range(name, span) for name, span in found.items()}


def _tied(volts: Span, amps: Span, power: float, fill: Span) -> tuple[Span, Span]:
    """Both ranges cut so that power = fill x volts x amps can hold, middles moved together until it does."""
    low_v, high_v = power / (fill.high * amps.high), power / (fill.low * amps.low)
    low_a, high_a = power / (fill.high * volts.high), power / (fill.low * volts.low)
    v_low, v_high = max(volts.low, low_v), min(volts.high, high_v)
    a_low, a_high = max(amps.low, low_a), min(amps.high, high_a)
    middle_v = min(max((volts.middle + power / (fill.middle * amps.middle)) / 2, v_low), v_high)
    middle_a = min(max(power / (fill.middle * middle_v), a_low), a_high)
    return Span(middle_v, v_low, v_high), Span(middle_a, a_low, a_high)


def _times(span: Span, ratio: Span) -> Span:
    return Span(span.middle * ratio.middle, span.low * ratio.low, span.high * ratio.high)


def _fixed(span: Span, given: float | None) -> Span | None:
    """The range around a given value, as far as the class reaches; None where they do not meet."""
    if given is None:
        return span
    low, high = max(span.low, (1 - _POINT_SHARE) * given), min(span.high, (1 + _POINT_SHARE) * given)
    return None if low > high else Span(min(max(given, low), high), low, high)


def _range(name: str, span: Span) -> Range:
    bounds = BOUNDS[name]
    low, likely, high = (min(max(value, bounds.low), bounds.high) for value in (span.low, span.middle, span.high))
    return Range(low=low, likely=min(max(likely, low), high), high=high, source=SOURCE)
