"""What do the adverts of a shortlist, and what is at hand, offer?"""

import json
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date
from typing import Any

from service.api.answers.readings import reading_alone, readings_of
from service.api.answers.shortlist_home import ShortlistHome
from service.api.answers.shortlist_remarks import Beside, Said, known_doubts, remarks_of
from service.api.deps import Deps
from service.api.schemas.adverts import inverter_told, panel_told
from service.api.schemas.shortlist import ReadAdvertIn, ShortlistAdvertIn, ShortlistIn
from service.core.adverts import LEAST_WORDS_ALIKE, Advert, Reading, SmallWords
from service.core.completion.defaults import row_for
from service.core.model.assumption import Assumption
from service.core.model.bounds import BOUNDS
from service.core.shortlist import Bought, Left, Offer, Taken, Told, currency_of_most, places_of, taken, towns_of


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ToldAdvert:
    """An advert as it was understood; ``at``: its place in the request; ``reading`` where it came as text.

    ``remarks``: what of it was passed over, or cannot be as it was told, by code with the facts of the sentence.
    """

    at: int
    told: Told
    found: Taken | Left
    language: str
    reading: Reading | None
    remarks: tuple[Said, ...]

    @property
    def doubts(self) -> tuple[str, ...]:
        """About it, those about its offer too."""
        return self.found.doubts if isinstance(self.found, Taken) else self.told.doubts

    def assumed(self, bought: Bought, inputs: int) -> Iterator[Assumption]:
        """What was taken of it where nobody told, at its place in the request, as far as a set hangs on it.

        Args:
            bought: so many of its pieces.
            inputs: up to this one of the inverter's they are used.
        """
        if not isinstance(self.found, Taken):
            return
        for one in (self.found.getting, *self.found.assumed, _inputs_taken(bought, inputs)):
            if one is not None and (one.code != "as_many_as_wanted" or bought.pieces > 1):
                yield replace(one, pointer=one.pointer.replace("*", str(self.at)))

    @property
    def way(self) -> str:
        """Where the request tells how far it is."""
        return f"/adverts/{self.at}/distance_km"


def _inputs_taken(bought: Bought, used: int) -> Assumption | None:
    """How many inputs its inverter was taken to have; None where that was told, or only the first is used."""
    kind = bought.offer.inverter
    if kind is None or used < 2 or not kind.assumed.assumed("/inverter/input_count"):
        return None
    row = row_for("/adverts/*/reading/inverter/input_count")
    return Assumption(pointer=row.pointer, value=kind.inverter.input_count, code=row.code, source=row.source)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Trips:
    """The places that the caller names, by name, and how far away they are: the furthest that he tells of any there.

    ``small``: the words by which adverts name towns.
    """

    places: Mapping[str, str]
    km: Mapping[str, float]
    small: SmallWords

    @classmethod
    def of(cls, request: ShortlistIn, small: SmallWords) -> "_Trips":
        places, km = places_of((advert.fetched_at for advert in request.adverts), small.saint), dict[str, float]()
        for advert in request.adverts:
            place = places.get(advert.fetched_at or "")
            if place is not None and advert.distance_km is not None:
                km[place] = max(advert.distance_km, km.get(place, 0.0))
        return cls(places=places, km=km, small=small)

    def place(self, advert: ShortlistAdvertIn) -> str | None:
        """Where the advert's goods are fetched, None where the caller names no place."""
        return self.places.get(advert.fetched_at or "")


def told_adverts(request: ShortlistIn, home: ShortlistHome, deps: Deps) -> tuple[list[ToldAdvert], str | None]:
    """All adverts, in the order of the request; those that came as text are read together, as one board.

    Beside them the one currency of all amounts: that of the tariff, or of offers where it names none
    (``currency_of_most``); None where nobody names any.
    """
    texts = [advert for advert in request.adverts if advert.reading is None]
    read = iter(readings_of([_text(advert) for advert in texts], deps))
    trips = _Trips.of(request, deps.advert_words.small)
    readings = [None if advert.reading is not None else next(read) for advert in request.adverts]
    tolds = [
        _of_text(advert, reading, trips) if reading is not None else _of_reading(advert, advert.reading, trips)
        for advert, reading in zip(request.adverts, readings, strict=True)
    ]
    market = replace(home.market, currency=_currency(request, home, tolds), of_most=home.currency is None)
    found = []
    for at, (advert, reading, told) in enumerate(zip(request.adverts, readings, tolds, strict=True)):
        language = reading.language if reading is not None else _language(advert)
        offer = Left(code="nothing_told") if _tells_nothing(advert) else taken(told, market)
        found.append(
            ToldAdvert(
                at=at, told=told, found=offer, language=language, reading=reading,
                remarks=tuple(remarks_of(advert, told, _beside(advert, told, trips, deps), home.as_of)),
            )
        )  # fmt: skip
    return found, market.currency


def _currency(request: ShortlistIn, home: ShortlistHome, adverts: Iterable[Told]) -> str | None:
    if home.currency is not None:
        return home.currency
    any_money = replace(home.market, currency=None)

    def offer_of(told: Told) -> Offer | None:
        found = taken(told, any_money)
        return found.offer if isinstance(found, Taken) else None

    return currency_of_most(adverts, offer_of, list(at_hand_offers(request, home)))


def _beside(advert: ShortlistAdvertIn, told: Told, trips: _Trips, deps: Deps) -> Beside | None:
    """The text that came beside a reading, read by itself: no other advert hangs on it."""
    if advert.reading is None or not (_has_text(advert) or (advert.price_text or "").strip()):
        return None
    return Beside(text=_of_text(advert, reading_alone(_text(advert), deps), trips), reading=told)


def _tells_nothing(advert: ShortlistAdvertIn) -> bool:
    return advert.reading is None and not _has_text(advert)


def _has_text(advert: ShortlistAdvertIn) -> bool:
    return bool((advert.title or "").strip() or (advert.body or "").strip())


def at_hand_offers(request: ShortlistIn, home: ShortlistHome) -> Iterator[Offer]:
    """What is there already: panels of which the same was told together."""
    if request.at_hand is None:
        return
    if request.at_hand.inverter is not None:
        yield Offer(advert=None, inverter=home.at_hand_inverter(request.at_hand.inverter), pieces=1, panels_each=0)
    alike: dict[str, tuple[dict[str, Any], int, int]] = {}
    for at, one in enumerate(request.at_hand.panels or ()):
        given = one.given()
        key = json.dumps(given, sort_keys=True)
        first, count = (alike[key][1], alike[key][2]) if key in alike else (at, 0)
        alike[key] = (given, first, count + 1)
    for given, first, count in alike.values():
        panel = home.at_hand_panel(given, first)
        yield Offer(advert=None, panel=panel, pieces=count, second_hand=False)


def _text(advert: ShortlistAdvertIn) -> Advert:
    return Advert(
        title=advert.title or "", body=advert.body or "", price_text=advert.price_text, language=advert.language
    )


def _language(advert: ShortlistAdvertIn) -> str:
    told = advert.language or (advert.reading.language if advert.reading else None)
    return told or "und"


def _of_text(advert: ShortlistAdvertIn, reading: Reading, trips: _Trips) -> Told:
    return Told(
        advert=advert.id,
        kind=reading.kind,
        is_offer=reading.is_offer,
        pieces=reading.quantity_available,
        price=reading.price.value,
        currency=reading.price.currency,
        basis=reading.price.basis,
        condition=reading.condition,
        delivery=reading.delivery,
        shipping_cost=reading.shipping_cost,
        doubts=reading.doubts,
        panel=_panel(_within(panel_told(reading)), reading.bifacial),
        bifacial=reading.bifacial,
        inverter=_within(inverter_told(reading)),
        least=reading.least_quantity,
        towns=towns_of(_text(advert), reading, trips.small),
        **_of_caller(advert, trips, reading.panel_count),
    )


def _of_reading(advert: ShortlistAdvertIn, reading: ReadAdvertIn | None, trips: _Trips) -> Told:
    if reading is None:
        return Told(advert=advert.id, kind="other", is_offer=False)
    price, delivery = reading.price, reading.delivery
    return Told(
        advert=advert.id,
        kind=reading.kind,
        is_offer=reading.is_offer is not False,
        pieces=reading.quantity_available,
        price=None if price is None else price.value,
        currency=None if price is None else price.currency,
        basis=(price.basis if price else None) or "unknown",
        condition=reading.condition or "unknown",
        delivery=(delivery.kind if delivery else None) or "unknown",
        shipping_cost=None if delivery is None else delivery.cost,
        doubts=tuple(one.code for one in reading.doubts or () if one.code in known_doubts()),
        panel=_panel({} if reading.panel is None else reading.panel.given(), reading.bifacial),
        bifacial=reading.bifacial,
        inverter={} if reading.inverter is None else reading.inverter.given(),
        least=reading.least_quantity,
        **_of_caller(advert, trips, reading.panel_count),
    )


def _of_caller(advert: ShortlistAdvertIn, trips: _Trips, panels_in_set: int | None) -> dict[str, Any]:
    """What the caller tells; his number of panels in a set goes before that of the advert."""
    place = trips.place(advert)
    return {
        "km": trips.km.get(place or "") if advert.distance_km is None else advert.distance_km,
        "sending": advert.delivery_cost,
        "trip": place,
        "panels_in_set": advert.panel_count if advert.panel_count is not None else panels_in_set,
        "posted_on": None if advert.posted_on is None else date.fromisoformat(advert.posted_on),
        "words": _words(advert),
    }


def _words(advert: ShortlistAdvertIn) -> str | None:
    """All words of its text, without capitals and blanks; None where they are so few that others use them by chance."""
    words = " ".join((advert.title or "", advert.body or "", advert.price_text or "")).casefold().split()
    return " ".join(words) if len(words) >= LEAST_WORDS_ALIKE else None


def _panel(told: Mapping[str, Any], bifacial: bool | None) -> dict[str, Any]:
    """A panel that is said to be one-sided has no light from behind, whatever its kind."""
    one_sided = {"bifaciality_share": 0.0} if bifacial is False and "bifaciality_share" not in told else {}
    return {**told, **one_sided}


def _within(told: Mapping[str, Any]) -> dict[str, Any]:
    """What a request would take: a figure out of its bounds was misread or mistyped, and counts as not told."""
    found: dict[str, Any] = {}
    for name, value in told.items():
        if isinstance(value, list):
            found[name] = [_within(one) for one in value]
        elif name not in BOUNDS or BOUNDS[name].low <= value <= BOUNDS[name].high:
            found[name] = value
    return found
