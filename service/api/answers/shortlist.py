"""Which of these adverts should I ring up first?"""

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from service.api.answers.question import dated
from service.api.answers.shortlist_found import Found, found_of
from service.api.answers.shortlist_home import ShortlistHome
from service.api.answers.shortlist_remarks import odd_in_all
from service.api.answers.shortlist_set import ListedSet, new_set
from service.api.answers.shortlist_told import ToldAdvert, at_hand_offers, told_adverts
from service.api.deps import Deps
from service.api.schemas.adverts import AdvertDoubtOut, AdvertReadingOut
from service.api.schemas.assumption import assumptions_out
from service.api.schemas.band import KwhBandOut, MoneyBandOut, YearsBandOut
from service.api.schemas.finding import sentence_of
from service.api.schemas.pause import no_garbage_looked_for
from service.api.schemas.reading import read_body
from service.api.schemas.shortlist import ShortlistIn
from service.api.schemas.shortlist_out import (
    MOST_ALTERNATIVES,
    AdvertOfListOut,
    AgainstNewOut,
    AskOut,
    BidOut,
    DoubleOut,
    FindingOfSetOut,
    ListedSetOut,
    NewSetOut,
    PanelsOfSetOut,
    QuestionToCallerOut,
    SaidOfSetOut,
    ShortlistOut,
)
from service.api.words import say
from service.core.model.assumption import Assumption, Assumptions
from service.core.model.finding import Fact, Finding, Verdict
from service.core.shortlist import (
    FIT_GROUPS,
    LIKELY_DOES_NOT_FIT,
    LIKELY_FITS,
    NEARLY,
    NEVER,
    Bid,
    Candidate,
    Left,
    Offer,
    Taken,
    as_good_at,
    beside,
    bids_of,
    bound_by,
    bounded,
    doubles_of,
    most_for,
    most_rows,
    only_untold,
    questions_of,
    rows_at_most,
)
from service.core.shortlist.screen import ENOUGH_THAT_FIT, JOINED_PANELS, LOOKED_INVERTERS, LOOKED_PANELS

_LIMIT = 10


def adverts_shortlist(body: bytes, deps: Deps) -> ShortlistOut:
    """The answer of /v1/adverts/shortlist."""
    return shortlist_of(read_body(ShortlistIn, body), deps)


def shortlist_of(request: ShortlistIn, deps: Deps) -> ShortlistOut:
    """The same of a request that was read; thousands of sets come and go on the way, none of them in a circle."""
    with no_garbage_looked_for():
        return _shortlist_of(request, deps)


def _shortlist_of(request: ShortlistIn, deps: Deps) -> ShortlistOut:
    home = ShortlistHome.of(request, deps)
    adverts, currency = told_adverts(request, home, deps)
    offered = [one.found.offer for one in adverts if isinstance(one.found, Taken)]
    doubles = doubles_of(offered)
    offers = [*at_hand_offers(request, home), *(one for one in offered if one.name not in doubles)]
    found = found_of(home, offers, request.limit or _LIMIT, doubles)
    new = new_set(request, home)
    by_name = {one.told.advert: one for one in adverts}
    ranks = _ranks(found)
    return ShortlistOut(
        shortlist=[
            _set_out(rank, one, by_name, new, found, deps) for rank, one in enumerate(found.listed, start=1)
        ],
        adverts=[_advert_out(one, ranks, found) for one in adverts],
        new_from_shop=None if new is None else _new_out(new),
        ranked_by=home.terms.wish,
        notes=[
            _said(f"note.{code}", code, facts)
            for code, facts in _notes(request, home, offers, found, new, currency)
        ],
        questions=[
            QuestionToCallerOut(code=code, pointer=pointer, text=say("shortlist", f"question.{code}", facts))
            for code, pointer, facts in _questions(request, home, adverts, new)
        ],
        sets_looked_at=found.sets,
        currency=currency,
        **dated(home.as_of, deps),
    )  # fmt: skip


def _ranks(found: Found) -> dict[str, int]:
    """The best rank of each advert, its doubles with it."""
    ranks: dict[str, int] = {}
    for rank, one in enumerate(found.listed, start=1):
        for advert in one.candidate.adverts:
            ranks.setdefault(advert, rank)
    return ranks | {double: ranks[lead] for double, lead in found.doubles.items() if lead in ranks}


def _panels_out(candidate: Candidate) -> list[PanelsOfSetOut]:
    return [
        PanelsOfSetOut(
            advert=candidate.panels[on.kind].offer.advert, place=on.place, input=on.index + 1, count=on.count,
            joined="parallel" if on.joined == "parallel" else "series",
        )
        for on in candidate.layout
    ]  # fmt: skip


def _set_out(
    rank: int,
    one: ListedSet,
    adverts: Mapping[str, ToldAdvert],
    new: ListedSet | None,
    found: Found,
    deps: Deps,
) -> ListedSetOut:
    candidate, row, home = one.candidate, one.row, found.home
    mine = [adverts[name] for name in candidate.adverts]
    doubles = {double: lead for double, lead in sorted(found.doubles.items()) if lead in candidate.adverts}
    told = [*mine, *(adverts[name] for name in doubles)]
    doubts = list(dict.fromkeys(code for advert in told for code in advert.doubts))
    gave_way = found.gave_way.get(rank, ())
    against = None if new is None else beside(
        row, new.row, home.terms.wish, doubts, one_currency=not _currencies_differ(adverts.values()),
        new_untold=only_untold(new.compatibility.findings),
    )  # fmt: skip
    most = None if one.worth_up_to is None else most_for(one.worth_up_to, against)
    ceiling = None if new is None or new.row.refused else new.row.outlay
    bids = [] if most is None else bids_of(
        candidate.bought, most, row.outlay, home.costs.faulty_share, ceiling, _beside_others(one, found)
    )  # fmt: skip
    goods_up_to = None if most is None else bounded(
        most - row.outlay + sum(bought.goods for bought in candidate.bought), ceiling
    )  # fmt: skip
    held = None if goods_up_to is None or one.worth_up_to is None else bound_by(
        one.worth_up_to, goods_up_to, against, ceiling
    )  # fmt: skip
    year = row.year_kwh.middle
    return ListedSetOut(
        rank=rank,
        adverts=list(candidate.adverts),
        doubles=[DoubleOut(advert=double, double_of=lead) for double, lead in doubles.items()],
        panels=_panels_out(candidate),
        inverter=candidate.inverter.advert,
        outlay=row.outlay,
        **_bands(one),
        outlay_per_kwh=row.outlay / year if year else None,
        verdict=row.verdict,
        likely=row.likely,
        fit_group=FIT_GROUPS[one.fit],
        fit_text=_fit_text(one, found),
        by_part={str(part): verdict for part, verdict in one.compatibility.by_part.items()},
        findings=[
            FindingOfSetOut(code=f.code, verdict=f.verdict, likely=f.likely, text=sentence_of(f))
            for f in one.compatibility.findings if f.verdict != Verdict.FITS
        ],
        bid_up_to=goods_up_to,
        bid_because=None if held is None else _said(f"bid.{held}", held, {}),
        bids=[BidOut.from_core(bid, left_over=bid.left_over, left_over_text=_left_over(bid)) for bid in bids],
        against_new=None if against is None else AgainstNewOut.from_core(
            against, text=say("shortlist", f"against.{against.code}")
        ),
        doubts=_doubts_out(doubts),
        ask=list(_asks(one, mine, deps)),
        assumptions=assumptions_out(Assumptions.of(_assumed(one, adverts))),
        alternatives=[list(other.adverts) for other in gave_way[:MOST_ALTERNATIVES]],
        alternative_count=len(gave_way),
        request=one.request,
    )  # fmt: skip


def _currencies_differ(adverts: Iterable[ToldAdvert]) -> bool:
    """Were adverts left out for another currency than that of most, so that nobody knows the caller's own?"""
    return any(isinstance(one.found, Left) and one.found.code == "currency_unlike_most" for one in adverts)


def _fit_text(one: ListedSet, found: Found) -> str:
    """What its group means for it: behind others only where others stand before it; and what it hangs on."""
    better = one.fit > min(other.fit for other in found.listed)
    text = say("shortlist", f"fit.{FIT_GROUPS[one.fit]}{'' if better else '.none_better'}")
    missing = one.hangs_on if one.fit == LIKELY_DOES_NOT_FIT else ""
    return f"{text} {say('shortlist', 'fit.hangs_on', {'missing': missing})}" if missing else text


def _beside_others(one: ListedSet, found: Found) -> dict[str, float | None]:
    """Of each advert the outlay at which its set does as well as the best that is listed without it.

    What fits worse than the set, or smells of a trick where the set does not, is nothing to haggle with.
    """
    home, bounds = found.home, {}
    as_sound = [other for other in found.listed if other.behind <= one.behind]
    for advert in one.candidate.adverts:
        other = next((other for other in as_sound if advert not in other.candidate.adverts), None)
        bounds[advert] = None if other is None else as_good_at(one.row, other.row, home.terms.wish)
    return bounds


def _doubts_out(codes: Iterable[str]) -> list[AdvertDoubtOut]:
    return [AdvertDoubtOut(code=code, text=say("adverts", f"doubt.{code}")) for code in codes]


def _left_over(bid: Bid) -> str | None:
    """That some of what is paid for is not used."""
    if not bid.left_over:
        return None
    key = "left_over.one" if bid.left_over == 1 else "left_over"
    return say("shortlist", key, {"left": bid.left_over, "must_take": bid.must_take, "pieces": bid.pieces})


def _bands(one: ListedSet) -> dict[str, Any]:
    """Energy, payback and value of a set."""
    row = one.row
    return {
        "year_kwh": KwhBandOut.from_core(row.year_kwh),
        "simple_payback_years": None if row.payback_years is None else YearsBandOut.from_core(row.payback_years),
        "net_present_value": None if row.value is None else MoneyBandOut.from_core(row.value),
    }


def _asks(one: ListedSet, adverts: Sequence[ToldAdvert], deps: Deps) -> Iterable[AskOut]:
    told = {ad.told.advert: ad.found.asks for ad in adverts if isinstance(ad.found, Taken)}
    languages = {ad.told.advert: ad.language for ad in adverts}
    two_sided = [ad.told.advert for ad in adverts if ad.told.bifacial]
    for advert, code in questions_of(one.candidate, one.compatibility.findings, told, two_sided):
        texts = deps.seller_questions[code]
        language = languages[advert] if languages[advert] in texts else "en"
        yield AskOut(
            advert=advert, code=code, text=say("shortlist", f"ask.{code}"), seller_language=language,
            seller_text=texts[language],
        )  # fmt: skip


def _assumed(one: ListedSet, adverts: Mapping[str, ToldAdvert]) -> Iterable[Assumption]:
    """What was taken of the adverts of a set."""
    for bought in one.candidate.bought:
        if bought.offer.advert is not None:
            yield from adverts[bought.offer.advert].assumed(bought, 1 + max(on.index for on in one.candidate.layout))


def _new_out(new: ListedSet) -> NewSetOut:
    row = new.row
    return NewSetOut(
        outlay=row.outlay,
        panels=sum(on.count for on in new.candidate.layout),
        **_bands(new),
        verdict=row.verdict,
        likely=row.likely,
        request=new.request,
    )


def _advert_out(one: ToldAdvert, ranks: Mapping[str, int], found: Found) -> AdvertOfListOut:
    rank = ranks.get(one.told.advert)
    because = None if rank is not None else _because(one.found, found)
    return AdvertOfListOut(
        advert=one.told.advert,
        reading=None if one.reading is None else AdvertReadingOut.of(one.told.advert, one.reading),
        best_set=rank,
        double_of=found.doubles.get(one.told.advert),
        because=None if because is None else _said(f"because.{because.code}", because.code, because.facts),
        doubts=_doubts_out(one.doubts),
        remarks=[_said(f"remark.{code}", code, facts) for code, facts in one.remarks],
    )


def _said(key: str, code: str, facts: Mapping[str, Any]) -> SaidOfSetOut:
    return SaidOfSetOut(code=code, facts=dict(facts), text=say("shortlist", key, facts))


def _because(one: Taken | Left, found: Found) -> Left:  # noqa: PLR0911 - a row of reasons
    if isinstance(one, Left):
        return one
    offer = one.offer
    if offer.name in found.doubles:
        return Left(code="double", facts={"of": found.doubles[offer.name]})
    best = found.best.get(offer.name)
    if best is not None:
        return _behind_the_listed(best, found)
    if offer.inverter is None and not found.screen.inverters:
        return Left(code="no_inverter")
    if offer.panel is None and not found.screen.panels:
        return Left(code="no_panels")
    screen = found.screen
    if offer.name not in screen.passed_over and offer.panel is not None and offer.panel.key in screen.without_curve:
        return Left(code="no_curve")
    if not screen.has_room_for(offer):
        return Left(code="no_room")
    refusal = None if offer.name in screen.passed_over else screen.refusal_of(offer)
    if refusal is not None:
        return _by(refusal, "does_not_fit")
    if offer.panel is None and all(one.panel and one.panel.key in screen.without_curve for one in screen.panels):
        return Left(code="others_without_curve")
    place, of = screen.places.get(offer.name, (1, 1))
    return Left(code="not_looked_at", facts={"place": place, "of": of})


def _behind_the_listed(best: Candidate, found: Found) -> Left:
    """Why the best set of an advert is not listed."""
    if best.adverts in found.refused:
        finding = found.refused[best.adverts]
        return Left(code="no_curve") if finding is None else _by(finding, "refused")
    if best.rough == NEVER:
        return Left(code="never_pays")
    rank = next((rank for rank, others in found.gave_way.items() if best in others), None)
    if rank is not None:
        return Left(code="alternative", facts={"set": rank})
    return Left(code="behind_for_doubts" if best.tricky else "ranks_below")


def _by(finding: Finding, code: str) -> Left:
    sentence = sentence_of(finding)
    return Left(code=code, facts={"finding_code": finding.code, "finding": sentence[:1].upper() + sentence[1:]})


def _notes(
    request: ShortlistIn,
    home: ShortlistHome,
    offers: Sequence[Offer],
    found: Found,
    new: ListedSet | None,
    currency: str | None,
) -> Iterable[tuple[str, dict[str, Fact]]]:
    best_fit = min((one.fit for one in found.listed), default=LIKELY_FITS)
    if best_fit != LIKELY_FITS:
        yield "none_likely_fits" if best_fit == LIKELY_DOES_NOT_FIT else "all_refused", {}
    yield "order", {
        "rows": most_rows(found.limit), "most": rows_at_most(found.limit), "nearly_pct": round(100 * (NEARLY - 1)),
    }  # fmt: skip
    if found.doubles:
        yield "doubles", {"adverts": len(found.doubles)}
    if home.currency is None:
        yield "no_price_known", {}
    if home.currency is None and currency is not None:
        yield "currency_of_most", {"currency": currency}
    yield from _notes_on_new(new)
    if not home.costs.per_km and any(advert.distance_km for advert in request.adverts):
        yield "fetching_is_free", {}
    if sum(1 for offer in offers if offer.panel and not offer.inverter) > JOINED_PANELS:
        yield "joined", {"most": JOINED_PANELS}
    if found.screen.passed_over:
        yield "looked_at", {
            "panels": LOOKED_PANELS, "inverters": LOOKED_INVERTERS, "enough": ENOUGH_THAT_FIT,
            "left": len(found.screen.passed_over),
        }  # fmt: skip
    if any(offer.tricky for offer in offers):
        yield "tricks_behind", {}
    yield from odd_in_all(request, home.question.deps.advert_words.small.saint)
    if any(place.count is None for place in request.places or ()) or request.places is None:
        yield "room_assumed", {}


def _notes_on_new(new: ListedSet | None) -> Iterable[tuple[str, dict[str, Fact]]]:
    if new is None:
        yield "no_new_set", {}
    elif new.row.refused:
        yield "new_does_not_fit", {}
    elif new.hangs_on:
        yield "new_hangs_on", {"missing": new.hangs_on}


def _questions(
    request: ShortlistIn, home: ShortlistHome, adverts: Sequence[ToldAdvert], new: ListedSet | None
) -> Iterable[tuple[str, str, dict[str, Fact]]]:
    """What the caller could tell that would move the list, where in the request it belongs, and facts to say it by."""
    if request.new_from_shop is None:
        yield "new_set", "/new_from_shop", {}
    if new is not None and new.hangs_on:
        yield "new_ratings", "/new_from_shop", {"missing": new.hangs_on}
    if home.currency is None:
        yield "tariff", "/tariff", {}
    if request.places is None or any(place.count is None for place in request.places):
        yield "room", "/places", {}
    far = next((one for one in adverts if isinstance(one.found, Taken) and one.found.way_untold), None)
    if far is not None:
        yield "distance", far.way, {"advert": far.told.advert}
    if not home.costs.per_km and any(advert.distance_km for advert in request.adverts):
        yield "fetching", "/outlay/fetching_per_km", {}
