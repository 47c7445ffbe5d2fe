"""At which rates of return do the flows come to nought: none, one, or several?"""

from itertools import pairwise

import numpy as np
from numpy.polynomial import polynomial
from scipy.optimize import brentq

from service.core.model.hours import Floats

# Smaller than this share of the sum of all terms, the polynomial touches nought there (a double root).
_TOUCH = 1e-13

_FINE = 4 * float(np.finfo(np.float64).eps)


def internal_rates_of_return(flows: Floats) -> tuple[float, ...]:
    """Every rate above -1 at which the net present value of the flows is nought, smallest first.

    None where money goes only one way, several where the sign of the flows changes more than once (Descartes):
    a figure is a return only where there is exactly one.

    With x = 1 / (1 + rate) the value is a polynomial in x > 0. It is monotone between its stationary points, so each
    stretch is searched for its one root by bracketing.

    >>> [round(rate, 5) for rate in internal_rates_of_return(np.array([-100.0, 39, 59, 55, 20]))]
    [0.28095]
    >>> internal_rates_of_return(np.array([40.0, 70, 70]))
    ()
    """
    coefficients = np.trim_zeros(np.asarray(flows, dtype=np.float64))
    changes = int(np.count_nonzero(np.diff(np.sign(coefficients[coefficients != 0.0]))))
    if changes == 0:
        return ()
    far = _beyond_all_roots(coefficients)
    turns = [] if changes == 1 else _stationary_points(coefficients, far)
    edges = [0.0, *turns, far]
    terms = [float(c) for c in coefficients]
    roots = [x for x in turns if abs(_value(x, terms)) <= _TOUCH * _value(x, [abs(c) for c in terms])]
    for low, high in pairwise(edges):
        if low in roots or high in roots:
            continue
        if _value(low, terms) * _value(high, terms) < 0.0:
            roots.append(float(brentq(_value, low, high, args=(terms,), xtol=1e-300, rtol=_FINE, maxiter=1000)))
    return tuple(sorted(1.0 / x - 1.0 for x in roots))


def _value(x: float, terms: list[float]) -> float:
    """The polynomial at x, by Horner's rule, lowest power first."""
    total = 0.0
    for term in reversed(terms):
        total = total * x + term
    return total


def _beyond_all_roots(coefficients: Floats) -> float:
    """Cauchy's bound: no root of the polynomial is larger."""
    return 2.0 + float(np.abs(coefficients[:-1] / coefficients[-1]).max())


def _stationary_points(coefficients: Floats, far: float) -> list[float]:
    slopes = polynomial.polyroots(polynomial.polyder(coefficients))
    real = slopes.real[np.abs(slopes.imag) <= 1e-7 * np.abs(slopes)]
    return sorted({float(x) for x in real if 0.0 < x < far})
