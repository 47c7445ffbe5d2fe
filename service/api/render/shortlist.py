"""How does a shortlist read on paper? Whom to ring up first and what to ask, then what became of the other adverts."""

from collections.abc import Iterator, Sequence

from service.api.render.notes import assumption_texts
from service.api.render.sheet import Item, Section, Sheet, listed
from service.api.schemas.band import KwhBandOut, MoneyBandOut, YearsBandOut
from service.api.schemas.rounding import for_people
from service.api.schemas.shortlist_out import (
    AdvertOfListOut,
    BidOut,
    FindingOfSetOut,
    ListedSetOut,
    NewSetOut,
    PanelsOfSetOut,
    ShortlistOut,
)
from service.core.model.finding import Verdict

_WISHES = {
    "quick_payback": "By the shortest payback in the cautious case.",
    "most_value": "By the most value over the years.",
    "least_outlay_per_kwh": "By the least outlay for each yearly kWh.",
}
# Notes that say what holds for each set of the list: they stand above it.
_OF_ALL_SETS = frozenset(("none_likely_fits", "all_refused"))
_FITS = {
    Verdict.DOES_NOT_FIT: "DOES NOT FIT", Verdict.NOT_KNOWN: "FIT NOT KNOWN", Verdict.FITS_WITH_LOSS: "FITS, WITH LOSS",
    Verdict.FITS: "FITS",
}  # fmt: skip


def shortlist_sheet(answer: ShortlistOut) -> Sheet:
    """The whole answer, made of nothing but the answer."""
    money = answer.currency or "money"
    others = tuple(_other(one) for one in answer.adverts if one.because is not None or one.remarks)
    new = answer.new_from_shop
    sets = tuple(_set(one, money) for one in answer.shortlist)
    of_all = tuple(one.text for one in answer.notes if one.code in _OF_ALL_SETS)
    empty = () if sets else ("No set can be built of these adverts that could be had.",)
    return Sheet(
        title="Which adverts to ring up first",
        sections=(
            Section("The sets, the best first", sets, True, (_WISHES[answer.ranked_by], *empty, *of_all)),
            Section("The same, new, from a shop", paragraphs=() if new is None else (_new(new, money),)),
            Section("The other adverts", others),
            Section("What you could tell", listed(one.text for one in answer.questions)),
            Section("How it was done", listed(one.text for one in answer.notes if one.code not in _OF_ALL_SETS)),
        ),
        foot=f"{answer.sets_looked_at} sets were looked at. As of {answer.as_of}. Sunsill {answer.service_version}, "
        f"tables {answer.data_version}. Information, not advice on the law, and no substitute for an electrician.",
    )


def _set(one: ListedSetOut, money: str) -> Item:
    return Item(
        f"{one.outlay:.0f} {money}, {_years(one.simple_payback_years)}. {_fits(one.verdict, one.likely)}.",
        " + ".join(one.adverts),
        tuple(_about(one, money)),
    )


def _about(one: ListedSetOut, money: str) -> Iterator[Item]:
    yield Item("; ".join(map(_hung, one.panels)) + ".", "Panels")
    yield Item(f"{_kwh(one.year_kwh)} kWh a year{_value(one.net_present_value, money)}.", "What it gives")
    if one.bids:
        held = () if one.bid_because is None else (Item(one.bid_because.text),)
        yield Item("", "What to bid", (*(_bid(bid, money) for bid in one.bids), *held))
    if one.against_new is not None:
        yield Item(one.against_new.text, "Beside the new one")
    if one.findings:
        yield Item(one.fit_text, "Fit", tuple(_findings(one.findings)))
    if one.doubts:
        yield Item("", "Doubts", listed(doubt.text for doubt in one.doubts))
    if one.ask:
        asked = (
            Item(ask.text, ask.advert, (Item(ask.seller_text, language=ask.seller_language),) if
                 ask.seller_language != "en" else ())
            for ask in one.ask
        )  # fmt: skip
        yield Item("", "Ask the seller", tuple(asked))
    if one.doubles:
        yield Item(", ".join(f"{double.advert} is {double.double_of}" for double in one.doubles), "Told twice")
    if one.assumptions:
        yield Item("", "Assumed", listed(assumption_texts(one.assumptions, money)))
    if one.alternatives:
        more = one.alternative_count - len(one.alternatives)
        sets = ", ".join(" + ".join(other) for other in one.alternatives)
        yield Item(f"{sets}{f' and {more} more' if more else ''}.", "If that is gone")


def _findings(findings: Sequence[FindingOfSetOut]) -> Iterator[Item]:
    """Of those that inputs share the first, with how many there are."""
    alike: dict[tuple[str, str, str], list[FindingOfSetOut]] = {}
    for found in findings:
        alike.setdefault((found.verdict, found.likely, found.code), []).append(found)
    for several in alike.values():
        often = f" (So on {len(several)} inputs.)" if len(several) > 1 else ""
        yield Item(f"{_fits(several[0].verdict, several[0].likely)}: {several[0].text}{often}")


def _fits(verdict: Verdict, likely: Verdict) -> str:
    """The verdict, and that it is likely a refusal where it is none yet."""
    refused = likely == Verdict.DOES_NOT_FIT != verdict
    return f"{_FITS[verdict]}, LIKELY DOES NOT FIT" if refused else _FITS[verdict]


def _hung(panels: PanelsOfSetOut) -> str:
    joined = "" if panels.count == 1 else f" in {panels.joined}"
    whose = "at hand" if panels.advert is None else f"of {panels.advert}"
    return f"{panels.count} {whose}{joined} at place {panels.place + 1}, on input {panels.input}"


def _bid(bid: BidOut, money: str) -> Item:
    others = "" if bid.beside_others is None else (
        f"; above {bid.beside_others:.0f} the best set here without it does better"
    )  # fmt: skip
    left = "" if bid.left_over_text is None else f". {bid.left_over_text}"
    return Item(
        f"asked {bid.asked:.0f} {money} for {bid.must_take}, up to {bid.bid_up_to:.0f}{others}{left}", bid.advert
    )


def _new(new: NewSetOut, money: str) -> str:
    return (
        f"{new.outlay:.0f} {money} for {new.panels} panel{'s' if new.panels > 1 else ''} and an inverter: "
        f"{_kwh(new.year_kwh)} kWh a year, {_years(new.simple_payback_years)}{_value(new.net_present_value, money)}. "
        f"{_fits(new.verdict, new.likely)}."
    )


def _other(one: AdvertOfListOut) -> Item:
    texts = [*(() if one.because is None else (one.because.text,)), *(remark.text for remark in one.remarks)]
    doubts = (Item("", "Doubts", listed(doubt.text for doubt in one.doubts)),) if one.doubts else ()
    return Item(" ".join(texts), one.advert, doubts)


def _kwh(band: KwhBandOut) -> str:
    middle = for_people(band.middle, band.cautious, band.hopeful)
    return f"{middle} ({for_people(band.cautious)} to {for_people(band.hopeful)})"


def _years(band: YearsBandOut | None) -> str:
    if band is None:
        return "no payback is known"
    if band.middle is None:
        return "not paid back in the middle case"
    cautious = "never" if band.cautious is None else f"{band.cautious:.1f}"
    return f"paid back in {band.middle:.1f} years ({cautious} in the cautious case)"


def _value(band: MoneyBandOut | None, money: str) -> str:
    if band is None:
        return ""
    return f", worth {band.middle:.0f} {money} over the years ({band.cautious:.0f} in the cautious case)"
