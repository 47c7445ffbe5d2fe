"""How is the money answered: the saving, when it is paid back, what may be paid at most?"""

from typing import Self

from pydantic import Field

from service.api.schemas import rounding as r
from service.api.schemas.band import MoneyBandOut, YearsBandOut
from service.api.schemas.base import Out
from service.core.worth import Worth


class YearFlowOut(Out):
    """One year of the account, in the middle case."""

    year: int = Field(ge=0, le=50)
    saving: r.Money
    cost: r.Money
    resale: r.Money
    unpaid: r.Money = Field(description="What of all costs is still to be earned after this year.")


class MovingOut(Out):
    """What is left when the home is given up after so many years."""

    years: int = Field(ge=0, le=50)
    gain: MoneyBandOut


class PaybackOut(Out):
    """The account. What compares with an outlay is null where none was given."""

    currency: str = Field(description="ISO 4217; all money of the answer is in it.", max_length=3)
    outlay: r.Money | None
    years_kept: int = Field(ge=0, le=50, description="Whole years of the account: the stay, or the years asked.")
    saving_first_year: MoneyBandOut
    simple_payback_years: YearsBandOut | None = Field(description="A member is null where there is no saving.")
    undiscounted_payback_years: YearsBandOut | None = Field(
        description="A member is null where it is not within the years kept."
    )
    discounted_payback_years: YearsBandOut | None = Field(
        description="A member is null where it is not within the years kept."
    )
    lasting_payback_years: YearsBandOut | None = Field(description="The discounted one that no later cost undoes.")
    if_moving_after_years: MovingOut | None
    net_present_value: MoneyBandOut | None
    internal_rate_of_return_share: r.Share | None = Field(description="Null where there is none, or more than one.")
    internal_rates_of_return: list[r.Share] = Field(max_length=50)
    levelised_cost_per_kwh: r.MoneyPerKwh | None
    worth_up_to: MoneyBandOut = Field(description="The most outlay that is paid back for good within the years kept.")
    yearly_flows: list[YearFlowOut] = Field(max_length=51)

    @classmethod
    def of(cls, worth: Worth, currency: str) -> Self:
        """The account in its currency."""
        return cls.from_core(worth, currency=currency)
