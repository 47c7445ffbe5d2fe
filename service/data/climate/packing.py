"""How are the table's numbers put into bytes, and back?"""

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

LN_INDEX_STEP = 0.001
_LN_LOW, _LN_STEP = -1.3, 0.0075  # of a monthly index's logarithm: 0.27 to 1.8 in steps of 0.75 %
_ABSENT = 255


def pack_ln(ln_index: Floats) -> NDArray[np.uint8]:
    """Logarithms of monthly indices as bytes; nan (no sun) as 255."""
    code = np.clip(np.rint((np.nan_to_num(ln_index) - _LN_LOW) / _LN_STEP), 0, _ABSENT - 1)
    return np.where(np.isfinite(ln_index), code, _ABSENT).astype(np.uint8)


def unpack_ln(coded: NDArray[np.uint8]) -> Floats:
    """Back to logarithms, nan where there is no sun."""
    return np.where(coded == _ABSENT, np.nan, _LN_LOW + _LN_STEP * coded.astype(np.float64))


def pack_quantiles(quantiles: Floats) -> NDArray[np.uint8]:
    """Normalised daily quantiles q >= 0 as bytes of q / (1 + q): finer where values are small, up to any q."""
    return np.asarray(np.rint(quantiles / (1.0 + quantiles) * 255.0), dtype=np.uint8)


def unpack_quantiles(coded: NDArray[np.uint8]) -> Floats:
    """Back to quantiles with mean 1 along the last axis."""
    share = coded.astype(np.float64) / 255.0
    values = share / (1.0 - share)
    return np.asarray(values / values.mean(axis=-1, keepdims=True), dtype=np.float64)
