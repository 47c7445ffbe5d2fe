"""What does an account tell: the shape of the answer about money?"""

from dataclasses import dataclass

from service.core.model.band import Band
from service.core.payback import OutlayParts
from service.core.worth.sensitivity import Sensitivity


@dataclass(frozen=True, slots=True, kw_only=True)
class YearFlow:
    """One year of the account, in the middle case. ``unpaid`` is what of all costs is still to be earned after it."""

    year: int
    saving: float
    cost: float
    resale: float
    unpaid: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Moving:
    """What is left after so many years when the home is given up: savings less costs plus resale, undiscounted."""

    years: float
    gain: Band


@dataclass(frozen=True, slots=True, kw_only=True)
class BreakEven:
    """The most that may be paid for a set that is then paid back, discounted, at the end of so many years.

    ``by_selling``: it is sold then, and what that brings of the stated outlay is counted.
    """

    years: float
    worth_up_to: Band
    by_selling: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Worth:
    """What the set is worth. Bands: ``cautious`` is the smaller saving and the longer payback.

    Attributes:
        outlay: what is paid at year 0, None where no price was given; all that compares with it is then None.
        outlay_parts: what it is made of, by kind.
        expected_year_kwh: first year's production, less the places that faulty panels leave empty.
        years_kept: the years of the account, the smaller of the stay and the years asked; a begun year in part.
        saving_first_year: at today's price, un-aged.
        least_by_import_price: what of the saving moves with the price of a kWh bought, in the poorest year kept. Below
            nought a dearer kWh lowers the saving: the inverter draws more by night than the set spares, or the
            meter bills what is sent out. Nought where it is above that in all years.
        netted_by: by which conventions surplus is netted where prices differ: ``registers``, ``unlike_prices``.
        simple_payback_years: outlay over the first year's saving less running cost, whether within the years or not;
            a member is None where there is no saving.
        cautious_gains: what the cautious simple payback adds up: the saving less running cost of each year; the last
            goes on.
        cautious_more: what the cautious case pays more than ``outlay``, where that is a guess.
        undiscounted_payback_years, discounted_payback_years: first crossing of the running sum within the years kept; a
            member is None where there is none. A sale at the end counts only where the savings alone do not do it: then
            it is the end of the years kept.
        lasting_payback_years: the discounted crossing that no later cost undoes.
        paid_by_selling: is the middle's lasting one that of the sale?
        net_present_value: over the years kept, resale in.
        internal_rate_of_return_share: of the middle, where there is exactly one; all of them in
            ``internal_rates_of_return``.
        levelised_cost_per_kwh: present value of costs less resale, over that of the energy produced.
        worth_up_to: the most outlay that is paid back for good within the years kept, what its sale brings counted.
        break_even: the same for accounts that end after 3, 5, 8, 10 years, as far as the set is kept so long, and
            after the years kept.
        sensitivity: what a step of each cause does to the payback, the largest effect first.
        yearly_flows: year 0 on.
        if_moving_after_years: None where the stay is open or no price was given.
    """

    outlay: float | None
    outlay_parts: OutlayParts | None
    expected_year_kwh: float
    years_kept: float
    saving_first_year: Band
    least_by_import_price: float
    netted_by: tuple[str, ...] = ()
    simple_payback_years: Band | None
    cautious_gains: tuple[float, ...] = ()
    cautious_more: float = 0.0
    undiscounted_payback_years: Band | None
    discounted_payback_years: Band | None
    lasting_payback_years: Band | None
    paid_by_selling: bool = False
    net_present_value: Band | None
    internal_rate_of_return_share: float | None
    internal_rates_of_return: tuple[float, ...]
    levelised_cost_per_kwh: float | None
    worth_up_to: Band
    break_even: tuple[BreakEven, ...]
    sensitivity: tuple[Sensitivity, ...]
    yearly_flows: tuple[YearFlow, ...]
    if_moving_after_years: Moving | None
