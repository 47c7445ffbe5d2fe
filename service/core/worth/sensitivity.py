"""Which cause moves the payback most, if it turns out a fifth lower or higher?

Each cause is stepped on its own, and the middle account is kept again from there: self-use at another yield comes from
the hours, a netted surplus meets its limit, a later price replaces the grown one. No payback is scaled afterwards.
"""

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from service.core.model.hours import Floats
from service.core.payback import first_crossings

# The step of every cause, down and up: wide enough to matter, and equal, so that the effects can be compared.
STEP_SHARE = 0.2
_ROUNDING = 1e-10


@dataclass(frozen=True, slots=True, kw_only=True)
class Sensitivity:
    """One cause stepped by ``change_share``.

    Attributes:
        of: price (of a kWh bought), yield, self_use (more or less of the same yield, within yield and demand), outlay.
        payback_years: discounted, middle case; None where it is not within the years kept.
        payback_years_change: against the account as it stands; None where either of the two is not.
        net_present_value_change: against the account as it stands.
    """

    of: str
    change_share: float
    payback_years: float | None
    payback_years_change: float | None
    net_present_value_change: float


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Stepped:
    """What an account would rest on: savings and costs of each year kept, shape (years,), outlay and resale."""

    saving: Floats
    cost: Floats
    outlay: float
    resale: float


def sensitivities(
    base: Stepped, steps: Iterable[tuple[str, float, Stepped]], discount_rate_share: float, last_part: float = 1.0
) -> tuple[Sensitivity, ...]:
    """What each step does, the largest effect on the payback first; equal ones by the effect on the present value.

    A step after which the set is paid back no more, or only then, has the largest effect of all; one that leaves it
    unpaid the least. ``last_part``: how much of the last year the savings go on.
    """
    asked = list(steps)
    accounts = [base, *(stepped for _, _, stepped in asked)]
    factors = (1.0 + discount_rate_share) ** -np.arange(base.saving.size + 1.0)
    flows = np.empty((len(accounts), factors.size))
    flows[:, 0] = [-one.outlay for one in accounts]
    flows[:, 1:] = np.array([one.saving for one in accounts]) - np.array([one.cost for one in accounts])
    flows *= factors
    resale = np.array([one.resale for one in accounts]) * factors[-1]
    crossed, sums = first_crossings(flows, last_part), flows.sum(axis=1) + resale
    ends = base.saving.size - 1.0 + last_part  # what savings alone do not pay, a sale may
    sold = (resale > 0.0) & (sums >= -_ROUNDING * np.abs(flows).max(axis=1))
    (years, *years_then), (value, *values_then) = (
        [ends if year is None and by_sale else year for year, by_sale in zip(crossed, sold.tolist(), strict=True)],
        sums.tolist(),
    )
    found = [
        Sensitivity(
            of=of,
            change_share=share,
            payback_years=then,
            payback_years_change=None if years is None or then is None else then - years,
            net_present_value_change=value_then - value,
        )
        for (of, share, _), then, value_then in zip(asked, years_then, values_then, strict=True)
    ]
    return tuple(sorted(found, key=lambda one: _effect(one, paid_back=years is not None), reverse=True))


def _effect(one: Sensitivity, *, paid_back: bool) -> tuple[float, float, float]:
    if one.payback_years_change is not None:
        moved = abs(one.payback_years_change)
    else:
        turned = paid_back != (one.payback_years is not None)
        moved = float("inf") if turned else 0.0
    value = (
        one.net_present_value_change
    )  # rounded, as equal effects differ in the last bits; the worse comes first then
    return round(moved, 9), round(abs(value), 9), -round(value, 9)
