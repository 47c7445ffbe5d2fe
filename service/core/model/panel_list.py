"""What does the public list of panels say, row by row? Plain arrays, without a maker's or a model's name."""

from dataclasses import dataclass, fields
from typing import Any

import numpy as np
from numpy.typing import NDArray

from service.core.model.hours import Floats

Rows = NDArray[np.intp]
Mask = NDArray[np.bool_]

# Kinds of cell that the list tells apart; it does not say which thin film, and counts all silicon wafers as two kinds.
LISTED_KINDS = ("mono", "poly", "cdte", "cigs", "thin_film")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PanelList:
    """Listed panels by rising power: arrays of shape (n,) at standard test conditions; codes as numbers only.

    ``rated_power_w`` is that of the label. ``kind`` counts in ``LISTED_KINDS``; ``length_mm`` >= ``width_mm``, nan
    where the list has no size. ``listings``: how many entries of the list are this row. ``maker``: a number for each
    first word of the entries' names. ``typical``: False for rows far from all like them, which no range rests on.
    ``code_number`` (m,) rises; ``code_row`` (m,) is the row that it belongs to.
    """

    rated_power_w: Floats
    open_circuit_voltage_v: Floats
    short_circuit_current_a: Floats
    max_power_voltage_v: Floats
    max_power_current_a: Floats
    voc_coefficient_pct_per_k: Floats
    isc_coefficient_pct_per_k: Floats
    power_coefficient_pct_per_k: Floats
    length_mm: Floats
    width_mm: Floats
    cells_in_series: NDArray[np.int64]
    kind: NDArray[np.int64]
    listings: NDArray[np.int64]
    maker: NDArray[np.int64]
    typical: Mask
    code_number: NDArray[np.uint32]
    code_row: Rows

    def __len__(self) -> int:
        """How many rows."""
        return len(self.rated_power_w)

    def powers_between(self, low_w: float, high_w: float) -> slice:
        """The rows whose rated power lies in the range, ends included."""
        first = int(np.searchsorted(self.rated_power_w, low_w, side="left"))
        return slice(first, int(np.searchsorted(self.rated_power_w, high_w, side="right")))

    def only(self, kept: Mask, typical: Mask | None = None) -> "PanelList":
        """The list with these rows alone, and without codes; ``typical`` (of the kept rows) replaces the old one."""
        columns = {f.name: getattr(self, f.name) for f in fields(self)}
        cut = {name: values[kept] for name, values in columns.items() if not name.startswith("code_")}
        none = {"code_number": np.zeros(0, np.uint32), "code_row": np.zeros(0, np.intp)}
        return PanelList(**(cut | none | ({} if typical is None else {"typical": typical})))


def no_panels() -> PanelList:
    """A list without a row."""
    numbers = np.zeros(0)
    counts = np.zeros(0, np.int64)
    columns: dict[str, Any] = {f.name: numbers for f in fields(PanelList)}
    whole = dict.fromkeys(("cells_in_series", "kind", "listings", "maker"), counts)
    codes = {"code_number": np.zeros(0, np.uint32), "code_row": np.zeros(0, np.intp)}
    return PanelList(**(columns | whole | codes | {"typical": np.zeros(0, np.bool_)}))
