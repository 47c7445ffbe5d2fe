"""To how many digits is a figure worth saying? One place for both readers: machines and people.

A machine gets as many digits as keep its own sums right; a person gets those that the spread allows.
"""

from math import floor, isfinite, log10
from typing import Annotated

from pydantic import AfterValidator

from service.core.model import amount


def _to(decimals: int) -> AfterValidator:
    return AfterValidator(lambda value: round(value, decimals) + 0.0)  # + 0.0 turns -0.0 into 0.0


def _each_to(decimals: int) -> AfterValidator:
    """The same of all in a list at once."""
    return AfterValidator(lambda values: [round(value, decimals) + 0.0 for value in values])


def _each_known_to(decimals: int) -> AfterValidator:
    """The same of a list in which some are not known."""
    return AfterValidator(lambda values: [None if value is None else round(value, decimals) + 0.0 for value in values])


Kwh = Annotated[float, _to(2)]
KwhEach = Annotated[list[float], _each_to(2)]
KwhEachKnown = Annotated[list[float | None], _each_known_to(2)]
Watts = Annotated[float, _to(1)]
WattsEach = Annotated[list[float], _each_to(1)]
Money = Annotated[float, _to(2)]
MoneyPerKwh = Annotated[float, _to(6)]
YearsLong = Annotated[float, _to(3)]
YearsKept = Annotated[float, AfterValidator(lambda years: int(years) if years == int(years) else round(years, 3))]
Share = Annotated[float, _to(5)]
Degrees = Annotated[float, _to(2)]
Celsius = Annotated[float, _to(1)]
Metres = Annotated[float, _to(1)]
Newtons = Annotated[float, _to(-1)]  # forces and pressures of a storm: an order of magnitude
Kilograms = Annotated[float, _to(0)]
Times = Annotated[float, _to(2)]
Kilometres = Annotated[float, _to(0)]
Figure = Annotated[float, _to(3)]  # measured values and limits: V, A, W, mm2


def for_people(value: float, low: float | None = None, high: float | None = None) -> str:
    """A figure with the digits that its spread allows: its last one is worth about a twentieth of the spread.

    >>> for_people(643.21, 560.0, 725.0), for_people(3.274, 2.9, 4.1), for_people(0.3412), for_people(1234.5)
    ('640', '3.3', '0.34', '1234')
    """
    if low is not None and high is not None and isfinite(high - low) and high > low:
        decimals = -floor(log10((high - low) / 2))
    else:
        decimals = 0 if abs(value) >= 100 else 1 if abs(value) >= 10 else 2
    rounded = round(value, decimals) + 0.0
    if rounded == 0:
        return "0"
    return f"{rounded:.{max(decimals, 0)}f}"


def at_most(value: float) -> str:
    """An upper bound for people: two digits that count, never rounded up, so that the promise beside it still holds.

    >>> at_most(564.1), at_most(96.9), at_most(7.39), at_most(1437.0)
    ('560', '96', '7.3', '1400')
    """
    return f"{amount.at_most(value):.{amount.decimals_of(value)}f}"
