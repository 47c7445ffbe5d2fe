"""Which rows of the list lie far from all like them, so that no range should rest on them?

Among rows of one kind of cell, one count of cells in series and nearly one power, the outermost Voc and Isc (1.5 % at
each end of either, by entries) are set aside, and so is what no crystalline cell does: misprints of the list. They stay
findable by code. Small neighbourhoods keep all their rows: nothing tells there what is usual.
"""

import numpy as np

from service.core.model.hours import Floats
from service.core.model.panel_list import LISTED_KINDS, Mask, PanelList, Rows

TYPICAL_SHARE = 0.97
_NEIGHBOUR_POWER_SHARE = 0.015
_FEWEST = 20
# Volts a cell and fill factor of crystalline panels: a little wider than the bands of core.panel's sanity check.
CELL_VOLTAGE_V = (0.54, 0.78)
FILL_FACTOR = (0.65, 0.86)
_COEFFICIENTS_PCT_PER_K = {
    "voc_coefficient_pct_per_k": (-0.5, -0.15),
    "isc_coefficient_pct_per_k": (-0.02, 0.15),
    "power_coefficient_pct_per_k": (-0.65, -0.15),
}


def typical_rows(table: PanelList) -> Mask:
    """True for each row that ranges may rest on; its own ``typical`` is not read."""
    kept = _possible(table)
    for kind in np.unique(table.kind):
        for cells in np.unique(table.cells_in_series[table.kind == kind]):
            part = np.flatnonzero((table.kind == kind) & (table.cells_in_series == cells) & kept)
            kept[part] = _central(part, table)
    return kept


def _possible(table: PanelList) -> Mask:
    crystalline = np.isin(table.kind, [LISTED_KINDS.index("mono"), LISTED_KINDS.index("poly")])
    per_cell = table.open_circuit_voltage_v / table.cells_in_series
    fill = (table.max_power_voltage_v * table.max_power_current_a) / (
        table.open_circuit_voltage_v * table.short_circuit_current_a
    )
    good = (per_cell > CELL_VOLTAGE_V[0]) & (per_cell < CELL_VOLTAGE_V[1])
    good &= (fill > FILL_FACTOR[0]) & (fill < FILL_FACTOR[1])
    kept = np.where(crystalline, good, True)
    for name, (low, high) in _COEFFICIENTS_PCT_PER_K.items():
        values = getattr(table, name)
        kept &= (values >= low) & (values <= high)
    return np.asarray(kept, dtype=np.bool_)


def _central(part: Rows, table: PanelList) -> Mask:
    """Of rows by rising power: is each within the central share of its neighbours in both ratings?"""
    power = table.rated_power_w[part]
    first = np.searchsorted(power, power * (1 - _NEIGHBOUR_POWER_SHARE))
    last = np.searchsorted(power, power * (1 + _NEIGHBOUR_POWER_SHARE), side="right")
    kept = np.ones(len(part), dtype=np.bool_)
    for start, stop in sorted(set(zip(first.tolist(), last.tolist(), strict=True))):
        if stop - start < _FEWEST:
            continue
        here = (first == start) & (last == stop)
        weight = table.listings[part[start:stop]]
        for values in (table.open_circuit_voltage_v[part], table.short_circuit_current_a[part]):
            low, high = _central_ends(values[start:stop], weight)
            kept[here] &= (values[here] >= low) & (values[here] <= high)
    return kept


def _central_ends(values: Floats, weight: Rows) -> tuple[float, float]:
    order = np.argsort(values, kind="stable")
    reached = np.cumsum(weight[order]) / weight.sum()
    tail = (1 - TYPICAL_SHARE) / 2
    low = int(np.searchsorted(reached, tail, side="right"))
    high = int(np.searchsorted(reached, 1 - tail, side="left"))
    return float(values[order[min(low, len(values) - 1)]]), float(values[order[min(high, len(values) - 1)]])
