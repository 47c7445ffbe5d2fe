"""How is the money answered: the saving, when it is paid back, what may be paid at most?"""

from collections.abc import Iterator, Mapping
from functools import lru_cache
from typing import Self

from pydantic import Field

from service.api.schemas import rounding as r
from service.api.schemas.band import MoneyBandOut, YearsBandOut
from service.api.schemas.base import Code, Out, Text
from service.api.schemas.rounding import at_most, for_people
from service.api.words import say
from service.core.model.carbon import GridCarbon
from service.core.model.facts import Tariff
from service.core.model.price import HouseholdPrice
from service.core.worth import BreakEven, Sensitivity, Worth, co2_avoided_kg_per_year


class YearFlowOut(Out):
    """One year of the account, in the middle case."""

    year: int = Field(ge=0, le=50)
    saving: r.Money = Field(description="What the home pays less; what the inverter draws by night is taken off.")
    cost: r.Money
    resale: r.Money
    unpaid: r.Money = Field(description="What of all costs is still to be earned after this year.")


class TariffNoteOut(Out):
    """Something odd about the tariff that turns usual rules of thumb round."""

    code: Code
    text: Text


class MovingOut(Out):
    """What is left when the home is given up after so many years."""

    years: r.YearsKept = Field(ge=0, le=50)
    gain: MoneyBandOut


class OutlayPartsOut(Out):
    """What is paid before the set runs, by kind."""

    things: r.Money = Field(description="The items, rebates taken off.")
    freight: r.Money
    fetching: r.Money = Field(description="Driving there and back, and your hours where you give them a price.")
    registration: r.Money
    second_hand_risk: r.Money = Field(description="Panels expected to prove faulty, bought once more.")
    rebates: r.Money = Field(description="Rebates and subsidies: the items below nought, taken off `things` already.")


class CrossingsOut(Out):
    """When the running sum, with interest, first reaches nought, and when for good; the middle case."""

    code: Code
    text: Text
    first_years: r.YearsLong | None
    lasting_years: r.YearsLong | None


class RatesOfReturnOut(Out):
    """Is there a rate of return: none, one, several?"""

    code: Code
    text: Text


class BreakEvenOut(Out):
    """The most outlay that is paid back, with interest, in so many years."""

    years: r.YearsKept = Field(ge=0, le=50)
    outlay: r.Money = Field(description="In the middle case. What to bid for the set, all else paid from it too.")
    worth_up_to: MoneyBandOut
    text: Text


class SensitivityOut(Out):
    """One cause a step lower or higher, the account kept again from there; the middle case."""

    of: str = Field(description="price, yield, self_use, outlay.", max_length=60)
    change_share: r.Share
    payback_years: r.YearsLong | None = Field(description="With interest; null where not within the years kept.")
    payback_years_change: r.YearsLong | None
    net_present_value_change: r.Money
    text: Text


class CarbonOut(Out):
    """With which figure the avoided greenhouse gas was reckoned: a yearly average, or none known."""

    code: Code
    text: Text
    area: str | None = Field(description="ISO 3166 code of the country whose grid was taken.", max_length=6)
    year: int | None = Field(description="The year of the average.")
    g_co2e_per_kwh: r.Kwh | None
    source: str | None = Field(max_length=300)


class PaybackOut(Out):
    """The account. What compares with an outlay is null where none was given."""

    currency: str = Field(description="ISO 4217; all money of the answer is in it.", max_length=3)
    outlay: r.Money | None
    outlay_parts: OutlayPartsOut | None
    expected_year_kwh: r.Kwh = Field(
        description="The first year's energy that the account rests on: less what faulty panels leave empty."
    )
    years_kept: r.YearsKept = Field(
        ge=0, le=50, description="Years of the account: the stay, or the years asked if fewer; a begun year in part."
    )
    saving_first_year: MoneyBandOut = Field(description="At today's price, what the inverter draws by night taken off.")
    simple_payback_years: YearsBandOut | None = Field(description="A member is null where there is no saving.")
    undiscounted_payback_years: YearsBandOut | None = Field(
        description="A member is null where it is not within the years kept."
    )
    discounted_payback_years: YearsBandOut | None = Field(
        description="A member is null where it is not within the years kept."
    )
    lasting_payback_years: YearsBandOut | None = Field(description="The discounted one that no later cost undoes.")
    paid_by_selling: bool = Field(
        description="Is it paid back only by the sale at the end of the years kept, in the middle case?"
    )
    crossings: CrossingsOut | None
    if_moving_after_years: MovingOut | None
    net_present_value: MoneyBandOut | None
    internal_rate_of_return_share: r.Share | None = Field(description="Null where there is none, or more than one.")
    internal_rates_of_return: list[r.Share] = Field(max_length=50)
    rates_of_return: RatesOfReturnOut | None
    levelised_cost_per_kwh: r.MoneyPerKwh | None
    worth_up_to: MoneyBandOut = Field(
        description="The most outlay that is paid back for good within the years kept; where you gave a resale_share, "
        "with the sale at their end, for that share of the outlay that you stated."
    )
    break_even: list[BreakEvenOut] = Field(
        max_length=5, description="For 3, 5, 8, 10 years, as far as the set is kept so long, and the years kept."
    )
    sensitivity: list[SensitivityOut] = Field(max_length=20, description="The largest effect on the payback first.")
    co2_avoided_kg_per_year: r.Kwh | None = Field(
        description="Reckoned with a yearly average of the grid; null where the country has no figure."
    )
    co2: CarbonOut
    yearly_flows: list[YearFlowOut] = Field(max_length=51)
    notes: list[TariffNoteOut] = Field(max_length=10, description="What is odd about the tariff, and what follows.")

    @classmethod
    def of(
        cls, worth: Worth, tariff: Tariff, area: str | None, grid: GridCarbon, known: HouseholdPrice | None = None
    ) -> Self:
        """The account at its tariff, with its sentences, and the greenhouse gas at the grid of an area.

        ``known``: the area's dated price.
        """
        currency = tariff.currency
        return cls.from_core(
            worth,
            currency=currency,
            crossings=_crossings(worth),
            rates_of_return=_rates(worth),
            break_even=[_break_even(one, currency) for one in worth.break_even],
            sensitivity=[_sensitivity(one, worth, currency) for one in worth.sensitivity],
            co2_avoided_kg_per_year=co2_avoided_kg_per_year(worth.expected_year_kwh, area or "", grid),
            co2=_carbon(area, grid),
            notes=list(_notes(worth, tariff, known)),
        )


# A price so many times another is more likely a slip, of hundredths for wholes say, than a dear or cheap supplier.
_FAR = 3.0


def _notes(worth: Worth, tariff: Tariff, known: HouseholdPrice | None) -> Iterator[TariffNoteOut]:
    far = None if known is None else _far_from(known, tariff)
    if known is not None and far is not None:
        facts = {"price": far, "currency": tariff.currency, "area": known.area, "known": known.price_per_kwh,
                 "period": known.period}  # fmt: skip
        yield _note("price_far_from_area", facts)
    if _sending_out_earns_more(tariff):
        yield _note("export_above_import", {})
    yield from (_note(f"netted_by_{code}", {}) for code in worth.netted_by)
    lost = -worth.least_by_import_price
    if lost > _ROUNDING:
        facts = {"lost": for_people(max(lost / 10.0, 0.01)), "currency": tariff.currency}
        yield _note("dearer_costs", facts, ".negative" if _pays_for_drawing(tariff) else "")


def _note(code: str, facts: Mapping[str, object], case: str = "") -> TariffNoteOut:
    return TariffNoteOut(code=code, text=say("payback", f"note.{code}{case}", facts))


def _far_from(known: HouseholdPrice, tariff: Tariff) -> float | None:
    """The first period's price of a kWh bought that is far from what is known; None where none is."""
    if known.currency != tariff.currency:
        return None
    near = known.price_per_kwh / _FAR, known.price_per_kwh * _FAR
    prices = (period.import_price_per_kwh for period in tariff.periods)
    return next((price for price in prices if not near[0] <= price <= near[1]), None)


def _pays_for_drawing(tariff: Tariff) -> bool:
    """Is there a price of a kWh bought below nought?"""
    return any(
        price is not None and price < 0.0
        for period in tariff.periods
        for price in (
            period.import_price_per_kwh,
            *(rate.import_price_per_kwh for rate in period.rates),
            *(period.hourly.import_prices_per_kwh if period.hourly else ()),
        )
    )


def _sending_out_earns_more(tariff: Tariff) -> bool:
    """Is there a price for a kWh sent out above one that the same period has for a kWh bought?"""
    for period in tariff.periods:
        bought = [period.import_price_per_kwh, *(one.import_price_per_kwh for one in period.rates)]
        sold = [period.export_price_per_kwh, *(one.export_price_per_kwh for one in period.rates)]
        if period.hourly is not None:
            bought += period.hourly.import_prices_per_kwh
            sold += period.hourly.export_prices_per_kwh or ()
        least = min(price for price in bought if price is not None)
        if period.export != "unpaid" and any(price is not None and price > least for price in sold):
            return True
    return False


def _crossings(worth: Worth) -> CrossingsOut | None:
    if worth.discounted_payback_years is None or worth.lasting_payback_years is None:
        return None
    first, lasting = worth.discounted_payback_years.middle, worth.lasting_payback_years.middle
    if worth.paid_by_selling:
        code = "by_selling" if first == lasting else "by_selling_at_last"
    elif first is None:
        code = "not_paid_back"
    elif lasting is None:
        code = "undone"
    elif lasting > first:
        code = "paid_back_twice"
    else:
        code = "paid_back" if first > 0 else "nothing_to_pay_back"
    facts = {"first_years": first, "lasting_years": lasting, "years_kept": worth.years_kept}
    return CrossingsOut(
        code=code, text=say("payback", f"crossings.{code}", facts), first_years=first, lasting_years=lasting
    )


def _rates(worth: Worth) -> RatesOfReturnOut | None:
    if worth.outlay is None:
        return None
    rates = worth.internal_rates_of_return
    code = ("none", "one")[len(rates)] if len(rates) < 2 else "several"
    key = f"returns.{code}"
    if code == "one" and worth.outlay < 0:
        key += ".lent"
    elif code == "one" and rates[0] < 0:
        key += ".loss"
    listed = ", ".join(f"{rate:.1%}" for rate in rates)
    return RatesOfReturnOut(code=code, text=say("payback", key, {"rates": listed, "years_kept": worth.years_kept}))


def _break_even(one: BreakEven, currency: str) -> BreakEvenOut:
    band = one.worth_up_to
    most = band.middle or 0.0
    facts = {"years": one.years, "outlay": at_most(most), "currency": currency}
    key = "break_even.nothing" if most <= 0 else "break_even.sold" if one.by_selling else "break_even"
    return BreakEvenOut(
        years=one.years,
        outlay=most,
        worth_up_to=MoneyBandOut.from_core(band),
        text=say("payback", key, facts),
    )


_LEAST_MONEY = 0.005
_ROUNDING = 1e-6


def _sensitivity(one: Sensitivity, worth: Worth, currency: str) -> SensitivityOut:
    now = None if worth.discounted_payback_years is None else worth.discounted_payback_years.middle
    facts = {
        "then": one.payback_years,
        "now": now,
        "years_kept": worth.years_kept,
        "moved": for_people(abs(one.net_present_value_change)),
        "currency": currency,
    }
    then = "never" if one.payback_years is None else "after"
    before = "never" if now is None else "after"
    key = "stepped.free" if now == one.payback_years == 0 else f"stepped.{then}.{before}"
    same = then == before and f"{one.payback_years or 0.0:.1f}" == f"{now or 0.0:.1f}"
    more = one.net_present_value_change
    # no time moves that is seen, so what is left over tells them apart
    if then == before == "never" or (same and key != "stepped.free" and abs(more) >= _LEAST_MONEY):
        key += ".same" if abs(more) < _LEAST_MONEY else ".more" if more > 0 else ".less"
    text = say("payback", key, {**facts, "step": _step(one.of, one.change_share)})
    return SensitivityOut.from_core(one, text=text)


@lru_cache(maxsize=32)  # some ten in all
def _step(of: str, change_share: float) -> str:
    """A step of one cause in words."""
    key = f"step.{of}.{'less' if change_share < 0 else 'more'}"
    return say("payback", key, {"percent": abs(100 * change_share)})


def _carbon(area: str | None, grid: GridCarbon) -> CarbonOut:
    found = None if area is None else grid.of(area)
    if found is None:
        text = say("payback", "co2.not_known", {"area": area or "the place"})
        return CarbonOut(code="not_known", text=text, area=None, year=None, g_co2e_per_kwh=None, source=None)
    text = say("payback", "co2.average", {"grams": found.g_co2e_per_kwh, "area": found.area, "year": found.year})
    return CarbonOut.from_core(found, code="average", text=text, source=grid.source)
