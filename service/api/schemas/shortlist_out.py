"""How is a shortlist answered: sets in order, and for every advert what became of it?"""

from typing import Annotated, Any, Literal

from pydantic import Field
from pydantic.json_schema import WithJsonSchema

from service.api.schemas import rounding as r
from service.api.schemas.adverts import MOST_COMPARED, AdvertDoubtOut, AdvertReadingOut
from service.api.schemas.assumption import AssumptionOut
from service.api.schemas.band import KwhBandOut, MoneyBandOut, YearsBandOut
from service.api.schemas.base import Code, Facts, Out, Text
from service.core.model.bounds import BOUNDS
from service.core.model.finding import Verdict

MOST_LISTED = int(BOUNDS["limit"].high)
MOST_ALTERNATIVES = 5

AdvertName = Annotated[str, Field(max_length=80)]


class SaidOfSetOut(Out):
    """A code and its sentence."""

    code: Code
    facts: Facts
    text: Text


class AskOut(Out):
    """A question to put to the seller: in English, and in the language of the advert."""

    advert: str = Field(max_length=80)
    code: Code
    text: Text
    seller_language: str = Field(max_length=3)
    seller_text: Text


class PanelsOfSetOut(Out):
    """Panels on one input: which, how many, at which place of the request (from 0)."""

    advert: str | None = Field(max_length=80, description="Null where they are at hand.")
    place: int = Field(ge=0)
    input: int = Field(ge=1, le=8)
    count: int = Field(ge=1)
    joined: Literal["series", "parallel"]


class BidOut(Out):
    """The most that an advert's goods are worth in this set, all else at the price asked."""

    advert: str = Field(max_length=80)
    pieces: int = Field(ge=1, description="Used of it in this set.")
    must_take: int = Field(
        ge=1, description="So many have to be taken and are paid for: a lot, and the fewest that are sold, whole."
    )
    left_over: int = Field(ge=0, description="Paid for and not used here; it counts for nothing.")
    left_over_text: Text | None = Field(description="That some are left over; null where none are.")
    asked: r.Money = Field(description="What is asked for all that have to be taken, undelivered.")
    bid_up_to: r.Money = Field(description="What holds it is told in the set's `bid_because`.")
    beside_others: r.Money | None = Field(
        description="Dearer than that, the best set listed here without this advert does better by what `ranked_by` "
        "wants: the price to haggle for. No set counts that fits worse, or smells of a trick where this one does not. "
        "Null where there is none, or where it sets no bound."
    )


class DoubleOut(Out):
    """An advert that is another one of the set once more: the same goods, number and price."""

    advert: str = Field(max_length=80)
    double_of: str = Field(max_length=80)


class QuestionToCallerOut(Out):
    """What you could tell that would move the list, and where in the request it belongs."""

    code: Code
    pointer: str = Field(description="RFC 6901 pointer to what the request lacks.", max_length=200)
    text: Text


class FindingOfSetOut(Out):
    """A finding that is not `fits`; `/v1/compatibility` tells what would mend it."""

    code: Code
    verdict: Verdict
    likely: Verdict
    text: Text


class AgainstNewOut(Out):
    """The set beside the new one from a shop."""

    code: Code
    text: Text
    outlay_less: r.Money
    year_kwh_more: r.Kwh
    payback_years_sooner: r.YearsLong | None
    value_more: r.Money | None
    paid_at_most: r.Money | None = Field(
        description="For the whole set: dearer than that, the new one does better by what `ranked_by` wants."
    )


class NewSetOut(Out):
    """The new set from a shop, at this home."""

    outlay: r.Money
    panels: int = Field(ge=1, le=8)
    year_kwh: KwhBandOut
    simple_payback_years: YearsBandOut | None
    net_present_value: MoneyBandOut | None
    verdict: Verdict
    likely: Verdict
    request: Annotated[dict[str, Any], WithJsonSchema({"$component": "AppraisalIn"})]


class ListedSetOut(Out):
    """A set, its figures being those of an appraisal of `request`. Money is null where no price per kWh is known."""

    rank: int = Field(ge=1)
    adverts: list[str] = Field(max_length=3)
    doubles: list[DoubleOut] = Field(max_length=MOST_COMPARED)
    panels: list[PanelsOfSetOut] = Field(max_length=8)
    inverter: str | None = Field(max_length=80, description="The advert of the inverter; null where it is at hand.")
    outlay: r.Money = Field(description="Delivered, with all that comes with it.")
    year_kwh: KwhBandOut
    simple_payback_years: YearsBandOut | None
    net_present_value: MoneyBandOut | None
    outlay_per_kwh: r.MoneyPerKwh | None = Field(description="Outlay for each kWh of a year.")
    verdict: Verdict
    likely: Verdict = Field(description="With the worst values of the class where ratings were assumed.")
    fit_group: Literal["likely_fits", "likely_does_not_fit", "does_not_fit"] = Field(
        description="Sets are listed in the order of these groups: nothing speaks against it, or only what nobody "
        "knows; refused with the worst values of the class; refused, which can be mended."
    )
    fit_text: Text = Field(description="What that group means for it, and for its rank; what it hangs on.")
    by_part: dict[str, Verdict]
    findings: list[FindingOfSetOut] = Field(max_length=100)
    bid_up_to: r.Money | None = Field(description="The most that all its adverts together are worth here.")
    bid_because: SaidOfSetOut | None = Field(
        description="What holds the bids: the price of a new set, being as good as that, or, where none was named, "
        "nothing but what the set earns back. Null where there is no bid."
    )
    bids: list[BidOut] = Field(max_length=3)
    against_new: AgainstNewOut | None
    doubts: list[AdvertDoubtOut] = Field(max_length=120)
    ask: list[AskOut] = Field(max_length=60)
    assumptions: list[AssumptionOut] = Field(
        max_length=20,
        description="What was taken of its adverts where nobody told, beside what an appraisal of `request` fills in: "
        "what getting it costs (part of `outlay`; what sending costs is in the currency of the "
        "answer), how many there are, what the price is for, how many inputs the inverter has. What is true belongs at "
        "the pointer; of an advert that came as text, in a reading that is sent instead.",
    )
    alternatives: list[Annotated[list[AdvertName], Field(max_length=3)]] = Field(
        max_length=MOST_ALTERNATIVES,
        description="The adverts of the first sets that do as well as sets listed here and share adverts with this "
        "one: they gave way, so that no advert fills the list.",
    )
    alternative_count: int = Field(ge=0, description="How many such sets there are.")
    request: Annotated[dict[str, Any], WithJsonSchema({"$component": "AppraisalIn"})] = Field(
        description="To be sent to `/v1/appraisal`, which tells the same figures and more."
    )


class AdvertOfListOut(Out):
    """What became of an advert."""

    advert: str = Field(max_length=80)
    reading: AdvertReadingOut | None = Field(description="Null where it came read.")
    best_set: int | None = Field(
        ge=1, description="Rank of the best set that it, or what it is a double of, is in; null where it is in none."
    )
    double_of: str | None = Field(max_length=80, description="The advert that it is once more; null: of none.")
    because: SaidOfSetOut | None = Field(description="Why it is in none.")
    doubts: list[AdvertDoubtOut] = Field(max_length=40, description="About it, listed or not.")
    remarks: list[SaidOfSetOut] = Field(max_length=5, description="What of it was passed over.")


class _Shortlist(Out):
    shortlist: list[ListedSetOut] = Field(max_length=MOST_LISTED)
    adverts: list[AdvertOfListOut] = Field(max_length=MOST_COMPARED, description="In the order of the request.")
    new_from_shop: NewSetOut | None
    ranked_by: Literal["quick_payback", "most_value", "least_outlay_per_kwh"]
    notes: list[SaidOfSetOut] = Field(max_length=20)
    questions: list[QuestionToCallerOut] = Field(max_length=10)
    sets_looked_at: int = Field(ge=0)


class ShortlistOut(_Shortlist):
    """Which of these adverts should I ring up first?"""

    currency: str | None = Field(
        max_length=3,
        description="Of all amounts of the answer: of the tariff, or, where no price per kWh is known, of most adverts "
        "(see `notes`); adverts in another are left out. Null where nobody names any: then amounts are as told.",
    )
    as_of: str = Field(description="The day for which dated rules and prices were read.", max_length=10)
    service_version: str = Field(max_length=30)
    data_version: str = Field(max_length=30)
