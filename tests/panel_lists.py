"""A small invented list of panels for tests: nobody's panels, plausible ratings."""

from functools import cache

import numpy as np

from service.core.identity.codes import number_of, plain_code
from service.core.model.panel_list import PanelList

# Power, Voc, Isc, Vmp, Imp, cells, kind (0 mono, 1 poly), length, width, maker. Thirty makers print a 330 W panel of
# 60 cells; ten of them a 72-cell one.
_SIXTY = [(330.0, 40.5 + 0.02 * n, 10.10 + 0.01 * n, 33.9, 9.735, 60, 0, 1684.0, 1002.0, n) for n in range(30)]
_SEVENTY_TWO = [(330.0, 46.0 + 0.1 * n, 9.1 + 0.02 * n, 37.6, 8.777, 72, 1, 1956.0, 992.0, 40 + n) for n in range(10)]
_CODES = {"HL-330-60": 12, "NM-330-72": 35}


@cache
def invented_list() -> PanelList:
    """Forty rows by rising power; two of them have codes."""
    columns = np.array([*_SIXTY, *_SEVENTY_TWO]).T
    count = columns.shape[1]
    pairs = sorted((number_of(plain_code(code)), row) for code, row in _CODES.items())
    return PanelList(
        rated_power_w=columns[0],
        open_circuit_voltage_v=columns[1],
        short_circuit_current_a=columns[2],
        max_power_voltage_v=columns[3],
        max_power_current_a=columns[4],
        voc_coefficient_pct_per_k=np.full(count, -0.29),
        isc_coefficient_pct_per_k=np.full(count, 0.05),
        power_coefficient_pct_per_k=np.full(count, -0.38),
        length_mm=columns[7],
        width_mm=columns[8],
        cells_in_series=columns[5].astype(np.int64),
        kind=columns[6].astype(np.int64),
        listings=np.ones(count, np.int64),
        maker=columns[9].astype(np.int64),
        typical=np.ones(count, np.bool_),
        code_number=np.array([number for number, _ in pairs], np.uint32),
        code_row=np.array([row for _, row in pairs], np.intp),
    )
