"""An "each" that belongs to watts, or to a price on request, makes no price of one piece."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def each(body):
    return read_advert(Advert(title="", body=body), WORDS).price.each


@pytest.mark.parametrize(
    "body",
    [
        "4 panels at 400 W each for £160",
        "4 Module mit je 400 W für 160 Euro",
        "4 panelen van elk 400 W voor 160 euro",
        "4 panneaux de 400 W chacun pour 160 €",
        "4 placas a 400 W cada una por 160 €",
        "4 pannelli da 400 W l'uno per 160 euro",
        "4 panele po 400 W każdy za 160 zł",
        "4 painéis com 400 W cada um por 160 €",
        "4 panely každý 400 W za 160 Kč",
        "4 paneler på 400 W hver for 160 kr.",
        "4 Module 400 W, Stückpreis auf Anfrage, Festpreis 160 Euro",
        "4 panelen 400 W, stukprijs op aanvraag, vaste prijs 160 euro",
        "4 pannelli 400 W, prezzo singolo su richiesta, prezzo fisso 160 euro",
        "4 panely 400 W, cena za kus na dotaz, pevná cena 160 Kč",
    ],
)
def test_an_amount_that_is_for_all_is_not_read_for_one(body):
    assert each(body) in {40, None}


def test_what_stands_behind_for_is_asked_for_all():
    assert each("4 panels at 400 W each for £160") == 40


@pytest.mark.parametrize("body", ["4 Module 400 W, zwei Stück 90 Euro, alle vier 160 Euro"])
def test_a_price_of_two_is_not_that_of_one(body):
    assert each(body) in {45, 40, None}


@pytest.mark.parametrize(
    "body",
    [
        "4 panels at 400 W for £40 each",
        "4 panels 400 W each for £40 each or £150 the lot",
        "4 Module mit je 400 W für je 40 Euro",
        "4 Module 400 W das Stück für 40 Euro",
        "4 Module 400 W, Stückpreis 40 Euro, Festpreis",
        "4 Module 400 W, ein Stück 40 Euro, alle vier 150 Euro",
        "4 pannelli da 400 W a 40 euro l'uno",
        "4 panele po 400 W, po 40 zł za sztukę",
        "4 panelen 400 W, stukprijs 40 euro",
        "4 paneler 400 W, stykpris 40 kr.",
    ],
)
def test_an_amount_for_one_stays_so(body):
    assert each(body) == 40
