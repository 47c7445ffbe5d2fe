"""At which rates of return do the flows come to nought: none, one, or several?"""

from itertools import accumulate, pairwise

import numpy as np
from numpy.polynomial import polynomial

from service.core.model.hours import Floats

# A flow smaller than this share of the largest is none: with it, rates beyond 1e12 a year are left out.
_LEAST_FLOW = 1e-12

# Smaller than this share of the sum of all terms, the value touches nought without crossing it (a double root).
_TOUCH = 1e-13

_FINE = 4 * float(np.finfo(np.float64).eps)


def internal_rates_of_return(flows: Floats) -> tuple[float, ...]:
    """Every rate above -1 at which the net present value of the flows is nought, smallest first.

    None where money goes only one way, several where the sign of the flows changes more than once (Descartes):
    a figure is a return only where there is exactly one.

    With x = 1 / (1 + rate) the value is a polynomial in x > 0. It is monotone between its stationary points, so each
    stretch is searched for its one root by bracketing, in y = x / (1 + x), which runs from 0 to 1.

    >>> [round(rate, 5) for rate in internal_rates_of_return(np.array([-100.0, 39, 59, 55, 20]))]
    [0.28095]
    >>> internal_rates_of_return(np.array([40.0, 70, 70]))
    ()
    """
    terms = _terms(flows)
    changes = sum(a * b < 0.0 for a, b in pairwise([term for term in terms if term]))
    if changes == 0:
        return ()
    sizes = [abs(term) for term in terms]
    if changes == 1:
        turns = []
    elif _one_root_on_either_side(terms):
        turns = [0.5]
    else:
        turns = _stationary_points(np.array(terms))
    roots = [y for y in turns if abs(_value(y, terms)) <= _TOUCH * _value(y, sizes)]
    for low, high in pairwise([0.0, *turns, 1.0]):
        if low in roots or high in roots:
            continue
        if _value(low, terms) * _value(high, terms) < 0.0:
            roots.append(_root_between(low, high, terms))
    return tuple(sorted((1.0 - y) / y - 1.0 for y in roots))


def _root_between(low: float, high: float, terms: list[float]) -> float:
    """Where the value changes its sign: inverse quadratic steps, halving where they are not to be trusted.

    Chandrupatla's method (Advances in Engineering Software 28 (1997) 145-149, doi 10.1016/s0965-9978(96)00051-8).
    """
    here, there = low, high
    at_here, at_there = _value(here, terms), _value(there, terms)
    part = 0.5
    while True:
        new = here + part * (there - here)
        at_new = _value(new, terms)
        if (at_new > 0.0) == (at_here > 0.0):
            last, at_last = here, at_here
        else:
            last, at_last, there, at_there = there, at_there, here, at_here
        here, at_here = new, at_new
        best, at_best = min(((here, at_here), (there, at_there)), key=lambda point: abs(point[1]))
        least = (_FINE * abs(best) + 1e-300) / abs(there - here) if there != here else 1.0
        if at_best == 0.0 or least > 0.5:
            return best
        xi, phi = (here - there) / (last - there), (at_here - at_there) / (at_last - at_there)
        part = 0.5
        if phi**2 < xi and (1.0 - phi) ** 2 < 1.0 - xi:
            part = at_here / (at_there - at_here) * at_last / (at_there - at_last)
            part += (last - here) / (there - here) * at_here / (at_last - at_here) * at_there / (at_last - at_there)
        part = min(max(part, least), 1.0 - least)


def _terms(flows: Floats) -> list[float]:
    """The flows over the largest of them, those too small to count as nought, without noughts at either end."""
    amounts: list[float] = np.asarray(flows, dtype=np.float64).tolist()
    largest = max(map(abs, amounts))
    least = _LEAST_FLOW * largest
    terms = [amount / largest if abs(amount) > least else 0.0 for amount in amounts]
    counting = [year for year, term in enumerate(terms) if term]
    return terms[counting[0] : counting[-1] + 1] if counting else []


def _one_root_on_either_side(terms: list[float]) -> bool:
    """Is there at most one root below x = 1, at most one above it, and none at it? False where that is not sure.

    Descartes' rule for the series of p(x) / (1 - x), whose coefficients are the running sums (Norstrom 1972, from
    memory): roots in 0 < x < 1 are no more than the changes of sign of these; backwards the same for x > 1.
    """
    for sums in (list(accumulate(terms)), list(accumulate(reversed(terms)))):
        if min(map(abs, sums)) <= _LEAST_FLOW or sum(a * b < 0.0 for a, b in pairwise(sums)) > 1:
            return False
    return True


def _value(y: float, terms: list[float]) -> float:
    """The polynomial at x = y / (1 - y), times (1 - y) to its degree: never overflows. By Horner's rule."""
    total, weight = 0.0, 1.0
    for term in reversed(terms):
        total = total * y + term * weight
        weight *= 1.0 - y
    return total


def _stationary_points(coefficients: Floats) -> list[float]:
    """Where the polynomial turns for x > 0, as y, in order."""
    slopes = polynomial.polyroots(polynomial.polyder(coefficients))
    real = slopes.real[np.abs(slopes.imag) <= 1e-7 * np.abs(slopes)]
    return sorted({float(x / (1.0 + x)) for x in real if x > 0.0})
