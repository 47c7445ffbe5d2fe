"""How are the list's figures put into few bytes, and back? Scaled integers, as fine as the list itself."""

from collections.abc import Mapping, Sequence
from typing import Any

import numpy as np

from service.core.model.hours import Floats
from service.core.model.panel_list import Mask, PanelList

# Column -> parts of its unit in which it is kept. Sides of 0 mean that the list has none.
COLUMNS: Mapping[str, float] = {
    "rated_power_w": 10.0,
    "open_circuit_voltage_v": 100.0,
    "short_circuit_current_a": 1000.0,
    "max_power_voltage_v": 100.0,
    "max_power_current_a": 1000.0,
    "voc_coefficient_pct_per_k": 1000.0,
    "isc_coefficient_pct_per_k": 1000.0,
    "power_coefficient_pct_per_k": 1000.0,
    "length_mm": 1.0,
    "width_mm": 1.0,
    "cells_in_series": 1.0,
    "kind": 1.0,
    "maker": 1.0,
}
_COUNTS = ("cells_in_series", "kind", "maker")


def packed(
    figures: Mapping[str, Floats], listings: Any, typical: Mask, code_and_row: Sequence[tuple[int, int]]
) -> dict[str, Any]:
    """The arrays that go into the file, from figures of ``COLUMNS`` by rising power."""
    scaled = {name: np.rint(figures[name] * parts) for name, parts in COLUMNS.items()}
    widest = max(float(np.abs(values).max()) for values in scaled.values())
    if widest > np.iinfo(np.int32).max:
        message = f"a figure is too large to be kept: {widest}"
        raise ValueError(message)
    return {
        **{name: _narrow(values) for name, values in scaled.items()},
        "listings": _narrow(np.asarray(listings, dtype=np.float64)),
        "typical": np.packbits(typical),
        "code_number": np.array([code for code, _ in code_and_row], dtype=np.uint32),
        "code_row": np.array([row for _, row in code_and_row], dtype=np.uint16),
    }


def _narrow(values: Floats) -> Any:
    """The narrowest whole numbers that hold all values."""
    for kind in (np.uint8, np.int16, np.uint16, np.int32):
        if values.min() >= np.iinfo(kind).min and values.max() <= np.iinfo(kind).max:
            return values.astype(kind)
    message = "a figure is too large to be kept"
    raise ValueError(message)


def unpacked(arrays: Mapping[str, Any]) -> PanelList:
    """The list as it is asked, from the arrays of the file."""
    figures: dict[str, Any] = {
        name: np.asarray(arrays[name]) / parts for name, parts in COLUMNS.items() if name not in _COUNTS
    }
    for side in ("length_mm", "width_mm"):
        figures[side] = np.where(figures[side] > 0, figures[side], np.nan)
    count = len(figures["rated_power_w"])
    figures |= {name: np.asarray(arrays[name], dtype=np.int64) for name in (*_COUNTS, "listings")}
    return PanelList(
        **figures,
        typical=np.unpackbits(arrays["typical"], count=count).astype(np.bool_),
        code_number=np.asarray(arrays["code_number"], dtype=np.uint32),
        code_row=np.asarray(arrays["code_row"], dtype=np.intp),
    )
