"""What share of a gamma distribution lies below? The regularised lower incomplete gamma function, without a library.

The library's own is as good and brings 27 MB with it, which every worker would hold for a table of 257 values.
"""

from math import lgamma

import numpy as np

from service.core.model.hours import Floats

# For larger shapes the terms are many; there the library is asked.
MOST_K = 100.0
_ENOUGH = 4.5e-16  # two units in the last place: any nearer, and rounding keeps the fraction from ever ending
_MOST_TERMS = 1000


def gamma_share_below(k: float, x: Floats) -> Floats:
    """P(k, x) of (n,) values x > 0 for a shape k up to ``MOST_K``, within 1e-13.

    The power series (NIST DLMF 8.7.1) where x < k + 1, else the continued fraction (8.9.2) of what lies above.

    >>> round(float(gamma_share_below(1.0, np.array([1.0]))[0]), 12)  # 1 - 1 / e
    0.632120558829
    """
    share = np.empty_like(x)
    low = x < k + 1.0
    share[low] = _by_series(k, x[low])
    share[~low] = 1.0 - _above_by_fraction(k, x[~low])
    return share


def _by_series(k: float, x: Floats) -> Floats:
    term = np.full_like(x, 1.0 / k)
    total = term.copy()
    for n in range(1, _MOST_TERMS):
        term *= x / (k + n)
        total += term
        if np.all(term <= _ENOUGH * total):
            break
    return np.asarray(total * _density_times_x(k, x), dtype=np.float64)


def _above_by_fraction(k: float, x: Floats) -> Floats:
    """By Lentz's method (Numerical Recipes, 3rd edition, 6.2, from memory)."""
    b = x + 1.0 - k
    d = 1.0 / b
    c = np.full_like(x, 1e300)
    fraction = d.copy()
    for n in range(1, _MOST_TERMS):
        a = n * (k - n)
        b += 2.0
        d = 1.0 / (a * d + b)
        c = b + a / c
        step = c * d
        fraction *= step
        if np.all(np.abs(step - 1.0) <= _ENOUGH):
            break
    return np.asarray(fraction * _density_times_x(k, x), dtype=np.float64)


def _density_times_x(k: float, x: Floats) -> Floats:
    """x^k exp(-x) / Gamma(k)."""
    return np.asarray(np.exp(k * np.log(x) - x - lgamma(k)), dtype=np.float64)
