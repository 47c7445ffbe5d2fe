"""Which ratings does the panel at the door have, and how far could those lie from it that nobody read?"""

from collections.abc import Mapping
from typing import Any

from service.core.model.assumption import Assumptions
from service.core.model.facts import Panel
from service.core.panel import CRYSTALLINE, cells_in_series_of, datasheet_doubts
from service.core.pickup.facts import Between, Ratings

VOC, ISC = "open_circuit_voltage_v", "short_circuit_current_a"
# Power over open-circuit voltage and short-circuit current of crystalline silicon; a few watts move nothing here.
FILL_FACTOR_SHARE = 0.78
# What a panel of a balcony or a roof can have where nothing but the other of the two figures was read (judgement).
_ANY_VOLTAGE_V = Between(low=20.0, likely=40.0, high=90.0)
_ANY_CURRENT_A = Between(low=2.0, likely=10.0, high=20.0)
_REAR_LIGHT_SHARE = 0.3  # light on the rear of a panel held in the open over bright ground, over that on the front
# One bypass diode for at most 24 cells in series, three in nearly every panel from 50 cells on; from memory.
_CELLS_A_DIODE, _USUAL_SECTIONS, _MOST_CELLS_OF_THREE = 24, 3, 80


def stand_in_power_w(given: Mapping[str, Any]) -> float | None:
    """Rated power where it was not read: by the figures at work, or by the outer figures and the usual fill factor.

    With one outer figure alone the other is taken as that of any panel. None where no figure was given: then nothing
    can be said.

    >>> round(stand_in_power_w({"open_circuit_voltage_v": 40.6, "short_circuit_current_a": 9.85}))
    312
    """
    vmp, imp, voc, isc = (given.get(name) for name in ("max_power_voltage_v", "max_power_current_a", VOC, ISC))
    if vmp is not None and imp is not None:
        return float(vmp * imp)
    if voc is None and isc is None:
        return None
    voltage = _ANY_VOLTAGE_V.likely if voc is None else voc
    current = _ANY_CURRENT_A.likely if isc is None else isc
    return float(FILL_FACTOR_SHARE * voltage * current)


def cells_from_halves(given: Mapping[str, Any]) -> int | None:
    """Cells in series where somebody counted the cut cells that are seen, by twos in parallel; None where it stands.

    >>> cells_from_halves({"cells_in_series": 120, "open_circuit_voltage_v": 40.6})
    60
    """
    counted = given.get("cells_in_series")
    if counted is None or given.get("cell_kind", "mono") not in CRYSTALLINE:
        return None
    found = cells_in_series_of(counted, given.get(VOC))
    return None if found == counted else found


def sections_of(cells_in_series: int, cell_kind: str) -> int:
    """How many groups of cells have a bypass diode of their own; thin film counts as one.

    >>> [sections_of(cells, "mono") for cells in (32, 36, 54, 60, 66, 72, 96)]
    [2, 2, 3, 3, 3, 3, 4]
    """
    if cell_kind not in CRYSTALLINE:
        return 1
    if 2 * _CELLS_A_DIODE < cells_in_series <= _MOST_CELLS_OF_THREE:
        return _USUAL_SECTIONS
    return max(-(-cells_in_series // _CELLS_A_DIODE), 1)


def ratings_of(panel: Panel, assumptions: Assumptions, pointer: str, *, power_read: bool) -> Ratings:
    """The ratings with their ranges.

    Args:
        panel: complete.
        assumptions: what of it was not read, with ranges.
        pointer: where the panel stands in them.
        power_read: was its rated power? If not, a voltage or current that was not read may be that of any panel.
    """

    def between(name: str) -> Between:
        value, at = float(getattr(panel, name)), f"{pointer}/{name}"
        low, high = assumptions.low(at, value), assumptions.high(at, value)
        return Between(low=min(low, value), likely=value, high=max(high, value))

    def outer(name: str, any_panel: Between) -> Between:
        found = between(name)
        if power_read or not assumptions.assumed(f"{pointer}/{name}"):
            return found
        return Between(
            low=min(found.low, any_panel.low), likely=found.likely, high=max(found.high, any_panel.high)
        )  # fmt: skip

    doubts = datasheet_doubts(panel)
    length, width = between("length_mm"), between("width_mm")
    sections = float(sections_of(panel.cells_in_series, panel.cell_kind))
    return Ratings(
        open_circuit_voltage_v=outer(VOC, _ANY_VOLTAGE_V),
        short_circuit_current_a=outer(ISC, _ANY_CURRENT_A),
        voc_coefficient_pct_per_k=between("voc_coefficient_pct_per_k"),
        isc_coefficient_pct_per_k=between("isc_coefficient_pct_per_k"),
        cells_in_series=between("cells_in_series"),
        sections=Between(low=sections if panel.cell_kind in CRYSTALLINE else 0.0, likely=sections, high=sections),
        age_years=between("age_years"),
        area_m2=Between(
            low=length.low * width.low / 1e6,
            likely=length.likely * width.likely / 1e6,
            high=length.high * width.high / 1e6,
        ),
        voltage_known=not assumptions.assumed(f"{pointer}/{VOC}"),
        current_known=not assumptions.assumed(f"{pointer}/{ISC}"),
        connector=panel.connector,
        doubt=doubts[0].code if doubts else None,
        cells_known=not assumptions.assumed(f"{pointer}/cells_in_series"),
        rear_share=_REAR_LIGHT_SHARE * panel.bifaciality_share,
    )
