"""Of counted goods some are sold: how many are left?"""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())
TWELVE_OF_WHICH_FIVE_ARE_SOLD = (
    "I have 12 panels 300 W, 5 already sold. £40 each",
    "12 solar panels 300 W (5 sold), £40 each",
    "12 panels 300 W, 5 sold, 7 left, £40 each",
    "Only 7 of 12 left, panels 300 W, £40 each",
    "Habe 12 Module 300 W, davon 5 bereits verkauft, je 40 €",
    "12 panelen 300 Wp waarvan 5 verkocht, 40 euro per stuk",
    "12 panneaux 300 W dont 5 vendus, 40 € pièce",
    "12 placas 300 W, vendidas 5, 40 € cada una",
    "12 pannelli 300 W di cui 5 già venduti, 40 € l'uno",
    "12 paneli 300 W, 5 już sprzedanych, 150 zł szt.",
    "12 painéis 300 W, 5 já vendidos, 40 € cada",
    "12 panelů 300 W, 5 už prodáno, 900 Kč kus",
    "12 paneler 300 W, 5 er solgt, 300 kr. stk.",
)

TWELVE_AND_OTHERS_SOLD = (
    "12 panels 300 W, £40 each, 2 batteries already sold",
    "12 panels 300 W, 2 inverters sold, £40 each",
    "12 panels 300 W, £40 each, 2 ladders sold",
    "12 Module 300 W, je 40 Euro, 2 Wechselrichter schon verkauft",
    "12 panelen 300 W 40 euro per stuk, 3 beugels verkocht",
    "12 panneaux 300 W 40 € pièce, les 2 onduleurs sont vendus",
    "12 placas 300 W 40 € cada una, 3 baterías ya vendidas",
    "12 pannelli 300 W 40 € l'uno, 3 batterie già vendute",
    "12 paneli 300 W po 150 zł, 3 akumulatory już sprzedane",
    "12 painéis 300 W 40 € cada, 2 inversores já vendidos",
    "12 panelů 300 W 1000 Kč kus, 2 baterie už prodané",
    "12 paneler 300 W 400 kr stk, 3 batterier er solgt",
)


@pytest.mark.parametrize("text", TWELVE_AND_OTHERS_SOLD)
def test_other_things_that_are_sold_take_none_away(text):
    assert read_advert(Advert(title="", body=text), WORDS).quantity_available == 12


def test_the_goods_named_again_are_taken_away():
    reading = read_advert(Advert(title="", body="12 Module 300 W, je 40 €, 5 Module verkauft"), WORDS)

    assert reading.quantity_available == 7


@pytest.mark.parametrize("text", TWELVE_OF_WHICH_FIVE_ARE_SOLD)
def test_what_is_sold_is_not_offered(text):
    reading = read_advert(Advert(title="", body=text), WORDS)

    assert (reading.kind, reading.quantity_available) == ("panel", 7)
    assert "sold" not in reading.doubts


def test_sold_so_many_at_a_time_takes_none_away():
    reading = read_advert(Advert(title="", body="12 panels 300 W, sold 3 at a time, £40 each"), WORDS)

    assert reading.quantity_available == 12
